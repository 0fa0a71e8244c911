#include "model/reading/toml_number.h"

#include <algorithm>
#include <charconv>

#include "model/words.h"

namespace evenmat::reading {
namespace {

constexpr int most_exponent = 30;

PlainNumber refused(std::string_view written, const char* why) {
  return {{}, in_quotes(written) + why + " Write it in plain digits, such as 4.25."};
}

// The digits with the point moved `exponent` places to the right.
std::string shifted(const std::string& digits, std::size_t places, int exponent) {
  std::string whole = digits.substr(0, digits.size() - places);
  std::string part = digits.substr(digits.size() - places);
  for (; exponent > 0; --exponent) {
    whole += part.empty() ? '0' : part.front();
    if (!part.empty()) part.erase(0, 1);
  }
  for (; exponent < 0; ++exponent) {
    part.insert(part.begin(), whole.empty() ? '0' : whole.back());
    if (!whole.empty()) whole.pop_back();
  }
  // Zeros that the shift brought in front would count as digits.
  whole.erase(0, std::min(whole.find_first_not_of('0'), whole.size()));
  if (whole.empty()) whole = "0";
  return part.empty() ? whole : whole + "." + part;
}

}  // namespace

PlainNumber plain_number(std::string_view written) {
  std::string text;
  std::copy_if(written.begin(), written.end(), std::back_inserter(text), [](char c) { return c != '_'; });
  std::string sign;
  if (text.starts_with("-") || text.starts_with("+")) {
    if (text.front() == '-') sign = "-";
    text.erase(0, 1);
  }
  if (text == "inf" || text == "nan") return refused(written, " is not a number that can be measured.");
  if (text.size() > 1 && text[0] == '0' && std::string_view("xob").find(text[1]) != std::string_view::npos)
    return refused(written, " is not counted in tens.");
  const std::size_t mark = text.find_first_of("eE");
  if (mark == std::string::npos) return {sign + text, {}};
  std::string mantissa = text.substr(0, mark);
  const std::size_t after = mark + (text.compare(mark + 1, 1, "+") == 0 ? 2 : 1);
  int exponent = 0;
  const auto read = std::from_chars(text.data() + after, text.data() + text.size(), exponent);
  if (read.ec != std::errc{} || exponent > most_exponent || exponent < -most_exponent)
    return refused(written, " is too large or too small.");
  const std::size_t point = mantissa.find('.');
  const std::size_t places = point == std::string::npos ? 0 : mantissa.size() - point - 1;
  if (point != std::string::npos) mantissa.erase(point, 1);
  return {sign + shifted(mantissa, places, exponent), {}};
}

}  // namespace evenmat::reading
