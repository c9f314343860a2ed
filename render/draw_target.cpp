#include "render/draw_target.h"

namespace rodway {

bool DrawTarget::use(PictureSize size) {
    if (framebuffer_ != 0 && size == size_) {
        gl_.bind_framebuffer(GL_FRAMEBUFFER, framebuffer_);
        return true;
    }
    release();
    GLint greatest = 0;
    gl_.get_integer(GL_MAX_RENDERBUFFER_SIZE, &greatest);
    if (size.width < 1 || size.height < 1 || size.width > greatest || size.height > greatest) {
        return false;
    }
    gl_.gen_framebuffers(1, &framebuffer_);
    gl_.bind_framebuffer(GL_FRAMEBUFFER, framebuffer_);
    const auto attach = [&](GLuint& buffer, GLenum format, GLenum place) {
        gl_.gen_renderbuffers(1, &buffer);
        gl_.bind_renderbuffer(GL_RENDERBUFFER, buffer);
        gl_.renderbuffer_storage_multisample(GL_RENDERBUFFER, samples_, format, size.width,
                                             size.height);
        gl_.framebuffer_renderbuffer(GL_FRAMEBUFFER, place, GL_RENDERBUFFER, buffer);
    };
    attach(colour_, GL_RGBA8, GL_COLOR_ATTACHMENT0);
    attach(depth_, GL_DEPTH_COMPONENT24, GL_DEPTH_ATTACHMENT);
    size_ = size;
    if (gl_.check_framebuffer_status(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE) {
        release();
        return false;
    }
    return true;
}

void DrawTarget::release() {
    if (framebuffer_ != 0) {
        gl_.delete_framebuffers(1, &framebuffer_);
        gl_.delete_renderbuffers(1, &colour_);
        gl_.delete_renderbuffers(1, &depth_);
    }
    framebuffer_ = colour_ = depth_ = 0;
}

} // namespace rodway
