// The sizes with which a batch comes out of its paper, against answers worked out by hand and against cutting
// every card within the wishes.
#include "solver/fit_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "solver/batch/plan_paper.h"
#include "tests/catch.h"
#include "tests/solver/cut_batches.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// A card with its answer.
struct Fitted {
  explicit Fitted(const std::string& text, const FitOptions& options = {})
      : card(card_of(text)), fit(fit_card(card, options)) {}
  Fitted(const Fitted&) = delete;
  Fitted& operator=(const Fitted&) = delete;

  [[nodiscard]] Size size(const Alternative& of, const std::string& name) const {
    for (const PlacedPiece& placed : of.sized.versions.front().pieces) {
      if (placed.piece->name.value == name) return {placed.width, placed.height};
    }
    FAIL(name);
    return {};
  }
  // "mat.border: 1/8 -> 1/16 (-1/16)"
  [[nodiscard]] Told loosen() const {
    Told all;
    for (const Loosening& one : fit.loosen) {
      const std::string part = one.part.empty() ? "" : "." + one.part;
      all.push_back(one.name + "." + one.key + part + ": " + one.from + " -> " + one.to + " (" +
                    fraction_text(one.by) + ")");
    }
    return all;
  }

  Card card;
  FitCard fit;
};

std::string mat(const std::string& keys) {
  return layer("mat", "front", "role = \"mat\"\npaper = \"fern\"\n" + keys);
}

std::string border(const std::string& wish) { return "border = \"" + wish + "\"\n"; }

FitOptions for_most() {
  FitOptions options;
  options.most = true;
  return options;
}

}  // namespace

TEST_CASE("sizes are chosen with which a batch comes out that would not as sized") {
  // Four mats of 4 x 5 1/4 are more than a letter sheet is wide; a border of 1/4 leaves 3 3/4 x 5 and of 1/8
  // 4 x 5 1/4, which two across and two down just take. As sized (1/8 is the usual) 2 x 4 = 8, 2 x 5 1/4 = 10
  // 1/2: it is the narrower border of 1/16 that is too large.
  const Fitted narrow(batch_of(4) + bare_base + mat(border("1/16 to 1/2, about 1/32")) +
                      letters_of("fern", "have = 1\n") + "[trimmer]\nsliver = \"1/2\"\n");
  CHECK(narrow.fit.as_sized.costs.missing == 1);
  CHECK(narrow.fit.best.costs.enough);
  CHECK(narrow.size(narrow.fit.best, "mat") == Size{4, part(21, 4)});
  CHECK(narrow.fit.proven);
  CHECK(narrow.fit.at_least == 1);
  CHECK(narrow.fit.loosen.empty());
}

TEST_CASE("twelve mats come out of one sheet with a border a sixteenth narrower or wider than stated") {
  // Four of 3 across and three of 4 down fill a sheet of 12 x 12. Of 3 1/8 x 4 1/8 it gives eight: three
  // across and two down, and two more lying below them.
  const std::string base = "[base]\nfold = \"side\"\nfront = \"3 1/4 x 4 1/4\"\n";
  const std::string sheet = paper("fern", "sheet = \"12 x 12\"\nhave = 1\n");
  const Fitted fits(batch_of(12) + base + mat(border("1/8")) + sheet);
  CHECK(fits.fit.best.costs.enough);
  CHECK(fits.fit.best.as_sized);
  CHECK(fits.fit.proven);

  const Fitted lacks(batch_of(12) + base + mat(border("1/16")) + sheet);
  CHECK_FALSE(lacks.fit.best.costs.enough);
  CHECK(lacks.fit.proven);
  CHECK(lacks.fit.most_as_sized == 8);
  CHECK(lacks.fit.most == 8);
  CHECK(lacks.loosen() == Told{"mat.border: 1/16 -> 1/8 (1/16)"});
  CHECK(lacks.fit.loosen_known);
  CHECK(lacks.fit.loosen.front().costs.enough);

  const Fitted either(batch_of(12) + base + mat(border("1/16 to 1/8, about 1/16")) + sheet);
  CHECK(either.fit.as_sized.costs.missing == 1);
  CHECK(either.fit.best.costs.enough);
  CHECK(either.size(either.fit.best, "mat") == Size{3, 4});
  CHECK(either.fit.as_sized.costs.papers.front().cards_a_sheet == 8);
  CHECK(either.fit.best.costs.papers.front().cards_a_sheet == 12);
}

TEST_CASE("of cards that take as little paper the one that differs least from the card as sized is best") {
  const Fitted fits(batch_of(4) + bare_base + mat(border("0 to 1/2, about 1/16")) + letters_of("fern"));
  CHECK(fits.size(fits.fit.as_sized, "mat") == Size{part(33, 8), part(43, 8)});
  CHECK(fits.fit.as_sized.costs.sheets == 1);
  CHECK(fits.fit.best.as_sized);
  CHECK(fits.fit.proven);
}

TEST_CASE("where costs are stated the least cost is fitted for and not the fewest sheets") {
  // One small sheet takes a mat of 4 x 5 and costs 1; a large one takes four of any, and costs 5.
  const Fitted fits(batch_of(4) + bare_base + mat(border("1/16 to 1/4")) +
                    paper("fern", "sheet = \"4 x 5\"\ncost = 1\n") + letters_of("fern", "cost = 5\n"));
  CHECK(fits.fit.as_sized.costs.cost == 5);
  CHECK(fits.fit.best.costs.cost == 4);
  CHECK(fits.fit.best.costs.sheets == 4);
  CHECK(fits.size(fits.fit.best, "mat") == Size{part(15, 4), 5});
  CHECK(fits.fit.proven);
}

TEST_CASE("where nothing within the wishes comes out each wish that alone would do is told the least first") {
  // The plate is too wide for its sheet; made 4 tall it would lie across.
  const std::string plate =
      layer("plate", "front", "paper = \"fern\"\nsize = \"4 1/8 x 5\"\nover = [\"mat\"]\n");
  const Fitted lacks(batch_of(1) + bare_base + layer("mat", "front", border("1/16")) + plate +
                     paper("fern", "sheet = \"4 x 5 1/2\"\nhave = 1\n"));
  CHECK(lacks.fit.best.costs.papers.front().never);
  CHECK(lacks.loosen() ==
        Told{"plate.size: 4 1/8 x 5 -> 4 x 5 (-1/8)", "plate.size: 4 1/8 x 5 -> 4 1/8 x 4 (-1)"});
  CHECK(lacks.fit.loosen_known);
}

TEST_CASE("a wish with a range is loosened on the side that helps and keeps its words") {
  const std::string base = "[base]\nfold = \"side\"\nfront = \"3 1/4 x 4 1/4\"\n";
  const Fitted lacks(batch_of(12) + base + mat(border("1/32 to 1/16, about 1/16")) +
                     paper("fern", "sheet = \"12 x 12\"\nhave = 1\n"));
  CHECK(lacks.loosen() == Told{"mat.border: 1/32 to 1/16, about 1/16 -> 1/32 to 1/8, about 1/16 (1/16)"});
}

TEST_CASE("no wish is told where none alone would do") {
  const Fitted lacks(batch_of(12) + base_of("fern") + letters_of("fern", "have = 2\n"));
  CHECK(lacks.fit.best.costs.missing == 4);
  CHECK(lacks.fit.most == 4);
  CHECK(lacks.loosen().empty());
  CHECK(lacks.fit.loosen_known);
  CHECK(lacks.fit.proven);
}

TEST_CASE("asked for the most the sizes are those with which the paper gives the most cards") {
  const std::string base = "[base]\nfold = \"side\"\nfront = \"3 1/4 x 4 1/4\"\n";
  const std::string text = batch_of(2) + base + mat(border("1/16 to 3/16, about 1/16")) +
                           paper("fern", "sheet = \"12 x 12\"\nhave = 2\n");
  const Fitted fits(text, for_most());
  CHECK(fits.fit.most_as_sized == 16);
  CHECK(fits.fit.most == 24);
  CHECK(fits.fit.proven);
  CHECK(fits.size(fits.fit.best, "mat") == Size{3, 4});
}

TEST_CASE("where no paper sets a limit there is no most and the fewest sheets are fitted for") {
  const std::string base = "[base]\nfold = \"side\"\nfront = \"3 1/4 x 4 1/4\"\n";
  const Fitted fits(
      batch_of(12) + base + mat(border("1/16 to 1/4, about 1/16")) + paper("fern", "sheet = \"12 x 12\"\n"),
      for_most());
  CHECK_FALSE(fits.fit.most);
  CHECK(fits.fit.as_sized.costs.sheets == 2);
  CHECK(fits.fit.best.costs.sheets == 1);
  CHECK(fits.fit.proven);
}

TEST_CASE("with variants the most cards are looked for in every version") {
  const std::string base = "[base]\nfold = \"side\"\nfront = \"3 1/4 x 4 1/4\"\n";
  const Fitted fits(batch_of(12) + base + mat(border("1/16 to 1/4, about 1/16")) +
                        paper("fern", "sheet = \"12 x 12\"\nhave = 1\n") +
                        "[[variant]]\nname = \"other\"\ncards = 5\n",
                    for_most());
  CHECK(fits.fit.most_as_sized == 8);
  CHECK(fits.fit.most == 12);
  CHECK(fits.fit.proven);
  CHECK(fits.fit.best.costs.enough);
}

TEST_CASE("a card that cannot be built is not fitted") {
  const Fitted none(batch_of(2) + bare_base + mat("border = \"1/8\"\nsize = \"4 x 5\"\n") +
                    letters_of("fern"));
  CHECK(none.fit.verdict == Verdict::conflict);
}

TEST_CASE("papers that cannot be cut from at all are told as what is wrong with the batch") {
  const Fitted none(batch_of(2) + bare_base + mat(border("1/16 to 1/4")));
  CHECK(none.fit.no_costs.size() == 1);
  CHECK(none.fit.best.as_sized);
}

namespace {

// A mat, a panel on it and a strip, each with a few values, and not quite enough paper.
class SmallBatch {
 public:
  explicit SmallBatch(unsigned seed) : dice_(seed) {
    costs_ = dice_.one_in(4);
    const auto part_of_paper = [&](const std::string& name) {
      const std::string have = dice_.one_in(3) ? "" : fmt::format("have = {}\n", dice_.between(1, 4));
      const std::string cost = costs_ ? fmt::format("cost = {}\n", dice_.between(1, 4)) : "";
      return paper(name, "sheet = \"" +
                             dice_.any_of<std::string>({"8 1/2 x 11", "12 x 12", "6 x 8", "iso A4"}) +
                             "\"\n" + have + cost);
    };
    head_ = batch_of(dice_.between(3, 11)) + bare_base;
    papers_ = part_of_paper("fern") + part_of_paper("moss");
    if (dice_.one_in(4)) papers_ += part_of_paper("moss");
    if (dice_.one_in(4))
      papers_ += fmt::format("[trimmer]\nblade-loss = \"1/{}\"\n", 16 * dice_.between(1, 4));
    mat_ = values(0, 4, 3);
    panel_ = values(1, 2, 2);
    strip_ = values(8, 12, 2);
    strip_paper_ = dice_.any_of<std::string>({"fern", "moss"});
  }

  std::string text() { return text_of(range(mat_), range(panel_), range(strip_)); }

  // One card within the wishes, with this many marks more for one of the three.
  static constexpr int wishes = 3;
  [[nodiscard]] std::string with(int wish, int more) const {
    return text_of(marks(mat_.first + (wish == 0 ? more : 0)), marks(panel_.first + (wish == 1 ? more : 0)),
                   marks(strip_.first + (wish == 2 ? more : 0)));
  }
  [[nodiscard]] int least(int wish) const {
    return wish == 0 ? -mat_.first : wish == 1 ? -panel_.first : 1 - strip_.first;
  }

  // Every card within the wishes, as a text of its own.
  std::vector<std::string> all() {
    std::vector<std::string> texts;
    for (int mat = mat_.first; mat <= mat_.second; ++mat) {
      for (int panel = panel_.first; panel <= panel_.second; ++panel) {
        for (int strip = strip_.first; strip <= strip_.second; ++strip)
          texts.push_back(text_of(marks(mat), marks(panel), marks(strip)));
      }
    }
    return texts;
  }

 private:
  using Values = std::pair<int, int>;
  Values values(int least, int most, int more) {
    const int low = dice_.between(least, most);
    return {low, low + dice_.between(0, more)};
  }
  static std::string marks(int count) { return fmt::format("{}/16", count); }
  static std::string range(const Values& values) {
    return values.first == values.second ? marks(values.first)
                                         : marks(values.first) + " to " + marks(values.second);
  }

  [[nodiscard]] std::string text_of(const std::string& mat, const std::string& panel,
                                    const std::string& strip) const {
    return head_ + layer("mat", "front", "paper = \"fern\"\n" + border(mat)) +
           layer("panel", "mat", "paper = \"moss\"\n" + border(panel)) +
           layer("strip", "panel",
                 "paper = \"" + strip_paper_ + "\"\nheight = \"3\"\nwidth = \"" + strip + "\"\n") +
           papers_;
  }

  Dice dice_;
  bool costs_ = false;
  std::string head_, papers_, strip_paper_;
  Values mat_, panel_, strip_;
};

// Papers that cannot be cut, sheets missing, and the cost or the sheets of all papers.
using Figures = std::tuple<int, int, Rational>;

Figures& operator+=(Figures& all, const Figures& more) {
  std::get<0>(all) += std::get<0>(more);
  std::get<1>(all) += std::get<1>(more);
  std::get<2>(all) += std::get<2>(more);
  return all;
}

// Nothing where the plan is not proven.
std::optional<Figures> figures_of(const batch::PaperNeeds& needs, const batch::BatchTrimmer& trimmer,
                                  bool by_cost) {
  batch::PaperEffort effort;
  effort.until = batch::Clock::now() + std::chrono::seconds(20);
  effort.looks = 300'000;
  effort.neat = false;
  const batch::PlannedPaper planned = batch::plan_paper(needs, trimmer, effort);
  const PaperPlan& plan = planned.plan;
  if (planned.enough()) {
    if (!plan.proven) return std::nullopt;
    return Figures{0, 0, by_cost ? plan.cost.value_or(0) : Rational(plan.sheets)};
  }
  const Shortage& lacks = plan.missing.front();
  if (lacks.too_large) return Figures{1, 0, 0};
  // Of one size: what there is, and what is missing.
  if (lacks.at_least != lacks.sheets || needs.stock.size() != 1) return std::nullopt;
  const int sheets = *needs.stock.front().have + lacks.sheets;
  return Figures{0, lacks.sheets,
                 by_cost ? Rational(needs.stock.front().cost.value_or(0) * sheets) : Rational(sheets)};
}

// Cards of one batch; papers that want the same of the same are planned once.
class EachByItself {
 public:
  explicit EachByItself(bool by_cost) : by_cost_(by_cost) {}

  std::optional<Figures> operator()(const std::string& text) {
    const SizedText one(text);
    REQUIRE(one.sized.verdict == Verdict::buildable);
    const std::vector<BatchCard> cards{{"", &one.card, &one.sized}};
    Figures all;
    bool sure = true;
    for (const batch::PaperNeeds& needs : batch::gather(cards, {}, {}, batch::stated_counts(cards))) {
      std::string key = needs.paper;
      for (const std::string& piece : told(needs.pieces)) key += "|" + piece;
      const auto [known, is_new] = known_.try_emplace(key);
      if (is_new) known->second = figures_of(needs, batch::trimmer_of(cards), by_cost_);
      sure = sure && known->second;
      if (known->second) all += *known->second;
    }
    return sure ? std::optional(all) : std::nullopt;
  }

 private:
  bool by_cost_;
  std::map<std::string, std::optional<Figures>> known_;
};

Figures figures_of(const Costs& costs, bool by_cost) {
  int never = 0;
  for (const PaperCost& paper : costs.papers) {
    if (paper.never) ++never;
  }
  return {never, costs.missing, by_cost ? costs.cost.value_or(0) : Rational(costs.sheets)};
}

}  // namespace

TEST_CASE("the best sizes are the best of all cards within the wishes when each is cut by itself") {
  int compared = 0;
  int better = 0;
  for (unsigned seed = 0; seed < 200; ++seed) {
    SmallBatch batch(seed);
    INFO(batch.text());
    const Fitted fits(batch.text());
    const std::vector<std::string> all = batch.all();
    REQUIRE(fits.fit.complete);
    CHECK(fits.fit.count == all.size());
    const bool by_cost = std::any_of(fits.card.papers.begin(), fits.card.papers.end(),
                                     [](const Paper& paper) { return paper.cost.has_value(); });
    EachByItself each(by_cost);
    std::optional<Figures> best;
    bool sure = fits.fit.proven;
    for (const std::string& text : all) {
      const auto figures = each(text);
      sure = sure && figures;
      if (figures && (!best || *figures < *best)) best = figures;
    }
    if (best && fits.fit.proven) CHECK_FALSE(*best < figures_of(fits.fit.best.costs, by_cost));
    if (!sure) continue;
    CHECK(figures_of(fits.fit.best.costs, by_cost) == *best);
    ++compared;
    if (figures_of(fits.fit.as_sized.costs, by_cost) != *best) ++better;
  }
  CHECK(compared > 120);
  CHECK(better > 20);
}

TEST_CASE("the same card is fitted alike every time") {
  const std::string text = SmallBatch(3).text();
  const Fitted first(text);
  for (int i = 0; i < 5; ++i) {
    const Fitted again(text);
    CHECK(again.fit.best.amounts == first.fit.best.amounts);
    CHECK(again.fit.proven == first.fit.proven);
    CHECK(again.fit.at_least == first.fit.at_least);
    CHECK(again.loosen() == first.loosen());
  }
}

TEST_CASE("a wish is loosened by no more than it has to be when each value of it is cut by itself") {
  constexpr int farthest = 12;  // marks
  int told = 0;
  int not_told = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    const SmallBatch batch(seed);
    const std::string text = batch.with(0, 0);
    const Fitted fits(text);
    if (fits.fit.best.costs.enough || !fits.fit.loosen_known) continue;
    INFO(text);
    EachByItself each(false);
    for (int wish = 0; wish < SmallBatch::wishes; ++wish) {
      // Those of equals that are less come first.
      std::optional<int> nearest;
      bool sure = true;
      for (int far = 1; far <= farthest && !nearest; ++far) {
        for (const int more : {-far, far}) {
          if (nearest || more < batch.least(wish)) continue;
          const SizedText one(batch.with(wish, more));
          if (one.sized.verdict != Verdict::buildable) continue;
          const auto figures = each(batch.with(wish, more));
          sure = sure && figures;
          if (figures && std::get<0>(*figures) == 0 && std::get<1>(*figures) == 0) nearest = more;
        }
      }
      const std::string name =
          std::vector<std::string>{"mat", "panel", "strip"}.at(static_cast<std::size_t>(wish));
      const std::string key = wish == 2 ? "width" : "border";
      const auto loosened =
          std::find_if(fits.fit.loosen.begin(), fits.fit.loosen.end(),
                       [&](const Loosening& one) { return one.name == name && one.key == key; });
      if (!sure) continue;
      INFO(name);
      if (nearest) {
        REQUIRE(loosened != fits.fit.loosen.end());
        CHECK(loosened->by == part(*nearest, 16));
        CHECK(loosened->costs.enough);
        ++told;
      } else {
        CHECK((loosened == fits.fit.loosen.end() || abs(loosened->by) > part(farthest, 16)));
        ++not_told;
      }
    }
  }
  CHECK(told > 8);
  CHECK(not_told > 8);
}
