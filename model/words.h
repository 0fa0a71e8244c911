// Quoting a maker's own words in a message and finding the nearest word to a mistyped one.
// No sentences about cards here.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace evenmat {

// How many characters (code points) UTF-8 text has; a stray byte counts as one.
std::size_t characters(std::string_view text);

// Without the blanks (space, tab, line end, no-break and thin spaces) at both ends.
std::string_view trimmed(std::string_view text);

// ASCII letters made small; other characters as they are.
std::string small_letters(std::string_view text);

// A name by which things are told apart: trimmed, ASCII letters small, single blanks.
std::string plain_name(std::string_view text);

// In double quotes, on one line, cut to about 60 characters: what a message shows of the file.
std::string in_quotes(std::string_view text);

// The word of `words` that takes the fewest slips (a letter wrong, missing, doubled or two swapped) to
// become `typed`; the earlier one where two are as near. Empty if `words` is.
std::string nearest(std::string_view typed, const std::vector<std::string>& words);

// A sentence that offers the nearest word: ` Did you mean "front"?`, or ` The nearest is "front".` when
// it is far off; empty if there are no words.
std::string offer(std::string_view typed, const std::vector<std::string>& words);

// `"a"`, `"a" or "b"`, `"a", "b" or "c"`.
std::string either(const std::vector<std::string>& words);

}  // namespace evenmat
