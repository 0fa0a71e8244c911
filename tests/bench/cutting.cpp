// How few sheets the planner takes on published instances of two-dimensional bin packing with straight cuts
// and pieces that may turn, and how long it thinks. The instances are read from a folder, not kept here:
// class_NN.csv (instance, sheet width and height, piece width and height, copies), and best-known.csv
// (instance, sheets) where there is one.
//
// Classes 1 to 6: J. O. Berkey, P. Y. Wang, Journal of the Operational Research Society 38 (1987) 423-429.
// Classes 7 to 10: S. Martello, D. Vigo, Management Science 44 (1998) 388-399.
//
// usage: bench_cutting DIR [--limit SECONDS] [--looks N]
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "solver/cutting/plan_sheets.h"

namespace {

using evenmat::cutting::Effort;
using evenmat::cutting::Job;
using evenmat::cutting::Kind;
using evenmat::cutting::Layout;
using evenmat::cutting::Measure;
using evenmat::cutting::Part;
using evenmat::cutting::Sheet;
using evenmat::cutting::SheetPlan;
namespace files = std::filesystem;

struct Mistake : std::runtime_error {
  using std::runtime_error::runtime_error;
};

template <typename Number>
std::optional<Number> number_in(const std::string& text) {
  Number number{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size()) return {};
  return number;
}

// The rows below the first, which must be `head`: a name, then `numbers` whole numbers above 0.
struct Row {
  std::string name;
  std::vector<int> numbers;
};
std::vector<Row> rows_of(const files::path& path, const std::string& head, std::size_t numbers) {
  std::ifstream file(path);
  if (!file) throw Mistake(fmt::format("{} cannot be read.", path.string()));
  std::vector<Row> rows;
  std::string line;
  for (int at = 1; std::getline(file, line); ++at) {
    while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.pop_back();
    if (at == 1) {
      if (line != head)
        throw Mistake(fmt::format("{} begins with \"{}\", not with \"{}\".", path.string(), line, head));
      continue;
    }
    if (line.empty()) continue;
    std::vector<std::string> cells(1);
    for (const char c : line) {
      if (c == ',') {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    Row row{cells.front(), {}};
    for (std::size_t i = 1; i < cells.size(); ++i) {
      if (const auto number = number_in<int>(cells[i])) row.numbers.push_back(*number);
    }
    const bool is_right = cells.size() == numbers + 1 && row.numbers.size() == numbers && !row.name.empty() &&
                          std::all_of(row.numbers.begin(), row.numbers.end(), [](int n) { return n > 0; });
    if (!is_right) throw Mistake(fmt::format("{}, line {}: \"{}\" is no row.", path.string(), at, line));
    rows.push_back(std::move(row));
  }
  return rows;
}

struct Instance {
  std::string name;
  Job job;
};

// In the order of the file; pieces of one size, turned or not, are one kind.
std::vector<Instance> instances_in(const files::path& path) {
  std::vector<Instance> instances;
  std::map<std::string, std::size_t> known;
  for (const Row& row :
       rows_of(path, "instance,sheet_width,sheet_height,piece_width,piece_height,copies", 5)) {
    const auto [at, is_new] = known.emplace(row.name, instances.size());
    const Measure wide = row.numbers[0];
    const Measure high = row.numbers[1];
    if (is_new) instances.push_back({row.name, Job{{Sheet{wide, high, {}, 1, false}}, {}}});
    Job& job = instances[at->second].job;
    if (job.sheets.front().width != wide || job.sheets.front().height != high)
      throw Mistake(fmt::format("{}: {} has sheets of two sizes.", path.string(), row.name));
    Kind kind;
    kind.width = row.numbers[2];
    kind.height = row.numbers[3];
    kind.count = row.numbers[4];
    const auto same = std::find_if(job.kinds.begin(), job.kinds.end(), [&](const Kind& one) {
      return std::minmax(one.width, one.height) == std::minmax(kind.width, kind.height);
    });
    if (same != job.kinds.end()) {
      same->count += kind.count;
    } else {
      job.kinds.push_back(kind);
    }
  }
  return instances;
}

// "", or what is wrong: walks down the cuts with no help of the planner's. Takes the pieces it finds off
// `wanted`.
std::string fault_of(const Part& part, Measure x, Measure y, Measure width, Measure height, const Job& job,
                     std::vector<int>& wanted) {
  if (part.x != x || part.y != y || part.width != width || part.height != height)
    return "a part is not where the cuts leave it";
  if (part.what == Part::What::waste) return part.parts.empty() ? "" : "waste that is cut";
  if (part.what == Part::What::piece) {
    if (part.kind >= job.kinds.size()) return "a piece of no kind";
    const Kind& kind = job.kinds[part.kind];
    const bool fits = part.turned ? width == kind.height && height == kind.width
                                  : width == kind.width && height == kind.height;
    --wanted[part.kind];
    return fits && part.parts.empty() ? "" : "a piece of another size than its kind";
  }
  if (part.parts.size() < 2) return "a cut that parts nothing";
  Measure at = 0;
  for (const Part& one : part.parts) {
    const Measure length = part.across ? one.height : one.width;
    if (length <= 0) return "a part without size";
    std::string fault = part.across ? fault_of(one, x, y + at, width, length, job, wanted)
                                    : fault_of(one, x + at, y, length, height, job, wanted);
    if (!fault.empty()) return fault;
    at += length;
  }
  return at == (part.across ? height : width) ? "" : "parts that are not as long together as what was cut";
}

std::string fault_of(const SheetPlan& plan, const Job& job) {
  std::vector<int> wanted;
  for (const Kind& kind : job.kinds) wanted.push_back(kind.count);
  const Sheet& sheet = job.sheets.front();
  std::int64_t sheets = 0;
  for (const Layout& layout : plan.layouts) {
    if (layout.sheet != 0 || layout.times < 1) return "a layout of no sheet";
    std::vector<int> left = wanted;
    if (std::string fault = fault_of(layout.root, 0, 0, sheet.width, sheet.height, job, left); !fault.empty())
      return fault;
    for (std::size_t k = 0; k < wanted.size(); ++k) wanted[k] -= layout.times * (wanted[k] - left[k]);
    sheets += layout.times;
  }
  if (std::any_of(wanted.begin(), wanted.end(), [](int count) { return count != 0; }))
    return "not all pieces, or too many";
  if (sheets != plan.cost) return "sheets counted wrongly";
  if (plan.at_least > plan.cost) return "a bound above the plan";
  return "";
}

double processor_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

struct Sums {
  int instances = 0, proven = 0;
  std::int64_t sheets = 0, at_least = 0;
  std::int64_t known = 0;
  bool all_known = true;
  double seconds = 0, worst = 0;

  void add(const Sums& other) {
    instances += other.instances;
    proven += other.proven;
    sheets += other.sheets;
    at_least += other.at_least;
    known += other.known;
    all_known = all_known && other.all_known;
    seconds += other.seconds;
    worst = std::max(worst, other.worst);
  }
  void tell(const std::string& name) const {
    fmt::print("{:10}{:>10}{:>8}{:>12}{:>10}{:>8}{:>10.3f}{:>10.3f}\n", name, instances, sheets,
               all_known ? std::to_string(known) : "-", at_least, proven, seconds / std::max(1, instances),
               worst);
    std::fflush(stdout);
  }
};

struct Bench {
  Effort effort;
  std::map<std::string, int> known;
  std::vector<std::string> worse = {}, better = {}, faults = {};

  Sums plan(const std::vector<Instance>& instances) {
    Sums sums;
    for (const auto& [name, job] : instances) {
      const double before = processor_seconds();
      const auto plan = plan_sheets(job, effort);
      const double taken = processor_seconds() - before;
      const std::string fault = plan ? fault_of(*plan, job) : "no plan";
      if (!fault.empty()) faults.push_back(fmt::format("{}: {}", name, fault));
      if (!plan) continue;
      Sums one{1, plan->cost == plan->at_least ? 1 : 0, plan->cost, plan->at_least, 0, false, taken, taken};
      if (const auto best = known.find(name); best != known.end()) {
        one.known = best->second;
        one.all_known = true;
        const std::string told =
            fmt::format("{} {} (best known {}, bound {})", name, plan->cost, best->second, plan->at_least);
        if (plan->cost > best->second) worse.push_back(told);
        if (plan->cost < best->second) better.push_back(told);
      }
      sums.add(one);
    }
    return sums;
  }
};

void list(const std::string& what, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  fmt::print("\n{}:\n", what);
  for (const std::string& line : lines) fmt::print("  {}\n", line);
}

struct Words {
  files::path folder;
  Effort effort;
};

Words words_of(const std::vector<std::string>& arguments) {
  Words words;
  words.effort.limit = 2;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& word = arguments[i];
    if (word == "--limit" || word == "--looks") {
      const auto number = i + 1 < arguments.size() ? number_in<double>(arguments[i + 1]) : std::nullopt;
      if (!number || !(*number > 0 && *number < 1e15)) throw Mistake(word + " wants a number above 0.");
      if (word == "--limit") words.effort.limit = *number;
      if (word == "--looks") words.effort.looks = static_cast<std::int64_t>(*number);
      ++i;
    } else if (words.folder.empty() && word.rfind("--", 0) != 0) {
      words.folder = word;
    } else {
      throw Mistake(fmt::format("\"{}\" is not understood.", word));
    }
  }
  if (words.folder.empty()) throw Mistake("A folder of instances is wanted.");
  return words;
}

std::vector<files::path> classes_in(const files::path& folder) {
  if (!files::is_directory(folder)) throw Mistake(fmt::format("{} is no folder.", folder.string()));
  std::vector<files::path> classes;
  for (const files::directory_entry& entry : files::directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    if (name.rfind("class_", 0) == 0 && entry.path().extension() == ".csv") classes.push_back(entry.path());
  }
  std::sort(classes.begin(), classes.end());
  if (classes.empty()) throw Mistake(fmt::format("{} has no class_NN.csv in it.", folder.string()));
  return classes;
}

int measure(const std::vector<std::string>& arguments) {
  const Words words = words_of(arguments);
  const std::vector<files::path> classes = classes_in(words.folder);
  Bench bench{words.effort, {}};
  const files::path best = words.folder / "best-known.csv";
  if (files::exists(best)) {
    for (const Row& row : rows_of(best, "instance,sheets", 1)) bench.known[row.name] = row.numbers[0];
  }
  fmt::print("{:10}{:>10}{:>8}{:>12}{:>10}{:>8}{:>10}{:>10}\n", "", "instances", "sheets", "best known",
             "at least", "proven", "mean s", "worst s");
  Sums all;
  for (const files::path& path : classes) {
    const Sums sums = bench.plan(instances_in(path));
    sums.tell(path.stem().string());
    all.add(sums);
  }
  all.tell("all");
  list("More sheets than the best known", bench.worse);
  list("Fewer sheets than the best known", bench.better);
  list("FAULTS", bench.faults);
  return bench.faults.empty() ? 0 : 1;
}

}  // namespace

int main(int count, char** arguments) {  // NOLINT(bugprone-exception-escape): as it should
  try {
    return measure({arguments + 1, arguments + count});
  } catch (const Mistake& mistake) {
    fmt::print(stderr, "{}\nusage: cutting DIR [--limit SECONDS] [--looks N]\n", mistake.what());
    return 2;
  }
}
