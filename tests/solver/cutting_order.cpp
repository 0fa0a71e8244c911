// In which order the parts of a sheet come off.
#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "solver/cutting/steps.h"
#include "tests/catch.h"
#include "tests/solver/cut_trees.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::put_in_cutting_order;
using cutting::reach;

namespace {

// Sizes in the order in which they come off, in sixteenths of an inch; a hand holds an inch.
using Sizes = std::vector<Measure>;
Sizes order_of(const Part& part) {
  Sizes sizes;
  for (const Part& inner : part.parts) sizes.push_back(reach(inner, part.across));
  return sizes;
}
Sizes ordered(const Part& part, const std::vector<bool>& first = {false, false}) {
  std::vector<Layout> layouts{{0, 1, part}};
  put_in_cutting_order(layouts, first, 0, 16);
  return order_of(layouts.front().root);
}

// All that a tree says but for the order of its parts where that is free, and where they lie.
std::string content(const Part& part) {
  std::vector<std::string> inner;
  for (const Part& one : part.parts) inner.push_back(content(one));
  if (!part.order_matters) std::sort(inner.begin(), inner.end());
  std::string all = std::to_string(static_cast<int>(part.what)) + " " + std::to_string(part.width) + "x" +
                    std::to_string(part.height) + " " + std::to_string(part.kind) + (part.turned ? "t" : "") +
                    (part.across ? "a" : "") + (part.order_matters ? "!" : "");
  for (const std::string& one : inner) all += "(" + one + ")";
  return all;
}

template <typename Visit>
void for_all_cut(const Part& part, const Visit& visit) {
  if (part.what == Part::What::cut) visit(part);
  for (const Part& inner : part.parts) for_all_cut(inner, visit);
}

std::set<Measure> settings(const std::vector<Layout>& layouts) {
  std::set<Measure> found;
  for (const Layout& layout : layouts) {
    for_all_cut(layout.root, [&](const Part& cut) {
      const Sizes sizes = order_of(cut);
      found.insert(sizes.begin(), sizes.end() - 1);
    });
  }
  return found;
}

// Of those the least that any order of parts asks for: every choice of what stays in hand of each cut part.
std::size_t fewest_settings(std::vector<Sizes> cut, const std::set<Measure>& so_far = {}) {
  if (cut.empty()) return so_far.size();
  Sizes sizes = std::move(cut.back());
  cut.pop_back();
  std::size_t fewest = SIZE_MAX;
  for (std::size_t last = 0; last < sizes.size(); ++last) {
    std::set<Measure> with = so_far;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      if (i != last) with.insert(sizes[i]);
    }
    fewest = std::min(fewest, fewest_settings(cut, with));
  }
  return fewest;
}

}  // namespace

TEST_CASE("a 12 in square gives two strips of 5 1/4, and 1 1/2 stays in hand") {
  CHECK(ordered(cut_across({piece(192, 84), waste(192, 24), piece(192, 84)})) == Sizes{84, 84, 24});
}

TEST_CASE("pieces are set and what is left over is not, however narrow it is") {
  CHECK(ordered(cut_down({waste(4, 80), piece(48, 80), piece(48, 80)})) == Sizes{48, 48, 4});
  CHECK(ordered(cut_down({piece(48, 80), waste(4, 80), piece(56, 80, 1)})) == Sizes{56, 48, 4});
}

TEST_CASE("narrow pieces come off first and the widest part stays under the hand") {
  CHECK(ordered(cut_down({piece(8, 80), piece(60, 80, 1), piece(12, 80)})) == Sizes{12, 8, 60});
  CHECK(ordered(cut_down({waste(90, 80), piece(60, 80, 1), piece(8, 80)})) == Sizes{8, 60, 90});
}

TEST_CASE("what is left stays in hand rather than a piece when it is wide enough to hold") {
  CHECK(ordered(cut_down({waste(20, 80), piece(60, 80, 1), piece(48, 80)})) == Sizes{60, 48, 20});
}

TEST_CASE("wide parts that hold bases come off before wider ones that hold none") {
  const Part part = cut_down({piece(60, 80), piece(48, 80, 1), waste(100, 80)});
  CHECK(ordered(part, {true, false}) == Sizes{60, 48, 100});
  CHECK(ordered(part, {false, true}) == Sizes{48, 60, 100});
}

TEST_CASE("of parts of one size pieces come off first and what is left stays in hand") {
  std::vector<Layout> layouts{{0, 1, cut_down({waste(48, 80), piece(48, 80, 1), piece(48, 80, 0)})}};
  put_in_cutting_order(layouts, {false, true}, 0, 16);
  const std::vector<Part>& parts = layouts.front().root.parts;
  CHECK(parts[0].kind == 1);
  CHECK(parts[1].what == Part::What::piece);
  CHECK(parts[2].what == Part::What::waste);
}

TEST_CASE("an edge that is trimmed first keeps its place") {
  Part sheet = cut_across({cut_across({waste(100, 60), piece(100, 40)}), waste(100, 4)});
  sheet.order_matters = true;
  CHECK(ordered(sheet) == Sizes{100, 4});
}

TEST_CASE("a setting that one sheet needs is had by another that would have to be taped without it") {
  std::vector<Layout> layouts{{0, 1, cut_down({piece(48, 80), piece(48, 80), piece(4, 80, 1)})},
                              {0, 1, cut_down(so_many(4, piece(4, 80, 1)))}};
  put_in_cutting_order(layouts, {false, false}, 0, 16);
  CHECK(order_of(layouts.front().root) == Sizes{4, 48, 48});
}

TEST_CASE("a narrow piece keeps a setting of its own, so that it need not be taped, if it had one") {
  const Part first = cut_down({piece(8, 80, 1), piece(84, 80), piece(84, 80)});
  const Part last = cut_down({piece(84, 80), piece(84, 80), piece(8, 80, 1)});
  CHECK(ordered(first) == Sizes{8, 84, 84});
  CHECK(ordered(last) == Sizes{84, 84, 8});
  // Whatever else is ordered with it.
  std::vector<Layout> layouts{{0, 1, last},
                              {0, 1, cut_down({waste(90, 80), piece(30, 80), piece(40, 80, 1)})}};
  put_in_cutting_order(layouts, {false, false}, 0, 16);
  CHECK(order_of(layouts[0].root) == Sizes{84, 84, 8});
  CHECK(order_of(layouts[1].root) == Sizes{40, 30, 90});
  // A trim of the same width somewhere makes no difference.
  layouts = {{0, 1, first}, {0, 1, cut_down({waste(8, 80), piece(84, 80), piece(84, 80)})}};
  put_in_cutting_order(layouts, {false, false}, 0, 16);
  CHECK(order_of(layouts[0].root) == Sizes{8, 84, 84});
  CHECK(order_of(layouts[1].root) == Sizes{84, 84, 8});
}

TEST_CASE(
    "where both are set anyway, what is left stays in hand rather than a piece, and one rather than "
    "several") {
  std::vector<Layout> layouts{{0, 1, cut_down(so_many(2, piece(60, 80)))},
                              {0, 1, cut_down(so_many(2, piece(20, 80)))},
                              {0, 1, cut_down({waste(20, 80), piece(60, 80)})},
                              {0, 1, cut_down({piece(20, 80), piece(60, 80), piece(60, 80)})}};
  put_in_cutting_order(layouts, {false}, 0, 16);
  CHECK(order_of(layouts[2].root) == Sizes{60, 20});
  CHECK(order_of(layouts[3].root) == Sizes{60, 60, 20});
}

TEST_CASE("a size that many sheets share is set, and what each has beside it stays in hand") {
  std::vector<Layout> layouts;
  for (const Measure other : {30, 40, 50}) {
    layouts.push_back({0, 1, cut_down({piece(other, 80), piece(90, 80)})});
  }
  put_in_cutting_order(layouts, {false}, 0, 16);
  CHECK(settings(layouts) == std::set<Measure>{90});
}

TEST_CASE("an order that needs few settings is not made worse") {
  // To set 20 and 60 serves all, though 60 stands beside no more others than 30 and 40, and is wider in hand.
  std::vector<Layout> layouts;
  for (const auto& [set, rest] :
       std::vector<std::pair<int, int>>{{20, 30}, {20, 40}, {20, 50}, {60, 30}, {60, 40}}) {
    layouts.push_back({0, 1, cut_down({piece(set, 80), piece(rest, 80)})});
  }
  put_in_cutting_order(layouts, {false}, 0, 16);
  CHECK(settings(layouts) == std::set<Measure>{20, 60});
}

TEST_CASE("parts lie one behind another with the blade's loss between them") {
  std::vector<Layout> layouts{
      {0, 1, cut_across({waste(100, 50), cut_down(so_many(3, piece(32, 20)), 2)}, 2)}};
  put_in_cutting_order(layouts, {false}, 2, 16);
  const Part& root = layouts.front().root;
  CHECK(root.parts[0].y == 0);
  CHECK(root.parts[0].parts[2].x == 68);
  CHECK(root.parts[1].y == 22);
  CHECK(root.parts[1].x == 0);
}

TEST_CASE("in cutting order any sheets keep their content and need no more settings") {
  std::size_t fewer = 0;
  for (unsigned seed = 1; seed <= 1000; ++seed) {
    INFO("seed " << seed);
    CutTrees trees(seed);
    const std::vector<Layout> before = trees.layouts;
    put_in_cutting_order(trees.layouts, trees.first, trees.blade, trees.hold);
    REQUIRE(trees.layouts.size() == before.size());
    for (std::size_t i = 0; i < before.size(); ++i) {
      CHECK(content(trees.layouts[i].root) == content(before[i].root));
    }
    CHECK(settings(trees.layouts).size() <= settings(before).size());
    if (settings(trees.layouts).size() < settings(before).size()) ++fewer;
  }
  CHECK(fewer > 100);
}

TEST_CASE("in cutting order like parts of any sheet follow each other, narrow before wide") {
  for (unsigned seed = 1; seed <= 1000; ++seed) {
    INFO("seed " << seed);
    CutTrees trees(seed);
    put_in_cutting_order(trees.layouts, trees.first, trees.blade, trees.hold);
    const std::set<Measure> all = settings(trees.layouts);
    for (const Layout& layout : trees.layouts) {
      for_all_cut(layout.root, [&](const Part& cut) {
        Sizes sizes = order_of(cut);
        if (cut.order_matters || sizes.back() == 0) return;
        const Measure last = sizes.back();
        if (cut.parts.back().what == Part::What::waste) return;
        const std::set<Measure> different(sizes.begin(), sizes.end());
        // If it has to be taped, every wide part would ask for a setting that no sheet has.
        if (last < trees.hold) {
          for (const Measure wide : different) {
            if (wide < trees.hold) continue;
            CHECK_FALSE(std::all_of(different.begin(), different.end(),
                                    [&](Measure size) { return all.count(size) > 0 || size == wide; }));
          }
        }
        sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
        CHECK(sizes.size() == different.size());
        sizes.pop_back();
        CHECK(
            std::is_partitioned(sizes.begin(), sizes.end(), [&](Measure size) { return size < trees.hold; }));
      });
    }
  }
}

TEST_CASE("sheets with few cuts need as few settings as any order, all but seldom") {
  std::size_t jobs = 0, more = 0;
  for (unsigned seed = 1; seed <= 3000; ++seed) {
    CutTrees trees(seed);
    trees.hold = 0;
    std::vector<Sizes> cut;
    std::size_t orders = 1;
    bool free = true;
    for (const Layout& layout : trees.layouts) {
      for_all_cut(layout.root, [&](const Part& part) {
        cut.push_back(order_of(part));
        orders = std::min<std::size_t>(orders * part.parts.size(), 100'000);
        free = free && !part.order_matters && cut.back().back() != 0;
      });
    }
    if (!free || orders > 20'000) continue;
    put_in_cutting_order(trees.layouts, trees.first, trees.blade, trees.hold);
    const std::size_t fewest = fewest_settings(cut);
    INFO("seed " << seed);
    CHECK(settings(trees.layouts).size() >= fewest);
    ++jobs;
    if (settings(trees.layouts).size() > fewest) ++more;
  }
  CHECK(jobs > 200);
  CHECK(more * 100 < jobs);
}
