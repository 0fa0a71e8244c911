// What is wrong with cards as one batch: papers and sheets that are not known, that the files count
// differently, or that the trimmer or the grain rules out.
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>
#include <tuple>

#include "model/words.h"
#include "solver/batch/gather.h"
#include "solver/batch/missing.h"
#include "solver/batch/stock.h"
#include "solver/batch/things.h"
#include "solver/batch/trimmer.h"

namespace evenmat {
namespace {

using namespace batch;

// More are not a job for one table, and their number would not be kept apart from smaller ones.
constexpr std::int64_t most_pieces_in_batch = 1'000'000'000;

class Mistakes {
 public:
  Mistakes(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more, const CutOptions& options)
      : cards_(cards), more_(more), options_(options), unit_(unit_of(cards)) {
    const Counts counts = stated_counts(cards);
    std::int64_t pieces = 0;
    for (const CutThing& thing : things_cut(cards)) {
      const int made = counts[thing.card][thing.version];
      if (made <= 0) continue;
      things_[thing.paper->value].push_back(thing);
      pieces += static_cast<std::int64_t>(made) * thing.copies;
      if (pieces <= most_pieces_in_batch || !found_.empty()) continue;
      tell(thing.card, {},
           "This batch is of more than a thousand million pieces. State fewer cards, and cut it in parts.");
    }
  }

  std::vector<BatchMistake> all() {
    for (const auto& [paper, things] : things_) {
      const std::vector<Stack> stacks = stacks_of(cards_, more_, paper);
      if (stacks.empty()) {
        no_sheets(paper, things);
        continue;
      }
      counted_without_size(paper);
      for (const Stack& stack : stacks) {
        stated_differently(paper, stack);
        all_untrue(stack);
        cannot_be_held(paper, stack.sheet);
      }
      if (options_.grain_along_fold) against_the_grain(paper, things, stacks);
    }
    trimmers_that_differ();
    std::stable_sort(found_.begin(), found_.end(), [](const BatchMistake& a, const BatchMistake& b) {
      return std::tie(a.card, a.remark.spot) < std::tie(b.card, b.remark.spot);
    });
    return std::move(found_);
  }

 private:
  void tell(std::size_t card, Spot spot, std::string says) {
    const bool told = std::any_of(found_.begin(), found_.end(), [&](const BatchMistake& other) {
      return other.card == card && other.remark.spot == spot && other.remark.says == says;
    });
    if (!told) found_.push_back({card, {spot, std::move(says)}});
  }

  // Lengths of the batch as the file of a card would write them.
  [[nodiscard]] std::string length(const Rational& value, std::size_t card) const {
    const Unit own = cards_[card].card->unit;
    return length_with_unit(convert(value, unit_, own), own);
  }
  [[nodiscard]] std::string size(const Size& of, std::size_t card) const {
    const Unit own = cards_[card].card->unit;
    return size_text({convert(of.width, unit_, own), convert(of.height, unit_, own)}, own);
  }
  // An example, for the file of a card.
  [[nodiscard]] const char* sheet_key(std::size_t card) const {
    return cards_[card].card->unit == Unit::inch ? R"(sheet = "8 1/2 x 11")" : R"(sheet = "210 x 297")";
  }

  [[nodiscard]] std::vector<std::string> declared() const {
    std::vector<std::string> names;
    const auto add = [&](const std::vector<Paper>& papers) {
      for (const Paper& paper : papers) names.push_back(paper.name.value);
    };
    for (const BatchCard& card : cards_) add(card.card->papers);
    for (const MorePaper& file : more_) add(file.papers);
    return names;
  }

  // Nothing to cut it from: the paper's entry is told, or where there is none the first layer of each file.
  void no_sheets(const std::string& paper, const std::vector<CutThing>& things) {
    for (std::size_t c = 0; c < cards_.size(); ++c) {
      for (const Paper& entry : cards_[c].card->papers) {
        if (entry.name.value != paper) continue;
        return tell(c, entry.name.spot,
                    fmt::format("The paper {} states no sheet to cut from. Add {}, or the size it comes in.",
                                in_quotes(paper), sheet_key(c)));
      }
    }
    const std::vector<std::string> names = declared();
    std::set<std::size_t> told;
    for (const CutThing& thing : things) {
      if (!told.insert(thing.card).second) continue;
      tell(thing.card, thing.paper->spot,
           fmt::format(
               "No [[paper]] is called {}{}.{} {} a [[paper]] of that name, and the size of its sheet: {}.",
               in_quotes(paper), cards_.size() > 1 ? " in any of the files" : "", offer(paper, names),
               names.empty() ? "Add" : "Name one that there is, or add", sheet_key(thing.card)));
    }
  }

  // A number or cost of sheets nobody knows the size of would go unheard.
  void counted_without_size(const std::string& paper) {
    for (std::size_t c = 0; c < cards_.size(); ++c) {
      for (const Paper& entry : cards_[c].card->papers) {
        if (entry.name.value != paper || entry.sheet || (!entry.have && !entry.cost)) continue;
        tell(c, entry.have ? entry.have->spot : entry.cost->spot,
             fmt::format("This entry of {} does not say how large its sheets are. Add {}, or the size they "
                         "come in.",
                         in_quotes(paper), sheet_key(c)));
      }
    }
  }

  // A stack that two files state is one stack on the table.
  void stated_differently(const std::string& paper, const Stack& stack) {
    const auto compare = [&](const char* key, auto what, const auto& as_text) {
      const StackEntry* first = nullptr;
      for (const StackEntry& entry : stack.entries) {
        if (!what(entry)) continue;
        if (first == nullptr) {
          first = &entry;
        } else if (what(entry)->value != what(*first)->value) {
          tell(entry.card, what(entry)->spot,
               fmt::format("{} of {}, {}, is {} here and {} in {}. Both files mean the same sheets on the "
                           "table: state the same in both, or leave it out of one.",
                           key, in_quotes(paper), size(stack.sheet.size, entry.card),
                           as_text(what(entry)->value, entry.card), as_text(what(*first)->value, entry.card),
                           cards_[first->card].file));
        }
      }
    };
    const auto in_batch_unit = [&](const StackEntry& entry) {
      Maybe<Rational> trim = entry.paper->trim_first;
      if (trim) trim->value = convert(trim->value, cards_[entry.card].card->unit, unit_);
      return trim;
    };
    const auto number = [](const Rational& value, std::size_t) { return fraction_text(value); };
    compare(
        "have", [](const StackEntry& entry) { return entry.paper->have; },
        [](int have, std::size_t) { return std::to_string(have); });
    compare(
        "cost", [](const StackEntry& entry) { return entry.paper->cost; }, number);
    compare("trim-first", in_batch_unit,
            [&](const Rational& value, std::size_t card) { return length(value, card); });
    compare(
        "grain", [](const StackEntry& entry) { return entry.paper->grain; },
        [](const std::string& grain, std::size_t) { return in_quotes(grain); });
  }

  void all_untrue(const Stack& stack) {
    if (stack.sheet.trim_first < stack.sheet.size.height) return;
    for (const StackEntry& entry : stack.entries) {
      if (!entry.paper->trim_first) continue;
      return tell(entry.card, entry.paper->trim_first->spot,
                  fmt::format("Once {} are off its bottom edge, nothing is left of this sheet, which is {} "
                              "tall. State less, or the sheet the other way round.",
                              length(stack.sheet.trim_first, entry.card),
                              length(stack.sheet.size.height, entry.card)));
    }
  }

  void cannot_be_held(const std::string& paper, const CutSheet& sheet) {
    const Rational hold = trimmer_of(cards_).hold;
    if (hold <= std::max(sheet.size.width, sheet.size.height)) return;
    for (std::size_t c = 0; c < cards_.size(); ++c) {
      const Maybe<Rational>& stated = cards_[c].card->trimmer.hold;
      if (!stated) continue;
      return tell(
          c, stated->spot,
          fmt::format("A hand that can hold nothing narrower than {} cannot hold a whole sheet of {}, "
                      "which is {}. State the narrowest piece that it can hold: the usual is {}.",
                      length(hold, c), in_quotes(paper), size(sheet.size, c),
                      cards_[c].card->unit == Unit::inch ? "1 in" : "25 mm"));
    }
  }

  void trimmers_that_differ() {
    const auto compare = [&](const char* key, Maybe<Rational> Trimmer::*what) {
      const BatchCard* first = nullptr;
      for (std::size_t c = 0; c < cards_.size(); ++c) {
        const Maybe<Rational>& own = cards_[c].card->trimmer.*what;
        if (!own) continue;
        if (first == nullptr) {
          first = &cards_[c];
          continue;
        }
        const Maybe<Rational>& other = first->card->trimmer.*what;
        if (convert(own->value, cards_[c].card->unit, unit_) ==
            convert(other->value, first->card->unit, unit_))
          continue;
        tell(c, own->spot,
             fmt::format("{} is {} here and {} in {}. One trimmer cuts the whole batch: state the same in "
                         "both, or leave it out of one.",
                         key, length_with_unit(own->value, cards_[c].card->unit),
                         length_with_unit(other->value, first->card->unit), first->file));
      }
    };
    compare("longest", &Trimmer::longest);
    compare("blade-loss", &Trimmer::blade_loss);
    compare("hold", &Trimmer::hold);
    compare("sliver", &Trimmer::sliver);
  }

  // Every sheet that is large enough for a scored base has to let it lie with the grain along its scores.
  void against_the_grain(const std::string& paper, const std::vector<CutThing>& things,
                         std::vector<Stack> stacks) {
    const bool up = keeps_up(cards_, more_, paper);
    const std::optional<bool> down = lay_along_grain(stacks, up);
    for (const CutThing& thing : things) {
      if (!thing.scored) continue;
      for (const Stack& stack : stacks) {
        const CutSheet& sheet = stack.sheet;
        if (!takes(sheet, thing.size, up)) continue;
        const Spot& base = thing.paper->spot;
        const bool stated = !stack.entries.empty();
        const std::size_t card = stated ? stack.entries.front().card : thing.card;
        const auto which = [&](std::size_t at) {
          return fmt::format("{}, {}{}", in_quotes(paper), size(sheet.size, at),
                             stated ? "" : ", in " + sheet.file);
        };
        if (sheet.grain.empty()) {
          tell(card, stated ? sheet.spot : base,
               fmt::format("The base is to fold with the grain, and the sheet of {}, does not say how its "
                           "grain runs. Add grain = \"long\" to it if the grain runs along its longer side, "
                           "else grain = \"short\".",
                           which(card)));
        } else if (up && grain_runs_down(sheet) != thing.scores_down) {
          tell(
              thing.card, base,
              fmt::format("The base is to fold with the grain, and the grain of {}, runs across its fold. "
                          "The paper keeps its way up, so that the base cannot be turned. Use another paper, "
                          "or cut it without regard to the grain.",
                          which(thing.card)));
        } else if (!up && grain_runs_down(sheet) != *down) {
          tell(card, stated ? sheet.spot : base,
               fmt::format("The base is to fold with the grain, and on the sheet of {}, that runs the other "
                           "way than on others of which an edge comes off first. Leave one of them out.",
                           which(card)));
        }
      }
    }
  }

  static bool takes(const CutSheet& sheet, const Size& size, bool up) {
    const Rational height = sheet.size.height - sheet.trim_first;
    const auto fits = [&](const Rational& w, const Rational& h) {
      return w <= sheet.size.width && h <= height;
    };
    return fits(size.width, size.height) || (!up && fits(size.height, size.width));
  }

  const std::vector<BatchCard>& cards_;
  const std::vector<MorePaper>& more_;
  const CutOptions& options_;
  Unit unit_;
  std::map<std::string, std::vector<CutThing>> things_;  // by paper; only of versions that are made
  std::vector<BatchMistake> found_;
};

}  // namespace

std::vector<BatchMistake> mistakes_in_batch(const std::vector<BatchCard>& cards,
                                            const std::vector<MorePaper>& more, const CutOptions& options) {
  return Mistakes(cards, more, options).all();
}

}  // namespace evenmat
