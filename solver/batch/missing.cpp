// Sentences of what a paper lacks, and why a piece cannot be cut from any sheet of it.
#include "solver/batch/missing.h"

#include <fmt/format.h>

#include <algorithm>

#include "model/words.h"

namespace evenmat::batch {
namespace {

Size usable(const CutSheet& sheet) { return {sheet.size.width, sheet.size.height - sheet.trim_first}; }

// How far a piece sticks out of a sheet, as it lies; none below 0.
struct Overhang {
  Rational across, down;
  bool turned = false;
  [[nodiscard]] Rational worst() const { return std::max(across, down); }
};

Overhang overhang_of(Size piece, const Size& sheet, bool turned) {
  if (turned) std::swap(piece.width, piece.height);
  return {std::max(Rational(piece.width - sheet.width), Rational(0)),
          std::max(Rational(piece.height - sheet.height), Rational(0)), turned};
}

// As a sentence begins.
std::string called(const CutPiece& piece) {
  std::vector<std::string> names;
  for (const PieceUse& use : piece.uses) {
    const std::string name = use.base ? std::string("the base") : in_quotes(use.layer);
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::string all = names.front();
  for (std::size_t i = 1; i < names.size(); ++i) all += (i + 1 == names.size() ? " and " : ", ") + names[i];
  if (all.front() == 't') all.front() = 'T';
  return all;
}

std::string larger_for(const CutPiece& piece) {
  switch (piece.uses.empty() ? Rough::none : piece.uses.front().rough) {
    case Rough::none:
      return "";
    case Rough::die:
      return ", with what its die wants round it";
    case Rough::by_hand:
      return ", with what is left on for the scissors";
    case Rough::stamp_first:
      return ", with what is left on until it is stamped";
  }
  return "";
}

std::string sticks_out(const Overhang& over, Unit unit) {
  std::string says;
  if (over.across > 0) says = length_with_unit(over.across, unit) + " too wide";
  if (over.down > 0) says += (says.empty() ? "" : " and ") + length_with_unit(over.down, unit) + " too tall";
  return says;
}

class TooLarge {
 public:
  TooLarge(const PaperNeeds& needs, const PaperJob& paper, const BatchTrimmer& trimmer, Unit unit)
      : needs_(needs), paper_(paper), trimmer_(trimmer), unit_(unit) {}

  [[nodiscard]] Shortage tell(std::size_t kind) const {
    const CutPiece& piece = needs_.pieces[kind];
    Shortage shortage;
    shortage.too_large = piece;
    Overhang least;
    const CutSheet* best = nullptr;
    for (std::size_t i = 0; i < needs_.stock.size(); ++i) {
      const CutSheet& sheet = needs_.stock[i];
      if (sheet.is_offcut() || !needs_.may[kind][i]) continue;
      for (const bool turned : {false, true}) {
        if (!(turned ? piece.turned : piece.upright)) continue;
        const Overhang over = overhang_of(piece.size, usable(sheet), turned);
        if (best != nullptr && least.worst() <= over.worst()) continue;  // as it stands, if it is all one
        least = over;
        best = &sheet;
      }
    }
    const std::string cut =
        fmt::format("{} is cut {}{}", called(piece), size_text(piece.size, unit_), larger_for(piece));
    if (best == nullptr) {
      shortage.says = fmt::format("{}, and no sheet of {} states a grain that would run along its fold.", cut,
                                  in_quotes(needs_.paper));
    } else {
      shortage.sheet = best->size;
      shortage.by = least.worst();
      shortage.says =
          fmt::format("{}, and no sheet of {} takes it: {}.", cut, in_quotes(needs_.paper),
                      least.worst() > 0 ? why_too_large(piece, least, *best) : why_not_cut(piece, *best));
    }
    return shortage;
  }

 private:
  [[nodiscard]] std::string why_too_large(const CutPiece& piece, const Overhang& over,
                                          const CutSheet& sheet) const {
    const std::string trimmed = sheet.trim_first > 0 ? fmt::format(" less {} that is trimmed off first",
                                                                   length_with_unit(sheet.trim_first, unit_))
                                                     : "";
    const std::string way = !piece.upright || !piece.turned ? ", and it may not be turned"
                            : over.turned                   ? " turned, and more if it is not"
                                                            : ", and turned no less";
    return fmt::format("on {}{} it is {}{}", size_text(sheet.size, unit_), trimmed, sticks_out(over, unit_),
                       way);
  }

  [[nodiscard]] std::string why_not_cut(const CutPiece& piece, const CutSheet& sheet) const {
    const std::string longest = length_with_unit(trimmer_.longest, unit_);
    const std::string size = size_text(sheet.size, unit_);
    if (!can_be_trimmed(sheet, trimmer_)) {
      return fmt::format("an edge of {} has to come off first, and the trimmer cuts no more than {}", size,
                         longest);
    }
    if (sheet.size.width > trimmer_.longest && usable(sheet).height > trimmer_.longest) {
      return fmt::format("{} is longer every way than the {} that the trimmer cuts at most", size, longest);
    }
    cutting::Job any_length = paper_.job;
    any_length.longest = 0;
    const auto kind = static_cast<std::size_t>(&piece - needs_.pieces.data());
    bool some = false;
    for (std::size_t i = 0; i < any_length.sheets.size(); ++i) {
      some = some ||
             (paper_.is_sheet[i] && needs_.may[kind][paper_.stock[i]] && fits_by_size(any_length, kind, i));
    }
    if (some)
      return fmt::format("a cut would have to be longer than the {} that the trimmer cuts at most", longest);
    return fmt::format("{} leaves less beside it than the {} that can be trimmed off", size,
                       length_with_unit(trimmer_.sliver, unit_));
  }

  const PaperNeeds& needs_;
  const PaperJob& paper_;
  const BatchTrimmer& trimmer_;
  Unit unit_;
};

}  // namespace

std::string size_text(const Size& size, Unit unit) {
  return fmt::format("{} x {}", length_text(size.width, unit), length_with_unit(size.height, unit));
}

std::vector<Shortage> too_large(const PaperNeeds& needs, const PaperJob& paper, const BatchTrimmer& trimmer,
                                Unit unit) {
  std::vector<Shortage> missing;
  for (std::size_t kind = 0; kind < paper.job.kinds.size(); ++kind) {
    bool some = false;
    for (std::size_t i = 0; i < paper.stock.size(); ++i)
      some = some || (paper.is_sheet[i] && paper.takes[kind][i]);
    if (!some) missing.push_back(TooLarge(needs, paper, trimmer, unit).tell(kind));
  }
  return missing;
}

Shortage missing_sheets(const PaperNeeds& needs, const Size& sheet, int sheets, int at_least, bool alone,
                        Unit unit) {
  Shortage shortage;
  shortage.sheet = sheet;
  shortage.sheets = sheets;
  shortage.at_least = at_least;
  const bool none = std::all_of(needs.stock.begin(), needs.stock.end(), [](const CutSheet& stock) {
    return stock.is_offcut() || stock.have.value_or(1) == 0;
  });
  const std::string paper = in_quotes(needs.paper);
  const std::string more = fmt::format("{}{} of {} {}", sheets, none ? "" : " more", size_text(sheet, unit),
                                       alone ? "would do" : "beside what else it lacks would do");
  if (none) {
    shortage.says = fmt::format("There is none of {}: have = 0. {}", paper, more);
  } else {
    shortage.says = fmt::format("There is too little of {}: {}", paper, more);
  }
  if (at_least == sheets) {
    shortage.says += ", and no fewer.";
  } else if (at_least > 0) {
    shortage.says += fmt::format(", and no fewer than {}.", at_least);
  } else {
    shortage.says += alone ? ". No plan was found that does without, and no proof that there is none." : ".";
  }
  return shortage;
}

}  // namespace evenmat::batch
