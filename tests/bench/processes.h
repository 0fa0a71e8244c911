// Whole processes, timed: each is run several times, and the quickest run counts, for everything else in a
// run is the machine's own doing. The unit that times are told in is an empty Z3 process.
#pragma once

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace bench {

struct Cost {
  double milliseconds = 1e9;
  double mebibytes = 0;
  int status = 0;
};

// Its output goes to `out`.
inline Cost run_once(std::vector<std::string> words, const std::string& out = "/dev/null") {
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
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

inline Cost quickest(const std::vector<std::string>& words, int runs) {
  Cost best;
  for (int i = 0; i < runs; ++i) {
    const Cost cost = run_once(words);
    best.milliseconds = std::min(best.milliseconds, cost.milliseconds);
    best.mebibytes = std::max(best.mebibytes, cost.mebibytes);
    best.status = std::max(best.status, cost.status);
  }
  return best;
}

inline Cost empty_z3(int runs) {
  const std::filesystem::path here = std::filesystem::read_symlink("/proc/self/exe").parent_path();
  return quickest({(here / "bench_empty_z3").string()}, runs);
}

// Lines of a table: a process, its time and memory, and both in units.
class Table {
 public:
  Table(const Cost& unit, int runs) : unit_(unit) {
    fmt::print("{:44}{:>12}{:>8}{:>12}{:>8}\n", "whole process, quickest of " + std::to_string(runs), "time",
               "ratio", "memory", "ratio");
    line("an empty Z3 process", unit);
  }
  void line(const std::string& name, const Cost& cost, const std::string& more = "") const {
    fmt::print("{:44}{:9.1f} ms{:8.2f}{:8.1f} MiB{:8.2f}{}{}\n", name, cost.milliseconds,
               cost.milliseconds / unit_.milliseconds, cost.mebibytes, cost.mebibytes / unit_.mebibytes, more,
               cost.status == 0 ? "" : "  FAILED");
  }

 private:
  Cost unit_;
};

// A folder of its own, gone at the end.
class Folder {
 public:
  Folder() : path_((std::filesystem::temp_directory_path() / "evenmat-bench-XXXXXX").string()) {
    if (mkdtemp(path_.data()) == nullptr) std::abort();
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string file(const std::string& name) const { return path_ + "/" + name; }
  // A card file.
  [[nodiscard]] std::string written(const std::string& name, const std::string& text) const {
    std::ofstream(file(name + ".toml")) << text;
    return file(name + ".toml");
  }

 private:
  std::string path_;
};

}  // namespace bench
