// How things look in every drawing: what each role of a layer is filled with, lines, and types. Chosen so
// that roles differ by texture as well as by tone, and print in grey. Nothing is placed here.
#pragma once

#include <optional>
#include <string>

#include "cli/drawing/page.h"
#include "model/card.h"

namespace evenmat {

// "mat", "panel", ...; "other layer" of a layer without a role.
std::string look_name(Role role);

struct Look {
  Colour fill;
  std::optional<Texture> texture = {};
  Stroke edge;
};

// `scale` 1 for a picture of a page's width; smaller ones take finer textures.
Look look_of(Role role, double scale = 1);
Look base_look();
Look ink_look();    // a layer that is stamped on
Look foam_look();   // seen from the side
Look scrap_look();  // of a sheet, what is thrown away
Look keep_look();   // of a sheet, what is worth keeping
Look clash_look();  // what overlaps or sticks out

Stroke fold_line();        // a score
Stroke front_edge_line();  // where the front ends over the page behind it
Stroke window_line();      // the edge of an opening
Stroke artwork_line();     // around what is stamped or printed on a layer
Stroke measure_line();     // dimension lines
Stroke leader_line();      // from a label to what it names
Stroke cut_line();         // on a sheet
Type label_type();
Type measure_type();
Type title_type();

}  // namespace evenmat
