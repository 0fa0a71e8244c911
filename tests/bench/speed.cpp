// How long a whole `evenmat size` or `check` process takes, and how much memory, as ratios to an empty Z3
// process in the same run. Each process is run several times; the quickest run counts, for everything else in
// a run is the machine's own doing.
//
// usage: bench_speed [RUNS]
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>

#include "model/read_card.h"
#include "solver/search/nested_boxes.h"
#include "solver/size_card.h"
#include "solver/why/conflicts.h"
#include "tests/bench/cards.h"
#include "tests/bench/nest.h"

extern char** environ;

namespace {

struct Cost {
  double milliseconds = 1e9;
  double mebibytes = 0;
  int status = 0;
};

Cost run_once(std::vector<std::string> words) {
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  const auto start = std::chrono::steady_clock::now();
  pid_t child = 0;
  if (posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ) != 0) std::abort();
  int status = 0;
  rusage usage{};
  wait4(child, &status, 0, &usage);
  const std::chrono::duration<double, std::milli> taken = std::chrono::steady_clock::now() - start;
  posix_spawn_file_actions_destroy(&actions);
  return {taken.count(), static_cast<double>(usage.ru_maxrss) / 1024, WEXITSTATUS(status)};
}

Cost quickest(const std::vector<std::string>& words, int runs) {
  Cost best;
  for (int i = 0; i < runs; ++i) {
    const Cost cost = run_once(words);
    best.milliseconds = std::min(best.milliseconds, cost.milliseconds);
    best.mebibytes = std::max(best.mebibytes, cost.mebibytes);
    best.status = std::max(best.status, cost.status);
  }
  return best;
}

std::string written(const std::filesystem::path& folder, const std::string& name, const std::string& text) {
  const std::filesystem::path path = folder / (name + ".toml");
  std::ofstream(path) << text;
  return path.string();
}

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
  std::string folder_name = (std::filesystem::temp_directory_path() / "evenmat-bench-XXXXXX").string();
  if (mkdtemp(folder_name.data()) == nullptr) return 1;
  const std::filesystem::path folder = folder_name;

  const std::filesystem::path here = std::filesystem::read_symlink("/proc/self/exe").parent_path();
  const Cost unit = quickest({(here / "bench_empty_z3").string()}, runs);
  fmt::print("{:44}{:>12}{:>8}{:>12}{:>8}\n", "whole process, quickest of " + std::to_string(runs), "time",
             "ratio", "memory", "ratio");
  const auto line = [&](const std::string& name, const Cost& cost) {
    fmt::print("{:44}{:9.1f} ms{:8.2f}{:8.1f} MiB{:8.2f}{}\n", name, cost.milliseconds,
               cost.milliseconds / unit.milliseconds, cost.mebibytes, cost.mebibytes / unit.mebibytes,
               cost.status == 0 ? "" : "  FAILED");
  };
  line("an empty Z3 process", unit);
  const auto tell = [&](const std::string& name, const std::string& text, int times) {
    line(name, quickest({EVENMAT_PROGRAM, "size", written(folder, "card", text)}, times));
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
    Cost cost = quickest({EVENMAT_PROGRAM, "check", written(folder, "card", text)}, runs);
    cost.status = cost.status == 1 ? 0 : 1;  // it cannot be built
    line(name, cost);
  };
  tell_check("check: 12 layers, three faults", bench::three_faults());
  tell_check("check: 60 layers, one fault", bench::one_fault_in_sixty());
  std::filesystem::remove_all(folder);

  tell_conflict("a conflict in 60 layers", bench::one_fault_in_sixty());
  tell_conflict("a conflict of all 60 layers, nested", bench::fault_of_sixty());

  tell_nest(12);
  tell_nest(20);
  return 0;
}
