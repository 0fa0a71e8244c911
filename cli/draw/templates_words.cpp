#include "cli/draw/templates_words.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <sstream>
#include <utility>

namespace evenmat {
namespace {

constexpr Colour quiet = {0.3, 0.3, 0.32};
constexpr Colour faint = {0.45, 0.46, 0.5};
constexpr double pad = 6;    // from a piece's edge to the words in it
constexpr double clear = 3;  // from the words to a line

bool is_clear(const TemplatePiece& piece, const Box& box) {
  const Box wide{box.left - clear, box.top - clear, box.width + 2 * clear, box.height + 2 * clear};
  return std::all_of(piece.lines.begin(), piece.lines.end(),
                     [&](const TemplateLine& line) { return is_nothing(clipped(line, wide)); });
}

bool is_free(const TemplatePiece& piece, const Box& box, const std::vector<Box>& taken) {
  const auto hit = [&](const Box& other) { return overlap(box, other); };
  return is_clear(piece, box) && std::none_of(taken.begin(), taken.end(), hit) &&
         std::none_of(piece.holes.begin(), piece.holes.end(),
                      [&](const TemplateHole& hole) { return overlap(box, hole.box); });
}

Box shared(const Box& a, const Box& b) {
  const double left = std::max(a.left, b.left);
  const double top = std::max(a.top, b.top);
  return {left, top, std::max(0.0, std::min(a.right(), b.right()) - left),
          std::max(0.0, std::min(a.bottom(), b.bottom()) - top)};
}

Box smaller(const Box& box, double by) {
  return {box.left + by, box.top + by, std::max(0.0, box.width - 2 * by), std::max(0.0, box.height - 2 * by)};
}

// Whether it goes into lines of `room` without a word being broken.
bool has_room(const std::string& words, const Type& type, double room) {
  std::istringstream parts(words);
  for (std::string part; parts >> part;) {
    if (extent_of(part, type).width > room) return false;
  }
  return true;
}

std::optional<TemplateWords> unbroken(const std::string& words, const Type& type, double room) {
  if (!has_room(words, type, room)) return std::nullopt;
  TemplateWords set;
  set.texts.push_back(text_at({0, 0}, words, type, room));
  set.extent = {set.texts.front().box.width, set.texts.front().box.height};
  return set;
}

Box box_at(const At& at, const Extent& extent) { return {at.x, at.y, extent.width, extent.height}; }

// Words in the middle of a hole.
std::optional<TemplateWords> in_hole(const TemplatePiece& piece, const TemplateHole& hole, const Box& part,
                                     const std::vector<Box>& taken) {
  const Box room = smaller(shared(hole.box, part), 2);
  for (const double size : {6.8, 5.5}) {
    for (const bool up : {false, true}) {
      auto words = unbroken(hole.words, {.size = size, .colour = quiet}, up ? room.height : room.width);
      if (!words) continue;
      if (up) words = turned_up(std::move(*words));
      const At at{room.middle().x - words->extent.width / 2, room.middle().y - words->extent.height / 2};
      const Box box = box_at(at, words->extent);
      const auto hit = [&](const Box& other) { return overlap(box, other); };
      const Box tight = smaller(box, -0.5);
      const bool crossed = std::any_of(piece.lines.begin(), piece.lines.end(), [&](const TemplateLine& line) {
        return !is_nothing(clipped(line, tight));
      });
      if (!contains(room, box) || crossed || std::any_of(taken.begin(), taken.end(), hit)) continue;
      move_by(*words, at);
      return words;
    }
  }
  return std::nullopt;
}

constexpr double arrow_length = 24, arrow_room = 9;

// What a face is called, with the arrow beside or below it.
std::optional<TemplateWords> told(const TemplateFace& face, double room) {
  TemplateWords words;
  const bool upright = face.up && face.up->x == 0;
  const double left = upright ? arrow_room : 0;
  if (!has_room(face.name, {.size = 7.5}, room - left) || !has_room(face.note, {.size = 6.3}, room - left))
    return std::nullopt;
  const auto add = [&](const std::string& line, double size) {
    if (line.empty()) return;
    Text text = text_at({left, words.extent.height}, line, {.size = size, .colour = faint}, room - left);
    words.extent.width = std::max(words.extent.width, text.box.right());
    words.extent.height = text.box.bottom() + 0.8;
    words.texts.push_back(std::move(text));
  };
  add(face.name, 7.5);
  add(face.note, 6.3);
  if (!face.up) return words;
  const double half = arrow_length / 2;
  At middle{arrow_room / 2 - 1, 0};
  if (upright) {
    words.extent.height = std::max(words.extent.height, arrow_length);
    middle.y = words.extent.height / 2;
  } else {
    words.extent.width = std::max(words.extent.width, arrow_length);
    words.extent.height += arrow_room;
    middle = {half, words.extent.height - arrow_room / 2 + 1};
  }
  words.arrows.push_back({{{middle.x - face.up->x * half, middle.y - face.up->y * half},
                           {middle.x + face.up->x * half, middle.y + face.up->y * half}},
                          {faint, 0.7},
                          false,
                          true});
  return words;
}

// Where in a face they are nearest its middle.
std::optional<At> nearest_middle(const TemplatePiece& piece, const Box& face, const Extent& extent,
                                 const std::vector<Box>& taken) {
  constexpr double step = 6;
  const At wish{face.middle().x - extent.width / 2, face.middle().y - extent.height / 2};
  std::optional<At> best;
  double best_off = 0;
  const auto across = static_cast<int>((face.width - extent.width) / 2 / step);
  const auto down = static_cast<int>((face.height - extent.height) / 2 / step);
  if (face.width < extent.width || face.height < extent.height) return best;
  for (int i = -down; i <= down; ++i) {
    for (int j = -across; j <= across; ++j) {
      const double off = std::hypot(i, j);
      if (best && off >= best_off) continue;
      const At at{wish.x + j * step, wish.y + i * step};
      if (!is_free(piece, box_at(at, extent), taken)) continue;
      best = at;
      best_off = off;
    }
  }
  return best;
}

}  // namespace

Type template_name_type() { return {.size = 8.5, .bold = true}; }
Type template_note_type() { return {.size = 6.8, .colour = quiet}; }

TemplateWords words_of(const TemplatePiece& piece, double room) {
  TemplateWords words;
  const auto add = [&](const std::string& line, const Type& type) {
    Text text = text_at({0, words.extent.height}, line, type, room);
    words.extent.width = std::max(words.extent.width, text.box.width);
    words.extent.height = text.box.bottom() + 0.8;
    words.texts.push_back(std::move(text));
  };
  add(piece.name, template_name_type());
  for (const std::string& note : piece.notes) add(note, template_note_type());
  return words;
}

TemplateWords turned_up(TemplateWords words) {
  for (Text& line : words.texts) {
    const Box box = line.box;
    line.box = {box.top, words.extent.width - box.right(), box.height, box.width};
    line.turn = Turn::up;
  }
  std::swap(words.extent.width, words.extent.height);
  return words;
}

void move_by(TemplateWords& words, const At& by) {
  for (Text& text : words.texts) {
    text.box.left += by.x;
    text.box.top += by.y;
  }
  for (Polyline& arrow : words.arrows) {
    for (At& at : arrow.points) at = {at.x + by.x, at.y + by.y};
  }
}

void append(TemplateWords& words, TemplateWords more) {
  std::move(more.texts.begin(), more.texts.end(), std::back_inserter(words.texts));
  std::move(more.arrows.begin(), more.arrows.end(), std::back_inserter(words.arrows));
}

std::optional<At> place_in(const TemplatePiece& piece, const Extent& words, const std::vector<Box>& taken) {
  constexpr double step = 6;
  for (double y = pad; y + words.height + pad <= piece.height; y += step) {
    for (double x = pad; x + words.width + pad <= piece.width; x += step) {
      if (is_free(piece, box_at({x, y}, words), taken)) return At{x, y};
    }
  }
  return std::nullopt;
}

HoleWords hole_words(const TemplatePiece& piece, const Box& part) {
  HoleWords all;
  std::vector<Box> taken;
  for (const TemplateHole& hole : piece.holes) {
    if (auto words = in_hole(piece, hole, part, taken)) {
      for (const Text& text : words->texts) taken.push_back(text.box);
      append(all.words, std::move(*words));
    } else {
      all.untold.push_back(hole.words);
    }
  }
  return all;
}

TemplateWords face_words(const TemplatePiece& piece, const Box& part, const std::vector<Box>& taken) {
  TemplateWords all;
  for (const TemplateFace& face : piece.faces) {
    const Box box = smaller(shared(face.box, part), pad);
    const auto put = [&](std::optional<TemplateWords> words) {
      const auto at = words ? nearest_middle(piece, box, words->extent, taken) : std::nullopt;
      if (!at) return false;
      move_by(*words, *at);
      append(all, std::move(*words));
      return true;
    };
    const auto put_up = [&] {
      auto words = told(face, std::min(150.0, box.height));
      return words && words->arrows.empty() && put(turned_up(std::move(*words)));
    };
    for (const double room : {150.0, 80.0, 50.0, 0.0}) {
      if (room == 0 ? put_up() : put(told(face, std::min(room, box.width)))) break;
    }
  }
  return all;
}

}  // namespace evenmat
