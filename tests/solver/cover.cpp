// Whole sheets that are worth enough at the least cost, held against all numbers of them.
#include "solver/cutting/cover.h"

#include <algorithm>

#include "tests/catch.h"
#include "tests/solver/dice.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::least_cost;
using cutting::Worth;

namespace {

// By every number of each; -1 where all there is is worth too little.
std::int64_t by_trial(const std::vector<Worth>& sheets, std::int64_t need, std::size_t from = 0) {
  if (need <= 0) return 0;
  if (from == sheets.size()) return -1;
  const Worth& sheet = sheets[from];
  std::int64_t least = -1;
  for (int count = 0; count <= sheet.have.value_or(1000); ++count) {
    const std::int64_t rest = by_trial(sheets, need - count * sheet.worth, from + 1);
    const std::int64_t cost = rest + count * sheet.cost;
    if (rest >= 0 && (least < 0 || cost < least)) least = cost;
    if (sheet.worth == 0 || count * sheet.worth >= need) break;
  }
  return least;
}

}  // namespace

TEST_CASE("Whole sheets that are worth enough cost what trying all numbers of them says") {
  for (unsigned seed = 1; seed <= 3000; ++seed) {
    Dice dice(seed);
    std::vector<Worth> sheets;
    for (int count = dice.between(1, 4); count > 0; --count) {
      Worth one{dice.one_in(8) ? 0 : dice.between(3, 30), dice.one_in(6) ? 0 : dice.between(1, 20), {}};
      if (dice.one_in(2)) one.have = dice.between(0, 5);
      sheets.push_back(one);
    }
    const int need = dice.between(0, 120);
    std::string text = std::to_string(need);
    for (const Worth& one : sheets) {
      text += ", " + std::to_string(one.worth) + " for " + std::to_string(one.cost) +
              (one.have ? " have " + std::to_string(*one.have) : "");
    }
    INFO(seed << ": " << text);
    CHECK(least_cost(sheets, need) == by_trial(sheets, need));
  }
}

TEST_CASE("Of very many sheets there is at least a bound, which broken sheets give") {
  const std::int64_t bound = least_cost({{7, 10, {}}, {1, 3, {}}}, 7'000'002);
  CHECK(bound <= 10'000'000 + 2 * 3);
  CHECK(bound >= 10'000'000 + 2);
  CHECK(least_cost({{7, 1, {}}}, 7'000'002) == 1'000'001);
  CHECK(least_cost({{7, 10, 5}}, 36) == -1);
}
