#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "core/geometry/frames.h"
#include "render/scene.h"

namespace rodway {

/// From where a scene is looked at. Block frame E: x rear, z up.
struct Camera {
    Vec3 target_E = Vec3::Zero(); ///< turns and zooms about this point
    double distance_mm = 1000.0;  ///< of the eye from the target, above 0
    double yaw_deg = 35.0; ///< 0: from the front of the engine; positive: the eye moves towards +y
    double pitch_deg = 25.0;         ///< -90 to 90; 90: from above
    double roll_deg = 0.0;           ///< about the line of sight; positive: the picture turns left
    double field_of_view_deg = 30.0; ///< of the picture's height
    bool perspective = true; ///< if not, parallel, at the scale perspective has at the target
};

/// Size of a picture in pixels.
struct PictureSize {
    int width = 0;
    int height = 0;

    bool operator==(const PictureSize&) const = default;
};

/// A place in a picture: pixels from its left and top edge. `depth_mm` is along the line of sight
/// from the eye.
struct PicturePoint {
    double x = 0.0;
    double y = 0.0;
    double depth_mm = 0.0;
};

/// Unit vectors of the picture in the block frame.
[[nodiscard]] Vec3 forward_E(const Camera& camera);
[[nodiscard]] Vec3 right_E(const Camera& camera);
[[nodiscard]] Vec3 up_E(const Camera& camera);
[[nodiscard]] Vec3 eye_E(const Camera& camera);

/// Turns about the target: an upright picture stays upright, its pitch within -90 to 90; a rolled
/// one turns about its own right and up, so that a look down a rod goes on from where it was.
[[nodiscard]] Camera orbited(Camera camera, double yaw_by_deg, double pitch_by_deg);

/// Moves sideways so that what is at the target's depth follows a pointer that moves by pixels.
[[nodiscard]] Camera panned(Camera camera, double right_px, double down_px, PictureSize size);

/// Divides the distance by `factor` (above 1: nearer); distance stays within 5 mm to 20 m.
[[nodiscard]] Camera zoomed(Camera camera, double factor);

/// Keeps the direction and brings the whole box into the picture.
[[nodiscard]] Camera framed(Camera camera, const Box& box, PictureSize size);

/// The same, as close as the points given allow; no points leave it as it is.
[[nodiscard]] Camera framed(Camera camera, const std::vector<Vec3>& points_E, PictureSize size);

/// Looks from the rocker down along a rod, parallel, so that the gap round it is to scale, the
/// front of the engine at the top, as 12 o'clock is in every clock direction. The two ends must not
/// coincide.
[[nodiscard]] Camera along_rod(Camera camera, const Segment& rod_E);

/// Looks at a point with the line of sight along `forward_E` (need not be a unit vector), so that
/// `height_mm` of what is at the target's depth fits the picture's height.
[[nodiscard]] Camera looking_at(Camera camera, const Vec3& target_E, const Vec3& forward_E,
                                double height_mm);

/// Millimetres per pixel at the target's depth.
[[nodiscard]] double mm_per_pixel(const Camera& camera, PictureSize size);

/// Where a point is drawn; nothing if it is behind the eye.
[[nodiscard]] std::optional<PicturePoint> projected(const Camera& camera, PictureSize size,
                                                    const Vec3& point_E);

/// Block frame to clip space (-w ≤ x, y, z ≤ w), column vectors.
[[nodiscard]] Eigen::Matrix4d clip_from_block(const Camera& camera, PictureSize size);

} // namespace rodway
