// What is to be let go is found with those rules left out altogether, which is as good as let go by any
// amount; then each has amounts of its own, and the least total is proven before it counts (Session). The
// amounts are then numbers, and the rules are as plain as any card's: choosing needs to know nothing of it.
#include "solver/why/nearest_rules.h"

#include <algorithm>
#include <set>
#include <stdexcept>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "model/versions.h"
#include "solver/search/chains.h"
#include "solver/search/session.h"
#include "solver/search/system_of.h"
#include "solver/why/conflicts.h"
#include "solver/why/nearest_wishes.h"

namespace evenmat {
namespace {

constexpr std::size_t most_clashes = 12;  // looked for at once

void leave_out(Rule& rule) {
  rule.choices = {{}};
  rule.uses.clear();
}

bool is_size(const KeyOf& key) {
  switch (key.kind) {
    case KeyOf::Kind::size:
    case KeyOf::Kind::ratio:
    case KeyOf::Kind::artwork:
    case KeyOf::Kind::cut_back:
      return true;
    default:
      return false;
  }
}

// What is missed by one relation of a rule; of an equation, over or under.
struct Amount {
  std::size_t rule = 0, choice = 0, relation = 0;
  bool under = false;
  Variable variable = 0;
  Rational weight;
  Rational value = 0;
};

// Two that only a row of statements leads between are apart as long as the row holds: that asks nothing more,
// and where the row gives way its gaps tell it.
Rules without_chained(Rules rules) {
  const std::vector<Standing> standing = standings(rules);
  std::vector<Separation> kept;
  for (std::size_t i = 0; i < standing.size(); ++i) {
    if (standing[i] == Standing::chained) {
      leave_out(rules.rules[rules.separations[i].rule]);
    } else {
      kept.push_back(std::move(rules.separations[i]));
    }
  }
  rules.separations = std::move(kept);
  return rules;
}

// What is not cut on the marks may be ever so small, but is to be seen.
Rules with_some_size(Rules rules) {
  std::set<std::size_t> versions;
  for (const Rule& rule : rules.rules) versions.insert(rule.version);
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    const Rectangle& it = rules.rectangles[i];
    const bool has_size = it.kind == Rectangle::Kind::layer || it.kind == Rectangle::Kind::window;
    if (!has_size || it.width_on_marks || !versions.contains(it.version)) continue;
    Rule rule;
    rule.version = it.version;
    for (const Measure measure : {Measure::width, Measure::height}) {
      rule.choices = {{at_least(Sum::of(variable(i, measure)), rules.mark / 16)}};
      rules.rules.push_back(rule);
    }
  }
  return rules;
}

class LettingGo {
 public:
  LettingGo(Rules rules, const Design& design, Prover& prover)
      : rules_(with_some_size(without_chained(std::move(rules)))),
        rest_(rules_),
        keys_(keys_of(design)),
        prover_(prover) {}

  std::optional<LetGo> run() {
    while (!rest_is_possible()) {
      if (!let_go_more()) return std::nullopt;
    }
    if (!let_go_.empty()) settle_amounts();
    return LetGo{std::move(rules_), off_marks_};
  }

 private:
  [[nodiscard]] std::vector<bool> every_wish() const {
    std::size_t most = 0;
    for (const Rule& rule : rules_.rules) most = std::max(most, rule.wish);
    std::vector<bool> every(most + 1, true);
    return every;
  }

  // A row that is let go keeps nothing apart: every wish is named, so that none counts as implied.
  bool rest_is_possible() {
    Prover aside(&prover_);
    return possible(system_of(rest_, every_wish()), aside);
  }

  bool let_go_more() {
    Prover aside(&prover_);
    Inquiry inquiry(rest_, aside);
    std::vector<std::vector<std::size_t>> blamed;
    std::set<std::size_t> parts;
    const bool all = find_clashes(inquiry, [&](const Clash& clash) {
      for (const std::size_t part : clash.parts) {
        blamed.push_back(inquiry.rules_in(part, clash.wishes));
        parts.insert(part);
      }
      if (!clash.smallest) throw OutOfTime{};
      return blamed.size() < most_clashes;
    });
    for (const std::size_t part : parts) {
      // Where there are more, such as of any so many in a long row, all that is wished there may be in one.
      if (!all) blamed.push_back(inquiry.rules_in(part, inquiry.parts()[part].wishes));
    }
    bool more = false;
    for (const std::vector<std::size_t>& indices : blamed) {
      const bool here = only_marks(indices) ? let_off_marks(indices) || let_go(indices) : let_go(indices);
      more = more || here;
    }
    for (const std::size_t i : let_go_) leave_out(rest_.rules[i]);
    return more;
  }

  bool only_marks(const std::vector<std::size_t>& indices) {
    System system(rules_.mark, rules_.variables());
    for (const std::size_t i : indices) {
      const Rule& rule = rest_.rules[i];
      if (rule.choices.size() == 1) {
        for (const Relation& relation : rule.choices.front()) system.add(relation);
        continue;
      }
      OpenChoice choice;
      for (std::size_t way = 0; way < rule.choices.size(); ++way)
        choice.options.push_back({rule.choices[way], way});
      system.add(std::move(choice));
    }
    Prover aside(&prover_);
    return possible(std::move(system), aside);
  }

  [[nodiscard]] std::set<std::size_t> rectangles_of(const std::vector<std::size_t>& indices,
                                                    Origin origin) const {
    std::set<std::size_t> found;
    for (const std::size_t i : indices) {
      if (rules_.rules[i].origin != origin) continue;
      for (const std::size_t rectangle : rectangles_in(rules_.rules[i])) found.insert(rectangle);
    }
    return found;
  }

  bool let_off_marks(const std::vector<std::size_t>& indices) {
    for (const Origin origin : {Origin::stated, Origin::given}) {
      bool some = false;
      for (const std::size_t i : rectangles_of(indices, origin)) {
        for (Rules* rules : {&rules_, &rest_}) {
          Rectangle& rectangle = rules->rectangles[i];
          some = some || rectangle.width_on_marks || rectangle.height_on_marks;
          rectangle.width_on_marks = rectangle.height_on_marks = false;
        }
      }
      off_marks_ = off_marks_ || some;
      if (some) return true;
    }
    return false;
  }

  // The rectangles of a clash's wishes, and those between them and the face.
  [[nodiscard]] std::set<std::size_t> concerned(const std::vector<std::size_t>& indices) const {
    std::set<std::size_t> found = rectangles_of(indices, Origin::stated);
    if (found.empty()) return rectangles_of(indices, Origin::given);
    std::set<std::pair<std::size_t, std::string>> names;
    for (const std::size_t i : found) {
      for (auto at = std::optional(i); at; at = rules_.rectangles[*at].on)
        names.emplace(rules_.rectangles[*at].version, rules_.rectangles[*at].name);
    }
    for (std::size_t i = 0; i < rules_.rectangles.size(); ++i) {
      const Rectangle& it = rules_.rectangles[i];
      if (it.kind == Rectangle::Kind::face || names.contains({it.version, it.name})) found.insert(i);
    }
    return found;
  }

  bool let_go(const std::vector<std::size_t>& indices) {
    const std::set<std::size_t> near = concerned(indices);
    bool some = false;
    for (const std::size_t i : indices) {
      const Rule& rule = rules_.rules[i];
      if (rule.origin == Origin::given) {
        if (!rule.keeps_apart && !inside_of(rules_, rule)) continue;
        const std::vector<std::size_t> rectangles = rectangles_in(rule);
        if (!std::includes(near.begin(), near.end(), rectangles.begin(), rectangles.end())) continue;
      }
      some = let_go_.insert(i).second || some;
    }
    return some;
  }

  [[nodiscard]] Rational weight(std::size_t index, const Relation& relation) const {
    const Rule& rule = rules_.rules[index];
    if (is_told_already(index)) return 0;
    const auto at_side = [](const Rational& counts, std::optional<Edge> side) {
      return side == Edge::left || side == Edge::top ? Rational(counts * Rational(17, 16)) : counts;
    };
    if (rule.origin == Origin::given) {
      const auto inside = inside_of(rules_, rule);
      return at_side(Rational(3, 4), inside ? std::optional(inside->edge) : std::nullopt);
    }
    const auto key = keys_.find(rule.spot);
    if (key != keys_.end()) {
      if (is_size(key->second)) return 1000;
      if (key->second.kind == KeyOf::Kind::show) return {3, 4};
      if (key->second.kind == KeyOf::Kind::gap) return weight_of_gap(rule, relation);
    }
    return at_side(1, rule.amount.side);
  }

  // What two are short of that are to lie beside one another is told by their gap, if that is wished, and not
  // once more by their being beside one another, nor by their overlap.
  [[nodiscard]] bool is_told_already(std::size_t index) const {
    const auto is_of = [&](const Separation& s) { return s.rule == index && s.stated; };
    return rules_.rules[index].leant_on ||
           std::any_of(rules_.separations.begin(), rules_.separations.end(), is_of);
  }

  // A gap between copies counts as often as there is one.
  [[nodiscard]] Rational weight_of_gap(const Rule& rule, const Relation& relation) const {
    const std::size_t body = rule.amount.rectangle;
    if (rules_.rectangles[body].kind != Rectangle::Kind::copies) return 1;
    for (const Term& term : relation.sum.terms()) {
      if (term.variable / 4 == body && abs(term.factor) < 1) return 1 / abs(term.factor);
    }
    return 1;
  }

  void write_amounts(System& system, std::size_t index) {
    const Rule& rule = rules_.rules[index];
    OpenChoice open;
    for (std::size_t c = 0; c < rule.choices.size(); ++c) {
      Option option{{}, c};
      for (std::size_t r = 0; r < rule.choices[c].size(); ++r) {
        Relation relation = rule.choices[c][r];
        const Rational counts = weight(index, relation);
        for (const bool under : {false, true}) {
          if (under && !relation.equal) continue;
          const Variable variable = system.fresh();
          system.add(at_least(Sum::of(variable), 0));
          amounts_.push_back({index, c, r, under, variable, counts});
          relation.sum += Sum::of(variable, under ? 1 : -1);
        }
        option.relations.push_back(std::move(relation));
      }
      open.options.push_back(std::move(option));
    }
    if (open.options.size() > 1) {
      system.add(std::move(open));
      return;
    }
    for (Relation& relation : open.options.front().relations) system.add(std::move(relation));
  }

  void settle_amounts() {
    System system = system_of(rest_, every_wish());
    std::vector<std::size_t> order(let_go_.begin(), let_go_.end());
    const auto place = [&](std::size_t i) {
      const Rule& rule = rules_.rules[i];
      const bool stated = rule.origin == Origin::stated;
      return std::tuple(is_told_already(i), stated, stated ? rule.spot : Spot{}, i);
    };
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return place(a) < place(b); });
    for (const std::size_t i : order) write_amounts(system, i);
    Prover aside(&prover_);
    if (!system.settle()) throw std::logic_error("rules that were let go cannot hold");
    std::vector<Sum> sums;
    for (const Amount& amount : amounts_) sums.push_back(system.reduce(Sum::of(amount.variable)));
    for (std::size_t i = 0; i < sums.size(); ++i) {
      if (sums[i].is_constant()) amounts_[i].value = sums[i].constant();
    }
    for (const Block& block : system.split(sums)) {
      if (!block.aims.empty()) settle_amounts_of(system, block, aside);
    }
    for (const Amount& amount : amounts_) {
      Relation& relation = rules_.rules[amount.rule].choices[amount.choice][amount.relation];
      relation.sum += amount.under ? Sum(amount.value) : Sum(-amount.value);
    }
    leave_out_broken_separations();
  }

  void settle_amounts_of(System& system, const Block& block, Prover& aside) {
    Sum total;
    for (std::size_t i = 0; i < block.aims.size(); ++i)
      total.add(block.aims[i], amounts_[block.aim_of[i]].weight);
    aside.describe(system);
    Session session(system, aside, block);
    if (!session.possible()) throw std::logic_error("rules that were let go cannot hold");
    const Rational least = session.least(total);
    session.require(at_most(total, Sum(least)));
    for (std::size_t i = 0; i < block.aims.size(); ++i) {
      const Sum& sum = block.aims[i];
      const Rational value = session.value(sum) == 0 ? Rational(0) : session.least(sum);
      session.require(at_most(sum, Sum(value)));
      amounts_[block.aim_of[i]].value = value;
    }
  }

  // Two that overlap, or are less apart than is wished, have no gap that is a space to be widened; two that
  // are not beside one another as stated are in no row.
  void leave_out_broken_separations() {
    std::set<std::size_t> broken;
    for (const Amount& amount : amounts_) {
      if (amount.value > 0) broken.insert(amount.rule);
    }
    for (const std::size_t i : broken) {
      const Rule& rule = rules_.rules[i];
      const std::vector<std::size_t> both = rectangles_in(rule);
      const auto is_of_them = [&](const Separation& separation) {
        return std::binary_search(both.begin(), both.end(), separation.first) &&
               std::binary_search(both.begin(), both.end(), separation.second);
      };
      if (rule.keeps_apart) std::erase_if(rules_.separations, is_of_them);
      const auto key = keys_.find(rule.spot);
      if (key == keys_.end() || key->second.kind != KeyOf::Kind::beside) continue;
      for (Separation& separation : rules_.separations) {
        if (is_of_them(separation)) separation.stated.reset();
      }
    }
  }

  Rules rules_;
  Rules rest_;  // the same without what is let go
  std::map<Spot, KeyOf> keys_;
  Prover& prover_;
  std::set<std::size_t> let_go_;  // rules
  std::vector<Amount> amounts_;
  bool off_marks_ = false;
};

}  // namespace

Rules rules_of_places(Rules rules, const Card& card) {
  std::set<Spot> shares;
  for (std::size_t i = 0; i <= card.variants.size(); ++i) {
    for (const Piece& piece : design_of(card, i).pieces) {
      if (piece.show && piece.show->value.at_least && *piece.show->value.at_least < 1)
        shares.insert(piece.show->spot);
    }
  }
  for (Rule& rule : rules.rules) {
    const std::vector<std::size_t> rectangles = rectangles_in(rule);
    const bool of_thickness = std::any_of(rectangles.begin(), rectangles.end(), [&](std::size_t i) {
      return rules.rectangles[i].kind == Rectangle::Kind::thickness;
    });
    if (of_thickness || (rule.origin == Origin::stated && shares.contains(rule.spot))) leave_out(rule);
  }
  return rules;
}

std::optional<LetGo> least_let_go(Rules rules, const Design& design, Prover& prover) {
  return LettingGo(std::move(rules), design, prover).run();
}

}  // namespace evenmat
