// The plan as it is drawn: nothing lies on anything else, every cut has the number of its step, pieces are
// told by their names or by a letter that is explained.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <set>

#include "cli/figure/look.h"
#include "cli/plan/badges.h"
#include "cli/plan/figure.h"
#include "cli/plan/names.h"
#include "cli/plan/pages.h"
#include "tests/catch.h"
#include "tests/cli/cut_plans.h"

using namespace evenmat;
using testing::Planned;
using testing::three_sheets;

namespace {

bool near(double a, double b) { return std::abs(a - b) < 1e-6; }

// With its own plan; none where it cannot be cut.
bool plan(Planned& planned) {
  for (const SizedCard& sized : planned.sized) {
    if (sized.verdict != Verdict::buildable) return false;
  }
  if (!mistakes_in_batch(planned.batch_cards, {}, {}).empty()) return false;
  planned.batch = cut_batch(planned.batch_cards, {}, {});
  return true;
}

template <typename What>
std::vector<What> all_of(const std::vector<Mark>& marks) {
  std::vector<What> all;
  for (const Mark& mark : marks) {
    if (const auto* one = std::get_if<What>(&mark)) all.push_back(*one);
  }
  return all;
}

std::vector<Text> texts(const Drawing& drawing) {
  std::vector<Text> all;
  for (const Page& page : drawing.pages) {
    for (Text& text : all_of<Text>(page.marks)) all.push_back(std::move(text));
  }
  return all;
}

std::ptrdiff_t count(const std::vector<Text>& all, const std::string& words) {
  return std::count_if(all.begin(), all.end(), [&](const Text& text) { return text.words == words; });
}

bool has(const std::vector<Text>& all, const std::string& part) {
  return std::any_of(all.begin(), all.end(),
                     [&](const Text& text) { return text.words.find(part) != std::string::npos; });
}

// What is wrong with how words lie; empty if nothing is.
std::string trouble(const Drawing& drawing) {
  for (std::size_t number = 0; number < drawing.pages.size(); ++number) {
    const Page& page = drawing.pages[number];
    const std::string where = " on page " + std::to_string(number + 1);
    if (!page.marks.empty() && !contains(within_margins(page), used(page))) return "past the margins" + where;
    const std::vector<Text> all = all_of<Text>(page.marks);
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (overlap(all[i].box, all[j].box)) return all[j].words + " and " + all[i].words + where;
      }
    }
  }
  return {};
}

// Nothing over anything else, nothing off the page.
void check_clear(const Drawing& drawing) {
  const std::string found = trouble(drawing);
  INFO(found);
  CHECK(found.empty());
}

std::string card_with(const std::string& name, const std::string& size, int cards) {
  return "cards = " + std::to_string(cards) +
         "\n[base]\nfold = \"flat\"\nfront = \"8 x 10\"\n[[layer]]\nname = \"" + name +
         "\"\nrole = \"strip\"\non = \"front\"\nsize = \"" + size +
         "\"\npaper = \"moss\"\n[[paper]]\nname = \"moss\"\nsheet = \"8 1/2 x 11\"\n[trimmer]\nhold = "
         "\"1/8\"\nsliver = \"0\"\n";
}

Drawing drawn(const std::string& card) {
  Planned planned;
  planned.add("card.toml", card);
  REQUIRE(plan(planned));
  return plan_drawing(planned.telling(), PageSize::letter);
}

// Whatever is in the plan has its number, a letter with its key, or a note that says there was no room.
void check_cuts_are_told(const Planned& planned) {
  const CutTelling telling = planned.telling();
  for (const PaperPlan& paper : planned.batch.papers) {
    const PlanNames names = plan_names(telling, paper);
    for (std::size_t i = 0; i < paper.plan.size(); ++i) {
      const PlanFigure figure = plan_figure(telling, paper, names, i, 30, 130);
      std::size_t lettered = 0;
      for (const PlanKeyEntry& entry : figure.key) lettered += static_cast<std::size_t>(entry.count);
      CHECK(figure.named + lettered == paper.plan[i].pieces.size());
      std::set<std::string> numbers;
      for (const Text& text : all_of<Text>(figure.marks)) numbers.insert(text.words);
      for (const SheetCut& cut : paper.plan[i].cuts) {
        const bool told = numbers.contains(std::to_string(cut.step)) ||
                          std::any_of(figure.unnumbered.begin(), figure.unnumbered.end(),
                                      [&](const UnnumberedCuts& cuts) { return cuts.step == cut.step; });
        CHECK(told);
      }
    }
  }
}

}  // namespace

TEST_CASE("words of a drawn plan lie on no others and within the margins whatever the card") {
  int drawn = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(EVENMAT_SOURCE) / "cases")) {
    if (entry.path().extension() != ".toml") continue;
    std::ifstream file(entry.path());
    Planned planned;
    planned.add(entry.path().string(), std::string(std::istreambuf_iterator<char>(file), {}));
    if (!plan(planned)) continue;
    ++drawn;
    for (const PageSize size : {PageSize::letter, PageSize::a4}) {
      INFO(entry.path().filename().string());
      check_clear(plan_drawing(planned.telling(), size));
    }
    check_cuts_are_told(planned);
  }
  CHECK(drawn > 15);
}

TEST_CASE("a sheet of two hundred small pieces is drawn with every piece told") {
  for (const char* size : {"1/2 x 3/4", "3/8 x 3/8", "1/4 x 8", "1/8 x 1/4"}) {
    INFO(size);
    Planned planned;
    planned.add("card.toml", card_with("snippet of the longest ribbon", size, 200));
    REQUIRE(plan(planned));
    const Drawing drawing = plan_drawing(planned.telling(), PageSize::letter);
    check_clear(drawing);
    CHECK(has(texts(drawing), "snippet of the longest ribbon"));
    check_cuts_are_told(planned);
  }
}

TEST_CASE("long names and names in any script go into a drawn plan") {
  const std::string sixty = "the panel with the very long name that no strip has room for";
  REQUIRE(sixty.size() == 60);
  for (const std::string& name :
       {sixty, std::string(300, 'w'), std::string("écharpe d'été à pois"),
        std::string("\u706f\u7b3c\u7eb8\u5361\u7247\u706f\u7b3c\u7eb8\u5361\u7247\u706f\u7b3c\u7eb8"),
        std::string("\u0641\u0627\u0646\u0648\u0633 \u0648\u0631\u0642\u064a")}) {
    for (const char* size : {"3 x 4", "5 x 1/2", "1/2 x 5", "1/4 x 1/4"}) {
      INFO(name << " " << size);
      check_clear(drawn(card_with(name, size, 9)));
    }
  }
}

TEST_CASE("every cut of a drawn plan carries the number of its step") {
  const Planned planned = three_sheets();
  const std::vector<Text> all = texts(plan_drawing(planned.telling(), PageSize::letter));
  // A has two cuts of the first step and four of the second, B two and three, and the legend shows a first.
  CHECK(count(all, "1") == 2 + 2 + 1);
  CHECK(count(all, "2") == 4 + 3);
}

TEST_CASE("a number lies on the line of its own cut") {
  const std::vector<CutLine> cuts = {
      {{10, 60}, {210, 60}, 1}, {{80, 10}, {80, 60}, 2}, {{140, 60}, {140, 160}, 13}};
  const CutBadges badges = badges_of(cuts, {10, 10, 200, 150}, {}, {});
  REQUIRE(badges.boxes.size() == 3);
  CHECK(badges.outside.empty());
  for (std::size_t i = 0; i < 3; ++i) {
    const At middle = badges.boxes[i].middle();
    CHECK(near(cuts[i].level() ? middle.y : middle.x, cuts[i].level() ? cuts[i].from.y : cuts[i].from.x));
    CHECK(contains({10, 10, 200, 150}, badges.boxes[i]));
  }
}

TEST_CASE("a cut without room for its number has it beside the sheet with a leader") {
  const Box sheet{0, 0, 100, 100};
  // Words all over the sheet.
  const CutBadges badges = badges_of({{{0, 50}, {100, 50}, 3}, {{50, 0}, {50, 100}, 4}}, sheet, {sheet}, {});
  REQUIRE(badges.boxes.size() == 2);
  CHECK(badges.outside == std::vector<std::size_t>{0, 1});
  CHECK(badges.boxes[0].left > sheet.right());
  CHECK(near(badges.boxes[0].middle().y, 50));
  CHECK(badges.boxes[1].top > sheet.bottom());
  CHECK(all_of<Polyline>(badges.marks).size() == 2);
  CHECK(badges.beside >= badges.boxes[0].right() - sheet.right());
}

TEST_CASE("more numbers than go beside a sheet are owned up to") {
  std::vector<CutLine> cuts;
  for (std::size_t i = 0; i < 50; ++i) {
    const double y = 1 + 2 * static_cast<double>(i);
    cuts.push_back({{0, y}, {100, y}, i + 1});
  }
  const Box sheet{0, 0, 100, 102};
  const CutBadges badges = badges_of(cuts, sheet, {sheet}, {});
  CHECK(!badges.runs.empty());
  CHECK(badges.boxes.size() + badges.runs.size() == cuts.size());
  for (std::size_t i = 0; i < badges.boxes.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) CHECK(!overlap(badges.boxes[i], badges.boxes[j]));
  }
}

TEST_CASE("no leader runs from a cut across pieces that it does not bound") {
  const Box sheet{0, 0, 100, 100};
  const Box words{0, 0, 100, 20};
  const std::vector<CutLine> cuts = {{{50, 0}, {50, 20}, 2}};
  const CutBadges over_scrap = badges_of(cuts, sheet, {words}, {});
  CHECK(over_scrap.outside == std::vector<std::size_t>{0});
  const CutBadges barred = badges_of(cuts, sheet, {words}, {{0, 20, 100, 40}});
  CHECK(barred.outside.empty());
  CHECK(all_of<Polyline>(barred.marks).empty());
  REQUIRE(barred.runs.size() == 1);
  CHECK(barred.runs[0].cuts == std::vector<std::size_t>{0});
  CHECK(!barred.runs[0].numbered);
}

TEST_CASE("of many cuts close beside one another in a strip one is numbered") {
  std::vector<CutLine> cuts = {{{0, 80}, {200, 80}, 1}};
  for (std::size_t i = 0; i < 39; ++i) {
    const double x = 3 + 3 * static_cast<double>(i);
    cuts.push_back({{x, 0}, {x, 80}, 2});
  }
  const CutBadges badges = badges_of(cuts, {0, 0, 200, 100}, {}, {});
  REQUIRE(badges.runs.size() == 1);
  CHECK(badges.runs[0].cuts.size() == 39);
  CHECK(badges.runs[0].numbered);
  CHECK(badges.boxes.size() == 2);
}

TEST_CASE("cuts without a number each are told in words with what lies along them") {
  const std::vector<Text> all = texts(drawn(card_with("sliver of card", "1/16 x 3", 60)));
  CHECK(has(all, "Too close together for a number each: step\u00A0"));
  CHECK(has(all, " cuts from top to bottom along a"));
}

TEST_CASE("letters begin at the first whatever else has room for its name") {
  Planned planned;
  planned.add("card.toml", card_with("panel", "4 x 5", 4) +
                               "[[layer]]\nname = \"dot\"\nrole = \"panel\"\non = \"front\"\nsize = \"1/4 x "
                               "1/4\"\npaper = \"moss\"\n");
  REQUIRE(plan(planned));
  const CutTelling telling = planned.telling();
  CHECK(plan_names(telling, planned.moss()).names.size() == 2);
  const std::vector<Text> all = texts(plan_drawing(telling, PageSize::letter));
  CHECK(has(all, "panel"));
  CHECK(has(all, "dot, 1/4 x 1/4: "));
  CHECK(count(all, "a") == 5);  // four pieces and the key
  CHECK(count(all, "b") == 0);
}

TEST_CASE("a piece that lies turned is told with its size as it lies") {
  Planned planned;
  planned.add("card.toml", card_with("panel", "3 x 5", 1));
  REQUIRE(plan(planned));
  PaperPlan& paper = planned.moss();
  REQUIRE(paper.plan.front().pieces.size() == 1);
  for (const bool turned : {false, true}) {
    INFO(turned);
    paper.plan.front().pieces = {{0, 1, 2, turned ? 5 : 3, turned ? 3 : 5, turned}};
    const CutTelling telling = planned.telling();
    const PlanFigure figure = plan_figure(telling, paper, plan_names(telling, paper), 0, 30, 130);
    const std::vector<Text> all = all_of<Text>(figure.marks);
    CHECK(count(all, "5 x 3") == (turned ? 1 : 0));
    CHECK(count(all, "3 x 5") == (turned ? 0 : 1));
  }
}

TEST_CASE("scores are drawn on a base where it is scored") {
  Planned planned;
  planned.add("card.toml",
              "[base]\nfold = \"z\"\nfront = \"4 x 5\"\nleaves = \"2, 4, 3\"\npaper = \"moss\"\n"
              "[[paper]]\nname = \"moss\"\nsheet = \"12 x 12\"\n");
  REQUIRE(plan(planned));
  PaperPlan& paper = planned.moss();
  for (const bool turned : {false, true}) {
    paper.plan.front().pieces = {{0, 1, 2, turned ? 5 : 9, turned ? 9 : 5, turned}};
    const CutTelling telling = planned.telling();
    const PlanFigure figure = plan_figure(telling, paper, plan_names(telling, paper), 0, 20, 130);
    const std::vector<Shape> shapes = all_of<Shape>(figure.marks);
    const auto base = std::find_if(shapes.begin(), shapes.end(), [](const Shape& shape) {
      return shape.fill && shape.fill->red == base_look().fill.red;
    });
    REQUIRE(base != shapes.end());
    const Box box = box_around(base->outline);
    std::vector<double> at;
    for (const Polyline& line : all_of<Polyline>(figure.marks)) {
      if (line.stroke.dashes != fold_line().dashes) continue;
      at.push_back(turned ? line.points[0].y - box.top : line.points[0].x - box.left);
      CHECK(near(turned ? line.points[1].y : line.points[1].x, turned ? line.points[0].y : line.points[0].x));
    }
    REQUIRE(at.size() == 2);
    CHECK(near(at[0], 2 * 20));
    CHECK(near(at[1], 6 * 20));
  }
}

TEST_CASE("what has no room for its name has a letter that the key explains") {
  const std::vector<Text> all = texts(drawn(card_with("the smallest of all flags", "3/8 x 3/8", 30)));
  CHECK(count(all, "a") >= 2);  // in pieces and in the key
  CHECK(has(all, "the smallest of all flags, 3/8 x 3/8: "));
}

TEST_CASE("of what is left the size is told where it is worth keeping") {
  const Planned planned = three_sheets();
  const std::vector<Text> all = texts(plan_drawing(planned.telling(), PageSize::letter));
  CHECK(count(all, "keep") == 1);
  CHECK(count(all, "4 1/2 x 5 1/4") == 1);
  CHECK(count(all, "1/2 x 5 1/4") == 0);
}

TEST_CASE("which way a print stands and how the grain runs is shown for papers that say so") {
  Planned planned = three_sheets();
  const auto arrows = [&] {
    const std::vector<Text> all = texts(plan_drawing(planned.telling(), PageSize::letter));
    return std::pair(count(all, "up"), count(all, "grain"));
  };
  CHECK(arrows() == std::pair<std::ptrdiff_t, std::ptrdiff_t>(0, 0));
  planned.moss().stock.front().up = true;
  CHECK(arrows() == std::pair<std::ptrdiff_t, std::ptrdiff_t>(2, 0));
  planned.moss().stock.front().grain = "long";  // and in the legend
  CHECK(arrows() == std::pair<std::ptrdiff_t, std::ptrdiff_t>(2, 3));
}

TEST_CASE("all sheets of a paper are drawn to one scale") {
  Planned planned = three_sheets();
  planned.moss().stock.push_back(planned.moss().stock.front());
  planned.moss().stock.back().size = {Rational(17) / 2, 8};
  planned.moss().plan[1].sheet = 1;
  const std::vector<Shape> shapes =
      all_of<Shape>(plan_drawing(planned.telling(), PageSize::letter).pages.front().marks);
  std::vector<Box> sheets;
  for (const Shape& shape : shapes) {
    if (!shape.fill && shape.stroke) sheets.push_back(box_around(shape.outline));
  }
  REQUIRE(sheets.size() == 2);
  CHECK(near(sheets[0].width, sheets[1].width));
  CHECK(near(sheets[0].height / 11, sheets[1].height / 8));
}

TEST_CASE("a card that nothing is cut for has a page that says so") {
  const Drawing drawing = drawn("[base]\nfold = \"side\"\nfront = \"us A2\"\n");
  REQUIRE(drawing.pages.size() == 1);
  CHECK(has(texts(drawing), "Nothing is cut"));
}

TEST_CASE("a paper's heading stands on the page of its first sheet") {
  for (const char* size : {"3/8 x 3/8", "3 x 4"}) {
    const Drawing drawing = drawn(card_with("flag", size, 150));
    for (const Page& page : drawing.pages) {
      const std::vector<Text> all = all_of<Text>(page.marks);
      if (count(all, "moss") > 0) CHECK(has(all, "A: "));
    }
  }
}
