#include "model/words.h"

#include <algorithm>
#include <array>

namespace evenmat {
namespace {

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

// Names can be as long as the file; beyond this many bytes they are compared no further.
constexpr std::size_t most_compared = 32;

// Optimal string alignment distance (Damerau 1964: wrong, missing, surplus or swapped letters).
std::size_t slips(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t wrong = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      now[j] = std::min({wrong, last[j] + 1, now[j - 1] + 1});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, now);
  }
  return last[b.size()];
}

struct Found {
  std::string word;
  std::size_t slips = 0;
};

Found search(std::string_view typed, const std::vector<std::string>& words) {
  const std::string small = small_letters(typed.substr(0, most_compared));
  Found best;
  bool any = false;
  for (const std::string& word : words) {
    const std::string other = small_letters(std::string_view(word).substr(0, most_compared));
    const std::size_t longer = std::max(small.size(), other.size());
    const std::size_t shorter = std::min(small.size(), other.size());
    if (any && longer - shorter >= best.slips) continue;
    const std::size_t count = slips(small, other);
    if (!any || count < best.slips) best = {word, count};
    any = true;
  }
  return best;
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
