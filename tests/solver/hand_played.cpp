// What a hand that is off can do to a card, played through: of every rule all the ways in which each error
// goes one way or the other.
#include <bit>
#include <map>
#include <optional>
#include <utility>

#include "model/faces.h"
#include "solver/search/choose.h"
#include "solver/why/evenness.h"
#include "solver/why/hand_errors.h"
#include "solver/why/inside.h"
#include "solver/why/room_for_hand.h"
#include "solver/why/slips.h"
#include "tests/catch.h"
#include "tests/solver/random_cards.h"
#include "tests/solver/shaken.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// Every way in which all errors go one way or the other.
class Corners {
 public:
  Corners(const Shaken& shaken, Rational error) : shaken_(shaken), error_(std::move(error)) {}

  // How much each error that moves one of the sums moves them, one list an error.
  std::vector<std::vector<Rational>> effects(const std::vector<Sum>& sums) {
    std::vector<std::vector<Rational>> found;
    moving_.clear();
    for (const std::string& name : shaken_.names()) {
      std::vector<Rational> effect;
      for (const Sum& sum : sums) effect.push_back(shaken_.at(sum, {{name, error_}}) - shaken_.at(sum, {}));
      if (std::all_of(effect.begin(), effect.end(), [](const Rational& e) { return e == 0; })) continue;
      moving_.push_back(name);
      found.push_back(std::move(effect));
    }
    return found;
  }

  // The sums at every corner, each but for one error like the one before; a few are played through whole.
  template <typename Visit>
  void each(const std::vector<Sum>& sums, Visit visit) {
    const auto effect = effects(sums);
    REQUIRE(effect.size() <= 16);
    Errors errors;
    for (const std::string& name : moving_) errors[name] = -error_;
    std::vector<Rational> values;
    for (const Sum& sum : sums) values.push_back(shaken_.at(sum, errors));
    visit(values);
    const unsigned count = 1U << effect.size();
    for (unsigned corner = 1; corner < count; ++corner) {
      const auto turned = static_cast<std::size_t>(std::countr_zero(corner));
      Rational& turns = errors[moving_[turned]];
      turns = -turns;
      for (std::size_t j = 0; j < sums.size(); ++j) {
        values[j] += effect[turned][j] * (turns > 0 ? 2 : -2);
      }
      if (corner % (count / 4 + 1) == 0 || corner + 1 == count) {
        for (std::size_t j = 0; j < sums.size(); ++j) CHECK(shaken_.at(sums[j], errors) == values[j]);
      }
      visit(values);
    }
  }

  // By how much a rule is missed at worst; absent for one that asks only for what is exact.
  std::optional<Rational> worst(const Rule& rule, const std::vector<Rational>& sized) {
    std::vector<Sum> sums;
    std::vector<std::vector<std::size_t>> ways;
    for (const auto& choice : rule.choices) {
      bool open = true;
      std::vector<std::size_t> way;
      for (const Relation& relation : choice) {
        if (relation.equal) {
          open = open && holds(relation, sized);
          continue;
        }
        way.push_back(sums.size());
        sums.push_back(relation.sum);
      }
      if (open && way.empty()) return std::nullopt;
      if (open) ways.push_back(std::move(way));
    }
    std::optional<Rational> most;
    each(sums, [&](const std::vector<Rational>& values) {
      std::optional<Rational> least;
      for (const auto& way : ways) {
        Rational missed = values[way.front()];
        for (const std::size_t i : way) missed = std::max(missed, values[i]);
        if (!least || missed < *least) least = missed;
      }
      if (!most || *least > *most) most = least;
    });
    return most;
  }

 private:
  const Shaken& shaken_;
  Rational error_;
  std::vector<std::string> moving_;
};

bool can_be_played(const Card& card) {
  return card.variants.empty() && std::none_of(card.design.pieces.begin(), card.design.pieces.end(),
                                               [](const Piece& piece) { return piece.copies.has_value(); });
}

bool is_tilted(const Card& card) {
  return std::any_of(card.design.pieces.begin(), card.design.pieces.end(),
                     [](const Piece& piece) { return piece.tilt.has_value(); });
}

// What may fail is what is told, by how much it is told.
void check_slips(const Card& card, const Rules& rules, const std::vector<Rational>& sized,
                 const Rational& error, int& told) {
  Prover prover(30, 0);
  const std::vector<Slip> slips = slips_of(card, rules, sized, HandErrors(card, rules), error, prover);
  const Shaken shaken(card, rules, sized);
  Corners corners(shaken, error);
  std::map<std::pair<std::string, Spot>, std::pair<Rational, bool>> worst;
  for (const Rule& rule : rules.rules) {
    if (!is_up_to_the_hand(rule)) continue;
    const auto missed = corners.worst(rule, sized);
    if (!missed) continue;
    const bool reached = rule.choices.size() == 1 || !is_tilted(card);
    const auto [entry, fresh] = worst.try_emplace({rule.says, rule.spot}, *missed, reached);
    if (!fresh) {
      entry->second.first = std::max(entry->second.first, *missed);
      entry->second.second = entry->second.second && reached;
    }
  }
  for (const auto& [told_as, missed] : worst) {
    const auto& key = told_as;  // a lambda takes no structured binding
    INFO(key.first);
    const auto slip = std::find_if(slips.begin(), slips.end(), [&](const Slip& s) {
      return s.says == key.first && (key.second.line == 0 || s.spot == key.second);
    });
    const Rational most = slip == slips.end() ? Rational(0) : Rational(slip->worst - slip->spare);
    CHECK(most >= missed.first);
    if (missed.second) CHECK(most == std::max(Rational(0), missed.first));
    if (slip == slips.end()) continue;
    ++told;
    CHECK(slip->spare >= 0);
    CHECK_FALSE(slip->errors.empty());
  }
  CHECK(slips.size() <= worst.size());
}

void check_borders(const Card& card, const Rules& rules, const std::vector<Rational>& sized,
                   const Rational& error) {
  const Shaken shaken(card, rules, sized);
  Corners corners(shaken, error);
  for (const Unevenness& border : evenness_of(card, rules, sized, HandErrors(card, rules), error)) {
    INFO(border.says);
    for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
      const Rectangle& it = rules.rectangles[i];
      const bool artwork = it.kind == Rectangle::Kind::artwork;
      const std::string what = artwork                              ? "the margin of "
                               : it.kind == Rectangle::Kind::window ? "the frame round "
                                                                    : "the border of ";
      if (!it.on || border.says.rfind(what + it.name + ", ", 0) != 0) continue;
      const bool across = border.says.ends_with("right");
      const std::vector<Sum> sides = {side_of(rules, i, across ? Edge::left : Edge::top),
                                      side_of(rules, i, across ? Edge::right : Edge::bottom)};
      CHECK(sides[0].at(sized) == sides[1].at(sized));
      Rational narrowest = border.wished;
      Rational widest = border.wished;
      corners.each(sides, [&](const std::vector<Rational>& values) {
        narrowest = std::min({narrowest, values[0], values[1]});
        widest = std::max({widest, values[0], values[1]});
      });
      CHECK(border.narrowest == narrowest);
      CHECK(border.widest == widest);
      CHECK(border.looks_even == (2 * narrowest >= widest));
    }
  }
}

}  // namespace

TEST_CASE("of many small cards played through, what may fail is what is told, and safe sizes never fail") {
  int cards = 0;
  int told = 0;
  int safe_cards = 0;
  int none_safe = 0;
  for (unsigned seed = 700; seed < 740; ++seed) {
    const std::string text = random_card(seed);
    INFO("seed " << seed << "\n" << text);
    const Card card = card_of(text);
    if (!can_be_played(card)) continue;
    const Choosing sized = choose(rules_of(card), {});
    if (sized.outcome != Outcome::found) continue;
    ++cards;
    const Rational error = card.mark / (seed % 2 == 0 ? 2 : 8);
    const Rules rules = with_all_inside(rules_of(card), card);
    check_slips(card, rules, sized.values, error, told);
    check_borders(card, rules, sized.values, error);
    const Choosing safe = choose(tightened(rules, card, error), {});
    if (safe.outcome != Outcome::found) {
      ++none_safe;
      continue;
    }
    ++safe_cards;
    int told_of_safe = 0;
    check_slips(card, rules, safe.values, error, told_of_safe);
    CHECK(told_of_safe == 0);
  }
  CHECK(cards >= 20);
  CHECK(told >= 40);
  CHECK(safe_cards >= 10);
  CHECK(none_safe >= 3);
}

TEST_CASE("every side on which a layer must stay inside is a rule, whatever else is wished there") {
  for (unsigned seed = 800; seed < 840; ++seed) {
    const Card card = card_of(random_card(seed));
    const Rules rules = with_all_inside(rules_of(card), card);
    for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
      if (!rules.rectangles[i].on || stands_in_grid(rules, i)) continue;
      for (const Edge edge : all_edges) {
        const Sum side = side_of(rules, i, edge);
        const auto is_inside = [&](const Rule& rule) {
          if (rule.origin != Origin::given || rule.choices.size() != 1) return false;
          const Sum sum = rule.choices[0][0].sum + side;
          return !rule.choices[0][0].equal && sum.is_constant() && sum.constant() == 0;
        };
        INFO(rules.rectangles[i].name << " " << edge_name(edge));
        CHECK(std::count_if(rules.rules.begin(), rules.rules.end(), is_inside) == 1);
      }
    }
  }
}

TEST_CASE("a reveal and a fold, played through") {
  const auto with_base = [](const std::string& base) {
    return "rules = [\"mat.right <= strip.left + 9 and strip.top >= mat.top - 9\", \"front.width >= 1\", "
           "\"strip.bottom - mat.left <= 9\", \"reveal.height - front.height <= 9\"]\n[base]\n" +
           base + layer("mat", "front", "border = \"1/8\"\n") +
           layer("strip", "reveal", "border = \"1/8\"\n");
  };
  for (const std::string base :
       {"fold = \"side\"\nfront = \"4 x 5\"\ncut-back = 1\n",
        "fold = \"top\"\nfront = \"4 x 5\"\ncut-back = 1\n",
        "fold = \"side\"\nopens = \"left\"\nfront = \"4 x 5\"\ncut-back = 1\n",
        "fold = \"side\"\nfront = \"4 x 5\"\ncut-back = { edge = \"bottom\", by = \"1\" }\n",
        "fold = \"side\"\nfront = \"4 x 5\"\nleaves = [3, 4]\n",
        "fold = \"gate\"\nfront = \"4 x 5\"\nleaves = [1, 4, 2]\n",
        "fold = \"gate\"\nfront = \"4 x 5\"\nopens = \"top\"\nleaves = [2, 5, 2]\ncut-back = \"1/4\"\n",
        "fold = \"z\"\nfront = \"4 x 5\"\nleaves = [2, 2, 4]\n",
        "fold = \"z\"\nfront = \"4 x 5\"\nopens = \"right\"\ncut-back = 1\n",
        "fold = \"tri\"\nfront = \"4 x 5\"\ncut-back = 1\n",
        "fold = \"tri\"\nfront = \"4 x 5\"\nopens = \"top\"\ncut-back = { edge = \"left\", by = \"1\" }\n"}) {
    INFO(base);
    const Card card = card_of(with_base(base));
    const Rules rules = with_all_inside(rules_of(card), card);
    const Choosing sized = choose(rules_of(card), {});
    REQUIRE(sized.outcome == Outcome::found);
    int told = 0;
    check_slips(card, rules, sized.values, 6, told);  // so that no rule is spared
    CHECK(told >= 4);
  }
}

TEST_CASE("every face of every fold, played through") {
  for (const std::string base :
       {"fold = \"flat\"\nfront = \"4 x 5\"\n", "fold = \"side\"\nfront = \"4 x 5\"\nopens = \"left\"\n",
        "fold = \"top\"\nfront = \"4 x 5\"\n", "fold = \"gate\"\nfront = \"4 x 5\"\nleaves = [1, 4, 2]\n",
        "fold = \"gate\"\nfront = \"4 x 5\"\nopens = \"bottom\"\ncut-back = \"1/4\"\n",
        "fold = \"z\"\nfront = \"4 x 5\"\nleaves = [2, 3, 4]\n",
        "fold = \"z\"\nfront = \"4 x 5\"\nopens = \"bottom\"\n", "fold = \"tri\"\nfront = \"4 x 5\"\n",
        "fold = \"tri\"\nfront = \"4 x 5\"\nopens = \"top\"\ncut-back = 1\n"}) {
    INFO(base);
    std::string text = "[base]\n" + base;
    int layers = 0;
    for (const std::string& face : face_names(card_of(text).design.base)) {
      text += layer("on " + face, face,
                    "border = { left = \"1/16\", right = \"1/8\", down = \"at least 1/16\" }\n");
      ++layers;
    }
    const Card card = card_of(text);
    const Rules rules = with_all_inside(rules_of(card), card);
    const Choosing sized = choose(rules_of(card), {});
    REQUIRE(sized.outcome == Outcome::found);
    int told = 0;
    check_slips(card, rules, sized.values, 6, told);
    CHECK(told >= layers);
  }
}
