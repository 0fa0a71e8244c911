#include "cli/cut/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

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

class Steps {
 public:
  Steps(const CutTelling& telling, const PaperPlan& paper) : telling_(telling), paper_(paper) {}

  [[nodiscard]] std::string text() const {
    std::string text;
    for (std::size_t i = 0; i < paper_.plan.size(); ++i) text += of_letter(i);
    return text;
  }

 private:
  [[nodiscard]] std::string of_letter(std::size_t index) const {
    const LaidSheet& laid = paper_.plan[index];
    const CutSheet& sheet = paper_.stock[laid.sheet];
    std::vector<Row> rows = {{.name = fmt::format("Steps of {}: {} of {}", laid.letter,
                                                  counted(laid.times, sheet.is_offcut() ? "piece" : "sheet"),
                                                  size_words(sheet.size, telling_.unit())),
                              .heading = true,
                              .indent = 2}};
    for (const CutStep& step : paper_.steps) {
      for (const SheetWork& work : step.works) {
        if (work.laid != index) continue;
        rows.push_back({.name = fmt::format("{}.", step.number),
                        .note = work_words(step, work) + together(step, index),
                        .indent = 4});
      }
    }
    return rows.size() > 1 ? "\n" + table(rows, telling_.style) : "";
  }

  [[nodiscard]] std::string length(const Rational& value) const {
    return length_text(value, telling_.unit());
  }
  [[nodiscard]] std::string size(const Size& value) const { return size_words(value, telling_.unit()); }

  // "Set 3. Turn: 2 strips 8 1/2 x 5 1/4, the 8 1/2 sides along the rule: 2 cuts each give 4 indigo mat, ..."
  [[nodiscard]] std::string work_words(const CutStep& step, const SheetWork& work) const {
    const LaidSheet& laid = paper_.plan[work.laid];
    const Hand hand = hand_for(laid, work, step.number);
    const bool offcut = paper_.stock[laid.sheet].is_offcut();
    const std::string_view what = hand != Hand::whole_sheet ? "strip" : offcut ? "piece" : "sheet";
    const bool several = work.from.count > 1;
    return fmt::format("Set {}. {}{} {}, {} {} {} along the rule: {}{} {} {}.{}", length(step.set),
                       hand == Hand::turned ? "Turn: " : "", counted(work.from.count, what),
                       size(work.from.size), several ? "their" : "its",
                       length(work.across ? work.from.size.height : work.from.size.width),
                       several ? "sides" : "side", counted(work.cuts, "cut"), several ? " each" : "",
                       work.cuts > 1 ? "give" : "gives", yields_words(step, work),
                       work.hold ? " Hold what stays in hand with removable tape." : "");
  }

  // What comes off is as long as was set; what stays in hand may be, too.
  [[nodiscard]] std::string yields_words(const CutStep& step, const SheetWork& work) const {
    std::vector<std::string> off;
    std::vector<std::string> stays;
    for (const StepYield& yield : work.yields) {
      const Rational& reach = work.across ? yield.size.height : yield.size.width;
      (reach == step.set ? off : stays).push_back(yield_words(work, yield));
    }
    if (stays.empty()) return listed(off);
    return fmt::format("{}; in hand {} {}", listed(off), stays_are(work, step) > 1 ? "stay" : "stays",
                       listed(stays));
  }

  [[nodiscard]] static int stays_are(const SheetWork& work, const CutStep& step) {
    int count = 0;
    for (const StepYield& yield : work.yields) {
      const Rational& reach = work.across ? yield.size.height : yield.size.width;
      count += reach == step.set ? 0 : yield.count;
    }
    return count;
  }

  [[nodiscard]] std::string yield_words(const SheetWork& work, const StepYield& yield) const {
    switch (yield.what) {
      case StepYield::What::piece:
        return fmt::format("{} {}, {}", yield.count, kind_name(paper_.pieces[yield.kind]), size(yield.size));
      case StepYield::What::strip:
        return fmt::format("{} {}", counted(yield.count, "strip"), size(yield.size));
      case StepYield::What::leftover:
        break;
    }
    return fmt::format("{} {}, {}", yield.count, is_kept(work, yield) ? "to keep" : "scrap",
                       size(yield.size));
  }

  [[nodiscard]] bool is_kept(const SheetWork& work, const StepYield& yield) const {
    const std::vector<Leftover>& all = paper_.plan[work.laid].leftovers;
    return std::any_of(all.begin(), all.end(), [&](const Leftover& one) {
      return one.keep && one.width == yield.size.width && one.height == yield.size.height;
    });
  }

  // The other letters that are cut at this setting.
  [[nodiscard]] std::string together(const CutStep& step, std::size_t index) const {
    std::vector<std::string> letters;
    for (const SheetWork& work : step.works) {
      const std::string& letter = paper_.plan[work.laid].letter;
      if (work.laid != index && std::find(letters.begin(), letters.end(), letter) == letters.end())
        letters.push_back(letter);
    }
    constexpr std::size_t most_named = 5;
    if (letters.empty()) return {};
    return letters.size() > most_named ? fmt::format(" Together with {} others.", letters.size())
                                       : fmt::format(" Together with {}.", listed(letters));
  }

  const CutTelling& telling_;
  const PaperPlan& paper_;
};

}  // namespace

std::string steps_text(const CutTelling& telling, const PaperPlan& paper) {
  return Steps(telling, paper).text();
}

}  // namespace evenmat
