#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "cli/cut/telling.h"
#include "cli/making.h"
#include "cli/on_blank.h"
#include "cli/wording.h"
#include "cli/worksheet/assembly.h"
#include "cli/worksheet/gluing_place.h"
#include "cli/worksheet/parts.h"
#include "cli/worksheet/units.h"
#include "cli/worksheet/worksheet.h"
#include "model/faces.h"
#include "model/versions.h"
#include "solver/cut_batch.h"

namespace evenmat {
namespace {

// "8 1/2 x 5 1/2 in (about 216 x 139.5 mm)".
std::string both(const Size& size, Unit unit) {
  return fmt::format("{} {} ({} {})", size_words(size, unit), unit_name(unit), other_size(size, unit),
                     unit_name(other_unit(unit)));
}

std::string both(const Rational& length, Unit unit) {
  return fmt::format("{} ({} {})", length_with_unit(length, unit), other_length(length, unit),
                     unit_name(other_unit(unit)));
}

class Recipe {
 public:
  Recipe(const Card& card, const SizedCard& sized, std::size_t version, PageSize size)
      : flow_(size),
        card_(card),
        design_(design_of(card, version)),
        version_(sized.versions.at(version)),
        unit_(card.unit) {}

  Drawing drawing() {
    const std::string card = title_of(card_);
    const std::string title = version_.name.empty() ? card : fmt::format("{}, {}", card, version_.name);
    flow_.title(title);
    add_pictures(flow_, card_, design_, version_, 180);
    const std::vector<std::string> told = closed_sentences(card_, version_);
    if (!told.empty()) flow_.paragraph(joined(told, " "), body_type());
    add_materials();
    add_layers();
    add_folding();
    add_steps("To put together", gluing());
    add_cautions();
    return flow_.done(title, title);
  }

 private:
  // Papers, and what is cut of each.
  void add_materials() {
    flow_.heading("For one card");
    const bool base_has_none = !design_.base.paper;
    std::vector<std::pair<std::string, std::vector<std::string>>> papers;
    const auto add = [&](const std::string& paper, const std::string& what) {
      auto same =
          std::find_if(papers.begin(), papers.end(), [&](const auto& one) { return one.first == paper; });
      if (same == papers.end()) same = papers.insert(papers.end(), {paper, {}});
      same->second.push_back(what);
    };
    const std::string blank = fmt::format("the base, {}", both(version_.folding.blank, unit_));
    if (!base_has_none) add(design_.base.paper->value, blank);
    std::vector<std::string> others;
    std::set<std::string> foams;
    bool glued = false;
    for (const PlacedPiece& placed : version_.pieces) {
      const Piece& piece = *placed.piece;
      if (piece.kind == Piece::Kind::window || piece.stamped) continue;
      const std::string name = placed.copies.size() > 1
                                   ? fmt::format("{} {}", placed.copies.size(), piece.name.value)
                                   : piece.name.value;
      if (piece.paper) {
        add(piece.paper->value, name);
      } else {
        others.push_back(name);
      }
      const bool raised = piece.raised && piece.raised->value > 0;
      if (raised) foams.insert(both(piece.raised->value, unit_));
      glued = glued || !raised;
    }
    if (base_has_none) flow_.tick(blank, body_type());
    for (const auto& [paper, layers] : papers)
      flow_.tick(fmt::format("{}: {}", paper, joined(layers, ", ")), body_type());
    if (!others.empty()) flow_.tick("also: " + joined(others, ", "), body_type());
    if (glued) flow_.tick("adhesive", body_type());
    for (const std::string& foam : foams) flow_.tick("foam of " + foam, body_type());
    for (const Supply& supply : card_.supplies) {
      const Rational count = supply.per_card ? supply.per_card->value : Rational(1);
      flow_.tick(fmt::format("{}: {}", supply.name.value, amount_words(count)), body_type());
    }
    for (const Name& envelope : card_.mail.envelopes)
      flow_.tick(fmt::format("an envelope, {}", envelope.value), body_type());
  }

  // Two lines for each: in the card's own unit, then in the other.
  void add_layers() {
    if (version_.pieces.empty()) return;
    flow_.heading("The layers, and where they go");
    constexpr double unit_width = 26;
    constexpr double number_width = 66;
    constexpr double size_width = 108;
    const double rest = flow_.width() - Flow::row_indent - unit_width - 4 * number_width - size_width;
    const std::vector<Column> columns = {{rest},         {unit_width},   {size_width},  {number_width},
                                         {number_width}, {number_width}, {number_width}};
    flow_.begin_table(columns, {"layer", "", "width x height", "from left", "right", "top", "bottom"});
    const auto plain = [&](const Rational& length) { return ruler_length(length, unit_); };
    const auto other = [&](const Rational& length) { return other_length(length, unit_); };
    for (const PlacedPiece& placed : version_.pieces) {
      const Piece& piece = *placed.piece;
      const Size size{placed.width, placed.height};
      flow_.rows(
          columns,
          {{piece.name.value, std::string(unit_name(unit_)), ruler_size(size, unit_), plain(placed.from_left),
            plain(placed.from_right), plain(placed.from_top), plain(placed.from_bottom)},
           {on_words(design_, piece), std::string(unit_name(other_unit(unit_))), other_size(size, unit_),
            other(placed.from_left), other(placed.from_right), other(placed.from_top),
            other(placed.from_bottom)}},
          body_type(), true, note_of(placed));
    }
    flow_.end_table();
    flow_.space(2);
    flow_.paragraph(fmt::format("Worked out in {}; \"about\": rounded to what a ruler shows. \"-\": it "
                                "reaches past that edge by so much. Cut by one of the two throughout.",
                                unit_ == Unit::inch ? "inches" : "millimetres"),
                    small_type());
  }

  // What the table has no column for, and the lengths in it by the other ruler too.
  [[nodiscard]] std::string note_of(const PlacedPiece& placed) const {
    const Piece& piece = *placed.piece;
    std::vector<std::string> parts;
    if (const auto rough = rough_size(card_, placed)) parts.push_back("first cut to " + both(*rough, unit_));
    if (std::string note = place_note(card_, placed); !note.empty()) parts.push_back(std::move(note));
    std::vector<std::string> others;
    if (placed.artwork_at && piece.artwork) {
      others.push_back(fmt::format(
          "artwork {}, {} from its left, {} from its top", other_size(piece.artwork->size, unit_),
          other_length(placed.artwork_at->first, unit_), other_length(placed.artwork_at->second, unit_)));
    }
    if (piece.raised && piece.raised->value > 0)
      others.push_back("foam " + other_length(piece.raised->value, unit_));
    if (through_of(version_, placed) == Through::page) {
      const std::string face = face_of(design_, piece.on.value);
      const auto [left, top] = corner_on(design_, version_, placed, face);
      others.push_back(fmt::format("{} from the left and {} from the top of the {}",
                                   other_length(left, unit_), other_length(top, unit_), face));
    }
    if (!others.empty()) parts.push_back(fmt::format("in {}: {}", other_unit_words(), joined(others, "; ")));
    return joined(parts, "; ");
  }

  void add_folding() {
    const Making making = making_of(card_, design_, version_);
    if (making.order.size() < 2) return;
    const Folding& folding = version_.folding;
    flow_.heading(folding.leaves.size() > 1 ? "To score and fold" : "To make the base");
    std::vector<std::string> scores;
    for (const ScoreLine& score : folding.scores) scores.push_back(other_length(score.at, unit_));
    std::string words =
        fmt::format("In {}: closed {}, the blank {}", other_unit_words(),
                    other_size(design_.base.front.size, unit_), other_size(folding.blank, unit_));
    if (!scores.empty()) {
      words +=
          fmt::format("; scored at {} from its {} edge", listed(scores), folding.across ? "left" : "top");
    }
    if (version_.cut_back && design_.base.cut_back)
      words += fmt::format("; {} trimmed off once it is folded", other_length(*version_.cut_back, unit_));
    for (const std::string& window : windows_on_blank()) words += "; " + window;
    flow_.paragraph(words + ".", body_type(), Flow::row_indent);
    add_making(flow_, card_, design_, version_);
  }

  [[nodiscard]] const char* other_unit_words() const {
    return other_unit(unit_) == Unit::inch ? "inches" : "millimetres";
  }

  // Those that the steps tell the place of, by the other ruler.
  [[nodiscard]] std::vector<std::string> windows_on_blank() const {
    std::vector<std::string> told;
    for (const PlacedPiece& placed : version_.pieces) {
      if (placed.piece->kind != Piece::Kind::window) continue;
      for (const OnBlank& part :
           on_blank(design_, version_.folding, placed.piece->on.value, patch_of(placed))) {
        told.push_back(fmt::format("{} {}, {} from the left and {} from the top", placed.piece->name.value,
                                   other_size(part.patch.size, unit_), other_length(part.patch.left, unit_),
                                   other_length(part.patch.top, unit_)));
      }
    }
    return told;
  }

  [[nodiscard]] std::vector<std::string> gluing() const {
    std::vector<std::string> says;
    for (AssemblyStep& step : assembly_of(card_, design_, version_)) says.push_back(std::move(step.says));
    return says;
  }

  void add_steps(const std::string& heading, const std::vector<std::string>& steps) {
    if (steps.empty()) return;
    flow_.heading(heading);
    add_numbered(flow_, steps);
  }

  void add_cautions() {
    flow_.heading("Take care");
    for (const char* words :
         {"A fresh blade cuts clean; a blunt one tears, and slips. Keep fingers behind the "
          "guard or the rule, and hold a narrow piece with removable tape.",
          "What the makers of your tools say, and the rules where you work or teach, come "
          "before this page."})
      flow_.paragraph(words, body_type());
    for (const std::string& one : heat_cautions()) flow_.paragraph(one, body_type());
  }

  Flow flow_;
  const Card& card_;
  const Design& design_;
  const SizedVersion& version_;
  Unit unit_;
};

}  // namespace

Drawing recipe(const Card& card, const SizedCard& sized, std::size_t version, PageSize size) {
  return Recipe(card, sized, version, size).drawing();
}

}  // namespace evenmat
