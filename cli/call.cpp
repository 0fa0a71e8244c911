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
  evenmat check thanks.toml             what is tight in it, or why it cannot be
  evenmat cut thanks.toml               cut the whole batch from few sheets
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

Exit status: 0 done, 1 it cannot be built as stated (or not from this paper),
2 the file or the call is wrong, 3 the time limit was reached first.
)";

constexpr std::string_view size_examples = R"(
Examples:
  evenmat size thanks.toml              what to cut, and where it goes
  evenmat size thanks.toml --ranges     and how small and large all could be
  evenmat size thanks.toml --json       one JSON object, with exact fractions
  evenmat size - < thanks.toml          the card from standard input
  evenmat size thanks.toml --limit 5    the best card found within five seconds

It tells how to make the base, how much of each layer is seen, how thick and
heavy the card is closed (where the papers say so) and which envelopes and posts
take it ([mail] in the card file names them).
)";

constexpr std::string_view check_examples = R"(
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

constexpr std::string_view cut_examples = R"(
Examples:
  evenmat cut thanks.toml                   the whole batch, from the fewest
                                            sheets, step by step
  evenmat cut thanks.toml menu.toml         two batches from the same paper
  evenmat cut thanks.toml --keep left.toml  and write down what is left
  evenmat cut menu.toml --also left.toml    with what was left of an earlier job
  evenmat cut thanks.toml --most            as many cards as the paper gives
  evenmat cut thanks.toml --grain-along-fold
                                            bases fold with the grain

How many cards there are, and of which paper how many sheets, the card file
says; what is not counted is there as often as it is wanted:

  cards = 12
  spare = 1

  [[paper]]
  name  = "plum"
  sheet = "8 1/2 x 11"
  have  = 3

[trimmer] in it says what the trimmer can do. A file of leftovers holds nothing
but [[paper]] entries. No file that is read is written over, another one only
with --force.
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

// The seconds of --limit into `value`, or the answer to a call in which they are none.
std::optional<Answer> take_limit(const std::string& limit, double& value, std::string_view command,
                                 bool json) {
  if (limit.empty()) return {};
  const std::optional<double> read = seconds(limit);
  if (!read) {
    return mistaken(fmt::format("--limit takes a number of seconds, such as 10 or 0.5, and {} is not one.",
                                in_quotes(limit)),
                    command, json);
  }
  value = *read;
  return {};
}

struct SizeWords {
  SizeCall call;
  std::string limit;
};

CLI::App* add_size(CLI::App& app, SizeWords& words) {
  CLI::App* size = app.add_subcommand("size", "Size the card in a card file");
  size->allow_extras()->group("Commands");
  size->add_option("FILE", words.call.file, "The card file, or - for standard input")
      ->option_text(" ")
      ->required();
  size->add_flag("--json", words.call.json, "Answer with one JSON object");
  size->add_flag("--ranges", words.call.ranges, "Add the smallest and largest of every size");
  size->add_flag("--smt2", words.call.smt2, "Write the card's rules as SMT-LIB 2 instead");
  size->add_option("--limit", words.limit, "Stop after so long (30)")->option_text("SECONDS");
  return size;
}

Call size_call(SizeWords words) {
  SizeCall& call = words.call;
  if (call.smt2 && (call.json || call.ranges)) {
    return mistaken("--smt2 writes the card's rules and no answer: leave out --json and --ranges.", "size",
                    call.json);
  }
  if (auto wrong = take_limit(words.limit, call.limit, "size", call.json)) return *wrong;
  return call;
}

struct CheckWords {
  CheckCall call;
  std::string limit, hand, tolerance, mend, choose;
};

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

struct CutWords {
  CutCall call;
  std::string limit, keep;
};

CLI::App* add_cut(CLI::App& app, CutWords& words) {
  CLI::App* cut = app.add_subcommand("cut", "Plan how the whole batch is cut from its paper");
  cut->allow_extras()->group("Commands");
  cut->add_option("FILE", words.call.files, "The card files, or - for standard input")
      ->option_text(" ")
      ->required();
  cut->add_option("--also", words.call.also, "Cut from these leftovers too; may be said again")
      ->option_text("LEFTOVERS.toml")
      ->allow_extra_args(false);
  cut->add_option("--keep", words.keep, "Write what is left worth keeping")->option_text("OUT.toml");
  cut->add_flag("--force", words.call.force, "Write over OUT.toml if it is there");
  cut->add_flag("--most", words.call.most, "Plan for as many cards as the paper gives");
  cut->add_flag("--grain-along-fold", words.call.grain_along_fold, "Cut bases with the grain along the fold");
  cut->add_option("--limit", words.limit, "Stop after so long (30)")->option_text("SECONDS");
  cut->add_flag("--json", words.call.json, "Answer with one JSON object");
  return cut;
}

Call cut_call(const CLI::App& cut, CutWords words) {
  CutCall& call = words.call;
  if (cut.count("--keep") > 0) call.keep = words.keep;
  if (call.force && !call.keep) return mistaken("--force is of use only with --keep.", "cut", call.json);
  if (auto wrong = take_limit(words.limit, call.limit, "cut", call.json)) return *wrong;
  return call;
}

struct StackWords {
  StackCall call;
  std::string mark;
};

CLI::App* add_stack(CLI::App& app, StackWords& words) {
  CLI::App* stack = app.add_subcommand("stack", "Size a stack of layers, without a file");
  stack->allow_extras()->group("Commands");
  stack->add_option("STACK", words.call.words, "A base, then a border for each layer on it")
      ->option_text(" ")
      ->required();
  stack->add_option("--mark", words.mark, "Marks of the trimmer (1/16 in, or 1 mm)")->option_text("LENGTH");
  stack->add_flag("--json", words.call.json, "Answer with one JSON object");
  return stack;
}

// An option without what belongs to it, or said twice; the library's message begins with its name.
std::string mismatch(std::string_view says) {
  const std::string option(says.substr(0, says.find(':')));
  return says.find("missing") != std::string_view::npos
             ? fmt::format("{} needs something after it; the help says what.", option)
             : fmt::format("{} can be said once only.", option);
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

  SizeWords size;
  CheckWords check;
  CutWords cut;
  StackWords stack;
  const CLI::App* size_app = add_size(app, size);
  const CLI::App* check_app = add_check(app, check);
  const CLI::App* cut_app = add_cut(app, cut);
  const CLI::App* stack_app = add_stack(app, stack);

  const auto command = [&]() -> std::string {
    for (const CLI::App* one : {size_app, check_app, cut_app, stack_app}) {
      if (one->parsed()) return one->get_name();
    }
    return "";
  };
  const auto help = [&] {
    const std::string_view examples = size_app->parsed()    ? size_examples
                                      : check_app->parsed() ? check_examples
                                      : cut_app->parsed()   ? cut_examples
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
    return stack_app->parsed() ? mistaken("A stack needs a base, such as \"us A2\".", "stack", json)
                               : mistaken("Which card file? None was named.", command(), json);
  } catch (const CLI::ArgumentMismatch& error) {
    return mistaken(mismatch(error.what()), command(), json);
  } catch (const CLI::ParseError& error) {
    return mistaken(std::string(error.what()) + ".", command(), json);
  }

  const std::vector<std::string> rest = app.remaining(true);
  if (command().empty()) {
    if (rest.empty()) return Answer{Status::bad_input, "", help()};
    if (rest.front().starts_with('-')) return mistaken(too_much(rest.front(), ""), "", json);
    return mistaken(fmt::format("There is no command {}.{}", in_quotes(rest.front()),
                                offer(rest.front(), {"size", "check", "cut", "stack"})),
                    "", json);
  }
  if (!rest.empty()) return mistaken(too_much(rest.front(), command()), command(), json);
  if (size_app->parsed()) return size_call(std::move(size));
  if (check_app->parsed()) return check_call(*check_app, std::move(check));
  if (cut_app->parsed()) return cut_call(*cut_app, std::move(cut));
  if (!stack.mark.empty()) stack.call.mark = stack.mark;
  return stack.call;
}

}  // namespace evenmat
