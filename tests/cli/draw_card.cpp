// Pictures of cards: every paper where it lies, words clear of one another, for the cards of cases/ and for
// cards that are hard on a page.
#include <fmt/format.h>

#include <cmath>
#include <set>

#include "cli/draw/card_pages.h"
#include "cli/drawing/render.h"
#include "cli/drawing/text.h"
#include "cli/figure/figure.h"
#include "cli/figure/labels.h"
#include "cli/figure/scene.h"
#include "cli/figure/section.h"
#include "model/read_card.h"
#include "model/versions.h"
#include "tests/cli/drawn.h"
#include "tests/cli/program.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

struct Made {
  Card card;
  SizedCard sized;

  explicit Made(const std::string& text) {
    CardReading reading = read_card(text);
    REQUIRE(reading.mistakes.empty());
    card = std::move(*reading.card);
    sized = size_card(card, {});
    REQUIRE(sized.verdict == Verdict::buildable);
  }
  [[nodiscard]] const SizedVersion& plain() const { return sized.versions.front(); }
  [[nodiscard]] Drawing drawing(PageSize size) const {
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < sized.versions.size(); ++i) all.push_back(i);
    return card_drawing(card, sized, all, {}, size);
  }
};

std::string nested(int layers, const std::string& name) {
  std::string text = "unit = \"in\"\nmark = \"1/16\"\n[base]\nfold = \"side\"\nfront = \"6 x 6\"\n";
  for (int i = 0; i < layers; ++i) {
    text += fmt::format("[[layer]]\nname = \"{} {}\"\nrole = \"mat\"\non = \"{}\"\nborder = \"1/16\"\n", name,
                        i, i == 0 ? "front" : fmt::format("{} {}", name, i - 1));
  }
  return text;
}

std::string beside(int layers, const std::string& name) {
  std::string text = "unit = \"in\"\nmark = \"1/16\"\n[base]\nfold = \"flat\"\nfront = \"12 x 12\"\n";
  for (int i = 0; i < layers; ++i) {
    const int row = i / 8;
    text += fmt::format(
        "[[layer]]\nname = \"{} {}\"\nrole = \"image\"\non = \"front\"\nsize = \"1 x 1\"\nfrom-left = "
        "\"{}\"\n"
        "from-top = \"{}\"\n",
        name, i, 0.25 + 1.25 * (i % 8), 0.25 + 1.25 * row);
  }
  return text;
}

double number(const Rational& length) { return length.convert_to<double>(); }

bool near(double a, double b) { return std::abs(a - b) < 1e-9; }

const ScenePaper* find(const Scene& scene, const std::string& name) {
  const auto found = std::find_if(scene.papers.begin(), scene.papers.end(),
                                  [&](const ScenePaper& paper) { return paper.name == name; });
  return found == scene.papers.end() ? nullptr : &*found;
}

// A front that is cut back by 1, a strip in the reveal, a panel inside behind the front.
constexpr std::string_view cut_back_card = R"(unit = "in"
mark = "1/16"
[base]
fold = "side"
front = "4 1/4 x 5 1/2"
cut-back = "1"
[[layer]]
name = "strip"
role = "strip"
on = "reveal"
border = "1/8"
[[layer]]
name = "panel"
role = "panel"
on = "inside"
from-left = "1/8"
from-top = "1/8"
size = "3 x 5"
)";

}  // namespace

TEST_CASE("no words lie over others or leave the page in any picture of any case") {
  for (const auto& path : card_files("cases")) {
    INFO(path.filename().string());
    const Made made(whole_text(path));
    for (const PageSize size : {PageSize::letter, PageSize::a4, PageSize::roll})
      check_words(made.drawing(size));
    for (const PlacedPiece& placed : made.plain().pieces)
      CHECK(says(made.drawing(PageSize::letter), placed.piece->name.value));
  }
}

TEST_CASE("one layer or forty or names of sixty letters in any script keep their words apart") {
  const std::string long_name = "a name that goes on and on for as long as a name may well go";
  REQUIRE(long_name.size() == 60);
  for (const std::string& name :
       {std::string("mat"), long_name, std::string("café crème brûlée à la façon de l'été"),
        std::string("春节贺卡的红色底板与金色祝福语条形装饰"),
        std::string("بطاقة تهنئة بالعيد مع إطار أزرق داكن")}) {
    INFO(name);
    for (const int layers : {1, 40}) {
      check_words(Made(nested(layers, name)).drawing(PageSize::letter));
      check_words(Made(beside(layers, name)).drawing(PageSize::a4));
    }
  }
}

TEST_CASE("where labels find no room the largest layers keep theirs and the others are counted") {
  std::string text = "unit = \"in\"\nmark = \"1/16\"\n[base]\nfold = \"flat\"\nfront = \"12 x 12\"\n";
  for (int i = 0; i < 90; ++i) {
    const int row = i / 10;
    text += fmt::format(
        "[[layer]]\nname = \"tile {}\"\non = \"front\"\nsize = \"{} x {}\"\nfrom-left = \"{}\"\nfrom-top = "
        "\"{}\"\n",
        i, i == 50 ? 1 : 0.5, i == 50 ? 1 : 0.5, 0.25 + 1.125 * (i % 10), 0.25 + 1.125 * row);
  }
  const Made made(text);
  const Scene scene = face_scene(made.card, made.card.design, made.plain(), "front");
  const Figure figure = figure_of(scene, Unit::inch, {36, 36, 540, 240});
  Drawing drawing{"", {blank_page(PageSize::letter)}};
  drawing.pages.front().marks = figure.marks;
  check_words(drawing);
  CHECK(says(drawing, "tile 50"));
  CHECK(says(drawing, " more"));
  CHECK_FALSE(says(drawing, "tile 89"));
}

TEST_CASE("on its face every layer is drawn exactly where the answer has it") {
  for (const auto& path : card_files("cases")) {
    INFO(path.filename().string());
    const Made made(whole_text(path));
    for (std::size_t index = 0; index < made.sized.versions.size(); ++index) {
      const SizedVersion& version = made.sized.versions[index];
      std::size_t drawn = 0;
      for (const Scene& scene : face_scenes(made.card, design_of(made.card, index), version)) {
        for (const ScenePaper& paper : scene.papers) {
          if (paper.piece == nullptr || paper.copy > 0) continue;
          ++drawn;
          const Box box = box_around(paper.outline);
          const PlacedPiece& placed = *paper.piece;
          CHECK(placed.face == scene.face);
          // What is tilted is told with a box rounded outward by up to 1e-9.
          const Box told{number(placed.left) - scene.origin.x, number(placed.top) - scene.origin.y,
                         number(placed.copies.empty() ? placed.box_width : placed.width),
                         number(placed.copies.empty() ? placed.box_height : placed.height)};
          if (placed.piece->kind == Piece::Kind::layer && !placed.copies.empty() && placed.piece->tilt)
            continue;
          CHECK(std::abs(box.left - told.left) < 1e-8);
          CHECK(std::abs(box.top - told.top) < 1e-8);
          CHECK(std::abs(box.width - told.width) < 1e-8);
          CHECK(std::abs(box.height - told.height) < 1e-8);
        }
      }
      CHECK(drawn == version.pieces.size());
    }
  }
}

TEST_CASE("a front that is cut back shows the strip behind it and hides the panel that is behind it") {
  const Made made{std::string(cut_back_card)};
  const Scene closed = closed_scene(made.card, made.card.design, made.plain());
  const auto sights = sights_of(closed);
  for (std::size_t i = 0; i < closed.papers.size(); ++i) {
    INFO(closed.papers[i].name);
    CHECK(sights[i].has_value() == (closed.papers[i].name != "panel"));
  }
  REQUIRE(find(closed, "front") != nullptr);
  CHECK(near(box_around(find(closed, "front")->outline).width, 3.25));
  CHECK(near(box_around(find(closed, "strip")->outline).left, 3.375));
}

TEST_CASE("opened out the front lies to the left of the inside and the panel on the page where it is glued") {
  const Made made{std::string(cut_back_card)};
  const auto open = open_scene(made.card, made.card.design, made.plain());
  REQUIRE(open);
  // The cut-back front is 3 1/4 wide and ends on the outside: the fold is at 3 1/4 from there.
  const Box front = box_around(find(*open, "inside front")->outline);
  const Box inside = box_around(find(*open, "inside")->outline);
  CHECK(near(front.left, 0));
  CHECK(near(front.right(), 3.25));
  CHECK(near(inside.left, 3.25));
  CHECK(near(box_around(find(*open, "panel")->outline).left, 3.25 + 0.125));
  REQUIRE(open->folds.size() == 1);
  CHECK(near(open->folds.front().from.x, 3.25));
}

TEST_CASE("a face that looks away has dimension lines like any other") {
  std::string text(cut_back_card);
  text.replace(text.find("on = \"inside\""), 13, "on = \"inside front\"");
  const Made made(text);
  const Scene scene = face_scene(made.card, made.card.design, made.plain(), "inside front");
  Drawing drawing{"", {blank_page(PageSize::letter)}};
  FigureStyle style;
  style.labels = false;
  drawing.pages.front().marks = figure_of(scene, Unit::inch, {36, 36, 500, 300}, style).marks;
  for (const std::string words : {"3 1/4", "5 1/2", "3", "5"}) {
    const std::vector<Text> all = texts_on(drawing.pages.front());
    CHECK(std::any_of(all.begin(), all.end(), [&](const Text& one) { return one.words == words; }));
  }
}

TEST_CASE("the page behind a cut-back front shows where the front ends") {
  const Made made{std::string(cut_back_card)};
  const Scene inside = face_scene(made.card, made.card.design, made.plain(), "inside");
  REQUIRE(inside.front_edges.size() == 1);
  CHECK(near(inside.front_edges.front().from.x, 3.25));
  CHECK(face_scene(made.card, made.card.design, made.plain(), "front").front_edges.empty());
}

TEST_CASE("from the side a card is as high as it is thick where its papers and foam are stated") {
  int measured = 0;
  for (const auto& path : card_files("cases")) {
    INFO(path.filename().string());
    const Made made(whole_text(path));
    const auto& closed = made.plain().closed;
    REQUIRE(closed);
    const std::vector<SectionBar> bars = section_of(made.card, made.card.design, made.plain()).bars;
    REQUIRE_FALSE(bars.empty());
    for (std::size_t i = 0; i < bars.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const bool apart = bars[i].right <= bars[j].left + 1e-9 || bars[j].right <= bars[i].left + 1e-9 ||
                           bars[i].high <= bars[j].low + 1e-9 || bars[j].high <= bars[i].low + 1e-9;
        CHECK(apart);
      }
    }
    const bool glue = std::any_of(made.card.design.pieces.begin(), made.card.design.pieces.end(),
                                  [](const Piece& piece) { return piece.adhesive.has_value(); });
    if (!closed->no_thickness.empty() || glue) continue;
    ++measured;
    double high = 0;
    for (const SectionBar& bar : bars) high = std::max(high, bar.high);
    CHECK(near(high, number(closed->thickness)));
  }
  CHECK(measured > 3);
}

TEST_CASE("leaders of layers in a row do not cross") {
  std::string text = "unit = \"in\"\nmark = \"1/16\"\n[base]\nfold = \"flat\"\nfront = \"8 x 4\"\n";
  for (int i = 0; i < 12; ++i) {
    text += fmt::format(
        "[[layer]]\nname = \"strip {}\"\non = \"front\"\nsize = \"1/4 x {}\"\nfrom-left = \"{}\"\nfrom-top = "
        "\"{}\"\n",
        i, 1 + i % 3, 0.5 + 0.5 * i, 0.25 + 0.25 * (i % 2));
  }
  const Made made(text);
  const Figure figure = figure_of(face_scene(made.card, made.card.design, made.plain(), "front"), Unit::inch,
                                  {36, 36, 540, 400});
  std::vector<Polyline> leaders;
  for (const Mark& mark : figure.marks) {
    const auto* line = std::get_if<Polyline>(&mark);
    if (line != nullptr && line->points.size() == 3 && line->stroke.width < 1) leaders.push_back(*line);
  }
  REQUIRE(leaders.size() == 13);
  const auto side = [](const At& a, const At& b, const At& p) {
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
  };
  int crossings = 0;
  for (std::size_t i = 0; i < leaders.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const At& a = leaders[i].points[1];
      const At& b = leaders[i].points[2];
      const At& c = leaders[j].points[1];
      const At& d = leaders[j].points[2];
      if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) ++crossings;
    }
  }
  CHECK(crossings == 0);
}

TEST_CASE("only what is seen from end to end has a dimension line") {
  const Made made(whole_text(std::string(EVENMAT_SOURCE) + "/cases/porthole.toml"));
  FigureStyle style;
  style.labels = false;
  Drawing drawing{"", {blank_page(PageSize::letter)}};
  const Scene closed = closed_scene(made.card, made.card.design, made.plain());
  drawing.pages.front().marks = figure_of(closed, made.card.unit, {36, 36, 500, 400}, style).marks;
  CHECK(says(drawing, "70"));        // the window
  CHECK_FALSE(says(drawing, "82"));  // the print behind it, whose edges are hidden
}

TEST_CASE("a spot that a leader points at is on its paper and under no other") {
  for (const auto& path : card_files("cases")) {
    INFO(path.filename().string());
    const Made made(whole_text(path));
    const Scene scene = closed_scene(made.card, made.card.design, made.plain());
    const auto sights = sights_of(scene);
    for (std::size_t i = 0; i < scene.papers.size(); ++i) {
      if (!sights[i] || scene.papers[i].kind == ScenePaper::Kind::window) continue;
      const Box box = box_around(scene.papers[i].outline);
      CHECK(contains(box, {sights[i]->spot.x, sights[i]->spot.y, 0, 0}));
      // Upright papers without openings above it do not reach over the spot.
      for (std::size_t j = i + 1; j < scene.papers.size(); ++j) {
        const ScenePaper& over = scene.papers[j];
        const bool plain = over.kind != ScenePaper::Kind::window && over.openings.empty() &&
                           (over.piece == nullptr || !over.piece->piece->tilt);
        if (plain)
          CHECK_FALSE(contains(box_around(over.outline), {sights[i]->spot.x, sights[i]->spot.y, 0, 0}));
      }
    }
  }
}

TEST_CASE("the same card is the same bytes in every format") {
  const Folder folder;
  const std::string card = std::string(EVENMAT_SOURCE) + "/cases/lantern-thanks.toml";
  for (const std::string ending : {"svg", "pdf", "png"}) {
    INFO(ending);
    std::vector<std::string> drawn;
    for (const std::string name : {"once.", "twice."}) {
      const std::string path = (folder.path() / (name + ending)).string();
      REQUIRE(run({"draw", card, "-o", path}).status == 0);
      drawn.push_back(whole_text(path));
    }
    CHECK(drawn.front().size() > 1000);
    CHECK((drawn.front() == drawn.back()));
  }
}

TEST_CASE("a picture that is too tall for one PNG says so and writes nothing") {
  Drawing drawing{"tall", std::vector<Page>(40, blank_page(PageSize::letter))};
  for (Page& page : drawing.pages) page.marks.emplace_back(text_at({36, 740}, "foot", {}, 100));
  const Rendered made = render(drawing, FileKind::png);
  CHECK(made.bytes.empty());
  CHECK(made.trouble.find("PDF") != std::string::npos);
  CHECK(render(drawing, FileKind::pdf).trouble.empty());
}

TEST_CASE("words that do not fit into their room are cut in the middle and others are left whole") {
  const Type type{.size = 8};
  CHECK(shortened_to("short", type, 100) == "short");
  const std::string cut = shortened_to("from the first word on to the very last of them", type, 100);
  CHECK(extent_of(cut, type).width <= 100);
  CHECK(cut.starts_with("from"));
  CHECK(cut.ends_with("them"));
}
