#include "cli/cut/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "cli/cut/plan.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

bool lies_in(const SheetCut& inner, const SheetCut& outer) {
  return inner.x >= outer.x && inner.y >= outer.y && inner.x + inner.width <= outer.x + outer.width &&
         inner.y + inner.height <= outer.y + outer.height;
}

enum class Hand { whole_sheet, as_before, turned };

// How what a step takes in hand came about: by which cut before it, and whether that ran the same way.
Hand hand_for(const LaidSheet& laid, const SheetWork& work, std::size_t step) {
  const auto begin = laid.cuts.begin();
  const auto first = std::find_if(begin, laid.cuts.end(), [&](const SheetCut& cut) {
    return cut.step == step && cut.across == work.across && cut.width == work.from.size.width &&
           cut.height == work.from.size.height;
  });
  if (first == laid.cuts.end()) return Hand::whole_sheet;
  // Cuts of what it was part of are made one after the other: the last of them gave it.
  for (auto before = first; before != begin;) {
    --before;
    if (lies_in(*first, *before)) return before->across == work.across ? Hand::as_before : Hand::turned;
  }
  return Hand::whole_sheet;
}

bool same_thing(const StepYield& a, const StepYield& b) {
  return a.what == b.what && a.size == b.size && (a.what != StepYield::What::piece || a.kind == b.kind);
}

void add_to(std::vector<StepYield>& all, const StepYield& yield) {
  const auto same =
      std::find_if(all.begin(), all.end(), [&](const StepYield& one) { return same_thing(one, yield); });
  if (same == all.end()) {
    all.push_back(yield);
  } else {
    same->count += yield.count;
  }
}

// What is taken in hand, and how often each is cut.
struct Taken {
  Hand hand = Hand::whole_sheet;
  StepYield from;
  int cuts = 1;
};

void add_to(std::vector<Taken>& all, const Taken& taken) {
  const auto same = std::find_if(all.begin(), all.end(), [&](const Taken& one) {
    return one.hand == taken.hand && one.cuts == taken.cuts && same_thing(one.from, taken.from);
  });
  if (same == all.end()) {
    all.push_back(taken);
  } else {
    same->from.count += taken.from.count;
  }
}

// Works of one step and letter from which the same things come off: one sentence tells them all.
struct Sentence {
  std::size_t last = 0;  // of its works
  std::vector<Taken> taken;
  bool across = false;
  bool hold = false;
  std::vector<StepYield> off, stays;  // what is as long as was set comes off, or is left when all else has
  std::vector<StepYield> off_left, left;  // the same of what is no part of a piece
};

bool same_off(const Sentence& a, const Sentence& b) {
  return a.hold == b.hold && a.off.size() == b.off.size() &&
         std::equal(a.off.begin(), a.off.end(), b.off.begin(), same_thing);
}

std::string with_capital(std::string words) {
  if (words.starts_with("turn")) words.front() = 'T';
  return words;
}

class Steps {
 public:
  Steps(const CutTelling& telling, const PaperPlan& paper) : telling_(telling), paper_(paper) {}

  [[nodiscard]] std::vector<StepRow> of_letter(std::size_t index) const {
    std::vector<StepRow> rows;
    for (const CutStep& step : paper_.steps) {
      bool first = true;
      for (const Sentence& sentence : sentences(step, index)) {
        const std::string words = work_words(sentence, paper_.plan[index]);
        rows.push_back({step.number, first,
                        first ? fmt::format("Set {}{}. {}", length(step.set),
                                            way_words(sentence, paper_.plan[index]), with_capital(words))
                              : "Then " + words});
        first = false;
      }
    }
    return rows;
  }

 private:
  [[nodiscard]] std::string length(const Rational& value) const {
    return measure_words(value, telling_.unit());
  }
  [[nodiscard]] std::string size(const Size& value) const { return size_words(value, telling_.unit()); }

  [[nodiscard]] std::vector<Sentence> sentences(const CutStep& step, std::size_t index) const {
    std::vector<Sentence> all;
    for (std::size_t i = 0; i < step.works.size(); ++i) {
      const SheetWork& work = step.works[i];
      if (work.laid != index) continue;
      Sentence sentence = sentence_of(step, work);
      sentence.last = i;
      const auto like = std::find_if(all.begin(), all.end(), [&](const Sentence& other) {
        return same_off(other, sentence) && !comes_between(step, other.last, i);
      });
      if (like == all.end()) {
        all.push_back(std::move(sentence));
        continue;
      }
      like->last = i;
      add_to(like->taken, sentence.taken.front());
      for (const StepYield& yield : sentence.off) add_to(like->off, yield);
      for (const StepYield& yield : sentence.stays) add_to(like->stays, yield);
      for (const StepYield& yield : sentence.off_left) add_to(like->off_left, yield);
      for (const StepYield& yield : sentence.left) add_to(like->left, yield);
    }
    return all;
  }

  // Whether something that this work takes in hand is given by one between the two, which then comes first.
  static bool comes_between(const CutStep& step, std::size_t last, std::size_t work) {
    for (std::size_t i = last + 1; i < work; ++i) {
      const SheetWork& other = step.works[i];
      if (other.laid != step.works[work].laid) continue;
      if (std::any_of(other.yields.begin(), other.yields.end(),
                      [&](const StepYield& yield) { return same_thing(yield, step.works[work].from); }))
        return true;
    }
    return false;
  }

  [[nodiscard]] Sentence sentence_of(const CutStep& step, const SheetWork& work) const {
    Sentence sentence;
    sentence.taken = {{hand_for(paper_.plan[work.laid], work, step.number), work.from, work.cuts}};
    sentence.across = work.across;
    sentence.hold = work.hold;
    for (const StepYield& yield : work.yields) {
      const Rational& reach = work.across ? yield.size.height : yield.size.width;
      if (yield.what == StepYield::What::leftover) {
        add_to(reach == step.set ? sentence.off_left : sentence.left, yield);
      } else {
        add_to(reach == step.set ? sentence.off : sentence.stays, yield);
      }
    }
    return sentence;
  }

  // "turn 2 of 8 1/2 x 5 1/4, 2 cuts each: 4 indigo mat; scrap 1/2; tape it."
  [[nodiscard]] std::string work_words(const Sentence& sentence, const LaidSheet& laid) const {
    std::vector<std::string> parts{off_words(sentence, laid)};
    for (const std::string& part : {stays_words(sentence), left_words(sentence, laid)}) {
      if (!part.empty()) parts.push_back(part);
    }
    if (parts.front().empty()) parts.erase(parts.begin());
    if (sentence.hold) parts.emplace_back("tape it");
    return fmt::format("{}: {}.", taken_words(sentence, laid), joined(parts, "; "));
  }

  // Which way a whole sheet is put under the blade; of a square one only where its ways differ.
  [[nodiscard]] std::string way_words(const Sentence& sentence, const LaidSheet& laid) const {
    const CutSheet& sheet = paper_.stock[laid.sheet];
    if (sentence.taken.front().hand != Hand::whole_sheet) return {};
    if (sheet.size.width != sheet.size.height) {
      return fmt::format(" along the {} side",
                         length(sentence.across ? sheet.size.height : sheet.size.width));
    }
    if (!sheet.up && sheet.grain.empty() && sheet.trim_first == 0) return {};
    return sentence.across ? " down from the top" : " from the left";
  }

  [[nodiscard]] std::string taken_words(const Sentence& sentence, const LaidSheet& laid) const {
    const bool one = sentence.taken.size() == 1;
    std::vector<std::string> told;
    const Taken* before = nullptr;
    for (const Taken& taken : sentence.taken) {
      const std::string cuts =
          fmt::format("{}{}", counted(taken.cuts, "cut"), taken.from.count > 1 ? " each" : "");
      const bool like_before =
          before != nullptr && before->from.size == taken.from.size && before->hand == taken.hand;
      told.push_back(fmt::format("{}{} {}",
                                 like_before ? fmt::format("{}", taken.from.count) : in_hand(taken, laid),
                                 one ? "," : " with", cuts));
      before = &taken;
    }
    return joined(told, ", ");
  }

  [[nodiscard]] std::string in_hand(const Taken& taken, const LaidSheet& laid) const {
    if (taken.hand == Hand::whole_sheet)
      return counted(taken.from.count, paper_.stock[laid.sheet].is_offcut() ? "piece" : "sheet");
    return fmt::format("{}{} of {}", taken.hand == Hand::turned ? "turn " : "", taken.from.count,
                       size(taken.from.size));
  }

  [[nodiscard]] std::string off_words(const Sentence& sentence, const LaidSheet& laid) const {
    std::vector<std::string> told;
    for (const StepYield& yield : sentence.off) told.push_back(yield_words(yield));
    for (const StepYield& yield : sentence.off_left) {
      told.push_back(is_kept(laid, yield) ? fmt::format("keep {} of {}", yield.count, size(yield.size))
                                          : fmt::format("{} {}", yield.count,
                                                        is_like_a_piece(sentence, yield) ? "over" : "scrap"));
    }
    return joined(told, ", ");
  }

  // Of the size of a piece that comes off with it: nobody can tell it from one.
  static bool is_like_a_piece(const Sentence& sentence, const StepYield& left) {
    return std::any_of(sentence.off.begin(), sentence.off.end(), [&](const StepYield& yield) {
      return yield.what == StepYield::What::piece && yield.size == left.size;
    });
  }

  [[nodiscard]] std::string stays_words(const Sentence& sentence) const {
    std::vector<std::string> told;
    int count = 0;
    for (const StepYield& yield : sentence.stays) {
      told.push_back(yield_words(yield));
      count += yield.count;
    }
    return told.empty() ? "" : fmt::format("{} {}", listed(told), count == 1 ? "stays" : "stay");
  }

  // What is kept by its size, scrap by how much of it is left at the rule: its other side is the strip's.
  [[nodiscard]] std::string left_words(const Sentence& sentence, const LaidSheet& laid) const {
    std::vector<std::string> kept, scrap;
    for (const StepYield& yield : sentence.left) {
      if (is_kept(laid, yield)) {
        kept.push_back(fmt::format("{} of {}", yield.count, size(yield.size)));
        continue;
      }
      const std::string reach = length(sentence.across ? yield.size.height : yield.size.width);
      if (std::find(scrap.begin(), scrap.end(), reach) == scrap.end()) scrap.push_back(reach);
    }
    std::vector<std::string> told;
    if (!kept.empty()) told.push_back("keep " + listed(kept));
    if (!scrap.empty()) told.push_back("scrap " + listed(scrap));
    std::string words = joined(told, "; ");
    const bool untrue = paper_.stock[laid.sheet].trim_first > 0 &&
                        sentence.taken.front().hand == Hand::whole_sheet && !scrap.empty();
    return words + (untrue ? ", the untrue bottom edge" : "");
  }

  // A piece is told by its layers, and by its size only where they are cut in several.
  [[nodiscard]] std::string yield_words(const StepYield& yield) const {
    if (yield.what == StepYield::What::strip)
      return fmt::format("{} {}", counted(yield.count, "strip"), size(yield.size));
    const std::string name = kind_name(paper_.pieces[yield.kind]);
    const auto same = std::count_if(paper_.pieces.begin(), paper_.pieces.end(),
                                    [&](const CutPiece& piece) { return kind_name(piece) == name; });
    return same == 1 ? fmt::format("{} {}", yield.count, name)
                     : fmt::format("{} {}, {}", yield.count, name, size(yield.size));
  }

  [[nodiscard]] static bool is_kept(const LaidSheet& laid, const StepYield& yield) {
    return std::any_of(laid.leftovers.begin(), laid.leftovers.end(), [&](const Leftover& one) {
      return one.keep && one.width == yield.size.width && one.height == yield.size.height;
    });
  }

  const CutTelling& telling_;
  const PaperPlan& paper_;
};

}  // namespace

// "Done together: step 1 of A to C, steps 3 and 4 of A and B."
std::string together_words(const PaperPlan& paper) {
  std::vector<std::pair<std::set<std::size_t>, std::set<std::size_t>>> shared;  // letters, their steps
  for (const CutStep& step : paper.steps) {
    std::set<std::size_t> letters;
    for (const SheetWork& work : step.works) letters.insert(work.laid);
    if (letters.size() < 2) continue;
    const auto same =
        std::find_if(shared.begin(), shared.end(), [&](const auto& one) { return one.first == letters; });
    if (same == shared.end()) {
      shared.push_back({letters, {step.number}});
    } else {
      same->second.insert(step.number);
    }
  }
  constexpr std::size_t most_told = 6;
  if (shared.size() > most_told)
    return "Many steps are of several sheets: look for a step's number under every letter.";
  std::vector<std::string> told;
  for (const auto& [letters, steps] : shared) {
    told.push_back(
        fmt::format("{} {} of {}", steps.size() == 1 ? "step" : "steps",
                    run_words(steps, [](std::size_t step) { return fmt::format("{}", step); }),
                    run_words(letters, [&](std::size_t letter) { return paper.plan[letter].letter; })));
  }
  return told.empty() ? "" : fmt::format("Done together: {}.", joined(told, "; "));
}

std::vector<StepRow> step_rows(const CutTelling& telling, const PaperPlan& paper, std::size_t letter) {
  return Steps(telling, paper).of_letter(letter);
}

std::string steps_text(const CutTelling& telling, const PaperPlan& paper) {
  const std::string together = together_words(paper);
  std::string text = together.empty() ? "" : paragraph(together, 2);
  for (std::size_t i = 0; i < paper.plan.size(); ++i) {
    std::vector<Row> rows;
    for (const StepRow& row : step_rows(telling, paper, i)) {
      rows.push_back(
          {.name = row.first ? fmt::format("{}.", row.number) : "", .note = row.says, .indent = 4});
    }
    text += letter_text(telling, paper, i) + table(rows, telling.style);
  }
  return text.empty() ? "" : "\n" + text;
}

}  // namespace evenmat
