// Whether the closed card goes into its envelope, and what the posts say to it. Told, not ruled: no size is
// chosen by it.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"
#include "solver/body/closed_card.h"

namespace evenmat {

struct MailNote {
  enum class Kind { envelope, post };
  std::string name;  // as the card file has it; of an envelope that was not asked for, its own name
  Kind kind = Kind::envelope;
  bool asked = true;  // in [mail]
  bool fits = false;  // post: it is taken as that letter at all, by hand or not
  bool by_hand = false;
  std::string
      says;  // whole sentences: by how much, by which rule of which date; "Check with your post office."
  std::string source;
};

// For each envelope and post in [mail]. Where no envelope is asked for, the three smallest standard ones that
// take the card. A post judges the card in the first envelope asked for that takes it; where none is asked
// for, in the smallest standard one of its own system of measures that does; else the card as it is.
std::vector<MailNote> mail_of(const Card& card, const ClosedCard& closed);

}  // namespace evenmat
