#include "cli/explore/csv.h"

#include <fmt/format.h>

#include <cstddef>
#include <optional>

#include "cli/explore/facts.h"
#include "cli/explore/words.h"

namespace evenmat {
namespace {

// A value under its heading.
struct Field {
  std::string heading;
  std::string value;
};

std::string yes_or_no(bool value) { return value ? "yes" : "no"; }

std::string fraction(const std::optional<Rational>& value) { return value ? fraction_text(*value) : ""; }

void add_amounts(std::vector<Field>& fields, const std::vector<OpenAmount>& open, const Alternative& card) {
  for (std::size_t i = 0; i < open.size(); ++i) {
    const Rational& amount = card.amounts[i];
    const bool way = !open[i].ways.empty();
    fields.push_back({amount_key(open[i]), way ? open[i].ways.at(floor(amount).convert_to<std::size_t>())
                                               : fraction_text(amount)});
  }
}

void add_pieces(std::vector<Field>& fields, const SizedCard& sized) {
  for (const SizedVersion& version : sized.versions) {
    const std::string whose = version.name.empty() ? "" : version.name + ": ";
    for (const PlacedPiece& placed : version.pieces) {
      const std::string name = whose + placed.piece->name.value;
      fields.push_back({name + " width", fraction_text(placed.width)});
      fields.push_back({name + " height", fraction_text(placed.height)});
      fields.push_back({name + " from left", fraction_text(placed.from_left)});
      fields.push_back({name + " from top", fraction_text(placed.from_top)});
    }
  }
}

void add_papers(std::vector<Field>& fields, const Costs& costs) {
  for (const PaperCost& paper : costs.papers) {
    const bool told = paper.is_planned();
    const auto add = [&](const char* what, const std::string& value) {
      fields.push_back({fmt::format("{} {}", paper.paper, what), told ? value : ""});
    };
    add("sheets", std::to_string(paper.sheets));
    add("at least", std::to_string(paper.at_least));
    add("proven", yes_or_no(paper.proven));
    add("missing", std::to_string(paper.missing));
  }
}

std::vector<Field> fields_of(const std::vector<OpenAmount>& open, const Alternative& card,
                             std::size_t number) {
  std::vector<Field> fields = {{"card", std::to_string(number)},
                               {"as sized", yes_or_no(card.as_sized)},
                               {"unbeaten", yes_or_no(card.unbeaten)}};
  add_amounts(fields, open, card);
  add_pieces(fields, card.sized);
  add_papers(fields, card.costs);
  const Costs& costs = card.costs;
  fields.push_back({"sheets", costs.papers.empty() ? "" : std::to_string(costs.sheets)});
  fields.push_back({"cost", fraction(costs.cost)});
  fields.push_back({"waste", fraction(costs.waste)});
  fields.push_back({"narrowest border", fraction(costs.border)});
  fields.push_back({"seen", fraction(costs.seen)});
  fields.push_back({"thickness", fraction(costs.thickness)});
  fields.push_back(
      {"envelope", card.sized.versions.empty() ? "" : envelope_words(card.sized.versions.front())});
  return fields;
}

std::string csv_field(std::string_view value) {
  if (value.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(value);
  std::string quoted = "\"";
  for (const char c : value) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

}  // namespace

std::string csv_line(const std::vector<std::string>& values) {
  std::string line;
  for (std::size_t i = 0; i < values.size(); ++i) line += (i == 0 ? "" : ",") + csv_field(values[i]);
  return line + "\r\n";
}

std::string explored_csv(const std::vector<OpenAmount>& open, const std::vector<const Alternative*>& cards) {
  std::string text;
  for (std::size_t i = 0; i < cards.size(); ++i) {
    std::vector<std::string> headings;
    std::vector<std::string> values;
    for (Field& field : fields_of(open, *cards[i], i + 1)) {
      headings.push_back(std::move(field.heading));
      values.push_back(std::move(field.value));
    }
    if (i == 0) text += csv_line(headings);
    text += csv_line(values);
  }
  return text;
}

}  // namespace evenmat
