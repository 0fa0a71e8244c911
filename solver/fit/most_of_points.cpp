// With one version: is there a point that gives so many cards? Asked for one card more, two, four and so on,
// and then by halves; points that are proven to give fewer than some number are not asked for more. With
// several versions which cards to make is a search of its own for every point (`batch::most_cards`).
#include "solver/fit/most_of_points.h"

#include <algorithm>
#include <atomic>
#include <numeric>

#include "solver/batch/most.h"
#include "solver/explore/on_all_cores.h"

namespace evenmat::exploring {
namespace {

constexpr int most_tried = 1'000'000;  // no card file asks for more cards

// Of these points, those that give so many cards; stops at the first where one is enough to know.
class Asking {
 public:
  Asking(const std::vector<Amounts>& points, const CutPoints& cards)
      : points_(points), cards_(cards), refuted_at_(points.size(), most_tried + 1) {}

  bool any(int count, std::size_t first_to_try) {
    if (ask(first_to_try, count) == true) return true;
    std::atomic<bool> found = false;
    on_all_cores(points_.size(), [&](std::size_t i) {
      if (!found && ask(i, count) == true) {
        last_ = i;
        found = true;
      }
    });
    return found;
  }

  std::vector<std::size_t> all(int count) {
    std::vector<char> gives(points_.size(), 0);
    on_all_cores(points_.size(), [&](std::size_t i) {
      if (ask(i, count) == true) gives[i] = 1;
    });
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < gives.size(); ++i) {
      if (gives[i] != 0) places.push_back(i);
    }
    return places;
  }

  [[nodiscard]] bool all_refuted(int count) const {
    return std::all_of(refuted_at_.begin(), refuted_at_.end(), [&](int at) { return at <= count; });
  }
  [[nodiscard]] std::size_t last() const { return last_; }

 private:
  // Each place of `refuted_at_` is written by the core that asks for it alone.
  std::optional<bool> ask(std::size_t i, int count) {
    if (refuted_at_[i] <= count) return false;
    if (cards_.is_late()) return std::nullopt;
    const std::optional<SizedCard> sized = cards_.cut_of(points_[i]);
    if (!sized) return std::nullopt;
    const std::optional<bool> enough = cards_.papers().enough_for(count, *sized);
    if (enough == false) refuted_at_[i] = count;
    return enough;
  }

  const std::vector<Amounts>& points_;
  const CutPoints& cards_;
  std::vector<int> refuted_at_;  // so many cards, and any more
  std::atomic<std::size_t> last_ = 0;
};

}  // namespace

bool is_of_one_version(const SizedCard& sized) {
  return std::count_if(sized.versions.begin(), sized.versions.end(),
                       [](const SizedVersion& version) { return version.cards > 0; }) == 1;
}

std::optional<MostOfOne> most_of(const Card& card, const SizedCard& sized, bool beyond,
                                 std::chrono::steady_clock::time_point until) {
  const std::vector<BatchCard> cards{{"", &card, &sized}};
  const auto most = batch::most_cards(cards, {}, {}, batch::stated_counts(cards), beyond, until);
  if (!most) return std::nullopt;
  return MostOfOne{batch::cards_in(most->counts), most->proven};
}

MostOfPoints most_of_points(const std::vector<Amounts>& points, const CutPoints& cards,
                            const SizedCard& smallest, int known, std::optional<int> cap,
                            const std::function<void(int)>& so_far) {
  MostOfPoints most;
  most.cards = known;
  const int limit = cap.value_or(most_tried);
  Asking asking(points, cards);
  int too_many = limit + 1;
  bool by_bound = true;  // that those are too many
  const auto try_for = [&](int count) {
    const bool possible = cards.papers().may_be_enough_for(count, smallest);
    if (possible && asking.any(count, asking.last())) {
      most.cards = count;
      if (so_far) so_far(count);
      return true;
    }
    too_many = count;
    by_bound = !possible;
    return false;
  };
  for (int step = 1; most.cards + step < too_many && try_for(most.cards + step); step *= 2) {
  }
  while (most.cards + 1 < too_many) try_for(most.cards + (too_many - most.cards) / 2);
  most.by_bound = by_bound;
  most.proven = by_bound || asking.all_refuted(too_many);
  Asking again(points, cards);
  most.points = again.all(most.cards);
  return most;
}

MostOfPoints most_of_each(const Card& card, const std::vector<Amounts>& points, const CutPoints& cards,
                          bool beyond, std::chrono::steady_clock::time_point until) {
  std::vector<std::optional<MostOfOne>> each(points.size());
  on_all_cores(points.size(), [&](std::size_t i) {
    if (cards.is_late()) return;
    const std::optional<SizedCard> sized = cards.cut_of(points[i]);
    if (sized) each[i] = most_of(card, *sized, beyond, until);
  });
  MostOfPoints most;
  most.proven = true;
  for (std::size_t i = 0; i < each.size(); ++i) {
    most.proven = most.proven && each[i] && each[i]->proven;
    if (!each[i] || each[i]->cards < most.cards) continue;
    if (each[i]->cards > most.cards) most.points.clear();
    most.cards = each[i]->cards;
    most.points.push_back(i);
  }
  return most;
}

}  // namespace evenmat::exploring
