// Cut trees mended and judged.
#include "solver/cutting/tree_shape.h"

#include <algorithm>
#include <functional>

#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"
#include "tests/solver/cut_trees.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::give_up_pieces;
using cutting::join_waste;
using cutting::keeps_limits;
using cutting::signature;

namespace {

void each_part(Part& part, const std::function<void(Part&)>& look) {
  look(part);
  for (Part& one : part.parts) each_part(one, look);
}

// A sound tree at random, with at most one trim beside others, and the job it is of: each piece a kind of its
// own.
class RandomTree {
 public:
  explicit RandomTree(unsigned seed, int smallest = 10, int largest = 40) : dice_(seed) {
    job.blade = dice_.one_in(3) ? dice_.between(1, 2) : 0;
    const Measure width = dice_.between(smallest, largest);
    const Measure height = dice_.between(smallest, largest);
    root = any(width, height, dice_.one_in(2), 4);
    cutting::place_parts(root, job.blade);
    job.sheets = {sheet(width, height)};
  }

  void shuffle() {
    each_part(root, [&](Part& part) { dice_.shuffle(part.parts); });
    cutting::place_parts(root, job.blade);
  }
  Dice& dice() { return dice_; }

 private:
  Dice dice_;

 public:
  Job job;
  Part root;

 private:
  Part any(Measure width, Measure height, bool across, int depth) {
    std::vector<Part> parts;
    Measure left = across ? height : width;
    bool has_trim = false;
    for (int count = depth == 0 ? 1 : dice_.between(1, 4); count > 0 && left > 0; --count) {
      Measure size = count == 1 ? left : dice_.between(1, static_cast<int>(std::max(Measure{1}, left / 2)));
      if (size + job.blade >= left) size = left;
      const Measure wide = across ? width : size;
      const Measure high = across ? size : height;
      const bool is_all = parts.empty() && size == left;
      if (!is_all && !has_trim && dice_.one_in(5)) {
        parts.push_back(waste(wide, high));
        has_trim = true;
      } else if (!is_all) {
        parts.push_back(any(wide, high, !across, std::max(0, depth - 1)));
      }
      left -= size + job.blade;
    }
    if (parts.size() > 1) return across ? cut_across(parts, job.blade) : cut_down(parts, job.blade);
    job.kinds.push_back(pieces(1, width, height));
    return piece(width, height, job.kinds.size() - 1);
  }
};

// The same cuts in one order, whatever order they were in.
std::string in_one_order(const Part& part) {
  std::vector<std::string> inner;
  for (const Part& one : part.parts) inner.push_back(in_one_order(one));
  std::sort(inner.begin(), inner.end());
  Part bare = part;
  bare.parts.clear();
  bare.x = bare.y = 0;
  std::string all = told(bare) + "(";
  for (const std::string& one : inner) all += one;
  return all + ")";
}

}  // namespace

TEST_CASE("Trims that lie apart become one, with the cuts between them, behind the pieces") {
  Part strip = cut_down({waste(3, 5), piece(4, 5), waste(2, 5), piece(4, 5), waste(1, 5)}, 1);
  join_waste(strip, 1);
  REQUIRE(strip.parts.size() == 3);
  CHECK(strip.parts[2].what == Part::What::waste);
  CHECK(strip.parts[2].width == 3 + 1 + 2 + 1 + 1);
  CHECK(strip.parts[2].height == 5);

  Part column = cut_across({waste(6, 2), waste(6, 3), piece(6, 1)}, 0);
  join_waste(column, 0);
  REQUIRE(column.parts.size() == 2);
  CHECK(column.parts[1].height == 5);
}

TEST_CASE("A part of which nothing but trims is left is a trim itself") {
  Part strip = cut_down({waste(3, 5), waste(2, 5)}, 2);
  join_waste(strip, 2);
  CHECK(strip.what == Part::What::waste);
  CHECK(strip.parts.empty());
  CHECK(strip.width == 7);
  Part whole = piece(4, 4);
  join_waste(whole, 0);
  CHECK(whole.what == Part::What::piece);
}

TEST_CASE("No more pieces are kept than are wanted, and those that are not leave paper that can be cut") {
  for (unsigned seed = 1; seed <= 500; ++seed) {
    RandomTree tree(seed);
    REQUIRE(judged_sheet(tree.root, tree.job, 0) == sound);
    std::vector<int> wanted;
    for (std::size_t k = 0; k < tree.job.kinds.size(); ++k) wanted.push_back(tree.dice().between(0, 2));
    std::vector<int> left = wanted;
    give_up_pieces(tree.root, left, tree.job.blade);
    INFO(seed << ": " << told(tree.root));
    CHECK(judged_sheet(tree.root, tree.job, 0) == sound);
    const std::vector<int> kept = counts_in(tree.root, tree.job);
    for (std::size_t k = 0; k < wanted.size(); ++k) {
      CHECK(kept[k] == std::min(1, wanted[k]));
      CHECK(left[k] == wanted[k] - kept[k]);
    }
  }
}

TEST_CASE("Of six pieces of a kind four are kept") {
  const Part row = cut_down(so_many(3, piece(4, 5)));
  Part root = cut_across({row, row});
  std::vector<int> wanted{4};
  give_up_pieces(root, wanted, 0);
  CHECK(wanted == std::vector{0});
  const Job job{{sheet(12, 10)}, {pieces(4, 4, 5)}};
  CHECK(judged_sheet(root, job, 0) == sound);
  CHECK(counts_in(root, job) == std::vector{4});
}

TEST_CASE("Limits are kept where every trim is wide enough and every cut short enough") {
  int kept = 0;
  int broken = 0;
  for (unsigned seed = 1; seed <= 2000; ++seed) {
    RandomTree tree(seed);
    tree.job.sliver = tree.dice().between(0, 4);
    tree.job.longest = tree.dice().one_in(2) ? tree.dice().between(15, 40) : 0;
    INFO(told(tree.root) << " | " << told(tree.job));
    const bool keeps = judged_sheet(tree.root, tree.job, 0) == sound;
    CHECK(keeps_limits(tree.root, tree.job) == keeps);
    ++(keeps ? kept : broken);
  }
  CHECK(kept > 300);
  CHECK(broken > 300);
}

TEST_CASE("A tree that does not add up keeps no limits") {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    RandomTree tree(seed);
    std::vector<Part*> all;
    each_part(tree.root, [&](Part& part) { all.push_back(&part); });
    if (all.size() == 1) continue;
    Part& one = *all[static_cast<std::size_t>(tree.dice().between(1, static_cast<int>(all.size()) - 1))];
    (tree.dice().one_in(2) ? one.width : one.height) += tree.dice().one_in(2) ? 1 : -1;
    INFO(told(tree.root));
    CHECK_FALSE(keeps_limits(tree.root, tree.job));
  }
}

TEST_CASE("The order of parts does not show in a signature") {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    RandomTree tree(seed);
    const std::vector<Measure> before = signature(tree.root);
    tree.shuffle();
    CHECK(signature(tree.root) == before);
  }
}

// Sheets so small that many are cut alike.
TEST_CASE("Two trees have one signature only if they are the same cuts") {
  std::vector<Part> trees;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    RandomTree tree(seed, 3, 4);
    if (tree.job.blade > 0) continue;
    // Pieces of one size are one kind.
    each_part(tree.root, [](Part& part) {
      if (part.what == Part::What::piece) part.kind = static_cast<std::size_t>(part.width * 10 + part.height);
    });
    trees.push_back(tree.root);
  }
  int alike = 0;
  for (const Part& one : trees) {
    for (const Part& other : trees) {
      const bool same = in_one_order(one) == in_one_order(other);
      if ((signature(one) == signature(other)) != same) FAIL(told(one) + " and " + told(other));
      alike += same && &one != &other ? 1 : 0;
    }
  }
  CHECK(alike > 100);
}
