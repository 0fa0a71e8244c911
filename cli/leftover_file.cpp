#include "cli/leftover_file.h"

#include <fmt/format.h>

#include <optional>
#include <string_view>

#include "cli/cut/leftovers.h"
#include "cli/wording.h"
#include "model/papers.h"

namespace evenmat {
namespace {

// Exact, and as a maker would write it where that can be. Numbers of too many digits are not read: such a one
// is a thousandth less at most, so that no more paper is promised than there is.
std::string number_word(const Rational& value, Unit unit) {
  constexpr std::size_t most_digits = 30;
  std::string text = exact_words(value, unit);
  return text.size() > most_digits ? fraction_text(round_down(value, Rational(1) / 1000)) : text;
}

// What an entry says beside what all entries of its paper say.
struct Left {
  Size size;
  std::optional<int> have;
  std::optional<Rational> cost;
  Rational trim_first;
  bool up = false;
  std::string grain;
};

class Writing {
 public:
  Writing(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more)
      : cards_(cards), more_(more), unit_(cards.front().card->unit) {}

  [[nodiscard]] std::string text(const CutBatch& batch) const {
    std::vector<std::string> titles;
    for (const BatchCard& card : cards_) {
      if (!card.card->title.empty()) titles.push_back(toml_string(card.card->title));
    }
    const std::string entries = all_entries(batch);
    if (entries.empty()) return {};
    std::string text = fmt::format(
        "# Paper left over{}. Name this file after --also when the next cards are cut.\n", after(titles));
    if (!more_.empty())
      text += "# It says all that is left of earlier leftovers, too: use it in their place.\n";
    return text + fmt::format("unit = \"{}\"\n", unit_name(unit_)) + entries;
  }

 private:
  static std::string after(const std::vector<std::string>& titles) {
    return titles.empty() ? "" : " after " + listed(titles);
  }

  [[nodiscard]] std::string all_entries(const CutBatch& batch) const {
    std::string text;
    for (const PaperPlan& paper : batch.papers) {
      for (const Kept& kept : kept_of(paper))
        text += entry(paper.paper, {kept.size, kept.count, {}, 0, kept.up, kept.grain});
      for (std::size_t i = 0; i < paper.stock.size(); ++i) text += earlier(paper, i);
    }
    return text + of_other_papers(batch);
  }

  // What is not touched of an earlier leftover.
  [[nodiscard]] std::string earlier(const PaperPlan& paper, std::size_t stock) const {
    const CutSheet& sheet = paper.stock[stock];
    const std::optional<int> left = untouched(paper, stock);
    if (sheet.from != CutSheet::From::more || left == 0) return {};
    return entry(paper.paper, {sheet.size, left, sheet.cost, sheet.trim_first, sheet.up, sheet.grain});
  }

  // Earlier leftovers of papers that these cards are not cut from.
  [[nodiscard]] std::string of_other_papers(const CutBatch& batch) const {
    std::string text;
    for (const MorePaper& more : more_) {
      for (const Paper& paper : more.papers) {
        bool planned = false;
        for (const PaperPlan& plan : batch.papers) planned = planned || plan.paper == paper.name.value;
        if (planned || !paper.sheet || (paper.have && paper.have->value == 0)) continue;
        const auto here = [&](const Rational& length) { return convert(length, more.unit, unit_); };
        Left left;
        left.size = {here(paper.sheet->size.width), here(paper.sheet->size.height)};
        if (paper.have) left.have = paper.have->value;
        if (paper.cost) left.cost = paper.cost->value;
        if (paper.trim_first) left.trim_first = here(paper.trim_first->value);
        left.up = paper.up;
        if (paper.grain) left.grain = paper.grain->value;
        text += entry(paper.name.value, left);
      }
    }
    return text;
  }

  // What the first file says that states it, in this file's unit if it is a length.
  [[nodiscard]] std::optional<Rational> stated(const std::string& paper, Maybe<Rational> Paper::*what,
                                               bool is_length) const {
    const Maybe<std::string> name = Stated<std::string>{paper, {}};
    for (const BatchCard& one : cards_) {
      const auto found = stated_of_paper(one.card->papers, name, what);
      if (found) return is_length ? convert(found->value, one.card->unit, unit_) : found->value;
    }
    for (const MorePaper& one : more_) {
      const auto found = stated_of_paper(one.papers, name, what);
      if (found) return is_length ? convert(found->value, one.unit, unit_) : found->value;
    }
    return std::nullopt;
  }

  [[nodiscard]] std::string entry(const std::string& paper, const Left& left) const {
    std::string text = fmt::format("\n[[paper]]\nname = {}\nsheet = \"{} x {}\"\n", toml_string(paper),
                                   number_word(left.size.width, unit_), number_word(left.size.height, unit_));
    if (left.have) text += fmt::format("have = {}\n", *left.have);
    if (left.up) text += "up = true\n";
    if (!left.grain.empty()) text += fmt::format("grain = \"{}\"\n", left.grain);
    if (const auto grams = stated(paper, &Paper::grams_per_square_metre, false))
      text += fmt::format("weight = \"{} gsm\"\n", number_word(*grams, Unit::millimetre));
    if (const auto thickness = stated(paper, &Paper::thickness, true))
      text += fmt::format("thickness = \"{}\"\n", number_word(*thickness, unit_));
    if (left.cost) text += fmt::format("cost = {}\n", toml_string(number_word(*left.cost, unit_)));
    if (left.trim_first > 0)
      text += fmt::format("trim-first = \"{}\"\n", number_word(left.trim_first, unit_));
    return text;
  }

  const std::vector<BatchCard>& cards_;
  const std::vector<MorePaper>& more_;
  Unit unit_;
};

}  // namespace

std::string toml_string(std::string_view text) {
  std::string quoted = "\"";
  for (const char character : text) {
    const auto byte = static_cast<unsigned char>(character);
    if (character == '"' || character == '\\') {
      quoted += '\\';
      quoted += character;
    } else if (byte < 0x20 || byte == 0x7F) {
      quoted += fmt::format("\\u{:04X}", byte);
    } else {
      quoted += character;
    }
  }
  return quoted + '"';
}

std::string leftover_file(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                          const CutBatch& batch) {
  return Writing(cards, more).text(batch);
}

}  // namespace evenmat
