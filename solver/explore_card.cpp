// The whole of it: the space, which of its cards are shown, what each costs, and which of them no other
// beats.
#include "solver/explore_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <mutex>
#include <utility>

#include "solver/costs/costs.h"
#include "solver/costs/paper_costs.h"
#include "solver/costs/unbeaten.h"
#include "solver/cut_batch.h"
#include "solver/explore/different.h"
#include "solver/explore/on_all_cores.h"
#include "solver/explore/space.h"

namespace evenmat {
namespace {

using exploring::Amounts;
using exploring::Listing;
using exploring::PaperCosts;
using exploring::Space;
using Clock = std::chrono::steady_clock;

// So many cards are costed and compared; where there are more, those that differ most stand for them when the
// best are asked for.
constexpr std::size_t most_compared = 2000;
constexpr std::size_t stand_ins = 200;

class Explorer {
 public:
  Explorer(const Card& card, const ExploreOptions& options)
      : card_(card),
        options_(options),
        until_(Clock::now() +
               std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(options.limit))),
        space_(card, options.limit, options.keep_same, options.sweep) {}

  ExploredCard run() {
    answer_.verdict = space_.verdict();
    if (answer_.verdict != Verdict::buildable) return std::move(answer_);
    answer_.open = space_.open();
    answer_.nothing_open = space_.nothing_open();
    look_at_papers();
    tell("counting the cards");
    listing_ = space_.list(most_counted);
    answer_.count = listing_.at_least;
    answer_.complete = listing_.complete;
    answer_.time_ran_out = listing_.time_ran_out;
    tell_extremes();
    costs_.resize(listing_.cards.size());
    if (options_.best) {
      show_the_best();
    } else {
      show(to_show());
    }
    if (options_.sweep) find_jumps();
    answer_.time_ran_out = answer_.time_ran_out || (papers_ && papers_->time_ran_out());
    return std::move(answer_);
  }

 private:
  void tell(std::string_view what) const {
    if (options_.at_work) options_.at_work(what);
  }

  void look_at_papers() {
    const BatchCard batch{"", &card_, &space_.sized()};
    for (const BatchMistake& mistake : mistakes_in_batch({batch}, {}, {.limit = options_.limit}))
      answer_.no_costs.push_back(mistake.remark);
    if (answer_.no_costs.empty()) papers_.emplace(card_, until_);
  }

  void tell_extremes() {
    for (std::size_t i = 0; i < answer_.open.size(); ++i) {
      OpenAmount& open = answer_.open[i];
      if (listing_.cards.empty()) continue;
      open.least = open.most = listing_.cards.front()[i];
      for (const Amounts& amounts : listing_.cards) {
        open.least = std::min(open.least, amounts[i]);
        open.most = std::max(open.most, amounts[i]);
      }
    }
  }

  // Where the card as sized is listed; behind the last where it is not.
  [[nodiscard]] std::size_t as_sized() const {
    const auto& cards = listing_.cards;
    if (!space_.lists_as_sized()) return cards.size();
    return static_cast<std::size_t>(std::lower_bound(cards.begin(), cards.end(), space_.as_sized()) -
                                    cards.begin());
  }

  [[nodiscard]] std::vector<std::size_t> every() const {
    std::vector<std::size_t> all(listing_.cards.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    return all;
  }

  [[nodiscard]] std::vector<std::size_t> differing(std::size_t count) const {
    if (listing_.cards.size() <= count) return every();
    std::vector<std::vector<Rational>> traits;
    for (const Amounts& amounts : listing_.cards) traits.push_back(space_.traits(amounts));
    const std::size_t first = as_sized() < traits.size() ? as_sized() : 0;
    return exploring::most_different(traits, first, count, card_.mark);
  }

  [[nodiscard]] std::vector<std::size_t> to_show() const {
    return options_.sweep || options_.show == 0 ? every() : differing(options_.show);
  }

  [[nodiscard]] bool compares_all() const {
    return listing_.complete && listing_.cards.size() <= most_compared;
  }

  // A card and what it costs; nothing when time ran out.
  std::optional<Alternative> made(std::size_t place) {
    if (Clock::now() >= until_ && place != as_sized()) return std::nullopt;
    std::optional<SizedCard> sized = space_.card_of(listing_.cards[place]);
    if (!sized || sized->verdict != Verdict::buildable) return std::nullopt;
    Alternative alternative;
    alternative.amounts = listing_.cards[place];
    alternative.as_sized = place == as_sized();
    std::vector<PaperCost> papers;
    if (papers_) papers = papers_->of(*sized, options_.sweep.has_value());
    alternative.costs = exploring::costs_of(*sized, std::move(papers));
    alternative.sized = std::move(*sized);
    costs_[place] = alternative.costs;
    return alternative;
  }

  // Makes them all, and hands each on as soon as all before it are there.
  void show(const std::vector<std::size_t>& places) {
    tell("working out what each takes");
    std::vector<std::optional<Alternative>> made_of(places.size());
    std::vector<bool> done(places.size(), false);
    std::size_t next = 0;
    std::mutex mutex;
    exploring::on_all_cores(places.size(), [&](std::size_t i) {
      std::optional<Alternative> one = made(places[i]);
      const std::lock_guard lock(mutex);
      made_of[i] = std::move(one);
      done[i] = true;
      for (; next < places.size() && done[next]; ++next) {
        if (!made_of[next]) continue;
        answer_.alternatives.push_back(std::move(*made_of[next]));
        shown_.push_back(places[next]);
        if (options_.found && !options_.best) options_.found(answer_, answer_.alternatives.size() - 1);
      }
    });
    if (answer_.alternatives.size() < places.size()) answer_.time_ran_out = true;
    if (options_.best) return;
    compare(compares_all() ? every() : shown_);
    mark_unbeaten();
  }

  // What each of these costs, of those for which it is not known yet.
  void compare(std::vector<std::size_t> places) {
    std::vector<std::size_t> open;
    std::copy_if(places.begin(), places.end(), std::back_inserter(open),
                 [&](std::size_t place) { return !costs_[place]; });
    if (!open.empty()) tell("comparing all cards");
    // Some time is left to show the best of them.
    const Clock::time_point enough = Clock::now() + (until_ - Clock::now()) * 4 / 5;
    exploring::on_all_cores(open.size(), [&](std::size_t i) {
      if (!options_.best || Clock::now() < enough) made(open[i]);
    });
    const std::size_t wanted = places.size();
    std::erase_if(places, [&](std::size_t place) { return !costs_[place]; });
    if (places.size() < wanted) {
      // Of a part it depends on the clock which it is.
      answer_.time_ran_out = true;
      if (!options_.best) places = shown_;
    }
    compared_ = std::move(places);
    answer_.compared = compared_.size();
  }

  [[nodiscard]] std::vector<Costs> costs_of_compared() const {
    std::vector<Costs> all;
    for (const std::size_t place : compared_) all.push_back(*costs_[place]);
    return all;
  }

  void mark_unbeaten() {
    const std::vector<bool> unbeaten = exploring::unbeaten(costs_of_compared());
    for (std::size_t i = 0; i < shown_.size(); ++i) {
      const auto at = std::find(compared_.begin(), compared_.end(), shown_[i]);
      if (at != compared_.end())
        answer_.alternatives[i].unbeaten = unbeaten[static_cast<std::size_t>(at - compared_.begin())];
    }
  }

  void show_the_best() {
    compare(compares_all() ? every() : differing(stand_ins));
    std::vector<std::size_t> places;
    for (const std::size_t i : exploring::order(*options_.best, costs_of_compared())) {
      if (options_.show != 0 && places.size() == options_.show) break;
      places.push_back(compared_[i]);
    }
    if (places.empty() && as_sized() < listing_.cards.size()) places = {as_sized()};
    show(places);
    mark_unbeaten();
  }

  void find_jumps() {
    for (std::size_t row = 1; row < answer_.alternatives.size(); ++row) {
      const auto& before = answer_.alternatives[row - 1].costs.papers;
      const auto& now = answer_.alternatives[row].costs.papers;
      for (std::size_t i = 0; i < std::min(before.size(), now.size()); ++i) {
        if (!before[i].is_planned() || !now[i].is_planned()) continue;
        Jump jump{row, now[i].paper, now[i].sheets - before[i].sheets, 0};
        if (now[i].cards_a_sheet && before[i].cards_a_sheet)
          jump.cards_a_sheet = *now[i].cards_a_sheet - *before[i].cards_a_sheet;
        if (jump.sheets != 0 || jump.cards_a_sheet != 0) answer_.jumps.push_back(std::move(jump));
      }
    }
  }

  const Card& card_;
  const ExploreOptions& options_;
  Clock::time_point until_;
  Space space_;
  Listing listing_;
  std::optional<PaperCosts> papers_;
  std::vector<std::optional<Costs>> costs_;  // by place in the listing
  std::vector<std::size_t> shown_;           // of each alternative, its place there
  std::vector<std::size_t> compared_;        // places there
  ExploredCard answer_;
};

}  // namespace

ExploredCard explore_card(const Card& card, const ExploreOptions& options) {
  return Explorer(card, options).run();
}

std::string amount_text(const OpenAmount& open, const Rational& value, Unit unit) {
  if (!open.ways.empty()) return open.ways[static_cast<std::size_t>(value)];
  return stated_length(value, unit);
}

}  // namespace evenmat
