// Parts that the worksheet and the recipe share: pictures of a card, where its layers go, how it is made,
// cautions. Each adds to the pages in hand.
#pragma once

#include <string>
#include <vector>

#include "cli/drawing/flow.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

Type body_type();

// Closed, and opened out beside it where it is folded; no taller than that.
void add_pictures(Flow& flow, const Card& card, const Design& design, const SizedVersion& version,
                  double most_height);

// "Closed 4 1/4 x 5 1/2 in; ...", thickness, weight, envelopes: a sentence each.
std::vector<std::string> closed_sentences(const Card& card, const SizedVersion& version);

// Which layer lies on what, as a column says it: "on front", "behind porthole".
std::string on_words(const Design& design, const Piece& piece);

// Copies, a tilt, artwork, foam, ink: what is to be known of a placed piece beside its table's numbers.
std::string place_note(const Card& card, const PlacedPiece& placed);

// Numbered steps to tick, then how the base lies. Nothing of a flat base without windows.
void add_making(Flow& flow, const Card& card, const Design& design, const SizedVersion& version);

void add_assembly(Flow& flow, const Card& card, const Design& design, const SizedVersion& version);

// On knives, adhesive and heat, and who is to be heeded before a page. Common practice, no source.
std::vector<std::string> heat_cautions();

// Each a row to tick, numbered from 1.
void add_numbered(Flow& flow, const std::vector<std::string>& sentences);

}  // namespace evenmat
