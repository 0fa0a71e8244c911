#include "cli/draw_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>

#include "cli/clash.h"
#include "cli/cut/batch_files.h"
#include "cli/draw/card_pages.h"
#include "cli/draw/clash_pages.h"
#include "cli/draw/templates.h"
#include "cli/drawing/render.h"
#include "cli/drawn_file.h"
#include "cli/json_answer.h"
#include "cli/json_cut.h"
#include "cli/new_file.h"
#include "cli/opened_card.h"
#include "cli/plan/pages.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "cli/wording.h"
#include "cli/worksheet/worksheet.h"
#include "model/words.h"
#include "solver/check_card.h"
#include "solver/nearest_card.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

constexpr std::string_view plain = "the plain card";

NewFile target(const DrawCall& call) {
  return {.path = call.out, .force = call.force, .original = call.files.front()};
}

std::string trouble_with_out(const DrawCall& call) {
  std::vector<std::string> read = call.files;
  read.insert(read.end(), call.also.begin(), call.also.end());
  return trouble_with_drawing(target(call), read);
}

// What is only looked at is one picture without pages, unless it goes on pages or a page is asked for.
PageSize page_of(const DrawCall& call, const Card& card) {
  const bool looked_at = call.subject == Subject::card || call.subject == Subject::plan;
  if (!call.page && looked_at && format_of(call.out) != FileKind::pdf) return PageSize::roll;
  return call.page.value_or(card.unit == Unit::inch ? PageSize::letter : PageSize::a4);
}

// `left` and `top` are where the frame of a face's lengths begins, on its page; `scale` is points for one of
// the card's unit.
nlohmann::ordered_json json_of(const View& view) {
  nlohmann::ordered_json json;
  json["view"] = view.title;
  if (!view.part.empty()) json["face"] = view.part;
  if (!view.whole.empty()) json["variant"] = view.whole;
  json["left"] = view.origin.x;
  json["top"] = view.origin.y;
  json["scale"] = view.scale;
  return json;
}

// Lengths in points; `top` of a page is how far down it begins where all of them are one picture.
std::string json_of(std::string_view verdict, const std::string& out, const Drawing& drawing) {
  nlohmann::ordered_json json;
  json["verdict"] = verdict;
  json["written"] = printable(out);
  json["pages"] = nlohmann::ordered_json::array();
  const std::vector<Box> places = places_of_pages(drawing, format_of(out).value_or(FileKind::pdf));
  for (std::size_t i = 0; i < places.size(); ++i) {
    nlohmann::ordered_json one;
    one["width"] = places[i].width;
    one["height"] = places[i].height;
    one["top"] = places[i].top;
    one["views"] = nlohmann::ordered_json::array();
    for (const View& view : drawing.pages[i].views) one["views"].push_back(json_of(view));
    json["pages"].push_back(std::move(one));
  }
  return json.dump() + "\n";
}

// Writes the drawing. `verdict` and `says` tell what it is, `status` what the command ends with if it is
// written.
Answer written(const DrawCall& call, const Drawing& drawing, Status status, std::string_view verdict,
               const std::string& says) {
  const std::string trouble = write_drawing(target(call), drawing, call.dots);
  if (!trouble.empty()) return refused_call(trouble, call.json);
  Answer answer{status, "", missing_letters(drawing)};
  if (call.subject == Subject::templates && format_of(call.out) != FileKind::pdf) {
    answer.err += fmt::format(
        "evenmat: {} does not say how large it is to be printed, page by page. To print at true size write a "
        ".pdf.\n",
        printable(call.out));
  }
  answer.out =
      call.json
          ? json_of(verdict, call.out, drawing)
          : paragraph(fmt::format("{} {} in {}: {}.", says, call.subject == Subject::templates ? "are" : "is",
                                  call.out, pages_words(drawing, call.out)));
  return answer;
}

struct Versions {
  std::vector<std::size_t> indices;
  std::string trouble;
};

// Those asked for: all of them unless one is named.
Versions versions_asked(const DrawCall& call, const Card& card) {
  Versions versions;
  std::vector<std::string> names{std::string(plain)};
  for (const Variant& variant : card.variants) names.push_back(variant.name.value);
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (!call.only || names[i] == *call.only) versions.indices.push_back(i);
  }
  if (versions.indices.empty()) {
    versions.trouble = card.variants.empty() ? fmt::format("--only {}: this card has no variants; it is {}.",
                                                           in_quotes(*call.only), plain)
                                             : fmt::format("--only {}: there is no such variant.{}",
                                                           in_quotes(*call.only), offer(*call.only, names));
  }
  return versions;
}

// Within the limit of the call, all of it together.
Answer clash_answer(const DrawCall& call, const OpenedCard& opened, const Meanwhile& meanwhile) {
  using Clock = std::chrono::steady_clock;
  const Clock::time_point began = Clock::now();
  const auto left = [&] {
    constexpr double least = 0.01;  // what takes no time is still done
    return std::max(call.limit - std::chrono::duration<double>(Clock::now() - began).count(), least);
  };
  CheckOptions options;
  options.limit = call.limit;
  options.at_work = meanwhile.at_work;
  const CheckedCard checked = check_card(*opened.card, opened.text, options);
  if (meanwhile.at_work) meanwhile.at_work("looking for the card that comes nearest");
  ClashPicture picture{nearest_card(*opened.card, left()), {}};
  const Card unlimited = without_limits(*opened.card);
  if (!picture.nearest)
    picture.unlimited = size_card(unlimited, {.limit = left(), .seed = 0, .ranges = false});
  const Drawing drawing = clash_drawing(*opened.card, checked, picture, page_of(call, *opened.card));
  return written(call, drawing, Status::cannot_be_built, "conflict",
                 "This card cannot be built as stated; why not");
}

std::string said_of(Subject subject) {
  switch (subject) {
    case Subject::card:
      return "The card";
    case Subject::plan:
      return "The plan";
    case Subject::worksheet:
      return "The worksheet";
    case Subject::recipe:
      return "The recipe";
    case Subject::templates:
      break;
  }
  return "The templates";
}

Answer card_answer(const DrawCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile) {
  const OpenedCard opened = open_card(call.files.front(), call.json, err);
  if (!opened.card) return opened.refused;
  const Card& card = *opened.card;
  const Versions versions = versions_asked(call, card);
  if (!versions.trouble.empty()) return refused_call(versions.trouble, call.json);
  const std::vector<std::string> views = view_names(card);
  for (const std::string& view : call.views) {
    if (std::find(views.begin(), views.end(), view) != views.end()) continue;
    return refused_call(
        fmt::format("--view {}: this card has no such view.{}", in_quotes(view), offer(view, views)),
        call.json);
  }
  const SizedCard sized = size_card(card, {.limit = call.limit, .seed = 0, .ranges = false});
  if (sized.verdict == Verdict::conflict) {
    if (call.subject == Subject::card) return clash_answer(call, opened, meanwhile);
    return {Status::cannot_be_built,
            call.json ? json_answer(card, sized)
                      : clash(opened.source(), sized, out) + way_to_check(call.files.front()),
            fmt::format("evenmat: Nothing was written to {}.\n", printable(call.out))};
  }
  if (sized.verdict == Verdict::undecided && call.subject != Subject::card) {
    return {
        Status::limit_reached, call.json ? json_answer(card, sized) : "",
        fmt::format(
            "evenmat: Whether this card can be built as stated is not settled, and nothing was written to "
            "{}. A longer --limit may settle it.\n",
            printable(call.out))};
  }
  const PageSize page = page_of(call, card);
  const Drawing drawing =
      call.subject == Subject::card     ? card_drawing(card, sized, versions.indices, call.views, page)
      : call.subject == Subject::recipe ? recipe(card, sized, versions.indices.front(), page)
                                        : templates(card, sized, versions.indices, page);
  const bool settled = sized.verdict == Verdict::buildable;
  return written(call, drawing, settled ? Status::done : Status::limit_reached,
                 settled ? "drawn" : "undecided",
                 settled ? said_of(call.subject) : "The best card found so far, not settled yet,");
}

Answer batch_answer(const DrawCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile) {
  const BatchPlanning planning = plan_batch(
      {call.files, call.also, call.most, call.grain_along_fold, call.json, call.limit}, out, err, meanwhile);
  if (!planning.planned) return planning.refused;
  const PlannedBatch& planned = *planning.planned;
  const CutTelling telling{planned.cards, planned.more, planned.batch, out, planned.no_spare_stated};
  if (planned.batch.verdict == CutVerdict::undecided) {
    return {Status::limit_reached, call.json ? json_cut(planned.cards, planned.batch) : "",
            fmt::format(
                "evenmat: There is no plan yet that is known to do, and nothing was written to {}. A longer "
                "--limit may find one; `evenmat cut` tells more.\n",
                printable(call.out))};
  }
  const PageSize page = page_of(call, *planned.cards.front().card);
  const Drawing drawing =
      call.subject == Subject::plan ? plan_drawing(telling, page) : worksheet(telling, page);
  const bool enough = planned.batch.verdict == CutVerdict::planned;
  Answer answer = written(
      call, drawing, status_of(planned.batch), enough ? "drawn" : "short",
      enough ? said_of(call.subject) : said_of(call.subject) + ", for as many cards as the paper gives,");
  answer.err += unused_leftovers(planned) + limit_words(planned.batch, call.limit);
  return answer;
}

}  // namespace

Answer draw_command(const DrawCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile) {
  const std::string trouble = trouble_with_out(call);
  if (!trouble.empty()) return refused_call(trouble, call.json);
  const bool batch = call.subject == Subject::plan || call.subject == Subject::worksheet;
  return batch ? batch_answer(call, out, err, meanwhile) : card_answer(call, out, err, meanwhile);
}

}  // namespace evenmat
