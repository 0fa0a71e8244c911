#include "solver/explore/space.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <set>
#include <stdexcept>
#include <utility>

#include "solver/answer/placing.h"
#include "solver/answer/version.h"
#include "solver/explore/amounts.h"
#include "solver/explore/held.h"
#include "solver/explore/on_all_cores.h"
#include "solver/explore/region.h"
#include "solver/explore/stated.h"
#include "solver/search/prover.h"
#include "solver/search/system_of.h"

namespace evenmat::exploring {
namespace {

constexpr std::size_t most_ways = 64;  // of all entries of `rules` together
// Where each card has to be chosen whole before it is known to be one, a part of the space is this small.
constexpr std::size_t most_chosen_of_a_part = 400;

Clock::time_point after(double seconds) {
  return Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds));
}

// The space with one way taken of every entry of `rules` that has several.
struct Part {
  std::unique_ptr<Region> region;
  std::vector<Sum> lengths;  // of the rules' variables, in terms of the amounts
};

}  // namespace

struct Space::Inside {
  const Card& card;
  Clock::time_point until;
  SizedCard sized;
  Rules rules;
  std::vector<Amount> amounts;
  std::vector<OpenAmount> open;
  Amounts as_sized;
  std::string nothing_open;
  std::vector<Part> parts;
  std::vector<Sum> sizes;
  bool sizes_follow = true;  // from the amounts alone
  std::unique_ptr<HeldCards> held;
  bool has_ways = false;   // more than one that leads to a card
  bool is_point = true;    // the card as sized: each amount is the same wherever it stands
  std::vector<Rule> kept;  // that layers keep their size
  std::map<Amounts, SizedCard> chosen_cards;

  Inside(const Card& its_card, double limit) : card(its_card), until(after(limit)) {}

  [[nodiscard]] bool time_is_up() const { return Clock::now() >= until; }

  void keep_the_same(const std::vector<std::string>& names) {
    for (std::size_t version = 0; version <= card.variants.size(); ++version) {
      const Places places = places_of(rules, version);
      for (const std::string& name : names) {
        const auto cell = places.cell.find(name);
        if (cell == places.cell.end()) continue;
        for (const Measure measure : {Measure::width, Measure::height}) {
          const Variable length = variable(cell->second, measure);
          Rule rule;
          rule.version = version;
          rule.choices = {{equals(Sum::of(length), Sum(sized.lengths[length]))}};
          rules.rules.push_back(rule);
          kept.push_back(std::move(rule));
        }
      }
    }
  }

  void find_amounts(const std::optional<AmountName>& only) {
    System system = system_of(rules);
    if (!system.settle()) throw std::logic_error("the rules of a card that was sized cannot hold");
    amounts = open_amounts(card, rules, system, sized.lengths, only);
    if (only && amounts.empty()) {
      nothing_open = fmt::format(
          "Nothing varies with the {} of {}: what else is stated settles it, or it is no border, margin, "
          "frame, "
          "size, distance, gap or cut-back.",
          only->second, only->first);
    }
    leave_out_too_many_ways();
    for (Amount& amount : amounts) amount.through = anchor_of(amount, system);
    for (Amount& amount : amounts) {
      open.push_back(amount.open);
      as_sized.push_back(amount.open.as_sized);
    }
    add_parts(system, {}, 0);
    has_ways = parts.size() > 1;
    for (const Amount& amount : amounts) is_point = is_point && is_alike(amount);
    for (const Part& part : parts) {
      for (const Sum& size : sizes)
        sizes_follow = sizes_follow && part.region->follows(part.region->reduced(size));
    }
  }

  // Ways multiply; those that come late in the file are left to the choosing order.
  void leave_out_too_many_ways() {
    std::size_t ways = 1;
    std::erase_if(amounts, [&](const Amount& amount) {
      if (amount.rules.empty()) return false;
      ways *= amount.open.ways.size();
      if (ways <= most_ways) return false;
      ways = most_ways;  // every other is too many too
      return true;
    });
  }

  // Makers read marks: an amount keeps to them, unless no card at all has it on one.
  [[nodiscard]] Rational anchor_of(const Amount& amount, System system) const {
    if (amount.sums.empty() || is_multiple(amount.open.as_sized, rules.mark)) return 0;
    const Variable marks = system.fresh();
    system.set_whole(marks);
    for (const Sum& sum : amount.sums) system.add(equals(sum, Sum::of(marks)));
    Prover prover(std::chrono::duration<double>(std::max(until - Clock::now(), Clock::duration(1))).count(),
                  0);
    try {
      return possible(std::move(system), prover) ? Rational(0) : amount.open.as_sized;
    } catch (const OutOfTime&) {
      return amount.open.as_sized;
    }
  }

  [[nodiscard]] bool is_alike(const Amount& amount) const {
    return std::all_of(amount.sums.begin(), amount.sums.end(),
                       [&](const Sum& sum) { return sum.at(sized.lengths) == amount.open.as_sized; });
  }

  void add_parts(const System& system,
                 Taken taken,  // NOLINT(misc-no-recursion)
                 std::size_t from) {
    std::size_t next = from;
    while (next < amounts.size() && amounts[next].rules.empty()) ++next;
    if (next == amounts.size()) {
      add_part(system, std::move(taken));
      return;
    }
    for (std::size_t way = 0; way < amounts[next].open.ways.size(); ++way) {
      taken.emplace_back(next, Rational(way));
      add_parts(system, taken, next + 1);
      taken.pop_back();
    }
  }

  [[nodiscard]] std::vector<Relation> relations_of(const Taken& taken) const {
    std::vector<Relation> relations;
    for (const auto& [place, way] : taken) {
      for (const std::size_t rule : amounts[place].rules) {
        for (const Relation& relation : rules.rules[rule].choices[static_cast<std::size_t>(way)])
          relations.push_back(relation);
      }
    }
    return relations;
  }

  void add_part(System system, Taken taken) {
    for (const Relation& relation : relations_of(taken)) system.add(relation);
    if (!system.settle()) return;
    const Size& front = card.design.base.front.size;
    auto region =
        Region::of(system, amounts, std::move(taken), 4 * std::max(front.width, front.height), until);
    if (!region) return;
    Part part{std::move(region), {}};
    for (Variable v = 0; v < rules.variables(); ++v) part.lengths.push_back(part.region->reduced(Sum::of(v)));
    parts.push_back(std::move(part));
  }

  [[nodiscard]] std::optional<SizedCard> card_of(const Amounts& at) const {
    if (const auto known = chosen_cards.find(at); known != chosen_cards.end()) return known->second;
    if (!is_point || at != as_sized) return held->as(with_stated(card, amounts, at));
    SizedCard copy = sized;
    return copy;
  }

  // Cards of which more is asked than rules say, or that two ways may give alike, are chosen whole.
  // Some time is left for what comes after. A few cards are kept, since they may be asked for again.
  void confirm(Listing& listing) {
    constexpr std::size_t most_kept = 2000;
    const Clock::time_point enough = Clock::now() + (until - Clock::now()) * 3 / 5;
    std::vector<std::optional<SizedCard>> chosen(listing.cards.size());
    on_all_cores(listing.cards.size(), [&](std::size_t i) {
      if (Clock::now() < enough) chosen[i] = card_of(listing.cards[i]);
    });
    std::set<std::vector<Rational>> known;
    std::vector<Amounts> cards;
    for (std::size_t i = 0; i < listing.cards.size(); ++i) {
      if (!chosen[i]) listing.time_ran_out = true;
      // Whether there is one with these amounts is not known then.
      if (chosen[i] && chosen[i]->verdict == Verdict::undecided) listing.complete = false;
      if (!chosen[i] || chosen[i]->verdict != Verdict::buildable) continue;
      if (has_ways && !known.insert(geometry_of(*chosen[i])).second) continue;
      cards.push_back(std::move(listing.cards[i]));
      if (chosen_cards.size() < most_kept) chosen_cards.emplace(cards.back(), std::move(*chosen[i]));
    }
    listing.cards = std::move(cards);
  }

  static std::vector<Rational> geometry_of(const SizedCard& card) {
    std::vector<Rational> all;
    for (const SizedVersion& version : card.versions) {
      all.push_back(version.front.width);
      all.push_back(version.front.height);
      for (const PlacedPiece& piece : version.pieces) {
        all.insert(all.end(), {piece.width, piece.height, piece.left, piece.top});
        for (const auto& [x, y] : piece.copies) all.insert(all.end(), {x, y});
        if (piece.artwork_at) all.insert(all.end(), {piece.artwork_at->first, piece.artwork_at->second});
      }
    }
    return all;
  }

  Listing list(std::size_t most) {
    const bool whole = has_ways || held->asks_more_than_rules();
    Listing listing;
    std::size_t most_of_a_part = 0;
    for (const Part& part : parts) {
      const std::size_t before = listing.cards.size();
      listing.complete = part.region->list(most, listing.cards) && listing.complete;
      most_of_a_part = std::max(most_of_a_part, listing.cards.size() - before);
    }
    listing.complete = listing.complete && listing.cards.size() <= most;
    listing.time_ran_out = time_is_up();
    if (!listing.complete) {
      // What was listed lies at one end.
      listing.cards.clear();
      const std::size_t of_each =
          (whole ? most_chosen_of_a_part : most) / std::max<std::size_t>(parts.size(), 1);
      for (const Part& part : parts) part.region->spread(std::max<std::size_t>(of_each, 1), listing.cards);
    }
    std::sort(listing.cards.begin(), listing.cards.end());
    listing.cards.erase(std::unique(listing.cards.begin(), listing.cards.end()), listing.cards.end());
    if (whole) confirm(listing);
    if (is_point) add_as_sized(listing);
    if (listing.time_ran_out) listing.complete = false;
    listing.at_least = listing.cards.size();
    // Points of one way are all different; of several, two may give one card.
    if (!listing.complete && !held->asks_more_than_rules())
      listing.at_least = std::max(most_of_a_part, listing.at_least);
    return listing;
  }

  // It is a card also where its amounts lie off the marks. With ways another of them may have given it.
  void add_as_sized(Listing& listing) const {
    const auto at = std::lower_bound(listing.cards.begin(), listing.cards.end(), as_sized);
    if (at == listing.cards.end() || *at != as_sized) listing.cards.insert(at, as_sized);
  }

  [[nodiscard]] const Part& part_of(const Amounts& at) const {
    for (const Part& part : parts) {
      if (part.region->has(at)) return part;
    }
    throw std::logic_error("no such card is listed");
  }

  // Of all variables of the rules; places that do not follow from the amounts are 0.
  [[nodiscard]] std::vector<Rational> lengths_at(const Amounts& at) const {
    const Part& part = part_of(at);
    const std::vector<Rational> values = part.region->values_at(at);
    std::vector<Rational> lengths;
    for (const Sum& length : part.lengths) lengths.push_back(length.at(values));
    return lengths;
  }

  // The sizes of pieces as small as each may be, all else 0.
  [[nodiscard]] std::vector<Rational> least_lengths() const {
    std::vector<Rational> lengths(rules.variables(), 0);
    for (const Sum& size : sizes) {
      Rational least = size.at(sized.lengths);
      for (const Part& part : parts) {
        if (const auto found = part.region->least(size); found && *found < least) least = *found;
      }
      lengths[size.terms().front().variable] = std::max(least, Rational(0));
    }
    // Blanks and offcuts are made of faces.
    for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
      if (rules.rectangles[i].kind != Rectangle::Kind::face) continue;
      for (const Measure measure : {Measure::width, Measure::height})
        lengths[variable(i, measure)] = sized.lengths[variable(i, measure)];
    }
    return lengths;
  }

  [[nodiscard]] SizedCard placed(const std::vector<Rational>& lengths) const {
    SizedCard some;
    some.versions = versions_of(card);
    for (std::size_t i = 0; i < some.versions.size(); ++i)
      place_version(some.versions[i], card, rules, i, lengths);
    return some;
  }

  [[nodiscard]] std::vector<Rational> traits(const Amounts& at) const {
    std::vector<Rational> found;
    if (sizes_follow) {
      const std::vector<Rational> lengths = is_point && at == as_sized ? sized.lengths : lengths_at(at);
      for (const Sum& size : sizes) found.push_back(size.at(lengths));
    }
    for (std::size_t i = 0; i < amounts.size(); ++i)
      found.push_back(amounts[i].rules.empty() ? at[i] : Rational(at[i] * rules.mark));
    return found;
  }
};

Space::Space(const Card& card, double limit, const std::vector<std::string>& keep_same,
             const std::optional<AmountName>& only)
    : inside_(std::make_unique<Inside>(card, limit)) {
  inside_->sized = size_card(card, {.limit = limit});
  if (inside_->sized.verdict != Verdict::buildable) return;
  inside_->rules = rules_of(card);
  inside_->sizes = sizes_of(card, inside_->rules);
  inside_->keep_the_same(keep_same);
  inside_->find_amounts(only);
  inside_->held = std::make_unique<HeldCards>(card, inside_->kept, inside_->until);
}

Space::~Space() = default;
Space::Space(Space&&) noexcept = default;
Space& Space::operator=(Space&&) noexcept = default;

Verdict Space::verdict() const { return inside_->sized.verdict; }
const std::vector<OpenAmount>& Space::open() const { return inside_->open; }
const Amounts& Space::as_sized() const { return inside_->as_sized; }
bool Space::lists_as_sized() const { return inside_->is_point; }
const SizedCard& Space::sized() const { return inside_->sized; }
const std::string& Space::nothing_open() const { return inside_->nothing_open; }

Listing Space::list(std::size_t most) {
  try {
    return inside_->list(most);
  } catch (const OutOfTime&) {
    Listing only_as_sized;
    only_as_sized.cards = {inside_->as_sized};
    only_as_sized.complete = false;
    only_as_sized.at_least = 1;
    only_as_sized.time_ran_out = true;
    return only_as_sized;
  }
}

std::vector<Amounts> Space::between(const Amounts& a, const Amounts& b, std::size_t most) {
  constexpr std::size_t most_chosen = 2000;
  Listing listing;
  try {
    for (const Part& part : inside_->parts) part.region->between(a, b, most, listing.cards);
  } catch (const OutOfTime&) {
    return {};
  }
  if (inside_->has_ways || inside_->held->asks_more_than_rules()) {
    if (listing.cards.size() > most_chosen) return {};
    inside_->confirm(listing);
  }
  return std::move(listing.cards);
}

std::optional<SizedCard> Space::sizes_only(const Amounts& amounts) const {
  if (inside_->is_point && amounts == inside_->as_sized) return inside_->sized;
  if (!inside_->sizes_follow) return inside_->card_of(amounts);
  return inside_->placed(inside_->lengths_at(amounts));
}

SizedCard Space::smallest() const { return inside_->placed(inside_->least_lengths()); }

std::optional<SizedCard> Space::card_of(const Amounts& amounts) const { return inside_->card_of(amounts); }

std::vector<Rational> Space::traits(const Amounts& amounts) const { return inside_->traits(amounts); }

Rational Space::difference(const Amounts& a, const Amounts& b) const {
  const std::vector<Rational> there = traits(a);
  const std::vector<Rational> here = traits(b);
  Rational total = 0;
  for (std::size_t i = 0; i < there.size(); ++i) total += abs(Rational(there[i] - here[i]));
  return total / inside_->rules.mark;
}

}  // namespace evenmat::exploring
