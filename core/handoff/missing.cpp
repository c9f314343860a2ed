#include "core/handoff/missing.h"

#include <algorithm>

namespace rodway {
namespace {

bool is_there(const std::optional<std::string>& text) {
    return text && !text->empty();
}

bool any_reading(const TakenReadings& readings, const std::vector<std::string_view>& quantities) {
    return std::any_of(quantities.begin(), quantities.end(), [&](std::string_view quantity) {
        const auto taken = readings.of(quantity);
        return std::any_of(taken.begin(), taken.end(), [](const Taken& one) {
            return one.value.said != Said::blank && one.value.said != Said::not_measured;
        });
    });
}

class MissingFinder {
  public:
    explicit MissingFinder(const HandoffRecords& records)
        : records_(records), work_(records.work.records) {}

    std::vector<MissingFact> find() {
        rods();
        whose();
        settings();
        sheets();
        stages();
        parts();
        hand_off();
        photos();
        for (const Approval& one : work_.approvals) {
            if (one.answer == ApprovalAnswer::asked) {
                add(MissingKind::question_open, RecordRef{RecordKind::approval, one.id});
            }
        }
        return std::move(found_);
    }

  private:
    void add(MissingKind kind, std::optional<RecordRef> record = {}) {
        found_.push_back({kind, record, {}, SettingsTopic::lash, 0});
    }

    void rods() {
        for (const MissingKind kind :
             {MissingKind::rod_touches, MissingKind::rod_fails, MissingKind::rod_undecided}) {
            std::string valves;
            for (const auto& [valve, verdict] : records_.rods) {
                if (!(verdict && is_pass(*verdict)) && kind_of(verdict) == kind) {
                    valves += (valves.empty() ? "" : " ") + position_name(valve);
                }
            }
            if (!valves.empty()) {
                add(kind);
                found_.back().subject = valves;
            }
        }
    }
    [[nodiscard]] static MissingKind kind_of(const std::optional<Verdict>& verdict) {
        return verdict == Verdict::contact  ? MissingKind::rod_touches
               : verdict == Verdict::failed ? MissingKind::rod_fails
                                            : MissingKind::rod_undecided;
    }

    void whose() {
        const bool named = std::any_of(records_.shop.begin(), records_.shop.end(),
                                       [](const ShopDetail& one) { return one.name == "name"; });
        if (!named) add(MissingKind::shop_name);
        if (!work_.build.customer_id) {
            add(MissingKind::customer, RecordRef{RecordKind::build, work_.build.id});
        }
        if (!records_.has_engine) add(MissingKind::engine);
    }

    void settings() {
        for (const SettingsGroup& group : settings_groups()) {
            if (group.wanted.empty() || any_reading(records_.readings, group.wanted)) {
                continue;
            }
            add(MissingKind::settings);
            found_.back().topic = group.topic;
            found_.back().subject = group.wanted.front();
        }
    }

    void sheets() {
        for (const SheetStanding& sheet : records_.work.sheets) {
            const int empty = sheet.boxes_to_fill - sheet.boxes_filled;
            if (sheet.boxes_filled > 0 && empty > 0) {
                add(MissingKind::sheet_incomplete);
                found_.back().subject = sheet.kind;
                found_.back().count = empty;
            }
        }
    }

    [[nodiscard]] bool begun(const Stage& stage) const {
        return std::any_of(work_.steps.begin(), work_.steps.end(), [&](const Step& step) {
            return step.stage_id == stage.id && step.ticked_at.has_value();
        });
    }
    [[nodiscard]] bool has_gate(const Stage& stage) const {
        return std::any_of(work_.gates.begin(), work_.gates.end(),
                           [&](const Gate& gate) { return gate.stage_id == stage.id; });
    }

    void stages() {
        std::vector<MissingFact> overtaken;
        for (const Stage& stage : work_.stages) {
            const RecordRef record{RecordKind::stage, stage.id};
            const SignOff* newest = nullptr;
            for (const SignOff& one : work_.sign_offs) {
                if (one.stage_id == stage.id && !one.withdrawn_at) newest = &one;
            }
            if (newest == nullptr) {
                if (begun(stage) && has_gate(stage)) add(MissingKind::stage_unsigned, record);
                continue;
            }
            const auto& ids = records_.work.overtaken;
            if (std::find(ids.begin(), ids.end(), newest->id) != ids.end()) {
                overtaken.push_back(
                    {MissingKind::sign_off_overtaken, record, {}, SettingsTopic::lash, 0});
            }
        }
        found_.insert(found_.end(), overtaken.begin(), overtaken.end());
    }

    void parts() {
        for (const PartRecord& part : work_.parts) {
            if (part.fitted && !is_there(part.size) && !is_there(part.marking) &&
                !is_there(part.length)) {
                add(MissingKind::part_without_size, RecordRef{RecordKind::part, part.id});
            }
        }
    }

    void hand_off() {
        if (!is_there(records_.service_dates)) add(MissingKind::service_dates);
        if (!any_reading(records_.readings, {"seal_numbers"})) add(MissingKind::seals);
        if (!any_reading(records_.readings, {"pull_torque", "pull_power"})) {
            add(MissingKind::no_pull);
        }
    }

    void photos() {
        std::vector<const Photo*> chosen;
        for (const Photo& photo : records_.photos) {
            if (photo.in_book) chosen.push_back(&photo);
        }
        if (chosen.empty()) add(MissingKind::no_photo);
        for (const Photo* photo : chosen) {
            if (!is_there(photo->caption)) {
                add(MissingKind::photo_without_words, RecordRef{RecordKind::photo, photo->id});
            }
        }
        for (const Photo* photo : chosen) {
            const auto& gone = records_.photos_gone;
            if (std::find(gone.begin(), gone.end(), photo->id) != gone.end()) {
                add(MissingKind::photo_gone, RecordRef{RecordKind::photo, photo->id});
            }
        }
    }

    const HandoffRecords& records_;
    const BuildFacts& work_;
    std::vector<MissingFact> found_;
};

} // namespace

std::vector<MissingFact> missing_for_book(const HandoffRecords& records) {
    return MissingFinder(records).find();
}

} // namespace rodway
