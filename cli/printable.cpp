#include "cli/printable.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace evenmat {
namespace {

struct Character {
  char32_t code = 0;
  std::size_t bytes = 0;  // 0: not UTF-8
};

// The character that `text` begins with, by the table of well-formed sequences in RFC 3629.
Character first_character(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const char32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < bytes) return {};
  char32_t code = lead & (0x7Fu >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0u) != 0x80) return {};
    code = (code << 6u) | (byte(i) & 0x3Fu);
  }
  constexpr std::array<char32_t, 5> least = {0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < least[bytes] || code > 0x10FFFF || surrogate) return {};
  return {code, bytes};
}

struct Span {
  char32_t first, last;
};
template <std::size_t N>
bool within(const std::array<Span, N>& spans, char32_t code) {
  return std::any_of(spans.begin(), spans.end(),
                     [&](const Span& s) { return s.first <= code && code <= s.last; });
}

// Controls, line separators, and the marks that turn the direction of what follows.
constexpr std::array<Span, 8> hidden = {{{0x00, 0x1F},
                                         {0x7F, 0x9F},
                                         {0x061C, 0x061C},
                                         {0x200E, 0x200F},
                                         {0x2028, 0x202E},
                                         {0x2066, 0x2069},
                                         {0xFEFF, 0xFEFF},
                                         {0xE0000, 0xE007F}}};
// Accents and joiners that take no column of their own (the common blocks).
constexpr std::array<Span, 6> joining = {{{0x0300, 0x036F},
                                          {0x0483, 0x0489},
                                          {0x1AB0, 0x1AFF},
                                          {0x200B, 0x200D},
                                          {0x20D0, 0x20FF},
                                          {0xFE00, 0xFE0F}}};
// Characters that terminals draw two columns wide (the blocks of Unicode's East Asian Width "W" and "F").
constexpr std::array<Span, 9> wide = {{{0x1100, 0x115F},
                                       {0x2E80, 0x303E},
                                       {0x3041, 0xA4CF},
                                       {0xAC00, 0xD7A3},
                                       {0xF900, 0xFAFF},
                                       {0xFE30, 0xFE6F},
                                       {0xFF00, 0xFF60},
                                       {0x1F300, 0x1FAFF},
                                       {0x20000, 0x3FFFD}}};

Glyph glyph_of(char32_t code, std::string_view bytes) {
  if (code == '\t') return {" ", 1};
  if (within(hidden, code)) {
    const std::string name = code == '\n'   ? "\\n"
                             : code == '\r' ? "\\r"
                             : code < 0x100 ? fmt::format("\\x{:02x}", static_cast<unsigned>(code))
                                            : fmt::format("\\u{:04x}", static_cast<unsigned>(code));
    return {name, static_cast<int>(name.size())};
  }
  return {std::string(bytes), within(joining, code) ? 0 : within(wide, code) ? 2 : 1};
}

std::string joined(const std::vector<Glyph>& all) {
  std::string text;
  for (const Glyph& glyph : all) text += glyph.shown;
  return text;
}

int columns_of(const std::vector<Glyph>& all) {
  int sum = 0;
  for (const Glyph& glyph : all) sum += glyph.columns;
  return sum;
}

}  // namespace

std::vector<Glyph> glyphs(std::string_view text) {
  std::vector<Glyph> all;
  while (!text.empty()) {
    const Character next = first_character(text);
    if (next.bytes == 0) {
      all.push_back({fmt::format("\\x{:02x}", static_cast<unsigned char>(text[0])), 4});
      text.remove_prefix(1);
    } else {
      all.push_back(glyph_of(next.code, text.substr(0, next.bytes)));
      text.remove_prefix(next.bytes);
    }
  }
  return all;
}

std::size_t byte_of(std::string_view text, std::size_t index) {
  std::string_view rest = text;
  for (; index > 0 && !rest.empty(); --index) {
    rest.remove_prefix(std::max<std::size_t>(first_character(rest).bytes, 1));
  }
  return text.size() - rest.size();
}

std::string printable(std::string_view text) { return joined(glyphs(text)); }

int columns(std::string_view text) { return columns_of(glyphs(text)); }

std::string shortened(std::string_view text, int most) {
  const std::vector<Glyph> all = glyphs(text);
  if (columns_of(all) <= most) return joined(all);
  const int tail_room = (most - 3) / 2;
  const int head_room = most - 3 - tail_room;
  std::string head;
  int used = 0;
  for (const Glyph& glyph : all) {
    if (used + glyph.columns > head_room) break;
    used += glyph.columns;
    head += glyph.shown;
  }
  std::string tail;
  used = 0;
  for (std::size_t i = all.size(); i-- > 0 && used + all[i].columns <= tail_room;) {
    used += all[i].columns;
    tail.insert(0, all[i].shown);
  }
  return head + "..." + tail;
}

std::string padded(std::string text, int width) {
  const int missing = width - columns(text);
  if (missing > 0) text.append(static_cast<std::size_t>(missing), ' ');
  return text;
}

std::string wrapped(std::string_view text, int width, int indent, int start) {
  std::string out;
  int at = start;
  bool fresh = true;  // nothing on this line yet
  const auto new_line = [&] {
    out += '\n';
    out.append(static_cast<std::size_t>(indent), ' ');
    at = indent;
    fresh = true;
  };
  const auto put_word = [&](const std::vector<Glyph>& word) {
    if (!fresh && at + 1 + columns_of(word) > width) new_line();
    if (!fresh) {
      out += ' ';
      ++at;
    }
    for (const Glyph& glyph : word) {
      if (at + glyph.columns > width && at > indent) new_line();
      out += glyph.shown;
      at += glyph.columns;
      fresh = false;
    }
  };
  std::vector<Glyph> word;
  for (Glyph& glyph : glyphs(text)) {
    if (glyph.shown != " ") {
      word.push_back(std::move(glyph));
    } else if (!word.empty()) {
      put_word(word);
      word.clear();
    }
  }
  if (!word.empty()) put_word(word);
  return out;
}

}  // namespace evenmat
