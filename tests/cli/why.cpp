// Conflicts and what mends them, made by hand: what is told, how it is numbered, and that it fits the page.
#include "cli/check/why.h"

#include <algorithm>

#include "cli/check/change_text.h"
#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;

namespace {

const Style plain;

Rational eighths(int count) { return Rational(count) / 8; }

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

void check_fits(const std::string& text) {
  for (const std::string& line : testing::lines(text)) {
    INFO(line);
    CHECK(columns(line) <= 80);
    CHECK(printable(line) == line);
  }
}

// A strip too wide for its panel, with the file it is in.
struct Example {
  std::string text =
      "[[layer]]\n"
      "name = \"panel\"\n"
      "width = \"3\"\n"
      "[[layer]]\n"
      "name = \"strip\"\n"
      "width = 2.75\n"
      "border = { across = 'at least 1/4' }\n";
  Card card;
  Conflict conflict;
  CheckedCard checked;

  Example() {
    card.mark = eighths(1);
    conflict.rules = {{{3, 9}, "the width of panel is 3"},
                      {{6, 9}, "the width of strip is 2 3/4"},
                      {{7, 21}, "the border of strip, left and right, is at least 1/4"}};
    conflict.versions = {""};
    conflict.short_by = eighths(2);
    conflict.story = {
        {"panel is 3 wide.", {3, 9}, Rational(3), {}},
        {"strip is 2 3/4 wide.", {6, 9}, eighths(22), eighths(22)},
        {"The border of strip adds at least 1/4 on the left and on the right, which makes 3 1/4.",
         {7, 21},
         eighths(4),
         eighths(26)},
        {"That is 1/4 in too wide.", {}, eighths(2), {}}};
    conflict.changes = {{{7, 21},
                         "at least 1/4",
                         "at least 1/8",
                         eighths(-1),
                         "the border of strip 1/8 in less.",
                         true,
                         true},
                        {{3, 9}, "3", "3 1/4", eighths(2), "the width of panel 1/4 in more.", true, true},
                        {{6, 9}, "2.75", "2 1/2", eighths(-2), "", true, true}};
    checked.verdict = Verdict::conflict;
    checked.failing = {""};
    checked.conflicts = {conflict};
    checked.mend = {conflict.changes[1]};
  }

  [[nodiscard]] Source source() const { return {"card.toml", text}; }
  [[nodiscard]] std::string told(const Told& before = {}) const {
    return conflict_text(source(), card, conflict, before, plain);
  }
  [[nodiscard]] std::string mending() const { return mending_text(source(), card, checked, 30, plain); }

  void add_variant(const std::string& name) { card.variants.emplace_back().name.value = name; }
};

}  // namespace

TEST_CASE("a conflict shows its rules in the file, then the sum, then what mends it") {
  CHECK(Example().told() ==
        "This card cannot be built as stated.\n"
        "\n"
        "These cannot all hold:\n"
        "   3 | width = \"3\"\n"
        "     |         ^ the width of panel is 3\n"
        "   6 | width = 2.75\n"
        "     |         ^ the width of strip is 2 3/4\n"
        "   7 | border = { across = 'at least 1/4' }\n"
        "     |                     ^ the border of strip, left and right, is at least\n"
        "     |                       1/4\n"
        "\n"
        "        3           panel is 3 wide.\n"
        "    2 3/4           strip is 2 3/4 wide.\n"
        "  +   1/2  = 3 1/4  The border of strip adds at least 1/4 on the left and on the\n"
        "                    right, which makes 3 1/4.\n"
        "      1/4           That is 1/4 in too wide.\n"
        "\n"
        "To mend it, change one of these:\n"
        "   1. line 7: 'at least 1/4' -> 'at least 1/8'\n"
        "      The border of strip 1/8 in less.\n"
        "   2. line 3: \"3\" -> \"3 1/4\"\n"
        "      The width of panel 1/4 in more.\n"
        "   3. line 6: 2.75 -> \"2 1/2\"\n");
}

TEST_CASE("a further conflict has its number, and its changes are numbered on") {
  const Example example;
  const std::string told = example.told({.conflicts = 1, .changes = 7});
  CHECK(told.starts_with("\nConflict 2\nThese cannot all hold:\n"));
  CHECK(has(told, "\n   8. line 7: "));
  CHECK(has(told, "\n  10. line 6: "));
  CHECK_FALSE(has(told, "This card cannot"));
}

TEST_CASE("one rule alone and one change alone are told as one") {
  Example example;
  example.conflict.rules.resize(1);
  example.conflict.changes.resize(1);
  CHECK(has(example.told(), "\nThis cannot hold:\n"));
  CHECK(has(example.told(), "\nTo mend it, change this:\n"));
  example.conflict.changes.clear();
  CHECK(has(example.told(), "\nNo change of a single number mends it.\n"));
}

TEST_CASE("changes that were not all tried are not taken for all there are") {
  Example example;
  example.conflict.changes_known = false;
  CHECK(example.told().ends_with("\n\nTime ran out before all changes were tried; --limit allows more.\n"));
  example.conflict.changes.clear();
  CHECK(has(example.told(), "Time ran out before all changes were tried"));
  CHECK_FALSE(has(example.told(), "No change of a single number"));
}

TEST_CASE("where no wish is to blame it says so") {
  Example example;
  example.conflict.rules.clear();
  CHECK(has(example.told(), "It is not the wishes: with none of them stated it still could not be built.\n"));
}

TEST_CASE("a conflict without a sum tells how far it misses") {
  Example example;
  example.conflict.story.clear();
  CHECK(has(example.told(), "These cannot all hold: 1/4 in is missing:\n"));
  example.conflict.short_by = eighths(-3);
  CHECK(has(example.told(), "These cannot all hold: 3/8 in is left over:\n"));
  example.conflict.short_by.reset();
  example.conflict.off_mark = eighths(1) / 2;
  CHECK(has(example.told(), "These cannot all hold: the nearest mark is 1/16 in away:\n"));
}

TEST_CASE("what takes away has its sign, and sentences without figures stand at the edge") {
  Example example;
  example.conflict.story = {{"Side by side they come nearest.", {}, {}, {}},
                            {"The front is 4 1/4 wide.", {}, eighths(34), eighths(34)},
                            {"The border takes 1/8.", {}, eighths(2), eighths(32)},
                            {"So the width comes to 4.", {}, {}, eighths(32)}};
  CHECK(has(example.told(),
            "\n"
            "  Side by side they come nearest.\n"
            "    4 1/4       The front is 4 1/4 wide.\n"
            "  -   1/4  = 4  The border takes 1/8.\n"
            "           = 4  So the width comes to 4.\n"
            "\n"));
}

TEST_CASE("a figure that no ruler shows is rounded") {
  Example example;
  example.conflict.story = {{"The front is about 4.134 wide.", {}, Rational(525) / 127, {}},
                            {"The panel takes about -0.004.", {}, Rational(-1) / 254, {}}};
  CHECK(has(example.told(), "    ~4.134  The front is about 4.134 wide.\n"));
  CHECK(has(example.told(), "    ~-0.004  The panel"));
  example.card.unit = Unit::millimetre;
  example.conflict.story[1].amount = Rational(889) / 10;
  CHECK(has(example.told(), "     88.9  The panel"));
}

TEST_CASE("hints stand before the changes") {
  Example example;
  example.conflict.hints = {"If strip belongs on panel, write on = \"panel\"."};
  const std::string told = example.told();
  CHECK(told.find("\nIf strip belongs on panel, write on = \"panel\".\n") < told.find("To mend it"));
}

TEST_CASE("a conflict that may not be the smallest says so") {
  Example example;
  CHECK_FALSE(has(example.told(), "Time ran out"));
  example.conflict.smallest = false;
  CHECK(has(example.told(), "Time ran out before it was known whether fewer of these are to blame.\n"));
}

TEST_CASE("a conflict in some versions only names them") {
  Example example;
  example.add_variant("for the crew");
  example.add_variant("for the band");
  CHECK(has(example.told(), "These cannot all hold in the plain card:\n"));
  example.conflict.versions = {"", "for the crew"};
  CHECK(has(example.told(), "These cannot all hold in the plain card and \"for the crew\":\n"));
  example.conflict.versions = {"", "for the crew", "for the band"};
  CHECK(has(example.told(), "These cannot all hold:\n"));

  CHECK(has(example.mending(), "\nOnly the plain card cannot be built.\n"));
  example.checked.failing = {"for the crew", "for the band"};
  CHECK(has(example.mending(),
            "\nOnly \"for the crew\" and \"for the band\" cannot be built; the plain card can.\n"));
  example.checked.failing = {"", "for the crew", "for the band"};
  CHECK_FALSE(has(example.mending(), "Only"));
}

TEST_CASE("the smallest change for the whole card goes by its number") {
  CHECK(Example().mending() == "\nThe smallest change that mends the whole card is number 2.\n");
}

TEST_CASE("several changes for the whole card are listed by their numbers, and one of its own without") {
  Example example;
  example.checked.mend = {example.conflict.changes[1], {{1, 1}, "a", "b", 0, "", false, true}};
  CHECK(example.mending() ==
        "\n"
        "To mend the whole card, change 2 things:\n"
        "   2. line 3: \"3\" -> \"3 1/4\"\n"
        "      line 1: a -> \"b\"\n");
  example.checked.mend.erase(example.checked.mend.begin());
  CHECK(has(example.mending(), "To mend the whole card, change 1 thing:\n      line 1: a -> \"b\"\n"));
}

TEST_CASE("where nothing mends the whole card, or it is not known, that is told") {
  Example example;
  example.checked.mend.clear();
  CHECK(example.mending() == "\nNo change of numbers mends the whole card.\n");
  example.checked.conflicts.front().changes.clear();
  CHECK(example.mending() == "\nNor does any change of several numbers.\n");
  example.checked.mend_known = false;
  CHECK(has(example.mending(), "Time ran out before the fewest changes"));
}

TEST_CASE("where there may be more conflicts it says why they were not looked for") {
  Example example;
  CHECK_FALSE(has(example.mending(), "There may be more"));
  example.checked.all_conflicts = false;
  CHECK(has(example.mending(), "There may be more: the limit of 30 s was reached first.\n"));
  example.checked.conflicts.assign(CheckOptions{}.most_conflicts, example.conflict);
  CHECK(has(example.mending(), "There may be more: no more than 20 are looked for.\n"));
  example.checked.conflicts.clear();
  CHECK(example.mending() ==
        "This card cannot be built as stated.\n"
        "The limit of 30 s was reached before it was known why.\n");
}

TEST_CASE("of a long change only what differs is shown, with what stands around it") {
  const Example example;
  const auto told = [&](const std::string& from, const std::string& to) {
    return change_text(example.source(), {{3, 9}, from, to, 0, "", true, true}, 6);
  };
  const std::string before = "greeting.bottom <= lantern.bottom and greeting.top >= 3 and greeting.left ";
  const std::string behind = " and greeting.right <= lantern.right - 3 or greeting.bottom <= 2";
  CHECK(told(before + "<= 1/4", before + "<= 1/8") ==
        "line 3: \"... greeting.left <= 1/4\" -> \"... greeting.left <= 1/8\"");
  CHECK(told("a <= 1/4" + behind, "a <= 1/8" + behind) ==
        "line 3: \"a <= 1/4 and greeting.right ...\"\n"
        "           -> \"a <= 1/8 and greeting.right ...\"");
  CHECK(told(before + "<= 1/4" + behind, before + "<= 1/8" + behind) ==
        "line 3: \"... greeting.left <= 1/4 and greeting.right ...\"\n"
        "           -> \"... greeting.left <= 1/8 and greeting.right ...\"");
  CHECK(told("1", "11") == "line 3: \"1\" -> \"11\"");
  CHECK(told(before + "1", before + "1 1/4") ==
        "line 3: \"... greeting.left 1\" -> \"... greeting.left 1 1/4\"");
  CHECK(told(before + behind, behind) ==
        "line 3: \"greeting.bottom <= lantern.bottom and greeting.top >= 3 and\n"
        "              greeting.left and greeting.right ...\"\n"
        "           -> \" and greeting.right ...\"");
}

TEST_CASE("where every change leaves another conflict that is told once") {
  Example example;
  for (Change& change : example.conflict.changes) {
    change.mends_card = false;
    change.says = "the size less. That leaves another conflict.";
  }
  const std::string told = example.told();
  CHECK(has(told, "      The size less.\n   2. "));
  CHECK(told.ends_with("      The size less.\nEach of these leaves another conflict.\n"));

  example.conflict.changes[0].mends_card = true;
  example.conflict.changes[0].says = "the border less.";
  CHECK(has(example.told(), "      The size less. That leaves another conflict.\n"));
  CHECK_FALSE(has(example.told(), "Each of these"));
}

TEST_CASE("a conflict fits the page whatever the names are") {
  for (const std::string& name :
       {std::string(300, 'n'),
        std::string("灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠"),
        std::string("a\tb\nc\x1b[31m\xff"), std::string("e\xcc\x81 e\xcc\x81")}) {
    Example example;
    example.add_variant(name);
    example.conflict.versions = {name};
    example.checked.failing = {name};
    for (Remark& rule : example.conflict.rules) rule.says = name;
    for (StoryStep& step : example.conflict.story) step.says = name;
    for (Change& change : example.conflict.changes) change.from = change.to = change.says = name;
    example.conflict.hints = {name};
    example.checked.mend = example.conflict.changes;
    example.text = "[[layer]]\nx = \"" + std::string(300, 'y') + "\"\n" + example.text;
    check_fits(example.told());
    check_fits(example.mending());
  }
}

TEST_CASE("a conflict fits the page whatever the lengths are") {
  Example example;
  for (StoryStep& step : example.conflict.story) {
    step.amount = Rational("123456789012345678901234567890/997");
    step.total = Rational("1234567890123456789012345678901/997");
  }
  check_fits(example.told());
}
