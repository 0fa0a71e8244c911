// A scene on a page: its papers to one scale with their textures, a label beside each with a leader to it,
// dimension lines above and to the left. Words never overlap and never leave the room they are given.
#pragma once

#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "cli/figure/scene.h"
#include "model/length.h"

namespace evenmat {

struct FigureStyle {
  bool title = true;
  bool labels = true;     // a name and a size for each paper
  bool measures = true;   // dimension lines
  double most_scale = 0;  // points for one of the card's unit; 0: up to twice the true size
};

// Something on a scene that is no paper, hatched and told in a label of its own.
struct Hatched {
  Box place;  // in the scene's unit, as its papers are
  std::string name, details;
};

struct Figure {
  std::vector<Mark> marks;
  Box room;          // what of the room given is used: never more than that
  Box picture;       // the papers alone
  double scale = 1;  // points for one of the card's unit
};

// In the top left of the room. Lengths are told in `unit`.
Figure figure_of(const Scene& scene, Unit unit, const Box& room, const FigureStyle& style = {},
                 const std::vector<Hatched>& clashes = {});

// What scale a scene has where only the picture counts: points for one of the unit.
double scale_within(const Scene& scene, Unit unit, double width, double height, double most_scale = 0);

// The papers alone at a scale, the scene's corner at `corner`: as they are drawn everywhere.
std::vector<Mark> papers_of(const Scene& scene, const At& corner, double scale);

}  // namespace evenmat
