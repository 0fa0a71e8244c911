// The JSON of the card in the hand, over sized cards made by hand: shares, the base, the closed card, the
// post. The same in `size` and in `check`.
#include <nlohmann/json.hpp>

#include "cli/json_answer.h"
#include "cli/json_check.h"
#include "tests/catch.h"

using namespace evenmat;
using Json = nlohmann::json;

namespace {

Rational part(int numerator, int denominator) { return Rational(numerator) / denominator; }

// A side-fold card, 4 1/4 x 5 1/2 in closed, with a porthole in the front and a print behind it.
struct Example {
  Card card;
  SizedCard sized;

  Example() {
    card.mark = part(1, 16);
    card.design.base.fold.value = Fold::side;
    card.design.base.front.size = {part(17, 4), part(11, 2)};
    card.design.base.allowance = {part(1, 16), part(1, 16), 0};
    Piece& window = card.design.pieces.emplace_back();
    window.kind = Piece::Kind::window;
    window.name.value = "porthole";
    window.on.value = "front";
    Piece& print = card.design.pieces.emplace_back();
    print.name.value = "sea print";
    print.on.value = "inside";
    sized.versions.push_back(version(card.design));
  }
  Example(const Example&) = delete;
  Example& operator=(const Example&) = delete;

  static SizedVersion version(const Design& design) {
    SizedVersion one;
    one.front = design.base.front.size;
    one.folding = folding_of(design.base);
    for (const Piece& piece : design.pieces) one.pieces.emplace_back().piece = &piece;
    one.pieces[1].shown = {1, part(4, 9)};
    ClosedCard& closed = one.closed.emplace();
    closed.front = one.front;
    closed.over_all = {one.front.width + part(1, 8), one.front.height};
    closed.thickness = part(221, 2000);
    closed.thickest = {{"the back leaf", part(12, 1000)}, {"the foam under boat", part(1, 16)}};
    closed.thickest_at = {2, part(9, 4)};
    closed.no_thickness = {"indigo"};
    closed.no_weight = {"", "indigo"};
    closed.grams = part(65264, 10000);
    closed.girth_across = part(87, 20);
    closed.girth_down = part(56, 10);
    MailNote note;
    note.name = "us A2";
    note.fits = true;
    note.says = "It goes into us A2.";
    note.source = "common practice";
    one.mail = {note};
    return one;
  }

  SizedVersion& version() { return sized.versions.front(); }
  [[nodiscard]] Json size() const { return Json::parse(json_answer(card, sized)); }
  [[nodiscard]] Json check() const {
    CheckedCard checked;
    checked.sized = sized;
    return Json::parse(json_check(card, checked, {}));
  }
  void fold(Fold fold) {
    card.design.base.fold.value = fold;
    version().folding = folding_of(card.design.base);
  }
};

}  // namespace

TEST_CASE("the JSON of a layer has its shares as fractions, and a window none") {
  Example example;
  const Json layer = example.size().at("layers").at(0);
  CHECK(layer.at("visible") == "1");
  CHECK(layer.at("visible_closed") == "4/9");
  CHECK_FALSE(example.size().at("windows").at(0).contains("visible"));
  example.version().closed.reset();
  CHECK_FALSE(example.size().at("layers").at(0).contains("visible"));
}

TEST_CASE("the JSON of a base has its scores and leaves, and how it is made") {
  Example example;
  const Json base = example.size().at("base");
  CHECK(base.at("blank") == Json({{"width", "17/2"}, {"height", "11/2"}}));
  CHECK(base.at("scores") == Json::array({"17/4"}));
  CHECK(base.at("lies") == "inside up");
  CHECK(base.at("score_lines") ==
        Json::array({{{"at", "17/4"}, {"folds", "towards you"}, {"extra", false}, {"turn", 0}}}));
  CHECK(base.at("leaves") == Json::array({{{"name", "front"},
                                           {"toward", "front"},
                                           {"away", "inside front"},
                                           {"from", "0"},
                                           {"length", "17/4"},
                                           {"closed_from", "0"},
                                           {"depth", 0}},
                                          {{"name", "back leaf"},
                                           {"toward", "inside"},
                                           {"away", "back"},
                                           {"from", "17/4"},
                                           {"length", "17/4"},
                                           {"closed_from", "0"},
                                           {"depth", 1}}}));
  CHECK(base.at("order").at(0) == "Cut the blank, 8 1/2 x 5 1/2 in.");
  CHECK(base.at("order").size() == 5);
  CHECK_FALSE(base.contains("grain"));
}

TEST_CASE("the JSON tells which way each score folds, and when") {
  Example example;
  example.card.design.base.scores = {{2, {}}};
  example.fold(Fold::z);
  const Json base = example.size().at("base");
  CHECK(base.at("lies") == "front up");
  CHECK(base.at("scores") == Json::array({"2", "17/4", "17/2"}));
  CHECK(base.at("score_lines") ==
        Json::array({{{"at", "2"}, {"folds", "towards you"}, {"extra", true}, {"turn", 2}},
                     {{"at", "17/4"}, {"folds", "away"}, {"extra", false}, {"turn", 1}},
                     {{"at", "17/2"}, {"folds", "towards you"}, {"extra", false}, {"turn", 0}}}));
}

TEST_CASE("the JSON of a base has its grain where that is known") {
  Example example;
  const auto grain = [&](GrainAtFold known) {
    example.version().grain = known;
    return example.size().at("base").at("grain");
  };
  CHECK(grain(GrainAtFold::along) == "along");
  CHECK(grain(GrainAtFold::across) == "across");
  CHECK(grain(GrainAtFold::either) == "either");
}

TEST_CASE("the JSON of the closed card has every amount, exact but for the grams") {
  const Example example;
  CHECK(example.size().at("closed") == Json({{"width", "17/4"},
                                             {"height", "11/2"},
                                             {"over_all", {{"width", "35/8"}, {"height", "11/2"}}},
                                             {"thickness", "221/2000"},
                                             {"thickest",
                                              {{{"what", "the back leaf"}, {"thickness", "3/250"}},
                                               {{"what", "the foam under boat"}, {"thickness", "1/16"}}}},
                                             {"thickest_at", {{"x", "2"}, {"y", "9/4"}}},
                                             {"no_thickness", {"indigo"}},
                                             {"grams", 6.526},
                                             {"no_weight", {"", "indigo"}},
                                             {"girth_across", "87/20"},
                                             {"girth_down", "28/5"}}));
}

TEST_CASE("the JSON has no thickness and no weight where no paper states one") {
  Example example;
  example.version().closed->thickness = example.version().closed->grams = 0;
  const Json closed = example.size().at("closed");
  for (const char* unknown : {"thickness", "thickest", "thickest_at", "grams"})
    CHECK_FALSE(closed.contains(unknown));
  CHECK(closed.at("no_thickness") == Json::array({"indigo"}));

  example.version().closed.reset();
  CHECK(example.size().at("closed") == Json({{"width", "17/4"}, {"height", "11/2"}}));
}

TEST_CASE("the JSON of envelopes and posts says whether they were asked for and take the card") {
  Example example;
  CHECK(example.size().at("mail") == Json::array({{{"name", "us A2"},
                                                   {"kind", "envelope"},
                                                   {"asked", true},
                                                   {"fits", true},
                                                   {"by_hand", false},
                                                   {"says", "It goes into us A2."},
                                                   {"source", "common practice"}}}));
  example.version().mail[0].kind = MailNote::Kind::post;
  example.version().mail[0].asked = example.version().mail[0].fits = false;
  example.version().mail[0].by_hand = true;
  const Json post = example.size().at("mail").at(0);
  CHECK(post.at("kind") == "post");
  CHECK(post.at("asked") == false);
  CHECK(post.at("fits") == false);
  CHECK(post.at("by_hand") == true);
}

TEST_CASE("check answers what size does of a card that can be built") {
  Example example;
  const Json size = example.size();
  const Json check = example.check();
  for (const char* key : {"layers", "windows", "base", "closed", "mail"})
    CHECK(check.at(key) == size.at(key));
  CHECK(check.contains("spare"));

  CheckedCard clashing;
  clashing.verdict = Verdict::conflict;
  const Json conflict = Json::parse(json_check(example.card, clashing, {}));
  for (const char* key : {"layers", "base", "closed", "mail"}) CHECK_FALSE(conflict.contains(key));
}

TEST_CASE("each variant has a closed card and a post of its own") {
  Example example;
  Variant& variant = example.card.variants.emplace_back();
  variant.name.value = "for the crew";
  variant.design = example.card.design;
  SizedVersion& version = example.sized.versions.emplace_back(Example::version(variant.design));
  version.name = "for the crew";
  version.closed->grams = 7;
  version.mail.clear();
  for (const Json& json : {example.size(), example.check()}) {
    const Json& told = json.at("variants").at(0);
    CHECK(told.at("verdict") == "buildable");
    CHECK(told.at("closed").at("grams") == 7.0);
    CHECK(told.at("mail").empty());
    CHECK(told.at("layers").size() == 1);
    CHECK(json.at("mail").size() == 1);
  }
}
