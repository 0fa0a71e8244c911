#include "cli/report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <vector>

#include "cli/report/cutting.h"
#include "cli/report/finished.h"
#include "cli/report/leeway.h"
#include "cli/report/placing.h"
#include "cli/ruler.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

std::string fold_words(Fold fold) {
  switch (fold) {
    case Fold::flat:
      return "Flat card";
    case Fold::side:
      return "Side-fold card";
    case Fold::top:
      return "Top-fold card";
    case Fold::gate:
      return "Gate-fold card";
    case Fold::z:
      return "Z-fold card";
    case Fold::tri:
      break;
  }
  return "Tri-fold card";
}

Pieces all_pieces(const SizedVersion& version) {
  Pieces all;
  for (const PlacedPiece& placed : version.pieces) all.push_back(&placed);
  return all;
}

const PlacedPiece* find(const SizedVersion& version, const std::string& name) {
  const auto found =
      std::find_if(version.pieces.begin(), version.pieces.end(),
                   [&](const PlacedPiece& placed) { return placed.piece->name.value == name; });
  return found == version.pieces.end() ? nullptr : &*found;
}

bool same_place(const PlacedPiece& a, const PlacedPiece& b) {
  return a.from_left == b.from_left && a.from_right == b.from_right && a.from_top == b.from_top &&
         a.from_bottom == b.from_bottom && a.copies == b.copies && a.artwork_at == b.artwork_at &&
         a.piece->on.value == b.piece->on.value && a.shown.open == b.shown.open &&
         a.shown.closed == b.shown.closed;
}

bool same_slide(const Slide& a, const Slide& b) {
  return a.names == b.names && a.across == b.across && a.low == b.low && a.high == b.high;
}
bool same_range(const Range& a, const Range& b) {
  return a.layer == b.layer && a.what == b.what && a.least == b.least && a.most == b.most;
}
bool same_remark(const Remark& a, const Remark& b) { return a.says == b.says && a.spot == b.spot; }

// The elements of `these` that are not in `those`.
template <typename T, typename Same>
std::vector<T> not_in(const std::vector<T>& these, const std::vector<T>& those, const Same& same) {
  std::vector<T> rest;
  std::copy_if(these.begin(), these.end(), std::back_inserter(rest), [&](const T& one) {
    return std::none_of(those.begin(), those.end(), [&](const T& other) { return same(one, other); });
  });
  return rest;
}

class CardReport {
 public:
  CardReport(const Card& card, const SizedCard& sized, const Style& style)
      : card_(card), sized_(sized), style_(style), ruler_(card.unit, card.mark, sized.freedom_known) {}

  std::string text() {
    std::string text = head();
    const bool some = std::any_of(sized_.versions.begin(), sized_.versions.end(),
                                  [](const SizedVersion& version) { return !version.pieces.empty(); });
    if (sized_.verdict == Verdict::undecided && some && !sized_.time_ran_out) {
      text += paragraph(
          "Whether a card shows as much as is asked for is not settled; this one does not (see the end).");
    } else if (sized_.verdict == Verdict::undecided && !some) {
      return text + paragraph("No card was found within the time allowed. --limit allows more.");
    }
    if (sized_.verdict == Verdict::undecided && sized_.time_ran_out) {
      text += paragraph(
          "Not settled within the time allowed. This is the best card found so far; there may be a better "
          "one.");
    }
    if (!sized_.freedom_known) {
      text += paragraph(
          "The time allowed ran out before it was known what was stated and what chosen, and what can still "
          "move.");
    }
    for (std::size_t i = 0; i < sized_.versions.size(); ++i) text += version(i);
    const std::string key = ruler_.key();
    if (!key.empty()) text += "\n" + key;
    return text + "\nMind the blade, and build one card whole before you cut the batch.\n";
  }

 private:
  std::string head() {
    const Base& base = card_.design.base;
    std::string text = card_.title.empty() ? "" : style_.strong(paragraph(card_.title));
    const std::string spare = card_.spare > 0 ? fmt::format(" and {} spare", card_.spare) : "";
    const std::string opens =
        base.opens ? fmt::format(", opens at the {}", edge_name(base.opens->value)) : std::string();
    text +=
        paragraph(fmt::format("{}, {} {}{}{}", fold_words(base.fold.value), ruler_.size(base.front.size),
                              unit_name(card_.unit), base.fold.value == Fold::flat ? "" : " closed", opens));
    text += paragraph(fmt::format("{}{}, marks every {}", counted(card_.cards, "card"), spare,
                                  length_with_unit(card_.mark, card_.unit)));
    return text;
  }

  // Version `index` with signs from `ruler`.
  [[nodiscard]] Telling telling(std::size_t index, Ruler& ruler) const {
    return {sized_.versions[index], design_of(card_, index), card_, ruler, style_};
  }

  // A ruler whose signs are not told.
  [[nodiscard]] Ruler unseen() const { return {card_.unit, card_.mark, sized_.freedom_known}; }

  std::string version(std::size_t index) {
    const SizedVersion& version = sized_.versions[index];
    std::string text;
    if (sized_.versions.size() > 1) {
      const std::string name = index == 0 ? "The plain card" : "Variant: " + version.name;
      text += "\n" + style_.strong(paragraph(fmt::format("{} ({})", name, counted(version.cards, "card"))));
    }
    if (version.pieces.empty() && version.verdict != Verdict::buildable) {
      return text + paragraph("No card was found for it in the time allowed.");
    }
    return text + (index == 0 ? whole(telling(index, ruler_)) : difference(index));
  }

  static std::string whole(const Telling& telling) {
    const SizedVersion& version = telling.version;
    const Pieces all = all_pieces(version);
    return cutting_text(telling, all, true) + making_text(telling) + placing_text(telling, all) +
           closed_text(telling) + mail_text(telling) + slides_text(telling, version.slides) +
           ranges_text(telling, version.ranges) + warnings_text(telling, version.warnings);
  }

  [[nodiscard]] bool same_cut(const PlacedPiece& a, const PlacedPiece& b) const {
    const Base& base = card_.design.base;
    return a.width == b.width && a.height == b.height && cutting_note(a, base) == cutting_note(b, base);
  }

  // Whether a part of the report says the same of version `index` as of the plain card.
  template <typename Part>
  [[nodiscard]] bool says_the_same(std::size_t index, const Part& part) const {
    Ruler ruler = unseen();
    return part(telling(index, ruler)) == part(telling(0, ruler));
  }

  // A variant as what differs from the plain card; whole, if most of it does.
  std::string difference(std::size_t index) {
    const SizedVersion& version = sized_.versions[index];
    const SizedVersion& plain = sized_.versions.front();
    const Telling told = telling(index, ruler_);
    Pieces recut;
    Pieces moved;
    std::vector<std::string> left_out;
    for (const PlacedPiece& placed : version.pieces) {
      const PlacedPiece* before = find(plain, placed.piece->name.value);
      if (before == nullptr || !same_cut(placed, *before)) recut.push_back(&placed);
      if (before == nullptr || !same_place(placed, *before)) moved.push_back(&placed);
    }
    for (const PlacedPiece& placed : plain.pieces) {
      if (find(version, placed.piece->name.value) == nullptr) left_out.push_back(placed.piece->name.value);
    }
    if (2 * std::max(recut.size(), moved.size()) > version.pieces.size() + 1) return whole(told);

    const bool base_differs =
        !says_the_same(index, [](const Telling& one) { return cutting_text(one, {}, true); });
    const auto if_other = [&](std::string (*part)(const Telling&)) {
      return says_the_same(index, part) ? std::string() : part(told);
    };
    const std::string making = if_other(making_text);
    const bool alike = recut.empty() && moved.empty() && left_out.empty() && !base_differs && making.empty();
    std::string text = paragraph(alike ? "Cut and placed like the plain card."
                                       : "Cut and placed like the plain card, but for what follows.");
    if (!left_out.empty()) text += paragraph("Left out: " + joined(left_out, ", "));
    return text + cutting_text(told, recut, base_differs) + making + placing_text(told, moved) +
           if_other(closed_text) + if_other(mail_text) +
           slides_text(told, not_in(version.slides, plain.slides, same_slide)) +
           ranges_text(told, not_in(version.ranges, plain.ranges, same_range)) +
           warnings_text(told, not_in(version.warnings, plain.warnings, same_remark));
  }

  const Card& card_;
  const SizedCard& sized_;
  const Style& style_;
  Ruler ruler_;
};

}  // namespace

std::string report(const Card& card, const SizedCard& sized, const Style& style) {
  return CardReport(card, sized, style).text();
}

}  // namespace evenmat
