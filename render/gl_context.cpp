#include "render/gl_context.h"

#include <QGuiApplication>
#include <QOffscreenSurface>
#include <QOpenGLContext>
#include <QSurfaceFormat>

#ifdef RODWAY_EGL
#include "render/egl_context.h"
#endif

namespace rodway {
namespace {

/// From Qt's platform: with a display, whatever kind it is.
class QtContext : public GlContext {
  public:
    [[nodiscard]] bool start() {
        QSurfaceFormat format;
        format.setRenderableType(QSurfaceFormat::OpenGL);
        format.setVersion(3, 3);
        format.setProfile(QSurfaceFormat::CoreProfile);
        context_.setFormat(format);
        if (!context_.create()) {
            return false;
        }
        surface_.setFormat(context_.format());
        surface_.create();
        const QSurfaceFormat got = context_.format();
        return surface_.isValid() && got.renderableType() == QSurfaceFormat::OpenGL &&
               got.version() >= qMakePair(3, 3) && make_current();
    }
    bool make_current() override { return context_.makeCurrent(&surface_); }
    void done_current() override { context_.doneCurrent(); }
    void* function(const char* name) const override {
        return reinterpret_cast<void*>(context_.getProcAddress(name));
    }

  private:
    QOpenGLContext context_;
    QOffscreenSurface surface_;
};

/// Qt's platforms without windows of their own warn and fail, or borrow a display that happens to
/// be there: pictures made without a window are made the same way everywhere.
bool platform_has_windows() {
    if (qobject_cast<QGuiApplication*>(QCoreApplication::instance()) == nullptr) {
        return false;
    }
    const QString platform = QGuiApplication::platformName();
    return platform != QLatin1String("offscreen") && platform != QLatin1String("minimal");
}

} // namespace

Result<std::unique_ptr<GlContext>> GlContext::create() {
    if (platform_has_windows()) {
        auto context = std::make_unique<QtContext>();
        if (context->start()) {
            return std::unique_ptr<GlContext>(std::move(context));
        }
    }
#ifdef RODWAY_EGL
    if (std::unique_ptr<GlContext> context = make_egl_context()) {
        return context;
    }
#endif
    return Error{ErrorCode::no_graphics, {}, {}, "opengl_3_3", {}, {}};
}

} // namespace rodway
