#pragma once

#include <QImage>
#include <memory>
#include <string>

#include "core/base/result.h"
#include "render/camera.h"
#include "render/palette.h"
#include "render/scene.h"

namespace rodway {

/// Everything that decides one picture of a scene.
struct Frame {
    std::shared_ptr<const Scene> scene; ///< never null
    CrankAngle crank;
    Camera camera;
    SceneShow show;
    Palette palette;
    PictureSize size;   ///< both above 0
    bool smooth = true; ///< 4× multisampling
};

/// What is drawn at a place of a picture.
struct Picked {
    std::optional<ValvePosition> valve; ///< none: it serves several
    PartKind kind = PartKind::camshaft;
    std::string name; ///< of a passage or an obstacle

    bool operator==(const Picked&) const = default;
};

/// Draws scenes with OpenGL into a framebuffer of its own and hands out pictures; no window or
/// display needed. Meshes of the scene drawn last stay on the graphics card. One thread only.
class Renderer {
  public:
    /// Error: no_graphics.
    static Result<std::unique_ptr<Renderer>> create();
    ~Renderer();
    Renderer(const Renderer&) = delete;
    Renderer& operator=(const Renderer&) = delete;

    /// The picture, opaque. Error: no_graphics if the context was lost or the size is more than it
    /// can draw.
    [[nodiscard]] Result<QImage> draw(const Frame& frame);

    /// The part drawn nearest to a pixel, within `reach_px` of it. Glass counts only where nothing
    /// else is drawn.
    [[nodiscard]] std::optional<Picked> pick(const Frame& frame, int x, int y, int reach_px = 3);

    /// What draws, as OpenGL names it ("llvmpipe …" in software).
    [[nodiscard]] const std::string& graphics_name() const;
    [[nodiscard]] bool in_software() const;

  private:
    class Gl;
    explicit Renderer(std::unique_ptr<Gl> gl);
    std::unique_ptr<Gl> gl_;
};

} // namespace rodway
