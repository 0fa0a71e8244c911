// Every smallest set of wishes that cannot hold together.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "solver/why/inquiry.h"

namespace evenmat {

struct Clash {
  WishIds wishes;                  // empty: what is given alone cannot hold
  std::vector<std::size_t> parts;  // in which it cannot hold
  bool smallest = true;            // false when time ran out before that was known: then it is the last
};

// Calls `found` with each, until it says no. Whether all were found: false when it did. Throws OutOfTime.
//
// Of a part that cannot hold, wishes are dropped from the end of the file on as long as the rest still cannot
// hold: that gives the first set. Sets of wishes that take at least one out of every set known are then left
// out, fewest first: where the rest can hold nothing is left to find, and where it cannot there is a new set
// in it. (Reiter, A theory of diagnosis from first principles, 1987; from memory.) Once each smallest way of
// taking one out of all the known sets leaves a card that can be built, the known sets are all there are.
bool find_clashes(Inquiry& inquiry, const std::function<bool(const Clash&)>& found);

}  // namespace evenmat
