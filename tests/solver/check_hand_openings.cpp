// What a hand that is off can do to a layer behind an opening, and to a card with a limit of thickness.
#include <algorithm>

#include "solver/check_hand.h"
#include "tests/catch.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const Rational thirty_second = part(1, 32);

std::string window_with_print(const std::string& tuck) {
  return "[base]\nfold = \"side\"\nfront = \"5 x 7\"\n"
         "[[window]]\nname = \"hole\"\nin = \"front\"\nsize = \"2 x 2\"\nalign = \"centre\"\n" +
         layer("print", "hole", "tuck = \"" + tuck + "\"\n");
}

}  // namespace

TEST_CASE("a tuck no wider than three slips of the hand may bare the page beside a print") {
  // The window's edge, the print's edge and the placing of the print: 3/32 at each side.
  const auto bares = [](const std::string& tuck) {
    const std::string text = window_with_print(tuck);
    const Card card = card_of(text);
    const HandCheck check = check_hand(card, text, thirty_second, {});
    REQUIRE(check.verdict == Verdict::buildable);
    const auto slip = std::find_if(check.slips.begin(), check.slips.end(), [](const Slip& one) {
      return one.says == "print reaches past hole at the left";
    });
    return slip == check.slips.end() ? std::optional<Rational>() : std::optional(slip->worst - slip->spare);
  };
  CHECK_FALSE(bares("3/32"));
  CHECK_FALSE(bares("1/8"));
  REQUIRE(bares("1/16"));
  CHECK(*bares("1/16") == part(1, 32));
}

TEST_CASE("foam and glue are no things that a hand could place beside a card") {
  const std::string papers =
      "[[paper]]\nname = \"board\"\nthickness = \"0.1\"\n[limit]\nthickness = \"0.35\"\n";
  const std::string text =
      "[base]\nfold = \"side\"\nfront = \"5 x 7\"\npaper = \"board\"\n" + papers +
      layer("boat", "front",
            "size = \"1 x 1\"\nfrom-left = \"1/2\"\nraised = \"0.04\"\nadhesive = \"0.01\"\npaper = "
            "\"board\"\n") +
      layer("wave", "inside", "size = \"1 x 1\"\nfrom-right = \"1/2\"\npaper = \"board\"\n");
  const Card card = card_of(text);
  const HandCheck check = check_hand(card, text, thirty_second, {});
  CHECK(check.verdict == Verdict::buildable);
  CHECK(check.slips.empty());
}
