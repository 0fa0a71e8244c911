// What `check` tells beside conflicts, over values made by hand: spare, the unsteady hand, measured cards,
// and all of it as JSON.
#include <nlohmann/json.hpp>

#include "cli/check/builds.h"
#include "cli/check/hand.h"
#include "cli/check/measured.h"
#include "cli/json_check.h"
#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using Json = nlohmann::json;

namespace {

const Style plain;

Rational thirty_seconds(int count) { return Rational(count) / 32; }

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

void check_fits(const std::string& text) {
  for (const std::string& line : testing::lines(text)) {
    INFO(line);
    CHECK(columns(line) <= 80);
    CHECK(printable(line) == line);
  }
}

const std::string file = "width = \"3\"\nborder = \"at least 1/8\"\nheight = \"5\"\n";

struct Example {
  Card card;
  CheckedCard checked;
  HandCheck hand;
  MeasuredCard measured;

  explicit Example(const std::string& name = "mat") {
    card.mark = thirty_seconds(2);
    checked.spare = {{"the width of " + name + " is 3", {1, 9}, 0},
                     {"the height of " + name + " is 5", {3, 10}, 0},
                     {"the border of " + name + " is at least 1/8", {2, 10}, thirty_seconds(2)},
                     {name + " and strip do not overlap", {1, 1}, thirty_seconds(40)}};
    hand.slips = {{"the border of " + name + " is at least 1/8",
                   {2, 10},
                   thirty_seconds(1),
                   thirty_seconds(4),
                   {"cutting the left edge of " + name, "placing " + name, "cutting the front back"}}};
    hand.borders = {{"the border of " + name + ", left and right",
                     {2, 10},
                     thirty_seconds(4),
                     thirty_seconds(-1),
                     thirty_seconds(9),
                     false,
                     thirty_seconds(10)},
                    {"the border of " + name + ", top and bottom",
                     {2, 10},
                     thirty_seconds(16),
                     thirty_seconds(12),
                     thirty_seconds(20),
                     true,
                     thirty_seconds(10)}};
    hand.safe = {{name, Rational(3), thirty_seconds(42), ""}};
    measured.rules = {{"the width of " + name + " is 3", {1, 9}, 0},
                      {"the border of " + name + " is at least 1/8", {2, 10}, thirty_seconds(1)},
                      {"the height of " + name + " is 5", {3, 10}, thirty_seconds(2)}};
  }

  [[nodiscard]] static Source source() { return {"card.toml", file}; }
  [[nodiscard]] std::string builds() const { return builds_text(source(), card, checked, plain); }
  [[nodiscard]] std::string by_hand() const {
    return hand_text(source(), card, hand, thirty_seconds(1), plain);
  }
  [[nodiscard]] std::string as_measured(int tolerance) const {
    return measured_text(card, measured, thirty_seconds(tolerance), plain);
  }
  void add_variant(const std::string& name, int cards) {
    Variant& variant = card.variants.emplace_back();
    variant.name.value = name;
    variant.cards = cards;
  }
};

// A conflict of two rules with one change.
Conflict conflict() {
  Conflict one;
  one.rules = {{{1, 9}, "the width of mat is 3"}, {{2, 10}, "the border of mat is at least 1/8"}};
  one.versions = {"", "for the crew"};
  one.short_by = thirty_seconds(4);
  one.story = {{"The front is 3 1/8 wide.", {}, thirty_seconds(100), {}},
               {"mat is 3 wide.", {1, 9}, Rational(3), Rational(3)}};
  one.hints = {"It may be on the wrong face."};
  one.changes = {{{1, 9}, "3", "2 7/8", thirty_seconds(-4), "the width of mat 1/8 in less.", true, true}};
  return one;
}

}  // namespace

TEST_CASE("what can be built tells what is to spare, the tightest first, and then what is exact") {
  CHECK(Example().builds() ==
        "It builds.\n"
        "\n"
        "To spare, the tightest first\n"
        "  1/16 in   line 2  the border of mat is at least 1/8\n"
        "  1 1/4 in  line 1  mat and strip do not overlap\n"
        "\n"
        "Nothing to spare: exact as stated, or as tight as can be\n"
        "  line 1  the width of mat is 3\n"
        "  line 3  the height of mat is 5\n");
}

TEST_CASE("a card of which nothing is stated has nothing to list") {
  Example example;
  example.checked.spare.clear();
  CHECK(example.builds() == "It builds.\n");
  example.add_variant("for the crew", 4);
  CHECK(example.builds() == "It builds, and so does its variant.\n");
  example.add_variant("for the band", 4);
  CHECK(example.builds() == "It builds, and so do its 2 variants.\n");
}

TEST_CASE("idle rules, wishes that give way and warnings are shown in the file") {
  Example example;
  example.checked.spare.clear();
  example.checked.idle = {{{1, 9}, "the width of mat is 3"}};
  example.checked.pulling = {{{2, 10}, "about 1/8 comes to 1/4"}};
  example.checked.warnings = {{{}, "The front is off the marks."}};
  CHECK(example.builds() ==
        "It builds.\n"
        "\n"
        "Says nothing that the others do not\n"
        "   1 | width = \"3\"\n"
        "     |         ^ the width of mat is 3\n"
        "\n"
        "Gives way to other wishes\n"
        "   2 | border = \"at least 1/8\"\n"
        "     |          ^ about 1/8 comes to 1/4\n"
        "\n"
        "Worth a second look\n"
        "  The front is off the marks.\n");
}

TEST_CASE("the hand's report tells which rules may fail, by how much and through what, and what is safe") {
  CHECK(Example().by_hand() ==
        "It builds on paper, but not by every hand that is off by 1/32 in.\n"
        "The worst case is told: every cut edge and every placement is off by 1/32 in,\n"
        "  all of it against you at once.\n"
        "\n"
        "May fail, the worst first\n"
        "   2 | border = \"at least 1/8\"\n"
        "     |          ^ the border of mat is at least 1/8\n"
        "       3/32 in short at worst: 1/32 in to spare, and up to 1/8 in lost by\n"
        "         cutting the left edge of mat, placing mat and cutting the front back.\n"
        "\n"
        "How even the borders come out\n"
        "                                 line  meant  least  most  safe\n"
        "  border of mat, left and right  2     1/8    -1/32  9/32  5/16!\n"
        "  border of mat, top and bottom  2     1/2    3/8    5/8   5/16\n"
        "safe: the least that would still look even\n"
        "! may look uneven: the border meant is less than that\n"
        "- sticks out by so much\n"
        "\n"
        "Safe sizes, whatever the hand does\n"
        "       width    height\n"
        "  mat  3      x 1 5/16\n");
}

TEST_CASE("a card that no hand within the error spoils says so") {
  Example example;
  example.hand.slips.clear();
  example.hand.borders.clear();
  example.hand.safe->clear();
  const std::string told = example.by_hand();
  CHECK(told.starts_with("It builds, and by a hand that is off by 1/32 in too.\n"));
  CHECK_FALSE(has(told, "May fail"));
  CHECK_FALSE(has(told, "Safe"));
}

TEST_CASE("safe sizes and places of a variant go by its name") {
  Example example;
  example.hand.safe = {{"mat", Rational(3), Rational(4), "for the crew"}};
  example.hand.safe_places = {{"strip", thirty_seconds(4), thirty_seconds(8), ""}};
  CHECK(has(example.by_hand(), "  mat, in \"for the crew\"  3      x 4\n"));
  CHECK(has(example.by_hand(),
            "Safe places, from the corner of what it lies on\n"
            "         left  top\n"
            "  strip  1/8   1/4\n"));
}

TEST_CASE("where no sizes are safe, what is in the way is told with its changes numbered through") {
  Example example;
  example.hand.safe.reset();
  example.hand.in_the_way = {conflict(), conflict()};
  const std::string told = example.by_hand();
  CHECK(has(told, "No sizes are safe: there is too little room for the hand\n\nThese cannot all hold:\n"));
  CHECK(has(told, "   1. line 1: \"3\" -> \"2 7/8\"\n"));
  CHECK(has(told, "   2. line 1: \"3\" -> \"2 7/8\"\n"));
  CHECK_FALSE(has(told, "This card cannot be built"));
}

TEST_CASE("a measured card tells each rule as met, met within, or off, and ends on the verdict") {
  const Example example;
  CHECK(example.as_measured(1) ==
        "As measured\n"
        "  met                 line 1  the width of mat is 3\n"
        "  met within 1/32 in  line 2  the border of mat is at least 1/8\n"
        "  off by 1/16 in      line 3  the height of mat is 5\n"
        "\n"
        "1 rule is off by more than 1/32 in.\n");
  CHECK(has(example.as_measured(2), "  met within 1/16 in  line 3  the height of mat is 5\n"));
  CHECK(has(example.as_measured(2), "\nEvery rule is met within 1/16 in.\n"));
}

TEST_CASE("these reports fit the page whatever the names are") {
  for (const std::string& name :
       {std::string(300, 'n'),
        std::string("灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠灯籠"),
        std::string("a\tb\nc\x1b[31m\xff"), std::string("e\xcc\x81 e\xcc\x81")}) {
    Example example(name);
    example.add_variant(name, 4);
    example.hand.safe->front().version = name;
    example.hand.safe_places = {{name, 1, 1, name}};
    example.checked.idle = example.checked.warnings = {{{2, 10}, name}, {{}, name}};
    check_fits(example.builds());
    check_fits(example.by_hand());
    check_fits(example.as_measured(1));
  }
}

TEST_CASE("the JSON of a card that can be built has spare, idle rules and warnings") {
  Example example;
  example.card.title = "A card";
  example.checked.idle = {{{1, 9}, "idle"}};
  example.checked.pulling = {{{2, 10}, "pulling"}};
  example.checked.warnings = {{{}, "warned"}};
  const Json json = Json::parse(json_check(example.card, example.checked, {}));
  CHECK(json.at("verdict") == "buildable");
  CHECK(json.at("unit") == "in");
  CHECK(json.at("title") == "A card");
  CHECK(json.at("mark") == "1/16");
  REQUIRE(json.at("spare").size() == 4);
  CHECK(json.at("spare").at(2) ==
        Json({{"says", "the border of mat is at least 1/8"}, {"line", 2}, {"column", 10}, {"by", "1/16"}}));
  CHECK(json.at("idle") == Json::array({{{"says", "idle"}, {"line", 1}, {"column", 9}}}));
  CHECK(json.at("pulling").at(0).at("line") == 2);
  CHECK(json.at("warnings") == Json::array({{{"says", "warned"}}}));
  for (const char* other : {"conflicts", "mend", "variants", "mended"}) CHECK_FALSE(json.contains(other));
}

TEST_CASE(
    "the JSON of a conflict has its rules, amounts, story and numbered changes, and what mends the card") {
  Example example;
  example.checked.verdict = Verdict::conflict;
  example.checked.conflicts = {conflict(), conflict()};
  example.checked.conflicts[1].short_by.reset();
  example.checked.conflicts[1].off_mark = thirty_seconds(1);
  example.checked.mend = {example.checked.conflicts[0].changes[0]};
  const Json json = Json::parse(json_check(example.card, example.checked, Mended{"out.toml", true}));
  CHECK(json.at("verdict") == "conflict");
  REQUIRE(json.at("conflicts").size() == 2);
  const Json& first = json.at("conflicts").at(0);
  CHECK(first.at("rules").at(1) ==
        Json({{"says", "the border of mat is at least 1/8"}, {"line", 2}, {"column", 10}}));
  CHECK(first.at("short_by") == "1/8");
  CHECK_FALSE(first.contains("off_mark"));
  CHECK_FALSE(first.contains("versions"));
  CHECK(first.at("story") ==
        Json::array(
            {{{"says", "The front is 3 1/8 wide."}, {"amount", "25/8"}},
             {{"says", "mat is 3 wide."}, {"line", 1}, {"column", 9}, {"amount", "3"}, {"total", "3"}}}));
  CHECK(first.at("hints") == Json::array({"It may be on the wrong face."}));
  CHECK(first.at("changes") == Json::array({{{"number", 1},
                                             {"line", 1},
                                             {"column", 9},
                                             {"from", "3"},
                                             {"to", "2 7/8"},
                                             {"by", "-1/8"},
                                             {"says", "the width of mat 1/8 in less."},
                                             {"mends_card", true},
                                             {"on_marks", true}}}));
  const Json& second = json.at("conflicts").at(1);
  CHECK(second.at("off_mark") == "1/32");
  CHECK_FALSE(second.contains("short_by"));
  CHECK(second.at("changes").at(0).at("number") == 2);
  CHECK(json.at("all_conflicts") == true);
  CHECK(json.at("mend") == Json::array({{{"line", 1}, {"column", 9}, {"from", "3"}, {"to", "2 7/8"}}}));
  CHECK(json.at("mend_known") == true);
  CHECK(json.at("mended") == Json({{"file", "out.toml"}, {"builds", true}}));
  CHECK_FALSE(json.contains("spare"));
}

TEST_CASE("the JSON tells the versions that cannot be built") {
  Example example;
  example.add_variant("for the crew", 4);
  example.add_variant("for the band", 2);
  example.checked.verdict = Verdict::conflict;
  example.checked.failing = {"", "for the crew"};
  example.checked.conflicts = {conflict()};
  const Json json = Json::parse(json_check(example.card, example.checked, {}));
  CHECK(json.at("conflicts").at(0).at("versions") == Json::array({"", "for the crew"}));
  CHECK(json.at("variants") ==
        Json::array({{{"name", "for the crew"}, {"cards", 4}, {"verdict", "conflict"}},
                     {{"name", "for the band"}, {"cards", 2}, {"verdict", "buildable"}}}));
}

TEST_CASE("the JSON of the hand and of a measured card has every amount") {
  Example example;
  const Json hand = Json::parse(json_hand(example.card, example.hand, thirty_seconds(1))).at("hand");
  CHECK(hand.at("error") == "1/32");
  CHECK(hand.at("slips").at(0).at("spare") == "1/32");
  CHECK(hand.at("slips").at(0).at("worst") == "1/8");
  CHECK(hand.at("slips").at(0).at("errors").size() == 3);
  CHECK(hand.at("borders").at(0).at("narrowest") == "-1/32");
  CHECK(hand.at("borders").at(0).at("looks_even") == false);
  CHECK(hand.at("borders").at(0).at("safe") == "5/16");
  CHECK(hand.at("safe") == Json::array({{{"name", "mat"}, {"width", "3"}, {"height", "21/16"}}}));
  CHECK(hand.at("safe_known") == true);

  example.hand.safe.reset();
  example.hand.in_the_way = {conflict()};
  const Json tight = Json::parse(json_hand(example.card, example.hand, thirty_seconds(1))).at("hand");
  CHECK_FALSE(tight.contains("safe"));
  CHECK(tight.at("in_the_way").at(0).at("changes").at(0).at("to") == "2 7/8");

  example.measured.verdict = Verdict::conflict;
  const Json measured = Json::parse(json_measured(example.card, example.measured, thirty_seconds(1)));
  CHECK(measured.at("verdict") == "conflict");
  CHECK(measured.at("tolerance") == "1/32");
  CHECK(measured.at("measured").at(1) == Json({{"says", "the border of mat is at least 1/8"},
                                               {"line", 2},
                                               {"column", 10},
                                               {"off", "1/32"},
                                               {"within", true}}));
  CHECK(measured.at("measured").at(2).at("within") == false);
}
