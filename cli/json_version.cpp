#include "cli/json_version.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/making.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

Json lengths(const std::vector<Rational>& values) {
  Json list = Json::array();
  for (const Rational& value : values) list.push_back(length_json(value));
  return list;
}

Json size_json(const Size& size) {
  return {{"width", length_json(size.width)}, {"height", length_json(size.height)}};
}

Json placed_json(const PlacedPiece& placed, bool freedom_known, bool shown_known) {
  const Piece& piece = *placed.piece;
  Json json = {{"name", piece.name.value}};
  if (piece.role != Role::none) json["role"] = role_name(piece.role);
  json["on"] = piece.on.value;
  json["face"] = placed.face;
  json["left"] = length_json(placed.left);
  json["top"] = length_json(placed.top);
  json["from_left"] = length_json(placed.from_left);
  json["from_top"] = length_json(placed.from_top);
  json["from_right"] = length_json(placed.from_right);
  json["from_bottom"] = length_json(placed.from_bottom);
  json["width"] = length_json(placed.width);
  json["height"] = length_json(placed.height);
  if (piece.tilt && piece.tilt->value != 0) {
    json["tilt"] = fraction_text(piece.tilt->value);
    json["box_width"] = length_json(placed.box_width);
    json["box_height"] = length_json(placed.box_height);
  }
  if (freedom_known) {
    json["stated"] = {{"width", placed.width_stated},      {"height", placed.height_stated},
                      {"from_left", placed.left_stated},   {"from_top", placed.top_stated},
                      {"from_right", placed.right_stated}, {"from_bottom", placed.bottom_stated}};
  }
  if (!placed.copies.empty()) {
    Json copies = Json::array();
    for (const auto& [left, top] : placed.copies) {
      copies.push_back({{"from_left", length_json(left)}, {"from_top", length_json(top)}});
    }
    json["copies"] = std::move(copies);
  }
  if (placed.artwork_at && piece.artwork) {
    json["artwork"] = {{"from_left", length_json(placed.artwork_at->first)},
                       {"from_top", length_json(placed.artwork_at->second)},
                       {"width", length_json(piece.artwork->size.width)},
                       {"height", length_json(piece.artwork->size.height)}};
  }
  if (piece.paper) json["paper"] = piece.paper->value;
  if (piece.kind == Piece::Kind::layer && shown_known) {
    json["visible"] = fraction_text(placed.shown.open);
    json["visible_closed"] = fraction_text(placed.shown.closed);
  }
  return json;
}

Json pieces_json(const SizedVersion& version, Piece::Kind kind, bool freedom_known) {
  Json list = Json::array();
  for (const PlacedPiece& placed : version.pieces) {
    if (placed.piece->kind == kind)
      list.push_back(placed_json(placed, freedom_known, version.closed.has_value()));
  }
  return list;
}

std::string_view grain_name(GrainAtFold grain) {
  switch (grain) {
    case GrainAtFold::along:
      return "along";
    case GrainAtFold::across:
      return "across";
    case GrainAtFold::either:
      break;
  }
  return "either";
}

Json score_lines_json(const Folding& folding) {
  Json list = Json::array();
  for (const ScoreLine& score : folding.scores) {
    list.push_back({{"at", length_json(score.at)},
                    {"folds", score.up ? "towards you" : "away"},
                    {"extra", score.extra},
                    {"turn", score.turn}});
  }
  return list;
}

Json leaves_json(const Folding& folding) {
  Json list = Json::array();
  for (const Leaf& leaf : folding.leaves) {
    list.push_back({{"name", leaf.name},
                    {"toward", leaf.toward},
                    {"away", leaf.away},
                    {"from", length_json(leaf.from)},
                    {"length", length_json(leaf.length)},
                    {"closed_from", length_json(leaf.closed_from)},
                    {"depth", leaf.depth}});
  }
  return list;
}

Json base_json(const Card& card, const Design& design, const SizedVersion& version) {
  Json base = Json::object();
  const Folding& folding = version.folding;
  if (!folding.leaves.empty()) {
    std::vector<Rational> scores;
    for (const ScoreLine& score : folding.scores) scores.push_back(score.at);
    std::sort(scores.begin(), scores.end());
    base["blank"] = size_json(folding.blank);
    base["scores"] = lengths(scores);
    base["lies"] = folding.front_up ? "front up" : "inside up";
    base["score_lines"] = score_lines_json(folding);
    base["leaves"] = leaves_json(folding);
    base["order"] = making_of(card, design, version).order;
  }
  if (version.grain) base["grain"] = grain_name(*version.grain);
  if (version.front.width > 0) base["front"] = size_json(version.front);  // none when no card was found
  if (version.cut_back && design.base.cut_back) {
    base["cut_back"] = {{"edge", edge_name(design.base.cut_back->edge)},
                        {"by", length_json(*version.cut_back)},
                        {"stated", version.cut_back_stated}};
  }
  return base;
}

// To the nearest thousandth of a gram, so that it is short to read; no decision rests on it.
Json grams_json(const Rational& grams) {
  return floor(grams * 1000 + Rational(1) / 2).convert_to<double>() / 1000;
}

Json closed_json(const Design& design, const SizedVersion& version) {
  Json json = size_json(design.base.front.size);
  if (!version.closed) return json;
  const ClosedCard& closed = *version.closed;
  json["over_all"] = size_json(closed.over_all);
  if (closed.thickness > 0 || closed.no_thickness.empty()) {
    json["thickness"] = length_json(closed.thickness);
    Json parts = Json::array();
    for (const ThickPart& part : closed.thickest) {
      parts.push_back({{"what", part.what}, {"thickness", length_json(part.thickness)}});
    }
    json["thickest"] = std::move(parts);
    json["thickest_at"] = {{"x", length_json(closed.thickest_at.x)},
                           {"y", length_json(closed.thickest_at.y)}};
  }
  json["no_thickness"] = closed.no_thickness;
  if (closed.grams > 0 || closed.no_weight.empty()) json["grams"] = grams_json(closed.grams);
  json["no_weight"] = closed.no_weight;
  json["girth_across"] = length_json(closed.girth_across);
  json["girth_down"] = length_json(closed.girth_down);
  return json;
}

Json mail_json(const std::vector<MailNote>& mail) {
  Json list = Json::array();
  for (const MailNote& note : mail) {
    list.push_back({{"name", note.name},
                    {"kind", note.kind == MailNote::Kind::envelope ? "envelope" : "post"},
                    {"asked", note.asked},
                    {"fits", note.fits},
                    {"by_hand", note.by_hand},
                    {"says", note.says},
                    {"source", note.source}});
  }
  return list;
}

}  // namespace

void put_body(Json& json, const Card& card, const Design& design, const SizedVersion& version,
              bool freedom_known) {
  if (version.verdict == Verdict::conflict) {
    json["layers"] = Json::array();
    return;
  }
  json["layers"] = pieces_json(version, Piece::Kind::layer, freedom_known);
  json["windows"] = pieces_json(version, Piece::Kind::window, freedom_known);
  json["base"] = base_json(card, design, version);
  json["closed"] = closed_json(design, version);
  json["mail"] = mail_json(version.mail);
}

}  // namespace evenmat
