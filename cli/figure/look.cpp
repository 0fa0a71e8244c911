#include "cli/figure/look.h"

#include "cli/wording.h"

namespace evenmat {
namespace {

constexpr Colour ink = {0.13, 0.14, 0.2};
constexpr Colour soft = {0.45, 0.46, 0.52};

Texture lines(double turned, double apart, const Colour& colour, double width) {
  return {Texture::Kind::lines, turned, apart, {colour, width}};
}

}  // namespace

// Tones from dark to light: mat, strip, image, panel, sentiment. Cool where paper frames, warm where it
// shows.
Look look_of(Role role, double scale) {
  const Stroke edge{ink, 0.7};
  switch (role) {
    case Role::mat:
      return {{0.66, 0.72, 0.8}, lines(135, 3.2 * scale, {0.5, 0.57, 0.68}, 0.45), edge};
    case Role::panel:
      return {
          {0.95, 0.88, 0.72}, Texture{Texture::Kind::dots, 0, 7 * scale, {{0.72, 0.58, 0.34}, 1.1}}, edge};
    case Role::strip:
      return {
          {0.76, 0.85, 0.78}, Texture{Texture::Kind::stitches, 0, 4 * scale, {{0.42, 0.6, 0.5}, 0.6}}, edge};
    case Role::sentiment:
      return {{0.995, 0.985, 0.955}, {}, edge};
    case Role::image:
      return {{0.92, 0.8, 0.78},
              Texture{Texture::Kind::crossed, 45, 6.5 * scale, {{0.76, 0.58, 0.56}, 0.4}},
              edge};
    case Role::none:
      break;
  }
  return {{0.87, 0.86, 0.88}, lines(0, 4 * scale, {0.7, 0.69, 0.72}, 0.4), edge};
}

Look base_look() { return {{0.985, 0.98, 0.97}, {}, {ink, 0.9}}; }
Look ink_look() {
  return {{0.93, 0.93, 0.96}, lines(90, 2.6, {0.55, 0.55, 0.66}, 0.35), {ink, 0.5, {1.5, 1.2}}};
}
Look foam_look() {
  return {{0.97, 0.97, 0.97}, Texture{Texture::Kind::dots, 0, 4, {{0.6, 0.6, 0.6}, 1}}, {soft, 0.5}};
}
Look scrap_look() { return {{0.93, 0.93, 0.93}, lines(45, 5, {0.78, 0.78, 0.78}, 0.35), {soft, 0.4}}; }
Look keep_look() {
  return {{0.9, 0.94, 0.97}, Texture{Texture::Kind::crossed, 0, 7, {{0.74, 0.8, 0.86}, 0.35}}, {soft, 0.6}};
}
Look clash_look() {
  return {{0.98, 0.86, 0.8},
          Texture{Texture::Kind::crossed, 45, 3, {{0.72, 0.16, 0.06}, 0.7}},
          {{0.6, 0.1, 0.02}, 1.2}};
}

std::string look_name(Role role) { return role == Role::none ? "other layer" : std::string(role_name(role)); }

Stroke fold_line() { return {ink, 0.8, {7, 2.5, 1.5, 2.5}}; }
Stroke front_edge_line() { return {ink, 0.7, {0.8, 2.2}}; }
Stroke window_line() { return {ink, 0.7, {3, 1.5}}; }
Stroke artwork_line() { return {soft, 0.5, {1.5, 1.5}}; }
Stroke measure_line() { return {soft, 0.5}; }
Stroke leader_line() { return {soft, 0.35}; }
Stroke cut_line() { return {ink, 1.1}; }
Type label_type() { return {.size = 7.5}; }
Type measure_type() { return {.size = 7}; }
Type title_type() { return {.size = 10, .bold = true}; }

}  // namespace evenmat
