// The design on each base as a row of a table.
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <utility>

#include "cli/explore/formats.h"
#include "cli/explore/formats_words.h"
#include "cli/printable.h"
#include "cli/ruler.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

constexpr std::size_t most_layers = 2;  // have a column
constexpr int most_heading = 15;        // columns

const PlacedPiece* find(const SizedVersion& version, const std::string& name) {
  const auto found =
      std::find_if(version.pieces.begin(), version.pieces.end(),
                   [&](const PlacedPiece& placed) { return placed.piece->name.value == name; });
  return found == version.pieces.end() ? nullptr : &*found;
}

// Layers of which the sizes are told: those that are not of one size on all bases, mats before others.
std::vector<std::string> told_layers(const std::vector<TriedFormat>& tried) {
  std::vector<const SizedVersion*> versions;
  for (const TriedFormat& one : tried)
    if (const SizedVersion* version = built(one)) versions.push_back(version);
  if (versions.empty()) return {};
  const auto differs = [&](const PlacedPiece& placed) {
    return versions.size() == 1 ||
           std::any_of(versions.begin(), versions.end(), [&](const SizedVersion* version) {
             const PlacedPiece* other = find(*version, placed.piece->name.value);
             return other != nullptr && (other->width != placed.width || other->height != placed.height);
           });
  };
  std::vector<std::string> mats, others;
  for (const PlacedPiece& placed : versions.front()->pieces) {
    if (placed.piece->kind != Piece::Kind::layer || placed.piece->stamped || !differs(placed)) continue;
    (placed.piece->role == Role::mat ? mats : others).push_back(placed.piece->name.value);
  }
  mats.insert(mats.end(), others.begin(), others.end());
  mats.resize(std::min(mats.size(), most_layers));
  return mats;
}

// Whether a ruler of that unit shows it.
bool on_ruler(const Size& size, Unit unit) {
  const Rational step = Rational(1) / (unit == Unit::inch ? 64 : 10);
  return is_multiple(size.width, step) && is_multiple(size.height, step);
}

// In the unit whose ruler shows it: "105 x 148 mm" of an iso A6 in a card in inches.
std::string size_told(const Size& size, Unit unit) {
  const Unit other = unit == Unit::inch ? Unit::millimetre : Unit::inch;
  const Size converted{convert(size.width, unit, other), convert(size.height, unit, other)};
  const bool turn = !on_ruler(size, unit) && on_ruler(converted, other);
  const Size& told = turn ? converted : size;
  const Unit in = turn ? other : unit;
  return fmt::format("{} x {}", length_text(told.width, in), length_with_unit(told.height, in));
}

bool is_undecided(const TriedFormat& tried) {
  return tried.checked && tried.checked->verdict == Verdict::undecided;
}

class FormatTable {
 public:
  FormatTable(const Card& card, const std::vector<TriedFormat>& tried)
      : unit_(card.unit), layers_(told_layers(tried)), ruler_(card.unit, card.mark, false) {
    for (const TriedFormat& one : tried) {
      envelopes_.push_back(smallest_envelope(one));
      some_envelope_ = some_envelope_ || !envelopes_.back().empty();
    }
    add_heading();
    for (std::size_t i = 0; i < tried.size(); ++i) add(tried[i], envelopes_[i]);
  }

  [[nodiscard]] std::string text(const Style& style) const {
    const std::string key = ruler_.key();
    return table(rows_, style) + (key.empty() ? "" : "\n" + key);
  }

 private:
  void add_heading() {
    std::vector<std::string> cells{"size"};
    for (const std::string& layer : layers_) cells.push_back(shortened(layer, most_heading));
    if (layers_.empty()) cells.emplace_back();
    if (some_envelope_) cells.emplace_back("envelope");
    rows_.push_back({.name = "base", .cells = std::move(cells), .heading = true});
  }

  void add(const TriedFormat& tried, const std::string& envelope) {
    std::vector<std::string> cells{size_told(tried.format.size, unit_)};
    const SizedVersion* version = built(tried);
    for (const std::string& layer : layers_) {
      const PlacedPiece* placed = version == nullptr ? nullptr : find(*version, layer);
      cells.push_back(placed == nullptr ? "" : ruler_.size({placed->width, placed->height}));
    }
    if (layers_.empty()) cells.emplace_back(version == nullptr ? "" : "can be built");
    if (version == nullptr) cells[1] = is_undecided(tried) ? "not settled" : "cannot be built";
    if (some_envelope_) cells.push_back(envelope);
    rows_.push_back({.name = tried.format.text, .cells = std::move(cells)});
    if (version == nullptr) rows_.push_back({.name = why_not(tried), .indent = 2});
  }

  Unit unit_;
  std::vector<std::string> layers_;
  Ruler ruler_;
  std::vector<std::string> envelopes_;
  bool some_envelope_ = false;
  std::vector<Row> rows_;
};

std::string summary(const std::vector<TriedFormat>& tried) {
  int can = 0, unsettled = 0;
  for (const TriedFormat& one : tried) {
    can += built(one) != nullptr ? 1 : 0;
    unsettled += is_undecided(one) ? 1 : 0;
  }
  const int all = static_cast<int>(tried.size());
  const std::string open = unsettled == 0 ? "" : fmt::format("; {} not settled", unsettled);
  if (all == 1 && unsettled == 1) return "Whether it can be built on this base is not settled.";
  if (all == 1) return can == 1 ? "It can be built on this base." : "It cannot be built on this base.";
  if (can == all) return fmt::format("It can be built on all {} bases.", all);
  return fmt::format("It can be built on {} of these {} bases{}.", can == 0 ? "none" : std::to_string(can),
                     all, open);
}

}  // namespace

std::string formats_text(const Card& card, const std::vector<TriedFormat>& tried, const Style& style) {
  std::string text = style.strong(paragraph(summary(tried))) + "\n" + FormatTable(card, tried).text(style);
  if (!card.variants.empty()) text += "\n" + paragraph("Sizes and envelopes are those of the plain card.");
  return text;
}

}  // namespace evenmat
