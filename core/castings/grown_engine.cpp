#include "core/castings/grown_engine.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <type_traits>

#include "core/clearance/engine_parameter.h"

namespace rodway {
namespace {

bool holds_rods(const Engine& engine, Casting casting) {
    const auto of_casting = [&](const Passage& passage) { return passage.casting == casting; };
    return std::any_of(engine.trains.begin(), engine.trains.end(),
                       [&](const Train& train) {
                           return of_casting(train.tube) ||
                                  std::any_of(train.further_passages.begin(),
                                              train.further_passages.end(), of_casting);
                       }) ||
           std::any_of(engine.obstacles.begin(), engine.obstacles.end(),
                       [&](const Obstacle& obstacle) { return obstacle.casting == casting; });
}

bool bank_has_train(const Engine& engine, std::size_t bank) {
    return std::any_of(engine.trains.begin(), engine.trains.end(),
                       [&](const Train& train) { return train.bank == bank; });
}

/// Middle of some cylinders along the crank: of one bank's, or of all.
double middle_x_mm(const EngineLayout& layout, std::optional<std::size_t> bank) {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const Cylinder& cylinder : layout.cylinders) {
        if (!bank || cylinder.bank == *bank) {
            low = std::min(low, cylinder.centre_x_mm);
            high = std::max(high, cylinder.centre_x_mm);
        }
    }
    return low <= high ? (low + high) / 2.0 : 0.0;
}

/// Whether an engine has such a part that bears on its rods; `intake`: some pass or lie beside one.
bool is_there(const Engine& engine, HotPart part, bool intake) {
    const auto has = [&](ValveKind kind) {
        return std::any_of(engine.trains.begin(), engine.trains.end(),
                           [&](const Train& train) { return train.position.kind == kind; });
    };
    switch (part) {
        case HotPart::intake:
        case HotPart::intake_gasket:
            return intake;
        case HotPart::intake_valve:
            return has(ValveKind::intake);
        case HotPart::exhaust_valve:
            return has(ValveKind::exhaust);
        default:
            return true;
    }
}

HotPart valve_of(ValveKind kind) {
    return kind == ValveKind::intake ? HotPart::intake_valve : HotPart::exhaust_valve;
}

double grown(double size, double strain) {
    return size * (1.0 + strain);
}

/// A bore that has gone by a vector and grown about its middle.
void grow_bore(Bore& bore, const Vec3& gone_K, double strain) {
    bore.centre_K += gone_K;
    for (double* size : {&bore.length_mm, &bore.bore_radius_mm, &bore.half_straight_mm,
                         &bore.top_edge_radius_mm, &bore.bottom_edge_radius_mm}) {
        *size = grown(*size, strain);
    }
}

/// A solid each point of which has gone where `gone_K` says, its sizes grown.
template <typename Gone>
void grow_solid(Solid& solid, const Gone& gone_K, double strain) {
    std::visit(
        [&](auto& shape) {
            using Shape = std::decay_t<decltype(shape)>;
            if constexpr (std::is_same_v<Shape, HalfSpace>) {
                shape.point_K += gone_K(shape.point_K);
            } else if constexpr (std::is_same_v<Shape, Cuboid>) {
                shape.centre_K += gone_K(shape.centre_K);
                shape.half_sizes_mm *= 1.0 + strain;
            } else {
                shape.from_K += gone_K(shape.from_K);
                shape.to_K += gone_K(shape.to_K);
                shape.radius_mm = grown(shape.radius_mm, strain);
            }
        },
        solid);
}

/// Where the castings of an engine go as they warm.
class Growing {
  public:
    Growing(const Engine& cold, const HotStated& stated, const PartStrains& strains)
        : cold_(cold), stated_(stated), strains_(strains), hot_(cold) {}

    Engine engine(const std::vector<std::optional<Train>>& as_set) {
        raise_heads();
        gain_at_faces();
        hot_.intake.lobe = hot_.intake.lobe.scaled(1.0 + of(HotPart::camshaft));
        hot_.exhaust.lobe = hot_.exhaust.lobe.scaled(1.0 + of(HotPart::camshaft));
        for (auto& [valve, lobes] : hot_.own_lobes) {
            lobes.lobe = lobes.lobe.scaled(1.0 + of(HotPart::camshaft));
        }
        for (std::size_t at = 0; at < hot_.trains.size(); ++at) {
            const Train& set = as_set[at] ? *as_set[at] : cold_.trains[at];
            hot_.trains[at] = train(set);
        }
        for (Obstacle& obstacle : hot_.obstacles) {
            const auto gone = [&](const Vec3& point_K) {
                return own_growth_K(obstacle.casting, obstacle.bank,
                                    point_K + moved_K(obstacle.casting, obstacle.bank));
            };
            grow_solid(obstacle.solid, gone, of_casting(obstacle.casting));
        }
        return std::move(hot_);
    }

  private:
    [[nodiscard]] double of(HotPart part) const { return strains_[static_cast<std::size_t>(part)]; }
    [[nodiscard]] double of_casting(Casting casting) const {
        return of(casting == Casting::head     ? HotPart::head
                  : casting == Casting::intake ? HotPart::intake
                                               : HotPart::block);
    }
    [[nodiscard]] double deck_mm(std::size_t bank) const {
        return stated_.deck_height_mm[bank].value_or(0.0);
    }
    [[nodiscard]] double head_gasket_mm(std::size_t bank) const {
        const double stated = cold_.heads.of(bank).gasket_mm;
        return stated > 0.0 ? stated : stated_.head_gasket_mm.value_or(0.0);
    }
    /// What the head's deck face goes by along the cylinders.
    [[nodiscard]] double raised_mm(std::size_t bank) const {
        return of(HotPart::block) * deck_mm(bank) + of(HotPart::head_gasket) * head_gasket_mm(bank);
    }
    void raise_heads() {
        for (std::size_t bank = 0; bank < cold_.layout.banks.size(); ++bank) {
            HeadSetting head = cold_.heads.of(bank);
            head.gasket_mm += raised_mm(bank);
            hot_.set_head(bank, head);
        }
    }

    /// What of a head stays where block and gasket have carried it. Bank frame.
    [[nodiscard]] Vec3 held_at_K(std::size_t bank) const {
        return {middle_x_mm(cold_.layout, bank), 0.0, deck_mm(bank) + head_gasket_mm(bank)};
    }
    /// How far a point of the head goes besides what its gasket raises it.
    [[nodiscard]] Vec3 head_growth_K(std::size_t bank, const Vec3& point_K) const {
        const Vec3 held_K = held_at_K(bank);
        return of(HotPart::head) * (point_K - held_K) +
               of(HotPart::block) * held_K.x() * Vec3::UnitX();
    }
    [[nodiscard]] bool on_one_face(std::size_t bank) const {
        std::size_t faces = 0;
        for (std::size_t at = 0; at < cold_.flanges.size(); ++at) {
            faces += cold_.flanges[at] && (cold_.one_intake_for_all || at == bank) ? 1 : 0;
        }
        return faces < 2;
    }
    /// What of the intake stays where it is, but for how it lies on its faces. Bank frame.
    [[nodiscard]] Vec3 intake_middle_K(std::size_t bank) const {
        return cold_.layout.banks[bank].frame.from_block(
            Vec3(middle_x_mm(cold_.layout, std::nullopt), 0.0, 0.0));
    }
    /// From the crank's axis to the intake's own flange, along the normal.
    [[nodiscard]] double flange_at_mm(std::size_t bank) const {
        const FlangeSetting& flange = *cold_.flanges[bank];
        return stated_.intake_face_mm[bank].value_or(0.0) + flange.gasket_mm + flange.spacer_mm;
    }

    /// What stands between a head and the intake's flange more than before, as if it were gasket:
    /// the head's face has come nearer by its own growth, the gasket is thicker, and the intake
    /// reaches farther itself.
    void gain_at_faces() {
        for (std::size_t bank = 0; bank < hot_.flanges.size(); ++bank) {
            if (!hot_.flanges[bank]) {
                continue;
            }
            FlangeSetting& flange = *hot_.flanges[bank];
            const Vec3& n = flange.normal_K;
            const double face_mm = stated_.intake_face_mm[bank].value_or(0.0);
            double gained_mm = n.dot(head_growth_K(bank, face_mm * n)) +
                               of(HotPart::intake_gasket) * (flange.gasket_mm + flange.spacer_mm);
            if (!on_one_face(bank)) {
                gained_mm -=
                    of(HotPart::intake) * (flange_at_mm(bank) - n.dot(intake_middle_K(bank)));
            }
            flange.gasket_mm += gained_mm;
        }
    }

    [[nodiscard]] Vec3 intake_growth_K(std::size_t bank, const Vec3& point_K) const {
        if (bank < cold_.flanges.size() && cold_.flanges[bank] && on_one_face(bank)) {
            const Vec3& n = cold_.flanges[bank]->normal_K;
            const Vec3 on_face_K = point_K + (flange_at_mm(bank) - n.dot(point_K)) * n;
            // Along its face it goes with the head; off it `gain_at_faces` has put it.
            const Vec3 head_K = head_growth_K(bank, on_face_K) + raised_mm(bank) * Vec3::UnitZ();
            return head_K - n.dot(head_K) * n + of(HotPart::intake) * (point_K - on_face_K);
        }
        const Vec3 middle_K = intake_middle_K(bank);
        return of(HotPart::intake) * (point_K - middle_K) +
               of(HotPart::block) * middle_K.x() * Vec3::UnitX();
    }
    /// How far a casting's point, where it stands cold, goes besides the whole casting's movement.
    [[nodiscard]] Vec3 own_growth_K(Casting casting, std::size_t bank, const Vec3& point_K) const {
        switch (casting) {
            case Casting::head:
                return head_growth_K(bank, point_K);
            case Casting::intake:
                return intake_growth_K(bank, point_K);
            case Casting::block:
                break;
        }
        return of(HotPart::block) * point_K;
    }
    /// What a casting has moved by, cold, since its places were taken.
    [[nodiscard]] Vec3 moved_K(Casting casting, std::size_t bank) const {
        const auto moved = cold_.casting_movement_K(casting, bank);
        return moved ? *moved : Vec3(Vec3::Zero());
    }

    [[nodiscard]] Train train(const Train& set) const {
        Train hot = set;
        grow_lifter(hot);
        grow_rod(hot.rod);
        grow_rocker(hot);
        for (Passage* passage : passages(hot)) {
            const Vec3 stands_K = passage->bore.centre_K + moved_K(passage->casting, hot.bank);
            grow_bore(passage->bore, own_growth_K(passage->casting, hot.bank, stands_K),
                      of_casting(passage->casting));
        }
        return hot;
    }
    static std::vector<Passage*> passages(Train& train) {
        std::vector<Passage*> all{&train.tube};
        for (Passage& passage : train.further_passages) {
            all.push_back(&passage);
        }
        return all;
    }

    void grow_lifter(Train& train) const {
        Lifter& lifter = train.lifter;
        const Vec3 base_circle_K =
            cold_.lobes(train.position).base_circle_radius_mm * lifter.axis_K;
        lifter.foot_K += of(HotPart::block) * (lifter.foot_K - base_circle_K) +
                         of(HotPart::camshaft) * base_circle_K;
        lifter.seat_height_mm = grown(lifter.seat_height_mm, of(HotPart::lifter));
        for (auto* size : {&lifter.body_diameter_mm, &lifter.body_length_mm}) {
            if (*size) {
                **size = grown(**size, of(HotPart::lifter));
            }
        }
    }
    void grow_rod(Pushrod& rod) const {
        const double strain = of(HotPart::rod);
        rod.length_mm = grown(rod.length_mm, strain);
        rod.diameter_mm = grown(rod.diameter_mm, strain);
        for (RodSection& section : rod.profile) {
            for (double* size : {&section.from_mm, &section.to_mm, &section.diameter_from_mm,
                                 &section.diameter_to_mm}) {
                *size = grown(*size, strain);
            }
        }
    }

    /// The rocker stands as it did, its pivot and arms grown; what that and the valve's own growth
    /// do to the gap is put to the lash, and closing the train says what the rod leaves of it.
    void grow_rocker(Train& train) const {
        Rocker& rocker = train.rocker;
        const Vec3& v = train.valve.axis_K;
        const Vec3 tip_cold_K = rocker.pivot_K + rocker.tip_arm_K;
        const double length_mm = stated_.seat_to_tip_mm.at(train.position).value_or(0.0);
        const Vec3 raised_K = raised_mm(train.bank) * Vec3::UnitZ();
        // The roller's radius, or the pad's, is left out: a head grows by hardly more over it.
        const Vec3 seat_K = tip_cold_K - (train.valve.lash_mm + length_mm) * v;
        const double tip_gone_mm = v.dot(raised_K + head_growth_K(train.bank, seat_K)) +
                                   of(valve_of(train.position.kind)) * length_mm;
        rocker.pivot_K += raised_K + head_growth_K(train.bank, rocker.pivot_K);
        rocker.ball_arm_K *= 1.0 + of(HotPart::rocker);
        rocker.tip_arm_K *= 1.0 + of(HotPart::rocker);
        if (rocker.body_K) {
            rocker.body_K->from_K *= 1.0 + of(HotPart::rocker);
            rocker.body_K->to_K *= 1.0 + of(HotPart::rocker);
            rocker.body_K->radius_mm = grown(rocker.body_K->radius_mm, of(HotPart::rocker));
        }
        const double opened_mm =
            v.dot(rocker.pivot_K + rocker.tip_arm_K - tip_cold_K) - tip_gone_mm;
        if (train.valve.tip_K) {
            *train.valve.tip_K += tip_gone_mm * v;
        }
        if (train.lifter.kind == LifterKind::hydraulic) {
            lay_on_valve(train, -opened_mm);
        } else {
            train.valve.lash_mm += opened_mm;
        }
    }
    /// A hydraulic lifter keeps the rocker on its valve: its tip goes by so much along the valve.
    void lay_on_valve(Train& train, double along_valve_mm) const {
        // Lowered with the pivot and brought back by a change that lets the tip stay.
        const double by_mm = along_valve_mm / train.valve.axis_K.z();
        Train moved = train;
        moved.rocker.pivot_K.z() += by_mm;
        if (const auto laid = with_change(moved, ParameterKind::pivot_height, -by_mm,
                                          cold_.outboard_y_sign(train))) {
            train = *laid;
        }
    }

    const Engine& cold_;
    const HotStated& stated_;
    const PartStrains& strains_;
    Engine hot_;
};

/// A rocker's body turned as its arm was, about the shaft's axis.
void turn_body(Capsule& body, const Vec3& axis_K, const Vec3& arm_before_K, const Vec3& arm_now_K) {
    const Vec3 before = unit_across(arm_before_K, axis_K);
    const Vec3 now = unit_across(arm_now_K, axis_K);
    const double angle = std::atan2(axis_K.dot(before.cross(now)), before.dot(now));
    const Eigen::AngleAxisd turn(angle, axis_K);
    body.from_K = turn * body.from_K;
    body.to_K = turn * body.to_K;
}

} // namespace

std::vector<std::string> missing_to_grow(const Engine& engine, const HotStated& stated) {
    std::vector<std::string> missing;
    const bool intake = holds_rods(engine, Casting::intake);
    for (const HotPart part : hot_parts()) {
        const std::string path = std::string("hot/parts/") + hot_part_name(part);
        const PartWarmth& warmth = stated.of(part);
        const bool needed = is_there(engine, part, intake);
        if (needed && !warmth.metal && !warmth.expansion_per_K) {
            missing.push_back(path + "/metal");
        }
        if (needed && !warmth.temperature_degC) {
            missing.push_back(path + "/temperature");
        }
    }
    bool gasket = stated.head_gasket_mm.has_value();
    for (std::size_t bank = 0; bank < engine.layout.banks.size(); ++bank) {
        const std::string path = "hot/banks/" + engine.layout.banks[bank].name;
        const bool flange = bank < engine.flanges.size() && engine.flanges[bank];
        if (bank_has_train(engine, bank) && !stated.deck_height_mm[bank]) {
            missing.push_back(path + "/deck_height");
        }
        if (intake && flange && !stated.intake_face_mm[bank]) {
            missing.push_back(path + "/intake_face");
        }
        if (bank_has_train(engine, bank) && !gasket && !(engine.heads.of(bank).gasket_mm > 0.0)) {
            missing.push_back("hot/parts/head_gasket/thickness");
            gasket = true; // said once
        }
    }
    for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
        const bool short_of =
            std::any_of(engine.trains.begin(), engine.trains.end(), [&](const Train& train) {
                const auto found = stated.seat_to_tip_mm.find(train.position);
                return train.position.kind == kind &&
                       (found == stated.seat_to_tip_mm.end() || !found->second);
            });
        if (short_of) {
            missing.push_back(std::string("hot/valves/") +
                              (kind == ValveKind::intake ? "intake" : "exhaust") + "/seat_to_tip");
        }
    }
    return missing;
}

std::vector<std::optional<Train>> trains_as_set(const Engine& engine) {
    std::vector<std::optional<Train>> trains;
    for (const Train& train : engine.trains) {
        const auto closing = Linkage::close(train);
        if (!closing.linkage) {
            trains.emplace_back();
            continue;
        }
        Train set = train;
        set.adjuster.kind = AdjusterKind::none;
        set.rocker.pivot_K = closing.linkage->pivot_K();
        set.rocker.ball_arm_K = closing.linkage->ball_arm_K();
        set.rocker.tip_arm_K = closing.linkage->tip_arm_K();
        set.valve.lash_mm = closing.linkage->lash_mm();
        set.lifter.preload_mm = closing.linkage->preload_mm();
        trains.emplace_back(std::move(set));
    }
    return trains;
}

Engine grown_engine(const Engine& engine, const std::vector<std::optional<Train>>& as_set,
                    const HotStated& stated, const PartStrains& strains) {
    Engine hot = Growing(engine, stated, strains).engine(as_set);
    // A rocker's body is given as it stands on the heel, where a warm rocker has turned to its rod.
    for (Train& train : hot.trains) {
        const auto closing = train.rocker.body_K ? Linkage::close(train) : Linkage::Closing{};
        if (closing.linkage) {
            turn_body(*train.rocker.body_K, train.rocker.axis_K, train.rocker.ball_arm_K,
                      closing.linkage->ball_arm_K());
        }
    }
    return hot;
}

} // namespace rodway
