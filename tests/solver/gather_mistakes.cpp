// What is wrong with cards as a batch: where it is told, in whose words, and what is let pass.
#include <fmt/format.h>

#include "tests/catch.h"
#include "tests/solver/gathered.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string base = "[base]\nfold = \"side\"\nfront = \"4 x 5\"\npaper = \"ivory\"\n";
const std::string ivory = paper("ivory", "sheet = \"8 1/2 x 11\"\n");

// Each as "first.toml 4:9"; they all say the words.
Told places_of(const Batch& batch, const std::vector<std::string>& words) {
  Told places;
  for (const BatchMistake& mistake : batch.mistakes()) {
    const Spot& spot = mistake.remark.spot;
    places.push_back(batch.cards[mistake.card].file + " " + std::to_string(spot.line) + ":" +
                     std::to_string(spot.column));
    for (const std::string& word : words) {
      INFO(mistake.remark.says);
      CHECK(mistake.remark.says.find(word) != std::string::npos);
    }
  }
  return places;
}
Told places(const std::vector<std::string>& cards, const std::vector<std::string>& words) {
  return places_of(Batch(cards), words);
}

}  // namespace

TEST_CASE("a batch whose papers are all there has nothing wrong with it") {
  CHECK(Batch(base + ivory).mistakes().empty());
  CHECK(Batch({base, base + ivory}).mistakes().empty());
  CHECK(Batch({base + ivory, base + ivory}).mistakes().empty());
  Batch batch(base);
  CHECK(batch.also("left-over.toml", ivory).mistakes().empty());
  // What is not cut needs no paper: ink, ready-made things, versions of which there is no card.
  CHECK(Batch(base + ivory + layer("words", "front", "size = \"1 x 1\"\nstamped = true\npaper = \"jet\"\n"))
            .mistakes()
            .empty());
  CHECK(
      Batch(base + ivory + layer("gem", "front", "size = \"1 x 1\"\ncut = \"ready-made\"\npaper = \"jet\"\n"))
          .mistakes()
          .empty());
  CHECK(Batch("cards = 2\n[base]\nfold = \"side\"\nfront = \"4 x 5\"\npaper = \"jet\"\n" + ivory +
              "[[variant]]\nname = \"a\"\ncards = 2\nset = { \"base.paper\" = \"ivory\" }\n")
            .mistakes()
            .empty());
}

TEST_CASE("a paper that no file defines is told where it is named, with the nearest name there is") {
  CHECK(places({base}, {"No [[paper]] is called \"ivory\". Add", "sheet = \"8 1/2 x 11\""}) ==
        Told{"first.toml 4:9"});
  CHECK(places({"unit = \"mm\"\n[base]\nfold = \"flat\"\nfront = \"99 x 99\"\npaper = \"ivory\"\n"},
               {"sheet = \"210 x 297\""}) == Told{"first.toml 5:9"});
  CHECK(places({base + ivory + layer("mat", "front", "paper = \"ivry\"\n")},
               {"\"ivry\"", "Did you mean \"ivory\"?"}) == Told{"first.toml 11:9"});
  // Once in each file that names it, though two layers do.
  const std::string mats = layer("mat", "front", "paper = \"ivry\"\nsize = \"3 x 4\"\n") +
                           layer("inner", "mat", "paper = \"ivry\"\nsize = \"2 x 3\"\n");
  CHECK(places({base + ivory + mats, base + mats},
               {"\"ivry\" in any of the files", "Did you mean \"ivory\"?"}) ==
        Told{"first.toml 11:9", "second.toml 8:9"});
  Batch batch(base + ivory + layer("mat", "front", "paper = \"mos\"\n"));
  batch.also("left-over.toml", paper("moss", "sheet = \"2 x 3\"\n"));
  CHECK(places_of(batch, {"Did you mean \"moss\"? Name one that there is"}) == Told{"first.toml 11:9"});
}

TEST_CASE("a paper that only a variant names wrongly is told at the variant's own words") {
  CHECK(places({"cards = 4\n" + base + ivory + layer("mat", "front", "paper = \"ivory\"\n") +
                "[[variant]]\nname = \"blue\"\nset = { \"mat.paper\" = \"ivroy\" }\n"},
               {"\"ivroy\"", "Did you mean \"ivory\"?"}) == Told{"first.toml 15:23"});
}

TEST_CASE("a paper of which no sheet is stated is told at its entry") {
  const std::string bare = paper("ivory", "weight = \"216 gsm\"\n");
  CHECK(places({base + bare}, {"\"ivory\" states no sheet", "sheet = \"8 1/2 x 11\""}) ==
        Told{"first.toml 6:8"});
  CHECK(places({base, base + bare}, {"\"ivory\" states no sheet"}) == Told{"second.toml 6:8"});
  CHECK(Batch({base + bare, base + ivory}).mistakes().empty());
  // A number of sheets of no size beside others of one.
  CHECK(places({base + ivory + paper("ivory", "have = 3\n")}, {"how large its sheets are"}) ==
        Told{"first.toml 10:8"});
  CHECK(places({base + ivory + paper("ivory", "cost = 3\n")}, {"how large its sheets are"}) ==
        Told{"first.toml 10:8"});
}

TEST_CASE("sheets that two files count differently are told in the later one") {
  const auto entry = [](const std::string& keys) {
    return paper("ivory", "sheet = \"8 1/2 x 11\"\n" + keys);
  };
  CHECK(places({base + entry("have = 3\n"), base + entry("have = 4\n")},
               {"have of \"ivory\", 8 1/2 x 11 in, is 4 here and 3 in first.toml"}) ==
        Told{"second.toml 8:8"});
  CHECK(Batch({base + entry("have = 3\n"), base + entry(""), base + entry("have = 3\n")}).mistakes().empty());
  CHECK(places({base + entry("have = 3\n"), base + entry(""), base + entry("have = 2\n")},
               {"3 in first.toml"}) == Told{"third.toml 8:8"});
  CHECK(places({base + entry("cost = \"1/2\"\n"), base + entry("cost = 1\n")},
               {"cost of", "is 1 here and 1/2 in"}) == Told{"second.toml 8:8"});
  CHECK(places({base + entry("grain = \"long\"\n"), base + entry("grain = \"short\"\n")},
               {"grain of", "is \"short\" here and \"long\" in"}) == Told{"second.toml 8:9"});
  const std::string metric =
      "unit = \"mm\"\n[base]\nfold = \"side\"\nfront = \"99 x 99\"\npaper = \"ivory\"\n";
  const auto lying = [](const std::string& trim) {
    return paper("ivory", "sheet = \"us letter\"\ntrim-first = \"" + trim + "\"\n");
  };
  CHECK(Batch({base + entry("trim-first = \"1/2\"\n"), metric + lying("12.7")}).mistakes().empty());
  CHECK(places({base + entry("trim-first = \"1/2\"\n"), metric + lying("12")},
               {"215.9 x 279.4 mm, is 12 mm here and 12.7 mm in first.toml"}) == Told{"second.toml 9:14"});
  // Two entries in one file are two stacks.
  CHECK(Batch(base + entry("have = 3\n") + entry("have = 4\n")).mistakes().empty());
}

TEST_CASE("one trimmer cuts the whole batch") {
  const std::string metric = "unit = \"mm\"\n" + base;
  for (const std::string key : {"longest", "blade-loss", "hold", "sliver"}) {
    INFO(key);
    const auto trimmer = [&](const std::string& value) {
      return fmt::format("{}[trimmer]\n{} = {}\n", ivory, key, value);
    };
    CHECK(
        places({base + trimmer("3"), base + trimmer("4")}, {key + " is 4 in here and 3 in in first.toml"}) ==
        Told{"second.toml 9:" + std::to_string(key.size() + 4)});
    CHECK(Batch({base + trimmer("3"), base, base + trimmer("3")}).mistakes().empty());
    CHECK(Batch({base + trimmer("1"), base + trimmer("\"25.4 mm\"")}).mistakes().empty());
  }
}

TEST_CASE("a hand that could not hold a whole sheet is told at its width") {
  const auto held = [](const std::string& hold, const std::string& sheet) {
    return base + paper("ivory", "sheet = \"" + sheet + "\"\n") + "[trimmer]\nhold = " + hold + "\n";
  };
  CHECK(places({held("12", "8 1/2 x 11")}, {"12 in", "\"ivory\", which is 8 1/2 x 11 in",
                                            "the usual is 1 in"}) == Told{"first.toml 9:8"});
  CHECK(Batch(held("11", "8 1/2 x 11")).mistakes().empty());
  // Of a paper that nothing is cut from it does not matter.
  CHECK(Batch(held("11", "8 1/2 x 11") + paper("sky", "sheet = \"2 x 3\"\n")).mistakes().empty());
  Batch batch(held("3", "8 1/2 x 11"));
  CHECK(batch.also("left-over.toml", paper("ivory", "sheet = \"2 x 1\"\n")).mistakes().size() == 1);
}

TEST_CASE("a sheet of which nothing is left once its edge is off is told at that edge") {
  CHECK(places({base + paper("ivory", "sheet = \"11 x 8 1/2\"\ntrim-first = \"8 1/2\"\n")},
               {"8 1/2 in", "nothing is left"}) == Told{"first.toml 8:14"});
  CHECK(Batch(base + paper("ivory", "sheet = \"11 x 8 1/2\"\ntrim-first = 8\n")).mistakes().empty());
}

TEST_CASE("a base that is to fold with the grain wants sheets that let it") {
  const auto wrong = [](const std::string& papers, const std::vector<std::string>& words,
                        const std::string& fold = "side") {
    Batch batch("[base]\nfold = \"" + fold + "\"\nfront = \"4 x 5\"\npaper = \"ivory\"\n" + papers);
    CHECK(batch.mistakes().empty());
    return places_of(batch.along_the_grain(), words);
  };
  const auto sheet = [](const std::string& size, const std::string& keys) {
    return paper("ivory", "sheet = \"" + size + "\"\n" + keys);
  };
  const std::string down = "grain = \"long\"\n";
  CHECK(wrong(sheet("8 1/2 x 11", down), {}).empty());
  CHECK(wrong(sheet("8 1/2 x 11", ""), {"\"ivory\", 8 1/2 x 11 in", "grain = \"long\""}) ==
        Told{"first.toml 7:9"});
  CHECK(wrong(sheet("8 1/2 x 11", ""), {}, "flat").empty());
  // A sheet that gives no base either way need not say.
  CHECK(wrong(sheet("8 1/2 x 11", down) + sheet("4 x 7", ""), {}).empty());
  CHECK(wrong(sheet("8 1/2 x 11", down) + sheet("5 x 8", ""), {"5 x 8 in"}) == Told{"first.toml 11:9"});
  // A print that keeps its way up cannot lie along the grain as well, if that runs across.
  const std::string up = "up = true\n";
  CHECK(wrong(sheet("8 1/2 x 11", down + up), {}).empty());
  CHECK(wrong(sheet("11 x 8 1/2", down + up), {"keeps its way up", "across its fold"}) ==
        Told{"first.toml 4:9"});
  CHECK(wrong(sheet("11 x 8 1/2", down + up), {}, "flat").empty());
  CHECK(wrong(sheet("7 x 12", down + up), {}).empty());  // too narrow for one as it is
  // Edges that come off first keep two sheets from lying the same way.
  const std::string untrue = "trim-first = \"1/4\"\n";
  CHECK(wrong(sheet("9 x 11", down + untrue) + sheet("11 x 9", down), {}).empty());
  CHECK(wrong(sheet("9 x 11", down + untrue) + sheet("11 x 9", down + untrue), {"the other way"}) ==
        Told{"first.toml 12:9"});
  Batch batch("[base]\nfold = \"side\"\nfront = \"4 x 5\"\npaper = \"ivory\"\n" + sheet("8 1/2 x 11", down));
  batch.also("left-over.toml", sheet("9 x 9", "")).along_the_grain();
  CHECK(places_of(batch, {"9 x 9 in, in left-over.toml"}) == Told{"first.toml 4:9"});
}

TEST_CASE("a batch without end is refused") {
  Batch batch(
      "cards = 1000000\n" + base + ivory +
      layer("dot", "front", "paper = \"ivory\"\nsize = \"1/16 x 1/16\"\ncopies = 600\ncolumns = 25\n"));
  CHECK(batch.mistakes().empty());
  Batch more(
      "cards = 1000000\nspare = 1000000\n" + base + ivory +
      layer("dot", "front", "paper = \"ivory\"\nsize = \"1/16 x 1/16\"\ncopies = 600\ncolumns = 25\n"));
  CHECK(places_of(more, {"State fewer cards"}) == Told{"first.toml 0:0"});
}
