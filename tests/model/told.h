// What tests of mistakes share: a card file with a mistake, where it is told and in which words.
#pragma once

#include <string>
#include <vector>

#include "model/read_card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"

namespace evenmat::testing {

inline std::string told(const std::vector<Remark>& mistakes) {
  std::string all;
  for (const Remark& mistake : mistakes) {
    all += std::to_string(mistake.spot.line) + ":" + std::to_string(mistake.spot.column) + " " +
           mistake.says + "\n";
  }
  return all;
}

struct Expected {
  int line, column;
  std::vector<std::string> words;
};

inline void check(const std::string& text, const std::vector<Expected>& expected) {
  const CardReading reading = read_card(text);
  INFO(text << "\n" << told(reading.mistakes));
  CHECK_FALSE(reading.card);
  REQUIRE(reading.mistakes.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CHECK(reading.mistakes[i].spot == Spot{expected[i].line, expected[i].column});
    for (const std::string& words : expected[i].words) {
      INFO(words);
      CHECK(reading.mistakes[i].says.find(words) != std::string::npos);
    }
  }
}

// One mistake in keys that follow the base, the first of them on line 4.
inline void after_base(const std::string& keys, int line, int column, const std::vector<std::string>& words) {
  check(side_fold + keys, {{line, column, words}});
}

// One mistake in a key of a layer "it" that follows a layer "other"; the key stands on line 10.
inline void in_layer(const std::string& key, int column, const std::vector<std::string>& words) {
  check(side_fold +
            "[[layer]]\nname = \"other\"\non = \"front\"\n[[layer]]\nname = \"it\"\non = \"front\"\n" + key +
            "\n",
        {{10, column, words}});
}

// One mistake in a key of the base, on line 4.
inline void in_base(const std::string& key, int column, const std::vector<std::string>& words) {
  check(side_fold + key + "\n", {{4, column, words}});
}

// One mistake in a key at the top, on line 1.
inline void at_top(const std::string& key, int column, const std::vector<std::string>& words) {
  check(key + "\n" + side_fold, {{1, column, words}});
}

}  // namespace evenmat::testing
