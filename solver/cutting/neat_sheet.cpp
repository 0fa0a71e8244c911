#include "solver/cutting/neat_sheet.h"

#include <algorithm>
#include <map>
#include <utility>

#include "solver/cutting/dice.h"
#include "solver/cutting/filled_sheet.h"
#include "solver/cutting/tree_shape.h"

namespace evenmat::cutting {
namespace {

constexpr int tries_a_sheet = 200;
constexpr int tries_in_vain = 60;  // to get all pieces in at all

using Counts = std::vector<int>;

// Like pieces beside and below one another.
struct Block {
  std::size_t kind = 0;
  bool turned = false;
  int columns = 1, rows = 1;
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

}  // namespace

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

std::optional<Part> neatest_sheet(const Job& job, std::size_t sheet, const std::vector<int>& counts,
                                  const Settings& known) {
  return Sheetful(job, sheet, counts).neatest(known);
}

}  // namespace evenmat::cutting
