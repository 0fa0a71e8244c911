// Numbers by chance that are the same on every machine: SplitMix64 (G. L. Steele Jr., D. Lea, C. H. Flood,
// OOPSLA 2014).
#pragma once

#include <cstdint>

namespace evenmat::cutting {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  }
  // From 0 to below `sides`.
  std::uint64_t roll(std::uint64_t sides) { return next() % sides; }

 private:
  std::uint64_t state_;
};

}  // namespace evenmat::cutting
