#pragma once

namespace rodway {

/// What each shader begins with. Rods that carry lines are drawn by shaders of their own: handing
/// every corner's place on to the pixels costs a software renderer a tenth of the frame.
inline constexpr const char* shader_head = "#version 330 core\n";
inline constexpr const char* hatched_shader_head = "#version 330 core\n#define HATCHED\n";

/// A part, lit from over the viewer's left shoulder. `cut` keeps what has a distance of at least 0;
/// it must be (0, 0, 0, 1) where nothing is cut, since a software renderer may clip all the same.
inline constexpr const char* part_vertex_shader = R"(layout(location = 0) in vec3 at;
layout(location = 1) in vec3 normal;
uniform mat4 block_from_part;
uniform mat4 clip_from_block;
uniform mat3 picture_normal_from_part;
uniform vec4 cut;
out vec3 picture_normal;
#ifdef HATCHED
out vec3 at_part;
#endif
out float gl_ClipDistance[1];
void main() {
#ifdef HATCHED
    at_part = at;
#endif
    vec4 at_block = block_from_part * vec4(at, 1.0);
    gl_ClipDistance[0] = dot(cut, at_block);
    picture_normal = picture_normal_from_part * normal;
    gl_Position = clip_from_block * at_block;
}
)";

/// `gloss` from 0 (cast) to 1 (ground steel). Backs are only seen where a part is cut open: they
/// are drawn flat and darker, as a cut face. Glass is denser where it is seen edge-on.
inline constexpr const char* part_fragment_shader = R"(in vec3 picture_normal;
uniform vec4 colour;
uniform float gloss;
uniform float is_glass;
uniform vec4 veil; // colour and share of what hides a part that only gives the surroundings
out vec4 drawn;
// pow() costs a software renderer several times as much.
float to_32(float x) {
    x *= x;
    x *= x;
    x *= x;
    x *= x;
    return x * x;
}
#ifdef HATCHED
in vec3 at_part;
uniform vec4 hatching; // mm between lines, mm climbed in a turn, share inked, crossed; see Hatching
uniform vec4 hatching_ink;
vec3 hatched(vec3 base) {
    float climbed = hatching.y * atan(at_part.y, at_part.x) / 6.2831853;
    bool inked = fract((at_part.z + climbed) / hatching.x) < hatching.z;
    inked = inked || (hatching.w > 0.5 && fract((at_part.z - climbed) / hatching.x) < hatching.z);
    return inked ? hatching_ink.rgb : base;
}
#endif
void main() {
    vec3 n = normalize(picture_normal);
    bool front = gl_FrontFacing;
    if (is_glass > 0.5) {
        float edge = 1.0 - abs(n.z);
        vec3 half_way = vec3(-0.32, 0.38, 0.868);
        float shine = to_32(abs(dot(n, half_way)));
        drawn = vec4(colour.rgb + 0.5 * shine, colour.a * (0.45 + 2.2 * edge * edge) + 0.35 * shine);
        return;
    }
    if (!front) {
        drawn = vec4(mix(0.52 * colour.rgb, veil.rgb, veil.a), 1.0);
        return;
    }
    float key = max(dot(n, vec3(-0.487, 0.584, 0.649)), 0.0);
    float fill = max(dot(n, vec3(0.667, -0.133, 0.733)), 0.0);
    float sky = 0.5 + 0.5 * n.y;
    float light = 0.24 + 0.20 * sky + 0.52 * key + 0.16 * fill;
    float shine = gloss * to_32(max(dot(n, vec3(-0.268, 0.322, 0.908)), 0.0));
    vec3 own = colour.rgb;
#ifdef HATCHED
    own = hatched(own);
#endif
    drawn = vec4(mix(own * light + 0.38 * shine, veil.rgb, veil.a), 1.0);
}
)";

/// The ground: one triangle over the picture, fading from foot to head.
inline constexpr const char* ground_vertex_shader = R"(uniform vec4 foot;
uniform vec4 head;
out vec3 ground;
out float gl_ClipDistance[1];
void main() {
    vec2 at = vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0);
    ground = mix(head.rgb, foot.rgb, 0.5 + 0.5 * at.y);
    gl_ClipDistance[0] = 1.0;
    gl_Position = vec4(at, 0.0, 1.0);
}
)";

inline constexpr const char* ground_fragment_shader = R"(in vec3 ground;
out vec4 drawn;
void main() { drawn = vec4(ground, 1.0); }
)";

/// Picking: the part's number as a colour.
inline constexpr const char* identity_fragment_shader = R"(uniform vec4 colour;
out vec4 drawn;
void main() { drawn = colour; }
)";

} // namespace rodway
