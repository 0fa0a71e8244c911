#include "cli/json_answer.h"

#include <algorithm>
#include <utility>

#include "cli/json_parts.h"
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

Json placed_json(const PlacedPiece& placed, bool freedom_known) {
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
  return json;
}

Json pieces_json(const SizedVersion& version, Piece::Kind kind, bool freedom_known) {
  Json list = Json::array();
  for (const PlacedPiece& placed : version.pieces) {
    if (placed.piece->kind == kind) list.push_back(placed_json(placed, freedom_known));
  }
  return list;
}

void put_base(Json& json, const SizedVersion& version, const Design& design) {
  Json base = Json::object();
  if (version.blank) {
    base["blank"] = size_json(version.blank->size);
    base["scores"] = lengths(version.blank->scores);
  }
  if (version.front.width > 0) base["front"] = size_json(version.front);  // none when no card was found
  if (version.cut_back && design.base.cut_back) {
    base["cut_back"] = {{"edge", edge_name(design.base.cut_back->edge)},
                        {"by", length_json(*version.cut_back)},
                        {"stated", version.cut_back_stated}};
  }
  json["base"] = std::move(base);
  json["closed"] = size_json(design.base.front.size);
}

// Sizes and places of one version; no layers for one that cannot be built. What could not be found out in
// time is left out.
void put_version(Json& json, const SizedVersion& version, const Design& design, bool freedom_known) {
  if (version.verdict == Verdict::conflict) {
    json["layers"] = Json::array();
    return;
  }
  json["layers"] = pieces_json(version, Piece::Kind::layer, freedom_known);
  json["windows"] = pieces_json(version, Piece::Kind::window, freedom_known);
  put_base(json, version, design);

  if (freedom_known) {
    Json slides = Json::array();
    for (const Slide& slide : version.slides) {
      slides.push_back({{"layers", slide.names},
                        {"across", slide.across},
                        {"low", length_json(slide.low)},
                        {"high", length_json(slide.high)}});
    }
    json["slides"] = std::move(slides);
  }

  if (!version.ranges.empty()) {
    Json ranges = Json::array();
    for (const Range& range : version.ranges) {
      ranges.push_back({{"layer", range.layer},
                        {"what", range.what},
                        {"least", length_json(range.least)},
                        {"most", length_json(range.most)}});
    }
    json["ranges"] = std::move(ranges);
  }

  Json warnings = Json::array();
  for (const Remark& warning : version.warnings) warnings.push_back(remark_json(warning.says, warning.spot));
  json["warnings"] = std::move(warnings);
}

void put_clash(Json& json, const SizedCard& sized) {
  Json rules = Json::array();
  for (const ClashingRule& rule : sized.clash) rules.push_back(remark_json(rule.says, rule.spot));
  Json conflict = {{"rules", std::move(rules)}};
  if (!sized.off_marks.empty()) conflict["says"] = sized.off_marks;
  json["conflicts"] = Json::array({std::move(conflict)});
}

Json card_json(const Card& card, const SizedCard& sized) {
  Json json = head_json(card, sized.verdict);
  if (sized.verdict == Verdict::conflict) put_clash(json, sized);
  if (sized.versions.empty()) return json;

  put_version(json, sized.versions.front(), card.design, sized.freedom_known);
  if (sized.versions.size() > 1) {
    Json variants = Json::array();
    for (std::size_t i = 1; i < sized.versions.size(); ++i) {
      const SizedVersion& version = sized.versions[i];
      Json variant = {
          {"name", version.name}, {"cards", version.cards}, {"verdict", verdict_name(version.verdict)}};
      put_version(variant, version, design_of(card, i), sized.freedom_known);
      variants.push_back(std::move(variant));
    }
    json["variants"] = std::move(variants);
  }
  return json;
}

}  // namespace

std::string json_answer(const Card& card, const SizedCard& sized) { return text_of(card_json(card, sized)); }

std::string json_stacks(const std::vector<SizedStack>& stacks) {
  Verdict worst = Verdict::buildable;
  Json all = Json::array();
  for (const SizedStack& stack : stacks) {
    worst = worse(worst, stack.sized->verdict);
    all.push_back(card_json(*stack.card, *stack.sized));
  }
  Json json = {{"verdict", verdict_name(worst)}};
  if (!all.empty()) {
    json["unit"] = all[0]["unit"];
    json["layers"] = all[0].value("layers", Json::array());
  }
  json["stacks"] = std::move(all);
  return text_of(json);
}

std::string json_mistakes(const std::vector<Remark>& mistakes) {
  Json errors = Json::array();
  for (const Remark& mistake : mistakes) errors.push_back(remark_json(mistake.says, mistake.spot));
  return text_of({{"verdict", "invalid"}, {"errors", std::move(errors)}});
}

}  // namespace evenmat
