// The cards within a card's wishes, against sizing each of them from a card file that states its amounts.
#include "solver/explore/space.h"

#include <algorithm>
#include <set>
#include <string>

#include "model/change_file.h"
#include "model/read_card.h"
#include "model/set_key.h"
#include "tests/catch.h"
#include "tests/solver/random_cards.h"
#include "tests/solver/sized.h"

namespace evenmat::exploring {
namespace {

using evenmat::testing::card_of;
using evenmat::testing::layer;

const std::string front = "mark = \"1/16\"\n[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\n";

// The card file with every open amount stated.
std::string stating(std::string text, const std::vector<OpenAmount>& open, const Amounts& amounts,
                    Unit unit) {
  std::vector<std::size_t> order(open.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  // What comes later in the file is changed first, and what is not stated last.
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return open[b].spot < open[a].spot; });
  for (const std::size_t i : order) {
    const std::string value = amount_text(open[i], amounts[i], unit);
    const auto changed = open[i].spot.line > 0 ? with_value(text, open[i].spot, value)
                                               : with_key(text, {open[i].name, open[i].key, value});
    INFO(open[i].name << "." << open[i].key << " = " << value);
    REQUIRE(changed);
    text = *changed;
  }
  return text;
}

// Every length that is cut or placed.
std::vector<Rational> lengths(const SizedCard& card) {
  std::vector<Rational> all;
  for (const SizedVersion& version : card.versions) {
    all.push_back(version.front.width);
    all.push_back(version.front.height);
    for (const PlacedPiece& piece : version.pieces)
      all.insert(all.end(), {piece.width, piece.height, piece.left, piece.top});
  }
  return all;
}

// Whether the maker names the values one by one.
bool has_list(const Card& card, const OpenAmount& open) {
  const auto lists = [&](const std::optional<Wish>& wish) {
    return wish && wish->spot == open.spot && !wish->one_of.empty();
  };
  return std::any_of(card.design.pieces.begin(), card.design.pieces.end(), [&](const Piece& piece) {
    return lists(piece.border.all) || lists(piece.margin.all) || lists(piece.width) || lists(piece.height) ||
           lists(piece.from_left) || lists(piece.from_top) || lists(piece.gap);
  });
}

struct Explored {
  explicit Explored(const std::string& text, const std::vector<std::string>& keep = {})
      : card(card_of(text)), space(card, 30, keep), listing(space.list(most_counted)) {}
  [[nodiscard]] std::vector<std::vector<std::string>> cards() const {
    std::vector<std::vector<std::string>> all;
    for (const Amounts& amounts : listing.cards) {
      all.emplace_back();
      for (const Rational& amount : amounts) all.back().push_back(fraction_text(amount));
    }
    return all;
  }
  [[nodiscard]] std::vector<std::string> open() const {
    std::vector<std::string> all;
    for (const OpenAmount& open : space.open())
      all.push_back(open.name + "." + open.key + (open.part.empty() ? "" : "." + open.part));
    return all;
  }
  Card card;
  Space space;
  Listing listing;
};

using Strings = std::vector<std::string>;

TEST_CASE("a border with a range goes from mark to mark on all sides at once") {
  const Explored explored(front + layer("clay mat", "front", "border = \"1/16 to 1/4\"\n"));
  CHECK(explored.open() == Strings{"clay mat.border"});
  CHECK(explored.cards() == std::vector<Strings>{{"1/16"}, {"1/8"}, {"3/16"}, {"1/4"}});
  CHECK(explored.listing.complete);
}

TEST_CASE("a layer of which nothing is stated leaves its border open") {
  const Explored explored(front + layer("clay mat", "front"));
  CHECK(explored.open() == Strings{"clay mat.border"});
  CHECK(explored.listing.cards.size() == 34);  // 0 to 2 1/16: wider ones leave no paper
}

TEST_CASE("an amount keeps to the marks and the card as sized is one more between them") {
  const Explored explored(
      front +
      layer("clay mat", "front", "width = \"at most 4 1/16\"\nborder = \"3/32 to 1/4, about 3/32\"\n"));
  CHECK(explored.open() == Strings{"clay mat.border", "clay mat.width"});
  CHECK(explored.cards() ==
        std::vector<Strings>{{"3/32", "65/16"}, {"1/8", "4"}, {"3/16", "31/8"}, {"1/4", "15/4"}});
}

TEST_CASE("an amount that no card has on a mark goes mark by mark from where it is") {
  // Of 101.6 mm 2.6 and 3 are off: 96 mm, and what follows.
  const Explored explored(
      "unit = \"mm\"\nmark = \"1\"\n[base]\nfold = \"side\"\nfront = \"4 in x 5 in\"\n" +
      layer("ember mat", "front", "border = { left = \"2 to 5, about 2\", right = \"3\", down = \"3\" }\n"));
  CHECK(explored.open() == Strings{"ember mat.border.left"});
  CHECK(explored.cards() == std::vector<Strings>{{"13/5"}, {"18/5"}, {"23/5"}});
}

TEST_CASE("where sides differ the sizes are what is open") {
  const Explored explored(
      front + layer("clay mat", "front",
                    "border = \"at least 1/8\"\nwidth = \"3\"\nheight = \"5 to 5 1/4\"\nalign = \"left\"\n"));
  CHECK(explored.open() == Strings{"clay mat.height"});
  CHECK(explored.listing.cards.size() == 5);
}

TEST_CASE("a border that its width settles at the sides stays alike on all four where it was") {
  // A reveal of 3/4 in and a strip of 1/2: 1/8 at the left and right, and so at the top and bottom.
  const std::string reveal =
      "mark = \"1/16\"\n[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\ncut-back = \"3/4\"\n";
  const Explored explored(reveal + layer("strip", "reveal", "width = \"1/2\"\nborder = \"1/8 to 1/4\"\n"));
  CHECK(explored.listing.cards.size() == 1);
  // Between the marks at the sides it is not alike, and the height is open.
  const Explored apart(front + layer("clay mat", "front", "width = \"4 1/16\"\nborder = \"1/16 to 1/4\"\n"));
  CHECK(apart.open() == Strings{"clay mat.height"});
  CHECK(apart.listing.cards.size() == 7);
}

TEST_CASE("a strip as wide as its even border leaves is one amount and not two") {
  const Explored explored(
      "mark = \"1/16\"\n[base]\nfold = \"side\"\nfront = \"4 1/4 x 5 1/2\"\ncut-back = \"1\"\n" +
      layer("strip", "reveal", "border = \"even\"\nwidth = \"at least 5/8\"\n"));
  CHECK(explored.cards() ==
        std::vector<Strings>{{"0", "1"}, {"1/16", "7/8"}, {"1/8", "3/4"}, {"3/16", "5/8"}});
}

TEST_CASE("a print behind a window is tucked alike on all sides mark by mark") {
  const Explored explored(front + "[[window]]\nname = \"pane\"\nin = \"front\"\nsize = \"2 x 2\"\n" +
                          layer("print", "pane", "tuck = \"1/8 to 1/4\"\n"));
  CHECK(explored.open() == Strings{"print.tuck"});
  CHECK(explored.cards() == std::vector<Strings>{{"1/8"}, {"3/16"}, {"1/4"}});
}

TEST_CASE("each side of an or is a way of its own and a card that both give is one") {
  const std::string mat =
      layer("clay mat", "front", "border = \"1/8\"\n") + layer("note", "clay mat", "size = \"2 x 1\"\n");
  const Explored apart("rules = [\"note.top = 1 or note.top = 2\"]\n" + front + mat);
  CHECK(apart.cards() == std::vector<Strings>{{"0"}, {"1"}});
  const Explored alike("rules = [\"note.top = 1 or note.left <= 4\"]\n" + front + mat);
  CHECK(alike.listing.cards.size() == 2);
  const Explored same("rules = [\"note.left <= 4 or note.top <= 5\"]\n" + front + mat);
  CHECK(same.listing.cards.size() == 1);
}

TEST_CASE("cards that differ in nothing but where their artwork lies are not one") {
  const std::string words =
      layer("words", "front",
            "size = \"3 x 2\"\nartwork = \"1 x 1\"\nmargin = { left = \"1/4 to 1\", top = \"1/2\" }\n");
  const Explored plain(front + words);
  const Explored with_or("rules = [\"words.left >= 0 or words.left >= 1/4\"]\n" + front + words);
  CHECK(plain.listing.cards.size() == 13);
  CHECK(with_or.listing.cards.size() == plain.listing.cards.size());
}

TEST_CASE("ways of many entries are not multiplied without end") {
  std::string rules;
  for (int i = 0; i < 64; ++i) {
    rules += (i == 0 ? "" : ", ") + std::string("\"clay mat.left >= 0 or clay mat.left >= ") +
             std::to_string(i) + "/100\"";
  }
  const Explored explored("rules = [" + rules + "]\n" + front +
                          layer("clay mat", "front", "border = \"1/16 to 1/4\"\n"));
  CHECK(explored.listing.complete);
  CHECK(explored.listing.cards.size() == 4);
}

TEST_CASE("where an amount has more values than can be listed the list is not all there is") {
  const std::string base =
      "mark = \"1/10000\"\nrules = [\"mat.width + print.width >= 10\", \"mat.width + print.width <= "
      "10.0003\"]\n[base]\nfold = \"flat\"\nfront = \"8 x 10\"\n";
  const Explored explored(
      base + layer("mat", "front", "height = \"2\"\nfrom-left = \"1\"\nwidth = \"at least 1/2\"\n") +
      layer("print", "mat", "height = \"1\"\nwidth = \"at least 1/2\"\n"));
  CHECK_FALSE(explored.listing.complete);
}

TEST_CASE("a layer that is to stay keeps its size while what lies under it may vary") {
  const std::string layers = layer("clay mat", "front", "border = \"1/16 to 1/4\"\n") +
                             layer("print", "clay mat", "border = \"1/16 to 1/4\"\n");
  const Explored explored(front + layers, {"print"});
  // 3 7/8 wide as sized: what the mat gains its border loses.
  CHECK(explored.cards() == std::vector<Strings>{{"1/16", "1/8"}, {"1/8", "1/16"}});
}

TEST_CASE("only cards that show enough are listed") {
  const std::string layers = layer("clay mat", "front", "border = \"1/8\"\nshow = \"at least 1/10\"\n") +
                             layer("print", "clay mat", "border = \"1/16 to 1/4\"\n");
  const Explored explored(front + layers);
  for (const Amounts& amounts : explored.listing.cards) {
    const auto card = explored.space.card_of(amounts);
    REQUIRE(card);
    CHECK(card->versions.front().pieces.front().shown.open >= Rational(1, 10));
  }
  CHECK(explored.listing.cards.size() > 10);
}

// What `size` makes of the card file that states the amounts is the judge of both: of what is listed, and of
// its neighbours that are not.
TEST_CASE("listed cards are what sizing makes of their amounts and their neighbours cannot be built") {
  std::size_t cards = 0;
  std::size_t neighbours = 0;
  for (unsigned seed = 1; seed <= 24; ++seed) {
    const std::string text = testing::RandomCard(seed).text();
    INFO("seed " << seed << "\n" << text);
    const CardReading reading = read_card(text);
    if (!reading.card || refusal(*reading.card)) continue;
    Space space(*reading.card, 30, {});
    if (space.verdict() != Verdict::buildable || space.open().empty()) continue;
    const Listing listing = space.list(300);
    const std::set<Amounts> listed(listing.cards.begin(), listing.cards.end());
    const std::size_t step = listing.cards.size() / 4 + 1;
    for (std::size_t i = 0; i < listing.cards.size(); i += step) {
      const Amounts& amounts = listing.cards[i];
      const auto made = space.card_of(amounts);
      REQUIRE(made);
      REQUIRE(made->verdict == Verdict::buildable);
      const auto only_sizes = space.sizes_only(amounts);
      REQUIRE(only_sizes);
      for (std::size_t v = 0; v < made->versions.size(); ++v) {
        for (std::size_t p = 0; p < made->versions[v].pieces.size(); ++p) {
          CHECK(only_sizes->versions[v].pieces[p].width == made->versions[v].pieces[p].width);
          CHECK(only_sizes->versions[v].pieces[p].height == made->versions[v].pieces[p].height);
        }
      }
      const Card stated = card_of(stating(text, space.open(), amounts, reading.card->unit));
      const SizedCard sized = size_card(stated, {});
      CHECK(sized.verdict == Verdict::buildable);
      if (sized.verdict == Verdict::buildable) CHECK(lengths(sized) == lengths(*made));
      ++cards;
      if (!listing.complete) continue;
      for (std::size_t axis = 0; axis < amounts.size(); ++axis) {
        if (!space.open()[axis].ways.empty()) continue;
        Amounts next = amounts;
        next[axis] += reading.card->mark;
        const OpenAmount& open = space.open()[axis];
        const auto most =
            std::max_element(listing.cards.begin(), listing.cards.end(),
                             [&](const Amounts& a, const Amounts& b) { return a[axis] < b[axis]; });
        // Within the wish, as far as other cards reach.
        if (listed.contains(next) || next[axis] > (*most)[axis] || has_list(*reading.card, open)) continue;
        const CardReading beside = read_card(stating(text, space.open(), next, reading.card->unit));
        if (!beside.card) continue;
        CHECK(size_card(*beside.card, {}).verdict == Verdict::conflict);
        ++neighbours;
      }
    }
  }
  CHECK(cards > 25);
  CHECK(neighbours > 3);
}

}  // namespace
}  // namespace evenmat::exploring
