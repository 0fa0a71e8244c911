#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <string_view>

#include "cli/call/commands.h"
#include "cli/call/mistaken.h"
#include "model/words.h"

namespace evenmat {
namespace {

// "2,5": numbers from 1 on, blanks around them allowed. Empty when it is anything else.
std::vector<std::size_t> change_numbers(std::string_view text) {
  std::vector<std::size_t> numbers;
  while (true) {
    const std::size_t comma = text.find(',');
    const std::string_view word = trimmed(text.substr(0, comma));
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
    if (error != std::errc() || end != word.data() + word.size() || number < 1) return {};
    numbers.push_back(number);
    if (comma == std::string_view::npos) return numbers;
    text.remove_prefix(comma + 1);
  }
}

}  // namespace

const std::string_view check_examples = R"(
Examples:
  evenmat check thanks.toml                 it builds, and what is tight; or why
                                            not, and which changes mend it
  evenmat check thanks.toml --mend new.toml
                                            write the card with the fewest and
                                            smallest changes that mend it
  evenmat check thanks.toml --mend new.toml --choose 2,5
                                            with the changes 2 and 5 instead
  evenmat check thanks.toml --hand 1/32     what a hand that is off by 1/32 may
                                            spoil, and what would be safe
  evenmat check measured.toml --tolerance 1/32
                                            a finished card, measured: which
                                            rules it meets

A card that builds is told with its thickness and weight closed (where the
papers say so), and with what the envelopes and posts named in [mail] say to it.
The file that is read is never written over, another one only with --force.
)";

CLI::App* add_check(CLI::App& app, CheckWords& words) {
  CLI::App* check = app.add_subcommand("check", "Say whether a card can be built, or why not");
  check->allow_extras()->group("Commands");
  check->add_option("FILE", words.call.file, "The card file, or - for standard input")
      ->option_text(" ")
      ->required();
  check->add_flag("--json", words.call.json, "Answer with one JSON object");
  check->add_option("--limit", words.limit, "Stop after so long (30)")->option_text("SECONDS");
  check->add_option("--mend", words.mend, "Write the card with what mends it changed")
      ->option_text("OUT.toml");
  check->add_option("--choose", words.choose, "With these changes, as numbered")->option_text("N[,N...]");
  check->add_flag("--force", words.call.force, "Write over OUT.toml if it is there");
  check->add_option("--hand", words.hand, "Cut and placed by a hand that is off by so much")
      ->option_text("LENGTH");
  check->add_option("--tolerance", words.tolerance, "The sizes were measured, as exactly as this")
      ->option_text("LENGTH");
  return check;
}

Call check_call(const CLI::App& check, CheckWords words) {
  CheckCall& call = words.call;
  const auto wrong = [&](const std::string& says) { return mistaken(says, "check", call.json); };
  const auto given = [&](const char* option) { return check.count(option) > 0; };
  if (given("--hand") && given("--tolerance")) {
    return wrong(
        "--hand is for a card yet to be made, --tolerance for one that was measured: leave out one.");
  }
  for (const char* other : {"--hand", "--tolerance"}) {
    if (given("--mend") && given(other)) {
      return wrong(
          fmt::format("--mend writes a card that can be built as stated, and {} asks for more than "
                      "that: leave out one.",
                      other));
    }
  }
  for (const char* other : {"--choose", "--force"}) {
    if (given(other) && !given("--mend")) return wrong(fmt::format("{} is of use only with --mend.", other));
  }
  if (given("--choose")) {
    call.choose = change_numbers(words.choose);
    if (call.choose.empty()) {
      return wrong(fmt::format("--choose takes the numbers of changes, such as 2 or 1,3, and {} is none.",
                               in_quotes(words.choose)));
    }
  }
  if (given("--hand")) call.hand = words.hand;
  if (given("--tolerance")) call.tolerance = words.tolerance;
  if (given("--mend")) call.mend = words.mend;
  if (auto late = take_limit(words.limit, call.limit, "check", call.json)) return *late;
  return call;
}

}  // namespace evenmat
