// How long a whole `evenmat size` or `check` process takes, and how much memory, as ratios to an empty Z3
// process in the same run.
//
// usage: bench_speed [RUNS]
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <optional>

#include "model/read_card.h"
#include "solver/search/nested_boxes.h"
#include "solver/size_card.h"
#include "solver/why/conflicts.h"
#include "tests/bench/cards.h"
#include "tests/bench/nest.h"
#include "tests/bench/processes.h"

namespace {

void tell_nest(std::size_t n) {
  const auto start = std::chrono::steady_clock::now();
  const evenmat::Rules rules = evenmat::testing::nest(n);
  const auto best = evenmat::largest_total(rules);
  const std::chrono::duration<double, std::milli> taken = std::chrono::steady_clock::now() - start;
  const bool held =
      best && std::all_of(rules.rules.begin(), rules.rules.end(),
                          [&](const evenmat::Rule& rule) { return evenmat::holds(rule, best->values); });
  fmt::print("{:44}{:9.1f} ms            {} in, {}\n", fmt::format("nest({}), largest total of sizes", n),
             taken.count(), best ? evenmat::fraction_text(best->total) : "nothing",
             held ? "every rule holds" : "RULES BROKEN");
}

using evenmat::Rules;

// Drops one wish after the other, from the last on, asking a fresh solver about all the rest each time.
std::size_t drop_one_at_a_time(const Rules& rules) {
  std::size_t wishes = 0;
  for (const evenmat::Rule& rule : rules.rules) wishes = std::max(wishes, rule.wish + 1);
  std::vector<bool> held(wishes, true);
  std::size_t kept = 0;
  for (std::size_t wish = wishes; wish-- > 1;) {
    held[wish] = false;
    evenmat::System system(rules.mark, rules.variables());
    for (std::size_t i = 0; i < rules.rectangles.size(); ++i) {
      using evenmat::Measure;
      if (rules.rectangles[i].width_on_marks) system.set_whole(evenmat::variable(i, Measure::width));
      if (rules.rectangles[i].height_on_marks) system.set_whole(evenmat::variable(i, Measure::height));
    }
    evenmat::Prover fresh(600, 0);
    fresh.describe(system);
    for (const evenmat::Rule& rule : rules.rules) {
      if (rule.origin == evenmat::Origin::stated && !held[rule.wish]) continue;
      evenmat::OpenChoice choice;
      for (const auto& relations : rule.choices) choice.options.push_back({relations, 0});
      fresh.require(choice);
    }
    if (fresh.possible()) {
      held[wish] = true;
      ++kept;
    }
  }
  return kept;
}

std::size_t first_conflict(const Rules& rules) {
  evenmat::Prover prover(600, 0);
  evenmat::Inquiry inquiry(rules, prover);
  std::size_t size = 0;
  evenmat::find_clashes(inquiry, [&](const evenmat::Clash& clash) {
    size = clash.wishes.size();
    return false;
  });
  return size;
}

template <typename Work>
std::pair<double, std::size_t> timed(Work work) {
  const auto start = std::chrono::steady_clock::now();
  const std::size_t result = work();
  return {std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count(),
          result};
}

void tell_conflict(const std::string& name, const std::string& text) {
  const Rules rules = evenmat::rules_of(*evenmat::read_card(text).card);
  const auto [slow, many] = timed([&] { return drop_one_at_a_time(rules); });
  auto [quick, few] = timed([&] { return first_conflict(rules); });
  for (int i = 0; i < 4; ++i) quick = std::min(quick, timed([&] { return first_conflict(rules); }).first);
  fmt::print(
      "{:44}{:9.1f} ms, of {} wishes; one at a time, each with a fresh solver: {:.1f} ms, of {}: {:.1f} "
      "times as long\n",
      name, quick, few, slow, many, slow / quick);
}

}  // namespace

int main(int count, char** arguments) {  // NOLINT(bugprone-exception-escape): as it should
  const int runs = count > 1 ? std::atoi(arguments[1]) : 15;
  const bench::Folder folder;
  const bench::Table table(bench::empty_z3(runs), runs);
  const auto tell = [&](const std::string& name, const std::string& text, int times) {
    table.line(name, bench::quickest({EVENMAT_PROGRAM, "size", folder.written("card", text)}, times));
  };
  tell("12 layers, order settled", bench::settled_twelve(), runs);
  tell("gate, 2 windows, 14 layers, order settled", bench::gate_of_fourteen(), runs);
  tell("12 layers, 3 loose siblings, no sizes", bench::with_loose(3), runs);
  tell("12 layers, 4 loose siblings, no sizes", bench::with_loose(4), runs);
  tell("12 layers, 5 loose siblings, no sizes", bench::with_loose(5), std::min(runs, 5));
  tell("12 layers, 6 loose siblings, no sizes", bench::with_loose(6), std::min(runs, 3));
  tell("12 layers, 6 loose siblings, one size", bench::with_loose(6, {{"size = \"1 x 1 1/4\""}}),
       std::min(runs, 3));
  tell("12 layers, 6 loose siblings, six sizes",
       bench::with_loose(6, {{"size = \"1 x 1\""},
                             {"size = \"1 1/8 x 1 1/4\""},
                             {"size = \"1 1/4 x 1\""},
                             {"size = \"7/8 x 1 1/2\""},
                             {"size = \"1 x 1 1/4\""},
                             {"size = \"3/4 x 3/4\""}}),
       std::min(runs, 3));
  tell("12 layers, 6 loose siblings, unlike ranges",
       bench::with_loose(6, {{"width = \"at least 1\"", "height = \"at most 2\""},
                             {"width = \"at least 1 1/8\"", "height = \"at most 1 1/2\""},
                             {"width = \"at least 1 1/4\"", "height = \"at most 1 3/4\""},
                             {"width = \"at least 7/8\"", "height = \"at most 2\""},
                             {"width = \"at least 1\"", "height = \"at most 2 1/2\""},
                             {"width = \"at least 3/4\"", "height = \"at most 1 1/4\""}}),
       1);
  tell("60 layers nested", bench::nested(60), runs);
  const auto tell_check = [&](const std::string& name, const std::string& text) {
    bench::Cost cost = bench::quickest({EVENMAT_PROGRAM, "check", folder.written("card", text)}, runs);
    cost.status = cost.status == 1 ? 0 : 1;  // it cannot be built
    table.line(name, cost);
  };
  tell_check("check: 12 layers, three faults", bench::three_faults());
  tell_check("check: 60 layers, one fault", bench::one_fault_in_sixty());

  tell_conflict("a conflict in 60 layers", bench::one_fault_in_sixty());
  tell_conflict("a conflict of all 60 layers, nested", bench::fault_of_sixty());

  tell_nest(12);
  tell_nest(20);
  return 0;
}
