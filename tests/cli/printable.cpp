// Text from outside: made safe, measured, shortened and wrapped.
#include "cli/printable.h"

#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;

TEST_CASE("control characters and stray bytes are shown, not sent") {
  CHECK(printable("a\x1b]0;b\x07") == "a\\x1b]0;b\\x07");
  CHECK(printable("two\nlines\r") == "two\\nlines\\r");
  CHECK(printable("tab\there") == "tab here");
  CHECK(printable("\xff\xc3") == "\\xff\\xc3");
  CHECK(printable("\xe2\x80\xaeturned") == "\\u202eturned");
  CHECK(printable("\xc0\xaf") == "\\xc0\\xaf");           // too long a form of '/'
  CHECK(printable("\xed\xa0\x80") == "\\xed\\xa0\\x80");  // half of a pair
  CHECK(printable("Grüße") == "Grüße");
}

TEST_CASE("widths are counted in columns") {
  CHECK(columns("Grüße") == 5);
  CHECK(columns("e\xcc\x81") == 1);  // e and an accent that joins it
  CHECK(columns("灯籠") == 4);
  CHECK(columns("\x01") == 4);
  CHECK(columns("") == 0);
}

TEST_CASE("a glyph is found by its number") {
  CHECK(byte_of("aéb", 0) == 0);
  CHECK(byte_of("aéb", 2) == 3);
  CHECK(byte_of("aéb", 9) == 4);
  CHECK(byte_of("\xff\xff", 1) == 1);
}

TEST_CASE("long names keep both ends") {
  CHECK(shortened("edge strip", 10) == "edge strip");
  CHECK(shortened("edge strip 2", 10) == "edge...p 2");
  CHECK(columns(shortened("灯籠灯籠灯籠", 8)) <= 8);
}

TEST_CASE("words are wrapped within the width") {
  CHECK(wrapped("one two three", 8) == "one two\nthree");
  CHECK(wrapped("one two three", 8, 2) == "one two\n  three");
  CHECK(wrapped("one two", 12, 8, 8) == "one\n        two");
  CHECK(wrapped("abcdefghij", 4) == "abcd\nefgh\nij");
  CHECK(wrapped("", 10).empty());
  for (int width = 6; width < 30; ++width) {
    const std::string text =
        wrapped("the 灯籠灯籠 panel sits on an indigomatofgreatlength, by hand", width, 2, 2);
    for (const std::string& line : testing::lines("  " + text)) CHECK(columns(line) <= width);
  }
}
