// Words of messages: the nearest of a list, quoting, and counting characters.
#include "model/words.h"

#include <algorithm>
#include <random>

#include "tests/catch.h"

using namespace evenmat;

namespace {

// The same distance from its definition, cell by cell.
std::size_t slips(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> table(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        table[i][j] = i + j;
        continue;
      }
      table[i][j] =
          std::min({table[i - 1][j] + 1, table[i][j - 1] + 1, table[i - 1][j - 1] + (a[i - 1] != b[j - 1])});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        table[i][j] = std::min(table[i][j], table[i - 2][j - 2] + 1);
      }
    }
  }
  return table[a.size()][b.size()];
}

}  // namespace

TEST_CASE("the nearest word takes the fewest slips") {
  CHECK(nearest("frunt", {"back", "front", "inside"}) == "front");
  CHECK(nearest("isnide", {"inside front", "inside"}) == "inside");
  CHECK(nearest("FRONT", {"from", "front"}) == "front");
  CHECK(nearest("x", {}).empty());
  CHECK(nearest("", {"abc", "ab"}) == "ab");
  CHECK(nearest("aa", {"ab", "ac"}) == "ab");
  std::mt19937 random(7);
  const auto word = [&] {
    std::string text(random() % 12, 'a');
    for (char& c : text) c = static_cast<char>('a' + random() % 3);
    return text;
  };
  for (int round = 0; round < 2000; ++round) {
    const std::string typed = word();
    std::vector<std::string> words;
    for (int i = 0; i < 5; ++i) words.push_back(word());
    const auto best = std::min_element(words.begin(), words.end(), [&](const auto& a, const auto& b) {
      return slips(typed, a) < slips(typed, b);
    });
    INFO(typed);
    CHECK(nearest(typed, words) == *best);
  }
}

TEST_CASE("an offer tells a likely word from a far one") {
  CHECK(offer("frunt", {"front"}) == " Did you mean \"front\"?");
  CHECK(offer("zzzzz", {"front"}) == " The nearest is \"front\".");
  CHECK(offer("x", {}).empty());
}

TEST_CASE("quotes keep a message on one line") {
  CHECK(in_quotes("a\nb\tc") == "\"a b c\"");
  CHECK(characters(in_quotes(std::string(1000, 'x'))) == 65);
  CHECK(in_quotes("caf\u00E9") == "\"caf\u00E9\"");
}

TEST_CASE("characters are counted and not bytes") {
  CHECK(characters("caf\u00E9") == 4);
  CHECK(characters("") == 0);
  CHECK(trimmed(" \t\u00A0x y\r\n ") == "x y");
  CHECK(either({"a"}) == "\"a\"");
  CHECK(either({"a", "b", "c"}) == "\"a\", \"b\" or \"c\"");
}
