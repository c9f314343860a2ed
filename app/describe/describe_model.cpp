#include "app/describe/describe_model.h"

#include <algorithm>

namespace rodway {

DescribeModel::DescribeModel(QObject* parent) : QObject(parent) {}

void DescribeModel::clear() {
    fields_.clear();
    description_.reset();
    missing_.clear();
    worth_.reset();
    trouble_.reset();
}

void DescribeModel::set_fields(const SetUpFields& fields) {
    if (fields == fields_) {
        return;
    }
    fields_ = fields;
    description_.reset();
    missing_.clear();
    trouble_.reset();
    if (!is_described(fields_)) {
        return;
    }
    const auto read = Description::read(fields_);
    if (!read) {
        trouble_ = read.error();
        return;
    }
    description_ = *read;
    missing_ = missing_sizes(*description_, fields_);
    if (!missing_.empty()) {
        worth_.reset();
        return;
    }
    // One request at a time works: each asks the one before to stop, and they run in one thread.
    request_.ask<Result<DescriptionWorth>>(
        [fields, made = made_](std::stop_token stop) {
            return description_worth(fields, *made, stop);
        },
        [this, fields](Result<DescriptionWorth> answer) {
            if (fields != fields_) {
                return; // of a set-up that has changed since
            }
            if (answer) {
                worth_ = *answer;
            } else {
                trouble_ = answer.error();
                worth_.reset();
            }
            emit answered();
        });
}

const SizeWorth* DescribeModel::worth_of(const EngineDimension& dimension,
                                         const std::string& owner) const {
    if (!worth_) {
        return nullptr;
    }
    for (const SizeWorth& one : worth_->sizes) {
        if (one.dimension == &dimension && one.size.owner == owner) {
            return &one;
        }
    }
    return nullptr;
}

namespace {

bool owns(const std::string& owner, const DescribedValve& valve) {
    const std::string kind = valve.position.kind == ValveKind::intake ? "intake" : "exhaust";
    return owner == kind || owner == valve.bank || owner == position_name(valve.position);
}

} // namespace

bool DescribeModel::has(const EngineDimension& dimension, const std::string& owner) const {
    return description_ && std::any_of(description_->valves().begin(), description_->valves().end(),
                                       [&](const DescribedValve& valve) {
                                           return owns(owner, valve) &&
                                                  description_->has(dimension, valve);
                                       });
}

std::optional<DescribedSize> DescribeModel::stand(const EngineDimension& dimension,
                                                  const std::string& owner) const {
    if (!description_) {
        return std::nullopt;
    }
    for (const DescribedValve& valve : description_->valves()) {
        if (!owns(owner, valve)) {
            continue;
        }
        const auto size = description_->size(dimension, valve);
        if (size && (size->owner == owner || size->stand == SizeStand::given)) {
            return *size;
        }
    }
    return std::nullopt;
}

} // namespace rodway
