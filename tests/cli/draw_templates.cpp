// Templates as they are drawn: exactly as large as what they are templates of, within the margins, with
// rulers to check them by, and in tiles that cover all of a piece.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "cli/draw/templates_pieces.h"
#include "cli/draw/templates_tiles.h"
#include "tests/catch.h"
#include "tests/cli/drawn_templates.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

std::vector<Box> outlines(const Drawing& drawing) {
  std::vector<Box> boxes;
  for (const Page& page : drawing.pages) {
    for (const Shape& shape : all_of<Shape>(page)) boxes.push_back(box_around(shape.outline));
  }
  return boxes;
}

bool has_outline(const Drawing& drawing, double width, double height) {
  const std::vector<Box> boxes = outlines(drawing);
  return std::any_of(boxes.begin(), boxes.end(), [&](const Box& box) {
    return (near(box.width, width) && near(box.height, height)) ||
           (near(box.width, height) && near(box.height, width));
  });
}

bool has_line(const Page& page, double length) {
  const std::vector<Polyline> all = all_of<Polyline>(page);
  return std::any_of(all.begin(), all.end(), [&](const Polyline& line) {
    return near(line.points.front().y, line.points.back().y) &&
           near(line.points.back().x - line.points.front().x, length);
  });
}

// Upright lines that stand on a ruler of this length: the marks.
std::ptrdiff_t marks_on(const Page& page, double length) {
  const std::vector<Polyline> all = all_of<Polyline>(page);
  const auto ruler = std::find_if(all.begin(), all.end(), [&](const Polyline& line) {
    return near(line.points.front().y, line.points.back().y) &&
           near(line.points.back().x - line.points.front().x, length);
  });
  if (ruler == all.end()) return 0;
  return std::count_if(all.begin(), all.end(), [&](const Polyline& line) {
    return near(line.points.front().x, line.points.back().x) &&
           near(line.points.front().y, ruler->points.front().y);
  });
}

const std::string tilted = R"(
[base]
fold = "side"
front = "us A2"
[[window]]
name = "porthole"
in = "front"
size = "1 x 1 1/2"
from-left = "2 1/2"
from-top = "3"
[[layer]]
name = "moss mat"
role = "mat"
on = "front"
size = "2 x 2 1/2"
from-left = "1/4"
from-top = "1/4"
tilt = 8
[[layer]]
name = "greeting"
role = "sentiment"
on = "inside"
artwork = "2 x 1"
margin = "1/4"
[[layer]]
name = "stamp"
on = "inside"
size = "1 x 1"
clear-of = ["greeting"]
stamped = true
)";

}  // namespace

TEST_CASE("every template is as large as its piece and lies clear of the others whatever the card") {
  int drawn = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(EVENMAT_SOURCE) / "cases")) {
    if (entry.path().extension() != ".toml") continue;
    INFO(entry.path().filename().string());
    std::ifstream file(entry.path());
    const std::string text(std::istreambuf_iterator<char>(file), {});
    for (const PageSize size : {PageSize::letter, PageSize::a4}) {
      const Ready made = ready(text, size);
      if (made.sized.verdict != Verdict::buildable) continue;
      ++drawn;
      check_clear(made.drawing);
      const double point = made.card.front().unit == Unit::inch ? inch : millimetre;
      for (const SizedVersion& version : made.sized.versions) {
        for (const PlacedPiece& placed : version.pieces) {
          if (placed.piece->kind != Piece::Kind::layer || placed.piece->stamped) continue;
          const double width = placed.width.convert_to<double>() * point;
          const double height = placed.height.convert_to<double>() * point;
          const bool tiled = std::max(width, height) > 8.4 * inch || std::min(width, height) > 7.2 * inch;
          INFO(placed.piece->name.value);
          if (!tiled) CHECK(has_outline(made.drawing, width, height));
        }
      }
    }
  }
  CHECK(drawn > 40);
}

TEST_CASE("every page of templates has a ruler in inches and one in millimetres") {
  for (const PageSize size : {PageSize::letter, PageSize::a4}) {
    const Ready made = ready(flat("12 x 12") +
                                 "[[layer]]\nname = \"mat\"\non = \"front\"\nsize = \"2 x 1\"\n"
                                 "from-left = \"1\"\nfrom-top = \"1\"\n",
                             size);
    const bool metric = size == PageSize::a4;
    REQUIRE(made.drawing.pages.size() == 5);
    for (const Page& page : made.drawing.pages) {
      CHECK(has_line(page, 288));
      CHECK(has_line(page, 100 * millimetre));
      CHECK(marks_on(page, 288) == 4 * 16 + 1);
      CHECK(marks_on(page, 100 * millimetre) == 101);
      CHECK(
          has(page, std::string("Print at 100 per cent (actual size), then lay a ruler here: this line is ") +
                        (metric ? "100 mm" : "4 in") + " long."));
    }
  }
}

TEST_CASE("a tilted layer has an upright template and a stamp has none") {
  const Ready made = ready(tilted);
  REQUIRE(made.sized.verdict == Verdict::buildable);
  check_clear(made.drawing);
  CHECK(has_outline(made.drawing, 2 * inch, 2.5 * inch));
  CHECK(has_outline(made.drawing, 8.5 * inch, 5.5 * inch));
  CHECK(count(made.drawing, "moss mat") == 1);
  CHECK(count(made.drawing, "stamp") == 0);
}

TEST_CASE("windows and artwork and scores are on their template at true size") {
  const Ready made = ready(tilted);
  const std::vector<TemplatePiece> pieces = template_pieces(made.card.front(), made.sized, made.versions);
  const auto piece_of = [&](const std::string& name) {
    const auto found = std::find_if(pieces.begin(), pieces.end(),
                                    [&](const TemplatePiece& piece) { return piece.name == name; });
    REQUIRE(found != pieces.end());
    return *found;
  };
  // The inside looks up: what is 2 1/2 from the front's left edge is 3/4 from the blank's.
  const TemplatePiece base = piece_of("base");
  std::vector<TemplateLine> window;
  std::vector<TemplateLine> scores;
  for (const TemplateLine& line : base.lines) (line.stroke.dashes.empty() ? window : scores).push_back(line);
  REQUIRE(scores.size() == 1);
  CHECK(near(scores[0].from.x, 4.25 * inch));
  CHECK(near(std::abs(scores[0].to.y - scores[0].from.y), 5.5 * inch));
  REQUIRE(window.size() == 4);
  Ring corners;
  for (const TemplateLine& line : window) corners.push_back(line.from);
  const Box box = box_around(corners);
  CHECK(near(box.width, 1 * inch));
  CHECK(near(box.height, 1.5 * inch));
  CHECK(near(box.left, 0.75 * inch));
  CHECK(near(box.top, 3 * inch));

  Ring artwork;
  for (const TemplateLine& line : piece_of("greeting").lines) artwork.push_back(line.from);
  const Box printed = box_around(artwork);
  CHECK(near(printed.left, 0.25 * inch));
  CHECK(near(printed.top, 0.25 * inch));
  CHECK(near(printed.width, 2 * inch));
  CHECK(near(printed.height, 1 * inch));
}

TEST_CASE("a window in a tilted layer lies upright in its template") {
  const Ready made = ready(R"(
[base]
fold = "side"
front = "us A2"
[[layer]]
name = "moss mat"
on = "front"
size = "3 x 2"
tilt = 12
[[window]]
name = "slit"
in = "moss mat"
size = "1 x 1/2"
from-left = "1/4"
from-top = "3/8"
)");
  REQUIRE(made.sized.verdict == Verdict::buildable);
  const std::vector<TemplatePiece> pieces = template_pieces(made.card.front(), made.sized, made.versions);
  REQUIRE(pieces.size() == 2);
  Ring corners;
  for (const TemplateLine& line : pieces[1].lines) corners.push_back(line.from);
  REQUIRE(corners.size() == 4);
  const Box box = box_around(corners);
  CHECK(near(box.left, 0.25 * inch));
  CHECK(near(box.top, 0.375 * inch));
  CHECK(near(box.width, inch));
  CHECK(near(box.height, 0.5 * inch));
}

TEST_CASE("tiles overlap by a quarter of an inch and cover the whole piece") {
  const Extent room{540, 610};
  for (const double width : {100.0, 540.0, 540.5, 864.0, 3000.0}) {
    for (const double height : {610.0, 611.0, 864.0, 2000.0}) {
      const std::vector<Tile> tiles = tiles_of(width, height, room);
      const std::size_t columns = tiles.back().column;
      const std::size_t rows = tiles.back().row;
      REQUIRE(tiles.size() == columns * rows);
      CHECK(columns == (width <= 540 ? 1U : static_cast<std::size_t>(std::ceil((width - 18) / 522))));
      for (std::size_t i = 0; i < tiles.size(); ++i) {
        const Tile& tile = tiles[i];
        CHECK(tile.part.width <= room.width + 1e-6);
        CHECK(tile.part.height <= room.height + 1e-6);
        if (tile.column == 1) CHECK(near(tile.part.left, 0));
        if (tile.row == 1) CHECK(near(tile.part.top, 0));
        if (tile.column == columns) CHECK(near(tile.part.right(), width));
        if (tile.row == rows) CHECK(near(tile.part.bottom(), height));
        if (tile.column < columns) CHECK(near(tile.part.right() - tiles[i + 1].part.left, 18));
        if (tile.row < rows) CHECK(near(tile.part.bottom() - tiles[i + columns].part.top, 18));
      }
    }
  }
}

TEST_CASE("tiles have matching letters at the same places of the piece") {
  const Ready made = ready(flat("12 x 12"));
  REQUIRE(made.drawing.pages.size() == 4);
  check_clear(made.drawing);
  CHECK(has(made.drawing.pages[1], "tile 2 of 4, column 2 row 1"));
  const std::vector<TemplatePiece> pieces = template_pieces(made.card.front(), made.sized, made.versions);
  const std::vector<Tile> tiles = tiles_of(864, 864, {540, 600});
  REQUIRE(tiles.size() == 4);
  std::map<std::string, std::vector<At>> letters;
  for (std::size_t i = 0; i < tiles.size(); ++i) {
    for (const Mark& mark : tile_marks(pieces[0], tiles, i, {36, 50})) {
      if (const auto* text = std::get_if<Text>(&mark)) {
        letters[text->words].push_back(
            {text->box.left - 36 + tiles[i].part.left, text->box.top - 50 + tiles[i].part.top});
      }
    }
  }
  CHECK(letters.size() == 4);
  for (const auto& [letter, places] : letters) {
    INFO(letter);
    REQUIRE(places.size() == 2);
    CHECK(near(places[0].x, places[1].x));
    CHECK(near(places[0].y, places[1].y));
  }
}

TEST_CASE("where a tile ends there are corner marks and no line to cut along") {
  const Ready made = ready("[base]\nfold = \"flat\"\nfront = \"12 x 12\"\n");
  const std::vector<TemplatePiece> pieces = template_pieces(made.card.front(), made.sized, made.versions);
  const std::vector<Tile> tiles = tiles_of(864, 864, {540, 600});
  REQUIRE(tiles.size() == 4);
  int ends = 0;
  for (const Mark& mark : tile_marks(pieces[0], tiles, 0, {36, 50})) {
    const auto* line = std::get_if<Polyline>(&mark);
    if (line == nullptr) continue;
    CHECK(line->stroke.dashes.empty());
    const Box box = box_around(line->points);
    const bool at_end =
        near(box.left, 36 + tiles[0].part.right()) || near(box.top, 50 + tiles[0].part.bottom());
    if (!at_end) continue;
    ++ends;
    CHECK(std::max(box.width, box.height) < 12);
  }
  CHECK(ends == 4);
  CHECK(has(made.drawing.pages[0], "tape A on A and so on; corner marks are where a tile ends, not a cut"));
}

TEST_CASE("what is drawn on tiles adds up to the whole outline") {
  const Ready made = ready(flat("12 x 12"));
  double edges = 0;
  for (const Page& page : made.drawing.pages) {
    for (const Polyline& line : all_of<Polyline>(page)) {
      // Of the outline and the window; marks of rulers are shorter, and the rulers have their own length.
      if (line.stroke.width != 0.3 || !line.stroke.dashes.empty()) continue;
      const double length =
          std::hypot(line.points[1].x - line.points[0].x, line.points[1].y - line.points[0].y);
      if (length > 12 && !near(length, 288) && !near(length, 100 * millimetre)) edges += length;
    }
  }
  // Four sides of 12 in and four of 5 in, each with one overlap.
  CHECK(near(edges, 4 * (864 + 18) + 4 * (360 + 18)));
}

TEST_CASE("a piece that would take too many pages is told by its measures") {
  const Ready made = ready("[base]\nfold = \"flat\"\nfront = \"200 x 300\"\n");
  REQUIRE(made.sized.verdict == Verdict::buildable);
  REQUIRE(made.drawing.pages.size() == 1);
  CHECK(has(made.drawing.pages[0], "mark it out by its measures"));
  check_clear(made.drawing);
}

TEST_CASE("versions that have a piece alike share its template") {
  const std::string card = R"(
[base]
fold = "side"
front = "us A2"
[[layer]]
name = "mat"
role = "mat"
on = "front"
border = "1/8"
paper = "moss"
[[layer]]
name = "tag"
role = "sentiment"
on = "mat"
size = "2 x 1"
[[paper]]
name = "moss"
[[paper]]
name = "fern"
[[variant]]
name = "for the choir"
set = { "tag.size" = "2 x 3/4", "mat.paper" = "fern" }
)";
  const Ready made = ready(card);
  REQUIRE(made.sized.verdict == Verdict::buildable);
  CHECK(count(made.drawing, "base") == 1);
  CHECK(count(made.drawing, "mat") == 1);
  CHECK(count(made.drawing, "tag") == 2);
  CHECK(count(made.drawing, "only for the choir") == 1);
  CHECK(count(made.drawing, "only the plain card") == 1);
  CHECK(count(made.drawing, "mat, from moss or fern") == 1);
}

TEST_CASE("long names and forty layers go into templates without touching") {
  const std::string sixty = "the panel with the very long name that no strip has room for";
  for (const std::string& name : {sixty, std::string(300, 'w'), std::string("\u706f\u7b3c\u7eb8\u5361")}) {
    std::string card = "[base]\nfold = \"flat\"\nfront = \"10 x 12\"\n";
    for (int i = 0; i < 40; ++i) {
      card += "[[layer]]\nname = \"" + name + std::to_string(i) + "\"\non = \"front\"\nsize = \"" +
              std::to_string(1 + i % 2) + " x " + (i % 3 == 0 ? "1/2" : "1") + "\"\nfrom-left = \"" +
              std::to_string(i % 4 * 2) + " 1/4\"\nfrom-top = \"" + std::to_string(i / 4) + " 1/8\"\n";
    }
    const Ready made = ready(card);
    REQUIRE(made.sized.verdict == Verdict::buildable);
    check_clear(made.drawing);
  }
}
