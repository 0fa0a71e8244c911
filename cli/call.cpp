#include "cli/call.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/json_answer.h"
#include "cli/printable.h"
#include "model/words.h"

namespace evenmat {
namespace {

constexpr std::string_view program_examples = R"(
Examples:
  evenmat size thanks.toml              size the card in thanks.toml
  evenmat stack "us A2" 1/8 1/16        two layers on a 4 1/4 x 5 1/2 in front
  evenmat size --help                   more about one command

A card file states what sits on what, and what is wished of it:

  [base]
  fold  = "side"
  front = "us A2"

  [[layer]]
  name   = "plum mat"
  on     = "front"
  border = "1/16 to 1/4, about 1/8"

Exit status: 0 done, 1 it cannot be built as stated, 2 the file or the call is
wrong, 3 the time limit was reached first.
)";

constexpr std::string_view size_examples = R"(
Examples:
  evenmat size thanks.toml              what to cut, and where it goes
  evenmat size thanks.toml --ranges     and how small and large all could be
  evenmat size thanks.toml --json       one JSON object, with exact fractions
  evenmat size - < thanks.toml          the card from standard input
  evenmat size thanks.toml --limit 5    the best card found within five seconds
)";

constexpr std::string_view stack_examples = R"(
Examples:
  evenmat stack "us A2" 1/8 1/16            a mat, and a panel on the mat
  evenmat stack "iso A6" 3 2                the same in millimetres
  evenmat stack "4 1/4 x 5 1/2" "1/16 to 1/4, about 1/8"
                                            a border that may vary
  evenmat stack "us A2" 1/8 , "us A7" 1/4   two stacks
  evenmat stack "us A2" 1/8 --mark 1/32     for a trimmer marked every 1/32 in

A base is WIDTH x HEIGHT or a named size: us A1, us A2, us A6, us A7, us letter,
us slimline, iso A4, iso A5, iso A6, ... ; "turned" after it swaps the sides.
)";

// A mistake in the call, with the way to its help.
Answer mistaken(const std::string& says, std::string_view command, bool json) {
  return {Status::bad_input, json ? json_mistakes({{.spot = {}, .says = says}}) : "",
          fmt::format("evenmat: {}\nSee: evenmat{}{} --help\n", printable(says), command.empty() ? "" : " ",
                      command)};
}

// More than no seconds, and no more than a week of them.
std::optional<double> seconds(std::string_view text) {
  constexpr double week = 7 * 24 * 3600;
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return {};
  if (!(value > 0) || value > week) return {};
  return value;
}

Call size_call(SizeCall call, const std::string& limit) {
  if (call.smt2 && (call.json || call.ranges)) {
    return mistaken("--smt2 writes the card's rules and no answer: leave out --json and --ranges.", "size",
                    call.json);
  }
  if (!limit.empty()) {
    const std::optional<double> value = seconds(limit);
    if (!value) {
      return mistaken(fmt::format("--limit takes a number of seconds, such as 10 or 0.5, and {} is not one.",
                                  in_quotes(limit)),
                      "size", call.json);
    }
    call.limit = *value;
  }
  return call;
}

// What was left over in a call that has begun well.
std::string too_much(const std::string& word, std::string_view command) {
  if (word.size() > 1 && word.starts_with('-')) {
    return fmt::format("{} is not an option of evenmat{}{}.", in_quotes(word), command.empty() ? "" : " ",
                       command);
  }
  return fmt::format("{} is one thing too many.", in_quotes(word));
}

}  // namespace

Call read_call(int count, const char* const* words) {
  const bool json = std::any_of(words + std::min(count, 1), words + count,
                                [](const char* word) { return std::string_view(word) == "--json"; });
  CLI::App app("Exact sizes for every layer of a paper card.", "evenmat");
  app.set_version_flag("--version", "evenmat " EVENMAT_VERSION, "Print the version");
  app.set_help_flag("-h,--help", "Print this help");
  app.allow_extras();
  app.require_subcommand(0, 1);  // what follows a command may well be named like one

  SizeCall size;
  std::string limit;
  CLI::App* size_app = app.add_subcommand("size", "Size the card in a card file");
  size_app->allow_extras()->group("Commands");
  size_app->add_option("FILE", size.file, "The card file, or - for standard input")
      ->option_text(" ")
      ->required();
  size_app->add_flag("--json", size.json, "Answer with one JSON object");
  size_app->add_flag("--ranges", size.ranges, "Add the smallest and largest of every size");
  size_app->add_flag("--smt2", size.smt2, "Write the card's rules as SMT-LIB 2 instead");
  size_app->add_option("--limit", limit, "Stop after so long (30)")->option_text("SECONDS");

  StackCall stack;
  std::string mark;
  CLI::App* stack_app = app.add_subcommand("stack", "Size a stack of layers, without a file");
  stack_app->allow_extras()->group("Commands");
  stack_app->add_option("STACK", stack.words, "A base, then a border for each layer on it")
      ->option_text(" ")
      ->required();
  stack_app->add_option("--mark", mark, "Marks of the trimmer (1/16 in, or 1 mm)")->option_text("LENGTH");
  stack_app->add_flag("--json", stack.json, "Answer with one JSON object");

  const auto command = [&]() -> std::string_view {
    return size_app->parsed() ? "size" : stack_app->parsed() ? "stack" : "";
  };
  const auto help = [&] {
    const std::string_view examples = size_app->parsed()    ? size_examples
                                      : stack_app->parsed() ? stack_examples
                                                            : program_examples;
    return app.help() + std::string(examples);
  };
  try {
    app.parse(count, words);
  } catch (const CLI::CallForHelp&) {
    return Answer{Status::done, help(), ""};
  } catch (const CLI::CallForVersion&) {
    return Answer{Status::done, "evenmat " EVENMAT_VERSION "\n", ""};
  } catch (const CLI::RequiredError&) {
    return size_app->parsed() ? mistaken("Which card file? None was named.", "size", json)
                              : mistaken("A stack needs a base, such as \"us A2\".", "stack", json);
  } catch (const CLI::ParseError& error) {
    return mistaken(std::string(error.what()) + ".", command(), json);
  }

  const std::vector<std::string> rest = app.remaining(true);
  if (command().empty()) {
    if (rest.empty()) return Answer{Status::bad_input, "", help()};
    if (rest.front().starts_with('-')) return mistaken(too_much(rest.front(), ""), "", json);
    return mistaken(fmt::format("There is no command {}.{}", in_quotes(rest.front()),
                                offer(rest.front(), {"size", "stack"})),
                    "", json);
  }
  if (!rest.empty()) return mistaken(too_much(rest.front(), command()), command(), json);
  if (size_app->parsed()) return size_call(std::move(size), limit);
  if (!mark.empty()) stack.mark = mark;
  return stack;
}

}  // namespace evenmat
