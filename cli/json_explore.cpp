#include "cli/json_explore.h"

#include <string_view>
#include <utility>
#include <vector>

#include "cli/explore/jumps.h"
#include "cli/json_parts.h"
#include "cli/json_version.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

// Of an entry of `rules`: the way, as written.
Json amount_json(const OpenAmount& open, const Rational& value) {
  if (open.ways.empty()) return length_json(value);
  return open.ways.at(floor(value).convert_to<std::size_t>());
}

void put_place(Json& json, const Spot& spot) {
  if (spot.line == 0) return;
  json["line"] = spot.line;
  json["column"] = spot.column;
}

Json open_json(const std::vector<OpenAmount>& open) {
  Json list = Json::array();
  for (const OpenAmount& one : open) {
    Json json = {{"name", one.name}, {"key", one.key}};
    if (!one.part.empty()) json["part"] = one.part;
    put_place(json, one.spot);
    json["as_sized"] = amount_json(one, one.as_sized);
    if (one.ways.empty()) {
      json["least"] = length_json(one.least);
      json["most"] = length_json(one.most);
    } else {
      json["ways"] = one.ways;
    }
    list.push_back(std::move(json));
  }
  return list;
}

Json papers_json(const Costs& costs) {
  Json list = Json::array();
  for (const PaperCost& paper : costs.papers) {
    Json json = {{"paper", paper.paper}};
    if (!paper.trouble.empty()) {
      json["trouble"] = paper.trouble;
    } else if (paper.never) {
      json["never"] = true;
    } else {
      json["sheets"] = paper.sheets;
      json["at_least"] = paper.at_least;
      json["proven"] = paper.proven;
      json["missing"] = paper.missing;
      if (paper.cards_a_sheet) json["cards_a_sheet"] = *paper.cards_a_sheet;
      if (paper.cost) json["cost"] = length_json(*paper.cost);
    }
    list.push_back(std::move(json));
  }
  return list;
}

void put_costs(Json& json, const Costs& costs) {
  const auto put = [&](const char* key, const std::optional<Rational>& value) {
    if (value) json[key] = length_json(*value);
  };
  json["papers"] = papers_json(costs);
  if (!costs.papers.empty()) {
    json["sheets"] = costs.sheets;
    json["missing"] = costs.missing;
    json["enough"] = costs.enough;
    json["proven"] = costs.proven;
  }
  put("cost", costs.cost);
  put("waste", costs.waste);
  put("border", costs.border);
  put("seen", costs.seen);
  put("thickness", costs.thickness);
}

void put_sized(Json& json, const Card& card, const SizedCard& sized) {
  if (sized.versions.empty()) return;
  put_body(json, card, card.design, sized.versions.front(), false);
  if (sized.versions.size() < 2) return;
  Json variants = Json::array();
  for (std::size_t i = 1; i < sized.versions.size(); ++i) {
    const SizedVersion& version = sized.versions[i];
    Json variant = {
        {"name", version.name}, {"cards", version.cards}, {"verdict", verdict_name(version.verdict)}};
    put_body(variant, card, design_of(card, i), version, false);
    variants.push_back(std::move(variant));
  }
  json["variants"] = std::move(variants);
}

Json alternative_json(const Card& card, const std::vector<OpenAmount>& open, const Alternative& one,
                      std::optional<std::size_t> number) {
  Json json = Json::object();
  if (number) json["number"] = *number;
  json["as_sized"] = one.as_sized;
  if (number) json["unbeaten"] = one.unbeaten;
  Json amounts = Json::array();
  for (std::size_t i = 0; i < one.amounts.size() && i < open.size(); ++i)
    amounts.push_back(amount_json(open[i], one.amounts[i]));
  json["amounts"] = std::move(amounts);
  put_sized(json, card, one.sized);
  put_costs(json, one.costs);
  return json;
}

Json head(const Card& card, std::string_view verdict) {
  Json json = head_json(card, Verdict::buildable);
  json["verdict"] = verdict;
  return json;
}

void put_written(Json& json, const std::optional<WrittenCard>& written) {
  if (written) json["written"] = {{"number", written->number}, {"file", written->file}};
}

Json remarks_json(const std::vector<Remark>& remarks) {
  Json list = Json::array();
  for (const Remark& remark : remarks) list.push_back(remark_json(remark.says, remark.spot));
  return list;
}

Json jumps_json(const ExploredCard& explored, Unit unit) {
  Json list = Json::array();
  for (const Jump& jump : explored.jumps) {
    list.push_back({{"number", jump.row + 1},
                    {"paper", jump.paper},
                    {"sheets", jump.sheets},
                    {"cards_a_sheet", jump.cards_a_sheet},
                    {"says", jump_sentence(explored, jump, unit)}});
  }
  return list;
}

Json changes_json(const FitCard& fit) {
  Json list = Json::array();
  for (std::size_t i = 0; i < fit.open.size(); ++i) {
    const Rational& from = fit.as_sized.amounts[i];
    const Rational& to = fit.best.amounts[i];
    if (from == to) continue;
    const OpenAmount& open = fit.open[i];
    Json json = {{"name", open.name}, {"key", open.key}};
    if (!open.part.empty()) json["part"] = open.part;
    put_place(json, open.spot);
    json["from"] = amount_json(open, from);
    json["to"] = amount_json(open, to);
    list.push_back(std::move(json));
  }
  return list;
}

Json loosen_json(const std::vector<Loosening>& loosen) {
  Json list = Json::array();
  for (const Loosening& one : loosen) {
    Json json = {{"name", one.name}, {"key", one.key}};
    if (!one.part.empty()) json["part"] = one.part;
    put_place(json, one.spot);
    json["from"] = one.from;
    json["to"] = one.to;
    json["by"] = length_json(one.by);
    put_costs(json, one.costs);
    list.push_back(std::move(json));
  }
  return list;
}

}  // namespace

std::string json_explored(const Card& card, const ExploredCard& explored,
                          const std::optional<WrittenCard>& written) {
  Json json = head(card, explored.alternatives.empty() ? "undecided" : "explored");
  json["shown"] = explored.alternatives.size();
  json["count"] = explored.count;
  json["complete"] = explored.complete;
  json["compared"] = explored.compared;
  json["open"] = open_json(explored.open);
  if (!explored.nothing_open.empty()) json["nothing_open"] = explored.nothing_open;
  Json alternatives = Json::array();
  for (std::size_t i = 0; i < explored.alternatives.size(); ++i)
    alternatives.push_back(alternative_json(card, explored.open, explored.alternatives[i], i + 1));
  json["alternatives"] = std::move(alternatives);
  json["jumps"] = jumps_json(explored, card.unit);
  json["no_costs"] = remarks_json(explored.no_costs);
  json["time_ran_out"] = explored.time_ran_out;
  put_written(json, written);
  return text_of(json);
}

std::string json_fit(const Card& card, const FitCard& fit, bool most,
                     const std::optional<WrittenCard>& written) {
  Json json = head(card, fit.best.costs.enough || (most && fit.most) ? "explored" : "short");
  json["shown"] = 1;
  json["count"] = fit.count;
  json["complete"] = fit.complete;
  json["open"] = open_json(fit.open);
  json["alternatives"] = Json::array({alternative_json(card, fit.open, fit.best, 1)});
  json["as_sized"] = alternative_json(card, fit.open, fit.as_sized, {});
  json["fit"] = {{"enough", fit.best.costs.enough},
                 {"proven", fit.proven},
                 {"at_least", fit.at_least},
                 {"changes", changes_json(fit)}};
  if (fit.most) json["fit"]["most"] = *fit.most;
  if (fit.most_as_sized) json["fit"]["most_as_sized"] = *fit.most_as_sized;
  json["loosen"] = loosen_json(fit.loosen);
  json["loosen_known"] = fit.loosen_known;
  json["time_ran_out"] = fit.time_ran_out;
  put_written(json, written);
  return text_of(json);
}

}  // namespace evenmat
