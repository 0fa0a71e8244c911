// Batches that there is too little paper for: what is missing, and what can be made instead.
#include "tests/catch.h"
#include "tests/solver/cut_batches.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const Shortage& missing(const CutBatch& cut, const std::string& paper) {
  const PaperPlan& plan = plan_of(cut, paper);
  REQUIRE(plan.missing.size() == 1);
  return plan.missing.front();
}

// A mat on a front that is large enough for anything and of no paper.
std::string mat(const std::string& size) {
  return "[base]\nfold = \"flat\"\nfront = \"30 x 30\"\n" + layer_of("moss", "mat", size);
}

}  // namespace

TEST_CASE("one sheet short: so is it told, with a plan for the most cards there is paper for") {
  const CutBatch cut = cut_up(batch_of(12) + base_of("moss") + letters_of("moss", "have = 5\n"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  const Shortage& lacks = missing(cut, "moss");
  CHECK(lacks.sheet == Size{part(17, 2), 11});
  CHECK(lacks.sheets == 1);
  CHECK(lacks.at_least == 1);
  CHECK(lacks.says == "There is too little of \"moss\": 1 more of 8 1/2 x 11 in would do, and no fewer.");
  CHECK(cut.most == 10);
  CHECK(cut.most_proven);
  CHECK(cut.made == std::vector<std::vector<int>>{{10}});
  CHECK(plan_of(cut, "moss").sheets == 5);
  CHECK(plan_of(cut, "moss").pieces.front().count == 10);
}

TEST_CASE("of two sizes the one of which fewest are missing is told, the first of equals") {
  const auto lacking = [](const std::string& first, const std::string& second) {
    const CutBatch cut =
        cut_up(batch_of(6) + base_of("moss") + paper("moss", "sheet = \"" + first + "\"\nhave = 1\n") +
               paper("moss", "sheet = \"" + second + "\"\nhave = 1\n"));
    return std::pair(missing(cut, "moss").sheet, missing(cut, "moss").sheets);
  };
  // 2 and 1 are there; of the larger 2 more are wanted, of the smaller 3.
  CHECK(lacking("8 1/2 x 5 1/2", "8 1/2 x 11") == std::pair(Size{part(17, 2), 11}, 2));
  CHECK(lacking("8 1/2 x 11", "8 1/2 x 5 1/2") == std::pair(Size{part(17, 2), 11}, 2));
  CHECK(lacking("8 1/2 x 11", "9 x 11").first == Size{part(17, 2), 11});
  CHECK(lacking("9 x 11", "8 1/2 x 11").first == Size{9, 11});
}

TEST_CASE("where two sizes are wanted side by side, each is told with its number") {
  // The strip of 12 comes from one size alone and the square of 8 from the other.
  const CutBatch cut = cut_up(batch_of(2) + "[base]\nfold = \"flat\"\nfront = \"8 x 8\"\npaper = \"moss\"\n" +
                              layer("strip", "front", "paper = \"moss\"\nsize = \"1 x 8\"\n") +
                              paper("moss", "sheet = \"8 x 8\"\nhave = 0\nup = true\n") +
                              paper("moss", "sheet = \"1 x 12\"\nhave = 0\n"));
  // Squares alone would do for both: two for the bases and one for the strips.
  CHECK(missing(cut, "moss").sheets == 3);

  const CutBatch both = cut_up(
      batch_of(2) + "[base]\nfold = \"flat\"\nfront = \"12 x 8\"\npaper = \"moss\"\n" +
      layer("lid", "front",
            "paper = \"moss\"\nsize = \"11 x 1 1/2\"\ncut = \"die\"\nborder = \"at least 0\"\n") +
      paper("moss", "sheet = \"12 x 8\"\nhave = 1\n") + paper("moss", "sheet = \"12 x 2\"\nhave = 0\n"));
  CHECK(both.verdict == CutVerdict::short_of_paper);
  CHECK(missing(both, "moss").sheet == Size{12, 8});
}

TEST_CASE("none at all is told as none") {
  const CutBatch cut = cut_up(batch_of(4) + base_of("moss") + letters_of("moss", "have = 0\n"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  CHECK(missing(cut, "moss").sheets == 2);
  CHECK(missing(cut, "moss").says ==
        "There is none of \"moss\": have = 0. 2 of 8 1/2 x 11 in would do, and no fewer.");
  CHECK(cut.most == 0);
  CHECK(cut.most_proven);
  CHECK(plan_of(cut, "moss").plan.empty());
}

TEST_CASE("a piece larger than every sheet is told with how far it sticks out of the best") {
  const CutBatch cut =
      cut_up(batch_of(2) + mat("9 x 11 1/4") + paper("moss", "sheet = \"9 x 10\"\n") + letters_of("moss"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  const Shortage& lacks = missing(cut, "moss");
  REQUIRE(lacks.too_large);
  CHECK(lacks.too_large->size == Size{9, part(45, 4)});
  CHECK(lacks.sheets == 0);
  // 1/2 too wide and 1/4 too tall for the letter sheet; 1 1/4 too tall for the other.
  CHECK(lacks.by == part(1, 2));
  CHECK(lacks.sheet == Size{part(17, 2), 11});
  CHECK(lacks.says ==
        "\"mat\" is cut 9 x 11 1/4 in, and no sheet of \"moss\" takes it: on 8 1/2 x 11 in it is 1/2 in too "
        "wide "
        "and 1/4 in too tall, and turned no less.");
  CHECK(cut.most == 0);
}

TEST_CASE("a print that may not turn is too large where it would fit when turned") {
  const CutBatch cut = cut_up(batch_of(2) + mat("10 x 6") + letters_of("moss", "up = true\n"));
  CHECK(missing(cut, "moss").by == part(3, 2));
  CHECK(missing(cut, "moss")
            .says.ends_with("on 8 1/2 x 11 in it is 1 1/2 in too wide, and it may not be turned."));
  const CutBatch free = cut_up(batch_of(2) + mat("10 x 6") + letters_of("moss"));
  CHECK(free.verdict == CutVerdict::planned);
}

TEST_CASE("a piece fits best turned") {
  const CutBatch cut = cut_up(batch_of(1) + mat("11 1/8 x 4") + letters_of("moss"));
  CHECK(missing(cut, "moss").by == part(1, 8));
  CHECK(missing(cut, "moss")
            .says.ends_with("on 8 1/2 x 11 in it is 1/8 in too tall turned, and more if it is not."));
}

TEST_CASE("a sheet that is longer every way than the longest cut cannot be cut") {
  const CutBatch cut = cut_up(batch_of(1) + mat("5 x 5") + paper("moss", "sheet = \"20 x 26\"\n"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  CHECK(missing(cut, "moss").says ==
        "\"mat\" is cut 5 x 5 in, and no sheet of \"moss\" takes it: 20 x 26 in is longer every way than "
        "the 12 in "
        "that the trimmer cuts at most.");
  const CutBatch longer = cut_up(batch_of(1) + mat("5 x 5") + paper("moss", "sheet = \"20 x 26\"\n") +
                                 "[trimmer]\nlongest = \"26\"\n");
  CHECK(longer.verdict == CutVerdict::planned);
}

TEST_CASE("an untrue edge longer than the longest cut cannot be trimmed off") {
  const CutBatch cut =
      cut_up(batch_of(1) + mat("5 x 5") + paper("moss", "sheet = \"20 x 10\"\ntrim-first = \"1/4\"\n"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  CHECK(missing(cut, "moss").says ==
        "\"mat\" is cut 5 x 5 in, and no sheet of \"moss\" takes it: an edge of 20 x 10 in has to come off "
        "first, and "
        "the trimmer cuts no more than 12 in.");
}

TEST_CASE("a piece that leaves less than can be trimmed off fits no sheet") {
  const CutBatch cut = cut_up(batch_of(1) + mat("8 7/16 x 11") + letters_of("moss"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  CHECK(missing(cut, "moss").by == 0);
  CHECK(missing(cut, "moss")
            .says.ends_with("8 1/2 x 11 in leaves less beside it than the 1/8 in that can be trimmed off."));
}

TEST_CASE("a variant whose paper is too small is left out of what can be made, and told") {
  const CutBatch cut =
      cut_up(batch_of(6) + bare_base + layer_of("moss", "mat", "4 x 5") + letters_of("moss", "have = 3\n") +
             paper("print", "sheet = \"3 x 3\"\n") +
             "[[variant]]\nname = \"printed\"\ncards = 2\nset = { \"mat.paper\" = \"print\" }\n");
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  CHECK(cut.most == 4);
  CHECK(cut.most_proven);
  CHECK(cut.made == std::vector<std::vector<int>>{{4, 0}});
  REQUIRE(missing(cut, "print").too_large);
  CHECK(plan_of(cut, "print").plan.empty());
  CHECK(plan_of(cut, "moss").missing.empty());
  CHECK(plan_of(cut, "moss").sheets == 1);
}

TEST_CASE("lengths with no common measure that planning can use are said to have none") {
  const CutBatch cut = cut_up(
      batch_of(1) + "[base]\nfold = \"flat\"\nfront = \"5.0000000001 x 4.0000000003\"\npaper = \"moss\"\n" +
      letters_of("moss"));
  CHECK(cut.verdict == CutVerdict::undecided);
  CHECK_FALSE(plan_of(cut, "moss").trouble.empty());
}
