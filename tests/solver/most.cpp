// The most cards that the paper gives, against numbers worked out by hand and against trying them all.
#include "solver/batch/most.h"

#include "tests/catch.h"
#include "tests/solver/cut_batches.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

CutBatch most_of(const std::string& text) {
  Batch batch(text);
  batch.options.most = true;
  return cut_up(batch);
}

using Made = std::vector<std::vector<int>>;

const std::string variant = "[[variant]]\nname = \"other\"\ncards = ";

}  // namespace

TEST_CASE("asked for the most, fewer cards than the batch are planned without a word of what is missing") {
  const CutBatch cut = most_of(batch_of(14) + base_of("moss") + letters_of("moss", "have = 6\n"));
  CHECK(cut.verdict == CutVerdict::planned);
  CHECK(cut.most == 12);
  CHECK(cut.most_proven);
  CHECK(cut.made == Made{{12}});
  CHECK(plan_of(cut, "moss").sheets == 6);
  CHECK(plan_of(cut, "moss").missing.empty());
}

TEST_CASE("with one version in all the most cards may be more than the batch") {
  const CutBatch cut = most_of(batch_of(2) + base_of("moss") + layer_of("fern", "mat", "3 x 5 1/4") +
                               letters_of("moss", "have = 40\n") + letters_of("fern", "have = 7\n"));
  CHECK(cut.most == 35);  // five mats to a sheet
  CHECK(cut.most_proven);
  CHECK(plan_of(cut, "fern").sheets == 7);
  CHECK(plan_of(cut, "moss").sheets == 18);
}

TEST_CASE("where no paper says how much there is of it there is no most, and the batch is planned") {
  const CutBatch cut = most_of(batch_of(5) + base_of("moss") + letters_of("moss"));
  CHECK(cut.verdict == CutVerdict::planned);
  CHECK_FALSE(cut.most);
  CHECK(cut.made == Made{{5}});
  CHECK(plan_of(cut, "moss").sheets == 3);
}

TEST_CASE("where not one card can be made, the most is none and what is missing is told") {
  const CutBatch cut = most_of(batch_of(5) + base_of("moss") + letters_of("moss", "have = 0\n"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  CHECK(cut.most == 0);
  CHECK(plan_of(cut, "moss").missing.size() == 1);
}

TEST_CASE("with several versions none is made more often than stated") {
  const CutBatch cut =
      most_of(batch_of(6) + base_of("moss") + letters_of("moss", "have = 40\n") + variant + "2\n");
  CHECK(cut.most == 6);
  CHECK(cut.most_proven);
  CHECK(cut.made == Made{{4, 2}});
}

TEST_CASE("of versions that take the same the first is made first") {
  const CutBatch cut =
      most_of(batch_of(9) + base_of("moss") + letters_of("moss", "have = 3\n") + variant + "5\n");
  CHECK(cut.made == Made{{4, 2}});
  CHECK(cut.most_proven);
}

TEST_CASE("a version that takes less paper is made in place of one that takes more") {
  // A plain card takes two quarters of a sheet, a bare one takes one.
  const std::string card = bare_base + layer("mat", "inside", "paper = \"moss\"\nsize = \"4 x 5 1/4\"\n");
  const CutBatch cut = most_of(
      batch_of(8) + card + layer("lining", "back", "paper = \"moss\"\nsize = \"4 x 5 1/4\"\n") +
      letters_of("moss", "have = 2\n") + "[[variant]]\nname = \"bare\"\ncards = 5\nwithout = [\"lining\"]\n");
  // Of eight quarters: two plain cards and four bare ones, where three and two would be five.
  CHECK(cut.made == Made{{2, 4}});
  CHECK(cut.most == 6);
  CHECK(cut.most_proven);
}

TEST_CASE("the spare cards are cards that can be made") {
  const CutBatch cut =
      cut_up(batch_of(4) + "spare = 2\n" + base_of("moss") + letters_of("moss", "have = 2\n"));
  CHECK(cut.verdict == CutVerdict::short_of_paper);
  CHECK(cut.most == 4);
}

TEST_CASE("two files that share a paper are made from the first file on") {
  const std::string first = batch_of(3) + base_of("moss") + letters_of("moss", "have = 2\n");
  const std::string second = batch_of(3) + base_of("moss");
  const CutBatch cut = cut_up(Batch(std::vector<std::string>{first, second}));
  CHECK(cut.made == Made{{3}, {1}});
  CHECK(cut.most == 4);
}

TEST_CASE("the most of several versions is what trying all numbers of them gives") {
  unsigned state = 11;
  const auto next = [&](unsigned below) {
    state = state * 1664525U + 1013904223U;
    return (state >> 16U) % below;
  };
  const std::vector<std::string> sizes{"4 x 5 1/4", "3 x 5 1/4", "4 x 2 1/2", "2 x 3"};
  for (int round = 0; round < 6; ++round) {
    const int plain = 2 + static_cast<int>(next(3));
    const int other = 2 + static_cast<int>(next(3));
    const std::string text =
        batch_of(plain + other) + bare_base +
        layer("mat", "inside",
              "paper = \"moss\"\nsize = \"" + sizes[next(4)] + "\"\nborder = \"at least 0\"\n") +
        layer("flap", "back",
              "paper = \"moss\"\nsize = \"" + sizes[next(4)] + "\"\nborder = \"at least 0\"\n") +
        letters_of("moss", "have = 1\n") + "[[variant]]\nname = \"other\"\ncards = " + std::to_string(other) +
        "\nset = { \"mat.size\" = \"" + sizes[next(4)] + "\" }\n";
    INFO(text);
    const Batch batch(text);
    REQUIRE(batch.counts == Made{{plain, other}});
    const auto trimmer = batch::trimmer_of(batch.cards);
    Made best{{0, 0}};
    for (int a = plain; a >= 0; --a) {
      for (int b = other; b >= 0; --b) {
        const auto needs = batch::gather(batch.cards, batch.more, batch.options, {{a, b}});
        batch::PaperEffort effort;
        effort.until = batch::Clock::now() + std::chrono::seconds(5);
        const bool enough = std::all_of(needs.begin(), needs.end(), [&](const batch::PaperNeeds& paper) {
          return batch::is_enough(paper, trimmer, effort).yes == true;
        });
        if (enough && a + b > batch::cards_in(best)) best = {{a, b}};
      }
    }
    const auto most = batch::most_cards(batch.cards, batch.more, batch.options, batch.counts, false,
                                        batch::Clock::now() + std::chrono::seconds(20));
    REQUIRE(most);
    CHECK(most->counts == best);
  }
}

TEST_CASE("no card that is asked for is given up for a spare") {
  const std::string cards = batch_of(10) + base_of("moss") + variant + "4\n";
  const CutBatch ten = cut_up("spare = 1\n" + cards + letters_of("moss", "have = 5\n"));
  CHECK(ten.verdict == CutVerdict::short_of_paper);
  CHECK(ten.made == Made{{6, 4}});
  const CutBatch eight = cut_up("spare = 1\n" + cards + letters_of("moss", "have = 4\n"));
  CHECK(eight.most == 8);
  CHECK(eight.made == Made{{6, 2}});
  const CutBatch eleven = cut_up("spare = 1\n" + cards + letters_of("moss", "have = 6\n"));
  CHECK(eleven.verdict == CutVerdict::planned);
  CHECK(eleven.made == Made{{7, 4}});
}
