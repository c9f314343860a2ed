#pragma once

#include <memory>

#include "core/base/result.h"

namespace rodway {

/// An OpenGL 3.3 core context with no window: from Qt where its platform gives one, else from EGL
/// without any display. For one thread, the one that made it.
class GlContext {
  public:
    /// Error: no_graphics.
    static Result<std::unique_ptr<GlContext>> create();
    virtual ~GlContext() = default;
    GlContext(const GlContext&) = delete;
    GlContext& operator=(const GlContext&) = delete;

    [[nodiscard]] virtual bool make_current() = 0;
    virtual void done_current() = 0;
    /// Address of an OpenGL function, or null.
    [[nodiscard]] virtual void* function(const char* name) const = 0;

  protected:
    GlContext() = default;
};

} // namespace rodway
