// A card file with one value changed: the new value is there, and every other byte is as it was.
#include "model/change_file.h"

#include "model/card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// The spot right after the first place where `before` stands.
Spot spot_of(std::string_view file, std::string_view before) {
  const std::size_t at = file.find(before);
  REQUIRE(at != std::string_view::npos);
  const std::string_view head = file.substr(0, at + before.size());
  const std::size_t line_end = head.rfind('\n');
  std::string_view line = line_end == std::string_view::npos ? head : head.substr(line_end + 1);
  if (line_end == std::string_view::npos && line.starts_with("\xEF\xBB\xBF")) line.remove_prefix(3);
  int column = 1;
  for (char c : line) column += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  return {static_cast<int>(std::count(head.begin(), head.end(), '\n')) + 1, column};
}

// The file with the value after `before` changed.
std::string changed(std::string_view file, std::string_view before, std::string_view value) {
  const auto result = with_value(file, spot_of(file, before), value);
  INFO(file);
  REQUIRE(result);
  return *result;
}

// Every kind of place that a wish, size or rule may have.
const std::string whole_card = R"(title = "Kite day"  # the club's
rules = ["word.bottom <= kite.bottom - 1/4 or kite.left >= 2 * word.width",
  'front.width >= 4', """
  strip.left >= front.right - 3 and
  word.left >= 1/64 in
""", '''
word.top >= 0''']

[base]
fold     = "side"
front    = 'us A2'
cut-back = { edge = "right", by = "1/2 to 1" }

[[layer]]
name = "mat"
on   = "front"
border = '''1/16 to 3/16, about 1/8''' # "1/8"

[[window]]
name = "sun"
in = "mat"
size = '1" x 1"'
frame = "at least 1/4"

[[layer]]
name = "word"
on   = "mat"
artwork = "1 7/8 x 1/2"
margin  = { left = "at least 1/8", down = 0.25 }

[[layer]]
name = "kite"
on   = "mat"
width = "one of 1, 1 1/2\u0020"
height = 1.5
from-left = -0.25
clear-of  = ["word"]
clearance = """1/8"""
below = "sun"
gap = "at least 1/8\""
raised = '1/16 in'
adhesive = 0.005

[[layer]]
name = "strip"
on = "reveal"
border = { "across" = "even, at least 0" }
height = 2

[[paper]]
name = "ivory"
sheet = "iso A4 turned"

[limit]
thickness = "6 mm"  # of a letter

[[variant]]
name = "for the club"
set = { "word.artwork" = "1 3/4 x 3/8", "mat.border.left" = "1/8", 'kite.height' = '1', "limit.thickness" = 0.25 }
)";

std::string replaced(std::string text, std::string_view old, std::string_view now) {
  for (std::size_t at = text.find(old); at != std::string::npos; at = text.find(old, at + now.size()))
    text.replace(at, old.size(), now);
  return text;
}

// The same card as other editors and hands would have saved it.
std::vector<std::string> as_saved() {
  const std::string windows = replaced(whole_card, "\n", "\r\n");
  const std::string tabs = replaced(replaced(whole_card, " = ", "\t=\t"), ", ", ",\t");
  const std::string accents = replaced(replaced(whole_card, "\"mat", "\"m\u00E4t \u2713 \U0001F389"),
                                       "'kite.height'", "'kite.height' ");
  return {whole_card, windows, "\xEF\xBB\xBF" + whole_card, "\xEF\xBB\xBF" + windows, tabs, accents};
}

// A text of the card that may be changed, and what can be compared of it.
struct Held {
  Spot spot;
  NumberedText numbered;
};

void hold(std::vector<Held>& held, const std::optional<Wish>& wish) {
  if (wish) held.push_back({wish->spot, wish->numbered});
}
void hold(std::vector<Held>& held, const std::optional<StatedSize>& size) {
  if (size) held.push_back({size->spot, size->numbered});
}
void hold(std::vector<Held>& held, const std::optional<StatedLength>& length) {
  if (length) held.push_back({length->spot, length->numbered});
}
void hold(std::vector<Held>& held, const SideWishes& sides) {
  for (const auto* wish :
       {&sides.all, &sides.left, &sides.right, &sides.top, &sides.bottom, &sides.across, &sides.down})
    hold(held, *wish);
}

std::vector<Held> all_held(const Card& card) {
  std::vector<Held> held;
  std::vector<const Design*> designs{&card.design};
  for (const Variant& variant : card.variants) designs.push_back(&variant.design);
  for (const Design* design : designs) {
    held.push_back({design->base.front.spot, design->base.front.numbered});
    if (design->base.cut_back) hold(held, design->base.cut_back->by);
    for (const Piece& piece : design->pieces) {
      for (const SideWishes* sides : {&piece.border, &piece.margin}) hold(held, *sides);
      hold(held, piece.size);
      hold(held, piece.artwork);
      hold(held, piece.raised);
      hold(held, piece.adhesive);
      for (const auto* wish :
           {&piece.width, &piece.height, &piece.from_left, &piece.from_right, &piece.from_top,
            &piece.from_bottom, &piece.gap, &piece.clearance, &piece.overhang, &piece.tuck, &piece.frame})
        hold(held, *wish);
    }
    hold(held, design->limit.thickness);
    for (const Statement& rule : design->rules) held.push_back({rule.spot, rule.numbered});
  }
  for (const Paper& paper : card.papers) hold(held, paper.sheet);
  return held;
}

bool same_numbers(const NumberedText& a, const NumberedText& b) {
  return std::equal(a.numbers.begin(), a.numbers.end(), b.numbers.begin(), b.numbers.end(),
                    [](const NumberIn& one, const NumberIn& other) {
                      return one.part == other.part && one.value == other.value;
                    });
}

std::size_t byte_of(const std::string& file, Spot spot) {
  std::size_t at = file.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  for (int line = 1; line < spot.line; ++line) at = file.find('\n', at) + 1;
  for (int column = 1; column < spot.column; ++column)
    for (++at; (static_cast<unsigned char>(file[at]) & 0xC0U) == 0x80U;) ++at;
  return at;
}

// How far the value reaches; the card above has no value that holds its own quotes.
std::size_t value_bytes(std::string_view rest) {
  for (const char* quotes : {"\"\"\"", "'''", "\"", "'"}) {
    const std::string_view marks = quotes;
    if (rest.starts_with(marks)) return rest.find(marks, marks.size()) + marks.size();
  }
  return rest.find_first_not_of("0123456789.-");
}

// A value near the old one that keeps each wish of the card well.
Rational near_by(const NumberIn& number) {
  const Rational step = part(1, 64);
  return number.part == NumberPart::at_least && number.value > step ? Rational(number.value - step)
                                                                    : Rational(number.value + step);
}

}  // namespace

TEST_CASE("the quotes of a value stay as they were") {
  CHECK(changed("a = \"1/8\" # why\n", "a = ", "3/16") == "a = \"3/16\" # why\n");
  CHECK(changed("a = '1/8'\n", "a = ", "3/16") == "a = '3/16'\n");
  CHECK(changed("a = '4\"'\n", "a = ", "5\"") == "a = '5\"'\n");
  CHECK(changed("a = \"4\\\"\" \n", "a = ", "5\" \\") == "a = \"5\\\" \\\\\" \n");
  CHECK(changed("a = \"\"\"1/8\"\"\"", "a = ", "2") == "a = \"\"\"2\"\"\"");
  CHECK(changed("a = '''1/8'''", "a = ", "2") == "a = '''2'''");
  CHECK(changed("a = \"\"\n", "a = ", "2") == "a = \"2\"\n");
  CHECK(changed("a = ''\n", "a = ", "2") == "a = '2'\n");
}

TEST_CASE("a text that single quotes cannot hold is written in double ones") {
  CHECK(changed("a = 'x'\n", "a = ", "'it'.left") == "a = \"'it'.left\"\n");
  CHECK(changed("a = '''x'''\n", "a = ", "it's \"so\"") == "a = \"\"\"it's \\\"so\\\"\"\"\"\n");
  CHECK(changed("a = 'x'\n", "a = ", "1\n2") == "a = \"1\\n2\"\n");
}

TEST_CASE("the end of a text is found past quotes and escapes in it") {
  CHECK(changed("a = [\"x\\\\\", \"y\\\"]\"]\n", "a = [", "2") == "a = [\"2\", \"y\\\"]\"]\n");
  CHECK(changed("a = [\"x\\\\\", \"y\\\"]\"]\n", ", ", "2") == "a = [\"x\\\\\", \"2\"]\n");
  CHECK(changed("a = ['x\\', 'y']\n", "a = [", "2") == "a = ['2', 'y']\n");
  CHECK(changed("a = [\"\"\"x\"y\"\"\\\"\"\"\"\"\", 1]\n", "a = [", "2") == "a = [\"\"\"2\"\"\", 1]\n");
  CHECK(changed("a = ['''x'y''''', 1]\n", "a = [", "2") == "a = ['''2''', 1]\n");
  CHECK(changed("a = [\"\"\"\"\"\", 1]\n", "a = [", "2") == "a = [\"\"\"2\"\"\", 1]\n");
}

TEST_CASE("a bare number stays bare where the new text is one") {
  CHECK(changed("a = 4.25\n", "a = ", "4.5") == "a = 4.5\n");
  CHECK(changed("a = 4.25", "a = ", "4") == "a = 4");
  CHECK(changed("a = [-1_0e-1, 2]\n", "a = [", "-0.5") == "a = [-0.5, 2]\n");
  CHECK(changed("a = {b = +4}\n", "b = ", "4 1/8") == "a = {b = \"4 1/8\"}\n");
  for (const char* text : {"04", "4.", ".5", "1/2", "", "-", "-.5", "1e3", "4 in", "1234567890123456789"}) {
    INFO(text);
    CHECK(changed("a = 4 # four\n", "a = ", text) == "a = \"" + std::string(text) + "\" # four\n");
  }
}

TEST_CASE("where no text or number begins nothing is changed") {
  const std::string file =
      "# \"1\"\n\"a b\" = \"it \\\" 2 '3'\"\nc = 1979-05-27\nd = true\ne = [1, 2]\nf = { g = 3 }\n12 = '4'\n";
  int values = 0;
  for (int line = -1; line < 12; ++line) {
    for (int column = -1; column < 30; ++column) values += with_value(file, {line, column}, "9") ? 1 : 0;
  }
  CHECK(values == 5);
  for (const Spot spot : {spot_of(file, "\"a b\" = "), spot_of(file, "e = ["), spot_of(file, "[1, "),
                          spot_of(file, "g = "), spot_of(file, "12 = ")})
    CHECK(with_value(file, spot, "9"));
  CHECK_FALSE(with_value("", {1, 1}, "9"));
  CHECK_FALSE(with_value("a = \"1\nb = 2\n", {2, 5}, "9"));  // no TOML
  CHECK_FALSE(with_value("a = \"\xFF\"\nb = 2\n", {2, 5}, "9"));
}

TEST_CASE("a text of many lines keeps the line ends of its file") {
  const std::string file = "a = '''x'''\nb = \"\"\"\nx\ny\"\"\"\n";
  CHECK(changed(file, "b = ", "x\nz") == "a = '''x'''\nb = \"\"\"x\nz\"\"\"\n");
  CHECK(changed(file, "a = ", "x\nz") == "a = '''x\nz'''\nb = \"\"\"\nx\ny\"\"\"\n");
  CHECK(changed("b = \"\"\"\r\nx\r\ny\"\"\"\r\n", "b = ", "x\nz") == "b = \"\"\"x\r\nz\"\"\"\r\n");
  CHECK(changed(file, "b = ", "\nz") == "a = '''x'''\nb = \"\"\"\\nz\"\"\"\n");
}

TEST_CASE("a card changed in one number differs in that value only and reads back with it") {
  int changes = 0;
  for (const std::string& file : as_saved()) {
    const Card card = card_of(file);
    const std::vector<Held> before = all_held(card);
    REQUIRE(before.size() > 30);
    for (const Held& own : before) {
      for (std::size_t i = 0; i < own.numbered.numbers.size(); ++i) {
        const Rational value = near_by(own.numbered.numbers[i]);
        const std::string text = with_numbers(own.numbered, {{i, value}}, card.unit);
        const auto now = with_value(file, own.spot, text);
        INFO(own.spot.line << ":" << own.spot.column << " " << own.numbered.text << " -> " << text);
        REQUIRE(now);

        const std::size_t begin = byte_of(file, own.spot);
        const std::size_t end = begin + value_bytes(std::string_view(file).substr(begin));
        REQUIRE(now->size() + (end - begin) > file.size());
        REQUIRE(now->substr(0, begin) == file.substr(0, begin));
        REQUIRE(now->ends_with(file.substr(end)));

        const std::vector<Held> after = all_held(card_of(*now));
        REQUIRE(after.size() == before.size());
        for (std::size_t other = 0; other < before.size(); ++other) {
          NumberedText expected = before[other].numbered;
          if (before[other].spot == own.spot) {
            REQUIRE(expected.text == own.numbered.text);
            expected.numbers[i].value = value;
            REQUIRE(after[other].numbered.text == text);
          } else {
            REQUIRE(after[other].numbered.text == expected.text);
          }
          REQUIRE(same_numbers(after[other].numbered, expected));
        }
        ++changes;
      }
    }
  }
  CHECK(changes > 250);
}
