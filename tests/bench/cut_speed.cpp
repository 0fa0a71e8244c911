// How long a whole `evenmat cut` process takes, as ratios to an empty Z3 process in the same run: the batches
// of cases/, and cards of eight pieces in growing numbers. Said beside each: how many sheets, and whether it
// is proven that no plan takes fewer.
//
// usage: bench_cut_speed [RUNS]
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/bench/cards.h"
#include "tests/bench/processes.h"

namespace {

// "14 sheets, all proven".
std::string told(const std::string& json_file) {
  std::ifstream file(json_file);
  const nlohmann::json plan = nlohmann::json::parse(file, nullptr, false);
  if (!plan.is_object() || !plan.contains("papers")) return "  no plan";
  int sheets = 0;
  std::string open;
  for (const nlohmann::json& paper : plan["papers"]) {
    sheets += paper["sheets"].get<int>();
    if (!paper["proven"].get<bool>()) open += (open.empty() ? "" : ", ") + paper["paper"].get<std::string>();
  }
  return fmt::format("  {} sheets, {}", sheets, open.empty() ? "all proven" : "NOT PROVEN: " + open);
}

// Eight pieces, each on the one before, their papers dealt in turn.
std::string of_eight(int cards, const std::vector<std::string>& papers, const std::string& paper_keys) {
  const std::vector<std::string> sizes{"4 x 5 1/4",     "3 3/4 x 5",     "3 1/2 x 4 1/2", "3 x 4",
                                       "2 1/2 x 3 1/2", "2 1/4 x 2 1/2", "1 x 2"};
  const auto paper = [&](std::size_t i) { return "paper = \"" + papers[i % papers.size()] + "\""; };
  std::string text = fmt::format("cards = {}\n\n[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n{}\n\n",
                                 cards, paper(0));
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const std::string on = i == 0 ? "front" : fmt::format("piece {}", i);
    text += bench::layer(fmt::format("piece {}", i + 1), "mat", on,
                         {"size = \"" + sizes[i] + "\"", paper(i + 1)});
  }
  for (const std::string& name : std::set<std::string>(papers.begin(), papers.end()))
    text += fmt::format("[[paper]]\nname = \"{}\"\nsheet = \"8 1/2 x 11\"\n{}\n", name, paper_keys);
  return text;
}

}  // namespace

int main(int count, char** arguments) {  // NOLINT(bugprone-exception-escape): as it should
  const int runs = count > 1 ? std::atoi(arguments[1]) : 15;
  const bench::Folder folder;
  const bench::Table table(bench::empty_z3(runs), runs);

  const auto tell = [&](const std::string& name, std::vector<std::string> words, int times, int status = 0) {
    words.insert(words.begin(), {EVENMAT_PROGRAM, "cut"});
    bench::Cost cost = bench::quickest(words, times);
    cost.status = cost.status == status ? 0 : 1;
    words.emplace_back("--json");
    bench::run_once(words, folder.file("plan.json"));
    table.line(name, cost, told(folder.file("plan.json")));
  };
  const std::string cases = EVENMAT_SOURCE "/cases/";
  const auto tell_case = [&](const std::string& name, const std::vector<std::string>& more = {},
                             int status = 0) {
    std::vector<std::string> words{cases + name + ".toml"};
    words.insert(words.end(), more.begin(), more.end());
    tell(name, words, runs, status);
  };
  tell_case("bat-count");
  tell_case("forest-walk");
  tell_case("swift-tower");
  tell_case("goat-fair", {}, 1);  // short of paper
  tell_case("quince-tags", {"--also", cases + "leftovers/jam-shelf.toml"});

  const auto tell_eight = [&](int cards, const std::string& name, const std::vector<std::string>& papers,
                              const std::string& keys = "") {
    tell(fmt::format("{} cards of eight pieces, {}", cards, name),
         {folder.written("eight", of_eight(cards, papers, keys))}, std::min(runs, 3));
  };
  for (const int cards : {20, 200, 2000, 20'000}) {
    tell_eight(cards, "four papers", {"clay", "moss", "rust", "slate"});
    tell_eight(cards, "one paper", {"clay"});
    tell_eight(cards, "blade 1/32", {"clay"}, "\n[trimmer]\nblade-loss = \"1/32\"\n");
  }
  return 0;
}
