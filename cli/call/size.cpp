#include <CLI/CLI.hpp>

#include "cli/call/commands.h"
#include "cli/call/mistaken.h"

namespace evenmat {

const std::string_view size_examples = R"(
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

}  // namespace evenmat
