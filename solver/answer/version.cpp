#include "solver/answer/version.h"

#include <fmt/format.h>

#include "model/faces.h"
#include "solver/answer/placing.h"
#include "solver/answer/seen.h"

namespace evenmat {
namespace {

// Shares that no quota stands for are looked at once all is chosen.
void ask_for_shares(SizedVersion& version) {
  for (const PlacedPiece& placed : version.pieces) {
    const auto& show = placed.piece->show;
    if (!show || !show->value.at_least) continue;
    const Rational& seen = share_seen(version, placed);
    if (seen >= *show->value.at_least) continue;
    version.verdict = Verdict::undecided;
    version.warnings.push_back(
        {show->spot,
         fmt::format("{} of {} is seen in this card, and {} is asked for. Whether another card would "
                     "show so much is not known: say more of where what covers it lies.",
                     seen == 0 ? "Nothing" : fraction_text(seen), placed.piece->name.value,
                     show->value.text)});
  }
}

// A weight that is only known of the whole card: where openings of a leaf lie over each other or over its
// edge, less is cut out of it than they come to.
void ask_for_weight(const Design& design, SizedVersion& version) {
  const auto& limit = design.limit.grams;
  if (!limit || version.closed->grams <= limit->value) return;
  version.verdict = Verdict::undecided;
  version.warnings.push_back(
      {limit->spot,
       "This card is heavier than its limit, and whether another would be lighter is not known: "
       "say more of where its windows lie."});
}

}  // namespace

std::vector<SizedVersion> versions_of(const Card& card) {
  std::vector<SizedVersion> versions(1);
  versions.front().cards = card.cards;
  for (const Variant& variant : card.variants) {
    SizedVersion version;
    version.name = variant.name.value;
    version.cards = variant.cards;
    versions.front().cards -= variant.cards;
    versions.push_back(std::move(version));
  }
  return versions;
}

void place_version(SizedVersion& version, const Card& card, const Rules& rules, std::size_t index,
                   const std::vector<Rational>& values) {
  const Places places = places_of(rules, index);
  const Design& what = design_of(card, index);
  version.pieces.clear();
  for (const Piece& piece : what.pieces)
    version.pieces.push_back(placed_piece(rules, values, what, places, piece));
  const PlacedBox front = box_of(rules, values, places.face.at("front"));
  version.front = {front.width, front.height};
  version.folding = folding_of(what.base);
  if (what.base.cut_back) {
    version.cut_back = cut_back_of(what.base, places, values);
    version.cut_back_stated = what.base.cut_back->by.exact().has_value();
  }
  version.grain = grain_at_fold(card, what.base);
}

void fill_version(SizedVersion& version, const Card& card, const Rules& rules, std::size_t index,
                  const std::vector<Rational>& values) {
  place_version(version, card, rules, index, values);
  version.warnings.clear();
  const Design& what = design_of(card, index);
  const std::vector<Shown> shown = shown_of(card, what, version);
  for (std::size_t i = 0; i < shown.size(); ++i) version.pieces[i].shown = shown[i];
  ask_for_shares(version);
  version.closed = closed_card_of(card, what, version);
  ask_for_weight(what, version);
  version.mail = mail_of(card, *version.closed);
}

bool is_too_thick(const Card& card, std::size_t index, const SizedVersion& version) {
  const auto& limit = design_of(card, index).limit.thickness;
  return limit && version.closed && version.closed->thickness > limit->value;
}

}  // namespace evenmat
