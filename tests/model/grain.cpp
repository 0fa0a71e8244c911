// Which way the grain runs to the fold. The first two cards are common practice, no source: a long-grain
// letter sheet is halved across for cards that fold with the grain, lengthwise for cards that fold against
// it.
#include "model/grain.h"

#include "tests/catch.h"
#include "tests/model/cards.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

std::string paper(const std::string& sheet, const std::string& grain) {
  return "[[paper]]\nname = \"ivory\"\nsheet = \"" + sheet + "\"\n" +
         (grain.empty() ? std::string() : "grain = \"" + grain + "\"\n");
}

std::optional<GrainAtFold> at_fold(const std::string& fold, const std::string& front,
                                   const std::string& papers) {
  const Card card =
      card_of("[base]\nfold = \"" + fold + "\"\nfront = \"" + front + "\"\npaper = \"ivory\"\n" + papers);
  return grain_at_fold(card, card.design.base);
}

using enum GrainAtFold;

}  // namespace

TEST_CASE("a blank of 8 1/2 x 5 1/2 from a long-grain letter sheet, scored at 4 1/4, folds with the grain") {
  CHECK(at_fold("side", "4 1/4 x 5 1/2", paper("8 1/2 x 11", "long")) == along);
  CHECK(at_fold("side", "4 1/4 x 5 1/2", paper("11 x 8 1/2", "long")) == along);
}

TEST_CASE("a blank of 4 1/4 x 11 from a long-grain letter sheet, scored at 5 1/2, folds against the grain") {
  CHECK(at_fold("top", "4 1/4 x 5 1/2", paper("8 1/2 x 11", "long")) == across);
  CHECK(at_fold("side", "5 1/2 x 4 1/4", paper("8 1/2 x 11", "long")) == across);
}

TEST_CASE("short grain runs the other way") {
  CHECK(at_fold("side", "4 1/4 x 5 1/2", paper("8 1/2 x 11", "short")) == across);
  CHECK(at_fold("top", "4 1/4 x 5 1/2", paper("8 1/2 x 11", "short")) == along);
}

TEST_CASE("the way that gets more blanks out of the sheet decides") {
  // A sheet of 12 x 9 has four blanks of 6 x 4 as they lie and three turned; one of 10 x 8 has one blank of
  // 8 x 5 as it lies and two turned.
  CHECK(at_fold("side", "3 x 4", paper("12 x 9", "long")) == across);
  CHECK(at_fold("side", "4 x 5", paper("10 x 8", "long")) == along);
  CHECK(at_fold("gate", "3 x 4", "[allowance]\ndoors = 0\n" + paper("12 x 9", "long")) == across);
}

TEST_CASE("where both ways give as many blanks the maker is free") {
  CHECK(at_fold("side", "3 x 4", paper("12 x 12", "long")) == either);
  CHECK(at_fold("side", "4 x 4", paper("9 x 8", "long")) == either);
}

TEST_CASE("nothing is told of the grain where it cannot be known") {
  CHECK_FALSE(at_fold("flat", "4 x 5", paper("8 1/2 x 11", "long")));
  CHECK_FALSE(at_fold("side", "4 x 5", paper("8 1/2 x 11", "")));
  CHECK_FALSE(at_fold("side", "4 x 5", "[[paper]]\nname = \"ivory\"\ngrain = \"long\"\n"));
  CHECK_FALSE(at_fold("side", "4 x 5", ""));
  const Card card = card_of(side_fold + paper("8 1/2 x 11", "long"));
  CHECK_FALSE(grain_at_fold(card, card.design.base));
}

TEST_CASE("of several sheets the first that is large enough and states its grain is told of") {
  const std::string small = paper("5 x 5", "short"), unknown = paper("12 x 9", "");
  CHECK(at_fold("side", "4 1/4 x 5 1/2", small + unknown + paper("8 1/2 x 11", "long")) == along);
}
