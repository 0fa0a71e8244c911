#include "solver/quotas.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "model/copies.h"
#include "model/faces.h"
#include "model/folding.h"
#include "model/papers.h"
#include "solver/search/system_of.h"

namespace evenmat {
namespace {

constexpr int most_rounds = 400;
// The step of lengths that need not fall on marks.
const Rational finest = Rational(1) / 1'000'000'000;

class Reader {
 public:
  Reader(const Card& card, const Design& design, const Rules& rules, std::size_t version,
         std::vector<Quota>& found)
      : card_(card), design_(design), version_(version), found_(found) {
    for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
      const Rectangle& it = rules.rectangles[i];
      if (it.version != version) continue;
      const bool cell = it.kind == Rectangle::Kind::face || it.kind == Rectangle::Kind::layer ||
                        it.kind == Rectangle::Kind::window;
      if (cell) at_[it.name] = i;
    }
    for (const Piece& piece : design.pieces) pieces_[piece.name.value] = &piece;
  }

  void read() {
    for (const Piece& piece : design_.pieces) {
      if (piece.show && piece.show->value.at_least && *piece.show->value.at_least < 1) read_share(piece);
    }
    if (design_.limit.grams) read_grams();
  }

 private:
  [[nodiscard]] Variable width(const std::string& name) const {
    return variable(at_.at(name), Measure::width);
  }
  [[nodiscard]] Variable height(const std::string& name) const {
    return variable(at_.at(name), Measure::height);
  }
  [[nodiscard]] Area area(const Rational& factor, const std::string& name) const {
    return {factor, {width(name), height(name)}};
  }
  static int count(const Piece& piece) { return piece.copies ? piece.copies->value : 1; }

  [[nodiscard]] const Piece* window_of(const Piece& piece) const {
    const auto below = pieces_.find(piece.on.value);
    const bool window = below != pieces_.end() && below->second->kind == Piece::Kind::window;
    return window ? below->second : nullptr;
  }

  // What lies on a layer, if it is sure to lie inside it side by side; none if it is not.
  [[nodiscard]] std::optional<std::vector<const Piece*>> lying_on(const Piece& piece) const {
    std::vector<const Piece*> all;
    for (const Piece& other : design_.pieces) {
      if (other.on.value != piece.name.value) continue;
      if (other.kind == Piece::Kind::window || other.overhang || !other.over.empty()) return std::nullopt;
      // A window of its own would show what it covers.
      for (const Piece& cut : design_.pieces) {
        if (cut.kind == Piece::Kind::window && cut.on.value == other.name.value) return std::nullopt;
      }
      all.push_back(&other);
    }
    for (const Piece& other : design_.pieces) {
      const bool over_it = std::any_of(other.over.begin(), other.over.end(),
                                       [&](const Name& name) { return name.value == piece.name.value; });
      if (over_it || other.overhang) return std::nullopt;
    }
    return all;
  }

  void read_share(const Piece& piece) {
    const std::string& name = piece.name.value;
    const Rational& share = *piece.show->value.at_least;
    const auto on_it = lying_on(piece);
    if (!on_it || count(piece) > 1) return;
    Quota quota;
    quota.says = fmt::format("{} of {} is to be seen", piece.show->value.text, name);
    quota.spot = piece.show->spot;
    quota.share = share;
    quota.asked = piece.show->value.text;
    quota.version = version_;
    quota.rectangle = at_.at(name);
    const Piece* window = window_of(piece);
    if (!piece.tuck) {
      // What lies on it hides so much, and may hide no more than the rest.
      quota.areas.push_back(area(share - 1, name));
      for (const Piece* other : *on_it) quota.areas.push_back(area(count(*other), other->name.value));
    } else if (!on_it->empty()) {
      return;
    } else if (window != nullptr) {
      quota.areas = {area(share, name), area(-1, window->name.value)};
    } else if (piece.on.value == "reveal") {
      const std::vector<Edge> edges = edges_at_front(design_.base);
      if (edges.size() == 1) return;  // a sum of lengths: a rule says it
      const bool across = is_across(edges.front());
      quota.areas = across ? std::vector<Area>{{share, {width(name)}}, {-1, {width("reveal")}}}
                           : std::vector<Area>{{share, {height(name)}}, {-1, {height("reveal")}}};
    }
    found_.push_back(std::move(quota));
  }

  [[nodiscard]] Rational weight_of(const Maybe<std::string>& paper) const {
    const Rational metres = convert(1, card_.unit, Unit::millimetre) / 1000;
    const Maybe<Rational> grams = stated_of_paper(card_.papers, paper, &Paper::grams_per_square_metre);
    return grams ? Rational(grams->value * metres * metres) : Rational(0);
  }

  // Windows take from what they are cut in, as far as they are sure not to overlap each other.
  void read_grams() {
    const auto& base = design_.base;
    Quota quota;
    quota.says = fmt::format("the card weighs at most {} g",
                             length_text(design_.limit.grams->value, Unit::millimetre));
    quota.spot = design_.limit.grams->spot;
    quota.limit = design_.limit.grams->value;
    quota.asked = length_text(quota.limit, Unit::millimetre);
    quota.version = version_;
    const Rational paper = weight_of(base.paper);
    const Size blank = folding_of(base).blank;
    quota.areas.push_back({paper * blank.width * blank.height - design_.limit.grams->value, {}});
    if (base.cut_back) {
      const bool gate = base.fold.value == Fold::gate;
      const bool across = gate ? folds_across(base) : is_across(base.cut_back->edge);
      const std::vector<Face> all = faces(base);
      const Size& open = all.back().whole;  // the reveal, before cutting back
      const Rational& length = across ? base.front.size.height : base.front.size.width;
      quota.areas.push_back({-paper * length, {across ? width("reveal") : height("reveal")}});
      quota.areas.push_back({paper * length * (across ? open.width : open.height), {}});
    }
    for (const Piece& piece : design_.pieces) {
      const std::string& name = piece.name.value;
      if (piece.kind == Piece::Kind::layer) {
        if (!piece.stamped) quota.areas.push_back(area(weight_of(piece.paper) * count(piece), name));
        continue;
      }
      const auto below = pieces_.find(piece.on.value);
      const Piece* in = below == pieces_.end() ? nullptr : below->second;
      const Rational per = in == nullptr ? paper
                           : in->stamped ? Rational(0)
                                         : weight_of(in->paper) * count(*in);
      quota.areas.push_back(area(-per, name));
    }
    std::erase_if(quota.areas, [](const Area& one) { return one.factor == 0; });
    found_.push_back(std::move(quota));
  }

  const Card& card_;
  const Design& design_;
  std::size_t version_;
  std::vector<Quota>& found_;
  std::map<std::string, std::size_t> at_;
  std::map<std::string, const Piece*> pieces_;
};

using Lengths = std::map<Variable, Rational>;

Rational total(const Quota& quota, const Lengths& lengths) {
  Rational sum = 0;
  for (const Area& area : quota.areas) {
    Rational part = area.factor;
    for (const Variable length : area.of) part *= lengths.at(length);
    sum += part;
  }
  return sum;
}

// Whether a length makes the total larger as it grows.
bool adds(const Quota& quota, Variable length) {
  return std::any_of(quota.areas.begin(), quota.areas.end(), [&](const Area& area) {
    return area.factor > 0 && std::find(area.of.begin(), area.of.end(), length) != area.of.end();
  });
}

bool is_on_marks(const Rules& rules, Variable length) {
  const Rectangle& it = rules.rectangles[length / 4];
  return static_cast<Measure>(length % 4) == Measure::width ? it.width_on_marks : it.height_on_marks;
}

// The total is linear in each length alone: where it comes to 0, which is allowed, with the others as they
// are. None if this length has no part in it then.
std::optional<Rational> zero_of(const Quota& quota, const Lengths& lengths, Variable length) {
  const Rational& from = lengths.at(length);
  Lengths one_more = lengths;
  one_more[length] = from + 1;
  const Rational now = total(quota, lengths);
  const Rational slope = total(quota, one_more) - now;
  if (slope == 0) return std::nullopt;
  return from - now / slope;
}

// As far towards the better as the total stays above 0; on marks the last mark that is not enough, else half
// the way to what is.
Rational farthest(const Quota& quota, const Lengths& lengths, Variable length, const Rules& rules) {
  const Rational& from = lengths.at(length);
  const bool down = adds(quota, length);
  const auto zero = zero_of(quota, lengths, length);
  if (!zero) return down ? Rational(0) : from;
  if (!is_on_marks(rules, length)) return (from + (down ? std::max(*zero, Rational(0)) : *zero)) / 2;
  if (down)
    return std::min(from, Rational(round_down(std::max(*zero, Rational(0)), rules.mark) + rules.mark));
  return std::max(from, Rational(round_up(*zero, rules.mark) - rules.mark));
}

}  // namespace

std::vector<Quota> quotas_of(const Card& card, const Rules& rules) {
  std::vector<Quota> found;
  Reader(card, card.design, rules, 0, found).read();
  for (std::size_t i = 0; i < card.variants.size(); ++i)
    Reader(card, card.variants[i].design, rules, i + 1, found).read();
  return found;
}

std::vector<Rule> broken_by(const Quota& quota, const Rules& rules, const std::vector<Rational>& values) {
  Lengths now;
  for (const Area& area : quota.areas) {
    for (const Variable length : area.of) now[length] = values[length];
  }
  if (total(quota, now) <= 0) return {};
  std::size_t wish = 1;
  for (const Rule& rule : rules.rules) wish = std::max(wish, rule.wish + 1);
  for (const Rule& rule : rules.rules) {
    if (rule.origin == Origin::stated && rule.spot == quota.spot && rule.version == quota.version)
      wish = rule.wish;
  }
  std::vector<Rule> found;
  const auto add = [&](const Lengths& no_worse_than) {
    Rule rule;
    for (const auto& [length, limit] : no_worse_than) {
      const Sum sum = Sum::of(length);
      rule.choices.push_back({adds(quota, length) ? at_most(sum, limit) : at_least(sum, limit)});
    }
    if (rule.choices.empty()) rule.choices.push_back({at_most(Sum(1), 0)});
    rule.says = quota.says;
    rule.spot = quota.spot;
    rule.origin = Origin::stated;
    rule.wish = wish;
    rule.version = quota.version;
    rule.amount = {fmt::format("\"{}\"", quota.says), false, std::nullopt, quota.rectangle};
    const auto same = [&](const Rule& other) {
      return other.choices.size() == rule.choices.size() &&
             std::equal(other.choices.begin(), other.choices.end(), rule.choices.begin(),
                        [](const auto& a, const auto& b) {
                          return a.front().sum.constant() == b.front().sum.constant();
                        });
    };
    if (std::none_of(found.begin(), found.end(), same)) found.push_back(std::move(rule));
  };
  if (now.empty()) add(now);
  const auto better_by = [&](Variable length, const Rational& than, const Rational& step) {
    return adds(quota, length) ? Rational(than - step) : Rational(than + step);
  };
  for (const auto& [first, value] : now) {
    // Each length first in turn, so that each alone is told how far it would have to go.
    Lengths far = now;
    far[first] = farthest(quota, far, first, rules);
    for (const auto& [length, other] : now) {
      if (length != first) far[length] = farthest(quota, far, length, rules);
    }
    for (auto& [length, limit] : far)
      limit = better_by(length, limit, is_on_marks(rules, length) ? rules.mark : Rational(0));
    add(far);
    const auto zero = zero_of(quota, now, first);
    if (!zero || is_on_marks(rules, first)) continue;
    // Halves never come to an end: so far as the others stay as they are this one goes all the way, but for
    // less than anyone can cut.
    Lengths enough;
    for (const auto& [length, other] : now)
      enough[length] = better_by(length, other, is_on_marks(rules, length) ? rules.mark : finest);
    enough[first] = adds(quota, first) ? round_down(*zero, finest) : round_up(*zero, finest);
    add(enough);
  }
  return found;
}

Choosing choose_within(const std::vector<Quota>& quotas, Rules& rules, const std::vector<bool>& versions,
                       Prover& prover) {
  for (int round = 0;; ++round) {
    Choosing chosen = choose(only_versions(rules, versions), prover);
    if (chosen.outcome != Outcome::found) return chosen;
    const std::size_t before = rules.rules.size();
    for (const Quota& quota : quotas) {
      if (!versions[quota.version]) continue;
      for (Rule& rule : broken_by(quota, rules, chosen.values)) rules.rules.push_back(std::move(rule));
    }
    if (rules.rules.size() == before) return chosen;
    if (round == most_rounds) {
      chosen.outcome = Outcome::out_of_time;
      return chosen;
    }
  }
}

Rules with_quotas(const Card& card, Rules rules, Prover& prover) {
  const std::vector<Quota> quotas = quotas_of(card, rules);
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    if (std::none_of(quotas.begin(), quotas.end(), [&](const Quota& one) { return one.version == version; }))
      continue;
    std::vector<bool> only(card.variants.size() + 1, false);
    only[version] = true;
    if (choose_within(quotas, rules, only, prover).outcome == Outcome::out_of_time) throw OutOfTime{};
  }
  return rules;
}

}  // namespace evenmat
