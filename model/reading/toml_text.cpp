#include "model/reading/toml_text.h"

#include <algorithm>

namespace evenmat::reading {
namespace {

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }
bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

bool is_bare_key_character(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '-';
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

// Where the list or table ends that begins at `at`.
std::size_t bracket_end(std::string_view text, std::size_t at) {
  int depth = 0;
  while (at < text.size()) {
    const char c = text[at];
    if (c == '"' || c == '\'') {
      at += string_bytes(text.substr(at), quotes_of(text.substr(at)));
      continue;
    }
    if (c == '#') at = std::min(text.find('\n', at), text.size() - 1);
    if (c == '[' || c == '{') ++depth;
    if (c == ']' || c == '}') --depth;
    ++at;
    if (depth == 0) break;
  }
  return at;
}

}  // namespace

std::size_t byte_of(std::string_view text, Spot spot) {
  std::size_t at = 0;
  for (int line = 1; line < spot.line; ++line) at = text.find('\n', at) + 1;
  for (int column = 1; column < spot.column; ++column) {
    ++at;
    while (at < text.size() && continues_character(text[at])) ++at;
  }
  return at;
}

std::string_view quotes_of(std::string_view token) {
  for (const std::size_t size : {std::size_t{3}, std::size_t{1}}) {
    const std::string_view mark = token.substr(0, size);
    if (mark == std::string_view("\"\"\"").substr(0, size) || mark == std::string_view("'''").substr(0, size))
      return mark;
  }
  return {};
}

std::size_t key_end(std::string_view text, std::size_t begin) {
  const std::string_view rest = text.substr(begin);
  if (const std::string_view quotes = quotes_of(rest); !quotes.empty())
    return begin + string_bytes(rest, quotes.substr(0, 1));
  std::size_t end = begin;
  while (end < text.size() && is_bare_key_character(text[end])) ++end;
  return end;
}

std::size_t value_end(std::string_view text, std::size_t begin) {
  const std::string_view rest = text.substr(begin);
  if (const std::string_view quotes = quotes_of(rest); !quotes.empty())
    return begin + string_bytes(rest, quotes);
  if (rest.starts_with('[') || rest.starts_with('{')) return bracket_end(text, begin);
  std::size_t end = begin + std::min(rest.find_first_of(",]}#\r\n"), rest.size());
  while (end > begin && (text[end - 1] == ' ' || text[end - 1] == '\t')) --end;
  return end;
}

std::size_t blanks_end(std::string_view text, std::size_t from) {
  return std::min(text.find_first_not_of(" \t", from), text.size());
}

std::string quoted(std::string_view value, std::string_view old) {
  const std::string_view quotes = quotes_of(old);
  const bool many_lines = quotes.size() == 3;
  const std::string_view line_end = old.find("\r\n") != std::string_view::npos ? "\r\n" : "\n";
  if (quotes.starts_with('\'') && fits_literal(value, quotes))
    return std::string(quotes) + with_line_ends(value, line_end) + std::string(quotes);
  const std::string_view marks = many_lines ? "\"\"\"" : "\"";
  return std::string(marks) + escaped(value, many_lines ? line_end : std::string_view()) + std::string(marks);
}

}  // namespace evenmat::reading
