// Which key of which piece a rule of the maker's comes from, told by its place in the file.
#pragma once

#include <map>

#include "model/card.h"
#include "solver/rule.h"

namespace evenmat {

struct KeyOf {
  enum class Kind {
    size,  // size, width, height
    ratio,
    artwork,
    margin,
    side,  // border, frame, distances
    align,
    beside,
    gap,
    level,
    clear,  // clear-of, clearance
    overhang,
    tuck,
    show,
    cut_back,
    statement  // an entry of `rules`
  };
  Kind kind = Kind::statement;
  const Piece* piece = nullptr;  // absent: of the base, or an entry of `rules`
};

// By spot. The design must outlive it.
std::map<Spot, KeyOf> keys_of(const Design& design);

// What is given of one thing on another: that it lies inside it, or leaves paper round it, at one edge.
struct Inside {
  std::size_t inner = 0, outer = 0;  // rectangles
  Edge edge = Edge::left;
};
std::optional<Inside> inside_of(const Rules& rules, const Rule& rule);

// The rectangles of a rule, sorted.
std::vector<std::size_t> rectangles_in(const Rule& rule);

}  // namespace evenmat
