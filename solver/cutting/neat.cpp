#include "solver/cutting/neat.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <utility>

#include "solver/cutting/dice.h"
#include "solver/cutting/filled_sheet.h"
#include "solver/cutting/steps.h"
#include "solver/cutting/tree_shape.h"

namespace evenmat::cutting {
namespace {

constexpr int tries_a_sheet = 200;
constexpr int tries_in_vain = 60;          // to get all pieces in at all
constexpr std::size_t most_layouts = 60;   // of which each is looked at by itself
constexpr std::int64_t most_pieces = 400;  // on a sheet

__extension__ using Wide = __int128;  // areas times numbers
using Settings = std::set<Measure>;
using Counts = std::vector<int>;

// Like pieces beside and below one another.
struct Block {
  std::size_t kind = 0;
  bool turned = false;
  int columns = 1, rows = 1;
};

struct Neatness {
  std::size_t settings = std::numeric_limits<std::size_t>::max();  // that were not made before
  std::int64_t cuts = 0;
  std::size_t sets =
      0;  // how often the trimmer is set, if all parts that came of as many cuts are cut together
  std::int64_t left = 0;  // less than nothing, as in Trouble
  friend auto operator<=>(const Neatness&,
                          const Neatness&) = default;  // NOLINT(modernize-use-nullptr): none here
};

// How often parts were cut to have such in hand, and the setting at which they are cut.
using Sets = std::set<std::pair<int, Measure>>;

void look_at(const Part& part, int depth, Settings& settings, Sets& sets, Neatness& neatness) {
  if (part.what == Part::What::waste) neatness.left = std::min(neatness.left, -part.width * part.height);
  if (part.what != Part::What::cut) return;
  neatness.cuts += static_cast<std::int64_t>(part.parts.size()) - 1;
  // What stays in hand last needs no setting: what is left, or else a size that is there once.
  std::map<Measure, int> sizes;
  const bool some_left = part.parts.back().what == Part::What::waste;
  for (const Part& one : part.parts) {
    if (one.what != Part::What::waste) ++sizes[reach(one, part.across)];
    look_at(one, depth + 1, settings, sets, neatness);
  }
  Measure spared = 0;
  for (const auto& [size, count] : sizes) {
    if (!some_left && count == 1 && !settings.contains(size)) spared = size;
  }
  for (const auto& [size, count] : sizes) {
    if (size == spared) continue;
    settings.insert(size);
    sets.emplace(depth, size);
  }
}

Neatness neatness_of(const Part& tree, const Settings& known, Settings* made) {
  Settings all = known;
  Neatness neatness;
  Sets sets;
  look_at(tree, 0, all, sets, neatness);
  neatness.sets = sets.size();
  neatness.settings = all.size() - known.size();
  if (made != nullptr) *made = std::move(all);
  return neatness;
}

class Sheetful {
 public:
  Sheetful(const Job& job, std::size_t sheet, Counts counts)
      : job_(job), sheet_(sheet), counts_(std::move(counts)), limits_(limits_of(job)) {}

  // The neatest of many ways to cut the sheet into these pieces, if any was found.
  std::optional<Part> neatest(const Settings& known) {
    std::optional<Part> best;
    Neatness least;
    Dice dice(1);
    for (int i = 0; i < tries_a_sheet && (best || i < tries_in_vain); ++i) {
      auto tree = attempt(dice);
      if (!tree) continue;
      Part strips = in_whole_strips(*tree);
      place_parts(strips, job_.blade);
      for (Part* one : {&strips, &*tree}) {
        const Neatness neatness = neatness_of(*one, known, nullptr);
        if ((best && neatness >= least) || !keeps_limits(*one, job_)) continue;
        least = neatness;
        best = std::move(*one);
      }
    }
    return best;
  }

 private:
  [[nodiscard]] Measure wide(const Block& block) const {
    const Kind& kind = job_.kinds[block.kind];
    return block.columns * ((block.turned ? kind.height : kind.width) + job_.blade);
  }
  [[nodiscard]] Measure high(const Block& block) const {
    const Kind& kind = job_.kinds[block.kind];
    return block.rows * ((block.turned ? kind.width : kind.height) + job_.blade);
  }
  [[nodiscard]] bool is_in(const Block& block) const {
    const Sheet& sheet = job_.sheets[sheet_];
    return wide(block) <= sheet.width + job_.blade && high(block) <= sheet.height + job_.blade;
  }

  // All pieces in blocks: rows as long as the dice say, and what is over in a row of its own, perhaps turned.
  std::vector<Block> blocks(Dice& dice) {
    std::vector<Block> blocks;
    for (std::size_t k = 0; k < counts_.size(); ++k) {
      int left = counts_[k];
      const Kind& kind = job_.kinds[k];
      while (left > 0) {
        Block block{k, kind.turned && (!kind.upright || dice.roll(2) == 0), 1, 1};
        const Sheet& sheet = job_.sheets[sheet_];
        const auto columns = static_cast<int>((sheet.width + job_.blade) / wide(block));
        const auto rows = static_cast<int>((sheet.height + job_.blade) / high(block));
        if (columns == 0 || rows == 0) {
          if (!kind.upright || !kind.turned) return {};
          block.turned = !block.turned;
          if (!is_in(block)) return {};
        } else {
          // Full rows or columns, all in one row, or anything.
          const auto any = [&](int most) {
            return 1 + static_cast<int>(dice.roll(static_cast<std::uint64_t>(most)));
          };
          block.columns = std::min(left, dice.roll(2) == 0 ? columns : any(columns));
          block.rows = std::max(1, std::min(left / block.columns, dice.roll(2) == 0 ? rows : any(rows)));
        }
        left -= block.columns * block.rows;
        blocks.push_back(block);
      }
    }
    return blocks;
  }

  std::optional<Part> attempt(Dice& dice) {
    std::vector<Block> blocks = this->blocks(dice);
    if (blocks.empty()) return {};
    std::vector<std::pair<std::int64_t, std::size_t>> order;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      const std::int64_t size = wide(blocks[i]) * high(blocks[i]);
      order.emplace_back(-size * static_cast<std::int64_t>(4 + dice.roll(5)), i);
    }
    std::sort(order.begin(), order.end());
    FilledSheet filled(sheet_, job_.sheets[sheet_].width + job_.blade,
                       job_.sheets[sheet_].height + job_.blade);
    for (const auto& [key, index] : order) {
      Spot best;
      filled.spots(wide(blocks[index]), high(blocks[index]), false, limits_, [&](const Spot& spot) {
        if (best.node < 0 || (spot.loss < best.loss && dice.roll(6) != 0)) best = spot;
      });
      if (best.node < 0) return {};
      filled.put(best, index);
    }
    Part tree = filled.tree(job_.blade);
    unfold(tree, blocks);
    place_parts(tree, job_.blade);
    return tree;
  }

  // Puts the pieces into their blocks' places.
  void unfold(Part& part, const std::vector<Block>& blocks) const {
    if (part.what == Part::What::piece) {
      part = part_of(blocks[part.kind]);
      return;
    }
    std::vector<Part> parts;
    for (Part& one : part.parts) {
      unfold(one, blocks);
      if (one.what == Part::What::cut && one.across == part.across) {
        for (Part& inner : one.parts) parts.push_back(std::move(inner));
      } else {
        parts.push_back(std::move(one));
      }
    }
    part.parts = std::move(parts);
    join_waste(part, job_.blade);
  }

  // The same with strips that are cut off whole: where a block and what is left behind it are one part, every
  // strip of the block keeps its share of what is left, and the block itself needs no setting.
  [[nodiscard]] Part in_whole_strips(const Part& part) {
    if (part.what != Part::What::cut) return part;
    Part whole = part;
    whole.parts.clear();
    for (const Part& one : part.parts) {
      Part inner = in_whole_strips(one);
      if (inner.what == Part::What::cut && inner.across == part.across) {
        for (Part& deeper : inner.parts) whole.parts.push_back(std::move(deeper));
      } else {
        whole.parts.push_back(std::move(inner));
      }
    }
    if (whole.parts.size() != 2 || whole.parts[0].what != Part::What::cut ||
        whole.parts[1].what != Part::What::waste) {
      return whole;
    }
    Part strips = std::move(whole.parts[0]);
    const Part& left = whole.parts[1];
    strips.width = part.width;
    strips.height = part.height;
    for (Part& strip : strips.parts) {
      Part share = left;
      (part.across ? share.width : share.height) = part.across ? strip.width : strip.height;
      if (strip.what == Part::What::cut) {
        (part.across ? strip.height : strip.width) = reach(part, part.across);
        strip.parts.push_back(share);
        join_waste(strip, job_.blade);
      } else if (strip.what == Part::What::waste) {
        (part.across ? strip.height : strip.width) = reach(part, part.across);
      } else {
        Part cut{
            .what = Part::What::cut, .width = strip.width, .height = strip.height, .across = part.across};
        (part.across ? cut.height : cut.width) = reach(part, part.across);
        cut.parts = {strip, share};
        strip = std::move(cut);
      }
    }
    return strips;
  }

  [[nodiscard]] Part part_of(const Block& block) const {
    const Kind& kind = job_.kinds[block.kind];
    Part piece{.what = Part::What::piece,
               .width = block.turned ? kind.height : kind.width,
               .height = block.turned ? kind.width : kind.height,
               .kind = block.kind,
               .turned = block.turned};
    const auto several = [&](const Part& one, int count, bool across) {
      if (count == 1) return one;
      Part all{.what = Part::What::cut, .width = one.width, .height = one.height, .across = across};
      all.parts.assign(static_cast<std::size_t>(count), one);
      (across ? all.height : all.width) = count * (reach(one, across) + job_.blade) - job_.blade;
      return all;
    };
    // The fewer strips first.
    return block.rows <= block.columns ? several(several(piece, block.columns, false), block.rows, true)
                                       : several(several(piece, block.rows, true), block.columns, false);
  }

  const Job& job_;
  std::size_t sheet_;
  Counts counts_;
  CutLimits limits_;
};

struct Content {
  std::size_t sheet = 0;
  int times = 1;
  Counts gives;
  const Part* tree = nullptr;  // as it was
};

// The sheets with these contents, each as neat as was found; nothing if one could not be made at all.
std::optional<std::vector<Layout>> laid_out(std::vector<Content> contents, const Job& job) {
  std::vector<Layout> layouts;
  Settings known;
  // What is cut most often says which settings the others would do well to use.
  std::stable_sort(contents.begin(), contents.end(),
                   [](const Content& a, const Content& b) { return a.times > b.times; });
  for (const Content& content : contents) {
    const std::int64_t pieces = std::accumulate(content.gives.begin(), content.gives.end(), std::int64_t{0});
    std::optional<Part> tree;
    if (pieces <= most_pieces) tree = Sheetful(job, content.sheet, content.gives).neatest(known);
    if (content.tree != nullptr &&
        (!tree || neatness_of(*content.tree, known, nullptr) <= neatness_of(*tree, known, nullptr))) {
      tree = *content.tree;
    }
    if (!tree) return {};
    Settings made;
    neatness_of(*tree, known, &made);
    known = std::move(made);
    layouts.push_back({content.sheet, content.times, std::move(*tree)});
  }
  return layouts;
}

std::vector<Content> contents_of(const std::vector<Layout>& layouts, const Job& job) {
  std::vector<Content> contents;
  for (const Layout& layout : layouts) {
    Counts gives = pieces_in(layout.root, job.kinds.size());
    const auto alike = std::find_if(contents.begin(), contents.end(), [&](const Content& one) {
      return one.sheet == layout.sheet && one.gives == gives;
    });
    if (alike != contents.end()) {
      alike->times += layout.times;
    } else {
      contents.push_back({layout.sheet, layout.times, std::move(gives), &layout.root});
    }
  }
  return contents;
}

// Of one size, how many sheets there are and what they give together.
struct Pooled {
  std::size_t size = 0;
  int sheets = 0;
  Counts all;
};

std::vector<Pooled> together(const std::vector<Content>& contents) {
  std::map<std::size_t, Pooled> of_size;
  for (const Content& one : contents) {
    Pooled& pooled = of_size[one.sheet];
    pooled.size = one.sheet;
    pooled.sheets += one.times;
    pooled.all.resize(one.gives.size(), 0);
    for (std::size_t k = 0; k < pooled.all.size(); ++k) pooled.all[k] += one.times * one.gives[k];
  }
  std::vector<Pooled> pooled;
  for (auto& [size, one] : of_size) pooled.push_back(std::move(one));
  return pooled;
}

// The pieces of all sheets of one size dealt out evenly, so that most of the sheets are alike.
std::vector<Content> dealt_out(const std::vector<Content>& contents) {
  std::vector<Content> dealt;
  std::vector<Pooled> pools = together(contents);
  for (Pooled& pool : pools) {
    Counts each = pool.all;
    for (int& count : each) count = (count + pool.sheets - 1) / pool.sheets;
    for (int i = 0; i < pool.sheets; ++i) {
      Content one{pool.size, 1, each, nullptr};
      for (std::size_t k = 0; k < pool.all.size(); ++k) {
        one.gives[k] = std::min(each[k], pool.all[k]);
        pool.all[k] -= one.gives[k];
      }
      if (std::all_of(one.gives.begin(), one.gives.end(), [](int count) { return count == 0; })) continue;
      if (!dealt.empty() && dealt.back().sheet == pool.size && dealt.back().gives == one.gives) {
        ++dealt.back().times;
      } else {
        dealt.push_back(std::move(one));
      }
    }
  }
  return dealt;
}

// The kind that takes most paper dealt out evenly, all others on the last sheet.
std::vector<Content> gathered(const std::vector<Content>& contents, const Job& job) {
  std::vector<Content> all_of;
  std::vector<Pooled> pools = together(contents);
  for (Pooled& pool : pools) {
    std::size_t most = 0;
    const auto area = [&](std::size_t k) {
      return Wide(job.kinds[k].width * job.kinds[k].height) * pool.all[k];
    };
    for (std::size_t k = 1; k < pool.all.size(); ++k) {
      if (area(k) > area(most)) most = k;
    }
    const int each = (pool.all[most] + pool.sheets - 1) / pool.sheets;
    Counts last = pool.all;
    last[most] = std::max(0, pool.all[most] - each * (pool.sheets - 1));
    Content usual{pool.size, pool.sheets - 1, Counts(pool.all.size(), 0), nullptr};
    usual.gives[most] = each;
    if (each == 0 || each * usual.times > pool.all[most]) return {};
    if (usual.times > 0) all_of.push_back(std::move(usual));
    all_of.push_back({pool.size, 1, std::move(last), nullptr});
  }
  return all_of;
}

// How many pieces of a kind the sheet gives in rows and columns.
int in_rows(const Kind& kind, const Sheet& sheet, Measure blade) {
  const auto fit = [&](Measure width, Measure height) {
    return static_cast<int>(((sheet.width + blade) / (width + blade)) *
                            ((sheet.height + blade) / (height + blade)));
  };
  return std::max(kind.upright ? fit(kind.width, kind.height) : 0,
                  kind.turned ? fit(kind.height, kind.width) : 0);
}

// Every kind from sheets of its own, where that takes no more of them; as full as they go, the last the
// emptiest.
std::vector<Content> kind_by_kind(const std::vector<Content>& contents, const Job& job) {
  std::vector<Content> apart;
  std::vector<Pooled> pools = together(contents);
  for (Pooled& pool : pools) {
    for (std::size_t k = 0; k < pool.all.size(); ++k) {
      const int full = std::max(1, in_rows(job.kinds[k], job.sheets[pool.size], job.blade));
      const auto push = [&](int times, int count) {
        if (times == 0 || count == 0) return;
        apart.push_back({pool.size, times, Counts(pool.all.size(), 0), nullptr});
        apart.back().gives[k] = count;
        pool.sheets -= times;
      };
      push(pool.all[k] / full, full);
      push(1, pool.all[k] % full);
    }
    if (pool.sheets < 0) return {};
  }
  return apart;
}

}  // namespace

Trouble trouble_of(const std::vector<Layout>& layouts, const Job& job) {
  std::vector<Layout> ordered = layouts;
  const std::vector<bool> none(job.kinds.size(), false);
  put_in_cutting_order(ordered, none, job.blade, 0);
  const Work work = work_of(ordered, none, job.blade, 0);
  std::set<Measure> settings;
  for (const Step& step : work.steps) settings.insert(step.set);
  std::int64_t cuts = 0;
  std::int64_t left = 0;
  const std::function<void(const Part&)> look = [&](const Part& part) {
    if (part.what == Part::What::waste && !job.sheets.empty())
      left = std::max(left, part.width * part.height);
    for (const Part& one : part.parts) look(one);
  };
  for (std::size_t i = 0; i < ordered.size(); ++i) {
    cuts += static_cast<std::int64_t>(work.cuts[i].size()) * ordered[i].times;
    look(ordered[i].root);
  }
  return {settings.size(), cuts, work.steps.size(), -left};
}

std::vector<Layout> made_neat(const std::vector<Layout>& layouts, const Job& job) {
  if (layouts.size() > most_layouts) return layouts;
  std::vector<Layout> best = layouts;
  Trouble least = trouble_of(best, job);
  const auto offer = [&](const std::optional<std::vector<Layout>>& other) {
    if (!other) return;
    const Trouble trouble = trouble_of(*other, job);
    if (std::tuple(trouble, other->size()) >= std::tuple(least, best.size())) return;
    least = trouble;
    best = *other;
  };
  const std::vector<Content> contents = contents_of(layouts, job);
  offer(laid_out(contents, job));
  offer(laid_out(dealt_out(contents), job));
  for (const std::vector<Content>& other : {kind_by_kind(contents, job), gathered(contents, job)}) {
    if (!other.empty()) offer(laid_out(other, job));
  }
  return best;
}

}  // namespace evenmat::cutting
