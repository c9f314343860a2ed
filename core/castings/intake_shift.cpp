#include "core/castings/intake_shift.h"

namespace rodway {

PortShift port_shift(const Vec3& normal_E, const Vec3& intake_moved_E, const Vec3& head_moved_E) {
    constexpr double level = 1e-6;
    Vec3 up_E = Vec3::UnitZ() - normal_E.z() * normal_E;
    if (up_E.norm() < level) {
        up_E = Vec3::UnitY() - normal_E.y() * normal_E;
    }
    up_E.normalize();
    Vec3 rear_E = up_E.cross(normal_E);
    if (rear_E.x() < 0.0) {
        rear_E = -rear_E;
    }
    const Vec3 moved_E = intake_moved_E - head_moved_E;
    return {up_E.dot(moved_E), rear_E.dot(moved_E), normal_E.dot(moved_E)};
}

Result<std::optional<IntakeShift>> intake_shift(const Engine& engine, std::size_t bank) {
    if (bank >= engine.flanges.size() || !engine.flanges[bank]) {
        return std::optional<IntakeShift>();
    }
    const Result<Vec3> intake_K = engine.intake_movement_K(bank);
    if (!intake_K) {
        return intake_K.error();
    }
    const BankFrame& frame = engine.layout.banks[bank].frame;
    const Vec3 intake_E = frame.to_block(*intake_K);
    const PortShift ports = port_shift(frame.to_block(engine.flanges[bank]->normal_K), intake_E,
                                       frame.to_block(engine.head_movement_K(bank)));
    return std::optional(IntakeShift{intake_E.z(), intake_E.y(), ports});
}

} // namespace rodway
