// The part of a worksheet that is done at the trimmer, for all cards of a batch together: what is cut from
// which paper, and the steps. The figures of the plan are drawn elsewhere.
#pragma once

#include <string>
#include <vector>

#include "cli/cut/telling.h"
#include "cli/drawing/flow.h"

namespace evenmat {

// What a part of the cutting report says in paragraphs, each wrapped into lines of a terminal, as paragraphs
// again.
std::vector<std::string> as_paragraphs(const std::string& text);

// "12 cards and 1 spare: the plain card 7, for the choir 6".
std::string batch_words(const CutTelling& telling, std::size_t card);

// Each with its heading; nothing where there is nothing to tell. `telling` without dress.
void add_first_card(Flow& flow, const CutTelling& telling);
void add_piles(Flow& flow, const CutTelling& telling);
void add_steps(Flow& flow, const CutTelling& telling);
void add_supplies(Flow& flow, const CutTelling& telling);

}  // namespace evenmat
