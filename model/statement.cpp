#include "model/statement.h"

#include <algorithm>
#include <array>
#include <utility>

#include "model/number_scan.h"
#include "model/words.h"

namespace evenmat {
namespace {

struct LineWord {
  std::string_view word;
  Line line;
};
constexpr std::array<LineWord, 10> line_words{{{"left", Line::left},
                                               {"right", Line::right},
                                               {"top", Line::top},
                                               {"bottom", Line::bottom},
                                               {"width", Line::width},
                                               {"height", Line::height},
                                               {"centre-across", Line::centre_across},
                                               {"centre-down", Line::centre_down},
                                               {"center-across", Line::centre_across},
                                               {"center-down", Line::centre_down}}};

bool is_word_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
         static_cast<unsigned char>(c) >= 0x80;
}

std::string_view word_at(std::string_view text) {
  std::size_t size = 0;
  while (size < text.size() && is_word_character(text[size])) ++size;
  return text.substr(0, size);
}

// Whether a word or number that stands before `text` goes on into it: signs end it, blanks too.
bool goes_on(std::string_view text) {
  constexpr std::array<std::string_view, 5> signs{"-", "\u2212", "\u00D7", "\u2264", "\u2265"};
  const auto begins = [&](std::string_view sign) { return text.starts_with(sign); };
  return !text.empty() && is_word_character(text.front()) && std::none_of(signs.begin(), signs.end(), begins);
}

// The measure that `text` begins with; `bottom-1/4` is `bottom` less a quarter.
const LineWord* line_at(std::string_view text) {
  const LineWord* best = nullptr;
  for (const LineWord& entry : line_words) {
    if (!text.starts_with(entry.word)) continue;
    if (goes_on(text.substr(entry.word.size()))) continue;
    if (best == nullptr || best->word.size() < entry.word.size()) best = &entry;
  }
  return best;
}

// A sum on one side of a comparison.
struct Side {
  // A length that the constant holds, by its place among those of the whole text.
  struct Length {
    std::size_t number = 0;
    bool negative = false;
  };
  std::vector<StatementTerm> terms;
  Rational constant = 0;
  std::vector<Length> lengths;
};

enum class Sense { at_most, at_least, equal };

// Recursive descent over `statement = and-list { "or" and-list }`, `and-list = comparison { "and"
// comparison }`, `comparison = sum sense sum { sense sum }`. The first trouble ends the reading.
class Parser {
 public:
  Parser(std::string_view text, const std::vector<std::string>& names, Unit unit)
      : text_(text), names_(names), unit_(unit) {}

  std::vector<std::vector<Comparison>> choices() {
    std::vector<std::vector<Comparison>> all;
    do {
      std::vector<Comparison> together;
      do comparison(together, all.size());
      while (well() && take_word("and"));
      all.push_back(std::move(together));
    } while (well() && take_word("or"));
    blanks();
    if (well() && at_ < text_.size()) {
      fail("The rule goes on with " + in_quotes(rest()) +
           ", which does not belong there. Join comparisons by \"and\" or "
           "\"or\".");
    }
    return all;
  }

  [[nodiscard]] bool well() const { return trouble_.empty(); }
  [[nodiscard]] const std::string& trouble() const { return trouble_; }
  [[nodiscard]] std::size_t at() const { return at_; }

  // After `choices`: the lengths in the order of the text, by the bytes of the text that was given.
  [[nodiscard]] const std::vector<NumberIn>& numbers() const { return numbers_; }
  [[nodiscard]] const std::vector<StatementNumber>& lengths() const { return lengths_; }

 private:
  [[nodiscard]] std::string_view rest() const { return text_.substr(at_); }
  void blanks() { at_ = text_.size() - trimmed_start(rest()).size(); }
  static std::string_view trimmed_start(std::string_view text) {
    const std::string_view bare = trimmed(text);
    return bare.empty() ? bare : text.substr(static_cast<std::size_t>(bare.data() - text.data()));
  }
  void fail(std::string trouble) {
    if (well()) trouble_ = std::move(trouble);
  }
  bool take(std::string_view sign) {
    blanks();
    if (!rest().starts_with(sign)) return false;
    at_ += sign.size();
    return true;
  }
  bool take_word(std::string_view word) {
    blanks();
    if (word_at(rest()) != word) return false;
    at_ += word.size();
    return true;
  }

  // `choice`: the place among the choices of the list that it goes into.
  void comparison(std::vector<Comparison>& into, std::size_t choice) {
    Side left = sum();
    bool any = false;
    while (well()) {
      const std::optional<Sense> sense = take_sense();
      if (!sense) break;
      Side right = sum();
      if (!well()) return;
      const bool turned = *sense == Sense::at_least;
      const Side& low = turned ? right : left;
      const Side& high = turned ? left : right;
      into.push_back(difference(low, high, *sense == Sense::equal));
      for (const Side* side : {&low, &high}) {
        for (const Side::Length& length : side->lengths) {
          const int factor = length.negative == (side == &high) ? 1 : -1;
          lengths_.push_back({length.number, choice, into.size() - 1, factor});
        }
      }
      if (into.back().terms.empty())
        fail("This compares numbers only. Name a layer's edge or size, such as greeting.width.");
      left = std::move(right);
      any = true;
    }
    if (well() && !any)
      fail("A rule compares two sums, and <=, >= or = is missing here. Write it like a.width <= b.width.");
  }

  std::optional<Sense> take_sense() {
    if (take("<=") || take("\u2264")) return Sense::at_most;
    if (take(">=") || take("\u2265")) return Sense::at_least;
    blanks();
    if (rest().starts_with("<") || rest().starts_with(">")) {
      const std::string sign(rest().substr(0, 1));
      fail("\"" + sign + "\" leaves no last size that still holds. Write \"" + sign + "=\".");
      return std::nullopt;
    }
    if (take("==") || take("=")) return Sense::equal;
    return std::nullopt;
  }

  static Comparison difference(const Side& low, const Side& high, bool equal) {
    Comparison result;
    result.terms = low.terms;
    for (const StatementTerm& term : high.terms) result.terms.push_back({-term.factor, term.name, term.line});
    result.constant = low.constant - high.constant;
    result.equal = equal;
    return result;
  }

  Side sum() {
    Side side;
    bool negative = take_minus();
    if (!negative) take("+");
    item(side, negative);
    while (well()) {
      if (take("+")) {
        negative = false;
      } else if (take_minus()) {
        negative = true;
      } else {
        break;
      }
      item(side, negative);
    }
    return side;
  }
  bool take_minus() { return take("-") || take("\u2212"); }

  // number, term, number * term or term * number.
  void item(Side& side, bool negative) {
    blanks();
    if (std::optional<StatementTerm> named = term()) {
      if (take_times()) {
        blanks();
        named->factor = factor();
      }
      if (negative) named->factor = -named->factor;
      if (well()) side.terms.push_back(std::move(*named));
      return;
    }
    if (!well()) return;
    const std::size_t start = at_;
    const NumberScan number = scan_number(rest(), unit_);
    // `2nd mat.left` with no such name: what begins like a number is meant as a name.
    if (number.bytes == 0 || goes_on(rest().substr(number.bytes))) return fail_at_name();
    if (!number.trouble.empty()) return fail(number.trouble);
    at_ += number.bytes;
    if (!take_times()) {
      side.constant += negative ? Rational(-number.value) : number.value;
      side.lengths.push_back({numbers_.size(), negative});
      numbers_.push_back({NumberPart::constant, number.value, start, start + number.bytes});
      return;
    }
    if (number.names_unit) {
      at_ = start;
      return fail("A number that multiplies has no unit. Write 2 * greeting.width.");
    }
    blanks();
    std::optional<StatementTerm> named = term();
    if (!named) return well() ? fail_at_name() : void();
    named->factor = negative ? Rational(-number.value) : number.value;
    side.terms.push_back(std::move(*named));
  }
  bool take_times() { return take("*") || take("\u00D7"); }

  Rational factor() {
    const NumberScan number = scan_number(rest(), unit_);
    if (number.bytes == 0) fail("Only a number can multiply an edge or size. Write 2 * greeting.width.");
    if (!number.trouble.empty()) fail(number.trouble);
    if (number.names_unit) fail("A number that multiplies has no unit. Write 2 * greeting.width.");
    if (well()) at_ += number.bytes;
    return number.value;
  }

  // NAME.line or 'NAME'.line with a declared name, the longest that fits.
  std::optional<StatementTerm> term() {
    const std::string* best = nullptr;
    std::size_t taken = 0;
    for (const std::string& name : names_) {
      if (best != nullptr && name.size() <= best->size()) continue;
      const std::size_t bytes = name_bytes(name);
      if (bytes == 0 || line_at(rest().substr(bytes)) == nullptr) continue;
      best = &name;
      taken = bytes;
    }
    if (best == nullptr) return std::nullopt;
    at_ += taken;
    const LineWord* word = line_at(rest());
    at_ += word->word.size();
    return StatementTerm{1, *best, word->line};
  }

  // How much of the rest is `name.`, or its quoted form; 0 if it does not begin so.
  [[nodiscard]] std::size_t name_bytes(const std::string& name) const {
    const std::string_view text = rest();
    if (text.starts_with(name) && text.substr(name.size()).starts_with(".")) return name.size() + 1;
    if (text.starts_with("'") && text.substr(1).starts_with(name) &&
        text.substr(1 + name.size()).starts_with("'."))
      return name.size() + 3;
    return 0;
  }

  // Neither a number nor a declared name with a measure: say which of the two parts is wrong.
  void fail_at_name() {
    std::string_view text = rest();
    if (text.empty()) {
      return fail(
          "The rule ends where a number or a layer's edge or size is wanted. Finish it or take it out.");
    }
    if (text.starts_with("("))
      return fail("A rule has no brackets. Write the sum out, such as a.left + a.width <= 3.");
    for (const std::string& name : names_) {
      if (const std::size_t bytes = name_bytes(name); bytes > 0) {
        const std::string_view word = word_at(text.substr(bytes));
        at_ += bytes;
        return fail(in_quotes(word) + " is not an edge or size." + offer(word, measure_words()));
      }
    }
    // The name goes as far as the dot before a measure; a lone name has none.
    for (std::size_t dot = text.find('.'); dot != std::string_view::npos; dot = text.find('.', dot + 1)) {
      if (line_at(text.substr(dot + 1)) == nullptr) continue;
      std::string_view name = trimmed(text.substr(0, dot));
      if (name.size() > 1 && name.starts_with("'") && name.ends_with("'"))
        name = name.substr(1, name.size() - 2);
      return fail(in_quotes(name) + " is not a face, window or layer of this card." + offer(name, names_));
    }
    fail(in_quotes(text) +
         " is neither a number nor an edge or size of a layer. Write it like greeting.width.");
  }

  static std::vector<std::string> measure_words() {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < 8; ++i) words.emplace_back(line_words[i].word);
    return words;
  }

  std::string_view text_;
  const std::vector<std::string>& names_;
  Unit unit_;
  std::size_t at_ = 0;
  std::string trouble_;
  std::vector<NumberIn> numbers_;
  std::vector<StatementNumber> lengths_;
};

}  // namespace

StatementReading read_statement(std::string_view text, const std::vector<std::string>& names, Unit unit,
                                Spot spot) {
  Parser parser(text, names, unit);
  const std::string_view bare = trimmed(text);
  Statement statement{parser.choices(), std::string(bare), spot, {std::string(bare), {}}, {}};
  if (!parser.well())
    return {std::nullopt, parser.trouble(), static_cast<int>(characters(text.substr(0, parser.at())))};
  const auto before = static_cast<std::size_t>(bare.data() - text.data());
  statement.numbered.numbers = parser.numbers();
  for (NumberIn& number : statement.numbered.numbers) {
    number.begin -= before;
    number.end -= before;
  }
  statement.lengths = parser.lengths();
  return {std::move(statement), {}, 0};
}

}  // namespace evenmat
