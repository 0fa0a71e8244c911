#include "cli/check/change_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <utility>

#include "cli/printable.h"
#include "cli/table.h"

namespace evenmat {
namespace {

// Two texts that are alike but for one part, with "..." for most of what is alike before and behind it.
std::pair<std::string, std::string> shortened_alike(std::string_view a, std::string_view b) {
  constexpr std::size_t kept = 12;  // bytes, and more up to the end of a word
  const auto before =
      static_cast<std::size_t>(std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first - a.begin());
  const std::size_t left = std::min(a.size(), b.size()) - before;
  const auto ends = std::mismatch(a.rbegin(), a.rbegin() + static_cast<std::ptrdiff_t>(left), b.rbegin());
  const auto behind = static_cast<std::size_t>(ends.first - a.rbegin());

  const std::size_t blank = before > kept ? a.rfind(' ', before - kept) : std::string_view::npos;
  const std::size_t first = blank == std::string_view::npos ? 0 : blank + 1;
  const std::size_t next = behind > kept ? a.find(' ', a.size() - behind + kept) : std::string_view::npos;
  const std::size_t cut = next == std::string_view::npos ? 0 : a.size() - next;
  const auto part = [&](std::string_view whole) {
    return (first > 0 ? "... " : "") + std::string(whole.substr(first, whole.size() - first - cut)) +
           (cut > 0 ? " ..." : "");
  };
  return {part(a), part(b)};
}

// The quotes around a value in the file; none around a bare number.
std::string_view quotes_at(const Source& source, const Spot& spot) {
  const std::string_view text = text_at(source, spot);
  return text.starts_with('\'') ? "'" : text.starts_with('"') ? "\"" : "";
}

}  // namespace

std::string change_text(const Source& source, const Change& change, int indent) {
  const std::string_view quotes = quotes_at(source, change.spot);
  const bool bare = change.to.find_first_not_of("0123456789.") == std::string::npos;
  const std::string_view new_quotes = !quotes.empty() ? quotes : bare ? "" : "\"";
  const std::string line = fmt::format("line {}: ", change.spot.line);
  const int start = indent + columns(line);
  const auto quoted = [](std::string_view with, const std::string& text) {
    return fmt::format("{0}{1}{0}", with, printable(text));
  };
  const auto fits = [&](const std::string& from, const std::string& to) {
    return start + columns(from) + 4 + columns(to) <= page_width;
  };
  std::string from = quoted(quotes, change.from);
  std::string to = quoted(new_quotes, change.to);
  if (!fits(from, to)) {
    const auto [short_from, short_to] = shortened_alike(change.from, change.to);
    from = quoted(quotes, short_from);
    to = quoted(new_quotes, short_to);
  }
  if (fits(from, to)) return line + from + " -> " + to;
  return line + wrapped(from, page_width, start, start) + "\n" + padded("", start - 3) + "-> " +
         wrapped(to, page_width, start, start);
}

}  // namespace evenmat
