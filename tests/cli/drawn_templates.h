// Templates of a card given as text, and what is on their pages.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <deque>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "cli/draw/templates.h"
#include "cli/draw/templates_pieces.h"
#include "model/read_card.h"
#include "tests/catch.h"

namespace evenmat::testing {

inline constexpr double inch = 72, millimetre = 72 / 25.4;

inline bool near(double a, double b) { return std::abs(a - b) < 1e-6; }

struct Ready {
  std::deque<Card> card;  // stays where it is
  SizedCard sized;
  std::vector<std::size_t> versions;
  Drawing drawing;
};

inline Ready ready(const std::string& text, PageSize size = PageSize::letter) {
  CardReading reading = read_card(text);
  REQUIRE(reading.card);
  Ready made;
  made.card.push_back(std::move(*reading.card));
  made.sized = size_card(made.card.front(), {});
  for (std::size_t i = 0; i < made.sized.versions.size(); ++i) made.versions.push_back(i);
  if (made.sized.verdict == Verdict::buildable)
    made.drawing = templates(made.card.front(), made.sized, made.versions, size);
  return made;
}

template <typename What>
std::vector<What> all_of(const Page& page) {
  std::vector<What> all;
  for (const Mark& mark : page.marks) {
    if (const auto* one = std::get_if<What>(&mark)) all.push_back(*one);
  }
  return all;
}

inline int count(const Drawing& drawing, const std::string& words) {
  int found = 0;
  for (const Page& page : drawing.pages) {
    for (const Text& text : all_of<Text>(page)) found += text.words == words ? 1 : 0;
  }
  return found;
}

inline bool has(const Page& page, const std::string& part) {
  const std::vector<Text> all = all_of<Text>(page);
  return std::any_of(all.begin(), all.end(),
                     [&](const Text& text) { return text.words.find(part) != std::string::npos; });
}

inline bool crosses(const At& from, const At& to, const Box& box) {
  constexpr double hair = 0.01;
  return !is_nothing(clipped({from, to, {}},
                             {box.left + hair, box.top + hair, box.width - 2 * hair, box.height - 2 * hair}));
}

// What is wrong with how things lie; empty if nothing is.
inline std::string trouble(const Drawing& drawing) {
  for (std::size_t number = 0; number < drawing.pages.size(); ++number) {
    const Page& page = drawing.pages[number];
    const std::string where = " on page " + std::to_string(number + 1);
    if (!contains(within_margins(page), used(page))) return "past the margins" + where;
    const std::vector<Text> texts = all_of<Text>(page);
    for (std::size_t i = 0; i < texts.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (overlap(texts[i].box, texts[j].box)) return texts[j].words + " and " + texts[i].words + where;
      }
      for (const Polyline& line : all_of<Polyline>(page)) {
        for (std::size_t j = 1; j < line.points.size(); ++j) {
          if (crosses(line.points[j - 1], line.points[j], texts[i].box))
            return texts[i].words + " and a line" + where;
        }
      }
      for (const Shape& shape : all_of<Shape>(page)) {
        for (std::size_t j = 0; j < shape.outline.size(); ++j) {
          if (crosses(shape.outline[j], shape.outline[(j + 1) % shape.outline.size()], texts[i].box))
            return texts[i].words + " and an outline" + where;
        }
      }
    }
    const std::vector<Shape> shapes = all_of<Shape>(page);
    for (std::size_t i = 0; i < shapes.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (overlap(box_around(shapes[i].outline), box_around(shapes[j].outline)))
          return "two pieces over each other" + where;
      }
    }
  }
  return {};
}

// Nothing over anything else, nothing off the page.
inline void check_clear(const Drawing& drawing) {
  const std::string found = trouble(drawing);
  INFO(found);
  CHECK(found.empty());
}

inline std::string flat(const std::string& front) {
  return "[base]\nfold = \"flat\"\nfront = \"" + front +
         "\"\n[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"5 x 5\"\n";
}

}  // namespace evenmat::testing
