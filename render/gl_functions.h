#pragma once

#include <GL/glcorearb.h>

#include <optional>

#include "render/gl_context.h"

namespace rodway {

/// The OpenGL functions the renderer uses, from whichever loader made the context. Included by the
/// renderer's own files only.
struct GlFunctions {
    PFNGLATTACHSHADERPROC attach_shader;
    PFNGLBINDBUFFERPROC bind_buffer;
    PFNGLBINDFRAMEBUFFERPROC bind_framebuffer;
    PFNGLBINDRENDERBUFFERPROC bind_renderbuffer;
    PFNGLBINDVERTEXARRAYPROC bind_vertex_array;
    PFNGLBLENDFUNCPROC blend_func;
    PFNGLBLITFRAMEBUFFERPROC blit_framebuffer;
    PFNGLBUFFERDATAPROC buffer_data;
    PFNGLCHECKFRAMEBUFFERSTATUSPROC check_framebuffer_status;
    PFNGLCLEARPROC clear;
    PFNGLCLEARCOLORPROC clear_color;
    PFNGLCOMPILESHADERPROC compile_shader;
    PFNGLCREATEPROGRAMPROC create_program;
    PFNGLCREATESHADERPROC create_shader;
    PFNGLCULLFACEPROC cull_face;
    PFNGLDELETEBUFFERSPROC delete_buffers;
    PFNGLDELETEFRAMEBUFFERSPROC delete_framebuffers;
    PFNGLDELETEPROGRAMPROC delete_program;
    PFNGLDELETERENDERBUFFERSPROC delete_renderbuffers;
    PFNGLDELETESHADERPROC delete_shader;
    PFNGLDELETEVERTEXARRAYSPROC delete_vertex_arrays;
    PFNGLDEPTHMASKPROC depth_mask;
    PFNGLDISABLEPROC disable;
    PFNGLDRAWARRAYSPROC draw_arrays;
    PFNGLDRAWELEMENTSPROC draw_elements;
    PFNGLENABLEPROC enable;
    PFNGLENABLEVERTEXATTRIBARRAYPROC enable_vertex_attrib_array;
    PFNGLFRAMEBUFFERRENDERBUFFERPROC framebuffer_renderbuffer;
    PFNGLFRONTFACEPROC front_face;
    PFNGLGENBUFFERSPROC gen_buffers;
    PFNGLGENFRAMEBUFFERSPROC gen_framebuffers;
    PFNGLGENRENDERBUFFERSPROC gen_renderbuffers;
    PFNGLGENVERTEXARRAYSPROC gen_vertex_arrays;
    PFNGLGETERRORPROC get_error;
    PFNGLGETINTEGERVPROC get_integer;
    PFNGLGETPROGRAMIVPROC get_program;
    PFNGLGETSTRINGPROC get_string;
    PFNGLGETUNIFORMLOCATIONPROC get_uniform_location;
    PFNGLLINKPROGRAMPROC link_program;
    PFNGLPIXELSTOREIPROC pixel_store;
    PFNGLPOLYGONOFFSETPROC polygon_offset;
    PFNGLREADPIXELSPROC read_pixels;
    PFNGLRENDERBUFFERSTORAGEMULTISAMPLEPROC renderbuffer_storage_multisample;
    PFNGLSCISSORPROC scissor;
    PFNGLSHADERSOURCEPROC shader_source;
    PFNGLUNIFORM1FPROC uniform_1f;
    PFNGLUNIFORM4FVPROC uniform_4fv;
    PFNGLUNIFORMMATRIX3FVPROC uniform_matrix_3fv;
    PFNGLUNIFORMMATRIX4FVPROC uniform_matrix_4fv;
    PFNGLUSEPROGRAMPROC use_program;
    PFNGLVERTEXATTRIBPOINTERPROC vertex_attrib_pointer;
    PFNGLVIEWPORTPROC viewport;
};

/// Nothing if the context lacks one of them.
[[nodiscard]] std::optional<GlFunctions> load_functions(const GlContext& context);

} // namespace rodway
