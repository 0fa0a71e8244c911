// Text that comes from outside, made safe and measured for a terminal: control characters made visible,
// bytes that are not UTF-8 shown as such, widths in columns. Nothing about cards lives here.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace evenmat {

// One character as it is shown, and the columns that takes (0 for an accent that joins the one before it).
struct Glyph {
  std::string shown;
  int columns = 1;
};

// One glyph for each character of `text`, or for each byte that is no part of one. A tab becomes a blank.
std::vector<Glyph> glyphs(std::string_view text);

// The byte with which glyph `index` of `text`, counted from 0, begins (its end if there are fewer).
std::size_t byte_of(std::string_view text, std::size_t index);

// `text` as it may be printed on one line.
std::string printable(std::string_view text);

// The columns that `printable(text)` takes.
int columns(std::string_view text);

// `printable(text)` in at most `most` columns (at least 5), the middle left out if need be: names that differ
// often do so at their ends.
std::string shortened(std::string_view text, int most);

// `text` with blanks added up to `width` columns.
std::string padded(std::string text, int width);

// The words of `text`, made printable, in lines of at most `width` columns, each after the first behind
// `indent` blanks. The first line begins at column `start`. Words longer than a line are broken. No line end
// at the end.
std::string wrapped(std::string_view text, int width, int indent = 0, int start = 0);

}  // namespace evenmat
