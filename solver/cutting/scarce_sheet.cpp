#include "solver/cutting/scarce_sheet.h"

#include <algorithm>
#include <bit>
#include <utility>

#include "solver/cutting/tree_shape.h"

namespace evenmat::cutting {
namespace {

constexpr std::int32_t nothing = -(1 << 30);  // plus any worth it stays below 0
constexpr std::size_t most_words = 1 << 24;   // of memory for what fillings take

}  // namespace

ScarceSheet::ScarceSheet(const Job& job, std::size_t sheet, const BestSheet& grid)
    : job_(job), sheet_(sheet), grid_(grid), high_(grid.down().lengths.size()) {}

void ScarceSheet::lay_out_fields(const std::vector<int>& wanted) {
  const Sheet& sheet = job_.sheets[sheet_];
  const Measure room = (sheet.width + job_.blade) * (sheet.height + job_.blade);
  lift_.assign(1, 0);
  over_.assign(1, 0);
  one_.assign(wanted.size(), 0);
  word_of_.assign(wanted.size(), 0);
  int used = 0;
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    const Kind& kind = job_.kinds[k];
    const Measure fit = room / ((kind.width + job_.blade) * (kind.height + job_.blade));
    if (wanted[k] <= 0 || wanted[k] >= fit) continue;
    const int bits = static_cast<int>(std::bit_width(static_cast<unsigned>(wanted[k])));
    if (used + bits + 1 > 64) {
      lift_.push_back(0);
      over_.push_back(0);
      used = 0;
    }
    word_of_[k] = lift_.size() - 1;
    one_[k] = Word{1} << used;
    lift_.back() |= ((Word{1} << bits) - 1 - static_cast<Word>(wanted[k])) << used;
    over_.back() |= Word{1} << (used + bits);
    used += bits + 1;
  }
  words_ = lift_.size();
}

bool ScarceSheet::are_enough(std::size_t one, std::size_t other) const {
  const Word* const a = takes_.data() + one * words_;
  const Word* const b = takes_.data() + other * words_;
  Word over = 0;
  for (std::size_t w = 0; w < words_; ++w) over |= (a[w] + b[w] + lift_[w]) & over_[w];
  return over == 0;
}

void ScarceSheet::offer(std::size_t cell, std::int32_t worth, const Word* one, const Word* other,
                        const Made& made) {
  const std::size_t begin = cell * slots_;
  std::size_t at = begin + slots_ - 1;
  if (slots_ > 1) {
    for (std::size_t slot = begin; slot < begin + slots_; ++slot) {
      if (worth_[slot] != worth) continue;
      bool same = true;
      for (std::size_t w = 0; same && w < words_; ++w)
        same = takes_[slot * words_ + w] == one[w] + (other ? other[w] : 0);
      if (same) return;
    }
    for (; at > begin && worth_[at - 1] < worth; --at) {
      worth_[at] = worth_[at - 1];
      made_[at] = made_[at - 1];
      for (std::size_t w = 0; w < words_; ++w) takes_[at * words_ + w] = takes_[(at - 1) * words_ + w];
    }
  }
  worth_[at] = worth;
  made_[at] = made;
  for (std::size_t w = 0; w < words_; ++w) takes_[at * words_ + w] = one[w] + (other ? other[w] : 0);
}

void ScarceSheet::put_together(std::size_t cell, std::size_t one, std::size_t other, Made made) {
  const std::size_t last = cell * slots_ + slots_ - 1;
  for (std::size_t i = 0; i < slots_; ++i) {
    for (std::size_t j = 0; j < slots_; ++j) {
      const std::size_t a = one * slots_ + i;
      const std::size_t b = other * slots_ + j;
      const std::int32_t worth = worth_[a] + worth_[b];
      if (worth <= worth_[last]) break;
      if (!are_enough(a, b)) continue;
      made.first_slot = static_cast<std::uint8_t>(i);
      made.second_slot = static_cast<std::uint8_t>(j);
      offer(cell, worth, takes_.data() + a * words_, takes_.data() + b * words_, made);
    }
  }
}

void ScarceSheet::copy(std::size_t cell, std::size_t from, Made made) {
  const std::size_t last = cell * slots_ + slots_ - 1;
  for (std::size_t i = 0; i < slots_; ++i) {
    const std::size_t a = from * slots_ + i;
    if (worth_[a] <= worth_[last] || worth_[a] <= 0) break;
    made.first_slot = static_cast<std::uint8_t>(i);
    offer(cell, worth_[a], takes_.data() + a * words_, nullptr, made);
  }
}

void ScarceSheet::fill(const std::vector<std::int32_t>& worths, const std::vector<int>& wanted) {
  const auto& wide = grid_.across();
  const auto& deep = grid_.down();
  const CutLimits& limits = grid_.limits();
  const std::size_t cells = wide.lengths.size() * high_;
  worth_.assign(cells * slots_, nothing);
  made_.assign(worth_.size(), {});
  takes_.assign(worth_.size() * words_, 0);
  for (std::size_t i = 0; i < grid_.lying().size(); ++i) {
    const auto& one = grid_.lying()[i];
    const std::size_t cell = one.u * high_ + one.v;
    if (wanted[one.kind] <= 0 || worths[one.kind] <= worth_[cell * slots_ + slots_ - 1] ||
        worths[one.kind] <= 0)
      continue;
    std::vector<Word> takes(words_, 0);
    takes[word_of_[one.kind]] = one_[one.kind];
    offer(cell, worths[one.kind], takes.data(), nullptr, {Made::How::piece, static_cast<std::uint32_t>(i)});
  }
  const bool any_length = limits.longest >= std::max(wide.lengths.back(), deep.lengths.back());
  const auto allowed = [&](const BestSheet::Axis& axis) {
    return static_cast<std::size_t>(
        std::upper_bound(axis.lengths.begin(), axis.lengths.end(), limits.longest) - axis.lengths.begin());
  };
  const std::size_t high_enough = allowed(deep);
  const std::size_t wide_enough = allowed(wide);
  std::vector<std::size_t> narrower(high_, cells);  // the best that leaves a trim at its side
  std::size_t trimmed = 0;
  for (std::size_t u = 0; u < wide.lengths.size(); ++u) {
    const std::size_t row = u * high_;
    const Measure width = wide.lengths[u];
    for (const std::size_t cut : wide.cuts) {
      const Measure x = wide.lengths[cut];
      if (any_length ? 2 * x > width : x >= width) break;
      const int rest = wide.index[static_cast<std::size_t>(width - x)];
      if (rest < 0) continue;
      const std::size_t one = cut * high_;
      const std::size_t other = static_cast<std::size_t>(rest) * high_;
      for (std::size_t v = 0; v < high_enough; ++v) {
        if (worth_[(one + v) * slots_] + worth_[(other + v) * slots_] > worth_[(row + v + 1) * slots_ - 1]) {
          put_together(
              row + v, one + v, other + v,
              {Made::How::side_by_side, static_cast<std::uint32_t>(cut), static_cast<std::uint32_t>(rest)});
        }
      }
    }
    while (trimmed < wide.cuts.size() && wide.lengths[wide.cuts[trimmed]] < width &&
           wide.lengths[wide.cuts[trimmed]] + limits.least_trim <= width) {
      for (std::size_t v = 0; v < high_; ++v) {
        const std::size_t cell = wide.cuts[trimmed] * high_ + v;
        if (narrower[v] == cells || worth_[cell * slots_] >= worth_[narrower[v] * slots_]) narrower[v] = cell;
      }
      ++trimmed;
    }
    for (std::size_t v = 0; v < high_enough; ++v) {
      if (narrower[v] < cells) {
        copy(row + v, narrower[v],
             {Made::How::trim_side, static_cast<std::uint32_t>(narrower[v] / high_), 0});
      }
    }
    if (u >= wide_enough) continue;
    std::size_t lower = cells;
    std::size_t seen = 0;
    for (std::size_t v = 0; v < high_; ++v) {
      const Measure height = deep.lengths[v];
      for (const std::size_t cut : deep.cuts) {
        const Measure y = deep.lengths[cut];
        if (any_length ? 2 * y > height : y >= height) break;
        const int rest = deep.index[static_cast<std::size_t>(height - y)];
        if (rest < 0) continue;
        const std::size_t one = row + cut;
        const std::size_t other = row + static_cast<std::size_t>(rest);
        if (worth_[one * slots_] + worth_[other * slots_] > worth_[(row + v + 1) * slots_ - 1]) {
          put_together(row + v, one, other,
                       {Made::How::one_below_other, static_cast<std::uint32_t>(cut),
                        static_cast<std::uint32_t>(rest)});
        }
      }
      while (seen < deep.cuts.size() && deep.lengths[deep.cuts[seen]] < height &&
             deep.lengths[deep.cuts[seen]] + limits.least_trim <= height) {
        const std::size_t cell = row + deep.cuts[seen];
        if (lower == cells || worth_[cell * slots_] >= worth_[lower * slots_]) lower = cell;
        ++seen;
      }
      if (lower < cells)
        copy(row + v, lower, {Made::How::trim_below, static_cast<std::uint32_t>(lower - row), 0});
    }
  }
}

std::vector<Part> ScarceSheet::ways(const std::vector<std::int32_t>& worths, const std::vector<int>& wanted,
                                    std::int32_t above, const Effort& effort) {
  slots_ = effort.fillings;
  lay_out_fields(wanted);
  if (grid_.across().lengths.size() * high_ * slots_ * words_ > most_words) return {};
  fill(worths, wanted);
  const auto& wide = grid_.across();
  const auto& deep = grid_.down();
  const std::size_t u = wide.lengths.size() - 1;
  const std::size_t v = high_ - 1;
  // All first cuts, not only the best.
  std::vector<std::pair<std::int32_t, Made>> found;
  for (std::size_t i = 0; i < slots_; ++i) {
    const std::size_t whole = (u * high_ + v) * slots_ + i;
    if (worth_[whole] > above) found.emplace_back(worth_[whole], made_[whole]);
  }
  const auto try_cut = [&](std::size_t one, std::size_t other, Made made) {
    for (std::size_t i = 0; i < slots_ * slots_; ++i) {
      const std::size_t a = one * slots_ + i / slots_;
      const std::size_t b = other * slots_ + i % slots_;
      const std::int32_t worth = worth_[a] + worth_[b];
      made.first_slot = static_cast<std::uint8_t>(i / slots_);
      made.second_slot = static_cast<std::uint8_t>(i % slots_);
      if (worth > above && are_enough(a, b)) found.emplace_back(worth, made);
    }
  };
  const CutLimits& limits = grid_.limits();
  for (const std::size_t cut : wide.cuts) {
    if (deep.lengths[v] > limits.longest || 2 * wide.lengths[cut] > wide.lengths[u]) break;
    const int rest = wide.index[static_cast<std::size_t>(wide.lengths[u] - wide.lengths[cut])];
    if (rest >= 0) {
      try_cut(cut * high_ + v, static_cast<std::size_t>(rest) * high_ + v,
              {Made::How::side_by_side, static_cast<std::uint32_t>(cut), static_cast<std::uint32_t>(rest)});
    }
  }
  for (const std::size_t cut : deep.cuts) {
    if (wide.lengths[u] > limits.longest || 2 * deep.lengths[cut] > deep.lengths[v]) break;
    const int rest = deep.index[static_cast<std::size_t>(deep.lengths[v] - deep.lengths[cut])];
    if (rest >= 0) {
      try_cut(
          u * high_ + cut, u * high_ + static_cast<std::size_t>(rest),
          {Made::How::one_below_other, static_cast<std::uint32_t>(cut), static_cast<std::uint32_t>(rest)});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  if (found.size() > effort.ways) found.resize(effort.ways);
  std::vector<Part> ways;
  const Sheet& sheet = job_.sheets[sheet_];
  for (const auto& [worth, made] : found) {
    ways.push_back(part_of(made, u, v, sheet.width + job_.blade, sheet.height + job_.blade));
    place_parts(ways.back(), job_.blade);
  }
  return ways;
}

Part ScarceSheet::part_of(std::size_t u, std::size_t v, std::size_t slot, Measure width,
                          Measure height) const {
  return part_of(made_[(u * high_ + v) * slots_ + slot], u, v, width, height);
}

// Of a rectangle, which is `width` x `height` large with the blade's loss; at least as large as its indices
// say.
Part ScarceSheet::part_of(const Made& made, std::size_t u, std::size_t v, Measure width,
                          Measure height) const {
  const auto& wide = grid_.across();
  const auto& deep = grid_.down();
  Part part;
  part.width = width - job_.blade;
  part.height = height - job_.blade;
  if (made.how == Made::How::nothing) return part;
  if (made.how == Made::How::piece) {
    const auto& one = grid_.lying()[made.first];
    part.what = Part::What::piece;
    part.kind = one.kind;
    part.turned = one.turned;
    part.width = wide.lengths[u] - job_.blade;
    part.height = deep.lengths[v] - job_.blade;
    if (wide.lengths[u] == width && deep.lengths[v] == height) return part;
    Part strip = part;
    if (deep.lengths[v] < height) {
      strip = {.what = Part::What::cut,
               .width = part.width,
               .height = height - job_.blade,
               .across = true,
               .parts = {part, {.width = part.width, .height = height - deep.lengths[v] - job_.blade}}};
    }
    if (wide.lengths[u] == width) return strip;
    const Part side{.width = width - wide.lengths[u] - job_.blade, .height = height - job_.blade};
    return {.what = Part::What::cut,
            .width = width - job_.blade,
            .height = height - job_.blade,
            .parts = {strip, side}};
  }
  const bool across = made.how == Made::How::one_below_other || made.how == Made::How::trim_below;
  const bool trim = made.how == Made::How::trim_side || made.how == Made::How::trim_below;
  part.what = Part::What::cut;
  part.across = across;
  const Measure length = (across ? deep : wide).lengths[made.first];
  const Measure behind = (across ? height : width) - length;
  const auto push = [&](Part one) {
    if (one.what == Part::What::cut && one.across == across) {
      for (Part& inner : one.parts) part.parts.push_back(std::move(inner));
    } else {
      part.parts.push_back(std::move(one));
    }
  };
  push(across ? part_of(u, made.first, made.first_slot, width, length)
              : part_of(made.first, v, made.first_slot, length, height));
  if (trim) {
    push(across ? Part{.width = width - job_.blade, .height = behind - job_.blade}
                : Part{.width = behind - job_.blade, .height = height - job_.blade});
  } else {
    push(across ? part_of(u, made.second, made.second_slot, width, behind)
                : part_of(made.second, v, made.second_slot, behind, height));
  }
  join_waste(part, job_.blade);
  return part;
}

}  // namespace evenmat::cutting
