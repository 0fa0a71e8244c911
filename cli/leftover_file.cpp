#include "cli/leftover_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

#include "cli/cut/leftovers.h"
#include "cli/wording.h"

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
  std::string paper;
  Size size;
  std::optional<int> have;
  std::optional<Rational> cost = {};
  Rational trim_first = 0;
  bool up = false;
  std::string grain;
};

bool alike(const Left& a, const Left& b) {
  const bool square_on = a.size == b.size || (!a.up && a.trim_first == 0 && a.size == turned(b.size));
  return square_on && a.paper == b.paper && a.cost == b.cost && a.trim_first == b.trim_first &&
         a.up == b.up && a.grain == b.grain && a.have && b.have;
}

// Equal ones of one paper are one entry.
void add(std::vector<Left>& all, Left left) {
  const auto same = std::find_if(all.begin(), all.end(), [&](const Left& one) { return alike(one, left); });
  if (same == all.end()) {
    all.push_back(std::move(left));
  } else {
    *same->have += *left.have;
  }
}

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
    std::vector<Left> all;
    for (const PaperPlan& paper : batch.papers) {
      for (const Kept& kept : kept_of(paper))
        add(all, {paper.paper, kept.size, kept.count, {}, 0, kept.up, kept.grain});
      for (std::size_t i = 0; i < paper.stock.size(); ++i) add_untouched(paper, i, all);
    }
    add_other_papers(batch, all);
    std::string text;
    for (const Left& left : all) text += entry(left);
    return text;
  }

  // What is not touched of an earlier leftover, or of what the work gives up. Whole sheets are the card's to
  // state.
  static void add_untouched(const PaperPlan& paper, std::size_t stock, std::vector<Left>& all) {
    const CutSheet& sheet = paper.stock[stock];
    const std::optional<int> left = untouched(paper, stock);
    if ((sheet.from != CutSheet::From::more && !sheet.keep) || left == 0) return;
    add(all, {paper.paper, sheet.size, left, sheet.cost, sheet.trim_first, sheet.up, sheet.grain});
  }

  // Earlier leftovers of papers that these cards are not cut from.
  void add_other_papers(const CutBatch& batch, std::vector<Left>& all) const {
    for (const MorePaper& more : more_) {
      for (const Paper& paper : more.papers) {
        bool planned = false;
        for (const PaperPlan& plan : batch.papers) planned = planned || plan.paper == paper.name.value;
        if (planned || !paper.sheet || (paper.have && paper.have->value == 0)) continue;
        const auto here = [&](const Rational& length) { return convert(length, more.unit, unit_); };
        Left left;
        left.paper = paper.name.value;
        left.size = {here(paper.sheet->size.width), here(paper.sheet->size.height)};
        if (paper.have) left.have = paper.have->value;
        if (paper.cost) left.cost = paper.cost->value;
        if (paper.trim_first) left.trim_first = here(paper.trim_first->value);
        left.up = paper.up;
        if (paper.grain) left.grain = paper.grain->value;
        add(all, std::move(left));
      }
    }
  }

  // The first entry of the paper that says it, and the unit of its file.
  struct Saying {
    const Paper* paper = nullptr;
    Unit unit = Unit::inch;
  };
  [[nodiscard]] Saying first_saying(const std::string& name, Maybe<Rational> Paper::*what) const {
    const auto in = [&](const std::vector<Paper>& papers, Unit unit) -> Saying {
      for (const Paper& paper : papers) {
        if (paper.name.value == name && paper.*what) return {&paper, unit};
      }
      return {};
    };
    for (const BatchCard& one : cards_) {
      if (const Saying found = in(one.card->papers, one.card->unit); found.paper) return found;
    }
    for (const MorePaper& one : more_) {
      if (const Saying found = in(one.papers, one.unit); found.paper) return found;
    }
    return {};
  }

  [[nodiscard]] std::string weight_of(const std::string& name) const {
    const Paper* paper = first_saying(name, &Paper::grams_per_square_metre).paper;
    if (paper == nullptr) return {};
    if (!paper->weight_words.empty()) return paper->weight_words;
    return number_word(paper->grams_per_square_metre->value, Unit::millimetre) + " gsm";
  }

  [[nodiscard]] std::string thickness_of(const std::string& name) const {
    const Saying said = first_saying(name, &Paper::thickness);
    if (said.paper == nullptr) return {};
    if (!said.paper->thickness_words.empty()) return said.paper->thickness_words;
    const Rational thickness = convert(said.paper->thickness->value, said.unit, unit_);
    const std::string decimal = amount_words(thickness);
    return decimal.starts_with("about") ? number_word(thickness, unit_) : decimal;
  }

  [[nodiscard]] std::string entry(const Left& left) const {
    std::string text = fmt::format("\n[[paper]]\nname = {}\nsheet = \"{} x {}\"\n", toml_string(left.paper),
                                   number_word(left.size.width, unit_), number_word(left.size.height, unit_));
    if (left.have) text += fmt::format("have = {}\n", *left.have);
    if (left.up) text += "up = true\n";
    if (!left.grain.empty()) text += fmt::format("grain = \"{}\"\n", left.grain);
    const std::string weight = weight_of(left.paper);
    if (!weight.empty()) text += fmt::format("weight = {}\n", toml_string(weight));
    const std::string thickness = thickness_of(left.paper);
    if (!thickness.empty()) text += fmt::format("thickness = {}\n", toml_string(thickness));
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
