#include "render/egl_context.h"

#define EGL_NO_X11
#include <EGL/egl.h>
#include <EGL/eglext.h>

#ifndef EGL_PLATFORM_SURFACELESS_MESA
#define EGL_PLATFORM_SURFACELESS_MESA 0x31DD
#endif

namespace rodway {
namespace {

class EglContext : public GlContext {
  public:
    ~EglContext() override {
        if (context_ != EGL_NO_CONTEXT) {
            if (eglGetCurrentContext() == context_) {
                eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
            }
            eglDestroyContext(display_, context_);
        }
        // The display is the process's, shared with every other context: it is not terminated.
    }

    [[nodiscard]] bool start() {
        const auto platform_display = reinterpret_cast<PFNEGLGETPLATFORMDISPLAYEXTPROC>(
            eglGetProcAddress("eglGetPlatformDisplayEXT"));
        if (platform_display == nullptr) {
            return false;
        }
        display_ = platform_display(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
        if (display_ == EGL_NO_DISPLAY || eglInitialize(display_, nullptr, nullptr) != EGL_TRUE ||
            eglBindAPI(EGL_OPENGL_API) != EGL_TRUE) {
            return false;
        }
        const EGLint wanted[] = {EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT,
                                 EGL_NONE};
        EGLConfig config = nullptr;
        EGLint found = 0;
        if (eglChooseConfig(display_, wanted, &config, 1, &found) != EGL_TRUE || found < 1) {
            return false;
        }
        const EGLint version[] = {EGL_CONTEXT_MAJOR_VERSION,
                                  3,
                                  EGL_CONTEXT_MINOR_VERSION,
                                  3,
                                  EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                  EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                  EGL_NONE};
        context_ = eglCreateContext(display_, config, EGL_NO_CONTEXT, version);
        return context_ != EGL_NO_CONTEXT && make_current();
    }

    bool make_current() override {
        // Another library in this thread may have bound OpenGL ES since.
        return eglBindAPI(EGL_OPENGL_API) == EGL_TRUE &&
               eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, context_) == EGL_TRUE;
    }
    void done_current() override {
        eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    }
    void* function(const char* name) const override {
        return reinterpret_cast<void*>(eglGetProcAddress(name));
    }

  private:
    EGLDisplay display_ = EGL_NO_DISPLAY;
    EGLContext context_ = EGL_NO_CONTEXT;
};

} // namespace

std::unique_ptr<GlContext> make_egl_context() {
    auto context = std::make_unique<EglContext>();
    if (!context->start()) {
        return nullptr;
    }
    return context;
}

} // namespace rodway
