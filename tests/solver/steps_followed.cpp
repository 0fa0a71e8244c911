// The work of any paper as steps of a trimmer. A hand that knows nothing but sizes follows every step, and a
// hand that knows where things lie every cut: what they end up with must be what the sheets were to give.
#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "solver/cutting/steps.h"
#include "tests/catch.h"
#include "tests/solver/cut_trees.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::put_in_cutting_order;
using cutting::Step;
using cutting::StepWork;
using cutting::StraightCut;
using cutting::Work;
using cutting::work_of;
using cutting::Yield;

namespace {

using What = Yield::What;
using Listed = std::tuple<What, Measure, Measure, std::size_t>;
using Pile = std::map<Listed, int>;
using Size = std::pair<Measure, Measure>;

struct Box {
  Measure x = 0, y = 0, width = 0, height = 0;
  bool operator==(const Box&) const = default;
  bool operator<(const Box& other) const {
    return std::tie(x, y, width, height) < std::tie(other.x, other.y, other.width, other.height);
  }
  [[nodiscard]] bool contains(const Box& other) const {
    return x <= other.x && y <= other.y && other.x + other.width <= x + width &&
           other.y + other.height <= y + height;
  }
};

// Pieces and what is left of them, of all sheets of a layout.
void add_leaves(const Part& part, int times, Pile& pile) {
  for (const Part& inner : part.parts) add_leaves(inner, times, pile);
  if (part.what == Part::What::cut || part.width * part.height == 0) return;
  const bool is_piece = part.what == Part::What::piece;
  pile[{is_piece ? What::piece : What::leftover, part.width, part.height, is_piece ? part.kind : 0}] += times;
}

template <typename Visit>
void for_all_leaves(const Part& part, const Visit& visit) {
  if (part.what != Part::What::cut) visit(part, Box{part.x, part.y, part.width, part.height});
  for (const Part& inner : part.parts) for_all_leaves(inner, visit);
}

// What every layout gives when its steps are followed, knowing of each rectangle in hand only its size.
std::vector<Pile> follow(const std::vector<Step>& steps, const std::vector<Layout>& layouts, Measure blade,
                         Measure hold) {
  std::vector<Pile> done(layouts.size());
  std::vector<std::map<Size, int>> in_hand(layouts.size());
  for (std::size_t i = 0; i < layouts.size(); ++i) {
    const Part& root = layouts[i].root;
    if (root.what == Part::What::cut) {
      in_hand[i][{root.width, root.height}] = layouts[i].times;
    } else {
      add_leaves(root, layouts[i].times, done[i]);
    }
  }
  std::size_t number = 0;
  for (const Step& step : steps) {
    CHECK(step.number == ++number);
    CHECK(step.set > 0);
    CHECK_FALSE(step.works.empty());
    for (const StepWork& work : step.works) {
      int& there = in_hand[work.layout][{work.from.width, work.from.height}];
      CHECK(work.from.what == What::strip);
      CHECK(work.from.count > 0);
      CHECK(work.from.count <= there);
      there -= work.from.count;
      // With the trimmer.
      std::map<Size, int> cut;
      Size rest{work.from.width, work.from.height};
      Measure& along = work.across ? rest.second : rest.first;
      CHECK(work.cuts > 0);
      for (int i = 0; i < work.cuts; ++i) {
        CHECK(along >= step.set + blade);
        along = step.set;
        cut[rest] += work.from.count;
        along = (work.across ? work.from.height : work.from.width) - (i + 1) * (step.set + blade);
      }
      // Of a piece and a mere rest one holds the piece.
      const bool rest_is_left =
          along == 0 || std::any_of(work.yields.begin(), work.yields.end(), [&](const Yield& yield) {
            return yield.what == What::leftover && Size(yield.width, yield.height) == rest;
          });
      CHECK(work.hold == (along < hold && !(rest_is_left && step.set >= hold)));
      if (along > 0) cut[rest] += work.from.count;
      // As it is told.
      std::map<Size, int> told;
      std::set<Listed> listed;
      for (const Yield& yield : work.yields) {
        told[{yield.width, yield.height}] += yield.count;
        CHECK(listed.emplace(yield.what, yield.width, yield.height, yield.kind).second);
        if (yield.what == What::strip) {
          in_hand[work.layout][{yield.width, yield.height}] += yield.count;
        } else {
          done[work.layout][{yield.what, yield.width, yield.height, yield.kind}] += yield.count;
        }
      }
      CHECK(told == cut);
    }
  }
  for (const auto& strips : in_hand) {
    for (const auto& [size, count] : strips) CHECK(count == 0);
  }
  return done;
}

// The cuts of one sheet in the order made; what is in hand is known by where it lies.
class OneSheet {
 public:
  OneSheet(const Part& root, const std::vector<StraightCut>& cuts)
      : cuts_(cuts), in_hand_{Box{root.x, root.y, root.width, root.height}} {}

  [[nodiscard]] bool is_done() const { return next_ == cuts_.size(); }
  [[nodiscard]] const StraightCut& next() const { return cuts_[next_]; }
  static Box of(const StraightCut& cut) { return {cut.x, cut.y, cut.width, cut.height}; }

  void make_cut(Measure blade) {
    const StraightCut& cut = cuts_[next_++];
    const Box box = of(cut);
    REQUIRE(in_hand_.erase(box) == 1);
    const Measure length = cut.across ? cut.height : cut.width;
    CHECK(cut.at > 0);
    CHECK(cut.at + blade <= length);
    Box off = box, rest = box;
    (cut.across ? off.height : off.width) = cut.at;
    (cut.across ? rest.y : rest.x) += cut.at + blade;
    (cut.across ? rest.height : rest.width) -= cut.at + blade;
    in_hand_.insert(off);
    if (rest.width > 0 && rest.height > 0) in_hand_.insert(rest);
  }

  [[nodiscard]] const std::set<Box>& in_hand() const { return in_hand_; }

  // Of what is in hand, what will be cut next from it.
  [[nodiscard]] std::vector<StraightCut> wanted() const {
    std::vector<StraightCut> found;
    for (std::size_t i = next_; i < cuts_.size(); ++i) {
      if (in_hand_.count(of(cuts_[i])) > 0) found.push_back(cuts_[i]);
    }
    return found;
  }

 private:
  const std::vector<StraightCut>& cuts_;
  std::set<Box> in_hand_;
  std::size_t next_ = 0;
};

struct Worked : CutTrees {
  explicit Worked(unsigned seed) : CutTrees(seed) {
    put_in_cutting_order(layouts, first, blade, hold);
    work = work_of(layouts, first, blade, hold);
    REQUIRE(work.cuts.size() == layouts.size());
  }

  [[nodiscard]] std::vector<OneSheet> sheets() const {
    std::vector<OneSheet> all;
    for (std::size_t i = 0; i < layouts.size(); ++i) all.emplace_back(layouts[i].root, work.cuts[i]);
    return all;
  }

  // Whether bases come of what is cut.
  [[nodiscard]] bool holds_bases(std::size_t layout, const StraightCut& cut) const {
    bool found = false;
    for_all_leaves(layouts[layout].root, [&](const Part& part, const Box& box) {
      found =
          found || (part.what == Part::What::piece && first[part.kind] && OneSheet::of(cut).contains(box));
    });
    return found;
  }

  Work work;
};

Measure longer_side(const StraightCut& cut) { return std::max(cut.width, cut.height); }

constexpr unsigned seeds = 500;

}  // namespace

TEST_CASE("who follows the steps of any work has exactly the pieces and leftovers that were planned") {
  for (unsigned seed = 1; seed <= seeds; ++seed) {
    INFO("seed " << seed);
    const Worked worked(seed);
    const std::vector<Pile> done = follow(worked.work.steps, worked.layouts, worked.blade, worked.hold);
    const std::vector<Layout> planned = CutTrees(seed).layouts;
    REQUIRE(done.size() == planned.size());
    for (std::size_t i = 0; i < planned.size(); ++i) {
      Pile wanted;
      add_leaves(planned[i].root, planned[i].times, wanted);
      CHECK(done[i] == wanted);
    }
  }
}

TEST_CASE("every cut runs from edge to edge of what is in hand, and the pieces lie where they were planned") {
  for (unsigned seed = 1; seed <= seeds; ++seed) {
    INFO("seed " << seed);
    const Worked worked(seed);
    std::vector<OneSheet> sheets = worked.sheets();
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      OneSheet& sheet = sheets[i];
      std::size_t step = 1;
      while (!sheet.is_done()) {
        CHECK(sheet.next().step >= step);
        step = sheet.next().step;
        REQUIRE(step <= worked.work.steps.size());
        CHECK(sheet.next().at == worked.work.steps[step - 1].set);
        sheet.make_cut(worked.blade);
      }
      std::set<Box> planned;
      for_all_leaves(worked.layouts[i].root, [&](const Part& part, const Box& box) {
        if (part.width * part.height > 0) planned.insert(box);
      });
      CHECK(sheet.in_hand() == planned);
    }
  }
}

TEST_CASE("steps and cuts say the same") {
  for (unsigned seed = 1; seed <= seeds; ++seed) {
    INFO("seed " << seed);
    const Worked worked(seed);
    std::map<std::tuple<std::size_t, std::size_t, bool>, int> by_steps, by_cuts;
    for (const Step& step : worked.work.steps) {
      for (const StepWork& work : step.works) {
        by_steps[{step.number, work.layout, work.across}] += work.cuts * work.from.count;
      }
    }
    for (std::size_t i = 0; i < worked.layouts.size(); ++i) {
      for (const StraightCut& cut : worked.work.cuts[i]) {
        by_cuts[{cut.step, i, cut.across}] += worked.layouts[i].times;
      }
    }
    CHECK(by_steps == by_cuts);
  }
}

TEST_CASE("in any work bases come first, then long strips, and nothing that wants a setting is left out") {
  std::size_t with_bases = 0, without = 0;
  for (unsigned seed = 1; seed <= seeds; ++seed) {
    INFO("seed " << seed);
    const Worked worked(seed);
    std::vector<OneSheet> sheets = worked.sheets();
    for (const Step& step : worked.work.steps) {
      bool bases_wait = false, bases_now = false;
      Measure longest = 0, longest_now = 0, largest = 0;
      for (std::size_t i = 0; i < sheets.size(); ++i) {
        for (const StraightCut& cut : sheets[i].wanted()) {
          const bool bases = worked.holds_bases(i, cut);
          bases_wait = bases_wait || bases;
          bases_now = bases_now || (bases && cut.at == step.set);
          if (longer_side(cut) > longest) largest = 0;
          longest = std::max(longest, longer_side(cut));
          if (longer_side(cut) == longest) largest = std::max(largest, cut.at);
          if (cut.at == step.set) longest_now = std::max(longest_now, longer_side(cut));
        }
      }
      CHECK(bases_now == bases_wait);
      if (!bases_wait) {
        CHECK(longest_now == longest);
        CHECK(largest == step.set);
      }
      ++(bases_wait ? with_bases : without);
      for (OneSheet& sheet : sheets) {
        while (!sheet.is_done() && sheet.next().step == step.number) sheet.make_cut(worked.blade);
        for (const StraightCut& cut : sheet.wanted()) CHECK(cut.at != step.set);
      }
    }
  }
  CHECK(with_bases > 100);
  CHECK(without > 100);
}

TEST_CASE("strips that are cut alike are cut as one work") {
  for (unsigned seed = 1; seed <= seeds; ++seed) {
    INFO("seed " << seed);
    for (const Step& step : Worked(seed).work.steps) {
      for (std::size_t i = 1; i < step.works.size(); ++i) {
        const StepWork& before = step.works[i - 1];
        const StepWork& work = step.works[i];
        if (before.layout != work.layout || before.from.width != work.from.width ||
            before.from.height != work.from.height || before.across != work.across ||
            before.cuts != work.cuts) {
          continue;
        }
        // Told apart by what they give, or by one being cut from what the other gives.
        const auto share = [](const StepWork& one) {
          std::map<Listed, int> each;
          for (const Yield& yield : one.yields) {
            each[{yield.what, yield.width, yield.height, yield.kind}] = yield.count / one.from.count;
          }
          return each;
        };
        CHECK(share(before) != share(work));
      }
    }
  }
}
