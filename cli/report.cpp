#include "cli/report.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstddef>
#include <set>
#include <string_view>
#include <vector>

#include "cli/ruler.h"
#include "cli/table.h"
#include "cli/wording.h"
#include "model/faces.h"

namespace evenmat {
namespace {

using Pieces = std::vector<const PlacedPiece*>;

std::string joined(const std::vector<std::string>& parts, std::string_view by) {
  return fmt::format("{}", fmt::join(parts, by));
}

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

// "the front" for a face, the name as it is for a layer or window.
std::string name_of_below(const Piece& piece, const Base& base) {
  const std::vector<std::string> names = face_names(base);
  const std::string& on = piece.on.value;
  return std::find(names.begin(), names.end(), on) != names.end() ? "the " + on : on;
}

std::string turn_words(const Rational& degrees) {
  const Rational size = degrees < 0 ? Rational(-degrees) : degrees;
  return fmt::format("tilted {} {} {}", length_text(size, Unit::millimetre), size == 1 ? "degree" : "degrees",
                     degrees < 0 ? "anticlockwise" : "clockwise");
}

// What one needs to know of a piece to cut it, beside its size.
std::string cutting_note(const PlacedPiece& placed, const Base& base, Ruler& ruler) {
  const Piece& piece = *placed.piece;
  std::vector<std::string> parts;
  if (piece.kind == Piece::Kind::window) parts.push_back("window in " + name_of_below(piece, base));
  if (piece.stamped) parts.emplace_back("stamped on, not cut");
  if (!placed.copies.empty()) parts.push_back(fmt::format("{} alike", placed.copies.size()));
  if (piece.paper) parts.push_back(piece.paper->value);
  if (piece.cut == Cut::by_hand) parts.emplace_back("by hand");
  if (piece.cut == Cut::die) parts.emplace_back("die");
  if (piece.cut == Cut::ready_made) parts.emplace_back("ready-made");
  if (piece.tilt && piece.tilt->value != 0) parts.push_back(turn_words(piece.tilt->value));
  if (piece.raised) parts.push_back("raised " + ruler.number(piece.raised->value));
  return joined(parts, ", ");
}

// One version of the card, told with signs from the ruler that all versions share.
class VersionReport {
 public:
  VersionReport(const SizedVersion& version, const Design& design, const Card& card, Ruler& ruler,
                const Style& style)
      : version_(version), design_(design), card_(card), ruler_(ruler), style_(style) {}

  // `with_base`: the base and front too.
  [[nodiscard]] std::string sizes_text(const Pieces& pieces, bool with_base) const {
    std::vector<Row> sizes = {
        {.name = "To cut", .cells = {"width", "  height"}, .note = "", .heading = true}};
    if (with_base) add_base(sizes);
    for (const PlacedPiece* placed : pieces) add_size(sizes, *placed);
    return sizes.size() > 1 ? "\n" + table(sizes, style_) : "";
  }

  [[nodiscard]] std::string places_text(const Pieces& pieces) const {
    return pieces.empty() ? "" : "\n" + table(places(pieces), style_);
  }

  [[nodiscard]] std::string slides_text(const std::vector<Slide>& slides) const {
    std::string text = slides.empty() ? "" : "\n" + style_.strong("Can still be moved") + "\n";
    for (const Slide& slide : slides) {
      text += paragraph(fmt::format("{}{}: {}", joined(slide.names, ", "),
                                    slide.names.size() > 1 ? " (together)" : "", room(slide)),
                        2);
    }
    return text;
  }

  [[nodiscard]] std::string ranges_text(const std::vector<Range>& ranges) const {
    if (ranges.empty()) return {};
    std::vector<Row> rows = {
        {.name = "Smallest and largest", .cells = {"", "least", "most"}, .note = "", .heading = true}};
    for (const Range& range : ranges) {
      rows.push_back({.name = range.layer,
                      .cells = {range.what, ruler_.number(range.least), ruler_.number(range.most)},
                      .indent = 2});
    }
    return "\n" + table(rows, style_);
  }

  [[nodiscard]] std::string warnings_text(const std::vector<Remark>& warnings) const {
    std::string text = warnings.empty() ? "" : "\n" + style_.strong("Worth a second look") + "\n";
    for (const Remark& warning : warnings) {
      const std::string where = warning.spot.line > 0 ? fmt::format(" (line {})", warning.spot.line) : "";
      text += paragraph(warning.says + where, 2);
    }
    return text;
  }

 private:
  void add_base(std::vector<Row>& rows) const {
    const Base& base = design_.base;
    std::vector<std::string> parts;
    if (base.paper) parts.push_back(base.paper->value);
    if (version_.blank) {
      const std::string_view edge = base.fold.value == Fold::top ? "top" : "left";
      std::vector<std::string> scores;
      for (const Rational& score : version_.blank->scores) scores.push_back(ruler_.number(score));
      if (!scores.empty()) parts.push_back(fmt::format("score {} from its {}", joined(scores, ", "), edge));
      rows.push_back(size_row("base", ruler_.number(version_.blank->size.width),
                              ruler_.number(version_.blank->size.height), joined(parts, ", ")));
    }
    if (version_.cut_back && base.cut_back) {
      rows.push_back(size_row("front, cut back", ruler_.number(version_.front.width, across_settled()),
                              ruler_.number(version_.front.height, down_settled()),
                              fmt::format("once folded, {} off its {} edge",
                                          ruler_.number(*version_.cut_back, version_.cut_back_stated),
                                          edge_name(base.cut_back->edge))));
    }
  }

  [[nodiscard]] bool cut_back_across() const { return is_across(design_.base.cut_back->edge); }
  [[nodiscard]] bool across_settled() const { return version_.cut_back_stated || !cut_back_across(); }
  [[nodiscard]] bool down_settled() const { return version_.cut_back_stated || cut_back_across(); }

  static Row size_row(std::string name, std::string width, const std::string& height, std::string note) {
    return {.name = std::move(name),
            .cells = {std::move(width), "x " + height},
            .note = std::move(note),
            .indent = 2};
  }

  void add_size(std::vector<Row>& rows, const PlacedPiece& placed) const {
    rows.push_back(size_row(placed.piece->name.value, ruler_.number(placed.width, placed.width_stated),
                            ruler_.number(placed.height, placed.height_stated),
                            cutting_note(placed, design_.base, ruler_)));
  }

  [[nodiscard]] std::vector<Row> places(const Pieces& pieces) const {
    std::vector<Row> rows = {{.name = "To place, from the edges of what it lies on", .heading = true},
                             {.name = "", .cells = {"left", "right", "top", "bottom"}}};
    std::string group;
    for (const PlacedPiece* placed : pieces) {
      const Piece& piece = *placed->piece;
      const std::string heading = where(piece);
      if (heading != group) rows.push_back({.name = heading, .indent = 2});
      group = heading;
      rows.push_back({.name = piece.name.value,
                      .cells = {ruler_.number(placed->from_left, placed->left_stated),
                                ruler_.number(placed->from_right, placed->right_stated),
                                ruler_.number(placed->from_top, placed->top_stated),
                                ruler_.number(placed->from_bottom, placed->bottom_stated)},
                      .indent = 4});
      add_details(rows, *placed);
    }
    return rows;
  }

  // "on the front", "behind porthole".
  [[nodiscard]] std::string where(const Piece& piece) const {
    const std::string below = name_of_below(piece, design_.base);
    if (piece.kind == Piece::Kind::window) return "cut in " + below;
    const bool in_window = std::any_of(design_.pieces.begin(), design_.pieces.end(), [&](const Piece& other) {
      return other.kind == Piece::Kind::window && other.name.value == piece.on.value;
    });
    return (!in_window ? "on " : piece.tuck ? "behind " : "in the opening of ") + below;
  }

  // Copies, a tilted box and the artwork, on lines of their own below the piece.
  void add_details(std::vector<Row>& rows, const PlacedPiece& placed) const {
    if (!placed.copies.empty()) {
      std::set<Rational> lefts;
      std::set<Rational> tops;
      for (const auto& [left, top] : placed.copies) {
        lefts.insert(left);
        tops.insert(top);
      }
      rows.push_back(
          {.name = fmt::format("{} alike: {} from the left, {} from the top", placed.copies.size(),
                               numbers(lefts, placed.left_stated), numbers(tops, placed.top_stated)),
           .indent = 6});
    }
    if (placed.piece->tilt && placed.piece->tilt->value != 0) {
      rows.push_back({.name = fmt::format("to its outermost corners, {} x {} as it lies",
                                          ruler_.number(placed.box_width), ruler_.number(placed.box_height)),
                      .indent = 6});
    }
    if (placed.artwork_at && placed.piece->artwork) {
      rows.push_back({.name = fmt::format("artwork {}: {} from its left, {} from its top",
                                          ruler_.size(placed.piece->artwork->size),
                                          ruler_.number(placed.artwork_at->first),
                                          ruler_.number(placed.artwork_at->second)),
                      .indent = 6});
    }
  }

  [[nodiscard]] std::string numbers(const std::set<Rational>& lengths, bool stated) const {
    std::vector<std::string> texts;
    texts.reserve(lengths.size());
    for (const Rational& length : lengths) texts.push_back(ruler_.number(length, stated));
    return joined(texts, ", ");
  }

  // "5/8 in up or down", "1/4 in left, 1/2 in right".
  [[nodiscard]] std::string room(const Slide& slide) const {
    const std::string_view back = slide.across ? "left" : "up";
    const std::string_view forth = slide.across ? "right" : "down";
    const auto length = [&](const Rational& value) { return length_with_unit(value, card_.unit); };
    if (slide.low == slide.high) return fmt::format("{} {} or {}", length(slide.low), back, forth);
    if (slide.low == 0) return fmt::format("{} {}", length(slide.high), forth);
    if (slide.high == 0) return fmt::format("{} {}", length(slide.low), back);
    return fmt::format("{} {}, {} {}", length(slide.low), back, length(slide.high), forth);
  }

  const SizedVersion& version_;
  const Design& design_;
  const Card& card_;
  Ruler& ruler_;
  const Style& style_;
};

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
         a.piece->on.value == b.piece->on.value;
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
    if (sized_.verdict == Verdict::undecided && !some) {
      return text + paragraph("No card was found within the time allowed. --limit allows more.");
    }
    if (sized_.verdict == Verdict::undecided) {
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
    text += paragraph(fmt::format("{}, {} {}{}", fold_words(base.fold.value), ruler_.size(base.front.size),
                                  unit_name(card_.unit), base.fold.value == Fold::flat ? "" : " closed"));
    text += paragraph(fmt::format("{}{}, marks every {}", counted(card_.cards, "card"), spare,
                                  length_with_unit(card_.mark, card_.unit)));
    return text;
  }

  std::string version(std::size_t index) {
    const SizedVersion& version = sized_.versions[index];
    const VersionReport report(version, design_of(card_, index), card_, ruler_, style_);
    std::string text;
    if (sized_.versions.size() > 1) {
      const std::string name = index == 0 ? "The plain card" : "Variant: " + version.name;
      text += "\n" + style_.strong(paragraph(fmt::format("{} ({})", name, counted(version.cards, "card"))));
    }
    if (version.pieces.empty() && version.verdict != Verdict::buildable) {
      return text + paragraph("No card was found for it in the time allowed.");
    }
    return text + (index == 0 ? whole(version, report) : difference(index, report));
  }

  static std::string whole(const SizedVersion& version, const VersionReport& report) {
    const Pieces all = all_pieces(version);
    return report.sizes_text(all, true) + report.places_text(all) + report.slides_text(version.slides) +
           report.ranges_text(version.ranges) + report.warnings_text(version.warnings);
  }

  [[nodiscard]] bool same_cut(const PlacedPiece& a, const PlacedPiece& b) const {
    Ruler unseen(card_.unit, card_.mark, sized_.freedom_known);
    const Base& base = card_.design.base;
    return a.width == b.width && a.height == b.height &&
           cutting_note(a, base, unseen) == cutting_note(b, base, unseen);
  }

  [[nodiscard]] bool same_base(std::size_t index) const {
    const auto told = [&](std::size_t i) {
      Ruler unseen(card_.unit, card_.mark, sized_.freedom_known);
      return VersionReport(sized_.versions[i], design_of(card_, i), card_, unseen, style_)
          .sizes_text({}, true);
    };
    return told(index) == told(0);
  }

  // A variant as what differs from the plain card; whole, if most of it does.
  [[nodiscard]] std::string difference(std::size_t index, const VersionReport& report) const {
    const SizedVersion& version = sized_.versions[index];
    const SizedVersion& plain = sized_.versions.front();
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
    if (2 * std::max(recut.size(), moved.size()) > version.pieces.size() + 1) return whole(version, report);

    const bool base_differs = !same_base(index);
    const bool alike = recut.empty() && moved.empty() && left_out.empty() && !base_differs;
    std::string text = paragraph(alike ? "Cut and placed like the plain card."
                                       : "Cut and placed like the plain card, but for what follows.");
    if (!left_out.empty()) text += paragraph("Left out: " + joined(left_out, ", "));
    return text + report.sizes_text(recut, base_differs) + report.places_text(moved) +
           report.slides_text(not_in(version.slides, plain.slides, same_slide)) +
           report.ranges_text(not_in(version.ranges, plain.ranges, same_range)) +
           report.warnings_text(not_in(version.warnings, plain.warnings, same_remark));
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
