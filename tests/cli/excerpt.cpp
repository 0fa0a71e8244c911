// Remarks with their line and a caret under the spot.
#include "cli/excerpt.h"

#include <algorithm>

#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;

namespace {

const Style plain;

// Its 51st character is near the end of the page.
const std::string far = std::string(50, '.') + "xyz\n";

std::string shown(std::string_view text, int line, int column) {
  return excerpt({"card.toml", text}, {{line, column}, "Not so."}, plain);
}

// The character above the caret.
std::string pointed_at(const std::string& excerpt_text) {
  const std::vector<std::string> all = testing::lines(excerpt_text);
  REQUIRE(all.size() == 3);
  const auto caret = static_cast<int>(all[2].find('^'));
  int column = 0;
  for (const Glyph& glyph : glyphs(all[1])) {
    if (column == caret) return glyph.shown;
    column += glyph.columns;
  }
  return "";
}

}  // namespace

TEST_CASE("an excerpt names the place, shows the line and points at the spot") {
  CHECK(shown("title = \"x\"\non = \"frunt\"\n", 2, 6) ==
        "card.toml:2:6: Not so.\n"
        "   2 | on = \"frunt\"\n"
        "     |      ^\n");
}

TEST_CASE("the caret stands under its character whatever is before it") {
  CHECK(pointed_at(shown("a\tbc", 1, 4)) == "c");
  CHECK(pointed_at(shown("Grüße! x", 1, 8)) == "x");
  CHECK(pointed_at(shown("灯籠 x", 1, 4)) == "x");
  CHECK(pointed_at(shown("e\xcc\x81 x", 1, 4)) == "x");
  CHECK(pointed_at(shown("\x1b[31m x", 1, 7)) == "x");
  CHECK(pointed_at(shown("\xff\xfe x", 1, 4)) == "x");
}

TEST_CASE("a long line is trimmed around the spot") {
  for (const int length : {60, 72, 73, 74, 100, 500, 200'000}) {
    for (const int column : {1, 2, 40, 70, 71, 72, 73, 99, 201, 400, 100'000, 200'000}) {
      if (column > length) continue;
      std::string text(static_cast<std::size_t>(length), '.');
      text[static_cast<std::size_t>(column) - 1] = 'x';
      const std::string told = shown(text, 1, column);
      INFO(told);
      CHECK(pointed_at(told) == "x");
      for (const std::string& line : testing::lines(told)) CHECK(columns(line) <= 80);
    }
  }
}

TEST_CASE("a spot past the end of its line points just behind it") {
  CHECK(shown("on =", 1, 9) == "card.toml:1:9: Not so.\n   1 | on =\n     |     ^\n");
  CHECK(shown("on =\r\n", 1, 5) == "card.toml:1:5: Not so.\n   1 | on =\n     |     ^\n");
}

TEST_CASE("without a place there is only the sentence") {
  CHECK(shown("x", 0, 0) == "card.toml: Not so.\n");
  CHECK(shown("x", 7, 1) == "card.toml:7:1: Not so.\n");
}

TEST_CASE("what was typed at the prompt has no line number") {
  CHECK(excerpt({"", "stack 1/l6"}, {{1, 7}, "Not so."}, plain) ==
        "Not so.\n"
        "  stack 1/l6\n"
        "        ^\n");
}

TEST_CASE("a file name cannot send anything to the terminal") {
  CHECK(excerpt({"a\x1b[2J", "x"}, {{0, 0}, "Not \x07so."}, plain) == "a\\x1b[2J: Not \\x07so.\n");
}

TEST_CASE("a sentence may stand behind its caret, and goes on below itself") {
  const Source source{"card.toml", "title = \"x\"\non = \"frunt\"\n"};
  CHECK(noted_line(source, {{2, 6}, "not so"}, plain) ==
        "   2 | on = \"frunt\"\n"
        "     |      ^ not so\n");
  CHECK(noted_line(source,
                   {{2, 6}, "a front and a back it has, and an inside too, but nothing that is called so"},
                   plain) ==
        "   2 | on = \"frunt\"\n"
        "     |      ^ a front and a back it has, and an inside too, but nothing that is\n"
        "     |        called so\n");
}

TEST_CASE("far to the right a sentence goes below the caret, unless it is short") {
  const Source source{"card.toml", far};
  CHECK(noted_line(source, {{1, 51}, "not so"}, plain) ==
        "   1 | " + far + "     | " + std::string(50, ' ') + "^ not so\n");
  CHECK(noted_line(source, {{1, 51}, "a front and a back it has, but nothing that is called so"}, plain) ==
        "   1 | " + far + "     | " + std::string(50, ' ') +
            "^\n     | a front and a back it has, but nothing that is called so\n");
}

TEST_CASE("a sentence without a place stands alone") {
  CHECK(noted_line({"card.toml", "x"}, {{}, "Not so."}, plain) == "  Not so.\n");
  CHECK(noted_line({"card.toml", "x"}, {{7, 1}, "Not so."}, plain) == "  Not so.\n");
}

TEST_CASE("the text at a spot is found by characters") {
  const Source source{"card.toml", "a = 1\ngröße = 'x'\n"};
  CHECK(text_at(source, {2, 9}) == "'x'\n");
  CHECK(text_at(source, {1, 1}) == source.text);
  CHECK(text_at(source, {2, 99}) == "\n");
  CHECK(text_at(source, {9, 1}).empty());
  CHECK(text_at(source, {}).empty());
}

TEST_CASE("very many mistakes are counted") {
  const std::vector<Remark> many(60, Remark{{1, 1}, "Not so."});
  const std::vector<std::string> all = testing::lines(excerpts({"c", "x"}, many, plain));
  CHECK(all.back() == "and 10 more; --json tells all.");
  CHECK(std::count(all.begin(), all.end(), "c:1:1: Not so.") == 50);
}
