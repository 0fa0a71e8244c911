#include "solver/cutting/cover.h"

#include <algorithm>
#include <limits>

namespace evenmat::cutting {
namespace {

constexpr int most_branches = 20'000;
__extension__ using Wide = __int128;

class Cover {
 public:
  explicit Cover(std::vector<Worth> sheets) : sheets_(std::move(sheets)) {
    // The most worth for the money first.
    std::stable_sort(sheets_.begin(), sheets_.end(), [](const Worth& a, const Worth& b) {
      return Wide(a.worth) * b.cost > Wide(b.worth) * a.cost;
    });
  }

  std::int64_t least(std::int64_t need) {
    search(0, need, 0);
    // Where it was given up, what broken sheets would cost.
    return given_up_ ? with_broken(0, need) : best_;
  }

  // The cost from the `first` on where sheets may be broken, rounded up; the most there can be if they are
  // not enough.
  [[nodiscard]] std::int64_t with_broken(std::size_t first, std::int64_t need) const {
    std::int64_t cost = 0;
    for (std::size_t i = first; i < sheets_.size() && need > 0; ++i) {
      const Worth& one = sheets_[i];
      if (!one.have || Wide(one.worth) * *one.have >= need)
        return cost + static_cast<std::int64_t>((Wide(need) * one.cost + one.worth - 1) / one.worth);
      cost += one.cost * *one.have;
      need -= one.worth * *one.have;
    }
    return need > 0 ? too_much : cost;
  }

  static constexpr std::int64_t too_much = std::numeric_limits<std::int64_t>::max() / 2;

 private:
  void search(std::size_t first, std::int64_t need, std::int64_t cost) {
    if (need <= 0) {
      best_ = std::min(best_, cost);
      return;
    }
    if (++branches_ > most_branches) given_up_ = true;
    const std::int64_t rest = with_broken(first, need);
    if (given_up_ || rest >= too_much || cost + rest >= best_) return;
    const Worth& one = sheets_[first];
    std::int64_t most = (need + one.worth - 1) / one.worth;
    if (one.have) most = std::min<std::int64_t>(most, *one.have);
    for (std::int64_t count = most; count >= 0 && !given_up_; --count)
      search(first + 1, need - count * one.worth, cost + count * one.cost);
  }

  std::vector<Worth> sheets_;
  std::int64_t best_ = too_much;
  int branches_ = 0;
  bool given_up_ = false;
};

}  // namespace

std::int64_t least_cost(std::vector<Worth> sheets, std::int64_t need) {
  std::erase_if(sheets, [](const Worth& one) { return one.worth == 0 || (one.have && *one.have == 0); });
  // What costs nothing is taken.
  for (const Worth& one : sheets) {
    if (one.cost > 0) continue;
    if (!one.have) return 0;
    need -= std::min(need, one.worth * *one.have);
  }
  std::erase_if(sheets, [](const Worth& one) { return one.cost == 0; });
  if (need <= 0) return 0;
  const std::int64_t least = Cover(std::move(sheets)).least(need);
  return least >= Cover::too_much ? -1 : least;
}

}  // namespace evenmat::cutting
