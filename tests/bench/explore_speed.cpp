// How fast cards within a card's wishes are found and proven: in one process, against a fresh solver for each
// of the same cards, which settles everything but what equations do; and whole `evenmat explore` processes,
// as ratios to an empty Z3 process in the same run.
//
// usage: bench_explore_speed [RUNS]
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

#include "model/read_card.h"
#include "solver/explore/amounts.h"
#include "solver/explore/on_all_cores.h"
#include "solver/explore/space.h"
#include "solver/explore/stated.h"
#include "solver/search/choose.h"
#include "solver/search/system_of.h"
#include "tests/bench/cards.h"
#include "tests/bench/processes.h"

namespace {

using evenmat::Card;
using evenmat::exploring::Amounts;
using Clock = std::chrono::steady_clock;

double milliseconds(Clock::time_point from) {
  return std::chrono::duration<double, std::milli>(Clock::now() - from).count();
}

// A spread of so many of them.
std::vector<Amounts> some_of(const std::vector<Amounts>& all, std::size_t count) {
  std::vector<Amounts> some;
  for (std::size_t i = 0; i < std::min(count, all.size()); ++i)
    some.push_back(all[i * all.size() / std::min(count, all.size())]);
  return some;
}

void tell_alternatives(const std::string& name, const std::string& text) {
  const Card card = *evenmat::read_card(text).card;
  const auto listed_from = Clock::now();
  evenmat::exploring::Space space(card, 60, {});
  const evenmat::exploring::Listing listing = space.list(evenmat::most_counted);
  const double listed = milliseconds(listed_from);
  const std::vector<Amounts> some = some_of(listing.cards, 400);

  const auto ours_from = Clock::now();
  std::vector<char> buildable(some.size(), 0);
  evenmat::exploring::on_all_cores(some.size(), [&](std::size_t i) {
    const auto made = space.card_of(some[i]);
    buildable[i] = made && made->verdict == evenmat::Verdict::buildable ? 1 : 0;
  });
  const double ours = milliseconds(ours_from);

  // The same cards, each chosen by a solver that knows nothing yet.
  evenmat::System system = evenmat::system_of(evenmat::rules_of(card));
  system.settle();
  const std::vector<evenmat::exploring::Amount> amounts =
      evenmat::exploring::open_amounts(card, evenmat::rules_of(card), system, space.sized().lengths);
  const std::vector<Amounts> few = some_of(some, 20);
  const auto fresh_from = Clock::now();
  std::size_t agreed = 0;
  for (const Amounts& one : few) {
    const evenmat::Rules rules = evenmat::rules_of(evenmat::exploring::with_stated(card, amounts, one));
    const auto chosen = evenmat::choose(rules, {.limit = 60, .seed = 0, .shortcuts = false});
    agreed +=
        chosen.outcome == evenmat::Outcome::found && chosen.values == space.card_of(one)->lengths ? 1 : 0;
  }
  const double fresh = milliseconds(fresh_from) / static_cast<double>(few.size());
  const double each = ours / static_cast<double>(some.size());
  fmt::print("{}: {}{} cards listed in {:.1f} ms ({:.0f} a second)\n", name, listing.at_least,
             listing.complete ? "" : " or more", listed,
             1000.0 * static_cast<double>(listing.at_least) / listed);
  fmt::print(
      "  chosen whole: {:.0f} a second, {} of {} buildable; a fresh solver {:.2f} ms each, {:.1f} times as "
      "long; {} of {} agree\n",
      1000 / each, std::count(buildable.begin(), buildable.end(), 1), some.size(), fresh, fresh / each,
      agreed, few.size());
}

// Three papers, each with layers of its own.
std::string three_papers(const std::string& border, int cards) {
  std::string text = fmt::format("cards = {}\n", cards) + bench::base("side", "4 1/4 x 5 1/2");
  const auto paper = [](const std::string& name) { return "paper = \"" + name + "\""; };
  text += bench::layer("mat", "mat", "front", {"border = \"" + border + "\"", paper("slate")});
  text += bench::layer("print", "panel", "mat", {"border = \"1/16 to 1/8\"", paper("fern print")});
  text += bench::layer("words", "sentiment", "print",
                       {"artwork = \"2 x 1/2\"", "margin = \"1/8 to 1/4\"", paper("chalk")});
  text += bench::layer("note", "panel", "inside", {"border = \"1/4 to 1/2\"", paper("chalk")});
  for (const char* name : {"slate", "fern print", "chalk"})
    text += fmt::format("[[paper]]\nname = \"{}\"\nsheet = \"8 1/2 x 11\"\nthickness = \"0.010\"\n\n", name);
  return text;
}

}  // namespace

int main(int count, char** arguments) {  // NOLINT(bugprone-exception-escape): as it should
  const int runs = count > 1 ? std::atoi(arguments[1]) : 5;
  tell_alternatives("12 layers, order settled", bench::settled_twelve());
  tell_alternatives("3 papers, 4 layers", three_papers("1/16 to 1/4", 12));

  const bench::Folder folder;
  const bench::Table table(bench::empty_z3(runs), runs);
  const auto tell = [&](const std::string& name, const std::string& text, std::vector<std::string> words) {
    const std::string file = folder.written("card", text);
    words.insert(words.begin(), {EVENMAT_PROGRAM, "explore", file});
    table.line(name, bench::quickest(words, runs));
  };
  tell("explore: 12 layers, order settled", bench::settled_twelve(), {});
  tell("explore: 3 papers, all cards compared", three_papers("1/16 to 1/4", 12), {});
  tell("explore: a sweep of 32 borders, 3 papers", three_papers("1/16 to 1/4", 12),
       {"--vary", "mat.border=1/16 to 2"});
  tell("explore: fitting 12 cards of 3 papers", three_papers("1/16 to 1/4", 12), {"--fit"});
  return 0;
}
