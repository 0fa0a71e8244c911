#include <CLI/CLI.hpp>

#include "cli/call/commands.h"

namespace evenmat {

const std::string_view stack_examples = R"(
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

Call stack_call(StackWords words) {
  if (!words.mark.empty()) words.call.mark = words.mark;
  return words.call;
}

}  // namespace evenmat
