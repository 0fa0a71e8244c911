// How long it takes to tell what is seen of sheets lying over one another: upright ones in heaps that overlap
// heavily, on marks of 1/16, at twice the number each time; beside it how n^2 log n would grow. Then sheets
// with huge denominators, and turned ones with openings. One thread; the quickest of several runs counts.
//
// usage: bench_seen [RUNS]
#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

#include "solver/body/sheets.h"
#include "tests/solver/dice.h"

namespace {

using namespace evenmat;

// So many sheets that each corner has its own place, a quarter as wide and tall as the heap on average.
std::vector<Sheet> heap(int n, const Rational& unit) {
  testing::Dice dice(1);
  std::vector<Sheet> sheets;
  const auto length = [&](int low, int high) { return dice.between(low, high) * unit; };
  for (int i = 0; i < n; ++i) {
    sheets.push_back(
        {upright(length(0, 8 * n), length(0, 8 * n), length(1, 8 * n), length(1, 8 * n)), {}, 1});
  }
  return sheets;
}

// Each by its own angle, with sine and cosine from a fine rational tangent of its half, as tilted layers
// have.
std::vector<Sheet> turned_heap(int n, int openings) {
  testing::Dice dice(2);
  std::vector<Sheet> sheets;
  for (int i = 0; i < n; ++i) {
    const Rational tangent =
        Rational(dice.between(-999'999'999, 999'999'999)) / 1'000'000'000'000'000 * 999'999;
    const Rational cos = (1 - tangent * tangent) / (1 + tangent * tangent);
    const Rational sin = 2 * tangent / (1 + tangent * tangent);
    const Point centre{Rational(dice.between(32, 48)) / 16, Rational(dice.between(32, 48)) / 16};
    const auto turned = [&](int left, int top, int width, int height) {
      Quad quad =
          upright(Rational(left) / 16, Rational(top) / 16, Rational(width) / 16, Rational(height) / 16);
      for (Point& p : quad) {
        p = {centre.x + cos * p.x - sin * p.y, centre.y + sin * p.x + cos * p.y};
      }
      return quad;
    };
    const int half = dice.between(8, 40);
    Sheet sheet{turned(-half, -half, 2 * half, 2 * half), {}, 1};
    for (int k = 0; k < openings; ++k) {
      sheet.openings.push_back(turned(dice.between(-half, half / 2), dice.between(-half, half / 2),
                                      dice.between(2, half), dice.between(2, half)));
    }
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

double quickest(const std::vector<Sheet>& sheets, int runs) {
  double best = 1e9;
  for (int i = 0; i < runs; ++i) {
    const auto start = std::chrono::steady_clock::now();
    const std::vector<Areas> all = areas(sheets);
    const std::chrono::duration<double, std::milli> taken = std::chrono::steady_clock::now() - start;
    if (all.front().seen != all.front().paper) std::abort();
    best = std::min(best, taken.count());
  }
  return best;
}

}  // namespace

int main(int count, char** arguments) {  // NOLINT(bugprone-exception-escape): as it should
  const int runs = std::max(1, count > 1 ? std::atoi(arguments[1]) : 15);
  const auto growth = [](double n) { return n * n * std::log2(n); };
  double before = 0;
  fmt::print("{:44}{:>12}{:>12}{:>14}\n", "overlapping rectangles", "time", "ratio", "n^2 log n");
  for (const int n : {50, 100, 200, 400, 800}) {
    const double time = quickest(heap(n, Rational(1, 16)), runs);
    fmt::print("{:44}{:9.2f} ms", n, time);
    if (before > 0) fmt::print("{:12.2f}{:14.2f}", time / before, growth(n) / growth(n / 2.0));
    fmt::print("\n");
    before = time;
  }
  const auto tell = [&](const std::string& name, const std::vector<Sheet>& sheets) {
    fmt::print("{:44}{:9.2f} ms\n", name, quickest(sheets, std::min(runs, 3)));
  };
  const Rational fine(1, 1'000'000'000'000'000'003);
  tell("200, in units of about 1e-18", heap(200, fine));
  tell("600, in units of about 1e-18", heap(600, fine));
  tell("40 turned, two openings in each", turned_heap(40, 2));
  tell("40 turned, five openings in each", turned_heap(40, 5));
  return 0;
}
