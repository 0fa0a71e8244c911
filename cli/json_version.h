// One version of a sized card in JSON: its layers and windows, its base, the closed card and its post. The
// same for every command that tells of sizes.
#pragma once

#include "cli/json_parts.h"
#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// `layers`, `windows`, `base`, `closed` and `mail`; no more than empty `layers` for one that cannot be built.
// `freedom_known`: whether it is known what of it was stated. What is not known is left out.
void put_body(Json& json, const Card& card, const Design& design, const SizedVersion& version,
              bool freedom_known);

}  // namespace evenmat
