// Of a card that cannot be built, the nearest: nothing is missed that could be kept, and all that is missed
// is told.
#include "solver/nearest_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "solver/check_card.h"
#include "solver/search/system_of.h"
#include "tests/catch.h"
#include "tests/solver/faulty_cards.h"
#include "tests/solver/near_text.h"
#include "tests/solver/random_cards.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

using Kind = Miss::Kind;

std::vector<std::string> all_unbuildable() {
  std::vector<std::string> names;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(EVENMAT_SOURCE) / "cases" / "unbuildable")) {
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string told(const Miss& miss) {
  std::string text = fmt::format("{} {} {} {} {}:{} {}", static_cast<int>(miss.kind), miss.says,
                                 fraction_text(miss.by), miss.across, miss.spot.line, miss.spot.column,
                                 miss.names.empty() ? "" : miss.names.front());
  if (miss.place) {
    text += fmt::format(" {} {} {} {} {}", miss.place->face, fraction_text(miss.place->left),
                        fraction_text(miss.place->top), fraction_text(miss.place->width),
                        fraction_text(miss.place->height));
  }
  return text;
}

std::string told(const NearestCard& near) {
  std::string text = fmt::format("{} {}\n", near.version, near.off_marks);
  for (const Rational& length : near.lengths) text += fraction_text(length) + " ";
  for (const Miss& miss : near.misses) text += "\n" + told(miss);
  return text;
}

bool is_of_thickness(const Rules& rules, const Rule& rule) {
  for (const auto& choice : rule.choices) {
    for (const Relation& relation : choice) {
      for (const Term& term : relation.sum.terms()) {
        if (rules.rectangles[term.variable / 4].kind == Rectangle::Kind::thickness) return true;
      }
    }
  }
  return false;
}

// The rules of the version that the nearest card is of, without what it leaves aside.
Rules held_rules(const Card& card, const NearestCard& near) {
  Rules rules = rules_of(card);
  std::vector<bool> only(card.variants.size() + 1, false);
  only[near.version] = true;
  rules = only_versions(rules, only);
  const Design& design = near.version == 0 ? card.design : card.variants[near.version - 1].design;
  for (Rule& rule : rules.rules) {
    const bool share =
        rule.origin == Origin::stated &&
        std::any_of(design.pieces.begin(), design.pieces.end(), [&](const Piece& piece) {
          return piece.show && piece.show->spot == rule.spot && piece.show->value.at_least != Rational(1);
        });
    if (share || is_of_thickness(rules, rule)) rule.choices = {{}};
  }
  return rules;
}

// All that must be so of any nearest card, from its lengths and the card's rules.
void check_told_whole(const Card& card, const NearestCard& near) {
  const Rules rules = held_rules(card, near);
  CHECK_FALSE((near.misses.empty() && !near.off_marks));
  for (const PlacedPiece& placed : near.sized.pieces) {
    INFO(placed.piece->name.value);
    CHECK(placed.width > 0);
    CHECK(placed.height > 0);
  }
  CHECK(std::is_sorted(near.misses.begin(), near.misses.end(),
                       [](const Miss& a, const Miss& b) { return a.by > b.by; }));
  std::set<Spot> missed;
  for (const Miss& miss : near.misses) {
    INFO(told(miss));
    CHECK(miss.by > 0);
    CHECK_FALSE(miss.names.empty());
    CHECK(miss.says.empty() == (miss.spot == Spot{}));
    missed.insert(miss.spot);
  }
  bool some = false;
  for (const Rule& rule : rules.rules) {
    if (holds(rule, near.lengths)) continue;
    some = true;
    INFO(rule.says);
    if (rule.origin == Origin::stated) {
      CHECK((missed.contains(rule.spot) || rule.leant_on));
    } else {
      CHECK((rule.keeps_apart || rule.says.find("lies inside") != std::string::npos ||
             rule.says.find("never cut into") != std::string::npos ||
             rule.says.find("paper is left round") != std::string::npos));
    }
  }
  CHECK(some == !near.misses.empty());
  bool between = false;
  for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
    const Rectangle& it = rules.rectangles[i];
    if (it.version != near.version) continue;
    const auto is_off = [&](bool on_marks, Measure measure) {
      return on_marks && !is_multiple(near.lengths[variable(i, measure)], rules.mark);
    };
    between =
        between || is_off(it.width_on_marks, Measure::width) || is_off(it.height_on_marks, Measure::height);
  }
  CHECK((!between || near.off_marks));
}

// Nothing is missed in vain: with all that is missed let go by so much as it is, none of it can hold.
void check_nothing_missed_in_vain(const Card& card, const NearestCard& near) {
  Rules rules = held_rules(card, near);
  if (near.off_marks) return;
  const Rules wanted = rules;
  std::vector<std::size_t> let_go;
  for (std::size_t i = 0; i < rules.rules.size(); ++i) {
    Rule& rule = rules.rules[i];
    if (holds(rule, near.lengths)) continue;
    let_go.push_back(i);
    // As it is, but no farther off.
    for (auto& choice : rule.choices) {
      std::vector<Relation> loose;
      for (const Relation& relation : choice) {
        const Rational value = relation.sum.at(near.lengths);
        if (holds(relation, near.lengths)) {
          loose.push_back(relation);
        } else if (value > 0) {
          loose.push_back({relation.sum - Sum(value), false});
          if (relation.equal) loose.push_back({relation.sum * Rational(-1), false});
        } else {
          loose.push_back({relation.sum, false});
          loose.push_back({relation.sum * Rational(-1) + Sum(value), false});
        }
      }
      choice = std::move(loose);
    }
  }
  rules.separations.clear();
  Prover prover(30, 0);
  CHECK(possible(system_of(rules), prover));
  for (const std::size_t i : let_go) {
    if (wanted.rules[i].leant_on) continue;
    INFO(wanted.rules[i].says);
    const Rule loose = std::exchange(rules.rules[i], wanted.rules[i]);
    Prover aside(30, 0);
    CHECK_FALSE(possible(system_of(rules), aside));
    rules.rules[i] = loose;
  }
}

Rational total(const NearestCard& near, bool across) {
  Rational sum = 0;
  for (const Miss& miss : near.misses) {
    if (miss.across == across) sum += miss.by;
  }
  return sum;
}

}  // namespace

TEST_CASE("of every card among the cases that cannot be built all that is missed is told") {
  for (const std::string& name : all_unbuildable()) {
    INFO(name);
    const NearText card(unbuildable(name));
    // Areas and thickness show nowhere.
    static const std::set<std::string> nowhere{"foam-against-foam", "foam-centred-in-inches",
                                               "foam-on-foam",      "foam-on-foam-in-inches",
                                               "print-half-hidden", "tide-hidden"};
    REQUIRE(card.near.has_value() == !nowhere.contains(name));
    if (!card.near) continue;
    static const std::set<std::string> marks{"a6-in-inches", "border-between-marks"};
    CHECK(card.near->off_marks == marks.contains(name));
    CHECK(card.near->misses.empty() == marks.contains(name));
    check_told_whole(card.card, *card.near);
    check_nothing_missed_in_vain(card.card, *card.near);
    // In all of these something else could give.
    for (const Miss& miss : card.near->misses) CHECK(miss.kind != Kind::off_size);
    CHECK(told(*card.near) == told(*nearest_card(card.card, 30)));
  }
}

TEST_CASE("what is missed along an axis comes to what the space is too short by") {
  // One sum each along this axis, in which each length counts once.
  struct OneSum {
    std::string name;
    std::size_t conflict;
    bool across;
  };
  for (const OneSum& sum : {OneSum{"borders-add-up", 0, true},
                            OneSum{"borders-add-up", 0, false},
                            OneSum{"cut-back-past-panel", 0, true},
                            OneSum{"greeting-wider-than-strip", 0, true},
                            OneSum{"grid-too-wide", 0, true},
                            OneSum{"inch-photo-on-metric-card", 0, true},
                            OneSum{"leaf-over-greeting", 0, false},
                            OneSum{"leaf-from-bottom", 0, false},
                            OneSum{"longer-words-in-one-variant", 0, true},
                            OneSum{"mat-beside-mat", 0, true},
                            OneSum{"mat-too-wide-for-reveal", 0, true},
                            OneSum{"mat-too-wide-for-window", 0, true},
                            OneSum{"no-die-fits", 0, true},
                            OneSum{"no-room-apart", 0, true},
                            OneSum{"sizes-that-do-not-fill", 0, true},
                            OneSum{"strip-between-doors", 0, true},
                            OneSum{"strip-takes-the-cut-back", 0, true},
                            OneSum{"three-in-a-row", 0, true},
                            OneSum{"two-faults", 0, true},
                            OneSum{"two-faults", 1, false},
                            OneSum{"window-without-frame", 0, true}}) {
    INFO(sum.name);
    const std::string text = unbuildable(sum.name);
    const NearText card(text);
    REQUIRE(card.near);
    const CheckedCard checked = check_card(card.card, text, {});
    REQUIRE(checked.conflicts.size() > sum.conflict);
    REQUIRE(checked.conflicts[sum.conflict].short_by);
    CHECK(total(*card.near, sum.across) == abs(*checked.conflicts[sum.conflict].short_by));
  }
}

TEST_CASE("the first version that cannot be built is the one that is drawn") {
  const NearText card(unbuildable("longer-words-in-one-variant"));
  REQUIRE(card.near);
  CHECK(card.near->version == 1);
  CHECK(card.near->sized.name == "in both languages");
  CHECK(card.near->sized.cards == 6);
}

TEST_CASE("in a long row the first keep their places and the last find none") {
  // Seven of 1/2 with gaps of 1/8 take the 4 1/4 there are, in any of hundreds of ways to leave two out.
  std::string text = side_fold + layer("s0", "front", "size = \"1/2 x 1\"\nfrom-left = 0\n");
  for (int i = 1; i < 12; ++i) {
    text += layer(
        fmt::format("s{}", i), "front",
        fmt::format("size = \"1/2 x 1\"\nlevel-with = \"s0\"\nright-of = \"s{}\"\ngap = \"1/8\"\n", i - 1));
  }
  const NearText card(text);
  REQUIRE(card.near);
  CHECK(std::any_of(card.near->misses.begin(), card.near->misses.end(), [](const Miss& miss) {
    return miss.kind == Kind::sticks_out && miss.names.front() == "s11";
  }));
  for (int i = 0; i < 6; ++i) CHECK(card.piece(fmt::format("s{}", i)).left == part(5 * i, 8));
  check_told_whole(card.card, *card.near);
}

TEST_CASE("a card that can be built has no nearest card") {
  CHECK_FALSE(NearText(side_fold + layer("mat", "front", "border = \"1/8\"\n")).near);
}

TEST_CASE("without time there is no nearest card") {
  const Card card = card_of(unbuildable("two-faults"));
  CHECK_FALSE(nearest_card(card, 0));
}

TEST_CASE("sizes between the marks are only had where marks alone stand in the way") {
  const NearText card(side_fold + layer("a", "front", "border = \"5/64\"\n") +
                      layer("b", "front", "size = \"5 x 1\"\nover = [\"a\"]\n"));
  REQUIRE(card.near);
  CHECK(card.near->off_marks);
  CHECK(card.piece("a").width == part(131, 32));
  CHECK(card.piece("a").height == part(171, 32));
  REQUIRE_FALSE(card.near->misses.empty());
  CHECK(card.near->misses.front().kind == Kind::sticks_out);
  check_told_whole(card.card, *card.near);
}

TEST_CASE("of small faulty cards all that is missed is told and nothing is missed in vain") {
  int unbuildable_cards = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    INFO(seed);
    const NearText card(faulty_card(seed));
    if (!card.near) continue;
    ++unbuildable_cards;
    check_told_whole(card.card, *card.near);
    check_nothing_missed_in_vain(card.card, *card.near);
  }
  CHECK(unbuildable_cards > 30);
}

TEST_CASE("of random cards the nearest is there just when none can be built") {
  int unbuildable_cards = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    INFO(seed);
    const NearText card(RandomCard(seed).text());
    const SizedCard sized = size_card(card.card, {30, 0, false});
    REQUIRE(sized.verdict != Verdict::undecided);
    CHECK(card.near.has_value() == (sized.verdict == Verdict::conflict));
    if (!card.near) continue;
    ++unbuildable_cards;
    check_told_whole(card.card, *card.near);
    check_nothing_missed_in_vain(card.card, *card.near);
  }
  CHECK(unbuildable_cards > 5);
}
