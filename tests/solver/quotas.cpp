// Shares that are to be seen, and limits of weight: held against trying all sizes on the marks.
#include "solver/quotas.h"

#include <fmt/format.h>

#include <functional>

#include "tests/catch.h"
#include "tests/solver/dice.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string weights =
    "[[paper]]\nname = \"linen\"\nweight = \"200 gsm\"\n[[paper]]\nname = \"board\"\nweight = \"400 gsm\"\n";
std::string base(const std::string& fold = "fold = \"flat\"\n") {
  return "mark = \"1/2\"\n[base]\nfront = \"4 x 4\"\n" + fold;
}

// A size that may be any from least to most, in halves.
struct Open {
  int least = 1, most = 1;
  [[nodiscard]] std::string wish() const { return fmt::format("\"{}/2 to {}/2\"", least, most); }
};

// What is chosen of open sizes: the smallest raised as far as it goes, then the next; then the larger first
// in file order.
bool is_better(const std::vector<int>& a, const std::vector<int>& b) {
  std::vector<int> sorted_a = a;
  std::vector<int> sorted_b = b;
  std::sort(sorted_a.begin(), sorted_a.end());
  std::sort(sorted_b.begin(), sorted_b.end());
  return sorted_a != sorted_b ? sorted_a > sorted_b : a > b;
}

std::optional<std::vector<int>> best(const std::vector<Open>& sizes,
                                     const std::function<bool(const std::vector<int>&)>& keeps) {
  std::optional<std::vector<int>> found;
  std::vector<int> at(sizes.size());
  const std::function<void(std::size_t)> choose = [&](std::size_t i) {
    if (i == sizes.size()) {
      if (keeps(at) && (!found || is_better(at, *found))) found = at;
      return;
    }
    for (at[i] = sizes[i].least; at[i] <= sizes[i].most; ++at[i]) choose(i + 1);
  };
  choose(0);
  return found;
}

std::vector<int> halves(const SizedText& card, const std::vector<std::string>& layers) {
  std::vector<int> found;
  for (const std::string& name : layers) {
    for (const Rational& length : {card.size(name).width, card.size(name).height})
      found.push_back(static_cast<int>(Rational(length * 2)));
  }
  return found;
}

Open any(Dice& dice, int most) {
  const int least = dice.between(1, most);
  return {least, dice.between(least, most)};
}

}  // namespace

TEST_CASE("a share of a layer with two others on it is kept by the best sizes that keep it, or by none") {
  Dice dice(11);
  int met = 0;
  int none = 0;
  for (int i = 0; i < 60; ++i) {
    const std::vector<Open> sizes = {any(dice, 8), any(dice, 8), any(dice, 6), any(dice, 6)};
    const auto [text, over, under] = dice.any_of<std::tuple<const char*, int, int>>(
        {{"at least 1/2", 1, 2}, {"at least 3/4", 3, 4}, {"at least 2/3", 2, 3}, {"at least 9/10", 9, 10}});
    const std::string file =
        base() +
        layer(
            "panel", "front",
            fmt::format("width = {}\nheight = {}\nshow = \"{}\"\n", sizes[0].wish(), sizes[1].wish(), text)) +
        layer("tag", "panel", fmt::format("width = {}\nheight = {}\n", sizes[2].wish(), sizes[3].wish()));
    INFO(file);
    const auto expected = best(sizes, [&, o = over, u = under](const std::vector<int>& at) {
      return at[2] <= at[0] && at[3] <= at[1] && (at[0] * at[1] - at[2] * at[3]) * u >= o * at[0] * at[1];
    });
    const SizedText card(file);
    CHECK(card.sized.verdict == (expected ? Verdict::buildable : Verdict::conflict));
    if (expected && card.sized.verdict == Verdict::buildable) {
      CHECK(halves(card, {"panel", "tag"}) == *expected);
      CHECK(card.piece("panel").shown.open >= part(over, under));
    }
    ++(expected ? met : none);
  }
  CHECK(met > 20);
  CHECK(none > 5);
}

TEST_CASE("a share of a print tucked behind a window is kept by the best sizes that keep it, or by none") {
  Dice dice(12);
  int met = 0;
  int none = 0;
  for (int i = 0; i < 40; ++i) {
    const std::vector<Open> sizes = {any(dice, 6), any(dice, 6), any(dice, 8), any(dice, 8)};
    const auto [text, over, under] = dice.any_of<std::tuple<const char*, int, int>>(
        {{"at least 1/2", 1, 2}, {"at least 3/4", 3, 4}, {"at least 2/5", 2, 5}});
    const std::string file =
        base("fold = \"side\"\n") +
        fmt::format("[[window]]\nname = \"hole\"\nin = \"front\"\nwidth = {}\nheight = {}\n", sizes[0].wish(),
                    sizes[1].wish()) +
        layer("print", "hole",
              fmt::format("tuck = \"at least 0\"\nwidth = {}\nheight = {}\nshow = \"{}\"\n", sizes[2].wish(),
                          sizes[3].wish(), text));
    INFO(file);
    const auto expected = best(sizes, [&, o = over, u = under](const std::vector<int>& at) {
      const bool lies = at[2] >= at[0] && at[3] >= at[1] && at[0] <= 6 && at[1] <= 6;
      return lies && at[0] * at[1] * u >= o * at[2] * at[3];
    });
    const SizedText card(file);
    CHECK(card.sized.verdict == (expected ? Verdict::buildable : Verdict::conflict));
    if (expected && card.sized.verdict == Verdict::buildable) {
      CHECK(halves(card, {"hole", "print"}) == *expected);
      CHECK(card.piece("print").shown.closed >= part(over, under));
    }
    ++(expected ? met : none);
  }
  CHECK(met > 10);
  CHECK(none > 5);
}

TEST_CASE("a card no heavier than its limit has the best sizes that are not, or none") {
  Dice dice(13);
  int met = 0;
  int none = 0;
  for (int i = 0; i < 40; ++i) {
    const std::vector<Open> sizes = {any(dice, 6), any(dice, 6), any(dice, 6), any(dice, 6)};
    const int grams = dice.between(42, 100);  // tenths
    const std::string layers =
        layer("mat", "front",
              fmt::format("paper = \"board\"\nwidth = {}\nheight = {}\n", sizes[0].wish(), sizes[1].wish())) +
        layer("note", "inside",
              fmt::format("paper = \"linen\"\nwidth = {}\nheight = {}\n", sizes[2].wish(), sizes[3].wish()));
    const std::string file = fmt::format("[limit]\ngrams = {}.{}\n", grams / 10, grams % 10) + weights;
    std::string whole = base("fold = \"side\"\npaper = \"linen\"\n");
    whole.append(layers).append(file);
    INFO(whole);
    // A square half inch is 0.0127^2 square metres.
    const Rational square = part(127, 10000) * part(127, 10000);
    const auto expected = best(sizes, [&](const std::vector<int>& at) {
      const Rational weight = square * (200 * 8 * 16 + 400 * at[0] * at[1] + 200 * at[2] * at[3]);
      return weight <= part(grams, 10);
    });
    const SizedText card(whole);
    CHECK(card.sized.verdict == (expected ? Verdict::buildable : Verdict::conflict));
    if (expected && card.sized.verdict == Verdict::buildable) {
      CHECK(halves(card, {"mat", "note"}) == *expected);
      CHECK(card.plain().closed->grams <= part(grams, 10));
    }
    ++(expected ? met : none);
  }
  CHECK(met > 10);
  CHECK(none > 5);
}

TEST_CASE("a print tucked under a cut-back front is seen as far as the reveal is wide") {
  const auto card = [](const std::string& share) {
    return SizedText("[base]\nfold = \"side\"\nfront = \"4 x 6\"\ncut-back = \"1/2 to 2\"\n" +
                     layer("print", "reveal",
                           "tuck = \"at least 1/2\"\nwidth = 3\nheight = 4\nborder = { right = 0 }\n"
                           "show = \"" +
                               share + "\"\n"));
  };
  const SizedText half = card("at least 1/2");
  REQUIRE(half.sized.verdict == Verdict::buildable);
  CHECK(*half.plain().cut_back >= part(3, 2));
  CHECK(half.piece("print").shown.closed >= part(1, 2));
  CHECK(card("at least 2/3").sized.verdict == Verdict::buildable);
  CHECK(card("at least 3/4").sized.verdict == Verdict::conflict);
}

TEST_CASE("a print tucked under both doors of a gate is seen as far as they are apart") {
  const auto card = [](const std::string& share) {
    return SizedText(
        "[base]\nfold = \"gate\"\nfront = \"4 x 6\"\nleaves = [1, 4, 1]\n" +
        layer("print", "reveal",
              "tuck = \"at least 1/4\"\nwidth = \"3 to 4\"\nheight = 4\nshow = \"" + share + "\"\n"));
  };
  const SizedText kept = card("at least 5/8");
  REQUIRE(kept.sized.verdict == Verdict::buildable);
  CHECK(kept.size("print").width == part(51, 16));  // 2 of 3 3/16
  CHECK(card("at least 3/4").sized.verdict == Verdict::conflict);
}

TEST_CASE("a cut-back that has to make a card lighter is as long as it must be, on the next mark") {
  // Doors of 50 x 150 at 200 gsm: each millimetre of both is 0.06 g of 6 g.
  const auto card = [](const std::string& grams) {
    return SizedText(
        "unit = \"mm\"\n[base]\nfold = \"gate\"\nfront = \"100 x 150\"\nleaves = [50, 100, 50]\n"
        "paper = \"linen\"\ncut-back = \"at least 2, at most 40\"\n[limit]\ngrams = " +
        grams + "\n" + weights);
  };
  const SizedText lighter = card("4.53");
  REQUIRE(lighter.sized.verdict == Verdict::buildable);
  CHECK(lighter.plain().cut_back == 25);
  CHECK(lighter.plain().closed->grams == part(45, 10));
  CHECK(card("4.5").plain().cut_back == 25);
  CHECK(card("3.6").sized.verdict == Verdict::buildable);
  CHECK(card("3.59").sized.verdict == Verdict::conflict);
}

TEST_CASE("a size that need not fall on marks is as large as its share or weight allows") {
  // A die that is 3 tall and any width: 4.129 g of base, and 0.774 g for each inch of it.
  const auto card = [](const std::string& limit, const std::string& keys) {
    return SizedText(limit + "[base]\nfold = \"side\"\nfront = \"4 x 4\"\npaper = \"linen\"\n" +
                     layer("die", "front", "cut = \"die\"\npaper = \"board\"\n" + keys) + weights);
  };
  const SizedText light = card("[limit]\ngrams = 5\n", "width = \"1 to 3\"\nheight = 3\n");
  REQUIRE(light.sized.verdict == Verdict::buildable);
  const Rational square = part(254, 10000) * part(254, 10000);
  const Rational widest = (5 - square * 200 * 32) / (square * 400 * 3);
  CHECK(light.size("die").width <= widest);
  CHECK(light.size("die").width >= widest - part(1, 1000000000));
  CHECK(card("[limit]\ngrams = 4.9\n", "width = \"1 to 3\"\nheight = 3\n").sized.verdict ==
        Verdict::conflict);
  // A quarter of 4 x 4 covered, by what is 4 wide.
  const SizedText shown("[base]\nfold = \"flat\"\nfront = \"4 x 4\"\n" +
                        layer("panel", "front", "size = \"4 x 4\"\nshow = \"at least 3/4\"\n") +
                        layer("die", "panel", "cut = \"die\"\nwidth = 4\nheight = \"1/2 to 3\"\n"));
  REQUIRE(shown.sized.verdict == Verdict::buildable);
  CHECK(shown.size("die").height == 1);
}

TEST_CASE("no card is called buildable that weighs more than its limit, whatever is cut out of it") {
  const auto card = [](const std::string& fold, const std::string& layers, const std::string& grams) {
    return SizedText("unit = \"mm\"\n[base]\nfront = \"100 x 150\"\npaper = \"linen\"\n" + fold + layers +
                     "[limit]\ngrams = " + grams + "\n" + weights);
  };
  const std::string window =
      "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"50 x 50\"\nalign = \"centre\"\n";
  CHECK(card("fold = \"side\"\n", window, "5.5").sized.verdict == Verdict::buildable);
  CHECK(card("fold = \"side\"\n", window, "5.49").sized.verdict == Verdict::conflict);
  // Of a window across both doors 10 mm are the gap between them: 5.7 g less 0.4 g.
  const std::string gate = "fold = \"gate\"\nleaves = [45, 100, 45]\n";
  CHECK(card(gate, window, "5.3").sized.verdict == Verdict::buildable);
  CHECK(card(gate, window, "5.29").sized.verdict != Verdict::buildable);
  // Two windows in one leaf, stated on either side of it, over each other.
  const std::string other =
      "[[window]]\nname = \"other\"\nin = \"inside front\"\nsize = \"50 x 50\"\nalign = \"centre\"\n";
  CHECK(card("fold = \"side\"\n", window + other, "5.5").sized.verdict == Verdict::buildable);
  CHECK(card("fold = \"side\"\n", window + other, "5.49").sized.verdict != Verdict::buildable);
  // What a mat's window lets through of another window, and copies with a window each.
  const std::string dots = layer("dot", "front", "size = \"20 x 20\"\ncopies = 2\npaper = \"board\"\n") +
                           "[[window]]\nname = \"eye\"\nin = \"dot\"\nsize = \"10 x 10\"\n";
  CHECK(card("fold = \"side\"\n", dots, "6.24").sized.verdict == Verdict::buildable);
  CHECK(card("fold = \"side\"\n", dots, "6.23").sized.verdict == Verdict::conflict);
}

TEST_CASE("of shares that no rule of lengths can settle it is said what is seen, and that it is not known") {
  // A tag that hangs over the panel's edge hides only part of it, or all of what it can.
  const auto card = [](const std::string& place) {
    return SizedText("[base]\nfold = \"flat\"\nfront = \"4 x 4\"\n" +
                     layer("panel", "front", "size = \"2 x 2\"\nshow = \"at least 3/4\"\n") +
                     layer("tag", "panel", "size = \"1 1/2 x 1 1/2\"\noverhang = \"at most 1\"\n" + place));
  };
  const SizedText seen = card("from-left = -1\nfrom-top = 0\n");
  CHECK(seen.sized.verdict == Verdict::buildable);
  CHECK(seen.piece("panel").shown.open == part(13, 16));
  const SizedText hidden = card("from-left = 0\nfrom-top = 0\n");
  CHECK(hidden.sized.verdict == Verdict::undecided);
  REQUIRE_FALSE(hidden.plain().warnings.empty());
  CHECK(hidden.plain().warnings[0].says.find("7/16") != std::string::npos);
}

TEST_CASE("a rule that a broken quota shows is one that every card keeps which keeps the quota") {
  Dice dice(17);
  int broken = 0;
  for (int i = 0; i < 60; ++i) {
    const std::vector<Open> sizes = {any(dice, 8), any(dice, 8), any(dice, 6), any(dice, 6)};
    const std::string file =
        base() +
        layer("panel", "front",
              fmt::format("width = {}\nheight = {}\nshow = \"at least 2/3\"\n", sizes[0].wish(),
                          sizes[1].wish())) +
        layer("tag", "panel", fmt::format("width = {}\nheight = {}\n", sizes[2].wish(), sizes[3].wish()));
    const Card card = card_of(file);
    const Rules rules = rules_of(card);
    const std::vector<Quota> quotas = quotas_of(card, rules);
    REQUIRE(quotas.size() == 1);
    std::vector<std::size_t> at;
    for (std::size_t r = 0; r < rules.rectangles.size(); ++r) {
      if (rules.rectangles[r].kind == Rectangle::Kind::layer) at.push_back(r);
    }
    const auto values_of = [&](const std::vector<int>& size) {
      std::vector<Rational> values(rules.variables(), 0);
      for (std::size_t k = 0; k < 4; ++k)
        values[variable(at[k / 2], k % 2 == 0 ? Measure::width : Measure::height)] = part(size[k], 2);
      return values;
    };
    const auto keeps = [](const std::vector<int>& s) { return 3 * s[2] * s[3] <= s[0] * s[1]; };
    const std::vector<int> chosen = {dice.between(1, 8), dice.between(1, 8), dice.between(1, 6),
                                     dice.between(1, 6)};
    const std::vector<Rule> shown = broken_by(quotas[0], rules, values_of(chosen));
    CHECK(shown.empty() == keeps(chosen));
    if (!shown.empty()) ++broken;
    for (const Rule& rule : shown) {
      CHECK_FALSE(holds(rule, values_of(chosen)));
      CHECK(rule.spot == card.design.pieces[0].show->spot);
      std::vector<int> s(4);
      for (s[0] = 1; s[0] <= 8; ++s[0]) {
        for (s[1] = 1; s[1] <= 8; ++s[1]) {
          for (s[2] = 1; s[2] <= 6; ++s[2]) {
            for (s[3] = 1; s[3] <= 6; ++s[3]) {
              if (keeps(s) && !holds(rule, values_of(s))) FAIL("a card that keeps the quota breaks the rule");
            }
          }
        }
      }
    }
  }
  CHECK(broken > 20);
}
