#include "model/paper_weight.h"

#include <array>

#include "model/number_scan.h"
#include "model/words.h"

namespace evenmat {
namespace {

struct PaperKind {
  std::string_view word;
  int width, height;  // of the basic size, halves of an inch
};
constexpr std::array<PaperKind, 6> kinds{{{"cover", 40, 52},
                                          {"text", 50, 76},
                                          {"book", 50, 76},
                                          {"index", 51, 61},
                                          {"bristol", 45, 57},
                                          {"bond", 34, 44}}};

Rational basis_weight(const Rational& pounds, const PaperKind& kind) {
  const Rational grams = pounds * Rational(45359237) / 100000;
  const Rational metres_per_inch = Rational(254) / 10000;
  const Rational sheet = Rational(kind.width * kind.height) / 4 * metres_per_inch * metres_per_inch;
  return grams / (500 * sheet);
}

}  // namespace

WeightReading read_weight(std::string_view text) {
  const std::string small = small_letters(trimmed(text));
  const NumberScan number = scan_number(small, Unit::inch);
  const std::string rest(trimmed(std::string_view(small).substr(number.bytes)));
  const auto refused = [&](const std::string& why) {
    return WeightReading{std::nullopt, in_quotes(text) + why};
  };
  if (!number.trouble.empty()) return {std::nullopt, number.trouble};
  if (number.bytes == 0 || number.names_unit)
    return refused(" is not a weight of paper. Write it like 216 gsm or 80 lb cover.");
  if (number.value <= 0) return refused(" weighs nothing. Write the weight on the packet.");
  if (rest == "gsm" || rest == "g/m2" || rest == "g/m\u00B2") return {number.value, {}};
  for (std::string_view pounds : {"lb", "lbs", "#"}) {
    if (!rest.starts_with(pounds)) continue;
    const std::string_view after = std::string_view(rest).substr(pounds.size());
    if (pounds != "#" && !after.empty() && after.front() != ' ') continue;
    const std::string_view word = trimmed(after);
    std::vector<std::string> words;
    for (const PaperKind& kind : kinds) {
      if (kind.word == word) return {basis_weight(number.value, kind), {}};
      words.emplace_back(kind.word);
    }
    return refused(
        " does not say pounds of which kind, and each kind is weighed by a sheet of its own. Write one of " +
        either(words) + " after lb.");
  }
  return refused(" does not say in what it is weighed. Write it like 216 gsm or 80 lb cover.");
}

}  // namespace evenmat
