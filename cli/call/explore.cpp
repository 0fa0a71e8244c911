#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <optional>
#include <string_view>
#include <utility>

#include "cli/call/commands.h"
#include "cli/call/drawn.h"
#include "cli/call/mistaken.h"
#include "cli/explore/words.h"
#include "model/words.h"

namespace evenmat {
namespace {

// From 1 on, and nothing beside it.
std::optional<std::size_t> number_in(std::string_view text) {
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < 1) return {};
  return number;
}

constexpr std::size_t most_shown = 1'000'000'000;

// The changes of --set and --vary, in the order in which the call has them.
std::vector<CallChange> in_order(const CLI::App& explore, const ExploreWords& words) {
  std::vector<CallChange> changes;
  std::size_t set = 0;
  std::size_t vary = 0;
  for (const CLI::Option* option : explore.parse_order()) {
    const std::string name = option->get_name();
    if (name == "--set") changes.push_back({false, words.set.at(set++)});
    if (name == "--vary") changes.push_back({true, words.vary.at(vary++)});
  }
  return changes;
}

// Options of which one would be left unheard, as a sentence; empty if there are none.
std::string at_odds(const CLI::App& explore) {
  struct Pair {
    const char* one;
    const char* other;
    const char* why;
  };
  static constexpr Pair pairs[] = {
      {"--json", "--csv", "an answer is one or the other"},
      {"--fit", "--show", "it looks for the one card that suits the paper best"},
      {"--fit", "--best", "it looks for the one card that suits the paper best"},
      {"--on", "--fit", "it sizes the design once on each base"},
      {"--on", "--best", "it sizes the design once on each base"},
      {"--on", "--show", "it sizes the design once on each base"},
      {"--on", "--draw", "it sizes the design once on each base"},
      {"--on", "--write", "it sizes the design once on each base"},
      {"--on", "--keep-same", "on another base no size need be the same"},
  };
  for (const Pair& pair : pairs) {
    if (explore.count(pair.one) > 0 && explore.count(pair.other) > 0)
      return fmt::format("{} cannot go with {}: {}.", pair.one, pair.other, pair.why);
  }
  if (explore.count("--most") > 0 && explore.count("--fit") == 0) return "--most is of use only with --fit.";
  if (explore.count("--force") > 0 && explore.count("--write") == 0 && explore.count("--draw") == 0) {
    return "--force is of use only with --write or --draw.";
  }
  return {};
}

}  // namespace

const std::string_view explore_examples = R"(
Examples:
  evenmat explore thanks.toml               the cards within its wishes that
                                            differ most, and what each takes
  evenmat explore thanks.toml --best sheets the fewest sheets first
  evenmat explore thanks.toml --vary "plum mat.border=1/16 to 1/4"
                                            that border against all the rest
  evenmat explore thanks.toml --set "plum mat.border=1/8" --keep-same photo
                                            with that stated and the photo as it
                                            is
  evenmat explore thanks.toml --fit         the sizes that come out of the paper
                                            on hand, or take the fewest sheets
  evenmat explore thanks.toml --on "us A2, us A7, iso A6"
                                            the same design on other bases
  evenmat explore thanks.toml --write 3 new.toml
                                            card 3 of the list as a card file
  evenmat explore thanks.toml --draw all.pdf
                                            the cards of the list side by side

What is open is what the card file leaves so: ranges, "about", borders and sizes
that it does not state, rules with "or". One --vary alone makes a table of that
number; several, or one with --show, open more beside what is open. RANGE and
VALUE are written as in a card file, NAME is a layer, a window or base. The file
that is read is never written over, another one only with --force.
)";

CLI::App* add_explore(CLI::App& app, ExploreWords& words) {
  CLI::App* explore = app.add_subcommand("explore", "Show what else could be made of a card");
  explore->allow_extras()->group("Commands");
  explore->add_option("FILE", words.call.file, "The card file, or - for standard input")
      ->option_text(" ")
      ->required();
  const auto repeated = [&](const char* name, std::vector<std::string>& into, const char* what,
                            const char* says) {
    explore->add_option(name, into, says)->option_text(what)->allow_extra_args(false);
  };
  repeated("--vary", words.vary, "NAME.key=RANGE", "Let this vary; may be said again");
  repeated("--set", words.set, "NAME.key=VALUE", "State this value; may be said again");
  repeated("--keep-same", words.call.keep_same, "NAME", "Keep its size; may be said again");
  explore->add_option("--show", words.show, "Show so many cards, or all (8)")->option_text("N");
  explore->add_option("--best", words.best, "sheets, cost, waste, border, seen or thickness")
      ->option_text("WHAT");
  explore->add_flag("--fit", words.call.fit, "The sizes that suit the paper on hand");
  explore->add_flag("--most", words.call.most, "With --fit: those that give the most cards");
  explore->add_option("--on", words.on, "The same design on these bases")->option_text("\"SIZES\"");
  explore->add_option("--write", words.write, "Write card N as a card file")
      ->option_text("N OUT.toml")
      ->expected(2)
      ->multi_option_policy(CLI::MultiOptionPolicy::Throw);
  explore->add_option("--draw", words.draw, "Draw the cards shown side by side")->option_text("OUT.pdf");
  explore->add_flag("--force", words.call.force, "Write over a file that is there");
  explore->add_option("--limit", words.limit, "Stop after so long (30)")->option_text("SECONDS");
  explore->add_flag("--json", words.call.json, "Answer with one JSON object");
  explore->add_flag("--csv", words.call.csv, "Answer with a line for each card");
  return explore;
}

Call explore_call(const CLI::App& explore, ExploreWords words) {
  ExploreCall& call = words.call;
  const auto wrong = [&](const std::string& says) { return mistaken(says, "explore", call.json); };
  const std::string odd = at_odds(explore);
  if (!odd.empty()) return wrong(odd);
  call.changes = in_order(explore, words);
  if (explore.count("--show") > 0) {
    const std::optional<std::size_t> number =
        words.show == "all" ? std::optional<std::size_t>(0) : number_in(words.show);
    if (!number) {
      return wrong(fmt::format("--show takes a number of cards, such as 8, or all, and {} is neither.",
                               in_quotes(words.show)));
    }
    call.show = std::min(*number, most_shown);
  }
  if (explore.count("--best") > 0) {
    call.best = best_called(words.best);
    if (!call.best) {
      return wrong(fmt::format("--best takes {}, and not {}.{}", either(best_names()), in_quotes(words.best),
                               offer(words.best, best_names())));
    }
  }
  if (explore.count("--on") > 0) call.on = words.on;
  if (explore.count("--write") > 0) {
    const std::optional<std::size_t> number = number_in(words.write.front());
    if (!number) {
      return wrong(fmt::format("--write takes the number of a card and then a file, and {} is no number.",
                               in_quotes(words.write.front())));
    }
    call.write = WriteCall{*number, words.write.back()};
  }
  if (explore.count("--draw") > 0) {
    const std::string trouble = trouble_with_ending(words.draw);
    if (!trouble.empty()) return wrong(trouble);
    call.draw = words.draw;
  }
  if (auto late = take_limit(words.limit, call.limit, "explore", call.json)) return *late;
  return call;
}

}  // namespace evenmat
