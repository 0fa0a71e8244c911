#include "model/number_scan.h"

#include <array>
#include <optional>
#include <utility>

#include "model/words.h"

namespace evenmat {
namespace {

constexpr std::size_t most_digits = 30;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

struct Vulgar {
  std::string_view sign;
  int over, under;
};
constexpr std::array<Vulgar, 18> vulgar_fractions{{{"¼", 1, 4},
                                                   {"½", 1, 2},
                                                   {"¾", 3, 4},
                                                   {"⅐", 1, 7},
                                                   {"⅑", 1, 9},
                                                   {"⅒", 1, 10},
                                                   {"⅓", 1, 3},
                                                   {"⅔", 2, 3},
                                                   {"⅕", 1, 5},
                                                   {"⅖", 2, 5},
                                                   {"⅗", 3, 5},
                                                   {"⅘", 4, 5},
                                                   {"⅙", 1, 6},
                                                   {"⅚", 5, 6},
                                                   {"⅛", 1, 8},
                                                   {"⅜", 3, 8},
                                                   {"⅝", 5, 8},
                                                   {"⅞", 7, 8}}};

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  [[nodiscard]] std::size_t at() const { return at_; }
  [[nodiscard]] std::string_view rest() const { return text_.substr(at_); }
  [[nodiscard]] std::string_view since(std::size_t at) const { return text_.substr(at, at_ - at); }
  void back_to(std::size_t at) { at_ = at; }

  bool take(std::string_view sign) {
    if (!rest().starts_with(sign)) return false;
    at_ += sign.size();
    return true;
  }
  template <std::size_t n>
  bool take_any(const std::array<std::string_view, n>& signs) {
    for (std::string_view sign : signs)
      if (take(sign)) return true;
    return false;
  }
  bool blanks() {
    const std::size_t before = at_;
    while (take_any(std::array<std::string_view, 5>{" ", "\t", "\u00A0", "\u2009", "\u202F"})) {
    }
    return at_ != before;
  }
  std::string_view digits() {
    const std::size_t from = at_;
    while (at_ < text_.size() && is_digit(text_[at_])) ++at_;
    return text_.substr(from, at_ - from);
  }
  std::string_view letters() {
    const std::size_t from = at_;
    while (at_ < text_.size() && is_letter(text_[at_])) ++at_;
    return text_.substr(from, at_ - from);
  }
  std::optional<Rational> vulgar() {
    for (const Vulgar& fraction : vulgar_fractions)
      if (take(fraction.sign)) return Rational(fraction.over) / fraction.under;
    return std::nullopt;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

// Digit by digit: a library's own reading would take a leading 0 for octal.
Integer whole_number(std::string_view digits) {
  Integer value = 0;
  for (char c : digits) value = value * 10 + (c - '0');
  return value;
}

Rational power_of_ten(std::size_t exponent) {
  Integer value = 1;
  for (std::size_t i = 0; i < exponent; ++i) value *= 10;
  return {value};
}

bool take_bar(Scanner& scanner) {
  return scanner.take_any(std::array<std::string_view, 3>{"/", "\u2044", "\u2215"});
}

// The `1/4` of `4 1/4`, `4-1/4`, or the ¼ of `4¼`, after the whole number; takes nothing otherwise.
struct Fraction {
  std::string_view over, under;
  std::optional<Rational> vulgar;
};
std::optional<Fraction> fraction_after_whole(Scanner& scanner) {
  const std::size_t start = scanner.at();
  constexpr std::array<std::string_view, 4> hyphens{"-", "\u2010", "\u2011", "\u2013"};
  if (!scanner.blanks()) scanner.take_any(hyphens);
  const bool apart = scanner.at() != start;
  if (const auto vulgar = scanner.vulgar()) return Fraction{{}, {}, vulgar};
  if (apart) {
    const std::string_view over = scanner.digits();
    if (!over.empty() && take_bar(scanner)) {
      const std::string_view under = scanner.digits();
      if (!under.empty()) return Fraction{over, under, std::nullopt};
    }
  }
  scanner.back_to(start);
  return std::nullopt;
}

struct Factor {
  Unit unit;
  int tenfold;  // 1, or 10 for centimetres
};
std::optional<Factor> take_unit(Scanner& scanner) {
  const std::size_t start = scanner.at();
  scanner.blanks();
  if (scanner.take_any(std::array<std::string_view, 3>{"\"", "\u2033", "\u201D"}))
    return Factor{Unit::inch, 1};
  const std::string word = small_letters(scanner.letters());
  if (word == "in" || word == "inch" || word == "inches") return Factor{Unit::inch, 1};
  if (word == "mm" || word == "millimetre" || word == "millimetres") return Factor{Unit::millimetre, 1};
  if (word == "millimeter" || word == "millimeters") return Factor{Unit::millimetre, 1};
  if (word == "cm" || word == "centimetre" || word == "centimetres") return Factor{Unit::millimetre, 10};
  if (word == "centimeter" || word == "centimeters") return Factor{Unit::millimetre, 10};
  scanner.back_to(start);
  return std::nullopt;
}

struct Bare {
  Rational value = 0;
  std::string trouble;
  bool found = false;
};

Bare found(Rational value) { return {std::move(value), {}, true}; }
Bare refused(std::string trouble) { return {0, std::move(trouble), true}; }

Bare too_long(std::string_view digits) {
  return refused(in_quotes(digits.substr(0, 12)) + " goes on for more than " + std::to_string(most_digits) +
                 " digits. Write it shorter.");
}

Bare divide(std::string_view over, std::string_view under, const Rational& whole, bool mixed) {
  if (over.size() > most_digits) return too_long(over);
  if (under.size() > most_digits) return too_long(under);
  const Integer n = whole_number(over);
  const Integer d = whole_number(under);
  const std::string shown = std::string(over) + "/" + std::string(under);
  if (d == 0)
    return refused(in_quotes(shown) + " divides by 0. The lower number of a fraction is at least 1.");
  if (mixed && n >= d) {
    return refused("The fraction after a whole number is less than 1, but " + in_quotes(shown) +
                   " is not. Write the whole number and the fraction that is left.");
  }
  return found(whole + Rational(n) / Rational(d));
}

Bare bare_number(Scanner& scanner) {
  if (const auto vulgar = scanner.vulgar()) return found(*vulgar);
  const std::size_t start = scanner.at();
  const std::string_view whole = scanner.digits();
  const std::size_t after_whole = scanner.at();
  if (scanner.take(".")) {
    const std::string_view places = scanner.digits();
    if (!places.empty()) {
      if (whole.size() + places.size() > most_digits) return too_long(scanner.since(start));
      const std::string all = std::string(whole) + std::string(places);
      return found(Rational(whole_number(all)) / power_of_ten(places.size()));
    }
    scanner.back_to(after_whole);
  }
  if (whole.empty()) {
    scanner.back_to(start);
    return {};
  }
  if (take_bar(scanner)) {
    const std::string_view under = scanner.digits();
    if (!under.empty()) return divide(whole, under, 0, false);
    scanner.back_to(after_whole);
  }
  if (whole.size() > most_digits) return too_long(whole);
  const Rational value{whole_number(whole)};
  if (const auto fraction = fraction_after_whole(scanner)) {
    if (fraction->vulgar) return found(value + *fraction->vulgar);
    return divide(fraction->over, fraction->under, value, true);
  }
  return found(value);
}

}  // namespace

NumberScan scan_number(std::string_view text, Unit unit) {
  Scanner scanner(text);
  Bare number = bare_number(scanner);
  NumberScan scan;
  if (!number.found) return scan;
  const auto factor = take_unit(scanner);
  scan.bytes = scanner.at();
  scan.trouble = std::move(number.trouble);
  if (!scan.trouble.empty()) return scan;
  scan.names_unit = factor.has_value();
  scan.value = factor ? convert(Rational(number.value * factor->tenfold), factor->unit, unit) : number.value;
  return scan;
}

}  // namespace evenmat
