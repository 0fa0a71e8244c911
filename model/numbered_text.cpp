#include "model/numbered_text.h"

#include <functional>
#include <map>
#include <string_view>

#include "model/number_scan.h"
#include "model/words.h"

namespace evenmat {
namespace {

constexpr std::string_view true_minus = "\u2212";

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

bool names_unit(std::string_view number) {
  if (number.starts_with("-") || number.starts_with("+")) {
    number.remove_prefix(1);
  } else if (number.starts_with(true_minus)) {
    number.remove_prefix(true_minus.size());
  }
  return scan_number(trimmed(number), Unit::inch).names_unit;
}

// Whether what is written now runs into what follows: `1-1/4` would be one number, and `4 inx5` is hard to
// read.
bool runs_into(std::string_view written, std::string_view after) {
  if (after.empty()) return false;
  if (is_digit(written.back())) return after.front() == '-';
  return is_letter(written.back()) && is_letter(after.front());
}

// Whether a fraction after this would be part of the whole number before the hyphen, as in `3-1/4`.
bool ends_as_mixed_number(std::string_view before) {
  return before.size() > 1 && before.back() == '-' && is_digit(before[before.size() - 2]);
}

// The sign that joins a constant to what is before it; empty where it is the first of its sum.
std::string_view sign_before(std::string_view before) {
  const std::string_view bare = trimmed(before);
  for (const std::string_view sign : {std::string_view("+"), std::string_view("-"), true_minus})
    if (bare.ends_with(sign)) return bare.substr(bare.size() - sign.size());
  return {};
}

// `text` with the sign at `sign` turned; `1+1/4` becomes `1 -1/4`, since `1-1/4` is one number.
void turn_sign(std::string& text, std::size_t begin, std::size_t bytes) {
  std::string turned = text.compare(begin, bytes, "+") == 0 ? "-" : "+";
  if (turned == "-" && begin > 0 && is_digit(text[begin - 1])) turned.insert(0, " ");
  text.replace(begin, bytes, turned);
}

std::string written_as(NumberPart part, const Rational& value, Unit unit) {
  const std::string thickness = part == NumberPart::thickness ? thickness_text(value, unit) : "about";
  return thickness.starts_with("about") ? stated_length(value, unit) : thickness;
}

}  // namespace

std::string with_numbers(const NumberedText& numbered,
                         const std::vector<std::pair<std::size_t, Rational>>& changed, Unit unit) {
  // The last first, so that the places of the others stay.
  std::map<std::size_t, Rational, std::greater<>> values;
  for (const auto& [place, value] : changed) values[place] = value;
  std::string text = numbered.text;
  for (auto [place, value] : values) {
    const NumberIn& number = numbered.numbers.at(place);
    const std::string_view sign = number.part == NumberPart::constant && value < 0
                                      ? sign_before(std::string_view(text).substr(0, number.begin))
                                      : std::string_view();
    if (!sign.empty()) value = -value;
    const bool parted = ends_as_mixed_number(std::string_view(text).substr(0, number.begin));
    const std::size_t bytes = number.end - number.begin;
    std::string written = (parted ? " " : "") + written_as(number.part, value, unit);
    if (names_unit(std::string_view(text).substr(number.begin, bytes)))
      written += " " + std::string(unit_name(unit));
    if (runs_into(written, std::string_view(text).substr(number.end))) written += ' ';
    const std::size_t sign_begin = sign.empty() ? 0 : static_cast<std::size_t>(sign.data() - text.data());
    const std::size_t sign_bytes = sign.size();
    text.replace(number.begin, bytes, written);
    if (sign_bytes > 0) turn_sign(text, sign_begin, sign_bytes);
  }
  return text;
}

std::string stated_length(const Rational& value, Unit unit) {
  std::string text = length_text(value, unit);
  return text.starts_with("about") ? fraction_text(value) : text;
}

NumberedText size_in_numbers(const Size& size, Unit unit) {
  const std::string width = stated_length(size.width, unit);
  const std::string height = stated_length(size.height, unit);
  NumberedText numbered{width + " x " + height, {}};
  numbered.numbers = {
      {NumberPart::width, size.width, 0, width.size()},
      {NumberPart::height, size.height, numbered.text.size() - height.size(), numbered.text.size()}};
  return numbered;
}

}  // namespace evenmat
