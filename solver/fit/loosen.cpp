// A wish is let go as far as it goes first: if no card at all comes out then, by the bound of the smallest
// pieces, it is of no help. Cards are looked at by how far the amount leaves what was wished, so the first
// that comes out is the least. Where letting go allows too many cards to list, it is let go by a mark only,
// then by two, four and so on.
#include "solver/fit/loosen.h"

#include <algorithm>
#include <utility>

#include "solver/costs/costs.h"
#include "solver/fit/cheapest.h"
#include "solver/fit/let_go.h"

namespace evenmat::exploring {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_until(Clock::time_point until) {
  return std::max(0.001, std::chrono::duration<double>(until - Clock::now()).count());
}

// A point of a space with how far its amount is from what was wished.
struct Outside {
  Rational by, difference;
  Amounts amounts;
};

class OneWish {
 public:
  OneWish(const Card& card, const Bound& bound, const std::optional<Rational>& about, PaperCosts& papers,
          const FitOptions& options, Clock::time_point until)
      : card_(card), bound_(bound), about_(about), papers_(papers), options_(options), until_(until) {}

  std::optional<Loosening> run() {
    bool complete = true;
    auto nearest = look(std::nullopt, complete);
    if (complete || !known_) return nearest;
    for (Rational by = card_.mark; known_ && Clock::now() < until_; by *= 2) {
      nearest = look(by, complete);
      if (!complete) break;
      if (nearest) return nearest;
    }
    known_ = false;
    return std::nullopt;
  }

  // Whether what came of it is sure.
  [[nodiscard]] bool known() const { return known_; }

 private:
  // The least that comes out, the wish let go no farther than by so much.
  std::optional<Loosening> look(const std::optional<Rational>& by, bool& complete) {
    const Card card = with_bound_let_go(card_, bound_, by, about_);
    Space space(card, seconds_until(until_), options_.keep_same);
    const std::optional<std::size_t> amount = amount_in(space);
    if (!amount) return std::nullopt;
    const CutPoints cards(card, space, papers_, until_);
    if (!price_of(papers_.at_least(space.smallest()), cards.by_cost()).enough()) return std::nullopt;
    Listing listing = space.list(most_counted);
    complete = listing.complete;
    if (listing.time_ran_out) known_ = false;
    if (!complete) return std::nullopt;
    const std::vector<Outside> outside = by_distance(space, *amount, std::move(listing.cards));
    std::vector<Amounts> points;
    for (const Outside& one : outside) points.push_back(one.amounts);
    const auto first = first_that_comes_out(points, cards, known_);
    if (!first) return std::nullopt;
    return told(space, outside[*first], *amount);
  }

  // Not there where all else holds it in its place, or where the card as it stands does not have the same
  // amount on all sides: then nothing is known.
  std::optional<std::size_t> amount_in(const Space& space) {
    if (space.verdict() != Verdict::buildable) {
      known_ = false;
      return std::nullopt;
    }
    const std::vector<OpenAmount>& open = space.open();
    for (std::size_t i = 0; i < open.size(); ++i) {
      if (open[i].name == bound_.name && open[i].key == bound_.amount_key() && open[i].part == bound_.part)
        return i;
    }
    if (!about_) known_ = false;
    return std::nullopt;
  }

  [[nodiscard]] std::vector<Outside> by_distance(const Space& space, std::size_t amount,
                                                 std::vector<Amounts> cards) const {
    std::vector<Outside> all;
    for (Amounts& amounts : cards) {
      const Rational by = outside(bound_, amounts[amount]);
      if (by == 0) continue;
      Rational difference = space.difference(space.as_sized(), amounts);
      all.push_back({by, std::move(difference), std::move(amounts)});
    }
    std::sort(all.begin(), all.end(), [](const Outside& a, const Outside& b) {
      const Rational far_a = abs(a.by);
      const Rational far_b = abs(b.by);
      return std::tie(far_a, a.by, a.difference, a.amounts) < std::tie(far_b, b.by, b.difference, b.amounts);
    });
    return all;
  }

  std::optional<Loosening> told(const Space& space, const Outside& point, std::size_t amount) {
    auto to = written_for(bound_, point.amounts[amount], card_.unit);
    const std::optional<SizedCard> sized = space.card_of(point.amounts);
    if (!to || !sized) {
      known_ = false;
      return std::nullopt;
    }
    Loosening loosening;
    loosening.name = bound_.name;
    loosening.key = bound_.key;
    loosening.part = bound_.part;
    loosening.spot = bound_.spot;
    loosening.from = bound_.numbered.text;
    loosening.to = std::move(*to);
    loosening.by = point.by;
    loosening.costs = costs_of(*sized, papers_.of(*sized));
    return loosening;
  }

  const Card& card_;
  const Bound& bound_;
  const std::optional<Rational>& about_;
  PaperCosts& papers_;
  const FitOptions& options_;
  const Clock::time_point until_;
  bool known_ = true;
};

// Near which value an amount is chosen that is let go: as it is in the card as it stands, if that is on a
// mark.
std::optional<Rational> as_it_stands(const Bound& bound, const std::vector<OpenAmount>& as_sized,
                                     const Rational& mark) {
  std::optional<Rational> value = bound.wish.exact();
  for (const OpenAmount& open : as_sized) {
    if (open.name == bound.name && open.key == bound.amount_key() && open.part == bound.part)
      value = open.as_sized;
  }
  return value && is_multiple(*value, mark) ? value : std::nullopt;
}

}  // namespace

Loosened loosened(const Card& card, const std::vector<OpenAmount>& as_sized, const FitOptions& options,
                  PaperCosts& papers, Clock::time_point until) {
  Loosened all;
  const std::vector<Bound> bounds = bounds_of(card);
  for (std::size_t i = 0; i < bounds.size(); ++i) {
    const Clock::time_point now = Clock::now();
    if (now >= until) {
      all.all_known = false;
      break;
    }
    if (options.at_work) options.at_work("looking for a wish to loosen: " + bounds[i].name);
    const auto part = std::max<std::size_t>(1, (bounds.size() - i) / 2);
    const std::optional<Rational> about = as_it_stands(bounds[i], as_sized, card.mark);
    OneWish wish(card, bounds[i], about, papers, options, now + (until - now) / part);
    if (auto loosening = wish.run()) all.wishes.push_back(std::move(*loosening));
    all.all_known = all.all_known && wish.known();
  }
  std::stable_sort(all.wishes.begin(), all.wishes.end(),
                   [](const Loosening& a, const Loosening& b) { return abs(a.by) < abs(b.by); });
  return all;
}

}  // namespace evenmat::exploring
