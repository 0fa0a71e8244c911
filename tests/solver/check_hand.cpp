// What a hand that is off can do to a card, worked out by hand.
#include "solver/check_hand.h"

#include "tests/catch.h"
#include "tests/solver/sized.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

const std::string flat = "[base]\nfold = \"flat\"\nfront = \"4 x 6\"\n";
const Rational thirty_second = part(1, 32);

using Names = std::vector<std::string>;

struct HandText {
  explicit HandText(const std::string& text, const Rational& error = thirty_second)
      : card(card_of(text)), check(check_hand(card, text, error, {})) {
    REQUIRE(check.verdict == Verdict::buildable);
  }
  [[nodiscard]] const Slip* slip(std::string_view says) const {
    const auto found = std::find_if(check.slips.begin(), check.slips.end(),
                                    [&](const Slip& slip) { return slip.says == says; });
    return found == check.slips.end() ? nullptr : &*found;
  }
  [[nodiscard]] const Unevenness& border(std::string_view says) const {
    const auto found = std::find_if(check.borders.begin(), check.borders.end(),
                                    [&](const Unevenness& border) { return border.says == says; });
    INFO(says);
    REQUIRE(found != check.borders.end());
    return *found;
  }
  [[nodiscard]] Size safe(std::string_view layer, std::string_view version = "") const {
    REQUIRE(check.safe);
    const auto found = std::find_if(check.safe->begin(), check.safe->end(), [&](const SafeSize& size) {
      return size.layer == layer && size.version == version;
    });
    INFO(layer);
    REQUIRE(found != check.safe->end());
    return {found->width, found->height};
  }

  Card card;
  HandCheck check;
};

}  // namespace

TEST_CASE("a border of 1/8 on a flat card may come out as 1/32 and 7/32") {
  // The base's edge, the mat's edge and the placing of the mat: 3/32 to each side.
  const HandText card(flat + layer("mat", "front", "border = \"1/8\"\n"));
  CHECK(card.check.slips.empty());
  REQUIRE(card.check.safe);
  CHECK(card.check.safe->empty());
  REQUIRE(card.check.borders.size() == 2);
  const Unevenness& border = card.border("the border of mat, left and right");
  CHECK(border.spot == Spot{7, 10});
  CHECK(border.wished == part(1, 8));
  CHECK(border.narrowest == part(1, 32));
  CHECK(border.widest == part(7, 32));
  CHECK_FALSE(border.looks_even);
  CHECK(border.safe == part(5, 16));  // 9/32 would do, and lies between the marks
}

TEST_CASE("the border that is told to be safe looks even, and one mark less does not") {
  const auto with_border = [](const Rational& border) {
    return HandText(flat + layer("mat", "front", "border = \"" + fraction_text(border) + "\"\n"));
  };
  const Rational safe = with_border(part(1, 8)).check.borders[0].safe;
  CHECK(with_border(safe).check.borders[0].looks_even);
  CHECK_FALSE(with_border(safe - part(1, 16)).check.borders[0].looks_even);
}

TEST_CASE("a mat may stick out where its border is narrower than what the hand is off by") {
  const HandText card(flat + layer("mat", "front", "border = \"1/16\"\n"));
  REQUIRE(card.check.slips.size() == 1);
  const Slip& slip = card.check.slips[0];
  CHECK(slip.says == "mat lies inside front");
  CHECK(slip.spot == Spot{5, 8});
  CHECK(slip.spare == part(1, 16));
  CHECK(slip.worst == part(3, 32));
  CHECK(slip.errors ==
        Names{"cutting the left edge of the base", "placing mat", "cutting the left edge of mat"});
}

TEST_CASE("a fold is exact: beside it a mat is off by its own edge and its placing alone") {
  const HandText card(
      side_fold + layer("mat", "front",
                        "border = { left = \"at least 1/8\" }\n" + std::string("size = \"4 1/8 x 5\"\n")));
  const Slip* left = card.slip("the border of mat at the left is at least 1/8");
  REQUIRE(left != nullptr);
  CHECK(left->spare == 0);
  CHECK(left->worst == part(1, 16));
  CHECK(left->errors == Names{"placing mat", "cutting the left edge of mat"});
  const Slip* inside = card.slip("mat lies inside front");  // flush at the right
  REQUIRE(inside != nullptr);
  CHECK(inside->worst == part(3, 32));
  CHECK(inside->errors ==
        Names{"cutting the right edge of the front", "placing mat", "cutting the right edge of mat"});
}

TEST_CASE("one cut ends a cut-back front and begins its reveal") {
  const std::string card =
      side_fold + "cut-back = 1\n" + layer("strip", "reveal", "border = \"1/8\"\nwidth = \"at least 3/4\"\n");
  // From the cut to the strip's left edge: the cut, the placing, the edge.
  CHECK(HandText(card, part(1, 24)).slip("strip lies inside reveal") == nullptr);
  const HandText shaky(card, part(1, 16));
  const Slip* inside = shaky.slip("strip lies inside reveal");
  REQUIRE(inside != nullptr);
  CHECK(inside->spare == part(1, 8));
  CHECK(inside->worst == part(3, 16));
  CHECK(inside->errors == Names{"cutting the front back", "placing strip", "cutting the left edge of strip"});
  const Slip* width = shaky.slip("the width of strip is at least 3/4");
  REQUIRE(width != nullptr);
  CHECK(width->worst == part(1, 8));
  CHECK(width->errors == Names{"cutting the left edge of strip", "cutting the right edge of strip"});
  // Together as wide as the closed card, whatever the cut: only the inside's own edge counts.
  const HandText both("rules = [\"front.width + reveal.width >= 4 1/4\"]\n" + card);
  const Slip* sum = both.slip("front.width + reveal.width >= 4 1/4");
  REQUIRE(sum != nullptr);
  CHECK(sum->worst == thirty_second);
  CHECK(sum->errors == Names{"cutting the right edge of the inside"});
}

TEST_CASE("what lies on a layer goes along with it") {
  const HandText card(
      flat + layer("mat", "front", "border = \"1/4\"\n") + layer("panel", "mat", "border = \"1/16\"\n") +
      layer("tag", "panel", "size = \"1 x 1\"\nfrom-left = \"at least 1/2, at most 1/2\"\nfrom-top = 1\n"));
  const Slip* inside = card.slip("panel lies inside mat");
  REQUIRE(inside != nullptr);
  CHECK(inside->errors ==
        Names{"cutting the left edge of mat", "placing panel", "cutting the left edge of panel"});
  CHECK(inside->worst == part(3, 32));
}

TEST_CASE("a rule over the whole card counts the placing of all that lies between") {
  const HandText card("rules = [\"tag.left >= front.left + 3/4\"]\n" + flat +
                      layer("mat", "front", "border = \"1/4\"\n") +
                      layer("tag", "mat", "size = \"1 x 1\"\nfrom-left = \"1/2\"\n"));
  const Slip* slip = card.slip("tag.left >= front.left + 3/4");
  REQUIRE(slip != nullptr);
  CHECK(slip->worst == part(1, 8));
  CHECK(slip->errors == Names{"cutting the left edge of the base", "placing mat", "placing tag",
                              "cutting the left edge of tag"});
}

TEST_CASE("a die cuts exactly and ink has no edges, but both are placed") {
  const auto inside = [](const std::string& keys) {
    const HandText card(flat +
                        layer("it", "front", "size = \"1 x 1\"\nfrom-left = 0\nfrom-top = 2\n" + keys));
    const Slip* slip = card.slip("it lies inside front");
    REQUIRE(slip != nullptr);
    return std::pair(slip->worst, slip->errors);
  };
  CHECK(inside("").first == part(3, 32));
  CHECK(inside("cut = \"by hand\"\n").first == part(3, 32));
  const Names placing = {"cutting the left edge of the base", "placing it"};
  CHECK(inside("cut = \"die\"\n") == std::pair(part(1, 16), placing));
  CHECK(inside("cut = \"ready-made\"\n") == std::pair(part(1, 16), placing));
  CHECK(inside("stamped = true\n") ==
        std::pair(part(1, 16), Names{"cutting the left edge of the base", "stamping it"}));
}

TEST_CASE("a window is cut into its layer and moves with it, what shows through lies behind") {
  const HandText card(
      flat + layer("mat", "front", "border = \"1/2\"\n") +
      "[[window]]\nname = \"opening\"\nin = \"mat\"\nsize = \"1 x 1\"\nframe = \"at least 1\"\n"
      "from-left = 1\n" +
      layer("photo", "opening", "tuck = \"at least 1/16\"\nwidth = \"1 1/8\"\n"));
  const Slip* frame = card.slip("the frame round opening is at least 1");
  REQUIRE(frame != nullptr);
  CHECK(frame->errors == Names{"cutting the left edge of mat", "cutting the left edge of opening"});
  const Slip* tuck = card.slip("the tuck of photo past the opening at the left is at least 1/16");
  REQUIRE(tuck != nullptr);
  CHECK(tuck->worst == part(1, 8));
  CHECK(tuck->errors == Names{"placing mat", "cutting the left edge of opening", "placing photo",
                              "cutting the left edge of photo"});
}

TEST_CASE("artwork is off in its layer by its own placing and the layer's edge, and the layer grows for it") {
  // 1 7/8 + 1/8 + 1/8 = 2 1/8; each margin can lose 1/16, so that 3/16 are wanted: 2 1/4. Likewise 3/4 and
  // 7/8.
  const HandText card(flat +
                      layer("greeting", "front", "artwork = \"1 7/8 x 1/2\"\nmargin = \"at least 1/8\"\n"));
  REQUIRE(card.check.slips.size() == 1);
  CHECK(card.check.slips[0].says == "the margin of greeting is at least 1/8");
  CHECK(card.check.slips[0].spare == 0);
  CHECK(card.check.slips[0].worst == part(1, 16));
  CHECK(card.check.slips[0].errors ==
        Names{"cutting the left edge of greeting", "placing the artwork of greeting"});
  CHECK(card.safe("greeting") == Size{part(9, 4), part(7, 8)});
}

TEST_CASE("two layers side by side are off by both edges and both placings") {
  const HandText card(flat + layer("a", "front", "size = \"1 x 1\"\nfrom-left = \"1/2\"\nfrom-top = 2\n") +
                      layer("b", "front", "size = \"1 x 1\"\nfrom-left = \"1 9/16\"\nfrom-top = 2\n"));
  const Slip* apart = card.slip("a and b do not overlap");
  REQUIRE(apart != nullptr);
  CHECK(apart->spare == part(1, 16));
  CHECK(apart->worst == part(1, 8));
  CHECK(apart->errors ==
        Names{"placing a", "cutting the right edge of a", "placing b", "cutting the left edge of b"});
  CHECK(card.check.slips.size() == 1);
}

TEST_CASE("two layers corner to corner overlap only if they do so both across and down") {
  const auto card = [](const std::string& left, const std::string& top, const std::string& first_top) {
    return flat +
           layer("a", "front", "size = \"1 x 1\"\nfrom-left = \"1/2\"\nfrom-top = \"" + first_top + "\"\n") +
           layer("b", "front",
                 "size = \"1 x 1\"\nfrom-left = \"" + left + "\"\nfrom-top = \"" + top + "\"\n");
  };
  // 1/16 apart across and 1/32 down, each can lose 1/8; whichever of them is the lower.
  for (const auto& [top, first_top] : {std::pair("2 1/32", "1"), std::pair("1", "2 1/32")}) {
    const HandText near(card("1 9/16", top, first_top));
    const Slip* apart = near.slip("a and b do not overlap");
    REQUIRE(apart != nullptr);
    CHECK(apart->spare == part(1, 16));
    CHECK(apart->worst == part(1, 8));
    CHECK(apart->errors.size() == 6);  // two placings, and four edges
  }
  // One of them far enough is enough.
  CHECK(HandText(card("1 5/8", "2 1/32", "1")).slip("a and b do not overlap") == nullptr);
}

TEST_CASE("of two ways to keep a rule one is always left where they pass over into one another") {
  const auto with_rule = [](const std::string& rule) {
    return HandText("rules = [\"" + rule + "\"]\n" + flat +
                    layer("a", "front", "size = \"1 x 1\"\nfrom-left = \"1\"\nfrom-top = \"1\"\n"));
  };
  const std::string covered = "a.left >= 1 or a.left <= 1";
  CHECK(with_rule(covered).slip(covered) == nullptr);
  // Between 7/8 and 1 neither holds: at the middle each is missed by 1/16, which is as bad as it gets.
  const std::string gap = "a.left >= 1 or a.left <= 7/8";
  const HandText card("rules = [\"" + gap + "\"]\n" + flat +
                          layer("a", "front", "size = \"1 x 1\"\nfrom-left = \"1\"\nfrom-top = \"1\"\n"),
                      part(1, 8));
  const Slip* slip = card.slip(gap);
  REQUIRE(slip != nullptr);
  CHECK(slip->spare == 0);
  CHECK(slip->worst == part(1, 16));
}

TEST_CASE("of a list of sizes the one that was taken is no less right for coming out a little off") {
  const HandText card(flat + layer("a", "front", "width = \"one of 1, 2\"\nheight = 1\n"));
  CHECK(card.check.slips.empty());
}

TEST_CASE("copies are cut and placed one by one") {
  const auto gap_rule = [](const std::string& keys) {
    const HandText card(flat + layer("stamps", "front", "size = \"1 x 1\"\n" + keys));
    const auto found = std::find_if(card.check.slips.begin(), card.check.slips.end(), [](const Slip& slip) {
      return slip.says.find("gap") != std::string::npos;
    });
    REQUIRE(found != card.check.slips.end());
    return *found;
  };
  const Slip row = gap_rule("copies = 3\ngap = \"at least 1/4, at most 1/4\"\n");
  CHECK(row.says == "the gap between copies of stamps, side by side, is at least 1/4, at most 1/4");
  CHECK(row.worst == part(1, 8));  // two placings and two edges, for each of the gaps
  CHECK(row.errors == Names{"placing a copy of stamps", "cutting the right edge of a copy of stamps",
                            "cutting the left edge of a copy of stamps"});
  const Slip column = gap_rule("copies = 3\ncolumns = 1\ngap = \"at least 1/4, at most 1/4\"\n");
  CHECK(column.says == "the gap between copies of stamps, one below the other, is at least 1/4, at most 1/4");
  CHECK(column.worst == part(1, 8));
  const Slip die = gap_rule("copies = 3\ncut = \"die\"\ngap = \"at least 1/4, at most 1/4\"\n");
  CHECK(die.worst == part(1, 16));
}

TEST_CASE("the ends of a grid are those of different copies") {
  const auto worst = [](const std::string& rule, const std::string& keys) {
    const HandText card("rules = [\"" + rule + "\"]\n" + flat +
                        layer("stamps", "front", "size = \"1 x 1\"\n" + keys));
    const Slip* slip = card.slip(rule);
    REQUIRE(slip != nullptr);
    return slip->worst;
  };
  const std::string row = "copies = 2\ngap = \"1/2\"\nfrom-top = 1\n";
  const std::string column = "copies = 2\ncolumns = 1\ngap = \"1/2\"\nfrom-left = 1\n";
  // Two copies, each with its edge and its placing.
  CHECK(worst("stamps.right - stamps.left <= 2 1/2", row) == part(1, 8));
  CHECK(worst("stamps.right - stamps.left >= 2 1/2", row) == part(1, 8));
  // In a column the outermost edges may be different copies', but every copy is as wide as it is cut.
  CHECK(worst("stamps.right - stamps.left <= 1", column) == part(1, 8));
  CHECK(worst("stamps.right - stamps.left >= 1", column) == part(1, 16));
  // Shifted as a whole: an edge and a placing, half of each on either side.
  CHECK(worst("stamps.centre-across <= 1 1/2", column) == part(1, 16));
  // The size of any one.
  CHECK(worst("stamps.width >= 1", row) == part(1, 16));
  CHECK(worst("stamps.left >= 1", column) == part(1, 16));
}

TEST_CASE("a tilted layer's box is off by the edges at its outermost corners") {
  // A quarter turn: the box's left is the layer's bottom edge.
  const HandText turned("rules = [\"a.left >= 1\"]\n" + flat +
                        layer("a", "front", "size = \"1 x 2\"\ntilt = 90\nfrom-left = 1\nfrom-top = 1\n"));
  const Slip* slip = turned.slip("a.left >= 1");
  REQUIRE(slip != nullptr);
  CHECK(slip->worst == part(1, 16));
  CHECK(slip->errors == Names{"placing a", "cutting the bottom edge of a"});
  // A sloping one: its left and bottom edges, by cosine and sine.
  const HandText sloping("rules = [\"a.left >= 1\"]\n" + flat +
                         layer("a", "front", "size = \"1 x 2\"\ntilt = 5\nfrom-left = 1\nfrom-top = 1\n"));
  slip = sloping.slip("a.left >= 1");
  REQUIRE(slip != nullptr);
  CHECK(slip->errors == Names{"placing a", "cutting the left edge of a", "cutting the bottom edge of a"});
  const Rational by = slip->worst * 32 - 1;  // cos 5 + sin 5 = 1.0833...
  CHECK(by > part(10833, 10000));
  CHECK(by < part(10834, 10000));
}

TEST_CASE("which edges of a tilted layer are outermost goes by how far it is turned") {
  const auto errors = [](const std::string& side, const std::string& tilt) {
    const std::string rule = "a." + side + " >= 0 and a." + side + " <= 9";
    const HandText card(
        "rules = [\"" + rule + "\"]\n" + flat +
            layer("a", "front", "size = \"1 x 2\"\nfrom-left = 1\nfrom-top = 1\ntilt = " + tilt),
        10);
    const Slip* slip = card.slip(rule);
    REQUIRE(slip != nullptr);
    Names edges;
    for (const std::string& name : slip->errors) {
      if (name.starts_with("cutting")) edges.push_back(name.substr(12, name.find(" edge") - 12));
    }
    return edges;
  };
  CHECK(errors("left", "-5") == Names{"left", "top"});
  CHECK(errors("left", "95") == Names{"right", "bottom"});
  CHECK(errors("left", "185") == Names{"right", "top"});
  CHECK(errors("left", "275") == Names{"left", "top"});
  CHECK(errors("top", "5") == Names{"left", "top"});
  CHECK(errors("top", "95") == Names{"left", "bottom"});
  CHECK(errors("top", "185") == Names{"right", "bottom"});
  CHECK(errors("top", "-5") == Names{"right", "top"});
  CHECK(errors("left", "180") == Names{"right"});
  CHECK(errors("top", "270") == Names{"right"});
}

TEST_CASE("what lies on a tilted layer is measured from that layer's own edges") {
  const HandText card(flat + layer("a", "front", "size = \"2 x 2\"\ntilt = 5\n") +
                      layer("b", "a", "border = \"1/16\"\n"));
  const Slip* slip = card.slip("b lies inside a");
  REQUIRE(slip != nullptr);
  CHECK(slip->worst == part(3, 32));
  CHECK(slip->errors == Names{"cutting the left edge of a", "placing b", "cutting the left edge of b"});
}

TEST_CASE("what is centred is told with how even it looks, what is flush is not") {
  const HandText card(flat + layer("a", "front", "size = \"3 1/2 x 6\"\nalign = \"centre\"\n"));
  REQUIRE(card.check.borders.size() == 1);
  CHECK(card.check.borders[0].says == "the border of a, left and right");
  CHECK(card.check.borders[0].wished == part(1, 4));
  CHECK(card.check.borders[0].spot.line == 8);
}

TEST_CASE("margins and frames are told with how even they look") {
  const HandText words(flat + layer("words", "front", "artwork = \"2 x 1\"\nmargin = \"1/8\"\n"));
  const Unevenness& margin = words.border("the margin of words, left and right");
  CHECK(margin.narrowest == part(1, 16));  // the edge, and the placing of the artwork
  CHECK(margin.widest == part(3, 16));
  CHECK_FALSE(margin.looks_even);
  CHECK(margin.safe == part(3, 16));
  const HandText frame(flat + "[[window]]\nname = \"hole\"\nin = \"front\"\nframe = \"3/16\"\n");
  const Unevenness& sides = frame.border("the frame round hole, top and bottom");
  CHECK(sides.narrowest == part(1, 8));  // the base's edge, and the window's
  CHECK(sides.widest == part(1, 4));
  CHECK(sides.looks_even);
}

TEST_CASE("a layer aligned to an edge keeps off it once the hand wants room, and its size stays") {
  const HandText card(flat + layer("a", "front",
                                   "size = \"1 x 1\"\nborder = { right = \"at least 1/4\" }\n"
                                   "align = \"right\"\nfrom-top = 1\n"));
  CHECK(card.slip("the border of a at the right is at least 1/4") != nullptr);
  REQUIRE(card.check.safe);
  CHECK(card.check.safe->empty());
  REQUIRE(card.check.safe_places.size() == 1);
  CHECK(card.check.safe_places[0].layer == "a");
  CHECK(card.check.safe_places[0].from_left == 4 - 1 - part(1, 4) - part(3, 32));
  CHECK(card.check.safe_places[0].from_top == 1);
}

TEST_CASE("where no size is safe it is told what leaves the hand no room, and what would") {
  const std::string text = flat + layer("mat", "front", "border = \"1/16\"\n");
  const HandText card(text);
  CHECK_FALSE(card.check.safe);
  CHECK(card.check.safe_known);
  REQUIRE(card.check.in_the_way.size() == 1);
  const Conflict& conflict = card.check.in_the_way[0];
  REQUIRE(conflict.rules.size() == 1);
  CHECK(conflict.rules[0].says == "the border of mat is 1/16");
  CHECK(conflict.short_by == part(1, 32));
  REQUIRE(conflict.changes.size() == 1);
  CHECK(conflict.changes[0].to == "1/8");
  CHECK(conflict.changes[0].mends_card);
  CHECK(card.check.all_in_the_way);
  REQUIRE(card.check.mend.size() == 1);
  CHECK(card.check.mend[0].to == "1/8");
  const auto changed = with_changes(text, card.check.mend);
  REQUIRE(changed);
  const HandText mended(*changed);
  CHECK(mended.check.slips.empty());
  CHECK(mended.check.safe);
}

TEST_CASE("a variant's own safe size is told, the same one is not told again") {
  const std::string variants =
      "[[variant]]\nname = \"short\"\n"
      "set = { \"words.artwork\" = \"1 1/2 x 1/2\", \"words.margin\" = \"1/8 to 1/4\" }\n"
      "[[variant]]\nname = \"alike\"\nset = { \"front mat.border\" = \"3/8\" }\n";
  const HandText card("cards = 3\n" + flat + layer("front mat", "front", "border = \"1/4\"\n") +
                      layer("words", "front mat", "artwork = \"2 x 1/2\"\nmargin = \"at least 1/8\"\n") +
                      variants);
  CHECK(card.safe("words") == Size{part(19, 8), part(7, 8)});
  CHECK(card.safe("words", "short") == Size{part(15, 8), part(7, 8)});
  CHECK(card.check.safe->size() == 2);
  // The wish itself is told once, as it is worst.
  CHECK(std::count_if(card.check.slips.begin(), card.check.slips.end(), [](const Slip& slip) {
          return slip.says == "the margin of words is at least 1/8";
        }) == 1);
}

TEST_CASE("a card that cannot be built, or not be decided in time, has no hand to fear") {
  const std::string wide = flat + layer("a", "front", "size = \"5 x 1\"\n");
  const HandCheck conflict = check_hand(card_of(wide), wide, thirty_second, {});
  CHECK(conflict.verdict == Verdict::conflict);
  CHECK(conflict.slips.empty());
  CHECK_FALSE(conflict.safe);
  CheckOptions hurried;
  hurried.limit = 0;
  const std::string loose =
      flat + layer("a", "front", "size = \"1 x 1\"\n") + layer("b", "front", "size = \"1 x 1\"\n");
  CHECK(check_hand(card_of(loose), loose, thirty_second, hurried).verdict == Verdict::undecided);
}

TEST_CASE("an error larger than the card is told like any other") {
  const HandText card(flat + layer("mat", "front", "border = \"1/8\"\n"), 10);
  REQUIRE(card.check.slips.size() == 1);
  CHECK(card.check.slips[0].worst == 30);
  CHECK_FALSE(card.check.safe);
}
