#pragma once

#include <memory>

#include "render/gl_context.h"

namespace rodway {

/// A context from EGL without display or surface, current when it is returned; null where EGL
/// can't.
[[nodiscard]] std::unique_ptr<GlContext> make_egl_context();

} // namespace rodway
