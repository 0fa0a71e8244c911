#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>

#include "cli/call/commands.h"
#include "cli/call/drawn.h"
#include "cli/call/mistaken.h"
#include "cli/drawing/render.h"
#include "model/words.h"

namespace evenmat {

const std::string_view draw_examples = R"(
Examples:
  evenmat draw thanks.toml -o thanks.svg    the card: closed, opened out, each
                                            face, from the side
  evenmat draw thanks.toml -o plan.pdf --plan
                                            each sheet as it is cut
  evenmat draw thanks.toml -o work.pdf --worksheet
                                            pages to work from and tick off
  evenmat draw thanks.toml -o teach.pdf --recipe
                                            one card, in inches and millimetres
  evenmat draw thanks.toml -o shapes.pdf --templates
                                            every piece at its true size
  evenmat draw thanks.toml -o a.png --only "for the crew"
                                            that variant alone

OUT ends in .svg, .pdf or .png, and that says what it becomes. A card that
cannot be built is drawn too: what sticks out or overlaps, by how much, and why.
--plan and --worksheet take several files, cut from the same paper. Print
templates at 100 per cent. No file that is read is written over, another one
only with --force.
)";

CLI::App* add_draw(CLI::App& app, DrawWords& words) {
  CLI::App* draw = app.add_subcommand("draw", "Draw a card, its plan, or sheets to work from");
  draw->allow_extras()->group("Commands");
  draw->add_option("FILE", words.call.files, "The card file, or - for standard input")
      ->option_text(" ")
      ->required();
  draw->add_option("-o,--out", words.call.out, "Where to: a name that ends in .svg, .pdf or .png")
      ->option_text("OUT");
  draw->add_flag("--plan", words.plan, "The sheets as they are cut, step by step");
  draw->add_flag("--worksheet", words.worksheet, "Pages to make the whole batch by");
  draw->add_flag("--recipe", words.recipe, "Pages to teach one card by");
  draw->add_flag("--templates", words.templates, "Every piece at its true size");
  draw->add_option("--only", words.only, "One variant, or \"the plain card\"")->option_text("NAME");
  draw->add_option("--view", words.call.views, "closed, open, side or a face; several too")
      ->option_text("VIEW")
      ->allow_extra_args(false);
  draw->add_option("--page", words.page, "letter or a4 (as the card's unit has it)")->option_text("PAPER");
  draw->add_option("--dots", words.dots, "Of a PNG, so many to the inch (144)")->option_text("N");
  draw->add_option("--also", words.call.also, "Cut from these leftovers too; may be said again")
      ->option_text("LEFTOVERS.toml")
      ->allow_extra_args(false);
  draw->add_flag("--most", words.call.most, "Plan for as many cards as the paper gives");
  draw->add_flag("--grain-along-fold", words.call.grain_along_fold,
                 "Cut bases with the grain along the fold");
  draw->add_flag("--force", words.call.force, "Write over OUT if it is there");
  draw->add_option("--limit", words.limit, "Stop after so long (30)")->option_text("SECONDS");
  draw->add_flag("--json", words.call.json, "Answer with one JSON object");
  return draw;
}

namespace {

std::optional<PageSize> page_called(std::string name) {
  std::transform(name.begin(), name.end(), name.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (name == "letter" || name == "us letter") return PageSize::letter;
  if (name == "a4" || name == "iso a4") return PageSize::a4;
  return std::nullopt;
}

// Which of the flags were said, as a sentence where that is more than one.
std::string two_subjects(const DrawWords& words) {
  std::vector<std::string> said;
  if (words.plan) said.emplace_back("--plan");
  if (words.worksheet) said.emplace_back("--worksheet");
  if (words.recipe) said.emplace_back("--recipe");
  if (words.templates) said.emplace_back("--templates");
  if (said.size() < 2) return {};
  return fmt::format("{} cannot go with {}: each makes a drawing of its own.", said[0], said[1]);
}

Subject subject_of(const DrawWords& words) {
  if (words.plan) return Subject::plan;
  if (words.worksheet) return Subject::worksheet;
  if (words.recipe) return Subject::recipe;
  return words.templates ? Subject::templates : Subject::card;
}

}  // namespace

std::string trouble_with_ending(const std::string& out) {
  if (format_of(out)) return {};
  const std::size_t dot = out.find_last_of("./");
  const std::string ending = dot == std::string::npos || out[dot] != '.' ? "" : out.substr(dot);
  return ending.empty() ? fmt::format("{} has no ending. It must be .svg, .pdf or .png.", in_quotes(out))
                        : fmt::format("{} is no ending that can be drawn: it must be .svg, .pdf or .png.{}",
                                      in_quotes(ending), offer(ending, {".svg", ".pdf", ".png"}));
}

Call draw_call(const CLI::App& draw, DrawWords words) {
  DrawCall& call = words.call;
  const auto wrong = [&](const std::string& says) { return mistaken(says, "draw", call.json); };
  const std::string two = two_subjects(words);
  if (!two.empty()) return wrong(two);
  call.subject = subject_of(words);
  if (draw.count("--out") == 0) return wrong("Where to? -o takes a name that ends in .svg, .pdf or .png.");
  if (const std::string trouble = trouble_with_ending(call.out); !trouble.empty()) return wrong(trouble);
  const bool batch = call.subject == Subject::plan || call.subject == Subject::worksheet;
  if (call.files.size() > 1 && !batch)
    return wrong("Several cards go into one drawing only with --plan or --worksheet.");
  if (draw.count("--only") > 0) {
    if (batch) return wrong("--only is of no use with --plan or --worksheet: they are for the whole batch.");
    call.only = words.only;
  }
  if (!call.views.empty() && call.subject != Subject::card)
    return wrong("--view is of use only where the card itself is drawn.");
  for (const char* option : {"--also", "--most", "--grain-along-fold"}) {
    if (draw.count(option) > 0 && !batch)
      return wrong(fmt::format("{} is of use only with --plan or --worksheet.", option));
  }
  if (draw.count("--page") > 0) {
    call.page = page_called(words.page);
    if (!call.page) {
      return wrong(fmt::format("--page takes letter or a4, and not {}.{}", in_quotes(words.page),
                               offer(words.page, {"letter", "a4"})));
    }
  }
  if (draw.count("--dots") > 0) {
    constexpr double most = 1200;
    const auto [end, error] =
        std::from_chars(words.dots.data(), words.dots.data() + words.dots.size(), call.dots);
    if (error != std::errc() || end != words.dots.data() + words.dots.size() || !(call.dots >= 10) ||
        call.dots > most)
      return wrong(fmt::format("--dots takes a number from 10 to 1200, and not {}.", in_quotes(words.dots)));
    if (format_of(call.out) != FileKind::png) return wrong("--dots is of use only for a .png.");
  }
  if (auto late = take_limit(words.limit, call.limit, "draw", call.json)) return *late;
  return call;
}

}  // namespace evenmat
