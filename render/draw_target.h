#pragma once

#include "render/camera.h"
#include "render/gl_functions.h"

namespace rodway {

/// A framebuffer with colour and depth, kept until another size is asked for. The context must be
/// current whenever it is used or goes away.
class DrawTarget {
  public:
    DrawTarget(const GlFunctions& gl, int samples) : gl_(gl), samples_(samples) {}
    ~DrawTarget() { release(); }
    DrawTarget(const DrawTarget&) = delete;
    DrawTarget& operator=(const DrawTarget&) = delete;

    /// Binds it at this size; false if that can't be had.
    [[nodiscard]] bool use(PictureSize size);
    [[nodiscard]] GLuint framebuffer() const { return framebuffer_; }

  private:
    void release();

    const GlFunctions& gl_;
    int samples_;
    PictureSize size_;
    GLuint framebuffer_ = 0;
    GLuint colour_ = 0;
    GLuint depth_ = 0;
};

} // namespace rodway
