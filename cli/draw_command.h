// `evenmat draw FILE... -o OUT`: pictures of a card, of why it cannot be built, of the plan it is cut by;
// sheets to print and work from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/drawing/page.h"

namespace evenmat {

enum class Subject { card, plan, worksheet, recipe, templates };

struct DrawCall {
  std::vector<std::string> files;  // one or more for plan and worksheet, else one; "-": standard input
  std::string out;                 // its ending says the format
  Subject subject = Subject::card;
  std::optional<PageSize> page;     // unstated: Letter for cards in inches, A4 for those in millimetres
  std::optional<std::string> only;  // one version: a variant's name, or "the plain card"
  std::vector<std::string> views;   // of a card: these alone; none: all
  std::vector<std::string> also;    // files of leftovers, for plan and worksheet
  bool most = false;                // as many cards as the paper gives
  bool grain_along_fold = false;
  double dots = 144;  // of a PNG, to the inch
  bool force = false;
  bool json = false;
  double limit = 30;  // seconds
};

// A card that cannot be built is drawn as why not, where the card is asked for; else it is told. What is
// being done is told through `meanwhile`.
Answer draw_command(const DrawCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile);

}  // namespace evenmat
