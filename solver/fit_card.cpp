// The whole of it: the space, what the paper comes to for each of its cards, the best of them, and where none
// comes out which wish stands in the way.
//
// What the paper comes to for the smallest piece of each kind, all at once, bounds every card. Cards are
// looked at in order of their difference from the card as sized, so that of equals the first is the best, and
// the first that reaches the bound ends the search. Else every card that is listed is looked at, which is
// proof where all are listed and each one's own plan is bounded by no less than the best.
#include "solver/fit_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <numeric>
#include <tuple>
#include <utility>

#include "solver/costs/costs.h"
#include "solver/costs/paper_costs.h"
#include "solver/cut_batch.h"
#include "solver/explore/space.h"
#include "solver/fit/cheapest.h"
#include "solver/fit/loosen.h"
#include "solver/fit/most_of_points.h"
#include "solver/fit/price.h"

namespace evenmat {
namespace {

using exploring::Amounts;
using exploring::Cheapest;
using exploring::CutPoints;
using exploring::MostOfPoints;
using exploring::Price;
using exploring::Space;
using Clock = std::chrono::steady_clock;

// Cards for which it is asked how many could be made, where the batch does not come out; and where each takes
// a search of its own.
constexpr std::size_t asked_for_most = 64;
constexpr std::size_t searched_for_most = 8;
constexpr std::size_t searched_for_most_alone = 48;

class Fitter {
 public:
  Fitter(const Card& card, const FitOptions& options)
      : card_(card),
        options_(options),
        until_(after(options.limit)),
        space_(card, options.limit, options.keep_same),
        papers_(card, until_) {}

  FitCard run() {
    answer_.verdict = space_.verdict();
    if (answer_.verdict != Verdict::buildable) return std::move(answer_);
    answer_.open = space_.open();
    const BatchCard batch{"", &card_, &space_.sized()};
    for (const BatchMistake& mistake : mistakes_in_batch({batch}, {}, {.limit = options_.limit}))
      answer_.no_costs.push_back(mistake.remark);
    answer_.as_sized = alternative(space_.as_sized(), space_.sized());
    answer_.best = answer_.as_sized;
    list();
    if (answer_.no_costs.empty()) fit();
    answer_.time_ran_out = answer_.time_ran_out || papers_.time_ran_out();
    return std::move(answer_);
  }

 private:
  static Clock::time_point after(double seconds) {
    return Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds));
  }
  // Of the time that is left.
  [[nodiscard]] Clock::time_point until(double share) const {
    const Clock::time_point now = Clock::now();
    return after(std::chrono::duration<double>(std::max(until_, now) - now).count() * share);
  }

  void tell(std::string_view what) const {
    if (options_.at_work) options_.at_work(what);
  }

  [[nodiscard]] Alternative alternative(const Amounts& amounts, SizedCard sized) {
    Alternative made;
    made.amounts = amounts;
    made.as_sized = amounts == space_.as_sized();
    std::vector<PaperCost> papers;
    if (answer_.no_costs.empty()) papers = papers_.of(sized, true);
    made.costs = exploring::costs_of(sized, std::move(papers));
    made.sized = std::move(sized);
    return made;
  }

  [[nodiscard]] std::vector<Amounts> least_different_first(std::vector<Amounts> cards) const {
    std::vector<Rational> differences;
    std::vector<std::size_t> order(cards.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    for (const Amounts& amounts : cards) differences.push_back(space_.difference(space_.as_sized(), amounts));
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return differences[a] < differences[b]; });
    std::vector<Amounts> sorted;
    for (const std::size_t i : order) sorted.push_back(std::move(cards[i]));
    return sorted;
  }

  void list() {
    tell("counting the cards");
    exploring::Listing listing = space_.list(most_counted);
    answer_.count = listing.at_least;
    answer_.complete = listing.complete;
    answer_.time_ran_out = listing.time_ran_out || (!listing.complete && Clock::now() >= until_);
    points_ = least_different_first(std::move(listing.cards));
    for (std::size_t i = 0; i < answer_.open.size(); ++i) {
      OpenAmount& open = answer_.open[i];
      open.least = open.most = open.as_sized;
      for (const Amounts& amounts : points_) {
        open.least = std::min(open.least, amounts[i]);
        open.most = std::max(open.most, amounts[i]);
      }
    }
  }

  void fit() {
    const SizedCard smallest = space_.smallest();
    if (options_.most && fit_most(smallest)) return;
    const Cheapest cheapest = cheapest_among(points_, smallest, until(0.6));
    take(nearer(points_[cheapest.point], cheapest.price, smallest));
    answer_.proven = !(cheapest.at_least < cheapest.price) && (answer_.complete || reached_bound_);
    if (cheapest.price.enough()) return;
    count_what_can_be_made(cheapest, smallest);
    auto loosened = exploring::loosened(card_, answer_.open, options_, papers_, until_);
    answer_.loosen = std::move(loosened.wishes);
    answer_.loosen_known = loosened.all_known;
  }

  // Of cards too many to list there may be one between this and the card as sized that is had for as little.
  Amounts nearer(const Amounts& best, const Price& price, const SizedCard& smallest) {
    if (answer_.complete || best == space_.as_sized()) return best;
    const std::vector<Amounts> points =
        least_different_first(space_.between(space_.as_sized(), best, most_counted));
    if (points.empty()) return best;
    const Cheapest cheapest = cheapest_among(points, smallest, until(0.6));
    const Amounts& found = points[cheapest.point];
    const bool is_nearer =
        space_.difference(space_.as_sized(), found) < space_.difference(space_.as_sized(), best);
    return !(price < cheapest.price) && is_nearer ? found : best;
  }

  Cheapest cheapest_among(const std::vector<Amounts>& points, const SizedCard& smallest,
                          Clock::time_point late) {
    const CutPoints cards(card_, space_, papers_, late);
    const std::vector<exploring::PaperBound> bounds = papers_.at_least(smallest);
    Price bound = price_of(bounds, cards.by_cost());
    if (!is_nowhere_smaller(space_.sized(), smallest)) bound = std::min(bound, least_as_sized(cards));
    int sheets = 0;
    for (const exploring::PaperBound& paper : bounds) sheets += paper.sheets;
    Cheapest cheapest = cheapest_of(points, cards, bound, sheets, [&](std::size_t looked_at) {
      if (looked_at % 50 == 0)
        tell(fmt::format("fitting the sizes, {} of {} cards looked at", looked_at, points.size()));
    });
    reached_bound_ = !cheapest.price.never && !(bound < cheapest.price);
    answer_.at_least = answer_.complete ? cheapest.sheets_at_least : sheets;
    answer_.time_ran_out = answer_.time_ran_out || cheapest.time_ran_out;
    return cheapest;
  }

  // The card as sized may lie between the marks, and none of the others does.
  static bool is_nowhere_smaller(const SizedCard& sized, const SizedCard& smallest) {
    for (std::size_t version = 0; version < sized.versions.size(); ++version) {
      const std::vector<PlacedPiece>& pieces = sized.versions[version].pieces;
      const std::vector<PlacedPiece>& least = smallest.versions[version].pieces;
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i].width < least[i].width || pieces[i].height < least[i].height) return false;
      }
    }
    return true;
  }

  [[nodiscard]] Price least_as_sized(const CutPoints& cards) {
    std::vector<exploring::PaperBound> bounds;
    for (const exploring::PricedPaper& paper : papers_.priced(space_.sized())) bounds.push_back(paper.bound);
    return price_of(bounds, cards.by_cost());
  }

  // The card of a point, whole. It stays the one as sized if time runs out.
  void take(const Amounts& amounts) {
    if (amounts == space_.as_sized()) return;
    std::optional<SizedCard> sized = space_.card_of(amounts);
    if (!sized || sized->verdict != Verdict::buildable) {
      answer_.time_ran_out = true;
      return;
    }
    answer_.best = alternative(amounts, std::move(*sized));
  }

  // False when no paper sets a limit.
  bool fit_most(const SizedCard& smallest) {
    tell("counting the cards that the paper gives");
    const auto as_sized = exploring::most_of(card_, space_.sized(), true, until(0.3));
    if (!as_sized) return false;
    const CutPoints cards(card_, space_, papers_, until(0.7));
    answer_.most_as_sized = as_sized->cards;
    const MostOfPoints most = most_among(points_, cards, smallest, as_sized->cards, true);
    answer_.most = most.cards;
    std::vector<Amounts> those{space_.as_sized()};
    if (!most.points.empty()) those.clear();
    for (const std::size_t i : most.points) those.push_back(points_[i]);
    const Cheapest cheapest = cheapest_among(those, smallest, until(0.8));
    take(those[cheapest.point]);
    answer_.proven = most.proven && (as_sized->proven || most.cards > as_sized->cards ||
                                     is_nowhere_smaller(space_.sized(), smallest));
    return true;
  }

  MostOfPoints most_among(const std::vector<Amounts>& points, const CutPoints& cards,
                          const SizedCard& smallest, int known, bool beyond) {
    if (exploring::is_of_one_version(space_.sized())) {
      std::optional<int> cap;
      if (!beyond) cap = stated_cards();
      MostOfPoints most = exploring::most_of_points(points, cards, smallest, known, cap, [&](int so_far) {
        tell(fmt::format("looking for the most cards: {} so far", so_far));
      });
      most.proven = most.proven && (answer_.complete || most.by_bound);
      return most;
    }
    const std::size_t count = std::min(points.size(), beyond ? searched_for_most_alone : searched_for_most);
    const std::vector<Amounts> some(points.begin(), points.begin() + static_cast<std::ptrdiff_t>(count));
    MostOfPoints most = exploring::most_of_each(card_, some, cards, beyond, until(0.5));
    if (most.cards < known) most = {known, {}, false, false};
    const bool all = !beyond && most.cards == stated_cards();
    most.proven = all || (most.proven && answer_.complete && count == points.size());
    return most;
  }

  [[nodiscard]] int stated_cards() const { return card_.cards + card_.spare; }

  // The batch does not come out: how many cards do, as sized and with the sizes that lack least.
  void count_what_can_be_made(const Cheapest& cheapest, const SizedCard& smallest) {
    tell("counting the cards that the paper gives");
    const auto as_sized = exploring::most_of(card_, space_.sized(), false, until(0.2));
    if (!as_sized) return;
    answer_.most_as_sized = as_sized->cards;
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if (cheapest.prices[i]) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return *cheapest.prices[a] < *cheapest.prices[b]; });
    std::vector<Amounts> some;
    for (const std::size_t i : order) {
      if (some.size() < asked_for_most) some.push_back(points_[i]);
    }
    const CutPoints cards(card_, space_, papers_, until(0.4));
    answer_.most = most_among(some, cards, smallest, as_sized->cards, false).cards;
  }

  const Card& card_;
  const FitOptions& options_;
  const Clock::time_point until_;
  Space space_;
  exploring::PaperCosts papers_;
  std::vector<Amounts> points_;
  bool reached_bound_ = false;
  FitCard answer_;
};

}  // namespace

FitCard fit_card(const Card& card, const FitOptions& options) { return Fitter(card, options).run(); }

}  // namespace evenmat
