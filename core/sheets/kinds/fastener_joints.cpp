#include "core/sheets/kinds/fastener_joints.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <set>

namespace rodway {
namespace {

using Part = PlacePart;

constexpr std::array<std::string_view, 7> of_bolts{
    "fastener_torque",       "fastener_angle",     "fastener_stretch", "fastener_free_length",
    "fastener_tight_length", "fastener_lubricant", "fastener_reused"};

int whole(const std::string& text) {
    int number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

/// "main 2": the joint's word, and which of its caps; 0 if it has none, or none is named.
struct JointName {
    std::string word;
    int cap = 0;
};
JointName name_of(const SheetPosition& place) {
    const std::string joint = place.part(Part::joint).value_or("");
    const std::size_t digits = joint.find_first_of("0123456789");
    if (digits == std::string::npos) {
        return {joint, 0};
    }
    return {joint.substr(0, digits - 1), whole(joint.substr(digits))};
}

SheetPosition with_joint(Place place, const std::string& joint, const std::string& bank) {
    SheetPosition position{place, {}};
    if (!joint.empty()) {
        position.parts[Part::joint] = joint;
    }
    if (!bank.empty()) {
        position.parts[Part::bank] = bank;
    }
    return position;
}

/// What holds a joint together in the log: its word, its bank, and where its steps are written.
using JointKey = std::array<std::string, 3>;

/// What was written of a joint's bolts.
struct Written {
    std::set<int> caps;
    int greatest = 0;
};

class Joints {
  public:
    Joints(const TakenReadings& readings, const EnginePlaces* places)
        : readings_(readings), places_(places) {}

    std::vector<LoggedJoint> all(bool with_counted) {
        for (const std::string_view quantity : of_bolts) {
            for (const Taken& taken : readings_.of(quantity)) {
                note(taken.place);
            }
        }
        if (with_counted) {
            note_counted();
        }
        std::vector<LoggedJoint> joints;
        for (const auto& [key, written] : written_) {
            joints.push_back(joint_of(key, written));
        }
        return joints;
    }

  private:
    [[nodiscard]] JointKey key_of(const SheetPosition& place) const {
        const Taken* steps = said_of_joint(readings_, "joint_steps", place);
        return {name_of(place).word, place.part(Part::bank).value_or(""),
                steps == nullptr ? std::string() : sheet_position_text(steps->place)};
    }

    void note(const SheetPosition& place) {
        Written& written = written_[key_of(place)];
        written.caps.insert(name_of(place).cap);
        written.greatest = std::max(written.greatest, whole(place.part(Part::bolt).value_or("0")));
    }

    void note_counted() {
        for (const Taken& counted : readings_.of("joint_bolts")) {
            const JointName name = name_of(counted.place);
            const bool of_all_caps = name.cap == 0 && (name.word == "main" || name.word == "rod");
            if (counted.range() && !of_all_caps) {
                written_[key_of(counted.place)].caps.insert(name.cap);
            }
        }
    }

    /// Caps of the same joint that nobody has written of, but that must be there.
    void add_caps(const JointKey& key, std::set<int>& caps) const {
        if (*caps.rbegin() == 0) {
            return;
        }
        std::set<int> there;
        for (int cap = 1; cap <= *caps.rbegin(); ++cap) {
            there.insert(cap);
        }
        if (key[0] == "rod" && places_ != nullptr) {
            there.insert(places_->cylinders.begin(), places_->cylinders.end());
        }
        for (const int cap : there) {
            const SheetPosition place =
                with_joint(Place::bolt, key[0] + ' ' + std::to_string(cap), key[1]);
            if (key_of(place) == key) {
                caps.insert(cap);
            }
        }
    }

    [[nodiscard]] LoggedJoint joint_of(const JointKey& key, Written written) const {
        LoggedJoint joint;
        joint.word = key[0];
        add_caps(key, written.caps);
        joint.caps = *written.caps.rbegin() > 0;
        for (const int cap : written.caps) {
            const std::string name = cap == 0 ? key[0] : key[0] + ' ' + std::to_string(cap);
            SheetPosition place = with_joint(Place::bolt, name, key[1]);
            const Taken* counted = said_of_joint(readings_, "joint_bolts", place);
            const auto count = counted == nullptr ? std::nullopt : counted->range();
            const int bolts =
                std::max(written.greatest, count ? static_cast<int>(count->middle()) : 0);
            for (int number = 1; number <= bolts; ++number) {
                place.parts[Part::bolt] = std::to_string(number);
                joint.bolts.push_back({place, number});
            }
        }
        return joint;
    }

    const TakenReadings& readings_;
    const EnginePlaces* places_;
    std::map<JointKey, Written> written_;
};

} // namespace

std::string LoggedBolt::position_in(int pass) const {
    SheetPosition in_pass = place;
    in_pass.place = Place::bolt_pass;
    in_pass.parts[Part::pass] = std::to_string(pass);
    return sheet_position_text(in_pass);
}

const Taken* said_of_joint(const TakenReadings& readings, std::string_view quantity,
                           const SheetPosition& place) {
    const std::string joint = place.part(Part::joint).value_or("");
    const std::string bank = place.part(Part::bank).value_or("");
    const std::string word = name_of(place).word;
    for (const auto& [name, at_bank] :
         {std::pair{joint, bank}, {joint, std::string()}, {word, bank}, {word, std::string()}}) {
        const SheetPosition candidate = with_joint(Place::joint, name, at_bank);
        if (const Taken* said = readings.at(quantity, sheet_position_text(candidate))) {
            return said;
        }
    }
    return nullptr;
}

std::vector<LoggedJoint> logged_joints(const TakenReadings& readings, const EnginePlaces* places) {
    return Joints(readings, places).all(false);
}

std::vector<LoggedJoint> known_joints(const TakenReadings& readings, const EnginePlaces* places) {
    return Joints(readings, places).all(true);
}

} // namespace rodway
