// What `cut` answers as one JSON object. Lengths are exact fractions in the first card's unit, as strings.
// Every function ends its text with a line end.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/spot.h"
#include "solver/cut_batch.h"

namespace evenmat {

// `kept`: the file that the leftovers were written to, if they were.
std::string json_cut(const std::vector<BatchCard>& cards, const CutBatch& batch,
                     const std::optional<std::string>& kept = {});

// What `size` answers of a card that cannot be built or is undecided, with its file.
std::string json_not_built(const BatchCard& card);

// A mistake, with the file it is in; without one it is of the call.
struct MistakeInFile {
  std::string file;
  Remark remark;
};
std::string json_mistakes_in_files(const std::vector<MistakeInFile>& mistakes);

}  // namespace evenmat
