// Drawings as plain values: pages with shapes, lines and text on them, in the order in which they are laid
// down. Knows nothing of cards, and nothing of the formats they are written in.
//
// Lengths are in points (1/72 in) from the page's top left corner, x right, y down.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace evenmat {
inline namespace drawing {

struct At {
  double x = 0, y = 0;
};

struct Box {
  double left = 0, top = 0, width = 0, height = 0;

  [[nodiscard]] double right() const { return left + width; }
  [[nodiscard]] double bottom() const { return top + height; }
  [[nodiscard]] At middle() const { return {left + width / 2, top + height / 2}; }
};
// Whether they share more than an edge; less than a thousandth of a point does not count.
bool overlap(const Box& a, const Box& b);
bool contains(const Box& outer, const Box& inner);

// From 0 to 1.
struct Colour {
  double red = 0, green = 0, blue = 0;
};

struct Stroke {
  Colour colour;
  double width = 0.5;
  std::vector<double> dashes = {};  // on, off, ...; empty: unbroken
};

// Fine lines or dots over a fill, so that what is meant shows without colour.
struct Texture {
  enum class Kind { lines, dots, crossed, stitches };
  Kind kind = Kind::lines;
  double turned = 0;  // degrees clockwise from lines that run left to right
  double apart = 4;
  Stroke stroke;  // of dots the width is across
};

using Ring = std::vector<At>;  // closed, its first corner not said again
Ring ring_of(const Box& box);
Box box_around(const Ring& ring);

// What lies within its outline and in none of its openings; these may overlap, and reach past it.
struct Shape {
  Ring outline;
  std::vector<Ring> openings = {};
  std::optional<Colour> fill = {};
  std::optional<Texture> texture = {};
  std::optional<Stroke> stroke = {};  // of the outline; openings have edges where these are drawn
};

struct Polyline {
  std::vector<At> points;
  Stroke stroke;
  bool arrow_at_start = false, arrow_at_end = false;
};

struct Type {
  double size = 8;  // points from one line to the next are about 1.2 times that
  bool bold = false;
  bool italic = false;
  Colour colour = {0.1, 0.1, 0.12};
};

enum class Turn { none, up };  // up: reads from bottom to top
enum class Align { left, centre, right };

// In lines as wide as its box (as tall, where it is turned), broken between words or, where a word is longer,
// within it.
struct Text {
  Box box;            // what it covers, as measured: see text.h
  std::string words;  // any bytes: what is no text, and controls, are made visible
  Type type;
  Align align = Align::left;
  Turn turn = Turn::none;
};

using Mark = std::variant<Shape, Polyline, Text>;

// A picture to scale: by this a length of what it shows is found again on the page.
struct View {
  std::string title;  // as it stands above the picture, without the scale
  std::string part;   // which part of the whole is shown, if it is one that has a name
  std::string whole;  // which whole, if there are several
  At origin;          // where the frame of what is shown has its origin
  double scale = 1;   // points for one of that frame's unit
};

struct Page {
  double width = 612, height = 792;
  std::vector<Mark> marks;
  std::vector<View> views = {};
};

struct Drawing {
  std::string title;
  std::vector<Page> pages;
};

// Around all that is on it; of an empty page nothing.
Box used(const Page& page);

// US Letter (8 1/2 x 11 in), ISO 216 A4, and a page that is as long as need be: for a picture that is no
// print.
enum class PageSize { letter, a4, roll };
Page blank_page(PageSize size);
inline constexpr double page_margin = 36;  // no home printer needs more
// What of a page is drawn on.
Box within_margins(const Page& page);

}  // namespace drawing
}  // namespace evenmat
