// In which order the layers of one card are stamped, cut out and glued, as sentences to tick off. What is cut
// from sheets, and how the base is folded, is told elsewhere.
//
// The order is common practice, no source: ink before scissors, scissors before glue; what lies on a layer is
// glued to it while that is still in the hand; such a stack goes on its face as one, the lower before the
// higher; what a mat's window shows is glued to the mat's back or, smaller than the window, put into that
// once the mat lies; foam comes last on its face, as nothing can be pressed flat beside it; the inside comes
// after the outside, which lies flat while the inside is empty.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

struct AssemblyStep {
  enum class Kind {
    stamp,      // ink, or artwork on a layer
    cut_out,    // trimmed once stamped, by hand, by a die; a middle that is cut away
    glue,       // flat on another layer that is still in the hand
    on_face,    // flat on the card, with all that was glued on it
    late_glue,  // flat, but over something that comes late
    foam        // raised, on what lies on the card by then
  };
  Kind kind = Kind::glue;
  std::size_t piece = 0;  // in `version.pieces`
  std::string says;       // a sentence, lengths with the card's unit
};

// Every layer is glued in one step (all its copies), but for ink, which is stamped.
std::vector<AssemblyStep> assembly_of(const Card& card, const Design& design, const SizedVersion& version);

}  // namespace evenmat
