// Words in the room there is within a piece of a plan: whole, turned up, smaller; or not at all. Knows no
// card.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "cli/figure/look.h"

namespace evenmat {

// Lines of text that lie together, with their middle where they were asked for.
struct PieceLabel {
  std::vector<Text> lines;
  Box box;
};

// A name and its size in the first of these rooms that takes both, however turned. No word is broken that
// need not be.
std::optional<PieceLabel> label_within(const std::vector<Box>& rooms, const std::string& name,
                                       const std::string& size);
// A short mark, in the first room that takes it.
std::optional<PieceLabel> mark_within(const std::vector<Box>& rooms, const std::string& mark);

// Smaller on every side.
Box inset(const Box& box, double by);

// On a plate of the fill, so that no texture runs through the words.
void add_label(std::vector<Mark>& marks, const PieceLabel& label, const Look& look);

}  // namespace evenmat
