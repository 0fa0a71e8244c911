// Numbers that look random and are the same on every machine: the standard's generator by itself, for its
// distributions may differ from library to library.
#pragma once

#include <cstddef>
#include <random>
#include <utility>
#include <vector>

#include "model/rational.h"

namespace evenmat::testing {

class Dice {
 public:
  explicit Dice(unsigned seed) : generator_(seed) {}

  // From low to high, both included.
  int between(int low, int high) {
    return low + static_cast<int>(generator_() % static_cast<unsigned>(high - low + 1));
  }
  bool one_in(int chances) { return between(1, chances) == 1; }
  template <typename T>
  const T& any_of(const std::vector<T>& list) {
    return list[static_cast<std::size_t>(between(0, static_cast<int>(list.size()) - 1))];
  }
  template <typename T>
  void shuffle(std::vector<T>& list) {
    for (std::size_t i = list.size(); i > 1; --i) {
      std::swap(list[i - 1], list[static_cast<std::size_t>(between(0, static_cast<int>(i) - 1))]);
    }
  }

 private:
  std::mt19937 generator_;
};

}  // namespace evenmat::testing
