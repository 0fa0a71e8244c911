// Pictures of what cannot be built, and alternatives side by side.
#include "cli/draw/clash_pages.h"
#include "cli/draw/contact_sheet.h"
#include "cli/figure/look.h"
#include "model/read_card.h"
#include "solver/check_card.h"
#include "solver/explore_card.h"
#include "solver/nearest_card.h"
#include "tests/cli/drawn.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

Card card_of(const std::string& text) {
  CardReading reading = read_card(text);
  REQUIRE(reading.mistakes.empty());
  return std::move(*reading.card);
}

bool is_clash(const Mark& mark) {
  const auto* shape = std::get_if<Shape>(&mark);
  return shape != nullptr && shape->texture && shape->fill && shape->fill->red == clash_look().fill.red &&
         shape->fill->green == clash_look().fill.green &&
         shape->texture->apart == clash_look().texture->apart;
}

// Hatched places, the swatch that explains them left out.
std::vector<Box> hatched(const Drawing& drawing) {
  std::vector<Box> all;
  for (const Page& page : drawing.pages) {
    bool first = true;
    for (const Mark& mark : page.marks) {
      if (!is_clash(mark)) continue;
      if (!first) all.push_back(box_around(std::get<Shape>(mark).outline));
      first = false;
    }
  }
  return all;
}

}  // namespace

TEST_CASE("what cannot be built is drawn with its story and every miss that has a place is hatched") {
  for (const auto& path : card_files("cases/unbuildable")) {
    INFO(path.filename().string());
    const std::string text = whole_text(path);
    const Card card = card_of(text);
    const CheckedCard checked = check_card(card, text, {});
    REQUIRE(checked.verdict == Verdict::conflict);
    const auto nearest = nearest_card(card, 30);
    const Card unlimited = without_limits(card);
    ClashPicture picture{nearest, {}};
    if (!nearest) picture.unlimited = size_card(unlimited, {});
    for (const PageSize size : {PageSize::letter, PageSize::roll}) {
      const Drawing drawing = clash_drawing(card, checked, picture, size);
      check_words(drawing);
      for (const Conflict& conflict : checked.conflicts) {
        for (const Remark& rule : conflict.rules) CHECK(says(drawing, rule.says));
        for (const StoryStep& step : conflict.story) CHECK(says(drawing, step.says));
        for (const Change& change : conflict.changes) CHECK(says(drawing, change.says));
      }
      if (!nearest) {
        CHECK(says(drawing, card.design.pieces.front().name.value));
        CHECK(says(drawing, "Nothing here is a size to cut by"));
        continue;
      }
      std::size_t placed = 0;
      for (const Miss& miss : nearest->misses) {
        if (miss.place) ++placed;
        CHECK(says(drawing, length_with_unit(miss.by, card.unit)));
      }
      if (size == PageSize::roll) CHECK(hatched(drawing).size() == placed);
    }
  }
}

TEST_CASE("a mat too wide for the reveal is hatched along its right edge as wide as what is missing") {
  const std::string text =
      whole_text(std::string(EVENMAT_SOURCE) + "/cases/unbuildable/mat-too-wide-for-reveal.toml");
  const Card card = card_of(text);
  const auto nearest = nearest_card(card, 30);
  REQUIRE(nearest);
  const Drawing drawing = clash_drawing(card, check_card(card, text, {}), {nearest, {}}, PageSize::letter);
  CHECK(says(drawing, "1/8 in missing"));
  const std::vector<Box> places = hatched(drawing);
  REQUIRE(places.size() == 1);
  REQUIRE(nearest->misses.size() == 1);
  // 1/8 in at the picture's scale, of a base 5 1/2 in tall.
  CHECK(std::abs(places.front().width / places.front().height -
                 (nearest->misses.front().place->width / nearest->misses.front().place->height)
                     .convert_to<double>()) < 1e-6);
}

TEST_CASE("what clashes on a tilted layer is told and not hatched where it does not lie") {
  const std::string text = R"(unit = "in"
[base]
fold = "flat"
front = "5 x 7"
[[layer]]
name = "tilted"
on = "front"
size = "3 x 2"
tilt = 30
[[layer]]
name = "too far out"
on = "tilted"
size = "1 x 1"
from-left = "2 1/2"
)";
  const Card card = card_of(text);
  const CheckedCard checked = check_card(card, text, {});
  REQUIRE(checked.verdict == Verdict::conflict);
  const Drawing drawing = clash_drawing(card, checked, {nearest_card(card, 30), {}}, PageSize::roll);
  CHECK(hatched(drawing).empty());
  CHECK(says(drawing, "1/2 in sticks out: too far out would reach past the edge of tilted."));
}

TEST_CASE("many alternatives go on many pages before they get too small to see") {
  const Card card = card_of(whole_text(std::string(EVENMAT_SOURCE) + "/cases/lantern-thanks.toml"));
  ExploreOptions options;
  options.show = 40;
  const ExploredCard explored = explore_card(card, options);
  std::vector<const Alternative*> cards;
  for (const Alternative& one : explored.alternatives) cards.push_back(&one);
  REQUIRE(cards.size() == 40);
  const Drawing drawing = contact_sheet(card, explored.open, cards, PageSize::letter);
  check_words(drawing);
  double tallest = 0;
  for (const Mark& mark : drawing.pages.front().marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape != nullptr && shape->stroke && shape->stroke->width == base_look().edge.width)
      tallest = std::max(tallest, box_around(shape->outline).height);
  }
  CHECK(tallest >= 0.16 * 72 * 5.5);  // the card is 5 1/2 in tall
  CHECK(drawing.pages.size() <= cards.size() / 2);
}

TEST_CASE("what is the same in all alternatives is told once and what differs below each") {
  const Card card = card_of(whole_text(std::string(EVENMAT_SOURCE) + "/cases/first-snow.toml"));
  const ExploredCard explored = explore_card(card, {});
  const Alternative& first = explored.alternatives.front();
  Alternative second = first;
  second.amounts.back() = explored.alternatives.back().amounts.back();
  REQUIRE(second.amounts.back() != first.amounts.back());
  const Drawing drawing = contact_sheet(card, explored.open, {&first, &second}, PageSize::letter);
  CHECK(says(drawing, "The same in all: border of pine mat 1/4; border of snow photo 1/4."));
  for (const Alternative* one : std::vector<const Alternative*>{&first, &second})
    CHECK(says(drawing, "border of letter panel " + length_text(one->amounts.back(), card.unit)));
}

TEST_CASE("alternatives stand side by side to one scale each with its number and what it takes") {
  for (const std::string name : {"first-snow", "lantern-thanks", "swift-tower", "sun-tiles"}) {
    INFO(name);
    const Card card = card_of(whole_text(std::string(EVENMAT_SOURCE) + "/cases/" + name + ".toml"));
    ExploreOptions options;
    options.show = 12;
    const ExploredCard explored = explore_card(card, options);
    std::vector<const Alternative*> cards;
    for (const Alternative& one : explored.alternatives) cards.push_back(&one);
    REQUIRE(cards.size() > 1);
    for (const PageSize size : {PageSize::letter, PageSize::a4, PageSize::roll}) {
      const Drawing drawing = contact_sheet(card, explored.open, cards, size);
      check_words(drawing);
      std::vector<double> fronts;
      for (std::size_t i = 0; i < cards.size(); ++i) CHECK(says(drawing, std::to_string(i + 1) + "."));
      const double least = 1;
      for (const Page& page : drawing.pages) {
        for (const Mark& mark : page.marks) {
          const auto* shape = std::get_if<Shape>(&mark);
          const bool leaf = shape != nullptr && shape->fill && shape->stroke && !shape->texture &&
                            shape->stroke->width == base_look().edge.width;
          if (leaf) fronts.push_back(box_around(shape->outline).height);
        }
      }
      REQUIRE(fronts.size() >= cards.size());
      CHECK(*std::max_element(fronts.begin(), fronts.end()) -
                *std::min_element(fronts.begin(), fronts.end()) <
            least);
    }
  }
}

TEST_CASE("what differs inside the card is drawn opened out too") {
  const Card card = card_of(whole_text(std::string(EVENMAT_SOURCE) + "/cases/first-snow.toml"));
  const ExploredCard explored = explore_card(card, {});
  std::vector<const Alternative*> cards;
  for (const Alternative& one : explored.alternatives) cards.push_back(&one);
  const Drawing drawing = contact_sheet(card, explored.open, cards, PageSize::roll);
  std::size_t panels = 0;
  for (const Mark& mark : drawing.pages.front().marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape != nullptr && shape->texture && shape->texture->kind == Texture::Kind::dots) ++panels;
  }
  CHECK(panels >= cards.size());  // the letter panel, which is inside
}
