#include <CLI/CLI.hpp>

#include "cli/call/commands.h"
#include "cli/call/mistaken.h"

namespace evenmat {

const std::string_view cut_examples = R"(
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

}  // namespace evenmat
