// The design on each base for other programs: as JSON, and as rows of values.
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "cli/explore/csv.h"
#include "cli/explore/formats.h"
#include "cli/explore/formats_words.h"
#include "cli/json_parts.h"
#include "cli/json_version.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// The sizes and places of a version, but for what is told of its base.
void put_version(Json& json, const TriedFormat& tried, std::size_t index) {
  Json body = Json::object();
  const SizedCard& sized = *tried.checked->sized;
  put_body(body, *tried.card, design_of(*tried.card, index), sized.versions[index], sized.freedom_known);
  for (const char* key : {"layers", "windows", "closed", "mail"})
    if (body.contains(key)) json[key] = std::move(body[key]);
  if (body.contains("base") && body["base"].contains("blank"))
    json["blank"] = std::move(body["base"]["blank"]);
}

void put_why_not(Json& json, const TriedFormat& tried) {
  json["says"] = why_not(tried);
  if (!tried.checked) {
    Json errors = Json::array();
    for (const Remark& mistake : tried.mistakes) errors.push_back(remark_json(mistake.says, mistake.spot));
    json["errors"] = std::move(errors);
  }
  const Conflict* conflict = first_conflict(tried);
  if (conflict == nullptr) return;
  if (conflict->short_by) json["short_by"] = length_json(*conflict->short_by);
  if (conflict->off_mark) json["off_mark"] = length_json(*conflict->off_mark);
  if (conflict->changes.empty()) return;
  const Change& change = conflict->changes.front();
  json["change"] = {{"line", change.spot.line},
                    {"from", change.from},
                    {"to", change.to},
                    {"says", change.says},
                    {"mends_card", change.mends_card}};
}

Json format_json(const TriedFormat& tried) {
  Json json = {{"base", tried.format.text},
               {"width", length_json(tried.format.size.width)},
               {"height", length_json(tried.format.size.height)},
               {"verdict", verdict_word(tried)}};
  if (built(tried) == nullptr) {
    put_why_not(json, tried);
    return json;
  }
  put_version(json, tried, 0);
  if (const std::string envelope = smallest_envelope(tried); !envelope.empty()) json["envelope"] = envelope;
  const std::vector<Variant>& variants = tried.card->variants;
  if (variants.empty()) return json;
  Json list = Json::array();
  for (std::size_t i = 0; i < variants.size(); ++i) {
    Json one = {{"name", variants[i].name.value},
                {"cards", variants[i].cards},
                {"verdict", verdict_name(tried.checked->sized->versions[i + 1].verdict)}};
    put_version(one, tried, i + 1);
    list.push_back(std::move(one));
  }
  json["variants"] = std::move(list);
  return json;
}

// A value under the same heading for every base: of a piece of version `index`, as far as it is there.
const PlacedPiece* placed_in(const TriedFormat& tried, std::size_t index, const std::string& name) {
  if (built(tried) == nullptr) return nullptr;
  for (const PlacedPiece& placed : tried.checked->sized->versions[index].pieces)
    if (placed.piece->name.value == name) return &placed;
  return nullptr;
}

}  // namespace

std::string formats_json(const Card& card, const std::vector<TriedFormat>& tried) {
  Json json = head_json(card, Verdict::buildable);
  json["verdict"] = "explored";
  Json formats = Json::array();
  for (const TriedFormat& one : tried) formats.push_back(format_json(one));
  json["formats"] = std::move(formats);
  return text_of(json);
}

std::string formats_csv(const Card& card, const std::vector<TriedFormat>& tried) {
  std::vector<std::string> headings{"base",    "width", "height",   "unit",
                                    "verdict", "says",  "short by", "envelope"};
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    const std::string whose = version == 0 ? "" : card.variants[version - 1].name.value + ": ";
    for (const Piece& piece : design_of(card, version).pieces) {
      headings.push_back(whose + piece.name.value + " width");
      headings.push_back(whose + piece.name.value + " height");
    }
  }
  std::string text = csv_line(headings);
  for (const TriedFormat& one : tried) {
    const Conflict* conflict = first_conflict(one);
    std::vector<std::string> values{
        one.format.text,
        fraction_text(one.format.size.width),
        fraction_text(one.format.size.height),
        std::string(unit_name(card.unit)),
        std::string(verdict_word(one)),
        why_not(one),
        conflict != nullptr && conflict->short_by ? fraction_text(*conflict->short_by) : "",
        smallest_envelope(one)};
    for (std::size_t version = 0; version <= card.variants.size(); ++version) {
      for (const Piece& piece : design_of(card, version).pieces) {
        const PlacedPiece* placed = placed_in(one, version, piece.name.value);
        values.push_back(placed == nullptr ? "" : fraction_text(placed->width));
        values.push_back(placed == nullptr ? "" : fraction_text(placed->height));
      }
    }
    text += csv_line(values);
  }
  return text;
}

}  // namespace evenmat
