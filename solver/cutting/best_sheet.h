// The one sheet whose pieces are worth the most, when every kind of piece has a worth: dynamic programming
// over the rectangles that straight cuts can leave of the sheet. Cuts need to be tried only at sums of widths
// (of heights) of pieces, since whatever lies before a cut can be drawn together against the edge.
//
// P. C. Gilmore, R. E. Gomory, Operations Research 14 (1966) 1045-1074; sums of sizes: J. C. Herz, IBM
// Journal of Research and Development 16 (1972) 462-469, N. Christofides, C. Whitlock, Operations Research 25
// (1977) 30-44. That drawing together keeps trims either 0 or as wide as they must be, and cuts no longer
// than they may, is argued in best_sheet.cpp.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "solver/cutting/filled_sheet.h"
#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

// Of one sheet of a job. Knows the rectangles that can be left of it; asked again for other worths.
class BestSheet {
 public:
  // Most worth of any sheet, so that sums stay in 32 bits.
  static constexpr std::int32_t most_worth = (1 << 29) - 1;
  // Steps of one asking above which limits on trims and lengths of cuts are left out, and above which none is
  // made.
  static constexpr std::int64_t most_steps = 60'000'000;

  BestSheet(const Job& job, std::size_t sheet);

  // Whether it can be asked at all: not of sheets with very many places to cut.
  [[nodiscard]] bool is_possible() const { return possible_; }
  // Whether limits on trims and lengths of cuts are kept; else the answer is a bound from above.
  [[nodiscard]] bool is_strict() const { return strict_; }
  [[nodiscard]] std::int64_t steps() const { return steps_; }

  // The greatest worth of a sheet; each piece counts as often as it is there. Pre: no sheet can be worth more
  // than `most_worth`. 0 when no piece fits.
  std::int32_t most(const std::vector<std::int32_t>& worths);
  // The sheet that is worth that, after `most`.
  [[nodiscard]] Part tree() const;

  // The rectangles that can be left of the sheet, with the blade's loss, for other searches among them.
  struct Axis {
    std::vector<Measure> lengths;   // that a rectangle can have, smallest first
    std::vector<std::size_t> cuts;  // indices of those at which cuts are tried
    std::vector<int> index;  // of a length, or of the next smaller one where limits are left out; -1: none
  };
  struct Lying {
    std::size_t kind;
    bool turned;
    std::size_t u, v;  // indices of its width and height
  };
  [[nodiscard]] const Axis& across() const { return across_; }
  [[nodiscard]] const Axis& down() const { return down_; }
  [[nodiscard]] const std::vector<Lying>& lying() const { return lying_; }
  [[nodiscard]] const CutLimits& limits() const { return limits_; }

 private:
  [[nodiscard]] Axis axis(bool across) const;
  bool set_up(bool strict);
  [[nodiscard]] std::int32_t at(std::size_t u, std::size_t v) const {
    return worth_[u * down_.lengths.size() + v];
  }
  [[nodiscard]] int rest(const Axis& axis, std::size_t whole, std::size_t part) const {
    return axis.index[static_cast<std::size_t>(axis.lengths[whole] - axis.lengths[part])];
  }
  // Of a rectangle, which is `width` x `height` large with the blade's loss; at least as large as its indices
  // say.
  [[nodiscard]] Part part_of(std::size_t u, std::size_t v, Measure width, Measure height) const;
  // Where it is cut for its worth, and what is behind the cut: an index, or -1 for a trim. Nothing where no
  // such cut gives it.
  [[nodiscard]] std::optional<std::pair<std::size_t, int>> cut_of(std::size_t u, std::size_t v,
                                                                  bool across) const;

  Job job_;
  std::size_t sheet_;
  CutLimits limits_;
  bool possible_ = false;
  bool strict_ = true;
  std::int64_t steps_ = 0;
  Axis across_, down_;
  std::vector<Lying> lying_;
  std::vector<std::int32_t> worths_;
  std::vector<std::int32_t> worth_;  // by width, then height
};

}  // namespace evenmat::cutting
