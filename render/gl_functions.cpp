#include "render/gl_functions.h"

namespace rodway {
namespace {

template <typename Function>
bool load(Function& function, const char* name, const GlContext& context) {
    function = reinterpret_cast<Function>(context.function(name));
    return function != nullptr;
}

} // namespace

std::optional<GlFunctions> load_functions(const GlContext& context) {
    GlFunctions gl{};
    bool ok = true;
    ok = load(gl.attach_shader, "glAttachShader", context) && ok;
    ok = load(gl.bind_buffer, "glBindBuffer", context) && ok;
    ok = load(gl.bind_framebuffer, "glBindFramebuffer", context) && ok;
    ok = load(gl.bind_renderbuffer, "glBindRenderbuffer", context) && ok;
    ok = load(gl.bind_vertex_array, "glBindVertexArray", context) && ok;
    ok = load(gl.blend_func, "glBlendFunc", context) && ok;
    ok = load(gl.blit_framebuffer, "glBlitFramebuffer", context) && ok;
    ok = load(gl.buffer_data, "glBufferData", context) && ok;
    ok = load(gl.check_framebuffer_status, "glCheckFramebufferStatus", context) && ok;
    ok = load(gl.clear, "glClear", context) && ok;
    ok = load(gl.clear_color, "glClearColor", context) && ok;
    ok = load(gl.compile_shader, "glCompileShader", context) && ok;
    ok = load(gl.create_program, "glCreateProgram", context) && ok;
    ok = load(gl.create_shader, "glCreateShader", context) && ok;
    ok = load(gl.cull_face, "glCullFace", context) && ok;
    ok = load(gl.delete_buffers, "glDeleteBuffers", context) && ok;
    ok = load(gl.delete_framebuffers, "glDeleteFramebuffers", context) && ok;
    ok = load(gl.delete_program, "glDeleteProgram", context) && ok;
    ok = load(gl.delete_renderbuffers, "glDeleteRenderbuffers", context) && ok;
    ok = load(gl.delete_shader, "glDeleteShader", context) && ok;
    ok = load(gl.delete_vertex_arrays, "glDeleteVertexArrays", context) && ok;
    ok = load(gl.depth_mask, "glDepthMask", context) && ok;
    ok = load(gl.disable, "glDisable", context) && ok;
    ok = load(gl.draw_arrays, "glDrawArrays", context) && ok;
    ok = load(gl.draw_elements, "glDrawElements", context) && ok;
    ok = load(gl.enable, "glEnable", context) && ok;
    ok = load(gl.enable_vertex_attrib_array, "glEnableVertexAttribArray", context) && ok;
    ok = load(gl.framebuffer_renderbuffer, "glFramebufferRenderbuffer", context) && ok;
    ok = load(gl.front_face, "glFrontFace", context) && ok;
    ok = load(gl.gen_buffers, "glGenBuffers", context) && ok;
    ok = load(gl.gen_framebuffers, "glGenFramebuffers", context) && ok;
    ok = load(gl.gen_renderbuffers, "glGenRenderbuffers", context) && ok;
    ok = load(gl.gen_vertex_arrays, "glGenVertexArrays", context) && ok;
    ok = load(gl.get_error, "glGetError", context) && ok;
    ok = load(gl.get_integer, "glGetIntegerv", context) && ok;
    ok = load(gl.get_program, "glGetProgramiv", context) && ok;
    ok = load(gl.get_string, "glGetString", context) && ok;
    ok = load(gl.get_uniform_location, "glGetUniformLocation", context) && ok;
    ok = load(gl.link_program, "glLinkProgram", context) && ok;
    ok = load(gl.pixel_store, "glPixelStorei", context) && ok;
    ok = load(gl.polygon_offset, "glPolygonOffset", context) && ok;
    ok = load(gl.read_pixels, "glReadPixels", context) && ok;
    ok = load(gl.renderbuffer_storage_multisample, "glRenderbufferStorageMultisample", context) &&
         ok;
    ok = load(gl.scissor, "glScissor", context) && ok;
    ok = load(gl.shader_source, "glShaderSource", context) && ok;
    ok = load(gl.uniform_1f, "glUniform1f", context) && ok;
    ok = load(gl.uniform_4fv, "glUniform4fv", context) && ok;
    ok = load(gl.uniform_matrix_3fv, "glUniformMatrix3fv", context) && ok;
    ok = load(gl.uniform_matrix_4fv, "glUniformMatrix4fv", context) && ok;
    ok = load(gl.use_program, "glUseProgram", context) && ok;
    ok = load(gl.vertex_attrib_pointer, "glVertexAttribPointer", context) && ok;
    ok = load(gl.viewport, "glViewport", context) && ok;
    return ok ? std::optional<GlFunctions>(gl) : std::nullopt;
}

} // namespace rodway
