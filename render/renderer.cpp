#include "render/renderer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "render/draw_target.h"
#include "render/gl_functions.h"
#include "render/hatching.h"
#include "render/shaders.h"

namespace rodway {
namespace {

using Eigen::Matrix3f;
using Eigen::Matrix4f;
using Eigen::Vector4f;

Vector4f rgba(const QColor& colour) {
    return {static_cast<float>(colour.redF()), static_cast<float>(colour.greenF()),
            static_cast<float>(colour.blueF()), static_cast<float>(colour.alphaF())};
}

Vector4f mixed(const Vector4f& a, const Vector4f& b, float share_of_b) {
    Vector4f mix = a + share_of_b * (b - a);
    mix.w() = a.w();
    return mix;
}

float gloss_of(Material material) {
    switch (material) {
        case Material::cam:
            return 0.35f;
        case Material::piston:
        case Material::guide_line:
        case Material::rim:
            return 0.1f;
        case Material::lifter:
        case Material::spring:
            return 0.6f;
        default:
            return 1.0f;
    }
}

bool is_glass(Material material) {
    return material == Material::glass || material == Material::sweep ||
           material == Material::casting;
}

/// The selected train's rod takes the accent's colour; where the other trains are drawn as
/// strongly, its other parts lean to it too.
Vector4f colour_of(const Part& part, const Frame& frame) {
    const SceneShow& show = frame.show;
    const Vector4f metal = rgba(frame.palette.of(part.material));
    if (!show.selected || part.valve != show.selected || is_glass(part.material) ||
        part.kind == PartKind::tube_rims || part.material == Material::rod_open) {
        return metal;
    }
    const float lean = part.kind == PartKind::rod     ? 0.85f
                       : show.others == Others::shown ? 0.45f
                                                      : 0.12f;
    return mixed(metal, rgba(frame.palette.accent), lean);
}

/// OpenGL takes places in a bound buffer as pointers.
const void* buffer_offset(std::size_t bytes) {
    return reinterpret_cast<const void*>(bytes); // NOLINT(performance-no-int-to-ptr)
}

/// A shader program and the places of its inputs; -1 for those it doesn't have.
struct Program {
    GLuint id = 0;
    GLint block_from_part = -1;
    GLint clip_from_block = -1;
    GLint picture_normal_from_part = -1;
    GLint cut = -1;
    GLint colour = -1;
    GLint gloss = -1;
    GLint glass = -1;
    GLint veil = -1;
    GLint hatching = -1;
    GLint hatching_ink = -1;
    GLint foot = -1;
    GLint head = -1;
};

/// Where a mesh lies in the shared buffers.
struct MeshRange {
    std::size_t first_index = 0;
    GLsizei count = 0;
};

/// One part as this frame draws it.
struct Drawn {
    std::size_t part = 0;
    Vector4f colour = Vector4f::Zero();
    bool behind = false; ///< faded: drawn before, and covered by, everything else
    bool glass = false;
    Hatching hatching;
    double depth_mm = 0.0;
};

} // namespace

class Renderer::Gl {
  public:
    Gl(std::unique_ptr<GlContext> context, const GlFunctions& functions)
        : context_(std::move(context)),
          gl(functions),
          plain_(gl, 0),
          smooth_(gl, 4),
          identity_(gl, 0) {}
    ~Gl();

    [[nodiscard]] bool start();
    [[nodiscard]] Result<QImage> draw(const Frame& frame);
    [[nodiscard]] std::optional<Picked> pick(const Frame& frame, int x, int y, int reach);
    std::string name;

  private:
    [[nodiscard]] bool make_program(Program& program, const char* head, const char* vertex,
                                    const char* fragment);
    void upload(const std::shared_ptr<const Scene>& scene);
    [[nodiscard]] std::vector<Drawn> parts_of(const Frame& frame) const;
    void begin(const Program& program, const Frame& frame);
    void draw_part(const Program& program, const Frame& frame, const Drawn& drawn);
    void draw_ground(const Frame& frame);
    void draw_parts(const Frame& frame);
    void draw_identities(const Frame& frame);

    std::unique_ptr<GlContext> context_;
    GlFunctions gl;
    DrawTarget plain_, smooth_, identity_;
    Program part_, hatched_, ground_, identify_;
    GLuint vertex_array_ = 0;
    GLuint vertices_ = 0;
    GLuint triangles_ = 0;
    std::shared_ptr<const Scene> scene_;
    std::vector<MeshRange> ranges_;
    std::vector<Matrix4f> placed_;
    Matrix3f picture_from_block_ = Matrix3f::Identity();
};

Renderer::Gl::~Gl() {
    if (context_->make_current()) {
        for (const Program& program : {part_, hatched_, ground_, identify_}) {
            gl.delete_program(program.id);
        }
        gl.delete_buffers(1, &vertices_);
        gl.delete_buffers(1, &triangles_);
        gl.delete_vertex_arrays(1, &vertex_array_);
    }
}

bool Renderer::Gl::start() {
    if (const auto* text = reinterpret_cast<const char*>(gl.get_string(GL_RENDERER))) {
        name = text;
    }
    gl.gen_vertex_arrays(1, &vertex_array_);
    gl.gen_buffers(1, &vertices_);
    gl.gen_buffers(1, &triangles_);
    // Pictures are drawn head down, so that their rows come out in QImage's order: faces turn over.
    gl.front_face(GL_CW);
    gl.cull_face(GL_BACK);
    gl.pixel_store(GL_PACK_ALIGNMENT, 4);
    gl.polygon_offset(-2.0f, -16.0f);
    gl.blend_func(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    return make_program(part_, shader_head, part_vertex_shader, part_fragment_shader) &&
           make_program(hatched_, hatched_shader_head, part_vertex_shader, part_fragment_shader) &&
           make_program(ground_, shader_head, ground_vertex_shader, ground_fragment_shader) &&
           make_program(identify_, shader_head, part_vertex_shader, identity_fragment_shader);
}

bool Renderer::Gl::make_program(Program& program, const char* head, const char* vertex,
                                const char* fragment) {
    program.id = gl.create_program();
    for (const auto& [kind, text] :
         {std::pair{GL_VERTEX_SHADER, vertex}, std::pair{GL_FRAGMENT_SHADER, fragment}}) {
        const GLuint shader = gl.create_shader(static_cast<GLenum>(kind));
        const std::array<const char*, 2> source{head, text};
        gl.shader_source(shader, 2, source.data(), nullptr);
        gl.compile_shader(shader);
        gl.attach_shader(program.id, shader);
        gl.delete_shader(shader);
    }
    gl.link_program(program.id);
    GLint linked = GL_FALSE;
    gl.get_program(program.id, GL_LINK_STATUS, &linked);
    const auto place = [&](const char* input) {
        return gl.get_uniform_location(program.id, input);
    };
    program.block_from_part = place("block_from_part");
    program.clip_from_block = place("clip_from_block");
    program.picture_normal_from_part = place("picture_normal_from_part");
    program.cut = place("cut");
    program.colour = place("colour");
    program.gloss = place("gloss");
    program.glass = place("is_glass");
    program.veil = place("veil");
    program.hatching = place("hatching");
    program.hatching_ink = place("hatching_ink");
    program.foot = place("foot");
    program.head = place("head");
    return linked == GL_TRUE;
}

void Renderer::Gl::upload(const std::shared_ptr<const Scene>& scene) {
    gl.bind_vertex_array(vertex_array_);
    if (scene == scene_) {
        return;
    }
    scene_ = scene;
    ranges_.clear();
    std::vector<MeshVertex> vertices;
    std::vector<std::uint32_t> triangles;
    for (const Mesh& mesh : scene->meshes()) {
        const auto first = static_cast<std::uint32_t>(vertices.size());
        ranges_.push_back({triangles.size(), static_cast<GLsizei>(mesh.triangles.size())});
        vertices.insert(vertices.end(), mesh.vertices.begin(), mesh.vertices.end());
        for (const std::uint32_t index : mesh.triangles) {
            triangles.push_back(first + index);
        }
    }
    static_assert(sizeof(MeshVertex) == 6 * sizeof(float));
    gl.bind_buffer(GL_ARRAY_BUFFER, vertices_);
    gl.buffer_data(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(vertices.size() * sizeof(MeshVertex)),
                   vertices.data(), GL_STATIC_DRAW);
    gl.bind_buffer(GL_ELEMENT_ARRAY_BUFFER, triangles_);
    gl.buffer_data(GL_ELEMENT_ARRAY_BUFFER,
                   static_cast<GLsizeiptr>(triangles.size() * sizeof(std::uint32_t)),
                   triangles.data(), GL_STATIC_DRAW);
    for (const GLuint input : {0u, 1u}) {
        gl.enable_vertex_attrib_array(input);
        gl.vertex_attrib_pointer(input, 3, GL_FLOAT, GL_FALSE, sizeof(MeshVertex),
                                 buffer_offset(std::size_t{3} * input * sizeof(float)));
    }
}

std::vector<Drawn> Renderer::Gl::parts_of(const Frame& frame) const {
    const SceneShow& show = frame.show;
    const bool fade = show.selected && show.others == Others::faded;
    const Vec3 eye = eye_E(frame.camera);
    std::vector<Drawn> list;
    for (std::size_t at = 0; at < scene_->parts().size(); ++at) {
        const Part& part = scene_->parts()[at];
        if (!Scene::drawn(part, show) || ranges_[part.mesh].count == 0) {
            continue;
        }
        Drawn drawn;
        drawn.part = at;
        drawn.colour = colour_of(part, frame);
        drawn.glass = is_glass(part.material);
        const bool selected = show.selected && part.valve == show.selected;
        if (Scene::of_rocker(part) && show.rockers == Rockers::glass &&
            (selected || !show.selected)) {
            constexpr float seen_through = 0.16f;
            drawn.glass = true;
            drawn.colour.w() = seen_through;
        }
        if (part.kind == PartKind::rod && part.valve) {
            if (const auto state = show.states.find(*part.valve); state != show.states.end()) {
                drawn.colour = rgba(frame.palette.of(state->second));
                drawn.hatching = hatching_of(state->second);
            }
        }
        if (fade && !selected && part.kind != PartKind::obstacle) {
            drawn.behind = true;
            drawn.colour.w() *= 0.35f;
        }
        const Eigen::Vector3f middle = placed_[at].topRightCorner<3, 1>();
        drawn.depth_mm = (middle.cast<double>() - eye).norm();
        list.push_back(drawn);
    }
    return list;
}

void Renderer::Gl::begin(const Program& program, const Frame& frame) {
    gl.use_program(program.id);
    Eigen::Matrix4d clip = clip_from_block(frame.camera, frame.size);
    clip.row(1) *= -1.0;
    const Matrix4f clip_f = clip.cast<float>();
    gl.uniform_matrix_4fv(program.clip_from_block, 1, GL_FALSE, clip_f.data());
    Vector4f cut(0.0f, 0.0f, 0.0f, 1.0f);
    if (frame.show.section) {
        const Section& section = *frame.show.section;
        cut.head<3>() = -section.normal_E.cast<float>();
        cut.w() = static_cast<float>(section.normal_E.dot(section.point_E));
        gl.enable(GL_CLIP_DISTANCE0);
    }
    gl.uniform_4fv(program.cut, 1, cut.data());
    picture_from_block_.row(0) = right_E(frame.camera).transpose().cast<float>();
    picture_from_block_.row(1) = up_E(frame.camera).transpose().cast<float>();
    picture_from_block_.row(2) = -forward_E(frame.camera).transpose().cast<float>();
    gl.enable(GL_DEPTH_TEST);
    gl.depth_mask(GL_TRUE);
}

void Renderer::Gl::draw_part(const Program& program, const Frame& frame, const Drawn& drawn) {
    const Part& part = frame.scene->parts()[drawn.part];
    const Matrix4f& place = placed_[drawn.part];
    gl.uniform_matrix_4fv(program.block_from_part, 1, GL_FALSE, place.data());
    if (program.picture_normal_from_part >= 0) {
        // A spring is scaled along its axis: its normals need the inverse transpose.
        const Matrix3f normals =
            picture_from_block_ * place.topLeftCorner<3, 3>().inverse().transpose();
        gl.uniform_matrix_3fv(program.picture_normal_from_part, 1, GL_FALSE, normals.data());
        gl.uniform_1f(program.gloss, gloss_of(part.material));
        gl.uniform_1f(program.glass, drawn.glass ? 1.0f : 0.0f);
        Vector4f veil = mixed(rgba(frame.palette.paper), rgba(frame.palette.paper_high), 0.5f);
        veil.w() = drawn.behind ? 0.8f : 0.0f;
        gl.uniform_4fv(program.veil, 1, veil.data());
    }
    if (program.hatching >= 0) {
        const Hatching& hatching = drawn.hatching;
        const Vector4f lines(hatching.lines_mm, hatching.lead_mm, hatching.share,
                             hatching.crossed ? 1.0f : 0.0f);
        gl.uniform_4fv(program.hatching, 1, lines.data());
        const float light = drawn.colour.head<3>().dot(Eigen::Vector3f(0.299f, 0.587f, 0.114f));
        const Vector4f ink = Vector4f::Constant(light > 0.45f ? 0.08f : 0.96f);
        gl.uniform_4fv(program.hatching_ink, 1, ink.data());
    }
    gl.uniform_4fv(program.colour, 1, drawn.colour.data());
    const MeshRange& range = ranges_[part.mesh];
    gl.draw_elements(GL_TRIANGLES, range.count, GL_UNSIGNED_INT,
                     buffer_offset(range.first_index * sizeof(std::uint32_t)));
}

void Renderer::Gl::draw_ground(const Frame& frame) {
    gl.disable(GL_DEPTH_TEST);
    gl.disable(GL_CULL_FACE);
    gl.disable(GL_BLEND);
    gl.disable(GL_CLIP_DISTANCE0);
    gl.use_program(ground_.id);
    const Vector4f foot = rgba(frame.palette.paper);
    const Vector4f head = rgba(frame.palette.paper_high);
    gl.uniform_4fv(ground_.foot, 1, foot.data());
    gl.uniform_4fv(ground_.head, 1, head.data());
    gl.draw_arrays(GL_TRIANGLES, 0, 3);
}

void Renderer::Gl::draw_parts(const Frame& frame) {
    begin(hatched_, frame);
    begin(part_, frame);
    std::vector<Drawn> list = parts_of(frame);
    const auto solid_end = std::stable_partition(list.begin(), list.end(),
                                                 [](const Drawn& drawn) { return !drawn.glass; });
    std::stable_sort(solid_end, list.end(),
                     [](const Drawn& a, const Drawn& b) { return a.depth_mm > b.depth_mm; });
    // Near parts first: what they cover is then never lit.
    std::stable_sort(list.begin(), solid_end,
                     [](const Drawn& a, const Drawn& b) { return a.depth_mm < b.depth_mm; });
    bool any_behind = false;
    for (const bool behind : {true, false}) {
        if (!behind && any_behind) {
            gl.clear(GL_DEPTH_BUFFER_BIT);
        }
        // A cut shows the insides.
        (frame.show.section ? gl.disable : gl.enable)(GL_CULL_FACE);
        gl.cull_face(GL_BACK);
        gl.disable(GL_BLEND);
        gl.depth_mask(GL_TRUE);
        for (auto at = list.begin(); at != solid_end; ++at) {
            if (at->behind == behind) {
                const Program& program = at->hatching.lines_mm > 0.0f ? hatched_ : part_;
                gl.use_program(program.id);
                draw_part(program, frame, *at);
                any_behind = any_behind || behind;
            }
        }
        gl.enable(GL_CULL_FACE);
        gl.enable(GL_BLEND);
        gl.depth_mask(GL_FALSE);
        gl.use_program(part_.id);
        for (auto at = solid_end; at != list.end(); ++at) {
            if (at->behind == behind) {
                // The swept space touches the rod wherever the rod stands: it wins, or both would
                // show in stripes.
                const bool sweep = frame.scene->parts()[at->part].kind == PartKind::rod_sweep;
                (sweep ? gl.enable : gl.disable)(GL_POLYGON_OFFSET_FILL);
                gl.cull_face(GL_FRONT);
                draw_part(part_, frame, *at);
                gl.cull_face(GL_BACK);
                draw_part(part_, frame, *at);
            }
        }
        gl.disable(GL_POLYGON_OFFSET_FILL);
        gl.depth_mask(GL_TRUE);
    }
    gl.disable(GL_BLEND);
}

Result<QImage> Renderer::Gl::draw(const Frame& frame) {
    const Error no_graphics{ErrorCode::no_graphics, {}, {}, {}, {}, {}};
    DrawTarget& target = frame.smooth ? smooth_ : plain_;
    if (!context_->make_current() || !target.use(frame.size)) {
        return no_graphics;
    }
    upload(frame.scene);
    placed_ = frame.scene->placed(frame.crank);
    gl.viewport(0, 0, frame.size.width, frame.size.height);
    gl.clear(GL_DEPTH_BUFFER_BIT);
    draw_ground(frame);
    draw_parts(frame);
    if (frame.smooth) {
        if (!plain_.use(frame.size)) {
            return no_graphics;
        }
        gl.bind_framebuffer(GL_READ_FRAMEBUFFER, smooth_.framebuffer());
        gl.blit_framebuffer(0, 0, frame.size.width, frame.size.height, 0, 0, frame.size.width,
                            frame.size.height, GL_COLOR_BUFFER_BIT, GL_NEAREST);
        gl.bind_framebuffer(GL_READ_FRAMEBUFFER, plain_.framebuffer());
    }
    QImage picture(frame.size.width, frame.size.height, QImage::Format_RGB32);
    if (picture.isNull()) {
        return no_graphics;
    }
    gl.read_pixels(0, 0, frame.size.width, frame.size.height, GL_BGRA, GL_UNSIGNED_INT_8_8_8_8_REV,
                   picture.bits());
    return gl.get_error() == GL_NO_ERROR ? Result<QImage>(picture) : Result<QImage>(no_graphics);
}

// Glass first, then everything solid over it, so that glass counts only where it stands alone.
void Renderer::Gl::draw_identities(const Frame& frame) {
    begin(identify_, frame);
    gl.disable(GL_BLEND);
    gl.disable(GL_CULL_FACE);
    const std::vector<Drawn> list = parts_of(frame);
    const auto draw_those = [&](bool glass, bool behind) {
        gl.clear(GL_DEPTH_BUFFER_BIT);
        for (Drawn drawn : list) {
            const Part& part = frame.scene->parts()[drawn.part];
            if (drawn.glass != glass || drawn.behind != behind ||
                part.kind == PartKind::rod_sweep) {
                continue;
            }
            const auto number = static_cast<unsigned>(drawn.part + 1);
            drawn.colour =
                Vector4f(static_cast<float>(number & 255u), static_cast<float>(number >> 8 & 255u),
                         static_cast<float>(number >> 16 & 255u), 255.0f) /
                255.0f;
            draw_part(identify_, frame, drawn);
        }
    };
    draw_those(true, true);
    draw_those(false, true);
    draw_those(true, false);
    draw_those(false, false);
}

std::optional<Picked> Renderer::Gl::pick(const Frame& frame, int x, int y, int reach) {
    const int left = std::max(0, x - reach);
    const int top = std::max(0, y - reach);
    const int width = std::min(frame.size.width, x + reach + 1) - left;
    const int height = std::min(frame.size.height, y + reach + 1) - top;
    if (width <= 0 || height <= 0 || !context_->make_current() || !identity_.use(frame.size)) {
        return std::nullopt;
    }
    upload(frame.scene);
    placed_ = frame.scene->placed(frame.crank);
    gl.viewport(0, 0, frame.size.width, frame.size.height);
    gl.enable(GL_SCISSOR_TEST);
    gl.scissor(left, top, width, height);
    gl.clear_color(0.0f, 0.0f, 0.0f, 0.0f);
    gl.clear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
    draw_identities(frame);
    gl.disable(GL_SCISSOR_TEST);
    gl.disable(GL_CLIP_DISTANCE0);
    std::vector<std::array<unsigned char, 4>> pixels(static_cast<std::size_t>(width * height));
    gl.read_pixels(left, top, width, height, GL_RGBA, GL_UNSIGNED_BYTE, pixels.data());

    std::optional<Picked> nearest;
    int nearest_squared = reach * reach + 1;
    for (int at = 0; at < width * height; ++at) {
        const auto& pixel = pixels[static_cast<std::size_t>(at)];
        const std::size_t number = pixel[0] + 256u * pixel[1] + 65536u * pixel[2];
        const int dx = left + at % width - x;
        const int dy = top + at / width - y;
        if (number != 0 && dx * dx + dy * dy < nearest_squared) {
            nearest_squared = dx * dx + dy * dy;
            const Part& part = frame.scene->parts()[number - 1];
            nearest = Picked{part.valve, part.kind, part.name};
        }
    }
    return nearest;
}

Result<std::unique_ptr<Renderer>> Renderer::create() {
    Result<std::unique_ptr<GlContext>> context = GlContext::create();
    if (!context) {
        return context.error();
    }
    const std::optional<GlFunctions> functions = load_functions(*context.value());
    if (functions) {
        auto gl = std::make_unique<Gl>(std::move(context).value(), *functions);
        if (gl->start()) {
            return std::unique_ptr<Renderer>(new Renderer(std::move(gl)));
        }
    }
    return Error{ErrorCode::no_graphics, {}, {}, "opengl_3_3", {}, {}};
}

Renderer::Renderer(std::unique_ptr<Gl> gl) : gl_(std::move(gl)) {}

Renderer::~Renderer() = default;

Result<QImage> Renderer::draw(const Frame& frame) {
    RODWAY_ASSERT(frame.scene != nullptr);
    return gl_->draw(frame);
}

std::optional<Picked> Renderer::pick(const Frame& frame, int x, int y, int reach_px) {
    RODWAY_ASSERT(frame.scene != nullptr);
    return gl_->pick(frame, x, y, reach_px);
}

const std::string& Renderer::graphics_name() const {
    return gl_->name;
}

bool Renderer::in_software() const {
    return gl_->name.find("llvmpipe") != std::string::npos ||
           gl_->name.find("softpipe") != std::string::npos;
}

} // namespace rodway
