// The list of cards within the wishes, over values made by hand: rows as they come, what is alike, what is
// unbeaten, how many there are.
#include "cli/explore/listing.h"
#include "cli/explore/words.h"
#include "tests/catch.h"
#include "tests/cli/explore_values.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const Style plain;

std::string listed(const MadeCard& made, const ExploredCard& explored, std::optional<Best> best = {},
                   bool sweep = false) {
  const Source source = made.source();
  return on_one_page(CardList({source, made.card, 8, sweep, best}, plain).rest(explored));
}

}  // namespace

TEST_CASE("the list says what is open and then each card with what is open and what it takes") {
  const MadeCard made;
  CHECK(listed(made, made.explored()) ==
        "Open: border of plum mat, 1/16 to 1/4 in.\n"
        "\n"
        "      plum mat  plum    fern\n"
        "      border    sheets  sheets  waste\n"
        "  1.  1/16      2       2       33 %\n"
        "  2.  1/8       2       2       33 %   as sized\n"
        "  3.  3/16      2       2       33 %\n"
        "  4.  1/4       1       2       50 %\n"
        "\n"
        "How they differ\n"
        "      plum mat       fern panel\n"
        "      size           size\n"
        "  1.  4 1/8 x 5 3/8  4 x 5 1/4      unbeaten\n"
        "  2.  4 x 5 1/4      3 7/8 x 5 1/8  as sized\n"
        "  3.  3 7/8 x 5 1/8  3 3/4 x 5\n"
        "  4.  3 3/4 x 5      3 5/8 x 4 7/8  unbeaten\n"
        "\n"
        "The same in all: narrowest border 1/16, fern panel seen 100 %.\n"
        "\n"
        "Unbeaten among the 4 cards compared: 1 and 4. No other is as good as such a card\n"
        "  on every count (sheets, waste, narrowest border, share seen) and better on\n"
        "  one.\n"
        "These are all 4 cards.\n");
}

TEST_CASE("cards told as they are found and cards told at the end make the same list") {
  const MadeCard made;
  const ExploredCard all = made.explored();
  const Source source = made.source();
  CardList list({source, made.card, 8, false, {}}, plain);
  std::string text;
  ExploredCard so_far = all;
  so_far.alternatives.clear();
  so_far.compared = 0;
  for (const std::size_t i : {0U, 1U, 2U}) {
    so_far.alternatives.push_back(all.alternatives[i]);
    so_far.alternatives.back().unbeaten = false;
    text += list.next(so_far, i);
  }
  CHECK(text.ends_with("  3.  3/16      2       2       33 %\n"));
  CHECK(text + list.rest(all) == listed(made, all));
}

TEST_CASE("in an order that is asked for what is alike in all rows is told once") {
  const MadeCard made;
  ExploredCard explored = made.explored();
  explored.alternatives.pop_back();
  explored.count = 40;
  explored.compared = 30;
  const std::string text = listed(made, explored, Best::waste);
  CHECK(has(text, "\n      plum mat\n      border\n  1.  1/16      unbeaten\n"));
  CHECK(has(flowing(text), "The same in all: plum 2 sheets, fern 2 sheets, waste 33 %, narrowest border"));
  CHECK(text.ends_with("3 of 40 cards, the least waste first of the 30 compared.\n"));
}

TEST_CASE("sheets that are not proven fewest or not there carry signs that are explained") {
  const MadeCard made;
  ExploredCard explored = made.explored();
  std::vector<PaperCost>& papers = explored.alternatives[0].costs.papers;
  papers[0].proven = false;
  papers[0].missing = 1;
  papers[1].never = true;
  explored.alternatives[2].costs.papers[1].trouble = "It is too long for the trimmer.";
  const std::string text = listed(made, explored);
  CHECK(has(text, "  1.  1/16      2!*     none    33 %\n"));
  CHECK(has(text, "  3.  3/16      2       ?       33 %\n"));
  CHECK(has(text, "\n! more sheets than there are\n"));
  CHECK(has(text, "\n* the best plan that was found; that none takes fewer sheets is not proven\n"));
  CHECK(has(text, "\nnone: a piece is larger than every sheet of that paper\n"));
  CHECK(has(text, "\n? fern: It is too long for the trimmer.\n"));
  CHECK_FALSE(has(listed(made, made.explored()), "proven"));
}

TEST_CASE("what varies alone is told with the cards that a sheet gives and with the jumps") {
  const MadeCard made;
  ExploredCard explored = made.explored();
  explored.jumps = {{2, "plum", 0, 3}, {3, "plum", -1, 0}, {3, "fern", 2, -1}};
  const std::string text = listed(made, explored, {}, true);
  CHECK(has(text, "      border    sheets  cards each  sheets  cards each  waste\n"));
  CHECK(has(text, "From 3/16 on one sheet of plum gives three cards more: 9.\n"));
  CHECK(has(text, "From 1/4 on the batch takes one sheet fewer of plum: 1.\n"));
  CHECK(has(flowing(text),
            "From 1/4 on one sheet of fern gives one card fewer: 6, and the batch takes two "
            "sheets more of it: 2."));
}

TEST_CASE("what does not fit side by side goes on below under headings of its own") {
  const MadeCard made;
  ExploredCard explored = made.explored();
  for (int i = 0; i < 9; ++i) {
    OpenAmount open = MadeCard::border();
    open.name = "a long name of a layer " + std::to_string(i);
    explored.open.push_back(open);
    for (Alternative& one : explored.alternatives) one.amounts.push_back(sixteenths(16 + i));
  }
  const std::string text = listed(made, explored);
  CHECK(has(text, "\n  1.  1/16 "));
  CHECK(has(text, "\n      2       2       33 %\n"));
  CHECK(has(text, "\n      2       2       33 %   as sized\n"));
}

TEST_CASE("how many cards there are is said as far as it is known") {
  ExploredCard explored = MadeCard().explored();
  CHECK(count_sentence(explored, {}) == "These are all 4 cards.");
  CHECK(count_sentence(explored, Best::cost) == "These are all 4 cards, the least cost first.");
  explored.count = 23;
  CHECK(count_sentence(explored, {}) == "4 of 23 cards, those that differ most.");
  explored.count = 10'000;
  explored.complete = false;
  CHECK(count_sentence(explored, {}) == "4 of more than 10,000 cards, those that differ most.");
  CHECK(count_sentence(explored, Best::sheets) ==
        "4 of more than 10,000 cards, the fewest sheets first of the 4 compared.");
  explored.alternatives.resize(1);
  explored.count = 1;
  explored.complete = true;
  CHECK(count_sentence(explored, {}) == "There is no other card within the wishes.");
  explored.open.clear();
  CHECK(count_sentence(explored, {}) == "There is no other card within the wishes; --vary opens more.");
}

TEST_CASE("a card that leaves nothing open is told alone") {
  const MadeCard made;
  ExploredCard explored;
  explored.alternatives = {made.at(2, 2, 6)};
  explored.alternatives[0].amounts.clear();
  explored.alternatives[0].as_sized = true;
  explored.count = explored.compared = 1;
  const std::string text = listed(made, explored);
  CHECK(text.starts_with("Nothing is open: what the card states settles all its sizes.\n"));
  CHECK(has(text, "\nThis card: plum mat 4 x 5 1/4, fern panel 3 7/8 x 5 1/8,"));
  CHECK_FALSE(has(text, "Unbeaten"));

  explored.nothing_open = "The border of plum mat is settled by its size.";
  CHECK(listed(made, explored).starts_with("The border of plum mat is settled by its size.\n"));
}

TEST_CASE("where papers say too little for a plan the first reason is shown in the file") {
  const MadeCard made;
  ExploredCard explored = made.explored();
  for (Alternative& one : explored.alternatives) one.costs.papers.clear();
  explored.no_costs = {{{5, 10}, "No [[paper]] is called \"plum\"."}, {{5, 10}, "Another."}};
  const std::string text = listed(made, explored);
  CHECK_FALSE(has(text, "sheets  "));
  CHECK(has(text, "\nNo sheets are told\n   5 | border = \"1/16 to 1/4\"\n"));
  CHECK(text.ends_with("  and 1 more of the kind; evenmat cut tells all.\n"));
}

TEST_CASE("open amounts go by the names that a maker has for them") {
  OpenAmount open = MadeCard::border();
  CHECK(amount_name(open) == "border of plum mat");
  CHECK(amount_key(open) == "plum mat.border");
  open.part = "left";
  CHECK(amount_name(open) == "left border of plum mat");
  CHECK(amount_key(open) == "plum mat.border.left");
  open.part = "across";
  CHECK(amount_name(open) == "border of plum mat, left and right");
  open.part = "";
  open.key = "from-left";
  CHECK(amount_name(open) == "distance of plum mat from the left");
  open.name = "base";
  open.key = "cut-back";
  CHECK(amount_name(open) == "cut-back");
  open.name = "";
  open.key = "rules";
  open.ways = {"a.left = 1", "a.right = 1"};
  CHECK(amount_name(open) == "line 5");
  CHECK(value_words(open, 1, Unit::inch) == "b");
  const std::string told = on_one_page(open_text({open}, Unit::inch));
  CHECK(told == "Open: line 5, 2 ways.\nThe ways of line 5:\n  a: a.left = 1\n  b: a.right = 1\n");
}

TEST_CASE("counts and shares are told in words that promise no more than is there") {
  CHECK(many_words(9'999) == "9999");
  CHECK(many_words(10'000) == "10,000");
  CHECK(many_words(1'234'567) == "1,234,567");
  CHECK(small_number(1) == "one");
  CHECK(small_number(13) == "13");
  CHECK(per_cent_words(0) == "0 %");
  CHECK(per_cent_words(Rational(1) / 1000) == "under 1 %");
  CHECK(per_cent_words(Rational(999) / 1000) == "over 99 %");
  CHECK(per_cent_words(1) == "100 %");
  CHECK(per_cent_words(Rational(5) / 16) == "31 %");
}
