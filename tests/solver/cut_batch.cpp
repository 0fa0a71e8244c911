// Batches of cards planned whole: how many sheets, which pieces for which layers, and in which order.
#include "solver/cut_batch.h"

#include "tests/catch.h"
#include "tests/solver/cut_batches.h"

using namespace evenmat;
using namespace evenmat::testing;

TEST_CASE("a letter sheet gives two bases of 5 1/2 x 8 1/2, and nothing is left of it") {
  const CutBatch cut = cut_up(batch_of(14) + base_of("moss") + letters_of("moss", "have = 7\n"));
  CHECK(cut.verdict == CutVerdict::planned);
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 7);
  CHECK(moss.at_least == 7);
  CHECK(moss.proven);
  CHECK_FALSE(moss.cost);
  CHECK(told(moss) == Told{"7 of A from 17/2 x 11"});
  CHECK(moss.plan.front().leftovers.empty());
  CHECK(moss.plan.front().used == 1);
  CHECK(cut.made == std::vector<std::vector<int>>{{14}});
  CHECK_FALSE(cut.most);
}

TEST_CASE("mats that may turn fit five to a sheet where those of a print that may not are four") {
  // 3 x 5 1/4: three one way and two turned.
  const std::string card = "[base]\nfold = \"side\"\nfront = \"3 1/4 x 5 1/2\"\n" +
                           layer("mat", "front", "border = \"1/8\"\npaper = \"moss\"\n");
  const CutBatch turned = cut_up(batch_of(20) + card + letters_of("moss"));
  CHECK(plan_of(turned, "moss").sheets == 4);
  CHECK(plan_of(turned, "moss").proven);
  const CutBatch upright = cut_up(batch_of(20) + card + letters_of("moss", "up = true\n"));
  CHECK(plan_of(upright, "moss").sheets == 5);
  CHECK(plan_of(upright, "moss").proven);
  for (const LaidPiece& piece : plan_of(upright, "moss").plan.front().pieces) CHECK_FALSE(piece.turned);
}

TEST_CASE("papers are planned each for itself, in the order in which the cards name them") {
  const CutBatch cut = cut_up(batch_of(6) + base_of("ivory") + layer_of("moss", "mat", "4 x 5 1/4") +
                              letters_of("moss") + letters_of("ivory"));
  REQUIRE(cut.papers.size() == 2);
  CHECK(cut.papers[0].paper == "ivory");
  CHECK(cut.papers[0].sheets == 3);
  CHECK(cut.papers[1].paper == "moss");
  CHECK(cut.papers[1].sheets == 2);  // four to a sheet
}

TEST_CASE("two files of one call share the sheets of a paper, and their equal pieces are one kind") {
  const std::string first = batch_of(3) + base_of("moss") + letters_of("moss", "have = 4\n");
  const std::string second =
      batch_of(5) + "[base]\nfold = \"top\"\nfront = \"5 1/2 x 4 1/4\"\npaper = \"moss\"\n";
  const CutBatch cut = cut_up(Batch(std::vector<std::string>{first, second}));
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 4);
  REQUIRE(moss.pieces.size() == 1);
  REQUIRE(moss.pieces.front().uses.size() == 2);
  CHECK(moss.pieces.front().uses[0].card == 0);
  CHECK(moss.pieces.front().uses[0].count == 3);
  CHECK(moss.pieces.front().uses[1].card == 1);
  CHECK(moss.pieces.front().uses[1].count == 5);
  CHECK(cut.made == std::vector<std::vector<int>>{{3}, {5}});
}

TEST_CASE("pieces go to the layers that want them in as few runs as can be") {
  // Four to a sheet, and every sheet is cut alike. Two layers of one size want twelve each: on every sheet
  // two places are the one's and two the other's.
  const CutBatch cut =
      cut_up(batch_of(12) + bare_base + layer_of("moss", "mat", "4 x 5 1/4") +
             layer("lining", "inside", "paper = \"moss\"\nsize = \"4 x 5 1/4\"\n") + letters_of("moss"));
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 6);
  for (const LaidSheet& laid : moss.plan) CHECK(laid.runs.size() == 1);
}

TEST_CASE("where a use ends within a stack the stack is told in two runs") {
  const std::string variant = "[[variant]]\nname = \"other\"\ncards = 3\n";
  const CutBatch cut = cut_up(batch_of(8) + base_of("moss") + letters_of("moss") + variant);
  const PaperPlan& moss = plan_of(cut, "moss");
  REQUIRE(moss.plan.size() == 1);
  // Five of the plain card and three of the other, two to a sheet: four, one and one, two.
  CHECK(moss.plan.front().runs.size() == 2);
  CHECK(cut.made == std::vector<std::vector<int>>{{5, 3}});
}

TEST_CASE("sheets that bases are cut from are lettered before those that give layers alone") {
  const CutBatch cut =
      cut_up(batch_of(4) + base_of("moss") + layer_of("moss", "mat", "4 x 5 1/4") + letters_of("moss"));
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 3);
  CHECK(moss.proven);
  bool bases = true;
  for (std::size_t i = 0; i < moss.plan.size(); ++i) {
    CHECK(moss.plan[i].letter == std::string(1, static_cast<char>('A' + i)));
    bool holds_base = false;
    for (const LaidPiece& piece : moss.plan[i].pieces)
      holds_base = holds_base || moss.pieces[piece.kind].uses.front().base;
    CHECK((bases || !holds_base));
    bases = holds_base;
  }
}

TEST_CASE("an untrue edge comes off first, at the bottom, and its strip is not kept") {
  // 10 1/2 are left of 11: two mats of 5 1/4 down and two of 4 1/4 across.
  const CutBatch cut =
      cut_up(batch_of(4) + "[base]\nfold = \"flat\"\nfront = \"4 1/4 x 5 1/4\"\npaper = \"moss\"\n" +
             letters_of("moss", "trim-first = \"1/2\"\n"));
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 1);
  CHECK(moss.proven);
  const LaidSheet& sheet = moss.plan.front();
  CHECK(sheet.cuts.front().across);
  CHECK(sheet.cuts.front().at == part(21, 2));
  CHECK(sheet.cuts.front().step == 1);
  REQUIRE(sheet.leftovers.size() == 1);
  CHECK(box_of(sheet.leftovers.front()) == Box{0, part(21, 2), part(17, 2), part(1, 2)});

  // With a strip that would be worth keeping.
  const CutBatch wide =
      cut_up(batch_of(2) + "[base]\nfold = \"flat\"\nfront = \"4 1/4 x 8\"\npaper = \"moss\"\n" +
             letters_of("moss", "trim-first = \"3\"\n"));
  REQUIRE(plan_of(wide, "moss").plan.front().leftovers.size() == 1);
  CHECK_FALSE(plan_of(wide, "moss").plan.front().leftovers.front().keep);
}

TEST_CASE("what the blade takes is missing between two pieces, and not beside the last") {
  const auto of = [](const std::string& width, const std::string& loss) {
    return cut_up(batch_of(2) + "[base]\nfold = \"flat\"\nfront = \"" + width +
                  " x 11\"\npaper = \"moss\"\n" + letters_of("moss") + "[trimmer]\nblade-loss = \"" + loss +
                  "\"\n");
  };
  CHECK(plan_of(of("4 1/4", "0"), "moss").sheets == 1);
  CHECK(plan_of(of("4 1/4", "1/32"), "moss").sheets == 2);
  const CutBatch narrower = of("4 15/64", "1/32");
  CHECK(plan_of(narrower, "moss").sheets == 1);
  const std::vector<LaidPiece>& pieces = plan_of(narrower, "moss").plan.front().pieces;
  REQUIRE(pieces.size() == 2);
  const Rational apart = abs(Rational(pieces[0].x - pieces[1].x));
  CHECK(apart == part(271, 64) + part(1, 32));
}

TEST_CASE("a trimmer with a blade that takes as much as the untrue edge takes it whole") {
  const CutBatch cut =
      cut_up(batch_of(1) + "[base]\nfold = \"flat\"\nfront = \"8 1/2 x 10 7/8\"\npaper = \"moss\"\n" +
             letters_of("moss", "trim-first = \"1/8\"\n") + "[trimmer]\nblade-loss = \"1/8\"\n");
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 1);
  CHECK(moss.plan.front().cuts.size() == 1);
  CHECK(moss.plan.front().leftovers.empty());
}

TEST_CASE("a leftover is worth keeping when a hand can hold it and it is twice as long") {
  // A strip of 2 x 8 1/2 beside, once a piece of 9 x 8 1/2 is off.
  const auto left = [](const std::string& front) {
    const CutBatch cut = cut_up(batch_of(1) + "[base]\nfold = \"flat\"\nfront = \"" + front +
                                "\"\npaper = \"moss\"\n" + letters_of("moss"));
    REQUIRE(plan_of(cut, "moss").plan.front().leftovers.size() == 1);
    return plan_of(cut, "moss").plan.front().leftovers.front();
  };
  CHECK(left("8 1/2 x 9").keep);
  CHECK(left("8 1/2 x 10").keep);
  CHECK_FALSE(left("8 1/2 x 10 1/16").keep);
}

TEST_CASE("millimetres and inches in one card are planned exactly") {
  const CutBatch cut =
      cut_up("unit = \"mm\"\n" + batch_of(4) +
             "[base]\nfold = \"flat\"\nfront = \"105 x 148.5\"\npaper = \"moss\"\n" +
             layer("label", "front",
                   "paper = \"moss\"\nsize = \"2 in x 1 in\"\nborder = \"at least 0\"\ncut = \"die\"\n") +
             paper("moss", "sheet = \"210 x 297\"\n"));
  const PaperPlan& moss = plan_of(cut, "moss");
  CHECK(moss.sheets == 2);
  CHECK(moss.proven);
  REQUIRE(moss.pieces.size() == 2);
  CHECK(moss.pieces[1].size == Size{part(254, 5) + 6, part(127, 5) + 6});
}

TEST_CASE("what states no paper, and what the batch wants in all, is told beside the plan") {
  const CutBatch cut =
      cut_up(batch_of(3) + bare_base + layer_of("moss", "mat", "4 x 5", "raised = \"1/16\"\n") +
             letters_of("moss") + "[[supply]]\nname = \"gems\"\nper-card = 4\n");
  REQUIRE(cut.no_paper.size() == 1);
  CHECK(cut.no_paper.front().layer == "base");
  CHECK(cut.totals.foam == 60);
  REQUIRE(cut.totals.supplies.size() == 1);
  CHECK(cut.totals.supplies.front().second == 12);
}

TEST_CASE("the same batch gives the same plan") {
  const std::string text = batch_of(9) + base_of("moss") + layer_of("moss", "mat", "3 x 2") +
                           layer("flag", "inside", "paper = \"moss\"\nsize = \"1 x 3/4\"\ncopies = 3\n") +
                           letters_of("moss");
  const CutBatch once = cut_up(text);
  const CutBatch again = cut_up(text);
  CHECK(told(plan_of(once, "moss")) == told(plan_of(again, "moss")));
  for (std::size_t i = 0; i < plan_of(once, "moss").plan.size(); ++i) {
    const LaidSheet& a = plan_of(once, "moss").plan[i];
    const LaidSheet& b = plan_of(again, "moss").plan[i];
    REQUIRE(a.pieces.size() == b.pieces.size());
    for (std::size_t j = 0; j < a.pieces.size(); ++j) CHECK(box_of(a.pieces[j]) == box_of(b.pieces[j]));
  }
}

TEST_CASE("long work says how far it is") {
  Batch batch(batch_of(20) + base_of("moss") + letters_of("moss"));
  std::vector<std::string> said;
  batch.options.at_work = [&](std::string_view sentence) { said.emplace_back(sentence); };
  cut_up(batch);
  for (const std::string& sentence : said) {
    INFO(sentence);
    CHECK(sentence.starts_with("moss: "));
  }
}
