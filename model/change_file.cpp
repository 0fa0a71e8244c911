#include "model/change_file.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "model/reading/document.h"

namespace evenmat {
namespace {

using reading::Value;

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }
bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

// The text or number that begins at `spot`, within the value or the value itself. Nests no deeper than the
// reading of documents allows.
const Value* value_at(const Value& value, Spot spot) {  // NOLINT(misc-no-recursion)
  if (value.kind == Value::Kind::text || value.kind == Value::Kind::number)
    return value.spot == spot ? &value : nullptr;
  for (const Value& item : value.items)
    if (const Value* found = value_at(item, spot)) return found;
  for (const reading::Entry& entry : value.entries)
    if (const Value* found = value_at(entry.value, spot)) return found;
  return nullptr;
}

// The byte at which the character of a spot begins that is known to be in the text.
std::size_t byte_of(std::string_view text, Spot spot) {
  std::size_t at = 0;
  for (int line = 1; line < spot.line; ++line) at = text.find('\n', at) + 1;
  for (int column = 1; column < spot.column; ++column) {
    ++at;
    while (at < text.size() && continues_character(text[at])) ++at;
  }
  return at;
}

// The quotation marks that a TOML string begins with: one or three, of either kind.
std::string_view quotes_of(std::string_view token) {
  for (const std::size_t size : {std::size_t{3}, std::size_t{1}}) {
    const std::string_view mark = token.substr(0, size);
    if (mark == std::string_view("\"\"\"").substr(0, size) || mark == std::string_view("'''").substr(0, size))
      return mark;
  }
  return {};
}

// How many bytes the string takes that `text` begins with. Known to be whole.
std::size_t string_bytes(std::string_view text, std::string_view quotes) {
  const bool escapes = quotes.front() == '"';
  std::size_t at = quotes.size();
  while (at < text.size() && !text.substr(at).starts_with(quotes)) at += escapes && text[at] == '\\' ? 2 : 1;
  at += quotes.size();
  // Of five marks in a row the first two belong to the text.
  for (int more = 0; quotes.size() == 3 && more < 2 && at < text.size() && text[at] == quotes.front(); ++more)
    ++at;
  return std::min(at, text.size());
}

// A number that TOML reads as one: digits, with a sign or decimals where they are wanted.
bool is_bare_number(std::string_view text) {
  constexpr std::size_t most_digits = 18;  // of a whole number in 64 bits
  if (text.starts_with("-")) text.remove_prefix(1);
  const std::size_t point = std::min(text.find('.'), text.size());
  const std::string_view whole = text.substr(0, point);
  const std::string_view places = text.substr(std::min(point + 1, text.size()));
  const auto all_digits = [](std::string_view part) {
    return !part.empty() && std::all_of(part.begin(), part.end(), is_digit);
  };
  if (!all_digits(whole) || (whole.size() > 1 && whole.front() == '0')) return false;
  if (whole.size() + places.size() > most_digits) return false;
  return point == text.size() || all_digits(places);
}

// Literal strings have no escapes, so the text has to stand in them as it is.
bool fits_literal(std::string_view value, std::string_view quotes) {
  const bool many_lines = quotes.size() == 3;
  if (value.find('\'') != std::string_view::npos || value.starts_with('\n')) return false;
  return std::none_of(value.begin(), value.end(),
                      [&](char c) { return is_control(c) && c != '\t' && !(many_lines && c == '\n'); });
}

// `line_end`: what ends the lines of a text of many; empty to write the line ends as escapes.
std::string escaped(std::string_view value, std::string_view line_end) {
  constexpr std::string_view hexadecimal = "0123456789ABCDEF";
  std::string result;
  for (const char c : value) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      result += '\\';
      result += c;
    } else if (c == '\n') {
      // A line end right after the opening marks would not count.
      result += line_end.empty() || result.empty() ? "\\n" : line_end;
    } else if (is_control(c) && c != '\t') {
      result += "\\u00";
      result += hexadecimal[byte / 16];
      result += hexadecimal[byte % 16];
    } else {
      result += c;
    }
  }
  return result;
}

std::string with_line_ends(std::string_view value, std::string_view line_end) {
  std::string result;
  for (const char c : value) {
    if (c == '\n') {
      result += line_end;
    } else {
      result += c;
    }
  }
  return result;
}

// The value in quotes of the kind that `old` has.
std::string quoted(std::string_view value, std::string_view old) {
  const std::string_view quotes = quotes_of(old);
  const bool many_lines = quotes.size() == 3;
  const std::string_view line_end = old.find("\r\n") != std::string_view::npos ? "\r\n" : "\n";
  if (quotes.starts_with('\'') && fits_literal(value, quotes))
    return std::string(quotes) + with_line_ends(value, line_end) + std::string(quotes);
  const std::string_view marks = many_lines ? "\"\"\"" : "\"";
  return std::string(marks) + escaped(value, many_lines ? line_end : std::string_view()) + std::string(marks);
}

}  // namespace

std::optional<std::string> with_value(std::string_view file, Spot spot, std::string_view value) {
  const std::size_t mark = file.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  const std::string_view text = file.substr(mark);
  const reading::DocumentReading document = reading::read_document(text);
  if (!document.root) return std::nullopt;
  const Value* old = value_at(*document.root, spot);
  if (old == nullptr) return std::nullopt;
  const std::size_t begin = byte_of(text, spot);
  const bool number = old->kind == Value::Kind::number;
  const std::string_view rest = text.substr(begin);
  const std::size_t bytes = number ? old->text.size() : string_bytes(rest, quotes_of(rest));
  const std::string_view token = rest.substr(0, bytes);
  std::string result(file);
  result.replace(mark + begin, bytes,
                 number && is_bare_number(value) ? std::string(value) : quoted(value, token));
  return result;
}

}  // namespace evenmat
