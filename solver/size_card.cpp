// From a card to its answer: rules, choosing, and what a report tells beside the sizes.
#include "solver/size_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "model/faces.h"
#include "solver/answer/advice.h"
#include "solver/answer/freedom.h"
#include "solver/answer/placing.h"
#include "solver/answer/version.h"
#include "solver/quotas.h"
#include "solver/rules/piles.h"
#include "solver/search/choose.h"
#include "solver/search/system_of.h"
#include "solver/why/conflicts.h"

namespace evenmat {
namespace {

class Answer {
 public:
  Answer(const Card& card, const SizeOptions& options)
      : card_(card), options_(options), prover_(options.limit, options.seed), rules_(rules_of(card)) {
    answer_.versions = versions_of(card);
  }

  SizedCard run() {
    std::vector<bool> buildable(answer_.versions.size(), true);
    Choosing choosing = choose_of(buildable);
    if (choosing.outcome == Outcome::impossible) {
      choosing = without_impossible(buildable);
    }
    fill_all(buildable, choosing);
    if (some_too_thick()) choosing = thinner(buildable, std::move(choosing));
    if (!choosing.values.empty()) {
      try {
        tell_freedom(buildable, choosing.values, choosing.first);
      } catch (const OutOfTime&) {
        answer_.freedom_known = false;
      }
    }
    answer_.lengths = choosing.values;
    answer_.time_ran_out = choosing.outcome == Outcome::out_of_time;
    for (const SizedVersion& version : answer_.versions)
      answer_.verdict = worse(answer_.verdict, version.verdict);
    return std::move(answer_);
  }

 private:
  [[nodiscard]] const Design& design(std::size_t version) const { return design_of(card_, version); }

  // Some version cannot be built: says why of the first such, and chooses for the others.
  Choosing without_impossible(std::vector<bool>& buildable) {
    try {
      for (std::size_t i = 0; i < buildable.size(); ++i) {
        std::vector<bool> only(buildable.size(), false);
        only[i] = true;
        const Rules own = only_versions(rules_, only);
        if (possible(system_of(own), prover_)) continue;
        buildable[i] = false;
        answer_.versions[i].verdict = Verdict::conflict;
        if (answer_.clash.empty() && answer_.off_marks.empty()) tell_clash(own, i);
      }
    } catch (const OutOfTime&) {
      return {Outcome::out_of_time, {}, {}};
    }
    if (std::none_of(buildable.begin(), buildable.end(), [](bool b) { return b; }))
      return {Outcome::impossible, {}, {}};
    rules_ = only_versions(rules_, buildable);
    return choose_of(buildable);
  }

  Choosing choose_of(const std::vector<bool>& versions) {
    return choose_within(quotas_of(card_, rules_), rules_, versions, prover_);
  }

  bool marks_alone_stand_in_the_way(const Rules& rules) {
    try {
      return possible(system_of(rules, {}, false), prover_);
    } catch (const OutOfTime&) {
      return false;
    }
  }

  void tell_clash(const Rules& rules, std::size_t version) {
    std::set<Spot> blamed;
    try {
      Inquiry inquiry(rules, prover_);
      inquiry.watch(quotas_of(card_, rules_));
      find_clashes(inquiry, [&](const Clash& clash) {
        for (const WishId wish : clash.wishes) blamed.insert(inquiry.spot(wish));
        answer_.clash_is_smallest = clash.smallest;
        return false;
      });
    } catch (const OutOfTime&) {  // before anything was asked: all of it cannot hold
      answer_.clash_is_smallest = false;
      for (const Rule& rule : rules.rules) {
        if (rule.origin == Origin::stated) blamed.insert(rule.spot);
      }
    }
    for (const Rule& rule : rules.rules) {
      // A wish that binds several sides is told once.
      if (rule.origin == Origin::stated && blamed.erase(rule.spot) > 0) {
        answer_.clash.push_back({rule.says, rule.spot});
      }
    }
    answer_.clash_of = answer_.versions[version].name;
    if (marks_alone_stand_in_the_way(rules)) {
      answer_.off_marks =
          fmt::format("Only the marks stand in the way: with sizes between the {} marks it could be built.",
                      length_with_unit(card_.mark, card_.unit));
    }
  }

  void fill_all(const std::vector<bool>& buildable, const Choosing& choosing) {
    for (std::size_t i = 0; i < answer_.versions.size(); ++i) {
      SizedVersion& version = answer_.versions[i];
      if (!buildable[i]) continue;
      if (choosing.outcome == Outcome::out_of_time) version.verdict = Verdict::undecided;
      if (!choosing.values.empty()) fill_version(version, card_, rules_, i, choosing.values);
    }
  }

  [[nodiscard]] bool is_too_thick(std::size_t index) const {
    return evenmat::is_too_thick(card_, index, answer_.versions[index]);
  }
  [[nodiscard]] bool some_too_thick() const {
    for (std::size_t i = 0; i < answer_.versions.size(); ++i) {
      if (is_too_thick(i)) return true;
    }
    return false;
  }

  // The rules leave out piles of which it is not certain that nothing else takes them apart. Where the card
  // chosen so is too thick they count too, and a card that keeps to them does; if there is none, it is not
  // known.
  Choosing thinner(const std::vector<bool>& buildable, Choosing too_thick) {
    const Rules certain = rules_;
    rules_ = only_versions(rules_of(card_, PileSet::all), buildable);
    Choosing choosing = choose_of(buildable);
    if (choosing.outcome == Outcome::found) {
      fill_all(buildable, choosing);
      return choosing;
    }
    rules_ = certain;
    for (std::size_t i = 0; i < answer_.versions.size(); ++i) {
      if (!is_too_thick(i)) continue;
      SizedVersion& version = answer_.versions[i];
      version.verdict = Verdict::undecided;
      version.warnings.push_back(
          {design(i).limit.thickness->spot,
           fmt::format(
               "Closed, this card is {} thick, more than its limit. Whether another would keep to it is not "
               "known: say more of where its layers lie.",
               thickness_with_unit(version.closed->thickness, card_.unit))});
    }
    return too_thick;
  }

  void tell_freedom(const std::vector<bool>& buildable, const std::vector<Rational>& values,
                    const std::vector<Rational>& other) {
    std::vector<Sum> sums;  // per piece: width, height, then from left, top, right, bottom
    for (std::size_t i = 0; i < buildable.size(); ++i) {
      if (!buildable[i]) continue;
      const Places places = places_of(rules_, i);
      for (const Piece& piece : design(i).pieces) {
        const std::size_t cell = places.cell.at(piece.name.value);
        const std::size_t body = places.body.at(piece.name.value);
        const std::size_t below = under(places, piece);
        for (const Sum& sum : measures_of(rules_, cell, body, below)) sums.push_back(sum);
      }
    }
    System system = system_of(rules_);
    if (!system.settle()) throw std::logic_error("the rules of a card that was sized cannot hold");
    const std::vector<bool> settled = settled_by_rules(system, sums, values, other, prover_);
    std::vector<Extent> ranges;
    if (options_.ranges) ranges = extents(system, sums, prover_);
    const System sized = with_sizes(system, rules_, values);
    std::size_t next = 0;
    for (std::size_t i = 0; i < buildable.size(); ++i) {
      if (!buildable[i]) continue;
      SizedVersion& version = answer_.versions[i];
      for (PlacedPiece& placed : version.pieces) {
        placed.width_stated = settled[next];
        placed.height_stated = settled[next + 1];
        placed.left_stated = settled[next + 2];
        placed.top_stated = settled[next + 3];
        placed.right_stated = settled[next + 4];
        placed.bottom_stated = settled[next + 5];
        if (options_.ranges) {
          static constexpr const char* measures[] = {"width", "height", "from left", "from top"};
          for (std::size_t m = 0; m < 4; ++m) {
            version.ranges.push_back(
                {placed.piece->name.value, measures[m], ranges[next + m].least, ranges[next + m].greatest});
          }
        }
        next += 6;
      }
      tell_slides(version, i, sized, values);
      for (Remark& remark : advice(card_, design(i), version)) version.warnings.push_back(std::move(remark));
    }
  }

  // Which rectangles go along when a piece is pushed: itself, its artwork, and all that is on it.
  [[nodiscard]] std::vector<std::vector<std::size_t>> carried(std::size_t index, const Places& places) const {
    std::vector<std::vector<std::size_t>> all;
    // Artwork that can lie elsewhere in its own paper moves nothing else.
    for (const auto& [name, artwork] : places.artwork) all.push_back({artwork});
    for (const Piece& piece : design(index).pieces) {
      std::set<std::string> moving{piece.name.value};
      for (bool grown = true; grown;) {
        grown = false;
        for (const Piece& other : design(index).pieces) {
          if (moving.contains(other.on.value)) grown = moving.insert(other.name.value).second || grown;
        }
      }
      std::vector<std::size_t> rectangles{places.body.at(piece.name.value)};
      for (const std::string& name : moving) {
        rectangles.push_back(places.cell.at(name));
        rectangles.push_back(places.body.at(name));
        if (const auto art = places.artwork.find(name); art != places.artwork.end()) {
          rectangles.push_back(art->second);
        }
      }
      all.push_back(std::move(rectangles));
    }
    return all;
  }

  void tell_slides(SizedVersion& version, std::size_t index, const System& sized,
                   const std::vector<Rational>& values) {
    const Places places = places_of(rules_, index);
    for (const Movement& move : movements(rules_, sized, index, values, carried(index, places))) {
      Slide slide;
      bool across = false;
      bool down = false;
      bool even = true;
      for (const PlacedPiece& placed : version.pieces) {
        const std::size_t body = places.body.at(placed.piece->name.value);
        const Rational& x = move.steps[variable(body, Measure::left)];
        const Rational& y = move.steps[variable(body, Measure::top)];
        if (x == 0 && y == 0) continue;
        across = across || x != 0;
        down = down || y != 0;
        even = even && (x == 0 || x == 1) && (y == 0 || y == 1);
        slide.names.push_back(placed.piece->name.value);
      }
      // What moves in step along one axis can be told as a slide; a seesaw cannot.
      if (slide.names.empty() || across == down || !even) continue;
      slide.across = across;
      slide.low = move.low;
      slide.high = move.high;
      version.slides.push_back(std::move(slide));
    }
  }

  const Card& card_;
  const SizeOptions& options_;
  Prover prover_;  // its time runs from here
  Rules rules_;
  SizedCard answer_;
};

std::optional<Remark> refusal_of(const Card& card, const Design& design) {
  std::map<std::string, std::size_t> on;
  for (const Piece& piece : design.pieces) {
    if (++on[piece.on.value] <= most_side_by_side) continue;
    return Remark{
        piece.name.spot,
        fmt::format("More than {} layers lie on {}. Lay equal ones out with `copies`, or put some on a "
                    "panel of their own.",
                    most_side_by_side, piece.on.value)};
  }
  const auto& limit = design.limit.thickness;
  if (limit && !writing::piles_over(card, design, limit->value)) {
    return Remark{limit->spot,
                  "So many layers may lie over one another in so many ways that this limit cannot be kept in "
                  "sight. Leave it out and read the thickness in the answer, or say where more of them lie."};
  }
  return std::nullopt;
}

}  // namespace

Verdict worse(Verdict a, Verdict b) {
  for (const Verdict verdict : {Verdict::conflict, Verdict::undecided}) {
    if (a == verdict || b == verdict) return verdict;
  }
  return Verdict::buildable;
}

std::optional<Remark> refusal(const Card& card) {
  std::size_t pieces = card.design.pieces.size();
  for (const Variant& variant : card.variants) {
    pieces += variant.design.pieces.size();
    if (pieces <= most_in_all) continue;
    return Remark{
        variant.name.spot,
        fmt::format("The card and its variants have more than {} layers in all. Put some variants in a "
                    "file of their own.",
                    most_in_all)};
  }
  if (auto found = refusal_of(card, card.design)) return found;
  for (const Variant& variant : card.variants) {
    if (auto found = refusal_of(card, variant.design)) return found;
  }
  return std::nullopt;
}

SizedCard size_card(const Card& card, const SizeOptions& options) { return Answer(card, options).run(); }

}  // namespace evenmat
