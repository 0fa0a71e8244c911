#include "cli/explore/fit.h"

#include <fmt/format.h>

#include <cstddef>
#include <vector>

#include "cli/check/change_text.h"
#include "cli/cut/telling.h"
#include "cli/explore/facts.h"
#include "cli/explore/words.h"
#include "cli/table.h"
#include "cli/wording.h"

namespace evenmat {
namespace {

class FitReport {
 public:
  FitReport(const Source& source, const Card& card, const FitCard& fit, bool most, const Style& style)
      : source_(source), card_(card), fit_(fit), most_(most), style_(style) {}

  std::string text() {
    const std::string table = sheets();  // the signs it uses are explained below it
    return open_text(fit_.open, card_.unit) + table + signs_.key() + "\n" + changes() + yields() + missing() +
           most_cards() + proof() + loosenings();
  }

 private:
  std::string sheets() {
    const std::vector<PaperCost>& before = fit_.as_sized.costs.papers;
    const std::vector<PaperCost>& after = fit_.best.costs.papers;
    std::vector<Row> rows = {{.name = fmt::format("Sheets for {}", counted(batch(), "card")),
                              .cells = {"as sized", "best sizes"},
                              .heading = true}};
    for (std::size_t i = 0; i < before.size() && i < after.size(); ++i) {
      rows.push_back({.name = before[i].paper,
                      .cells = {signs_.sheets(before[i]), signs_.sheets(after[i])},
                      .indent = 2});
    }
    const auto add = [&](const char* name, const std::string& one, const std::string& other) {
      rows.push_back({.name = name, .cells = {one, other}, .indent = 2});
    };
    const Costs& one = fit_.as_sized.costs;
    const Costs& other = fit_.best.costs;
    if (one.cost && other.cost) add("cost", amount_words(*one.cost), amount_words(*other.cost));
    if (one.waste && other.waste) add("waste", per_cent_words(*one.waste), per_cent_words(*other.waste));
    return "\n" + table(rows, style_);
  }

  [[nodiscard]] int batch() const { return card_.cards + card_.spare; }

  [[nodiscard]] bool nothing_changes() const { return fit_.as_sized.amounts == fit_.best.amounts; }

  [[nodiscard]] std::string changes() const {
    if (nothing_changes()) {
      return paragraph(fit_.proven ? "The card as sized is already the best within the wishes."
                                   : "Nothing better than the card as sized was found.");
    }
    std::string text;
    for (std::size_t i = 0; i < fit_.open.size(); ++i) {
      const Rational& from = fit_.as_sized.amounts[i];
      const Rational& to = fit_.best.amounts[i];
      if (from != to) text += paragraph(change_sentence(fit_.open[i], from, to, card_.unit));
    }
    return text;
  }

  // What one sheet gives, and what the batch takes, where that is not as before.
  [[nodiscard]] std::string yields() const {
    const std::vector<PaperCost>& before = fit_.as_sized.costs.papers;
    const std::vector<PaperCost>& after = fit_.best.costs.papers;
    std::string text;
    for (std::size_t i = 0; i < before.size() && i < after.size(); ++i) {
      const PaperCost& one = before[i];
      const PaperCost& other = after[i];
      if (one.cards_a_sheet && other.cards_a_sheet && *one.cards_a_sheet != *other.cards_a_sheet) {
        text += paragraph(fmt::format("One sheet of {} gives {} in place of {}.", one.paper,
                                      counted(*other.cards_a_sheet, "card"), *one.cards_a_sheet));
      }
      if (one.sheets != other.sheets && one.is_planned() && other.is_planned()) {
        text += paragraph(fmt::format("The batch takes {} of {} in place of {}.",
                                      counted(other.sheets, "sheet"), one.paper, one.sheets));
      }
    }
    return text;
  }

  [[nodiscard]] std::string missing() const {
    const Costs& costs = fit_.best.costs;
    if (costs.enough) return {};
    std::string text = "\n" + style_.strong(paragraph("The batch does not come out of the paper on hand."));
    for (const PaperCost& paper : costs.papers) {
      if (paper.missing > 0 && paper.is_planned()) {
        text += paragraph(fmt::format("Of {} {} {} missing.", paper.paper, counted(paper.missing, "sheet"),
                                      paper.missing == 1 ? "is" : "are"),
                          2);
      }
      if (paper.never) {
        text += paragraph(fmt::format("Of {} a piece is larger than every sheet{}.", paper.paper,
                                      fit_.proven ? ", and so it is in every card that explore lists" : ""),
                          2);
      }
      if (!paper.trouble.empty()) text += paragraph(fmt::format("{}: {}", paper.paper, paper.trouble), 2);
    }
    return text;
  }

  [[nodiscard]] std::string most_cards() const {
    if (!fit_.most) {
      return most_ ? paragraph(
                         "No paper sets a limit to the cards that can be made, so these sizes are for the "
                         "batch.")
                   : "";
    }
    const std::string as_sized = !fit_.most_as_sized                 ? ""
                                 : *fit_.most_as_sized == *fit_.most ? ", as many as with the card as sized"
                                 : for_most()
                                     ? fmt::format(", and {} as sized", *fit_.most_as_sized)
                                     : fmt::format(", and {} of the card as sized", *fit_.most_as_sized);
    // Of several versions no more are made than are stated.
    if (for_most() && !card_.variants.empty() && *fit_.most == batch()) {
      return paragraph(
          fmt::format("With these sizes the paper gives all {} of the batch{}.", *fit_.most, as_sized));
    }
    return paragraph(
        for_most()
            ? fmt::format("With these sizes the paper gives {}{}.", counted(*fit_.most, "card"), as_sized)
            : fmt::format("Within the wishes {} of the batch can be made of what is there{}.",
                          counted(*fit_.most, "card"), as_sized));
  }

  // The sizes are those that give the most cards.
  [[nodiscard]] bool for_most() const { return most_ && fit_.most.has_value(); }

  [[nodiscard]] std::string proof() const {
    if (for_most() && !card_.variants.empty() && *fit_.most == batch()) return {};
    const bool by_cost = fit_.best.costs.cost.has_value();
    if (fit_.proven) {
      return paragraph(fmt::format("That no card that explore lists {} is proven.",
                                   for_most()                ? "gives more"
                                   : !fit_.best.costs.enough ? "leaves fewer sheets missing"
                                   : by_cost                 ? "costs less in paper"
                                                             : "takes fewer sheets"));
    }
    if (for_most()) return paragraph("Whether another card that explore lists gives more is not known.");
    return paragraph(
        fmt::format("Whether another card that explore lists {} is not known; fewer than {} in all "
                    "none can take.",
                    by_cost || !fit_.best.costs.enough ? "does better" : "takes fewer sheets",
                    counted(fit_.at_least, "sheet")));
  }

  [[nodiscard]] std::string loosenings() const {
    if (fit_.best.costs.enough || for_most()) return {};
    if (fit_.loosen.empty()) {
      return "\n" + paragraph(fit_.loosen_known
                                  ? "No size, border, distance or gap of a layer lets the batch come out "
                                    "when it alone is loosened."
                                  : "Which wish to loosen, so that the batch comes out, is not known.");
    }
    std::string text =
        "\n" + paragraph(fit_.loosen.size() == 1 ? "It comes out if this wish is loosened:"
                                                 : "It comes out if one of these is loosened:");
    for (const Loosening& one : fit_.loosen) text += loosening(one);
    if (!fit_.loosen_known) text += paragraph("Whether other wishes would do too is not known.");
    return text;
  }

  [[nodiscard]] std::string loosening(const Loosening& one) const {
    const std::string name = amount_name({.name = one.name,
                                          .key = one.key,
                                          .part = one.part,
                                          .spot = one.spot,
                                          .ways = {},
                                          .as_sized = 0,
                                          .least = 0,
                                          .most = 0});
    const std::string by = fmt::format("The {} {} {}; the batch takes {} then.", name,
                                       length_with_unit(one.by < 0 ? Rational(-one.by) : one.by, card_.unit),
                                       one.by < 0 ? "less" : "more", counted(one.costs.sheets, "sheet"));
    if (one.spot.line == 0)
      return paragraph(fmt::format("{}: {} to {}", name, one.from, one.to), 2) + paragraph(by, 4);
    const Change change{.spot = one.spot, .from = one.from, .to = one.to, .by = one.by, .says = {}};
    return "  " + change_text(source_, change, 2) + "\n" + paragraph(by, 4);
  }

  const Source& source_;
  const Card& card_;
  const FitCard& fit_;
  bool most_;
  const Style& style_;
  PaperSigns signs_;
};

}  // namespace

std::string change_sentence(const OpenAmount& open, const Rational& from, const Rational& to, Unit unit) {
  return fmt::format("The {}{}: {} to {}.", open.ways.empty() ? "" : "way of ", amount_name(open),
                     value_words(open, from, unit), value_words(open, to, unit));
}

std::string fit_text(const Source& source, const Card& card, const FitCard& fit, bool most,
                     const Style& style) {
  return FitReport(source, card, fit, most, style).text();
}

Status status_of(const FitCard& fit, bool most) {
  const bool comes_out = most && fit.most ? *fit.most > 0 : fit.best.costs.enough;
  if (fit.time_ran_out && !(fit.proven && comes_out)) return Status::limit_reached;
  return comes_out ? Status::done : Status::cannot_be_built;
}

}  // namespace evenmat
