#include "cli/figure/scene.h"

#include <algorithm>
#include <utility>

#include "cli/drawing/number.h"
#include "model/faces.h"
#include "solver/body/closed_card.h"
#include "solver/body/pile.h"

namespace evenmat {
namespace {

At at(const Point& point) { return {number(point.x), number(point.y)}; }
Ring ring(const Quad& quad) { return {at(quad[0]), at(quad[1]), at(quad[2]), at(quad[3])}; }

Ring shifted(Ring ring, const At& by) {
  for (At& one : ring) {
    one.x += by.x;
    one.y += by.y;
  }
  return ring;
}

// In a layer as it lies, which may be turned: from its first corner along its sides.
Ring on_layer(const Ring& outline, const PlacedPiece& placed, const Rational& left, const Rational& top,
              const Size& size) {
  const double width = number(placed.width);
  const double height = number(placed.height);
  if (width <= 0 || height <= 0) return {};
  const At& origin = outline[0];
  const At along{(outline[1].x - origin.x) / width, (outline[1].y - origin.y) / width};
  const At down{(outline[3].x - origin.x) / height, (outline[3].y - origin.y) / height};
  const auto place = [&](const Rational& x, const Rational& y) {
    return At{origin.x + along.x * number(x) + down.x * number(y),
              origin.y + along.y * number(x) + down.y * number(y)};
  };
  return {place(left, top), place(left + size.width, top), place(left + size.width, top + size.height),
          place(left, top + size.height)};
}

// The windows cut straight into a face or layer, in file order: as `windows_in` has them.
std::vector<const PlacedPiece*> window_pieces(const SizedVersion& version, const std::string& holder) {
  std::vector<const PlacedPiece*> windows;
  for (const PlacedPiece& placed : version.pieces) {
    if (placed.piece->kind == Piece::Kind::window && placed.piece->on.value == holder)
      windows.push_back(&placed);
  }
  return windows;
}

ScenePaper window_paper(const PlacedPiece& window, Ring outline) {
  ScenePaper paper;
  paper.kind = ScenePaper::Kind::window;
  paper.name = window.piece->name.value;
  paper.piece = &window;
  paper.size = {window.width, window.height};
  paper.outline = std::move(outline);
  return paper;
}

class Stage {
 public:
  Stage(const SizedVersion& version, std::string title) : version_(version) {
    scene_.title = std::move(title);
    copies_.resize(version.pieces.size(), 0);
  }

  void add_leaf(std::string name, const Quad& lies, Ring outline, std::vector<Ring> openings) {
    ScenePaper paper;
    paper.name = std::move(name);
    paper.size = {lies[2].x - lies[0].x, lies[2].y - lies[0].y};
    paper.outline = std::move(outline);
    paper.openings = std::move(openings);
    scene_.papers.push_back(std::move(paper));
  }

  void add_window(const PlacedPiece& window, Ring outline) {
    scene_.papers.push_back(window_paper(window, std::move(outline)));
  }

  void add_layer(std::size_t index, Ring outline, std::vector<Ring> openings) {
    const PlacedPiece& placed = version_.pieces[index];
    ScenePaper paper;
    paper.kind = ScenePaper::Kind::layer;
    paper.name = placed.piece->name.value;
    paper.piece = &placed;
    paper.size = {placed.width, placed.height};
    paper.copy = copies_[index]++;
    if (placed.artwork_at && placed.piece->artwork) {
      paper.artwork = on_layer(outline, placed, placed.artwork_at->first, placed.artwork_at->second,
                               placed.piece->artwork->size);
    }
    const bool first = paper.copy == 0;
    paper.outline = std::move(outline);
    paper.openings = openings;
    scene_.papers.push_back(std::move(paper));
    if (!first) return;
    const std::vector<const PlacedPiece*> windows = window_pieces(version_, placed.piece->name.value);
    for (std::size_t i = 0; i < std::min(windows.size(), openings.size()); ++i)
      add_window(*windows[i], openings[i]);
  }

  void add_fold(const At& from, const At& to) { scene_.folds.push_back({from, to}); }

  void add_front_edge(const At& from, const At& to) { scene_.front_edges.push_back({from, to}); }

  // Moved so that its top left corner is the origin.
  Scene done() {
    Ring all;
    for (const ScenePaper& paper : scene_.papers)
      all.insert(all.end(), paper.outline.begin(), paper.outline.end());
    const Box box = box_around(all);
    const At by{-box.left, -box.top};
    for (ScenePaper& paper : scene_.papers) {
      paper.outline = shifted(std::move(paper.outline), by);
      for (Ring& opening : paper.openings) opening = shifted(std::move(opening), by);
      if (paper.artwork) paper.artwork = shifted(std::move(*paper.artwork), by);
    }
    for (auto* lines : {&scene_.folds, &scene_.front_edges}) {
      for (SceneFold& line : *lines)
        line = {{line.from.x + by.x, line.from.y + by.y}, {line.to.x + by.x, line.to.y + by.y}};
    }
    scene_.extent = {0, 0, box.width, box.height};
    scene_.origin = {box.left, box.top};
    return std::move(scene_);
  }

 private:
  const SizedVersion& version_;
  std::vector<std::size_t> copies_;  // by piece, so far
  Scene scene_;
};

std::vector<Ring> rings(const std::vector<Quad>& quads) {
  std::vector<Ring> all;
  for (const Quad& quad : quads) all.push_back(ring(quad));
  return all;
}

// From the closed card's frame into that of a face, which may look the other way.
Ring into_face(const Face& face, Ring ring) {
  for (At& one : ring) {
    const At from = one;
    if (face.turned == Turned::across) {
      one = {number(face.closed_left + face.whole.width) - from.x, from.y - number(face.closed_top)};
    } else if (face.turned == Turned::down) {
      one = {from.x - number(face.closed_left), number(face.closed_top + face.whole.height) - from.y};
    }
  }
  return ring;
}

// A leaf of the closed card, with the edge and the openings it has, seen facing one of its faces.
void add_leaf(Stage& stage, const std::string& name, const Face& face, const ClosedPaper& leaf,
              const At& by) {
  std::vector<Ring> openings;
  for (const Ring& opening : rings(leaf.sheet.openings))
    openings.push_back(shifted(into_face(face, opening), by));
  stage.add_leaf(name, leaf.sheet.outline, shifted(into_face(face, ring(leaf.sheet.outline)), by),
                 std::move(openings));
}

void add_layers(Stage& stage, const Design& design, const SizedVersion& version, const std::string& face,
                const At& by) {
  for (const PlacedPiece* window : window_pieces(version, face)) {
    const Quad quad = upright(window->left, window->top, window->width, window->height);
    stage.add_window(*window, shifted(ring(quad), by));
  }
  for (const Lying& lying : pile_on(design, version, face)) {
    std::vector<Ring> openings;
    for (const Ring& opening : rings(lying.sheet.openings)) openings.push_back(shifted(opening, by));
    stage.add_layer(lying.piece, shifted(ring(lying.sheet.outline), by), std::move(openings));
  }
}

// The edges of a front leaf that cross the page behind it.
void add_front_edges(Stage& stage, const Ring& leaf, const Face& page) {
  const Box front = box_around(leaf);
  const Box behind{number(page.left), number(page.top), number(page.whole.width), number(page.whole.height)};
  constexpr double hair = 1e-6;
  for (const double x : {front.left, front.right()}) {
    if (x > behind.left + hair && x < behind.right() - hair)
      stage.add_front_edge({x, behind.top}, {x, behind.bottom()});
  }
  for (const double y : {front.top, front.bottom()}) {
    if (y > behind.top + hair && y < behind.bottom() - hair)
      stage.add_front_edge({behind.left, y}, {behind.right(), y});
  }
}

const Face* find_face(const std::vector<Face>& all, const std::string& name) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Face& face) { return face.name == name; });
  return found == all.end() ? nullptr : &*found;
}

bool is_on_leaf(const Leaf& leaf, const std::string& face) {
  return leaf.toward == face || leaf.away == face;
}

const ClosedPaper* paper_of(const std::vector<ClosedPaper>& pile, const Leaf& leaf) {
  const auto found = std::find_if(pile.begin(), pile.end(), [&](const ClosedPaper& paper) {
    return !paper.piece && paper.leaf == leaf.name;
  });
  return found == pile.end() ? nullptr : &*found;
}

}  // namespace

bool is_raised(const Piece& layer) { return layer.raised && layer.raised->value > 0; }

Scene closed_scene(const Card& card, const Design& design, const SizedVersion& version) {
  Stage stage(version, design.base.fold.value == Fold::flat ? "The front" : "Closed, from the front");
  const std::vector<Face> all = faces(design.base);
  for (const ClosedPaper& paper : closed_pile(card, design, version)) {
    Ring outline = ring(paper.sheet.outline);
    if (paper.piece) {
      stage.add_layer(*paper.piece, std::move(outline), rings(paper.sheet.openings));
      continue;
    }
    std::string name = paper.leaf;
    for (const Leaf& leaf : version.folding.leaves) {
      if (leaf.name == paper.leaf) name = leaf.toward;
    }
    stage.add_leaf(name, paper.sheet.outline, std::move(outline), rings(paper.sheet.openings));
    // A window of a leaf in front is seen as one.
    if (paper.depth > 0) continue;
    for (const std::string& face : {name, std::string("front")}) {
      for (const PlacedPiece* window : window_pieces(version, face)) {
        const Quad quad = upright(window->left, window->top, window->width, window->height);
        stage.add_window(*window, ring(quad));
      }
      if (name == "front") break;
    }
  }
  return stage.done();
}

std::optional<Scene> open_scene(const Card& card, const Design& design, const SizedVersion& version) {
  const Folding& folding = version.folding;
  if (folding.leaves.size() < 2) return std::nullopt;
  Stage stage(version, "Opened out");
  const std::vector<Face> all = faces(design.base);
  const std::vector<ClosedPaper> pile = closed_pile(card, design, version);
  std::vector<std::pair<const Face*, At>> laid;
  for (const Leaf& leaf : folding.leaves) {
    const Face* face = find_face(all, leaf.toward_up ? leaf.toward : leaf.away);
    const ClosedPaper* paper = paper_of(pile, leaf);
    if (face == nullptr || paper == nullptr) continue;
    At by{-number(face->left), -number(face->top)};
    (folding.across ? by.x : by.y) += number(leaf.from);
    add_leaf(stage, face->name, *face, *paper, by);
    laid.emplace_back(face, by);
  }
  for (const auto& [face, by] : laid) add_layers(stage, design, version, face->name, by);
  for (const ScoreLine& score : folding.scores) {
    const double place = number(score.at);
    const double far = number(folding.across ? folding.blank.height : folding.blank.width);
    if (folding.across) {
      stage.add_fold({place, 0}, {place, far});
    } else {
      stage.add_fold({0, place}, {far, place});
    }
  }
  return stage.done();
}

Scene face_scene(const Card& card, const Design& design, const SizedVersion& version,
                 const std::string& name) {
  Stage stage(version, "The " + name);
  const std::vector<Face> all = faces(design.base);
  const std::vector<ClosedPaper> pile = closed_pile(card, design, version);
  const Face* face = find_face(all, name);
  for (const Leaf& leaf : version.folding.leaves) {
    // The whole front of a gate is both its doors.
    const bool door = name == "front" && design.base.fold.value == Fold::gate && leaf.depth == 0;
    const ClosedPaper* paper = paper_of(pile, leaf);
    if (face != nullptr && paper != nullptr && (door || is_on_leaf(leaf, name)))
      add_leaf(stage, door ? leaf.toward : name, *face, *paper, {0, 0});
  }
  add_layers(stage, design, version, name, {0, 0});
  if (has_reveal(design.base) && name == face_of(design, "reveal")) {
    for (const ClosedPaper& paper : pile) {
      if (!paper.piece && paper.depth == 0) add_front_edges(stage, ring(paper.sheet.outline), *face);
    }
  }
  Scene scene = stage.done();
  scene.face = name;
  return scene;
}

std::vector<Scene> face_scenes(const Card& card, const Design& design, const SizedVersion& version) {
  std::vector<Scene> scenes;
  for (const Face& face : faces(design.base)) {
    if (face.name == "reveal") continue;
    const bool used = std::any_of(version.pieces.begin(), version.pieces.end(),
                                  [&](const PlacedPiece& placed) { return placed.face == face.name; });
    if (used) scenes.push_back(face_scene(card, design, version, face.name));
  }
  if (scenes.empty()) scenes.push_back(face_scene(card, design, version, "front"));
  return scenes;
}

}  // namespace evenmat
