// Card files spoilt at random: the reading answers each with a card or with mistakes, and never breaks.
#include <nlohmann/json.hpp>
#include <random>

#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string whole_language = R"(title = "Kite day"
unit  = "in"
mark  = "1/16"
cards = 12
spare = 1
rules = ["word.bottom <= kite.bottom - 1/4 or kite.left >= 2 * word.width", "front.width = 4.25"]

[base]
fold     = "side"
front    = "4 1/4 x 5 1/2"
cut-back = { edge = "right", by = "1/2 to 1" }
paper    = "ivory"
scores   = ["2"]

[[layer]]
name = "mat"
role = "mat"
on   = "front"
border = "1/16 to 3/16, about 1/8"
paper  = "sky"

[[window]]
name = "sun"
in = "mat"
size = "1 x 1"
frame = "at least 1/4"
align = "top right"

[[layer]]
name = "word"
on   = "mat"
artwork = "1 7/8 x 1/2"
margin  = { left = "at least 1/8", down = 0.25 }
align   = "left centre"

[[layer]]
name = "kite"
on   = "mat"
width = "one of 1, 1 1/2"
height = "same as word"
tilt   = 5
clear-of  = ["word"]
clearance = "1/8"
below = "sun"
gap = "even"
raised = "1/16"
adhesive = 0.005

[[layer]]
name = "strip"
on = "reveal"
border = { across = "even" }
tuck = "at least 1/8"

[[paper]]
name = "ivory"
sheet = "us letter turned"
have = 3
weight = "80 lb cover"
thickness = "11 pt"

[[variant]]
name = "for the club"
cards = 4
set = { "word.artwork" = "1 3/4 x 3/8", "mat.border.left" = 1 }
without = ["strip"]

[mail]
envelope = ["us A2", "4 3/8 x 5 3/4"]
post = ["upu", "usps"]

[limit]
thickness = "1/4"

[allowance]
doors = "1/16"
fold = "0.2 mm"
envelope = 0
)";

// The same card with doors: unequal ones, cut back and scored once more.
std::string with_doors() {
  const std::string side = "fold     = \"side\"";
  std::string text = whole_language;
  text.replace(text.find(side), side.size(),
               "fold     = \"gate\"\nleaves   = [\"1 1/4\", \"4 1/4\", 2.75]\nopens    = \"right\"");
  return text;
}

class Spoiler {
 public:
  explicit Spoiler(unsigned seed) : random_(seed) {}

  std::string spoil(std::string text) {
    for (std::size_t i = below(4) + 1; i > 0 && !text.empty(); --i) once(text);
    return text;
  }

 private:
  std::size_t below(std::size_t size) { return random_() % size; }
  std::size_t place(const std::string& text) { return below(text.size() + 1); }

  // A line with its end, by where it begins and how long it is.
  std::pair<std::size_t, std::size_t> line(const std::string& text) {
    std::size_t begin = place(text);
    begin = begin == 0 ? 0 : text.rfind('\n', begin - 1) + 1;
    const std::size_t end = text.find('\n', begin);
    return {begin, end == std::string::npos ? text.size() - begin : end - begin + 1};
  }

  void once(std::string& text) {
    static const std::string bits[] = {"\"",
                                       "'",
                                       "[",
                                       "]",
                                       "[[",
                                       "{",
                                       "}",
                                       "=",
                                       ".",
                                       ",",
                                       "\n",
                                       "\\",
                                       "#",
                                       "\"\"\"",
                                       "1/0",
                                       "-",
                                       "9e99",
                                       "\xC3",
                                       "\xFF",
                                       std::string(1, '\0'),
                                       "\u00BC",
                                       " of ",
                                       "same as word",
                                       "front",
                                       "inside front",
                                       "99999999999999999999",
                                       "_",
                                       "at least ",
                                       " x ",
                                       "center",
                                       "nan",
                                       "0x",
                                       "true",
                                       "1979-05-27"};
    switch (below(7)) {
      case 0:
        text[below(text.size())] = static_cast<char>(below(256));
        break;
      case 1:
        text.insert(place(text), bits[below(std::size(bits))]);
        break;
      case 2:
        text.erase(below(text.size()), below(12) + 1);
        break;
      case 3: {
        const auto [begin, size] = line(text);
        text.erase(begin, size);
        break;
      }
      case 4: {
        const auto [begin, size] = line(text);
        text.insert(line(text).first, text.substr(begin, size));
        break;
      }
      case 5:
        text.resize(place(text));
        break;
      default: {  // one value in the place of another
        const std::size_t from = text.find('"', below(text.size()));
        const std::size_t to = text.find('"', below(text.size()));
        if (from == std::string::npos || to == std::string::npos) break;
        const std::string value = text.substr(from, text.find('"', from + 1) - from);
        text.replace(to, text.find('"', to + 1) - to, value);
      }
    }
  }

  std::mt19937 random_;
};

}  // namespace

TEST_CASE("spoilt card files are answered with a card or with mistakes") {
  const std::string doors = with_doors();
  REQUIRE(card_of(whole_language).design.pieces.size() == 5);
  REQUIRE(card_of(doors).design.pieces.size() == 5);
  int cards = 0;
  int refused = 0;
  for (unsigned seed = 0; seed < 6000; ++seed) {
    const std::string text = Spoiler(seed).spoil(seed % 3 == 0 ? doors : whole_language);
    const CardReading reading = read_card(text);
    INFO("seed " << seed << "\n" << text);
    REQUIRE(reading.card.has_value() == reading.mistakes.empty());
    REQUIRE(std::is_sorted(reading.mistakes.begin(), reading.mistakes.end(),
                           [](const Remark& a, const Remark& b) { return a.spot < b.spot; }));
    const int lines = static_cast<int>(std::count(text.begin(), text.end(), '\n')) + 1;
    for (const Remark& mistake : reading.mistakes) {
      REQUIRE(mistake.says.find_first_of("\n\r") == std::string::npos);
      REQUIRE(mistake.says.size() > 10);
      REQUIRE_NOTHROW(nlohmann::json(mistake.says).dump());  // valid UTF-8
      REQUIRE(mistake.spot.line >= 1);
      REQUIRE(mistake.spot.line <= lines);
      REQUIRE(mistake.spot.column >= 1);
    }
    ++(reading.card ? cards : refused);
  }
  // The spoiling is neither so light nor so heavy that only one of the two is tried.
  CHECK(cards > 200);
  CHECK(refused > 2000);
}

TEST_CASE("the same text is answered with the same mistakes") {
  for (unsigned seed = 0; seed < 200; ++seed) {
    const std::string text = Spoiler(seed).spoil(whole_language);
    const CardReading one = read_card(text);
    const CardReading other = read_card(text);
    REQUIRE(one.mistakes.size() == other.mistakes.size());
    for (std::size_t i = 0; i < one.mistakes.size(); ++i) {
      CHECK(one.mistakes[i].says == other.mistakes[i].says);
      CHECK(one.mistakes[i].spot == other.mistakes[i].spot);
    }
  }
}
