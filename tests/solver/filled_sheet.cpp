// A sheet while it is being filled: whatever is put in and taken out, it stays a sheet that can be cut.
#include "solver/cutting/filled_sheet.h"

#include <algorithm>

#include "tests/catch.h"
#include "tests/solver/cut_jobs.h"
#include "tests/solver/every_cut.h"

using namespace evenmat;
using namespace evenmat::testing;
using cutting::CutLimits;
using cutting::FilledSheet;
using cutting::limits_of;
using cutting::Spot;

namespace {

struct Offer {
  std::size_t kind;
  Spot spot;
};

FilledSheet fresh(const Job& job, std::size_t on) {
  return {on, job.sheets[on].width + job.blade, job.sheets[on].height + job.blade};
}

std::vector<Offer> offers(const FilledSheet& sheet, const Job& job) {
  std::vector<Offer> all;
  for (std::size_t k = 0; k < job.kinds.size(); ++k) {
    const Kind& kind = job.kinds[k];
    if (job.sheets[sheet.sheet()].offcut && !kind.from_offcuts) continue;
    const auto take = [&](const Spot& spot) { all.push_back({k, spot}); };
    const Measure width = kind.width + job.blade;
    const Measure height = kind.height + job.blade;
    if (kind.upright) sheet.spots(width, height, false, limits_of(job), take);
    if (kind.turned) sheet.spots(height, width, true, limits_of(job), take);
  }
  return all;
}

std::vector<std::size_t> sorted(std::vector<std::size_t> kinds) {
  std::sort(kinds.begin(), kinds.end());
  return kinds;
}
std::vector<std::size_t> held_by(const FilledSheet& sheet) {
  std::vector<std::size_t> kinds;
  sheet.pieces(kinds);
  return sorted(kinds);
}

void check_sheet(const FilledSheet& sheet, const Job& job, const std::vector<std::size_t>& kinds) {
  const Part root = sheet.tree(job.blade);
  INFO(told(root));
  CHECK(judged_sheet(root, job, sheet.sheet()) == sound);
  CHECK(held_by(sheet) == sorted(kinds));
  std::vector<std::size_t> lying;
  std::int64_t area = 0;
  for (const Part& piece : pieces_of(root)) {
    lying.push_back(piece.kind);
    area += (piece.width + job.blade) * (piece.height + job.blade);
  }
  CHECK(sorted(lying) == sorted(kinds));
  CHECK(sheet.filled() == area);
  CHECK(sheet.is_empty() == kinds.empty());
}

}  // namespace

TEST_CASE("Pieces put in and taken out at random leave a sheet that can be cut, with all others on it") {
  for (unsigned seed = 1; seed <= 1500; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.largest = 20});
    const CutLimits limits = limits_of(job);
    const auto on = static_cast<std::size_t>(dice.between(0, static_cast<int>(job.sheets.size()) - 1));
    INFO(seed << ": " << told(job));
    FilledSheet sheet = fresh(job, on);
    std::vector<std::size_t> held;
    for (int move = 0; move < 60; ++move) {
      const std::vector<Offer> found = offers(sheet, job);
      if (!found.empty() && !dice.one_in(4)) {
        const Offer& offer = dice.any_of(found);
        sheet.put(offer.spot, offer.kind);
        held.push_back(offer.kind);
      } else if (!sheet.is_empty()) {
        std::vector<std::size_t> out;
        sheet.take(dice.one_in(12) ? 0 : dice.between(0, sheet.node_count() - 1), limits, out);
        for (const std::size_t kind : out) {
          const auto at = std::find(held.begin(), held.end(), kind);
          REQUIRE(at != held.end());
          held.erase(at);
        }
      }
      check_sheet(sheet, job, held);
    }
  }
}

TEST_CASE("Every spot that is offered is one that a piece can be cut from") {
  for (unsigned seed = 1; seed <= 400; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.largest = 16});
    INFO(seed << ": " << told(job));
    FilledSheet sheet = fresh(job, 0);
    std::vector<std::size_t> held;
    for (std::vector<Offer> found = offers(sheet, job); !found.empty(); found = offers(sheet, job)) {
      for (const Offer& offer : found) {
        FilledSheet tried = sheet;
        tried.put(offer.spot, offer.kind);
        std::vector<std::size_t> with = held;
        with.push_back(offer.kind);
        check_sheet(tried, job, with);
      }
      const Offer& taken = dice.any_of(found);
      sheet.put(taken.spot, taken.kind);
      held.push_back(taken.kind);
    }
  }
}

TEST_CASE("A sheet without room for a piece offers it no spot") {
  for (unsigned seed = 1; seed <= 1000; ++seed) {
    Dice dice(seed);
    const Job job = small_job(dice, {.largest = 20});
    INFO(seed << ": " << told(job));
    FilledSheet sheet = fresh(job, 0);
    for (std::vector<Offer> found = offers(sheet, job); !found.empty(); found = offers(sheet, job)) {
      for (const Offer& offer : found) {
        const Kind& kind = job.kinds[offer.kind];
        CHECK(sheet.has_room(std::min(kind.width, kind.height) + job.blade,
                             std::max(kind.width, kind.height) + job.blade));
      }
      const Offer& taken = dice.any_of(found);
      sheet.put(taken.spot, taken.kind);
    }
  }
}

// One piece is worth 1: it fits wherever some cuts give it.
TEST_CASE("An empty sheet offers a spot for a piece where any cuts at all can give it") {
  for (unsigned seed = 1; seed <= 1500; ++seed) {
    Dice dice(seed);
    Job job = small_job(dice, {.kinds = 1});
    INFO(seed << ": " << told(job));
    for (std::size_t s = 0; s < job.sheets.size(); ++s) {
      const bool possible = most_worth(job, s, {1}) > 0;
      CHECK(offers(fresh(job, s), job).empty() == !possible);
      CHECK(cutting::fits(job.kinds[0], job.sheets[s], job) == possible);
    }
  }
}

TEST_CASE("Taking out the one wide piece of a strip draws the strip in") {
  // 6 x 2 and 2 x 2 one above the other, in a strip 6 wide: without the first the strip is 2 wide.
  const Job job{{sheet(10, 4)}, {upright(pieces(1, 6, 2)), upright(pieces(2, 2, 2)), pieces(1, 8, 4)}};
  const CutLimits limits = limits_of(job);
  FilledSheet sheet = fresh(job, 0);
  const auto put = [&](std::size_t kind) {
    const std::vector<Offer> all = offers(sheet, job);
    const auto best = std::min_element(all.begin(), all.end(), [&](const Offer& a, const Offer& b) {
      return std::pair(a.kind != kind, a.spot.loss) < std::pair(b.kind != kind, b.spot.loss);
    });
    REQUIRE(best->kind == kind);
    sheet.put(best->spot, kind);
  };
  put(0);
  put(1);
  CHECK(held_by(sheet) == std::vector<std::size_t>{0, 1});
  for (int node = 1; node < sheet.node_count(); ++node) {
    FilledSheet without = sheet;
    std::vector<std::size_t> out;
    without.take(node, limits, out);
    if (out != std::vector<std::size_t>{0}) continue;
    check_sheet(without, job, {1});
    const std::vector<Offer> found = offers(without, job);
    CHECK(std::any_of(found.begin(), found.end(), [](const Offer& offer) { return offer.kind == 2; }));
    return;
  }
  FAIL("nothing takes out the wide piece alone");
}
