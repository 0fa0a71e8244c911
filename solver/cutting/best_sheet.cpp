// Why cuts at sums of sizes are enough. Say a part of width x is cut off and its content, row by row, is no
// wider than x' < x: every row then ends in a trim of at least x - x', so the least of these trims is a trim
// as wide as one must be. The cut is made at x' instead, and the rest, which is now wider by that trim, has
// it cut off first where a longer cut would not be possible, and else at the end of its rows, where it makes
// every trim wider, or a trim as wide as it must be out of none. Either way nothing else changes.
#include "solver/cutting/best_sheet.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "solver/cutting/tree_shape.h"

namespace evenmat::cutting {
namespace {

constexpr std::int32_t nothing = -(1 << 30);  // plus any worth it stays below 0
constexpr Measure most_places = 1'000'000;    // of an axis, for the table from lengths to indices

// All sums of sizes up to `room`, each size as often as there are pieces of it.
std::vector<bool> sums_of(const std::vector<std::pair<Measure, int>>& sizes, Measure room) {
  std::vector<bool> sums(static_cast<std::size_t>(room) + 1, false);
  sums[0] = true;
  std::vector<int> used(sums.size());
  for (const auto& [size, count] : sizes) {
    if (size > room) continue;
    std::fill(used.begin(), used.end(), 0);
    for (auto to = static_cast<std::size_t>(size); to < sums.size(); ++to) {
      const std::size_t from = to - static_cast<std::size_t>(size);
      if (!sums[to] && sums[from] && used[from] < count) {
        sums[to] = true;
        used[to] = used[from] + 1;
      }
    }
  }
  return sums;
}

}  // namespace

BestSheet::BestSheet(const Job& job, std::size_t sheet) : job_(job), sheet_(sheet), limits_(limits_of(job)) {
  const Sheet& here = job.sheets[sheet];
  if (std::max(here.width, here.height) + job.blade > most_places) return;
  possible_ = set_up(true) || set_up(false);
}

bool BestSheet::set_up(bool strict) {
  strict_ = strict;
  if (!strict) {
    limits_.least_trim = 0;
    limits_.longest = std::numeric_limits<Measure>::max();
  }
  across_ = axis(true);
  down_ = axis(false);
  if (across_.lengths.empty() || down_.lengths.empty()) return false;
  const auto cost = [](const Axis& one, const Axis& other) {
    return static_cast<std::int64_t>(one.lengths.size()) * static_cast<std::int64_t>(one.cuts.size()) *
           static_cast<std::int64_t>(other.lengths.size());
  };
  steps_ = cost(across_, down_) / 8 + cost(down_, across_) / 2;
  if (steps_ > most_steps) return false;
  lying_.clear();
  for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
    const Kind& kind = job_.kinds[k];
    if (job_.sheets[sheet_].offcut && !kind.from_offcuts) continue;
    const auto lie = [&](Measure width, Measure height, bool turned) {
      width += job_.blade;
      height += job_.blade;
      if (width > across_.lengths.back() || height > down_.lengths.back()) return;
      const int u = across_.index[static_cast<std::size_t>(width)];
      const int v = down_.index[static_cast<std::size_t>(height)];
      if (u < 0 || v < 0 || across_.lengths[static_cast<std::size_t>(u)] != width ||
          down_.lengths[static_cast<std::size_t>(v)] != height)
        return;
      lying_.push_back({k, turned, static_cast<std::size_t>(u), static_cast<std::size_t>(v)});
    };
    if (kind.upright) lie(kind.width, kind.height, false);
    if (kind.turned && (kind.width != kind.height || !kind.upright)) lie(kind.height, kind.width, true);
  }
  return true;
}

BestSheet::Axis BestSheet::axis(bool across) const {
  const Sheet& sheet = job_.sheets[sheet_];
  const Measure room = (across ? sheet.width : sheet.height) + job_.blade;
  std::vector<std::pair<Measure, int>> sizes;
  for (const Kind& kind : job_.kinds) {
    if (sheet.offcut && !kind.from_offcuts) continue;
    if (kind.upright) sizes.emplace_back((across ? kind.width : kind.height) + job_.blade, kind.count);
    if (kind.turned) sizes.emplace_back((across ? kind.height : kind.width) + job_.blade, kind.count);
  }
  const std::vector<bool> sums = sums_of(sizes, room);
  std::vector<bool> reached(sums.size(), false);
  const auto last = static_cast<std::size_t>(room);
  reached[last] = true;
  std::vector<std::size_t> cut_at;
  for (std::size_t x = 1; x <= last; ++x) {
    if (sums[x]) cut_at.push_back(x);
  }
  for (const std::size_t x : cut_at) reached[x] = true;
  if (strict_) {
    std::int64_t steps = 0;
    for (std::size_t whole = last; whole > 0; --whole) {
      if (!reached[whole]) continue;
      steps += static_cast<std::int64_t>(cut_at.size());
      if (steps > most_steps) return {};
      for (const std::size_t x : cut_at) {
        if (x >= whole) break;
        reached[whole - x] = true;
      }
    }
  }
  Axis axis;
  axis.index.assign(reached.size(), -1);
  int latest = -1;
  for (std::size_t x = 1; x <= last; ++x) {
    if (reached[x]) {
      latest = static_cast<int>(axis.lengths.size());
      if (sums[x]) axis.cuts.push_back(axis.lengths.size());
      axis.lengths.push_back(static_cast<Measure>(x));
      axis.index[x] = latest;
    } else if (!strict_) {
      axis.index[x] = latest;
    }
  }
  return axis;
}

std::int32_t BestSheet::most(const std::vector<std::int32_t>& worths) {
  worths_ = worths;
  const std::size_t wide = across_.lengths.size();
  const std::size_t high = down_.lengths.size();
  worth_.assign(wide * high, nothing);
  for (const Lying& one : lying_) {
    std::int32_t& there = worth_[one.u * high + one.v];
    there = std::max(there, worths[one.kind]);
  }
  // Symmetric where no cut can be too long: the narrower part lies first.
  const bool any_length = limits_.longest >= std::max(across_.lengths.back(), down_.lengths.back());
  // Heights at which a cut down, and widths at which a cut across, is not too long.
  const auto allowed = [&](const Axis& axis) {
    return static_cast<std::size_t>(
        std::upper_bound(axis.lengths.begin(), axis.lengths.end(), limits_.longest) - axis.lengths.begin());
  };
  const std::size_t high_enough = allowed(down_);
  const std::size_t wide_enough = allowed(across_);
  std::vector<std::int32_t> with_trim(high, nothing);  // the best of all rows narrow enough to leave a trim
  std::size_t trimmed = 0;
  for (std::size_t u = 0; u < wide; ++u) {
    std::int32_t* const row = worth_.data() + u * high;
    const Measure width = across_.lengths[u];
    const auto take = [&](const std::int32_t* one, const std::int32_t* other) {
      for (std::size_t v = 0; v < high_enough; ++v) row[v] = std::max(row[v], one[v] + other[v]);
    };
    for (const std::size_t cut : across_.cuts) {
      const Measure x = across_.lengths[cut];
      if (any_length ? 2 * x > width : x >= width) break;
      const int other = rest(across_, u, cut);
      if (other >= 0)
        take(worth_.data() + cut * high, worth_.data() + static_cast<std::size_t>(other) * high);
    }
    while (trimmed < across_.cuts.size() && across_.lengths[across_.cuts[trimmed]] < width &&
           across_.lengths[across_.cuts[trimmed]] + limits_.least_trim <= width) {
      const std::int32_t* const narrower = worth_.data() + across_.cuts[trimmed] * high;
      for (std::size_t v = 0; v < high; ++v) with_trim[v] = std::max(with_trim[v], narrower[v]);
      ++trimmed;
    }
    for (std::size_t v = 0; v < high_enough; ++v) row[v] = std::max(row[v], with_trim[v]);
    if (u >= wide_enough) continue;
    std::int32_t lower = nothing;
    std::size_t seen = 0;
    for (std::size_t v = 0; v < high; ++v) {
      const Measure height = down_.lengths[v];
      std::int32_t best = row[v];
      for (const std::size_t cut : down_.cuts) {
        const Measure y = down_.lengths[cut];
        if (any_length ? 2 * y > height : y >= height) break;
        const int other = rest(down_, v, cut);
        if (other >= 0) best = std::max(best, row[cut] + row[static_cast<std::size_t>(other)]);
      }
      while (seen < down_.cuts.size() && down_.lengths[down_.cuts[seen]] < height &&
             down_.lengths[down_.cuts[seen]] + limits_.least_trim <= height) {
        lower = std::max(lower, row[down_.cuts[seen]]);
        ++seen;
      }
      row[v] = std::max(best, lower);
    }
  }
  return std::max(0, at(wide - 1, high - 1));
}

std::optional<std::pair<std::size_t, int>> BestSheet::cut_of(std::size_t u, std::size_t v,
                                                             bool across) const {
  const Axis& axis = across ? down_ : across_;
  const std::size_t whole = across ? v : u;
  if (across_.lengths[u] > limits_.longest && across) return {};
  if (down_.lengths[v] > limits_.longest && !across) return {};
  const auto worth = [&](std::size_t part) { return across ? at(u, part) : at(part, v); };
  for (const std::size_t cut : axis.cuts) {
    const Measure length = axis.lengths[whole] - axis.lengths[cut];
    if (length <= 0) break;
    if (worth(cut) == at(u, v) && length >= limits_.least_trim) return std::pair(cut, -1);
    const int other = rest(axis, whole, cut);
    if (other >= 0 && worth(cut) + worth(static_cast<std::size_t>(other)) == at(u, v))
      return std::pair(cut, other);
  }
  return {};
}

Part BestSheet::part_of(std::size_t u, std::size_t v, Measure width, Measure height) const {
  Part part;
  part.width = width - job_.blade;
  part.height = height - job_.blade;
  if (at(u, v) < 0) return part;
  const auto wide = across_.lengths[u];
  const auto high = down_.lengths[v];
  for (const Lying& one : lying_) {
    if (one.u != u || one.v != v || worths_[one.kind] != at(u, v)) continue;
    part.what = Part::What::piece;
    part.kind = one.kind;
    part.turned = one.turned;
    part.width = wide - job_.blade;
    part.height = high - job_.blade;
    if (wide == width && high == height) return part;
    // Larger than its indices say: trimmed on one side or both.
    Part strip{.what = Part::What::cut,
               .width = wide - job_.blade,
               .height = height - job_.blade,
               .across = true,
               .parts = {part}};
    if (high < height) strip.parts.push_back({.width = strip.width, .height = height - high - job_.blade});
    if (strip.parts.size() == 1) strip = part;
    if (wide == width) return strip;
    const Part side{.width = width - wide - job_.blade, .height = height - job_.blade};
    return {.what = Part::What::cut,
            .width = width - job_.blade,
            .height = height - job_.blade,
            .parts = {strip, side}};
  }
  for (const bool across : {false, true}) {
    const auto cut = cut_of(u, v, across);
    if (!cut) continue;
    part.what = Part::What::cut;
    part.across = across;
    const Measure at_length = (across ? down_ : across_).lengths[cut->first];
    const Measure behind = (across ? height : width) - at_length;
    const auto push = [&](Part one) {
      if (one.what == Part::What::cut && one.across == across) {
        for (Part& inner : one.parts) part.parts.push_back(std::move(inner));
      } else {
        part.parts.push_back(std::move(one));
      }
    };
    push(across ? part_of(u, cut->first, width, at_length) : part_of(cut->first, v, at_length, height));
    if (cut->second < 0) {
      push(across ? Part{.width = width - job_.blade, .height = behind - job_.blade}
                  : Part{.width = behind - job_.blade, .height = height - job_.blade});
    } else {
      const auto other = static_cast<std::size_t>(cut->second);
      push(across ? part_of(u, other, width, behind) : part_of(other, v, behind, height));
    }
    join_waste(part, job_.blade);
    return part;
  }
  return part;  // only a sheet whose worth is nothing
}

Part BestSheet::tree() const {
  const Sheet& sheet = job_.sheets[sheet_];
  Part root = part_of(across_.lengths.size() - 1, down_.lengths.size() - 1, sheet.width + job_.blade,
                      sheet.height + job_.blade);
  place_parts(root, job_.blade);
  return root;
}

}  // namespace evenmat::cutting
