// What tests of whole cut plans share: planning a batch of cards, and a check of every plan that knows
// nothing of how it was found.
#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "solver/batch/trimmer.h"
#include "solver/cut_batch.h"
#include "tests/solver/gathered.h"

namespace evenmat::testing {

struct Box {
  Rational x, y, width, height;
  friend bool operator==(const Box&, const Box&) = default;
};
template <typename Lying>
Box box_of(const Lying& lying) {
  return {lying.x, lying.y, lying.width, lying.height};
}
inline bool overlap(const Box& a, const Box& b) {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

// Makes every cut with a ruler of its own: each is of something in hand, and what is in hand in the end are
// the pieces and the leftovers, and nothing else.
inline void check_cuts(const LaidSheet& laid, const CutSheet& stock, const batch::BatchTrimmer& trimmer) {
  std::vector<Box> in_hand{{0, 0, stock.size.width, stock.size.height}};
  for (const SheetCut& cut : laid.cuts) {
    const auto found = std::find(in_hand.begin(), in_hand.end(), box_of(cut));
    REQUIRE(found != in_hand.end());
    Box off = *found;
    Box rest = *found;
    in_hand.erase(found);
    CHECK((cut.across ? off.width : off.height) <= trimmer.longest);
    const Rational gone = cut.at + trimmer.blade_loss;
    if (cut.across) {
      off.height = cut.at;
      rest.y += gone;
      rest.height -= gone;
    } else {
      off.width = cut.at;
      rest.x += gone;
      rest.width -= gone;
    }
    CHECK(cut.at > 0);
    in_hand.push_back(off);
    if (rest.width > 0 && rest.height > 0) in_hand.push_back(rest);
  }
  for (const LaidPiece& piece : laid.pieces) {
    const auto found = std::find(in_hand.begin(), in_hand.end(), box_of(piece));
    REQUIRE(found != in_hand.end());
    in_hand.erase(found);
  }
  for (const Leftover& left : laid.leftovers) {
    const auto found = std::find(in_hand.begin(), in_hand.end(), box_of(left));
    REQUIRE(found != in_hand.end());
    in_hand.erase(found);
    CHECK(std::min(left.width, left.height) >= trimmer.sliver);
  }
  CHECK(in_hand.empty());
}

inline void check_layout(const LaidSheet& laid, const PaperPlan& plan, const batch::BatchTrimmer& trimmer) {
  const CutSheet& stock = plan.stock.at(laid.sheet);
  check_cuts(laid, stock, trimmer);
  Rational area = 0;
  for (std::size_t i = 0; i < laid.pieces.size(); ++i) {
    const LaidPiece& piece = laid.pieces[i];
    const CutPiece& kind = plan.pieces.at(piece.kind);
    CHECK((piece.turned ? kind.turned : kind.upright));
    CHECK((piece.turned ? Size{piece.height, piece.width} : Size{piece.width, piece.height}) == kind.size);
    CHECK(piece.x >= 0);
    CHECK(piece.y >= 0);
    CHECK(piece.x + piece.width <= stock.size.width);
    CHECK(piece.y + piece.height <= stock.size.height - stock.trim_first);
    for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(box_of(piece), box_of(laid.pieces[j])));
    if (stock.is_offcut()) {
      for (const PieceUse& use : kind.uses) CHECK_FALSE(use.base);
    }
    area += piece.width * piece.height;
  }
  CHECK(laid.used == area / (stock.size.width * stock.size.height));
  if (trimmer.blade_loss == 0) {
    for (const Leftover& left : laid.leftovers) area += left.width * left.height;
    CHECK(area == stock.size.width * stock.size.height);
  }
  int times = 0;
  for (const LabelledRun& run : laid.runs) {
    times += run.times;
    CHECK(run.uses.size() == laid.pieces.size());
  }
  CHECK(times == laid.times);
}

// Every use gets as many pieces as it wants, and no stack is used up further than it goes.
inline void check_counts(const PaperPlan& plan) {
  std::map<std::pair<std::size_t, std::size_t>, int> given;
  std::vector<int> used(plan.stock.size());
  int sheets = 0;
  Rational cost = 0;
  for (const LaidSheet& laid : plan.plan) {
    used.at(laid.sheet) += laid.times;
    const CutSheet& stock = plan.stock[laid.sheet];
    if (!stock.is_offcut()) sheets += laid.times;
    if (!stock.is_offcut()) cost += stock.cost.value_or(Rational(0)) * laid.times;
    for (const LabelledRun& run : laid.runs) {
      for (std::size_t i = 0; i < run.uses.size(); ++i)
        given[{laid.pieces[i].kind, run.uses[i]}] += run.times;
    }
  }
  for (std::size_t kind = 0; kind < plan.pieces.size(); ++kind) {
    for (std::size_t use = 0; use < plan.pieces[kind].uses.size(); ++use)
      CHECK(given[{kind, use}] == plan.pieces[kind].uses[use].count);
  }
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (plan.stock[i].have) CHECK(used[i] <= *plan.stock[i].have);
  }
  CHECK(plan.sheets == sheets);
  CHECK(plan.at_least <= plan.sheets);
  if (plan.cost) {
    CHECK(*plan.cost == cost);
    CHECK(*plan.cost_at_least <= cost);
    CHECK(plan.proven == (*plan.cost_at_least == cost));
  } else {
    CHECK(plan.proven == (plan.at_least == plan.sheets));
  }
}

// The steps make the cuts of all sheets: each at the setting of its step, and as many.
inline void check_steps(const PaperPlan& plan) {
  std::map<std::size_t, Rational> set;
  int made = 0;
  for (const CutStep& step : plan.steps) {
    CHECK(step.number == set.size() + 1);
    set[step.number] = step.set;
    for (const SheetWork& work : step.works) made += work.from.count * work.cuts;
  }
  int wanted = 0;
  for (const LaidSheet& laid : plan.plan) {
    for (const SheetCut& cut : laid.cuts) {
      REQUIRE(set.contains(cut.step));
      CHECK(set[cut.step] == cut.at);
      wanted += laid.times;
    }
  }
  CHECK(made == wanted);
}

inline void check_plan(const CutBatch& cut, const Batch& batch) {
  const batch::BatchTrimmer trimmer = batch::trimmer_of(batch.cards);
  for (const PaperPlan& plan : cut.papers) {
    INFO(plan.paper);
    if (plan.plan.empty()) {
      CHECK_FALSE((plan.missing.empty() && plan.trouble.empty()));
      continue;
    }
    for (const LaidSheet& laid : plan.plan) check_layout(laid, plan, trimmer);
    check_counts(plan);
    check_steps(plan);
  }
}

// Planned and checked.
inline CutBatch cut_up(const Batch& batch) {
  CHECK(batch.mistakes().empty());
  CutBatch cut = cut_batch(batch.cards, batch.more, batch.options);
  check_plan(cut, batch);
  return cut;
}
inline CutBatch cut_up(const std::string& text) { return cut_up(Batch(text)); }

inline const PaperPlan& plan_of(const CutBatch& cut, const std::string& paper) {
  const auto found = std::find_if(cut.papers.begin(), cut.papers.end(),
                                  [&](const PaperPlan& plan) { return plan.paper == paper; });
  INFO(paper);
  REQUIRE(found != cut.papers.end());
  return *found;
}

// "3 of A from 17/2 x 11" for each layout.
inline Told told(const PaperPlan& plan) {
  Told all;
  for (const LaidSheet& laid : plan.plan) {
    const Size& size = plan.stock[laid.sheet].size;
    all.push_back(std::to_string(laid.times) + " of " + laid.letter + " from " + fraction_text(size.width) +
                  " x " + fraction_text(size.height));
  }
  return all;
}

// The base is of another paper, or of none.
inline const std::string bare_base = "[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n";
inline std::string base_of(const std::string& paper) { return bare_base + "paper = \"" + paper + "\"\n"; }
inline std::string batch_of(int cards) { return "cards = " + std::to_string(cards) + "\n"; }
inline std::string layer_of(const std::string& paper, const std::string& name, const std::string& size,
                            const std::string& keys = "") {
  return layer(name, "front", "paper = \"" + paper + "\"\nsize = \"" + size + "\"\n" + keys);
}
inline std::string letters_of(const std::string& name, const std::string& keys = "") {
  return paper(name, "sheet = \"8 1/2 x 11\"\n" + keys);
}

}  // namespace evenmat::testing
