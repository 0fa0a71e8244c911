#include "cli/draw/templates_pieces.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include "cli/cut/telling.h"
#include "cli/drawing/number.h"
#include "cli/figure/look.h"
#include "cli/figure/scene.h"
#include "cli/printable.h"
#include "cli/wording.h"
#include "cli/worksheet/units.h"
#include "model/faces.h"
#include "solver/batch/offcuts.h"
#include "solver/body/pile.h"

namespace evenmat {
namespace {

constexpr double an_inch = 72;

Stroke trim_line() { return {template_edge().colour, 0.5, {1, 1.6}}; }

// A piece with what is not told alike for all versions that have it.
struct Found {
  TemplatePiece piece;
  bool base = false;
  std::vector<std::string> papers;
  std::vector<std::size_t> versions;
};

class Finder {
 public:
  Finder(const Card& card, const SizedCard& sized, const std::vector<std::size_t>& versions)
      : card_(card),
        sized_(sized),
        versions_(versions),
        point_(card.unit == Unit::inch ? an_inch : an_inch / 25.4) {}

  std::vector<TemplatePiece> run() {
    for (const std::size_t which : versions_) {
      const Design& design = which == 0 ? card_.design : card_.variants[which - 1].design;
      const SizedVersion& version = sized_.versions[which];
      add(which, base(design, version), true, design.base.paper);
      const Openings openings = openings_of(design, version);
      for (std::size_t i = 0; i < version.pieces.size(); ++i) {
        const Piece& piece = *version.pieces[i].piece;
        if (piece.kind == Piece::Kind::layer && !piece.stamped)
          add(which, layer(version, version.pieces[i], openings[i]), false, piece.paper);
      }
    }
    std::vector<TemplatePiece> pieces;
    for (Found& one : found_) {
      if (!one.papers.empty()) {
        const std::string from = "from " + joined(one.papers, " or ");
        if (one.base) {
          one.piece.notes.push_back(from);
        } else {
          one.piece.notes.back() += ", " + from;
        }
      }
      if (one.versions.size() < versions_.size()) {
        std::vector<std::string> names;
        for (const std::size_t which : one.versions)
          names.push_back(which == 0 ? "the plain card" : sized_.versions[which].name);
        one.piece.notes.push_back("only " + joined(names, ", "));
      }
      one.piece.name = shortened(one.piece.name, 120);
      for (std::string& note : one.piece.notes) note = shortened(note, 240);
      pieces.push_back(std::move(one.piece));
    }
    return pieces;
  }

 private:
  // By piece: of its first copy, in the layer itself as it stands upright.
  using Openings = std::vector<std::vector<Ring>>;

  // Each face is piled up once, however many layers it has: that takes long.
  static Openings openings_of(const Design& design, const SizedVersion& version) {
    Openings openings(version.pieces.size());
    std::set<std::string> faces;
    std::set<std::size_t> found;
    for (const PlacedPiece& placed : version.pieces) {
      if (!faces.insert(placed.face).second) continue;
      for (const Lying& lying : pile_on(design, version, placed.face)) {
        if (!found.insert(lying.piece).second) continue;
        for (const Quad& opening : lying.sheet.openings)
          openings[lying.piece].push_back(on_layer(opening, lying.sheet.outline));
      }
    }
    return openings;
  }

  void add(std::size_t which, TemplatePiece piece, bool is_base, const Maybe<std::string>& paper) {
    auto same = std::find_if(found_.begin(), found_.end(), [&](const Found& other) {
      return other.base == is_base && alike(other.piece, piece);
    });
    if (same == found_.end()) same = found_.insert(found_.end(), {std::move(piece), is_base, {}, {}});
    same->versions.push_back(which);
    if (paper && std::find(same->papers.begin(), same->papers.end(), paper->value) == same->papers.end())
      same->papers.push_back(paper->value);
  }

  static bool alike(const TemplatePiece& a, const TemplatePiece& b) {
    const auto near = [](const At& one, const At& other) {
      return std::abs(one.x - other.x) < 1e-6 && std::abs(one.y - other.y) < 1e-6;
    };
    return a.name == b.name && a.notes == b.notes &&
           std::equal(a.lines.begin(), a.lines.end(), b.lines.begin(), b.lines.end(),
                      [&](const TemplateLine& one, const TemplateLine& other) {
                        return near(one.from, other.from) && near(one.to, other.to) &&
                               one.stroke.dashes == other.stroke.dashes;
                      });
  }

  [[nodiscard]] std::string size_note(const Size& size) const {
    return with_plain_blanks(fmt::format("{} {} ({} {})", size_words(size, card_.unit), unit_name(card_.unit),
                                         other_size(size, card_.unit), unit_name(other_unit(card_.unit))));
  }

  void add_line(TemplatePiece& piece, const At& from, const At& to, const Stroke& stroke) const {
    TemplateLine line{{from.x * point_, from.y * point_}, {to.x * point_, to.y * point_}, stroke};
    line = clipped(line, {0, 0, piece.width, piece.height});
    if (!is_nothing(line)) piece.lines.push_back(line);
  }

  void add_ring(TemplatePiece& piece, const Ring& ring, const Stroke& stroke) const {
    for (std::size_t i = 0; i < ring.size(); ++i)
      add_line(piece, ring[i], ring[(i + 1) % ring.size()], stroke);
  }

  // As it lies to be scored.
  [[nodiscard]] TemplatePiece base(const Design& design, const SizedVersion& version) const {
    const Folding& folding = version.folding;
    TemplatePiece piece;
    piece.name = "base";
    piece.notes.push_back(size_note(folding.blank));
    piece.width = number(folding.blank.width) * point_;
    piece.height = number(folding.blank.height) * point_;
    std::vector<std::string> scores;
    const Rational& far = folding.across ? folding.blank.height : folding.blank.width;
    for (const ScoreLine& score : folding.scores) {
      const double at = number(score.at);
      if (folding.across) {
        add_line(piece, {at, 0}, {at, number(far)}, fold_line());
      } else {
        add_line(piece, {0, at}, {number(far), at}, fold_line());
      }
      scores.push_back(length_text(score.at, card_.unit));
    }
    if (!scores.empty()) {
      piece.notes.push_back(fmt::format("scored at {}; the {} looks up", listed(scores),
                                        folding.front_up ? "front" : "inside"));
    }
    std::optional<Scene> scene = open_scene(card_, design, version);
    if (!scene) scene = face_scene(card_, design, version, "front");
    bool trims = false;
    const std::vector<Face> all = faces(design.base);
    for (std::size_t index = 0; const ScenePaper& paper : scene->papers) {
      if (paper.kind != ScenePaper::Kind::leaf || index >= folding.leaves.size()) continue;
      const Leaf& leaf = folding.leaves[index++];
      const Ring outline = moved(paper.outline, scene->origin);
      add_face(piece, all, leaf, outline);
      std::vector<Ring> openings;
      for (const Ring& opening : paper.openings) {
        openings.push_back(moved(opening, scene->origin));
        add_ring(piece, openings.back(), template_edge());
      }
      add_holes(piece, folding, all, leaf, version, std::move(openings));
      trims = add_trims(piece, folding, leaf, outline) || trims;
    }
    if (trims) piece.notes.emplace_back("cut at the dotted line once it is folded");
    return piece;
  }

  static Ring moved(Ring ring, const At& by) {
    for (At& one : ring) one = {one.x + by.x, one.y + by.y};
    return ring;
  }

  static const Face* find_face(const std::vector<Face>& all, const std::string& name) {
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Face& face) { return face.name == name; });
    return found == all.end() ? nullptr : &*found;
  }

  [[nodiscard]] Box in_points(const Box& box) const {
    return {box.left * point_, box.top * point_, box.width * point_, box.height * point_};
  }

  // The side of a leaf that looks up as the blank lies to be scored.
  void add_face(TemplatePiece& piece, const std::vector<Face>& all, const Leaf& leaf,
                const Ring& outline) const {
    const std::string& name = leaf.toward_up ? leaf.toward : leaf.away;
    const std::string& other = leaf.toward_up ? leaf.away : leaf.toward;
    TemplateFace face{name, other.empty() ? "" : other + " on its other side",
                      in_points(box_around(outline))};
    const Face* seen = find_face(all, name);
    const Face* front = find_face(all, leaf.toward);
    if (leaf.depth == 0 && seen != nullptr && front != nullptr) {
      const bool on_its_head = (seen->turned == Turned::down) != (front->turned == Turned::down);
      face.up = At{0, on_its_head ? 1.0 : -1.0};
      face.note = leaf.toward_up ? "up as the arrow points"
                                 : leaf.toward + " on its other side, up as the arrow points";
    }
    piece.faces.push_back(std::move(face));
  }

  void add_hole(TemplatePiece& piece, const PlacedPiece& window, const Ring& opening) const {
    const Box box = in_points(box_around(opening));
    const double left = std::max(box.left, 0.0);
    const double top = std::max(box.top, 0.0);
    piece.holes.push_back(
        {shortened(with_plain_blanks(fmt::format("cut out: {}, {}", window.piece->name.value,
                                                 size_words({window.width, window.height}, card_.unit))),
                   120),
         {left, top, std::min(box.right(), piece.width) - left, std::min(box.bottom(), piece.height) - top}});
  }

  // Which opening of a leaf is which window: of its size and where it ought to lie.
  void add_holes(TemplatePiece& piece, const Folding& folding, const std::vector<Face>& all, const Leaf& leaf,
                 const SizedVersion& version, std::vector<Ring> openings) const {
    const Face* seen = find_face(all, leaf.toward_up ? leaf.toward : leaf.away);
    if (seen == nullptr) return;
    for (const PlacedPiece& window : version.pieces) {
      const std::string& on = window.piece->on.value;
      const Face* face = find_face(all, on);
      const bool is_here = on == leaf.toward || on == leaf.away || (on == "front" && leaf.depth == 0);
      if (window.piece->kind != Piece::Kind::window || face == nullptr || !is_here || openings.empty())
        continue;
      const double width = number(window.width);
      const double height = number(window.height);
      At middle{number(window.left) + width / 2, number(window.top) + height / 2};
      if (face != seen) middle = onto_face(*seen, onto_card(*face, middle));
      middle = {middle.x - number(seen->left), middle.y - number(seen->top)};
      (folding.across ? middle.x : middle.y) += number(leaf.from);
      const auto off = [&](const Ring& opening) {
        const Box box = box_around(opening);
        return std::abs(box.width - width) + std::abs(box.height - height) +
               std::hypot(box.middle().x - middle.x, box.middle().y - middle.y);
      };
      const auto nearest = std::min_element(openings.begin(), openings.end(),
                                            [&](const Ring& a, const Ring& b) { return off(a) < off(b); });
      add_hole(piece, window, *nearest);
      openings.erase(nearest);
    }
  }

  // From a face's own frame into the closed card's, and from there into a face's.
  static At onto_card(const Face& face, const At& at) {
    const double left = number(face.closed_left);
    const double top = number(face.closed_top);
    if (face.turned == Turned::across) return {left + number(face.whole.width) - at.x, at.y + top};
    if (face.turned == Turned::down) return {at.x + left, top + number(face.whole.height) - at.y};
    return at;
  }

  static At onto_face(const Face& face, const At& at) {
    const double left = number(face.closed_left);
    const double top = number(face.closed_top);
    if (face.turned == Turned::across) return {left + number(face.whole.width) - at.x, at.y - top};
    if (face.turned == Turned::down) return {at.x - left, top + number(face.whole.height) - at.y};
    return at;
  }

  // Where a leaf ends once it is cut back.
  bool add_trims(TemplatePiece& piece, const Folding& folding, const Leaf& leaf, const Ring& outline) const {
    const double from = number(leaf.from);
    const double length = number(leaf.length);
    const Box whole = folding.across ? Box{from, 0, length, number(folding.blank.height)}
                                     : Box{0, from, number(folding.blank.width), length};
    const Box box = box_around(outline);
    constexpr double hair = 1e-6;
    const std::size_t before = piece.lines.size();
    if (box.left > whole.left + hair)
      add_line(piece, {box.left, whole.top}, {box.left, whole.bottom()}, trim_line());
    if (box.right() < whole.right() - hair)
      add_line(piece, {box.right(), whole.top}, {box.right(), whole.bottom()}, trim_line());
    if (box.top > whole.top + hair)
      add_line(piece, {whole.left, box.top}, {whole.right(), box.top}, trim_line());
    if (box.bottom() < whole.bottom() - hair)
      add_line(piece, {whole.left, box.bottom()}, {whole.right(), box.bottom()}, trim_line());
    return piece.lines.size() > before;
  }

  // Upright, as it is cut.
  [[nodiscard]] TemplatePiece layer(const SizedVersion& version, const PlacedPiece& placed,
                                    const std::vector<Ring>& openings) const {
    const Piece& stated = *placed.piece;
    TemplatePiece piece;
    piece.name = stated.name.value;
    piece.width = number(placed.width) * point_;
    piece.height = number(placed.height) * point_;
    piece.notes.push_back(size_note({placed.width, placed.height}));
    piece.notes.push_back(what_it_is(stated));
    std::vector<const PlacedPiece*> windows;
    for (const PlacedPiece& window : version.pieces) {
      if (window.piece->kind == Piece::Kind::window && window.piece->on.value == stated.name.value)
        windows.push_back(&window);
    }
    for (std::size_t i = 0; i < openings.size(); ++i) {
      add_ring(piece, openings[i], template_edge());
      if (i < windows.size()) add_hole(piece, *windows[i], openings[i]);
    }
    if (stated.hollow && stated.cut == Cut::trimmer) {
      for (const batch::HiddenMiddle& middle : batch::hidden_middles(version, stated, card_.unit))
        add_middle(piece, middle);
    }
    if (placed.artwork_at && stated.artwork) {
      const double left = number(placed.artwork_at->first);
      const double top = number(placed.artwork_at->second);
      add_ring(piece,
               ring_of({left, top, number(stated.artwork->size.width), number(stated.artwork->size.height)}),
               {artwork_line().colour, 0.4, {2, 1.5}});
    }
    return piece;
  }

  void add_middle(TemplatePiece& piece, const batch::HiddenMiddle& middle) const {
    const Box box{number(middle.left), number(middle.top), number(middle.size.width),
                  number(middle.size.height)};
    add_ring(piece, ring_of(box), {template_edge().colour, 0.4, {4, 2.5}});
    piece.holes.push_back({with_plain_blanks(fmt::format(
                               "hidden, may be cut out: {}, {} from the left and {} "
                               "from the top",
                               size_words(middle.size, card_.unit), measure_words(middle.left, card_.unit),
                               measure_words(middle.top, card_.unit))),
                           in_points(box)});
  }

  static std::string what_it_is(const Piece& piece) {
    std::string words = look_name(piece.role);
    switch (piece.cut) {
      case Cut::by_hand:
        words += ", cut out by hand within this";
        break;
      case Cut::die:
        words += ", as the die cuts it";
        break;
      case Cut::ready_made:
        words += ", comes ready-made";
        break;
      case Cut::trimmer:
        break;
    }
    if (piece.copies && piece.copies->value > 1)
      words += fmt::format(", {} on each card", piece.copies->value);
    return words;
  }

  // Back from a layer that lies turned into the layer itself.
  static Ring on_layer(const Quad& quad, const Quad& outline) {
    const auto at = [](const Point& point) { return At{number(point.x), number(point.y)}; };
    const At origin = at(outline[0]);
    const At right = at(outline[1]);
    const At down = at(outline[3]);
    const double width = std::hypot(right.x - origin.x, right.y - origin.y);
    const double height = std::hypot(down.x - origin.x, down.y - origin.y);
    Ring ring;
    if (width <= 0 || height <= 0) return ring;
    for (const Point& corner : quad) {
      const At from{at(corner).x - origin.x, at(corner).y - origin.y};
      ring.push_back({(from.x * (right.x - origin.x) + from.y * (right.y - origin.y)) / width,
                      (from.x * (down.x - origin.x) + from.y * (down.y - origin.y)) / height});
    }
    return ring;
  }

  const Card& card_;
  const SizedCard& sized_;
  const std::vector<std::size_t>& versions_;
  double point_;  // for one of the card's unit
  std::vector<Found> found_;
};

}  // namespace

std::vector<TemplatePiece> template_pieces(const Card& card, const SizedCard& sized,
                                           const std::vector<std::size_t>& versions) {
  return Finder(card, sized, versions).run();
}

TemplatePiece turned(TemplatePiece piece) {
  const double height = piece.height;
  for (TemplateLine& line : piece.lines) {
    line.from = {height - line.from.y, line.from.x};
    line.to = {height - line.to.y, line.to.x};
  }
  const auto quarter = [height](const Box& box) {
    return Box{height - box.bottom(), box.left, box.height, box.width};
  };
  for (TemplateHole& hole : piece.holes) hole.box = quarter(hole.box);
  for (TemplateFace& face : piece.faces) {
    face.box = quarter(face.box);
    if (face.up) face.up = At{-face.up->y, face.up->x};
  }
  std::swap(piece.width, piece.height);
  if (!piece.faces.empty()) piece.notes.emplace_back("turned by a quarter on this page");
  return piece;
}

// (Liang and Barsky, 1984.)
TemplateLine clipped(TemplateLine line, const Box& box) {
  const At from = line.from;
  const At by{line.to.x - from.x, line.to.y - from.y};
  double enter = 0;
  double leave = 1;
  const auto against = [&](double move, double room) {
    if (move == 0) {
      if (room < 0) leave = -1;
    } else if (move < 0) {
      enter = std::max(enter, room / move);
    } else {
      leave = std::min(leave, room / move);
    }
  };
  against(-by.x, from.x - box.left);
  against(by.x, box.right() - from.x);
  against(-by.y, from.y - box.top);
  against(by.y, box.bottom() - from.y);
  if (enter >= leave) {
    line.to = line.from;
    return line;
  }
  if (enter > 0) line.from = {from.x + enter * by.x, from.y + enter * by.y};
  if (leave < 1) line.to = {from.x + leave * by.x, from.y + leave * by.y};
  return line;
}

bool is_nothing(const TemplateLine& line) {
  return std::hypot(line.to.x - line.from.x, line.to.y - line.from.y) < 1e-6;
}

Stroke template_edge() { return {{0, 0, 0}, 0.3}; }

}  // namespace evenmat
