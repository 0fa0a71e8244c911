// What tests of planning share: jobs, small ones made up at random, and a check of every plan and cut tree
// that knows nothing of how it was found. What tries every cut is in every_cut.h.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "solver/cutting/job.h"
#include "solver/cutting/part.h"
#include "solver/cutting/plan_sheets.h"
#include "tests/catch.h"
#include "tests/solver/dice.h"

namespace evenmat::testing {

using cutting::Job;
using cutting::Kind;
using cutting::Layout;
using cutting::Measure;
using cutting::Part;
using cutting::Sheet;
using cutting::SheetPlan;

inline Sheet sheet(Measure width, Measure height, std::optional<int> have = {}, std::int64_t cost = 1) {
  return {width, height, have, cost, false};
}
inline Sheet offcut(Measure width, Measure height, int have) { return {width, height, have, 0, true}; }
inline Kind pieces(int count, Measure width, Measure height) {
  Kind kind;
  kind.width = width;
  kind.height = height;
  kind.count = count;
  return kind;
}
inline Kind upright(Kind kind) {
  kind.turned = false;
  return kind;
}

inline std::vector<int> counts_of(const Job& job) {
  std::vector<int> counts;
  for (const Kind& kind : job.kinds) counts.push_back(kind.count);
  return counts;
}

// A job as a line, for messages: "5x7 have 2 cost 3, ... | 3 of 2x4 upright, ... | blade 1, ...".
inline std::string told(const Job& job) {
  std::string text;
  const auto size = [](Measure width, Measure height) {
    return std::to_string(width) + "x" + std::to_string(height);
  };
  for (const Sheet& one : job.sheets) {
    text += size(one.width, one.height) + (one.have ? " have " + std::to_string(*one.have) : "") + " cost " +
            std::to_string(one.cost) + (one.offcut ? " offcut, " : ", ");
  }
  text += "| ";
  for (const Kind& kind : job.kinds) {
    text += std::to_string(kind.count) + " of " + size(kind.width, kind.height) +
            (!kind.turned ? " upright" : "") + (!kind.upright ? " turned" : "") +
            (!kind.from_offcuts ? " from no offcut, " : ", ");
  }
  return text + "| blade " + std::to_string(job.blade) + ", sliver " + std::to_string(job.sliver) +
         ", longest " + std::to_string(job.longest);
}

// The same cuts in the same order, for comparing plans.
inline std::string told(const Part& part) {
  const auto text = [](auto number) { return std::to_string(number) + " "; };
  std::string all = part.what == Part::What::cut     ? (part.across ? "across " : "down ")
                    : part.what == Part::What::piece ? "piece " + text(part.kind)
                                                     : "waste ";
  all += text(part.x) + text(part.y) + text(part.width) + text(part.height) + (part.turned ? "turned " : "");
  for (const Part& one : part.parts) all += told(one);
  return part.parts.empty() ? all : all + "; ";
}
inline std::string told(const SheetPlan& plan) {
  std::string all = std::to_string(plan.cost) + " of at least " + std::to_string(plan.at_least) + "\n";
  for (const Layout& layout : plan.layouts) {
    all += std::to_string(layout.times) + " of sheet " + std::to_string(layout.sheet) + ": " +
           told(layout.root) + "\n";
  }
  return all;
}

// Whether what a cut leaves may be so wide, if no piece comes of it. With a blade it may be nothing at all,
// if slivers do not matter.
inline bool may_be_trim(Measure width, const Job& job) {
  return width >= job.sliver && (width > 0 || job.blade > 0);
}

inline const std::string sound = "sound";

// `sound`, or what is wrong with a cut tree. `on` is the stock that it is of, its size the root's.
inline std::string judged(const Part& part, const Job& job, const Sheet& on) {
  const std::string here = told(part);
  if (part.width < 0 || part.height < 0) return "less than nothing: " + here;
  if (part.what != Part::What::cut) {
    if (!part.parts.empty()) return "parts of what is not cut: " + here;
    if (part.what == Part::What::waste) return sound;
    if (part.kind >= job.kinds.size()) return "no such kind: " + here;
    const Kind& kind = job.kinds[part.kind];
    if (!(part.turned ? kind.turned : kind.upright)) return "lies as it may not: " + here;
    const bool fits = part.turned ? part.width == kind.height && part.height == kind.width
                                  : part.width == kind.width && part.height == kind.height;
    if (!fits) return "not of its size: " + here;
    return on.offcut && !kind.from_offcuts ? "from an offcut: " + here : sound;
  }
  if (part.parts.size() < 2) return "cut into one: " + here;
  if (job.longest > 0 && (part.across ? part.width : part.height) > job.longest) return "too long: " + here;
  if (std::count_if(part.parts.begin(), part.parts.end(),
                    [](const Part& one) { return one.what == Part::What::waste; }) > 1)
    return "more than one trim: " + here;
  Measure x = part.x;
  Measure y = part.y;
  for (const Part& one : part.parts) {
    if (one.x != x || one.y != y) return "not where it lies: " + told(one) + " in " + here;
    if (part.across ? one.width != part.width : one.height != part.height)
      return "not edge to edge: " + told(one) + " in " + here;
    if (one.what == Part::What::cut && one.across == part.across) return "cut the same way: " + here;
    if (one.what == Part::What::waste && !may_be_trim(part.across ? one.height : one.width, job))
      return "a sliver: " + here;
    if (std::string fault = judged(one, job, on); fault != sound) return fault;
    (part.across ? y : x) += (part.across ? one.height : one.width) + job.blade;
  }
  if (part.across ? y != part.y + part.height + job.blade : x != part.x + part.width + job.blade)
    return "does not add up: " + here;
  return sound;
}

// Of a whole sheet.
inline std::string judged_sheet(const Part& root, const Job& job, std::size_t on) {
  const Sheet& stock = job.sheets.at(on);
  if (root.x != 0 || root.y != 0 || root.width != stock.width || root.height != stock.height)
    return "not of the sheet's size: " + told(root);
  return judged(root, job, stock);
}

inline void gather_pieces(const Part& part, std::vector<Part>& out) {
  if (part.what == Part::What::piece) out.push_back(part);
  for (const Part& one : part.parts) gather_pieces(one, out);
}
inline std::vector<Part> pieces_of(const Part& root) {
  std::vector<Part> out;
  gather_pieces(root, out);
  return out;
}
inline std::vector<int> counts_in(const Part& root, const Job& job) {
  std::vector<int> counts(job.kinds.size(), 0);
  for (const Part& piece : pieces_of(root)) ++counts.at(piece.kind);
  return counts;
}

inline std::vector<int> plus(std::vector<int> counts, const std::vector<int>& more, int times = 1) {
  for (std::size_t k = 0; k < counts.size(); ++k) counts[k] += times * more.at(k);
  return counts;
}

inline bool lie_apart(const Part& a, const Part& b, Measure blade) {
  return a.x + a.width + blade <= b.x || b.x + b.width + blade <= a.x || a.y + a.height + blade <= b.y ||
         b.y + b.height + blade <= a.y;
}

// `sound`, or what is wrong with a plan: pieces exactly those asked, trees sound, no more sheets than there
// are, the cost theirs and not below the bound.
inline std::string judged(const SheetPlan& plan, const Job& job) {
  std::vector<int> given(job.kinds.size(), 0);
  std::vector<int> used(job.sheets.size(), 0);
  std::int64_t cost = 0;
  for (const Layout& layout : plan.layouts) {
    if (layout.times < 1) return "a layout cut no times";
    if (std::string fault = judged_sheet(layout.root, job, layout.sheet); fault != sound) return fault;
    const std::vector<Part> lying = pieces_of(layout.root);
    if (lying.empty()) return "a sheet for nothing";
    for (std::size_t i = 0; i < lying.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (!lie_apart(lying[i], lying[j], job.blade))
          return "over one another: " + told(lying[i]) + told(lying[j]);
      }
    }
    given = plus(given, counts_in(layout.root, job), layout.times);
    used[layout.sheet] += layout.times;
    cost += layout.times * job.sheets[layout.sheet].cost;
  }
  if (given != counts_of(job)) return "not the pieces asked for";
  for (std::size_t s = 0; s < used.size(); ++s) {
    if (job.sheets[s].have && used[s] > *job.sheets[s].have) return "more sheets than there are";
  }
  if (cost != plan.cost) return "another cost";
  if (plan.at_least > plan.cost) return "a bound above the cost";
  return sound;
}

// Planned with little effort, and checked.
inline std::optional<SheetPlan> planned(const Job& job, std::int64_t looks = 200'000) {
  INFO(told(job));
  cutting::Effort effort;
  effort.looks = looks;
  std::optional<SheetPlan> plan = cutting::plan_sheets(job, effort);
  if (plan) {
    INFO(told(*plan));
    CHECK(judged(*plan, job) == sound);
    CHECK_FALSE(plan->time_ran_out);
  }
  return plan;
}

// What may be asked for, all at small sizes. Pieces are no narrower than a trim must be.
struct SmallJobs {
  int sizes = 2;        // of sheets, at most
  int largest = 12;     // side of a sheet
  int kinds = 4;        // at most
  int count = 9;        // pieces, at most
  bool limits = true;   // slivers, lengths of cuts
  bool limited = true;  // sheets in numbers, offcuts
};
inline Job small_job(Dice& dice, const SmallJobs& of = {}) {
  Job job;
  job.blade = dice.one_in(3) ? dice.between(1, 2) : 0;
  job.sliver = of.limits && dice.one_in(2) ? dice.between(1, 3) : 0;
  job.longest = of.limits && dice.one_in(3) ? dice.between(of.largest / 2, of.largest) : 0;
  const int shortest = std::max(1, static_cast<int>(job.sliver));
  for (int count = dice.between(1, of.sizes); count > 0; --count) {
    job.sheets.push_back(sheet(dice.between(4, of.largest), dice.between(4, of.largest)));
    job.sheets.back().cost = of.limited && dice.one_in(2) ? dice.between(1, 5) : 1;
    if (of.limited && dice.one_in(3)) job.sheets.back().have = dice.between(1, 3);
  }
  if (of.limited && dice.one_in(3))
    job.sheets.push_back(offcut(dice.between(3, 8), dice.between(3, 8), dice.between(1, 2)));
  int left = of.count;
  for (int count = dice.between(1, of.kinds); count > 0 && left > 0; --count) {
    const auto side = [&] { return dice.between(shortest, std::max(shortest + 1, of.largest / 2)); };
    const int width = side();
    const int height = side();
    Kind kind = pieces(dice.between(1, std::min(left, 5)), width, height);
    if (dice.one_in(4)) kind.turned = false;
    if (dice.one_in(8)) std::swap(kind.upright, kind.turned);
    if (!kind.upright && !kind.turned) kind.turned = true;
    kind.from_offcuts = !dice.one_in(4);
    left -= kind.count;
    job.kinds.push_back(kind);
  }
  return job;
}

}  // namespace evenmat::testing
