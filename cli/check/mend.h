// The card file written anew with changes made, beside the one that was read.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "cli/check_command.h"
#include "cli/excerpt.h"
#include "cli/json_check.h"
#include "cli/new_file.h"
#include "solver/check_card.h"

namespace evenmat {

// Where the call wants the mended card; only for one that wants it.
NewFile target_of(const CheckCall& call);

// What became of it. Nothing is written unless `mended` is there.
struct Mending {
  std::optional<Mended> mended;
  std::vector<Change> changes;  // that were made
  Status status = Status::cannot_be_built;
  std::string trouble;  // why nothing was written
};

// The changes that the call chooses, or else the smallest set, written to its target. Read anew and checked
// first: without a choice of the maker's own only a card that can be built is written.
Mending mend(const CheckCall& call, const Source& source, const CheckedCard& checked);

// What was written where, as a maker reads it.
std::string mended_text(const Source& source, const Mending& mending);

}  // namespace evenmat
