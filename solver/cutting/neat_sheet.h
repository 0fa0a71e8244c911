// How neat the cutting of one sheet is, and the neatest way that is found to cut it into given pieces. Of
// other sheets it knows only the settings that they are cut at.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <set>
#include <vector>

#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

using Settings = std::set<Measure>;

// Less is better.
struct Neatness {
  std::size_t settings = std::numeric_limits<std::size_t>::max();  // that were not made before
  std::int64_t cuts = 0;
  std::size_t sets =
      0;  // how often the trimmer is set, if all parts that came of as many cuts are cut together
  std::int64_t left = 0;  // less than nothing, as in Trouble
  friend auto operator<=>(const Neatness&,
                          const Neatness&) = default;  // NOLINT(modernize-use-nullptr): none here
};

// Of a sheet cut so, where `known` settings are made already; `made`: those and its own, if asked for.
Neatness neatness_of(const Part& tree, const Settings& known, Settings* made);

// The neatest of many ways to cut the sheet into so many pieces of each kind, if any was found. The same call
// gives the same way.
std::optional<Part> neatest_sheet(const Job& job, std::size_t sheet, const std::vector<int>& counts,
                                  const Settings& known);

}  // namespace evenmat::cutting
