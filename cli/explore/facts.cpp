#include "cli/explore/facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "cli/cut/telling.h"
#include "cli/explore/words.h"
#include "cli/table.h"
#include "cli/wording.h"
#include "solver/answer/seen.h"

namespace evenmat {
namespace {

Fact size_fact(const PlacedPiece& placed, const std::string& name, Unit unit) {
  const std::string size =
      fmt::format("{} x {}", length_text(placed.width, unit), length_text(placed.height, unit));
  return {name, "size", size, fmt::format("{} {}", name, size)};
}

Fact seen_fact(const Rational& seen, const std::string& name, bool known) {
  const std::string share = known ? per_cent_words(seen) : "not known";
  return {name, "seen", share, fmt::format("{} seen {}", name, share)};
}

const PlacedPiece* find(const SizedVersion& version, const std::string& name) {
  const auto same = std::find_if(version.pieces.begin(), version.pieces.end(),
                                 [&](const PlacedPiece& other) { return other.piece->name.value == name; });
  return same == version.pieces.end() ? nullptr : &*same;
}

bool any_panel(const SizedVersion& version) {
  return std::any_of(version.pieces.begin(), version.pieces.end(),
                     [](const PlacedPiece& placed) { return placed.piece->role == Role::panel; });
}

// Names of a variant's layers say whose they are.
std::string whose(const std::string& name, const SizedVersion& version) {
  return version.name.empty() ? name : fmt::format("{} ({})", name, version.name);
}

// A variant's fact that is the plain card's own has no words: it is told once.
void add_sizes(Facts& facts, const Card& card, const SizedCard& sized) {
  const SizedVersion& plain = sized.versions.front();
  for (const SizedVersion& version : sized.versions) {
    for (const PlacedPiece& placed : version.pieces) {
      facts.push_back(size_fact(placed, whose(placed.piece->name.value, version), card.unit));
      const PlacedPiece* same = &version == &plain ? nullptr : find(plain, placed.piece->name.value);
      if (same != nullptr && same->width == placed.width && same->height == placed.height)
        facts.back().words.clear();
    }
  }
}

void add_seen(Facts& facts, const SizedCard& sized) {
  const SizedVersion& plain = sized.versions.front();
  const bool panels = any_panel(plain);
  for (const SizedVersion& version : sized.versions) {
    for (const PlacedPiece& placed : version.pieces) {
      if (placed.piece->kind != Piece::Kind::layer || placed.piece->stamped) continue;
      if (panels && placed.piece->role != Role::panel) continue;
      facts.push_back(seen_fact(share_seen(version, placed), whose(placed.piece->name.value, version),
                                version.closed.has_value()));
      const PlacedPiece* same = &version == &plain ? nullptr : find(plain, placed.piece->name.value);
      // What is left out of a variant bares the same in every card.
      if (same != nullptr && same->width == placed.width && same->height == placed.height)
        facts.back().words.clear();
    }
  }
}

}  // namespace

std::string PaperSigns::sheets(const PaperCost& paper) {
  if (!paper.trouble.empty()) {
    troubles_.insert(fmt::format("{}: {}", paper.paper, paper.trouble));
    return "?";
  }
  if (paper.never) {
    never_ = true;
    return "none";
  }
  not_proven_ = not_proven_ || !paper.proven;
  costs_ = costs_ || paper.cost.has_value();
  missing_ = missing_ || paper.missing > 0;
  return fmt::format("{}{}{}", paper.sheets, paper.missing > 0 ? "!" : "", paper.proven ? "" : "*");
}

std::string PaperSigns::key() const {
  std::string text;
  if (missing_) text += paragraph("! more sheets than there are");
  if (not_proven_) {
    text += paragraph(costs_ ? "* the best plan that was found; that none costs less is not proven"
                             : "* the best plan that was found; that none takes fewer sheets is not proven");
  }
  if (never_) text += paragraph("none: a piece is larger than every sheet of that paper");
  for (const std::string& trouble : troubles_) text += paragraph("? " + trouble);
  return text;
}

Facts amount_facts(const std::vector<OpenAmount>& open, const Alternative& card, Unit unit) {
  Facts facts;
  for (std::size_t i = 0; i < open.size() && i < card.amounts.size(); ++i) {
    if (open[i].ways.empty() && open[i].least == open[i].most) continue;
    const bool named = open[i].ways.empty() && !open[i].name.empty();
    const std::string value = value_words(open[i], card.amounts[i], unit);
    facts.push_back(
        {named ? open[i].name : amount_name(open[i]),
         named ? fmt::format("{}{}{}", open[i].key, open[i].part.empty() ? "" : " ", open[i].part) : "way",
         value, fmt::format("{} {}", amount_name(open[i]), value)});
  }
  return facts;
}

Facts paper_facts(const Card& card, const Alternative& alternative, bool sweep, PaperSigns& signs) {
  Facts facts;
  const Costs& costs = alternative.costs;
  for (const PaperCost& paper : costs.papers) {
    const std::string sheets = signs.sheets(paper);
    facts.push_back(
        {paper.paper, "sheets", sheets,
         fmt::format("{} {}", paper.paper,
                     !paper.is_planned() ? sheets
                                         : fmt::format("{} sheet{}", sheets, paper.sheets == 1 ? "" : "s"))});
    if (sweep && paper.cards_a_sheet) {
      const std::string cards = std::to_string(*paper.cards_a_sheet);
      facts.push_back(
          {paper.paper, "cards each", cards, fmt::format("{} {} cards a sheet", paper.paper, cards)});
    }
  }
  // A column that any card may have is there for all.
  const bool priced = std::any_of(card.papers.begin(), card.papers.end(),
                                  [](const Paper& paper) { return paper.cost.has_value(); });
  if (priced && !costs.papers.empty()) {
    const std::string cost = costs.cost ? amount_words(*costs.cost) : "none";
    facts.push_back({"", "cost", cost, "cost " + cost});
  }
  if (!costs.papers.empty()) {
    const std::string waste = costs.waste ? per_cent_words(*costs.waste) : "none";
    facts.push_back({"", "waste", waste, "waste " + waste});
  }
  return facts;
}

Facts body_facts(const Card& card, const Alternative& alternative) {
  Facts facts;
  const SizedCard& sized = alternative.sized;
  const Costs& costs = alternative.costs;
  if (sized.versions.empty()) return facts;
  add_sizes(facts, card, sized);
  const std::string border = costs.border ? length_text(*costs.border, card.unit) : "none";
  facts.push_back({"narrowest", "border", border, "narrowest border " + border});
  add_seen(facts, sized);
  const std::string thick = costs.thickness ? thickness_text(*costs.thickness, card.unit) : "";
  facts.push_back(
      {"", "thick", thick, thick.empty() ? "" : fmt::format("{} {} thick", thick, unit_name(card.unit))});
  const std::string envelope = envelope_words(sized.versions.front());
  facts.push_back({"", "envelope", envelope, envelope.empty() ? "" : "envelope " + envelope});
  return facts;
}

std::string envelope_words(const SizedVersion& version) {
  std::vector<std::string> asked;
  std::string smallest;
  for (const MailNote& note : version.mail) {
    if (note.kind != MailNote::Kind::envelope) continue;
    if (note.asked) asked.push_back(fmt::format("{} {}", note.fits ? "fits" : "not into", note.name));
    // Of a card of which no thickness is known that would promise too much.
    if (!note.asked && note.fits && smallest.empty() && version.closed && version.closed->thickness > 0)
      smallest = note.name;
  }
  return asked.empty() ? smallest : joined(asked, ", ");
}

}  // namespace evenmat
