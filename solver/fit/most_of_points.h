// The most cards that the paper there is gives, over many points of a space.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "solver/fit/cheapest.h"

namespace evenmat::exploring {

struct MostOfPoints {
  int cards = 0;
  std::vector<std::size_t> points;  // that give so many, in order
  bool proven = false;              // none of them gives more
  bool by_bound = false;            // nor does any other point
};

// Cards of one card as sized: as `batch::most_cards`. Nothing when no paper sets a limit.
struct MostOfOne {
  int cards = 0;
  bool proven = false;
};
std::optional<MostOfOne> most_of(const Card& card, const SizedCard& sized, bool beyond,
                                 std::chrono::steady_clock::time_point until);

// Whether one version is made in all.
bool is_of_one_version(const SizedCard& sized);

// Of one version only. At least `known` cards can be made, and no more than `cap`, if that is stated.
// `smallest`: no point has smaller pieces anywhere.
MostOfPoints most_of_points(const std::vector<Amounts>& points, const CutPoints& cards,
                            const SizedCard& smallest, int known, std::optional<int> cap,
                            const std::function<void(int)>& so_far);

// Of several versions: each point's own most, one after the other.
MostOfPoints most_of_each(const Card& card, const std::vector<Amounts>& points, const CutPoints& cards,
                          bool beyond, std::chrono::steady_clock::time_point until);

}  // namespace evenmat::exploring
