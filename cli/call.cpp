#include "cli/call.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/call/commands.h"
#include "cli/call/mistaken.h"
#include "model/words.h"

namespace evenmat {
namespace {

constexpr std::string_view program_examples = R"(
Examples:
  evenmat size thanks.toml              size the card in thanks.toml
  evenmat check thanks.toml             what is tight in it, or why it cannot be
  evenmat cut thanks.toml               cut the whole batch from few sheets
  evenmat explore thanks.toml           what else could be made within it
  evenmat draw thanks.toml -o t.pdf     pictures of it; also sheets to work from
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

// An option without what belongs to it, or said twice; the library's message begins with its name.
std::string mismatch(std::string_view says) {
  const std::string option(says.substr(0, says.find(':')));
  // The library counts the words of an option and tells too few of them as it tells too many.
  if (option == "--write")
    return "--write takes a number and a file, such as --write 3 new.toml, and once only.";
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
  ExploreWords explore;
  CutWords cut;
  DrawWords draw;
  StackWords stack;
  const CLI::App* size_app = add_size(app, size);
  const CLI::App* check_app = add_check(app, check);
  const CLI::App* explore_app = add_explore(app, explore);
  const CLI::App* cut_app = add_cut(app, cut);
  const CLI::App* draw_app = add_draw(app, draw);
  const CLI::App* stack_app = add_stack(app, stack);

  const auto command = [&]() -> std::string {
    for (const CLI::App* one : {size_app, check_app, explore_app, cut_app, draw_app, stack_app}) {
      if (one->parsed()) return one->get_name();
    }
    return "";
  };
  const auto help = [&] {
    const std::string_view examples = size_app->parsed()      ? size_examples
                                      : check_app->parsed()   ? check_examples
                                      : explore_app->parsed() ? explore_examples
                                      : cut_app->parsed()     ? cut_examples
                                      : draw_app->parsed()    ? draw_examples
                                      : stack_app->parsed()   ? stack_examples
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
                                offer(rest.front(), {"size", "check", "explore", "cut", "draw", "stack"})),
                    "", json);
  }
  if (!rest.empty()) return mistaken(too_much(rest.front(), command()), command(), json);
  if (size_app->parsed()) return size_call(std::move(size));
  if (check_app->parsed()) return check_call(*check_app, std::move(check));
  if (explore_app->parsed()) return explore_call(*explore_app, std::move(explore));
  if (cut_app->parsed()) return cut_call(*cut_app, std::move(cut));
  if (draw_app->parsed()) return draw_call(*draw_app, std::move(draw));
  return stack_call(std::move(stack));
}

}  // namespace evenmat
