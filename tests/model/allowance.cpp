// The allowances of folds and envelopes: the usual ones, those that a thick paper asks for, and stated ones.
#include "tests/catch.h"
#include "tests/model/told.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string gate = "[base]\nfold = \"gate\"\nfront = \"6 x 5\"\npaper = \"ivory\"\n";

std::string paper(const std::string& name, const std::string& thickness) {
  return "[[paper]]\nname = \"" + name + "\"\n" +
         (thickness.empty() ? std::string() : "thickness = \"" + thickness + "\"\n");
}

}  // namespace

TEST_CASE("a card that states no allowance has the usual ones of its unit") {
  const Card inches = card_of(gate);
  CHECK(inches.design.base.allowance.doors == part(1, 16));
  CHECK(inches.design.base.allowance.flap == part(1, 16));
  CHECK(inches.design.base.allowance.fold == 0);
  CHECK(inches.mail.ease == part(1, 16));
  const Card metric = card_of("unit = \"mm\"\n" + gate);
  CHECK(metric.design.base.allowance.doors == 1);
  CHECK(metric.design.base.allowance.flap == 2);
  CHECK(metric.design.base.allowance.fold == 0);
  CHECK(metric.mail.ease == part(3, 2));
  CHECK(card_of(gate + "[mail]\nenvelope = \"us A7\"\n").mail.ease == part(1, 16));
}

TEST_CASE("doors and flap of a thick paper leave twice its thickness") {
  const auto of = [](const std::string& papers) { return card_of(gate + papers).design.base.allowance; };
  CHECK(of(paper("ivory", "0.04")).doors == part(8, 100));
  CHECK(of(paper("ivory", "0.04")).flap == part(8, 100));
  CHECK(of(paper("ivory", "1/32")).doors == part(1, 16));
  CHECK(of(paper("ivory", "0.02")).doors == part(1, 16));
  // The first entry of that name which states one; other papers are not the base's.
  CHECK(of(paper("ivory", "") + paper("plum", "1/2") + paper("ivory", "1/8") + paper("ivory", "1/4")).doors ==
        part(1, 4));
  CHECK(of(paper("plum", "1/2")).doors == part(1, 16));
  const Allowance metric = card_of("unit = \"mm\"\n" + gate + paper("ivory", "0.9")).design.base.allowance;
  CHECK(metric.doors == part(9, 5));
  CHECK(metric.flap == 2);
}

TEST_CASE("stated allowances stand, whatever the paper, wherever in the file") {
  const Card card =
      card_of(gate + paper("ivory", "1/8") +
              "[allowance]\ndoors = \"1/32\"\nflap = \"1 mm\"\nfold = 0.01\nenvelope = \"1/8\"\n");
  CHECK(card.design.base.allowance.doors == part(1, 32));
  CHECK(card.design.base.allowance.flap == part(5, 127));
  CHECK(card.design.base.allowance.fold == part(1, 100));
  CHECK(card.mail.ease == part(1, 8));
  const Card none = card_of("[allowance]\ndoors = 0\nenvelope = 0\n" + gate + paper("ivory", "1/8"));
  CHECK(none.design.base.allowance.doors == 0);
  CHECK(none.design.base.allowance.flap == part(1, 4));
  CHECK(none.mail.ease == 0);
}

TEST_CASE("a variant on another paper has that paper's allowances") {
  const std::string variants =
      "[[variant]]\nname = \"on board\"\nset = { \"base.paper\" = \"board\" }\n"
      "[[variant]]\nname = \"as it is\"\n";
  const std::string text = "cards = 3\n" + gate + paper("ivory", "0.01") + paper("board", "0.05") + variants;
  const Card card = card_of(text);
  CHECK(card.design.base.allowance.doors == part(1, 16));
  CHECK(card.variants.at(0).design.base.allowance.doors == part(1, 10));
  CHECK(card.variants.at(1).design.base.allowance.doors == part(1, 16));
  CHECK(card_of(text + "[allowance]\ndoors = \"1/32\"\n").variants.at(0).design.base.allowance.doors ==
        part(1, 32));
}

TEST_CASE("an allowance that is none is told") {
  after_base("[allowance]\ndoors = -1\n", 5, 9, {"\"doors\"", "less than 0"});
  after_base("[allowance]\nflap = \"x\"\n", 5, 8, {"\"x\""});
  after_base("[allowance]\nfold = \"-1/64\"\n", 5, 8, {"\"fold\"", "less than 0"});
  after_base("[allowance]\nenvelope = true\n", 5, 12, {"\"envelope\"", "true"});
  after_base("[allowance]\ndors = 1\n", 5, 1, {"\"dors\"", "\"doors\""});
  after_base("[[allowance]]\ndoors = 1\n", 4, 3, {"[allowance]"});
  at_top("allowance = 1", 13, {"[allowance]"});
}
