// The faces of a base, and which of their edges a cut-back moves.
#include "model/faces.h"

#include <algorithm>

#include "model/read_card.h"
#include "tests/catch.h"

using namespace evenmat;

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

TEST_CASE("folds without geometry have names for their faces all the same") {
  for (const char* fold : {"gate", "z", "tri"}) {
    const Base base = base_of("fold = \"" + std::string(fold) + "\"");
    CHECK(faces(base).empty());
    for (const char* name : {"front", "inside", "back"}) {
      const auto names = face_names(base);
      CHECK(std::count(names.begin(), names.end(), name) == 1);
    }
  }
}
