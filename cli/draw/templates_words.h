// The words within a template: its own, what its faces are called and which way the front stands, what is cut
// out. Found a place where they cross no line. Which templates there are is not settled here.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cli/draw/templates_pieces.h"
#include "cli/drawing/page.h"
#include "cli/drawing/text.h"

namespace evenmat {

Type template_name_type();
Type template_note_type();

// Lines of text below one another from the top left of their box, or all turned up; with arrows.
struct TemplateWords {
  std::vector<Text> texts;
  std::vector<Polyline> arrows;
  Extent extent;
};

// A piece's name and notes in lines of at most `room`.
TemplateWords words_of(const TemplatePiece& piece, double room);
TemplateWords turned_up(TemplateWords words);
void move_by(TemplateWords& words, const At& by);
void append(TemplateWords& words, TemplateWords more);

// The topmost and then leftmost place in the piece for words where they cross none of its lines, lie in
// nothing that is cut out, and on nothing taken.
std::optional<At> place_in(const TemplatePiece& piece, const Extent& words, const std::vector<Box>& taken);

// Of what is cut out, what each is, where it lies in this part of the piece and has room for words.
struct HoleWords {
  TemplateWords words;              // in the piece
  std::vector<std::string> untold;  // for want of room
};
HoleWords hole_words(const TemplatePiece& piece, const Box& part);

// What each face in this part of the piece is, as near its middle as may be; nothing where there is no room.
TemplateWords face_words(const TemplatePiece& piece, const Box& part, const std::vector<Box>& taken);

}  // namespace evenmat
