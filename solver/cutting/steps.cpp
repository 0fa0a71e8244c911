// From cut trees in cutting order to steps: which setting of the trimmer is next, and what is cut at it. The
// order of parts within what is cut is settled before; nothing here changes it.
#include "solver/cutting/steps.h"

#include <algorithm>
#include <tuple>

namespace evenmat::cutting {

namespace {

// How soon bases come of a cut.
enum class Bases { now, later, none };

// A rectangle to be cut: what is left of a part once all of its parts before `next` are off. The cuts that
// follow each other at one setting are those that take off the parts from `next` to before `end`.
struct InHand {
  std::size_t layout = 0;
  const Part* of = nullptr;
  std::size_t next = 0, end = 0;
  Measure x = 0, y = 0, width = 0, height = 0;
  Measure set = 0;
  Bases bases = Bases::none;

  [[nodiscard]] bool ends() const { return end + 1 == of->parts.size(); }
};

bool gives_any(const Part& of, std::size_t from, std::size_t to, const std::vector<bool>& kinds) {
  for (std::size_t i = from; i < to; ++i) {
    if (gives_any(of.parts[i], kinds)) return true;
  }
  return false;
}

// What is left of a part from one of its parts on.
InHand left_of(std::size_t layout, const Part& of, std::size_t next, const std::vector<bool>& first) {
  InHand left{layout, &of, next, next, of.x, of.y, of.width, of.height};
  const Part& part = of.parts[next];
  if (of.across) {
    left.y = part.y;
    left.height -= part.y - of.y;
  } else {
    left.x = part.x;
    left.width -= part.x - of.x;
  }
  left.set = reach(part, of.across);
  while (!left.ends() && reach(of.parts[left.end], of.across) == left.set) ++left.end;
  if (gives_any(of, next, left.end + (left.ends() ? 1 : 0), first)) {
    left.bases = Bases::now;
  } else if (gives_any(of, left.end, of.parts.size(), first)) {
    left.bases = Bases::later;
  }
  return left;
}

// Smallest first: what is to be cut next.
auto urgency(const InHand& one) { return std::tuple(one.bases, -std::max(one.width, one.height), -one.set); }

void add_yield(const Yield& yield, std::vector<Yield>& yields) {
  if (yield.width == 0 || yield.height == 0) return;
  for (Yield& other : yields) {
    if (other.what == yield.what && other.width == yield.width && other.height == yield.height &&
        other.kind == yield.kind) {
      other.count += yield.count;
      return;
    }
  }
  yields.push_back(yield);
}

Yield as_yield(const Part& part, int times) {
  switch (part.what) {
    case Part::What::piece:
      return {Yield::What::piece, part.width, part.height, part.kind, times};
    case Part::What::waste:
      return {Yield::What::leftover, part.width, part.height, 0, times};
    case Part::What::cut:
      break;
  }
  return {Yield::What::strip, part.width, part.height, 0, times};
}

bool alike(const Yield& a, const Yield& b) {
  return a.what == b.what && a.width == b.width && a.height == b.height && a.kind == b.kind &&
         a.count == b.count;
}

bool alike(const StepWork& a, const StepWork& b) {
  return a.layout == b.layout && a.across == b.across && alike(a.from, b.from) &&
         std::equal(a.yields.begin(), a.yields.end(), b.yields.begin(), b.yields.end(),
                    [](const Yield& one, const Yield& other) { return alike(one, other); });
}

// Works that are done at one time and setting: those that are alike become one.
class AtOneTime {
 public:
  void add(const StepWork& work) {
    for (auto& [one, so_often] : works_) {
      if (!alike(one, work)) continue;
      ++so_often;
      return;
    }
    works_.emplace_back(work, 1);
  }
  void append_to(std::vector<StepWork>& works) const {
    for (const auto& [one, so_often] : works_) {
      works.push_back(one);
      works.back().from.count *= so_often;
      for (Yield& yield : works.back().yields) yield.count *= so_often;
    }
  }

 private:
  std::vector<std::pair<StepWork, int>> works_;
};

class Bench {
 public:
  Bench(const std::vector<Layout>& layouts, const std::vector<bool>& first, Measure blade, Measure hold)
      : layouts_(layouts), first_(first), blade_(blade), hold_(hold) {
    work_.cuts.resize(layouts.size());
    for (std::size_t i = 0; i < layouts.size(); ++i) take_in_hand(i, layouts[i].root);
  }

  Work work() && {
    while (!in_hand_.empty()) do_step();
    return std::move(work_);
  }

 private:
  void take_in_hand(std::size_t layout, const Part& part) {
    if (part.what == Part::What::cut) in_hand_.push_back(left_of(layout, part, 0, first_));
  }

  void do_step() {
    const InHand next = *std::min_element(in_hand_.begin(), in_hand_.end(), [](const auto& a, const auto& b) {
      return urgency(a) < urgency(b);
    });
    Step step{work_.steps.size() + 1, next.set, {}};
    // What comes of this may want the same setting.
    while (true) {
      const auto wants_it = std::stable_partition(in_hand_.begin(), in_hand_.end(),
                                                  [&](const InHand& one) { return one.set != step.set; });
      std::vector<InHand> now(wants_it, in_hand_.end());
      in_hand_.erase(wants_it, in_hand_.end());
      if (now.empty()) break;
      std::sort(now.begin(), now.end(), [](const InHand& a, const InHand& b) {
        return std::tie(a.layout, a.y, a.x) < std::tie(b.layout, b.y, b.x);
      });
      AtOneTime works;
      for (const InHand& one : now) works.add(cut(one, step.number));
      works.append_to(step.works);
    }
    work_.steps.push_back(std::move(step));
  }

  // Cuts it as often as its setting serves, and takes in hand what is to be cut further.
  StepWork cut(const InHand& one, std::size_t step) {
    const std::vector<Part>& parts = one.of->parts;
    const int times = layouts_[one.layout].times;
    StepWork work;
    work.layout = one.layout;
    work.across = one.of->across;
    work.from = {Yield::What::strip, one.width, one.height, 0, times};
    work.cuts = static_cast<int>(one.end - one.next);
    StraightCut cut{one.x, one.y, one.width, one.height, one.of->across, one.set, step};
    for (std::size_t i = one.next; i < one.end; ++i) {
      work_.cuts[one.layout].push_back(cut);
      const Measure gone = one.set + blade_;
      (cut.across ? cut.y : cut.x) += gone;
      (cut.across ? cut.height : cut.width) -= gone;
      add_yield(as_yield(parts[i], times), work.yields);
      take_in_hand(one.layout, parts[i]);
    }
    // Of what is left over and a piece one holds the piece.
    const bool holds_other = one.ends() && parts[one.end].what == Part::What::waste && one.set >= hold_;
    work.hold = !holds_other && (cut.across ? cut.height : cut.width) < hold_;
    if (one.ends()) {
      add_yield(as_yield(parts[one.end], times), work.yields);
      take_in_hand(one.layout, parts[one.end]);
    } else {
      add_yield({Yield::What::strip, cut.width, cut.height, 0, times}, work.yields);
      in_hand_.push_back(left_of(one.layout, *one.of, one.end, first_));
    }
    return work;
  }

  const std::vector<Layout>& layouts_;
  const std::vector<bool>& first_;
  const Measure blade_, hold_;
  std::vector<InHand> in_hand_;
  Work work_;
};

}  // namespace

Work work_of(const std::vector<Layout>& layouts, const std::vector<bool>& first, Measure blade,
             Measure hold) {
  return Bench(layouts, first, blade, hold).work();
}

}  // namespace evenmat::cutting
