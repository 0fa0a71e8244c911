#include "model/words.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace evenmat {
namespace {

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

// Names can be as long as the file; beyond this many bytes they are compared no further.
constexpr std::size_t most_compared = 64;

// Optimal string alignment distance (Damerau 1964: wrong, missing, surplus or swapped letters) from one
// text to many, by Hyyro's bit-vectors ("A bit-vector algorithm for computing Levenshtein and Damerau edit
// distances", 2003): a column of the table of distances is one machine word, so that a file full of wrong
// names is still told in no time.
class Slips {
 public:
  explicit Slips(std::string_view typed) : size_(typed.size()) {
    for (std::size_t i = 0; i < size_; ++i)
      at_[static_cast<unsigned char>(typed[i])] |= std::uint64_t{1} << i;
  }

  [[nodiscard]] std::size_t to(std::string_view other) const {
    if (size_ == 0) return other.size();
    // Bit i of rises (falls): the distance grows (shrinks) by 1 from row i to row i + 1 of the column.
    std::uint64_t rises = ~std::uint64_t{0};
    std::uint64_t falls = 0;
    std::uint64_t diagonal = 0;
    std::uint64_t before = 0;
    std::size_t distance = size_;
    const std::uint64_t last = std::uint64_t{1} << (size_ - 1);
    for (char c : other) {
      const std::uint64_t same = at_[static_cast<unsigned char>(c)];
      const std::uint64_t swapped = ((~diagonal & same) << 1) & before;
      diagonal = (((same & rises) + rises) ^ rises) | same | falls | swapped;
      std::uint64_t up = falls | ~(diagonal | rises);
      std::uint64_t down = diagonal & rises;
      if ((up & last) != 0) ++distance;
      if ((down & last) != 0) --distance;
      up = (up << 1) | 1;
      down <<= 1;
      rises = down | ~(diagonal | up);
      falls = up & diagonal;
      before = same;
    }
    return distance;
  }

 private:
  std::size_t size_;
  std::array<std::uint64_t, 256> at_{};  // of each byte the places where it stands
};

struct Found {
  std::string word;
  std::size_t slips = 0;
};

Found search(std::string_view typed, const std::vector<std::string>& words) {
  const Slips slips(small_letters(typed.substr(0, most_compared)));
  const std::string* best = nullptr;
  std::size_t least = 0;
  for (const std::string& word : words) {
    const std::size_t count = slips.to(small_letters(std::string_view(word).substr(0, most_compared)));
    if (best == nullptr || count < least) {
      best = &word;
      least = count;
    }
  }
  return best == nullptr ? Found{} : Found{*best, least};
}

}  // namespace

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !continues_character(c); }));
}

std::string_view trimmed(std::string_view text) {
  // No-break space, thin space and narrow no-break space come along when text is pasted.
  constexpr std::array<std::string_view, 8> blanks{" ", "\t", "\n", "\r", "\v", "\u00A0", "\u2009", "\u202F"};
  for (bool more = true; more;) {
    more = false;
    for (std::string_view blank : blanks) {
      if (text.starts_with(blank)) text.remove_prefix(blank.size()), more = true;
      if (text.ends_with(blank)) text.remove_suffix(blank.size()), more = true;
    }
  }
  return text;
}

std::string small_letters(std::string_view text) {
  std::string small(text);
  for (char& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return small;
}

std::string plain_name(std::string_view text) {
  std::string name;
  for (char c : small_letters(trimmed(text))) {
    const bool blank = c == ' ' || c == '\t';
    if (blank && name.ends_with(' ')) continue;
    name += blank ? ' ' : c;
  }
  return name;
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t most = 60;
  std::string shown = "\"";
  std::size_t count = 0;
  for (char c : text) {
    if (!continues_character(c) && ++count > most) {
      shown += "...";
      break;
    }
    const auto byte = static_cast<unsigned char>(c);
    shown += byte < 0x20 || byte == 0x7F ? ' ' : c;
  }
  return shown + '"';
}

std::string nearest(std::string_view typed, const std::vector<std::string>& words) {
  return search(typed, words).word;
}

std::string offer(std::string_view typed, const std::vector<std::string>& words) {
  if (words.empty()) return {};
  const Found found = search(typed, words);
  const std::size_t length = std::min(std::max(typed.size(), found.word.size()), most_compared);
  const bool near = 2 * found.slips <= length;
  return near ? " Did you mean " + in_quotes(found.word) + "?"
              : " The nearest is " + in_quotes(found.word) + ".";
}

std::string either(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) all += i + 1 == words.size() ? " or " : ", ";
    all += in_quotes(words[i]);
  }
  return all;
}

}  // namespace evenmat
