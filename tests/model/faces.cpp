// The faces of a base: which way is up on each, where they lie, which of their edges a cut-back moves, and
// what is behind them.
#include "model/faces.h"

#include <algorithm>

#include "model/read_card.h"
#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/model/strip.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

Base base_of(const std::string& keys) {
  const CardReading reading = read_card("[base]\nfront = \"4 1/4 x 5 1/2\"\n" + keys);
  for (const Remark& mistake : reading.mistakes) UNSCOPED_INFO(mistake.says);
  REQUIRE(reading.card);
  return reading.card->design.base;
}

std::vector<std::string> names_of(const std::vector<Face>& all) {
  std::vector<std::string> names;
  for (const Face& face : all) names.push_back(face.name);
  return names;
}

Face face(const Base& base, const std::string& name) {
  const std::vector<Face> all = faces(base);
  const auto found = std::find_if(all.begin(), all.end(), [&](const Face& one) { return one.name == name; });
  REQUIRE(found != all.end());
  return *found;
}

}  // namespace

TEST_CASE("a flat base has a front and a back that share nothing") {
  const Base base = base_of("fold = \"flat\"");
  CHECK(names_of(faces(base)) == std::vector<std::string>{"front", "back"});
  CHECK(face(base, "front").frame != face(base, "back").frame);
  CHECK(face(base, "back").whole == Size{Rational(17) / 4, Rational(11) / 2});
}

TEST_CASE("front, inside and reveal share the closed card's frame and other faces none") {
  const Base base = base_of("fold = \"side\"\ncut-back = 1");
  CHECK(names_of(faces(base)) ==
        std::vector<std::string>{"front", "inside", "inside front", "back", "reveal"});
  CHECK(face(base, "front").frame == face(base, "inside").frame);
  CHECK(face(base, "front").frame == face(base, "reveal").frame);
  CHECK(face(base, "inside front").frame != face(base, "front").frame);
  CHECK(face(base, "back").frame != face(base, "front").frame);
  CHECK(face(base, "back").frame != face(base, "inside front").frame);
  CHECK(names_of(faces(base_of("fold = \"side\""))).size() == 4);
}

TEST_CASE("a cut-back takes the free edge, seen from behind on its other side") {
  const Base side = base_of("fold = \"side\"\ncut-back = 1");
  CHECK(free_edge(side) == Edge::right);
  CHECK(face(side, "front").trimmed == Edge::right);
  CHECK(face(side, "inside front").trimmed == Edge::left);
  CHECK_FALSE(face(side, "inside").trimmed);
  CHECK_FALSE(face(side, "back").trimmed);
  const Base top = base_of("fold = \"top\"\ncut-back = 1");
  CHECK(free_edge(top) == Edge::bottom);
  CHECK(face(top, "front").trimmed == Edge::bottom);
  CHECK(face(top, "inside front").trimmed == Edge::top);
}

TEST_CASE("an edge across the fold stays where it is when the front is turned over") {
  const Base side = base_of("fold = \"side\"\ncut-back = { edge = \"bottom\", by = 1 }");
  CHECK(face(side, "front").trimmed == Edge::bottom);
  CHECK(face(side, "inside front").trimmed == Edge::bottom);
  const Base top = base_of("fold = \"top\"\ncut-back = { edge = \"left\", by = 1 }");
  CHECK(face(top, "front").trimmed == Edge::left);
  CHECK(face(top, "inside front").trimmed == Edge::left);
}

TEST_CASE("opens moves the free edge") {
  const Base base = base_of("fold = \"side\"\nopens = \"left\"\ncut-back = 1");
  CHECK(free_edge(base) == Edge::left);
  CHECK(face(base, "front").trimmed == Edge::left);
  CHECK(face(base, "inside front").trimmed == Edge::right);
}

TEST_CASE("every fold has its faces, those that look your way first, the foremost first") {
  using Names = std::vector<std::string>;
  CHECK(names_of(faces(base_of("fold = \"gate\""))) == Names{"front", "left front", "right front", "inside",
                                                             "inside left front", "inside right front",
                                                             "back", "reveal"});
  CHECK(names_of(faces(base_of("fold = \"gate\"\nopens = \"top\""))) ==
        Names{"front", "top front", "bottom front", "inside", "inside top front", "inside bottom front",
              "back", "reveal"});
  CHECK(names_of(faces(base_of("fold = \"z\""))) ==
        Names{"front", "inside", "inside back", "inside front", "inside middle", "back"});
  CHECK(names_of(faces(base_of("fold = \"tri\""))) ==
        Names{"front", "flap", "inside", "inside front", "inside flap", "back"});
}

TEST_CASE("the faces that have a name are those that a base has") {
  for (const char* fold : {"flat", "side", "top", "gate", "z", "tri"}) {
    for (const char* opens : {"", "left", "right", "top", "bottom"}) {
      const std::string way = opens;
      const bool across = way == "left" || way == "right";
      const bool fits = way.empty() || (std::string(fold) == "side" && across) ||
                        (std::string(fold) == "top" && !across) ||
                        std::string("gate z tri").find(fold) != std::string::npos;
      if (!fits) continue;
      INFO(fold << " " << opens);
      const Base base = base_of("fold = \"" + std::string(fold) + "\"\n" +
                                (way.empty() ? "" : "opens = \"" + way + "\"\n"));
      std::vector<std::string> told = face_names(base);
      std::vector<std::string> found = names_of(faces(base));
      std::sort(told.begin(), told.end());
      std::sort(found.begin(), found.end());
      CHECK(told == found);
    }
  }
}

TEST_CASE("faces that look your way share the closed card's frame, each other one has its own") {
  for (const char* keys :
       {"fold = \"gate\"", "fold = \"z\"", "fold = \"tri\"", "fold = \"gate\"\nopens = \"top\"",
        "fold = \"z\"\nopens = \"bottom\"", "fold = \"tri\"\nopens = \"top\""}) {
    INFO(keys);
    const std::vector<Face> all = faces(base_of(keys));
    for (const Face& one : all) {
      for (const Face& other : all) {
        if (&one == &other) continue;
        const bool share = one.turned == Turned::no && other.turned == Turned::no;
        CHECK((one.frame == other.frame) == share);
      }
    }
  }
}

// A mark is put on a face, 1/4 in from its left and 1/2 in from its top edge as one sees it who looks at it
// while the blank lies flat, and is followed through the folded strip to where it lies on the closed card.
// The blank is turned over about its scores to look at the other side; but a card about its upright middle to
// look at its back, so that of a blank with scores across the back is seen upside down.
TEST_CASE("which way is up on every face is as the folded paper shows") {
  const std::vector<std::string> bases = {"fold = \"side\"",
                                          "fold = \"side\"\nopens = \"left\"",
                                          "fold = \"side\"\nleaves = [3, \"4 1/4\"]",
                                          "fold = \"top\"",
                                          "fold = \"top\"\nopens = \"top\"",
                                          "fold = \"gate\"\nleaves = [1, \"4 1/4\", 3]",
                                          "fold = \"gate\"\nopens = \"bottom\"\nleaves = [2, \"5 1/2\", 3]",
                                          "fold = \"z\"",
                                          "fold = \"z\"\nopens = \"right\"\nleaves = [\"4 1/4\", 3, 2]",
                                          "fold = \"z\"\nopens = \"top\"\nleaves = [2, 3, \"5 1/2\"]",
                                          "fold = \"z\"\nopens = \"bottom\"",
                                          "fold = \"tri\"",
                                          "fold = \"tri\"\nopens = \"left\"",
                                          "fold = \"tri\"\nopens = \"top\"",
                                          "fold = \"tri\"\nopens = \"bottom\"\nleaves = [\"5 1/2\", 5, 4]"};
  const Rational from_left = part(1, 4);
  const Rational from_top = part(1, 2);
  for (const std::string& keys : bases) {
    INFO(keys);
    const Base base = base_of(keys);
    const Folding folding = folding_of(base);
    const std::vector<StripLeaf> strip = closed_strip(folding);
    const Rational side = folding.across ? base.front.size.height : base.front.size.width;
    for (std::size_t i = 0; i < strip.size(); ++i) {
      const Leaf& leaf = folding.leaves[i];
      for (const std::string& name : {leaf.toward, leaf.away}) {
        INFO(name);
        const bool looks_up = (name == leaf.toward) == leaf.toward_up;
        Rational along = folding.across ? from_left : from_top;
        Rational beside = folding.across ? from_top : from_left;
        if (name == "back" && !folding.across) {
          along = leaf.length - along;
          beside = side - beside;
        }
        const Rational mark = strip[i].at(leaf.from + (looks_up ? along : Rational(leaf.length - along)));
        const Face it = face(base, name);
        Rational x = it.closed_left + from_left;
        Rational y = it.closed_top + from_top;
        if (it.turned == Turned::across) x = it.closed_left + it.whole.width - from_left;
        if (it.turned == Turned::down) y = it.closed_top + it.whole.height - from_top;
        CHECK((folding.across ? mark : beside) == x);
        CHECK((folding.across ? beside : mark) == y);
      }
    }
  }
}

TEST_CASE("the back of a card that is turned over sideways keeps its top, whatever the fold") {
  for (const char* fold : {"flat", "side", "top", "gate", "z", "tri"})
    CHECK(face(base_of("fold = \"" + std::string(fold) + "\""), "back").turned == Turned::across);
  CHECK(face(base_of("fold = \"z\"\nopens = \"top\""), "back").turned == Turned::across);
  CHECK(face(base_of("fold = \"z\"\nopens = \"top\""), "inside middle").turned == Turned::down);
}

TEST_CASE("every edge of the front can be cut back but the one at the fold, and lays open the same edge") {
  struct Cut {
    const char* keys;
    Edge edge;
    Edge from_behind;
  };
  const std::vector<Cut> cuts = {
      {"fold = \"side\"\ncut-back = 1", Edge::right, Edge::left},
      {"fold = \"side\"\ncut-back = { edge = \"top\", by = 1 }", Edge::top, Edge::top},
      {"fold = \"side\"\nopens = \"left\"\ncut-back = { edge = \"bottom\", by = 1 }", Edge::bottom,
       Edge::bottom},
      {"fold = \"top\"\ncut-back = { edge = \"right\", by = 1 }", Edge::right, Edge::right},
      {"fold = \"top\"\nopens = \"top\"\ncut-back = 1", Edge::top, Edge::bottom},
      {"fold = \"z\"\ncut-back = 1", Edge::left, Edge::right},
      {"fold = \"z\"\ncut-back = { edge = \"bottom\", by = 1 }", Edge::bottom, Edge::bottom},
      {"fold = \"z\"\nopens = \"bottom\"\ncut-back = 1", Edge::bottom, Edge::top},
      {"fold = \"tri\"\ncut-back = 1", Edge::right, Edge::left},
      {"fold = \"tri\"\nopens = \"top\"\ncut-back = { edge = \"left\", by = 1 }", Edge::left, Edge::left}};
  for (const Cut& cut : cuts) {
    INFO(cut.keys);
    const Base base = base_of(cut.keys);
    CHECK(face(base, "front").trimmed == cut.edge);
    CHECK(face(base, "inside front").trimmed == cut.from_behind);
    const Face reveal = face(base, "reveal");
    CHECK(reveal.trimmed == opposite(cut.edge));
    CHECK(edges_at_front(base) == std::vector<Edge>{opposite(cut.edge)});
    // Nothing is open before the cut; after it a strip at that edge, as long as the card.
    const Rational open = is_across(cut.edge) ? reveal.whole.width : reveal.whole.height;
    CHECK(open == 0);
    CHECK((is_across(cut.edge) ? reveal.whole.height : reveal.whole.width) ==
          (is_across(cut.edge) ? base.front.size.height : base.front.size.width));
    CHECK((cut.edge == Edge::right) == (reveal.left == base.front.size.width));
    CHECK((cut.edge == Edge::bottom) == (reveal.top == base.front.size.height));
    for (const Face& other : faces(base)) {
      if (other.name != "front" && other.name != "inside front" && other.name != "reveal") {
        INFO(other.name);
        CHECK_FALSE(other.trimmed);
      }
    }
  }
}

TEST_CASE("both doors of a gate are cut back where they meet, and the reveal lies between them") {
  const Base base = base_of("fold = \"gate\"\nleaves = [1, \"4 1/4\", 3]\ncut-back = \"1/2\"");
  CHECK(face(base, "left front").trimmed == Edge::right);
  CHECK(face(base, "right front").trimmed == Edge::left);
  CHECK(face(base, "inside left front").trimmed == Edge::left);
  CHECK(face(base, "inside right front").trimmed == Edge::right);
  CHECK_FALSE(face(base, "front").trimmed);
  const Face reveal = face(base, "reveal");
  CHECK(reveal.left == 1);
  CHECK(reveal.whole == Size{part(1, 4), part(11, 2)});
  CHECK(edges_at_front(base) == std::vector<Edge>{Edge::left, Edge::right});
  const Base down = base_of("fold = \"gate\"\nopens = \"top\"\ncut-back = \"1/2\"");
  CHECK(face(down, "top front").trimmed == Edge::bottom);
  CHECK(face(down, "inside bottom front").trimmed == Edge::bottom);
  CHECK(edges_at_front(down) == std::vector<Edge>{Edge::top, Edge::bottom});
}

TEST_CASE("what a front leaves open without being cut back is a reveal") {
  const Base shorter = base_of("fold = \"side\"\nleaves = [3, \"4 1/4\"]");
  CHECK(face(shorter, "reveal").left == 3);
  CHECK(face(shorter, "reveal").whole == Size{part(5, 4), part(11, 2)});
  CHECK(edges_at_front(shorter) == std::vector<Edge>{Edge::left});
  const Base mirrored = base_of("fold = \"side\"\nopens = \"left\"\nleaves = [\"4 1/4\", 3]");
  CHECK(face(mirrored, "reveal").left == 0);
  CHECK(face(mirrored, "reveal").whole.width == part(5, 4));
  CHECK(edges_at_front(mirrored) == std::vector<Edge>{Edge::right});
  // The doors of a gate, usual ones 1/16 apart, or meeting edge to edge.
  CHECK(face(base_of("fold = \"gate\""), "reveal").whole.width == part(1, 16));
  const Base meeting = base_of("fold = \"gate\"\nleaves = [2, \"4 1/4\", \"2 1/4\"]");
  CHECK_FALSE(has_reveal(meeting));
  for (const char* fold : {"flat", "side", "top", "z", "tri"}) {
    INFO(fold);
    CHECK_FALSE(has_reveal(base_of("fold = \"" + std::string(fold) + "\"")));
  }
}

TEST_CASE("the reveal of a z is beside its front, on the page that lies there") {
  const auto page = [](const Base& base) {
    Design design;
    design.base = base;
    return face_of(design, "reveal");
  };
  // Beyond the fold of the front the last page shows.
  const Base beyond = base_of("fold = \"z\"\nleaves = [\"2 1/4\", \"2 1/4\", \"4 1/4\"]");
  CHECK(face(beyond, "reveal").left == part(9, 4));
  CHECK(face(beyond, "reveal").whole.width == 2);
  CHECK(page(beyond) == "inside back");
  CHECK(edges_at_front(beyond) == std::vector<Edge>{Edge::left});
  // A front shorter than the leaf behind it shows that one.
  const Base at_edge = base_of("fold = \"z\"\nleaves = [3, \"4 1/4\", \"4 1/4\"]");
  CHECK(face(at_edge, "reveal").left == 0);
  CHECK(face(at_edge, "reveal").whole.width == part(5, 4));
  CHECK(page(at_edge) == "inside");
  CHECK(edges_at_front(at_edge) == std::vector<Edge>{Edge::right});
  CHECK(page(base_of("fold = \"z\"\ncut-back = 1")) == "inside");
  CHECK(page(base_of("fold = \"side\"\ncut-back = 1")) == "inside");
  CHECK(page(base_of("fold = \"tri\"\ncut-back = 1")) == "flap");
  CHECK(page(base_of("fold = \"gate\"")) == "inside");
}

TEST_CASE("behind an opening is the next page that looks your way") {
  const Base side = base_of("fold = \"side\"");
  CHECK(face_behind(side, "front") == "inside");
  CHECK(face_behind(side, "inside") == "inside");
  const Base z = base_of("fold = \"z\"");
  CHECK(face_behind(z, "front") == "inside");
  CHECK(face_behind(z, "inside") == "inside back");
  const Base tri = base_of("fold = \"tri\"");
  CHECK(face_behind(tri, "front") == "flap");
  CHECK(face_behind(tri, "flap") == "inside");
  const Base gate = base_of("fold = \"gate\"");
  for (const char* front : {"front", "left front", "right front"})
    CHECK(face_behind(gate, front) == "inside");
  CHECK(face_behind(base_of("fold = \"flat\""), "front") == "front");
}

TEST_CASE("what is on a window lies on what is behind it, through as many windows as there are") {
  const Design design = card_of(
                            "[base]\nfold = \"z\"\nfront = \"4 x 6\"\n"
                            "[[window]]\nname = \"door\"\nin = \"front\"\nsize = \"2 x 2\"\n"
                            "[[window]]\nname = \"behind\"\nin = \"inside\"\nsize = \"1 x 1\"\n"
                            "[[layer]]\nname = \"mat\"\non = \"door\"\n"
                            "[[window]]\nname = \"hole\"\nin = \"mat\"\nsize = \"1/2 x 1/2\"\n"
                            "[[layer]]\nname = \"print\"\non = \"hole\"\n"
                            "[[layer]]\nname = \"last\"\non = \"behind\"\n")
                            .design;
  CHECK(face_of(design, "door") == "inside");
  CHECK(face_of(design, "mat") == "inside");
  CHECK(face_of(design, "hole") == "inside");
  CHECK(face_of(design, "behind") == "inside back");
  CHECK(face_of(design, "back") == "back");
}
