#include "core/describe/written_out.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/describe/described_tube.h"
#include "core/describe/description.h"
#include "core/engine/field_reader.h"
#include "core/geometry/frames.h"
#include "core/units/angle.h"
#include "core/units/length.h"
#include "core/valvetrain/rod_ends.h"

namespace rodway {
namespace {

/// Closer than this the side of the camshaft can't be told.
constexpr double least_beside_mm = 1.0;

/// Works out one train after another.
class Writer {
  public:
    Writer(const SetUpFields& fields, const Description& description)
        : reader_(fields), description_(description) {
        for (const auto& [path, value] : fields) {
            if (path.compare(0, 10, "described/") != 0) {
                out_.fields.emplace(path, value);
            }
        }
    }

    Result<WrittenOut> all() {
        for (const DescribedValve& valve : description_.valves()) {
            valve_ = &valve;
            path_ = "trains/" + position_name(valve.position);
            train();
            if (error_) {
                return *error_;
            }
            if (reader_.error()) {
                return *reader_.error();
            }
        }
        return out_;
    }

  private:
    // What is asked for ---------------------------------------------------------------------------

    DescribedSize size(std::string_view name) {
        const EngineDimension* dimension = dimension_called(name);
        RODWAY_ASSERT(dimension != nullptr);
        const auto found = description_.size(*dimension, *valve_);
        if (!found) {
            refuse(found.error());
            return {};
        }
        if (found->stand == SizeStand::missing) {
            refuse(
                bad_field(ErrorCode::missing_field, described_path(found->owner, *dimension), {}));
        }
        return *found;
    }
    double mm(std::string_view name) { return size(name).value; }
    double rad(std::string_view name) { return radians(size(name).value); }
    /// Where the size that counts was typed, or would be.
    std::string path_of(std::string_view name) {
        const DescribedSize found = size(name);
        return described_path(found.from.empty() ? found.owner : found.from,
                              *dimension_called(name));
    }
    void refuse(Error error) {
        if (!error_) {
            error_ = std::move(error);
        }
    }
    void refuse_mm(std::string_view name, double value_mm, double low_mm, double high_mm) {
        Error error = bad_field(ErrorCode::out_of_range, path_of(name),
                                plain_digits(value_mm / Length::mm_per_inch).substr(0, 6));
        error.limits = Limits{low_mm / Length::mm_per_inch, high_mm / Length::mm_per_inch, "in"};
        refuse(std::move(error));
    }

    // What is made --------------------------------------------------------------------------------

    void put(const std::string& path, TypedValue value, std::string_view from = {}) {
        if (!out_.fields.emplace(path, std::move(value)).second || from.empty()) {
            return;
        }
        out_.made_from.emplace(path, path_of(from));
    }
    void put_mm(const std::string& path, double value_mm, std::string_view from = {}) {
        put(path, {plain_digits(value_mm), "mm"}, from);
    }
    void put_point(const std::string& path, const Vec3& point_mm) {
        put_mm(path + "/x", point_mm.x());
        put_mm(path + "/y", point_mm.y());
        put_mm(path + "/z", point_mm.z());
    }
    void put_axis(const std::string& path, const Vec3& axis) {
        put(path + "/x", {plain_digits(axis.x()), {}});
        put(path + "/y", {plain_digits(axis.y()), {}});
        put(path + "/z", {plain_digits(axis.z()), {}});
    }

    // One train -----------------------------------------------------------------------------------

    void train() {
        place_along();
        place_camshaft();
        lifter();
        rod();
        rocker();
        if (!error_) {
            tube();
        }
    }

    void place_along() {
        const std::string cylinder = "cylinders/" + std::to_string(valve_->position.cylinder);
        centre_x_ = mm("first_cylinder") + valve_->in_row * mm("spacing");
        put_mm(cylinder + "/centre_x", centre_x_, "first_cylinder");
    }

    void place_camshaft() {
        const Vec3 cam_E(0.0, reader_.length_mm("camshaft/beside_crank"),
                         reader_.length_mm("camshaft/above_crank"));
        lean_deg_ = reader_.angle_deg("banks/" + valve_->bank + "/lean");
        cam_K_ = BankFrame(radians(lean_deg_)).from_block(cam_E);
        if (std::abs(cam_K_.y()) < least_beside_mm) {
            refuse(bad_field(ErrorCode::out_of_range, "camshaft/beside_crank",
                             reader_.has("camshaft/beside_crank")
                                 ? reader_.find("camshaft/beside_crank")->text
                                 : std::string()));
        }
        to_rods_ = cam_K_.y() < 0.0 ? -1.0 : 1.0;
    }

    void lifter() {
        const double base_radius = mm("base_circle") / 2.0;
        const double lean = rad("lifter_lean");
        const Vec3 axis(0.0, to_rods_ * std::sin(lean), std::cos(lean));
        Vec3 foot = cam_K_ + base_radius * axis;
        foot.x() = centre_x_ + valve_->side_x * mm("lifter_along");
        const double seat = mm("seat_height");
        rod_.lower_K = foot + seat * axis;
        const std::string lobe = std::string("lobes/") + kind_word();
        put_mm(lobe + "/base_circle_radius", base_radius, "base_circle");
        put_point(path_ + "/lifter/foot", foot);
        put_axis(path_ + "/lifter/axis", axis);
        put_mm(path_ + "/lifter/seat_height", seat, "seat_height");
        const std::string kind = description_.choice("lifter", *valve_);
        put(path_ + "/lifter/kind", {kind, {}});
        put(path_ + "/lifter/follower", {description_.choice("follower", *valve_), {}});
        if (kind == "hydraulic") {
            put_mm(path_ + "/lifter/preload", mm("preload"), "preload");
            put_mm(path_ + "/lifter/plunger_travel", mm("plunger_travel"), "plunger_travel");
        }
    }

    void rod() {
        Pushrod rod;
        const double overall = mm("rod_overall");
        const double ball = mm("rod_ball");
        const double diameter = mm("rod_diameter");
        if (error_) {
            return;
        }
        const bool cup = description_.choice("top_end", *valve_) == "cup";
        rod.lower_ball_diameter_mm = ball;
        rod.upper_ball_diameter_mm = cup ? mm("adjuster_ball") : ball;
        if (cup) {
            rod.cup_at_top = true;
            rod.cup_depth_mm = mm("cup_depth");
            if (error_) {
                return;
            }
            if (*rod.cup_depth_mm > *rod.upper_ball_diameter_mm) {
                refuse_mm("cup_depth", *rod.cup_depth_mm, dimension_called("cup_depth")->low,
                          *rod.upper_ball_diameter_mm);
                return;
            }
        }
        const auto centres = centres_length_mm(overall, rod, LengthDefinition::overall);
        if (!centres) {
            const double ends = *beyond_centres_mm(rod, LengthDefinition::overall);
            refuse_mm("rod_overall", overall, shortest_rod_mm + ends, longest_rod_mm + ends);
            return;
        }
        ends_mm_ = overall - *centres;
        length_mm_ = *centres;
        rod_.radius_mm = diameter / 2.0;
        put_rod_length(overall);
        put_mm(path_ + "/rod/lower_ball", ball, "rod_ball");
        put_mm(path_ + "/rod/upper_ball", *rod.upper_ball_diameter_mm,
               cup ? "adjuster_ball" : "rod_ball");
        if (cup) {
            put(path_ + "/rod/top_end", {"cup", {}});
            put_mm(path_ + "/rod/cup_depth", *rod.cup_depth_mm, "cup_depth");
            put_mm(path_ + "/rod/cup_outside", mm("cup_outside"), "cup_outside");
        }
        if (!out_.fields.contains(path_ + "/rod/profile")) {
            put_mm(path_ + "/rod/diameter", diameter, "rod_diameter");
        }
    }

    /// A rod told by another length keeps that one.
    void put_rod_length(double overall) {
        for (const char* other : {"/rod/length", "/rod/effective_length", "/rod/gauge_length"}) {
            if (out_.fields.contains(path_ + other)) {
                return;
            }
        }
        put_mm(path_ + "/rod/overall_length", overall, "rod_overall");
    }

    void rocker() {
        const double arm = mm("ball_arm");
        const Vec3 pivot(centre_x_ + valve_->side_x * mm("rocker_along"),
                         to_rods_ * mm("shaft_beside"),
                         mm("deck_height") + mm("head_gasket") + mm("shaft_above_head"));
        if (error_) {
            return;
        }
        const Vec3 ball_arm = ball_where_arm_and_rod_meet(pivot, arm);
        const double tip = mm("tip_arm");
        const double above = mm("tip_above_shaft");
        if (std::abs(above) >= tip) {
            refuse_mm("tip_above_shaft", above, -tip, tip);
        }
        const double lean = rad("valve_lean");
        if (error_) {
            return;
        }
        rod_.upper_K = pivot + ball_arm;
        const std::string path = path_ + "/rocker";
        const std::string mount = description_.choice("mount", *valve_);
        const std::string gasket = "banks/" + valve_->bank + "/head/gasket";
        if (!out_.fields.contains(gasket + "_new")) {
            put_mm(gasket, mm("head_gasket"), "head_gasket");
        }
        put_mm(gasket + "_when_located", mm("head_gasket"), "head_gasket");
        put(path + "/mount", {mount, {}});
        put_point(path + "/pivot", pivot);
        if (mount == "ball_pivot") {
            put(path + "/guided_by", {description_.choice("guided_by", *valve_), {}});
        } else {
            put_axis(path + "/axis", Vec3::UnitX());
        }
        put_point(path + "/ball_arm", ball_arm);
        put_point(path + "/tip_arm",
                  {0.0, -to_rods_ * std::sqrt(tip * tip - above * above), above});
        put_axis(path_ + "/valve/axis", {0.0, to_rods_ * std::sin(lean), std::cos(lean)});
        adjuster(mount);
    }

    /// Where the ball stands along the crank, across it the ball is on a circle about the shaft and
    /// on one about the seat; of the two places where they meet, the one towards the rods.
    Vec3 ball_where_arm_and_rod_meet(const Vec3& pivot, double arm) {
        const double offset = valve_->side_x * mm("ball_offset");
        const double along = pivot.x() + offset - rod_.lower_K.x();
        const Vec2 seat(rod_.lower_K.y() - pivot.y(), rod_.lower_K.z() - pivot.z());
        const double apart = seat.norm();
        const double reach = std::sqrt(std::max(0.0, length_mm_ * length_mm_ - along * along));
        const double near = (arm * arm - reach * reach + apart * apart) / (2.0 * apart);
        const double aside = arm * arm - near * near;
        if (!(aside > 0.0)) {
            const auto rod_for = [&](double in_plane) {
                return std::hypot(in_plane, along) + ends_mm_;
            };
            refuse_mm("rod_overall", length_mm_ + ends_mm_, rod_for(std::abs(apart - arm)),
                      rod_for(apart + arm));
            return Vec3::Zero();
        }
        const Vec2 towards = seat / apart;
        const Vec2 across(-towards.y(), towards.x());
        const Vec2 one = near * towards + std::sqrt(aside) * across;
        const Vec2 other = near * towards - std::sqrt(aside) * across;
        const Vec2 ball = to_rods_ * one.x() > to_rods_ * other.x() ? one : other;
        return {offset, ball.x(), ball.y()};
    }

    void adjuster(const std::string& mount) {
        // Of thread nobody has measured anything yet: as much as such screws have.
        constexpr double usual_thread_mm = 0.15 * Length::mm_per_inch;
        const std::string path = path_ + "/adjuster";
        const bool stud = mount != "shaft";
        put(path + "/kind", {stud ? "nut" : "screw", {}});
        put_axis(path + "/axis",
                 stud ? Vec3(-Vec3::UnitZ()) : Vec3((rod_.lower_K - rod_.upper_K).normalized()));
        put_mm(path + "/thread_towards_rod", usual_thread_mm);
        put_mm(path + "/thread_away_from_rod", usual_thread_mm);
    }

    void tube() {
        TubeOnRod on_rod{mm("tube_length"), mm("tube_bore"), mm("tube_below_ball"),
                         outboard_y_sign()};
        const bool obround = description_.choice("tube_shape", *valve_) == "obround";
        if (obround) {
            on_rod.long_bore_mm = mm("tube_long_bore");
            on_rod.long_along_crank = description_.choice("tube_long", *valve_) == "along_crank";
        }
        if (error_) {
            return;
        }
        if (obround && *on_rod.long_bore_mm < on_rod.bore_mm) {
            refuse_mm("tube_long_bore", *on_rod.long_bore_mm, on_rod.bore_mm,
                      dimension_called("tube_long_bore")->high);
            return;
        }
        const double room = on_rod.bore_mm - 2.0 * rod_.radius_mm;
        if (!(room > 0.0)) {
            Error error =
                bad_field(ErrorCode::bore_smaller_than_rod, path_of("tube_bore"),
                          plain_digits(on_rod.bore_mm), plain_digits(2.0 * rod_.radius_mm));
            refuse(std::move(error));
            return;
        }
        const TubeGaps gaps{mm("gap_front_top"), mm("gap_outboard_top"), mm("gap_front_bottom"),
                            mm("gap_outboard_bottom")};
        if (error_) {
            return;
        }
        const auto bore = tube_from_gaps(rod_, on_rod, gaps);
        if (!bore) {
            refuse_gap(gaps, on_rod.long_bore_mm.value_or(on_rod.bore_mm) - 2.0 * rod_.radius_mm);
            return;
        }
        const std::string casting = description_.choice("tube_casting", *valve_);
        const std::string path = path_ + "/tube";
        put(path + "/casting", {casting, {}});
        put_point(path + "/centre", bore->centre_K);
        put_axis(path + "/axis", bore->axis_K);
        put_mm(path + "/length", on_rod.length_mm, "tube_length");
        put_mm(path + "/bore", on_rod.bore_mm, "tube_bore");
        if (obround) {
            put(path + "/shape", {"obround", {}});
            put_mm(path + "/long_bore", *on_rod.long_bore_mm, "tube_long_bore");
            put_axis(path + "/long_way", bore->long_way_K);
        }
        if (casting == "intake") {
            intake_face();
        }
    }

    /// The largest is the likeliest to be wrong.
    void refuse_gap(const TubeGaps& gaps, double room) {
        const std::array<std::pair<const char*, double>, 4> by_name{
            {{"gap_front_top", gaps.front_top},
             {"gap_outboard_top", gaps.outboard_top},
             {"gap_front_bottom", gaps.front_bottom},
             {"gap_outboard_bottom", gaps.outboard_bottom}}};
        const auto& [name, gap] =
            *std::max_element(by_name.begin(), by_name.end(),
                              [](const auto& a, const auto& b) { return a.second < b.second; });
        refuse_mm(name, gap, 0.0, room);
    }

    void intake_face() {
        const double lean = rad("intake_face_lean");
        const std::string flange = "banks/" + valve_->bank + "/flange";
        const double gasket = mm("intake_gasket");
        put_axis(flange + "/normal", {0.0, to_rods_ * std::cos(lean), std::sin(lean)});
        if (!out_.fields.contains(flange + "/gasket_new")) {
            put_mm(flange + "/gasket", gasket, "intake_gasket");
        }
        put_mm(flange + "/gasket_when_located", gasket, "intake_gasket");
    }

    [[nodiscard]] double outboard_y_sign() const {
        return lean_deg_ != 0.0 ? (lean_deg_ > 0.0 ? 1.0 : -1.0) : to_rods_;
    }
    [[nodiscard]] const char* kind_word() const {
        return valve_->position.kind == ValveKind::intake ? "intake" : "exhaust";
    }

    FieldReader reader_;
    const Description& description_;
    WrittenOut out_;
    std::optional<Error> error_;
    const DescribedValve* valve_ = nullptr;
    std::string path_; ///< of the train
    double centre_x_ = 0.0;
    double lean_deg_ = 0.0;
    Vec3 cam_K_ = Vec3::Zero();
    double to_rods_ = 1.0; ///< +1: the rods are on the bank's +y side
    double length_mm_ = 0.0;
    double ends_mm_ = 0.0; ///< what the rod's overall length has beyond its balls' centres
    RodPlace rod_;         ///< on the heel
};

} // namespace

Result<WrittenOut> written_out(const SetUpFields& fields) {
    const auto description = Description::read(fields);
    if (!description) {
        return description.error();
    }
    return Writer(fields, *description).all();
}

} // namespace rodway
