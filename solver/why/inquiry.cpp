#include "solver/why/inquiry.h"

#include <algorithm>
#include <numeric>

namespace evenmat {
namespace {

constexpr int most_rounds = 400;  // of learning from cards that break a quota

bool is_held(const WishIds& wishes, WishId wish) {
  return std::binary_search(wishes.begin(), wishes.end(), wish);
}

}  // namespace

Inquiry::Inquiry(const Rules& rules, Prover& prover)
    : rules_(rules), prover_(prover), system_(rules.mark, rules.variables()) {
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    if (rules.rectangles[i].width_on_marks) system_.set_whole(variable(i, Measure::width));
    if (rules.rectangles[i].height_on_marks) system_.set_whole(variable(i, Measure::height));
  }
  for (const Rule& rule : rules.rules) {
    if (rule.origin == Origin::stated) spots_.push_back(rule.spot);
  }
  std::sort(spots_.begin(), spots_.end());
  spots_.erase(std::unique(spots_.begin(), spots_.end()), spots_.end());
  for (const Rule& rule : rules.rules) {
    const auto place = std::lower_bound(spots_.begin(), spots_.end(), rule.spot);
    wish_of_.push_back(static_cast<WishId>(place - spots_.begin()));
  }
  eliminate();
  find_parts();
  write();
}

// What the paper gives as a plain equation (where the faces are) is put in place of its variables, but for
// sizes that fall on marks, which stay what they are.
void Inquiry::eliminate() {
  used_up_.assign(rules_.rules.size(), false);
  for (std::size_t i = 0; i < rules_.rules.size(); ++i) {
    const Rule& rule = rules_.rules[i];
    if (rule.origin != Origin::given || rule.choices.size() != 1 || rule.choices[0].size() != 1) continue;
    const Relation& relation = rule.choices[0][0];
    if (!relation.equal) continue;
    const Sum reduced = settled_.reduce(relation.sum);
    const auto& terms = reduced.terms();
    if (std::all_of(terms.begin(), terms.end(), [&](const Term& t) { return system_.is_whole(t.variable); }))
      continue;
    settled_.add(relation.sum, [&](Variable v) { return system_.is_whole(v) ? 2 : v % 4 >= 2 ? 1 : 0; });
    used_up_[i] = true;
  }
}

std::size_t Inquiry::root(std::size_t place) {
  while (roots_[place] != place) place = roots_[place] = roots_[roots_[place]];
  return place;
}

std::size_t Inquiry::place_of(const Entry& entry) {
  const Rule& rule = rules_.rules[entry.rule];
  for (const auto& choice : rule.choices) {
    for (std::size_t i = 0; i < choice.size(); ++i) {
      if (entry.relation && i != *entry.relation) continue;
      const Sum sum = settled_.reduce(choice[i].sum);
      if (!sum.terms().empty()) return sum.terms().front().variable;
    }
  }
  return rules_.variables() + rule.version;  // nothing open in it
}

void Inquiry::find_parts() {
  std::size_t versions = 1;
  for (const Rule& rule : rules_.rules) versions = std::max(versions, rule.version + 1);
  roots_.resize(rules_.variables() + versions);
  std::iota(roots_.begin(), roots_.end(), 0U);
  std::vector<Entry> all;
  for (std::size_t i = 0; i < rules_.rules.size(); ++i) {
    if (used_up_[i]) continue;
    const Rule& rule = rules_.rules[i];
    const bool one = rule.choices.size() == 1;
    for (std::size_t r = 0; r < (one ? rule.choices[0].size() : 1U); ++r) {
      Entry entry{i, one ? std::optional(r) : std::nullopt};
      const std::size_t place = root(place_of(entry));
      for (const auto& choice : rule.choices) {
        for (std::size_t k = 0; k < choice.size(); ++k) {
          if (one && k != r) continue;
          const Sum sum = settled_.reduce(choice[k].sum);
          for (const Term& term : sum.terms()) roots_[root(term.variable)] = root(place);
        }
      }
      all.push_back(entry);
    }
  }
  for (const Entry& entry : all) {
    const Rule& rule = rules_.rules[entry.rule];
    const auto [known, fresh] = part_of_root_.try_emplace(root(place_of(entry)), parts_.size());
    if (fresh) parts_.push_back({rule.version, {}});
    const bool stated = rule.origin == Origin::stated;
    const WishId wish = stated ? wish_of_[entry.rule] : wishes();  // given: none
    entries_[{known->second, wish}].push_back(entry);
    if (stated) parts_[known->second].wishes.push_back(wish);
  }
  for (Part& part : parts_) {
    std::sort(part.wishes.begin(), part.wishes.end());
    part.wishes.erase(std::unique(part.wishes.begin(), part.wishes.end()), part.wishes.end());
  }
}

void Inquiry::write() {
  prover_.describe(system_);
  for (std::size_t part = 0; part < parts_.size(); ++part) {
    ground_.push_back(prover_.new_token());
    for (const Entry& entry : entries_[{part, wishes()}]) require(ground_[part], entry, false);
    for (const WishId wish : parts_[part].wishes) {
      const Prover::Token token = prover_.new_token();
      tokens_[{part, wish}] = token;
      wish_of_token_[token] = wish;
      for (const Entry& entry : entries_[{part, wish}]) require(token, entry, false);
    }
  }
}

Sum Inquiry::sum_of(std::size_t rule, std::size_t choice, std::size_t relation, bool opened) {
  Sum sum = rules_.rules[rule].choices[choice][relation].sum;
  if (opened) {
    for (const Use& use : rules_.rules[rule].uses) {
      const StatedNumber& number = rules_.numbers[use.number];
      if (use.choice != choice || use.relation != relation || number.artwork) continue;
      sum.add(Sum::of(value_of(use.number)) - number.number().value, use.factor);
    }
  }
  return settled_.reduce(sum);
}

void Inquiry::require(Prover::Token token, const Entry& entry, bool opened) {
  const Rule& rule = rules_.rules[entry.rule];
  if (entry.relation) {
    prover_.require_if(token, Relation{sum_of(entry.rule, 0, *entry.relation, opened),
                                       rule.choices[0][*entry.relation].equal});
    return;
  }
  OpenChoice choice;
  for (std::size_t c = 0; c < rule.choices.size(); ++c) {
    choice.options.push_back({{}, c});
    for (std::size_t r = 0; r < rule.choices[c].size(); ++r) {
      choice.options.back().relations.push_back({sum_of(entry.rule, c, r, opened), rule.choices[c][r].equal});
    }
  }
  prover_.require_if(token, choice);
}

bool Inquiry::possible(std::size_t part, const WishIds& held) {
  std::vector<Prover::Token> tokens{ground_[part]};
  for (const WishId wish : parts_[part].wishes) {
    if (is_held(held, wish)) tokens.push_back(tokens_.at({part, wish}));
  }
  prover_.describe(system_);
  for (int round = 0; prover_.possible(tokens); ++round) {
    const std::vector<Rule> learnt = shown_by_card(part, held);
    if (learnt.empty()) return true;
    if (round == most_rounds) throw OutOfTime{};
    for (const Rule& rule : learnt) add(rule);
  }
  return false;
}

bool Inquiry::possible_at(const std::vector<std::size_t>& parts, const WishIds& held, std::size_t number,
                          const Rational& value) {
  for (int round = 0; round < most_rounds; ++round) {
    const std::vector<Prover::Token> with = tokens(parts, held, {number});
    std::vector<Rule> learnt;
    {
      const Scope scope(prover_);
      prover_.require(equals(Sum::of(value_of(number)), value));
      if (!prover_.possible(with)) return false;
      for (const std::size_t part : parts) {
        for (Rule& rule : shown_by_card(part, held)) learnt.push_back(std::move(rule));
      }
    }
    if (learnt.empty()) return true;
    for (const Rule& rule : learnt) add(rule);
  }
  throw OutOfTime{};
}

// The rules that the card just found shows, where it breaks a quota that is held.
std::vector<Rule> Inquiry::shown_by_card(std::size_t part, const WishIds& held) {
  std::vector<Rule> learnt;
  for (const Quota& quota : quotas_) {
    const auto wish =
        static_cast<WishId>(std::lower_bound(spots_.begin(), spots_.end(), quota.spot) - spots_.begin());
    if (quota.version != parts_[part].version || !is_held(held, wish) || !tokens_.contains({part, wish}))
      continue;
    std::vector<Rational> values(rules_.variables(), 0);
    for (const Area& area : quota.areas) {
      for (const Variable length : area.of) values[length] = prover_.value(settled_.reduce(Sum::of(length)));
    }
    for (Rule& rule : broken_by(quota, rules_, values)) learnt.push_back(std::move(rule));
  }
  return learnt;
}

std::vector<std::size_t> Inquiry::rules_in(std::size_t part, const WishIds& held) const {
  std::set<std::size_t> given, stated;
  for (std::size_t i = 0; i < rules_.rules.size(); ++i) {
    if (used_up_[i] && rules_.rules[i].version == parts_[part].version) given.insert(i);
  }
  for (const auto& [key, entries] : entries_) {
    if (key.first != part || (key.second < wishes() && !is_held(held, key.second))) continue;
    for (const Entry& entry : entries) (key.second < wishes() ? stated : given).insert(entry.rule);
  }
  std::vector<std::size_t> all(given.begin(), given.end());
  all.insert(all.end(), stated.begin(), stated.end());
  return all;
}

WishIds Inquiry::blamed() {
  WishIds wishes;
  for (const Prover::Token token : prover_.blamed()) {
    const auto wish = wish_of_token_.find(token);
    if (wish != wish_of_token_.end()) wishes.push_back(wish->second);
  }
  std::sort(wishes.begin(), wishes.end());
  wishes.erase(std::unique(wishes.begin(), wishes.end()), wishes.end());
  return wishes;
}

std::vector<std::size_t> Inquiry::numbers_of(const WishIds& wishes) const {
  std::set<std::size_t> numbers;
  for (std::size_t i = 0; i < rules_.rules.size(); ++i) {
    const Rule& rule = rules_.rules[i];
    if (rule.origin != Origin::stated || !is_held(wishes, wish_of_[i])) continue;
    for (const Use& use : rule.uses) {
      const StatedNumber& number = rules_.numbers[use.number];
      // A border that an alignment keeps is the border's number.
      if (!number.artwork && number.spot == rule.spot) numbers.insert(use.number);
    }
  }
  return {numbers.begin(), numbers.end()};
}

std::set<std::size_t> Inquiry::parts_of_number(std::size_t number) const {
  std::set<std::size_t> parts;
  for (const auto& [key, entries] : entries_) {
    for (const Entry& entry : entries) {
      const auto& uses = rules_.rules[entry.rule].uses;
      if (std::any_of(uses.begin(), uses.end(), [&](const Use& use) {
            return use.number == number && (!entry.relation || *entry.relation == use.relation);
          })) {
        parts.insert(key.first);
      }
    }
  }
  return parts;
}

Variable Inquiry::value_of(std::size_t number) {
  const auto known = opened_.find(number);
  if (known != opened_.end()) return known->second.value;
  const StatedNumber& stated = rules_.numbers[number];
  const Variable value = system_.fresh();
  const Variable marks = system_.fresh();
  system_.set_whole(marks);
  Opened opened{value, marks, prover_.new_token()};
  prover_.require_if(opened.as_stated, equals(Sum::of(value), stated.number().value));
  opened_.emplace(number, opened);
  return value;
}

Relation Inquiry::on_marks(std::size_t number) {
  const Variable value = value_of(number);
  return equals(Sum::of(value), Sum::of(opened_.at(number).marks, step_of(number) / rules_.mark));
}

const Rational& Inquiry::step_of(std::size_t number) const {
  const Rational& step = rules_.numbers[number].step;
  return step == 0 ? rules_.mark : step;
}

Sum Inquiry::total_of(const std::vector<Sum>& sums) {
  Sum total;
  for (const Sum& sum : sums) {
    const Sum size = Sum::of(system_.fresh());
    prover_.require(at_least(size, sum));
    prover_.require(at_least(size, sum * Rational(-1)));
    total += size;
  }
  return total;
}

Prover::Token Inquiry::opened_token(std::size_t part, WishId wish) {
  const auto known = opened_tokens_.find({part, wish});
  if (known != opened_tokens_.end()) return known->second;
  const Prover::Token token = prover_.new_token();
  opened_tokens_.emplace(std::pair(part, wish), token);
  for (const Entry& entry : entries_.at({part, wish})) require(token, entry, true);
  return token;
}

std::vector<Prover::Token> Inquiry::tokens(const std::vector<std::size_t>& parts, const WishIds& held,
                                           const std::set<std::size_t>& let_go) {
  prover_.describe(system_);
  std::vector<Prover::Token> tokens;
  std::set<std::size_t> as_stated;
  for (const std::size_t part : parts) {
    tokens.push_back(ground_[part]);
    for (const WishId wish : parts_[part].wishes) {
      if (!is_held(held, wish)) continue;
      std::set<std::size_t> numbers;
      for (const Entry& entry : entries_.at({part, wish})) {
        for (const Use& use : rules_.rules[entry.rule].uses) {
          if (!rules_.numbers[use.number].artwork) numbers.insert(use.number);
        }
      }
      const bool opens = std::any_of(numbers.begin(), numbers.end(),
                                     [&](std::size_t number) { return let_go.contains(number); });
      tokens.push_back(opens ? opened_token(part, wish) : tokens_.at({part, wish}));
      if (!opens) continue;
      for (const std::size_t number : numbers) {
        if (!let_go.contains(number)) as_stated.insert(number);
      }
    }
  }
  for (const std::size_t number : as_stated) {
    value_of(number);
    tokens.push_back(opened_.at(number).as_stated);
  }
  return tokens;
}

std::vector<Prover::Token> Inquiry::all_tokens(const WishIds& held) {
  std::vector<std::size_t> all(parts_.size());
  std::iota(all.begin(), all.end(), 0U);
  return tokens(all, held, {});
}

void Inquiry::add(const Rule& rule) {
  const auto wish =
      static_cast<WishId>(std::lower_bound(spots_.begin(), spots_.end(), rule.spot) - spots_.begin());
  OpenChoice choice;
  for (const auto& relations : rule.choices) {
    choice.options.push_back({{}, choice.options.size()});
    for (const Relation& relation : relations)
      choice.options.back().relations.push_back({settled_.reduce(relation.sum), relation.equal});
  }
  prover_.describe(system_);
  for (std::size_t part = 0; part < parts_.size(); ++part) {
    const auto token = tokens_.find({part, wish});
    if (parts_[part].version == rule.version && token != tokens_.end())
      prover_.require_if(token->second, choice);
  }
}

bool Inquiry::can_be_broken(WishId wish, const WishIds& held) {
  const std::vector<Prover::Token> tokens = all_tokens(held);
  for (std::size_t i = 0; i < rules_.rules.size(); ++i) {
    const Rule& rule = rules_.rules[i];
    if (rule.origin != Origin::stated || wish_of_[i] != wish) continue;
    const Scope scope(prover_);
    // Broken in every one of its choices.
    for (std::size_t c = 0; c < rule.choices.size(); ++c) {
      std::vector<Sum> above;
      for (std::size_t r = 0; r < rule.choices[c].size(); ++r) {
        const Sum sum = sum_of(i, c, r, false);
        above.push_back(sum);
        if (rule.choices[c][r].equal) above.push_back(sum * Rational(-1));
      }
      prover_.require_any_above(above);
    }
    if (prover_.possible(tokens)) return true;
  }
  return false;
}

bool Inquiry::can_be_zero(const std::vector<Sum>& sums, const WishIds& held) {
  const std::vector<Prover::Token> tokens = all_tokens(held);
  const Scope scope(prover_);
  for (const Sum& sum : sums) prover_.require(Relation{settled_.reduce(sum), true});
  return prover_.possible(tokens);
}

}  // namespace evenmat
