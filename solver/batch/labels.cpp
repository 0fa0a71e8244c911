// Giving out the pieces of a plan to the uses that want them.
#include "solver/batch/labels.h"

#include <algorithm>
#include <set>

namespace evenmat::batch {
namespace {

// So many sheets after one another have this use at a place.
struct Stretch {
  std::size_t use = 0;
  int times = 0;
};

// What the uses of each kind still want.
class Wanted {
 public:
  explicit Wanted(const std::vector<CutPiece>& kinds) {
    for (const CutPiece& kind : kinds) {
      left_.emplace_back();
      for (const PieceUse& use : kind.uses) left_.back().push_back(use.count);
    }
  }

  // One stretch of so many sheets, or none if no use wants as many.
  std::vector<Stretch> whole(std::size_t kind, int times) {
    std::vector<int>& left = left_[kind];
    const auto found = std::find_if(left.begin(), left.end(), [&](int count) { return count >= times; });
    if (found == left.end()) return {};
    *found -= times;
    return {{static_cast<std::size_t>(found - left.begin()), times}};
  }

  std::vector<Stretch> in_order(std::size_t kind, int times) {
    std::vector<Stretch> stretches;
    std::vector<int>& left = left_[kind];
    for (std::size_t use = 0; use < left.size() && times > 0; ++use) {
      const int count = std::min(left[use], times);
      if (count == 0) continue;
      stretches.push_back({use, count});
      left[use] -= count;
      times -= count;
    }
    return stretches;
  }

 private:
  std::vector<std::vector<int>> left_;
};

// Where a new stretch begins at any place, a new run does.
std::vector<LabelledRun> runs_of(const std::vector<std::vector<Stretch>>& places, int times) {
  std::set<int> ends{times};
  for (const auto& stretches : places) {
    int end = 0;
    for (const Stretch& stretch : stretches) ends.insert(end += stretch.times);
  }
  std::vector<LabelledRun> runs;
  int from = 0;
  for (const int end : ends) {
    LabelledRun run;
    run.times = end - from;
    for (const auto& stretches : places) {
      int reached = 0;
      for (const Stretch& stretch : stretches) {
        reached += stretch.times;
        if (reached < end) continue;
        run.uses.push_back(stretch.use);
        break;
      }
    }
    runs.push_back(std::move(run));
    from = end;
  }
  return runs;
}

}  // namespace

void label(std::vector<LaidSheet>& laid, const std::vector<CutPiece>& kinds) {
  Wanted wanted(kinds);
  for (LaidSheet& sheet : laid) {
    std::vector<std::vector<Stretch>> places;
    for (const LaidPiece& piece : sheet.pieces) places.push_back(wanted.whole(piece.kind, sheet.times));
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (places[i].empty()) places[i] = wanted.in_order(sheet.pieces[i].kind, sheet.times);
    }
    sheet.runs = runs_of(places, sheet.times);
  }
}

}  // namespace evenmat::batch
