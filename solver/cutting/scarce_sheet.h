// A sheet whose pieces are worth much, with no more pieces of a kind than are wanted: the dynamic program of
// best_sheet.h, which remembers for each rectangle its best filling only, and puts two together where they do
// not take more than there is. So it is quick but may overlook the best; what it gives decides nothing.
#pragma once

#include <cstdint>
#include <vector>

#include "solver/cutting/best_sheet.h"
#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

class ScarceSheet {
 public:
  // Of the sheet that `grid` knows; both must outlive this.
  ScarceSheet(const Job& job, std::size_t sheet, const BestSheet& grid);

  struct Effort {
    std::size_t ways = 1;      // at most
    std::size_t fillings = 1;  // that are remembered for each rectangle
  };
  // Sheets worth more than `above`, best first, that give no more of a kind than `wanted`. Pre: as
  // `BestSheet::most`; `wanted` is at most the count that the job has.
  std::vector<Part> ways(const std::vector<std::int32_t>& worths, const std::vector<int>& wanted,
                         std::int32_t above, const Effort& effort);
  // What that takes, in what Effort::looks of plan_sheets.h counts.
  [[nodiscard]] std::int64_t looks(std::size_t fillings) const {
    return grid_.steps() / 3 * static_cast<std::int64_t>(fillings);
  }

 private:
  using Word = std::uint64_t;
  // How the best filling of a rectangle is made.
  struct Made {
    enum class How : std::uint8_t { nothing, piece, trim_side, trim_below, side_by_side, one_below_other };
    How how = How::nothing;
    std::uint32_t first = 0;   // which piece that lies, or the index of the first part's length
    std::uint32_t second = 0;  // of the other part
    std::uint8_t first_slot = 0, second_slot = 0;
  };
  void lay_out_fields(const std::vector<int>& wanted);
  [[nodiscard]] bool are_enough(std::size_t one, std::size_t other) const;
  // A filling for a rectangle: kept if it is better than the worst kept and takes other pieces than the
  // others.
  void offer(std::size_t cell, std::int32_t worth, const Word* one, const Word* other, const Made& made);
  void put_together(std::size_t cell, std::size_t one, std::size_t other, Made made);
  void copy(std::size_t cell, std::size_t from, Made made);
  void fill(const std::vector<std::int32_t>& worths, const std::vector<int>& wanted);
  [[nodiscard]] Part part_of(const Made& made, std::size_t u, std::size_t v, Measure width,
                             Measure height) const;
  [[nodiscard]] Part part_of(std::size_t u, std::size_t v, std::size_t slot, Measure width,
                             Measure height) const;

  const Job& job_;
  std::size_t sheet_;
  const BestSheet& grid_;
  std::size_t high_;
  std::size_t slots_ = 1;
  std::vector<std::int32_t> worth_;  // by width, then height
  std::vector<Made> made_;
  // How many of each kind a rectangle's filling takes: packed into bits, one more for each kind than its
  // number needs, so that sums that are too large show in that bit once `lift_` is added.
  std::size_t words_ = 0;
  std::vector<Word> takes_, lift_, over_, one_;
  std::vector<std::size_t> word_of_;
};

}  // namespace evenmat::cutting
