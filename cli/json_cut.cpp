#include "cli/json_cut.h"

#include <string_view>
#include <utility>

#include "cli/cut/leftovers.h"
#include "cli/json_answer.h"
#include "cli/json_parts.h"

namespace evenmat {
namespace {

std::string_view verdict_name(CutVerdict verdict) {
  switch (verdict) {
    case CutVerdict::planned:
      return "planned";
    case CutVerdict::short_of_paper:
      return "short";
    case CutVerdict::undecided:
      break;
  }
  return "undecided";
}

std::string_view rough_name(Rough rough) {
  switch (rough) {
    case Rough::die:
      return "die";
    case Rough::by_hand:
      return "by-hand";
    case Rough::stamp_first:
      return "stamp-first";
    case Rough::none:
      break;
  }
  return "none";
}

std::string_view from_name(CutSheet::From from) {
  switch (from) {
    case CutSheet::From::more:
      return "more";
    case CutSheet::From::cut_back:
      return "cut-back";
    case CutSheet::From::window:
      return "window";
    case CutSheet::From::hollow:
      return "hollow";
    case CutSheet::From::stated:
      break;
  }
  return "stated";
}

void put_size(Json& json, const Size& size) {
  json["width"] = length_json(size.width);
  json["height"] = length_json(size.height);
}

void put_place(Json& json, const Rational& x, const Rational& y, const Size& size) {
  json["x"] = length_json(x);
  json["y"] = length_json(y);
  put_size(json, size);
}

// To one place; halves up. The one number here that is not exact.
double per_cent(const Rational& share) {
  return floor(share * 1000 + Rational(1) / 2).convert_to<double>() / 10;
}

class CutJson {
 public:
  CutJson(const std::vector<BatchCard>& cards, const CutBatch& batch) : cards_(cards), batch_(batch) {}

  [[nodiscard]] Json whole() const {
    Json json = {{"verdict", verdict_name(batch_.verdict)}, {"unit", unit_name(cards_.front().card->unit)}};
    if (!cards_.front().card->title.empty()) json["title"] = cards_.front().card->title;
    json["cards"] = cards();
    Json papers = Json::array(), missing = Json::array(), no_paper = Json::array();
    for (const PaperPlan& paper : batch_.papers) {
      papers.push_back(paper_json(paper));
      for (const Shortage& one : paper.missing) missing.push_back(missing_json(paper, one));
    }
    for (const NotCut& one : batch_.no_paper)
      no_paper.push_back({{"layer", one.layer}, {"file", cards_[one.card].file}, {"says", one.why}});
    json["papers"] = std::move(papers);
    json["no_paper"] = std::move(no_paper);
    json["missing"] = std::move(missing);
    if (batch_.most) {
      json["most"] = *batch_.most;
      json["most_proven"] = batch_.most_proven;
    }
    json["foam"] = length_json(batch_.totals.foam);
    json["adhesive"] = length_json(batch_.totals.adhesive);
    Json supplies = Json::array();
    for (const auto& [name, total] : batch_.totals.supplies)
      supplies.push_back({{"name", name}, {"total", length_json(total)}});
    json["supplies"] = std::move(supplies);
    json["time_ran_out"] = batch_.time_ran_out;
    return json;
  }

 private:
  [[nodiscard]] Json cards() const {
    Json list = Json::array();
    for (std::size_t i = 0; i < cards_.size(); ++i) {
      Json one = {{"file", cards_[i].file}};
      if (!cards_[i].card->title.empty()) one["title"] = cards_[i].card->title;
      Json versions = Json::array();
      for (std::size_t v = 0; i < batch_.made.size() && v < batch_.made[i].size(); ++v)
        versions.push_back({{"name", version(i, v)}, {"cards", batch_.made[i][v]}});
      one["versions"] = std::move(versions);
      list.push_back(std::move(one));
    }
    return list;
  }

  [[nodiscard]] const std::string& version(std::size_t card, std::size_t index) const {
    return cards_[card].sized->versions[index].name;
  }

  [[nodiscard]] Json paper_json(const PaperPlan& paper) const {
    Json json = {{"paper", paper.paper},
                 {"sheets", paper.sheets},
                 {"at_least", paper.at_least},
                 {"proven", paper.proven}};
    if (paper.cost) json["cost"] = length_json(*paper.cost);
    if (paper.cost_at_least) json["cost_at_least"] = length_json(*paper.cost_at_least);
    if (paper.with_narrower_trims) {
      json["with_narrower_trims"] = {{"sheets", paper.with_narrower_trims->sheets},
                                     {"sliver", length_json(paper.with_narrower_trims->sliver)}};
    }
    if (!paper.trouble.empty()) json["trouble"] = paper.trouble;
    Json kinds = Json::array(), stock = Json::array(), plan = Json::array(), steps = Json::array(),
         leftovers = Json::array();
    for (const CutPiece& piece : paper.pieces) kinds.push_back(kind_json(piece));
    for (const CutSheet& sheet : paper.stock) stock.push_back(stock_json(sheet));
    for (const LaidSheet& laid : paper.plan) put_laid(plan, paper, laid);
    for (const CutStep& step : paper.steps) steps.push_back(step_json(paper, step));
    for (const Kept& kept : kept_of(paper)) leftovers.push_back(kept_json(kept));
    json["kinds"] = std::move(kinds);
    json["stock"] = std::move(stock);
    json["plan"] = std::move(plan);
    json["steps"] = std::move(steps);
    json["leftovers"] = std::move(leftovers);
    return json;
  }

  [[nodiscard]] Json kind_json(const CutPiece& piece) const {
    Json json = Json::object();
    put_size(json, piece.size);
    json["count"] = piece.count;
    json["may_turn"] = piece.upright && piece.turned;
    if (!piece.upright) json["must_turn"] = true;
    Json uses = Json::array();
    for (const PieceUse& use : piece.uses) {
      uses.push_back({{"file", cards_[use.card].file},
                      {"layer", use.layer},
                      {"variant", version(use.card, use.version)},
                      {"count", use.count},
                      {"rough", rough_name(use.rough)},
                      {"finished_width", length_json(use.finished.width)},
                      {"finished_height", length_json(use.finished.height)},
                      {"turned", use.turned}});
    }
    json["uses"] = std::move(uses);
    return json;
  }

  static Json stock_json(const CutSheet& sheet) {
    Json json = Json::object();
    put_size(json, sheet.size);
    if (sheet.have) json["have"] = *sheet.have;
    if (sheet.cost) json["cost"] = length_json(*sheet.cost);
    json["from"] = from_name(sheet.from);
    if (!sheet.comes_of.empty()) json["of"] = sheet.comes_of;
    if (!sheet.file.empty()) json["file"] = sheet.file;
    if (sheet.spot.line > 0) json["line"] = sheet.spot.line;
    if (sheet.trim_first > 0) json["trim_first"] = length_json(sheet.trim_first);
    json["up"] = sheet.up;
    if (!sheet.grain.empty()) json["grain"] = sheet.grain;
    return json;
  }

  // An entry for each run of sheets whose pieces go to the same piles.
  void put_laid(Json& plan, const PaperPlan& paper, const LaidSheet& laid) const {
    for (const LabelledRun& run : laid.runs) {
      const CutSheet& sheet = paper.stock[laid.sheet];
      Json json = {
          {"sheet", laid.letter}, {"stock", laid.sheet}, {"offcut", sheet.is_offcut()}, {"times", run.times}};
      put_size(json, sheet.size);
      json["used"] = per_cent(laid.used);
      Json pieces = Json::array();
      for (std::size_t i = 0; i < laid.pieces.size(); ++i)
        pieces.push_back(piece_json(paper, laid.pieces[i], run.uses[i]));
      json["pieces"] = std::move(pieces);
      put_cuts(json, laid);
      plan.push_back(std::move(json));
    }
  }

  [[nodiscard]] Json piece_json(const PaperPlan& paper, const LaidPiece& piece, std::size_t index) const {
    const PieceUse& use = paper.pieces[piece.kind].uses[index];
    Json json = {{"layer", use.layer},
                 {"variant", version(use.card, use.version)},
                 {"file", cards_[use.card].file},
                 {"kind", piece.kind}};
    put_place(json, piece.x, piece.y, {piece.width, piece.height});
    json["turned"] = piece.turned != use.turned;  // against the layer, not its kind
    return json;
  }

  static void put_cuts(Json& json, const LaidSheet& laid) {
    Json cuts = Json::array(), leftovers = Json::array();
    for (const SheetCut& cut : laid.cuts) {
      Json one = Json::object();
      put_place(one, cut.x, cut.y, {cut.width, cut.height});
      one["across"] = cut.across;
      one["at"] = length_json(cut.at);
      one["step"] = cut.step;
      cuts.push_back(std::move(one));
    }
    for (const Leftover& left : laid.leftovers) {
      Json one = Json::object();
      put_place(one, left.x, left.y, {left.width, left.height});
      one["keep"] = left.keep;
      leftovers.push_back(std::move(one));
    }
    json["cuts"] = std::move(cuts);
    json["leftovers"] = std::move(leftovers);
  }

  static Json yield_json(const StepYield& yield) {
    Json json = {{"what", yield.what == StepYield::What::piece   ? "piece"
                          : yield.what == StepYield::What::strip ? "strip"
                                                                 : "leftover"}};
    if (yield.what == StepYield::What::piece) json["kind"] = yield.kind;
    put_size(json, yield.size);
    json["count"] = yield.count;
    return json;
  }

  static Json step_json(const PaperPlan& paper, const CutStep& step) {
    Json works = Json::array();
    for (const SheetWork& work : step.works) {
      Json yields = Json::array();
      for (const StepYield& yield : work.yields) yields.push_back(yield_json(yield));
      works.push_back({{"sheet", paper.plan[work.laid].letter},
                       {"across", work.across},
                       {"from", yield_json(work.from)},
                       {"cuts", work.cuts},
                       {"yields", std::move(yields)},
                       {"hold", work.hold}});
    }
    return {{"step", step.number}, {"set", length_json(step.set)}, {"works", std::move(works)}};
  }

  static Json kept_json(const Kept& kept) {
    Json json = Json::object();
    put_size(json, kept.size);
    json["count"] = kept.count;
    if (kept.up) json["up"] = true;
    if (!kept.grain.empty()) json["grain"] = kept.grain;
    return json;
  }

  [[nodiscard]] Json missing_json(const PaperPlan& paper, const Shortage& one) const {
    Json json = {{"paper", paper.paper}, {"sheets", one.sheets}, {"at_least", one.at_least}};
    if (one.sheet.width > 0) put_size(json, one.sheet);
    if (one.too_large) json["too_large"] = kind_json(*one.too_large);
    if (one.by) json["by"] = length_json(*one.by);
    json["says"] = one.says;
    return json;
  }

  const std::vector<BatchCard>& cards_;
  const CutBatch& batch_;
};

}  // namespace

std::string json_cut(const std::vector<BatchCard>& cards, const CutBatch& batch,
                     const std::optional<std::string>& kept) {
  Json json = CutJson(cards, batch).whole();
  if (kept) json["kept"] = {{"file", *kept}};
  return text_of(json);
}

std::string json_not_built(const BatchCard& card) {
  Json json = Json::parse(json_answer(*card.card, *card.sized));
  json["file"] = card.file;
  return text_of(json);
}

std::string json_mistakes_in_files(const std::vector<MistakeInFile>& mistakes) {
  Json errors = Json::array();
  for (const MistakeInFile& mistake : mistakes) {
    Json one = Json::object();
    if (!mistake.file.empty()) one["file"] = mistake.file;
    one.update(remark_json(mistake.remark.says, mistake.remark.spot));
    errors.push_back(std::move(one));
  }
  return text_of({{"verdict", "invalid"}, {"errors", std::move(errors)}});
}

}  // namespace evenmat
