// How much room words take, and words set in the room there is. All writing of drawings is measured here and
// nowhere else, by the fonts it will be written with.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cli/drawing/page.h"

namespace evenmat {
inline namespace drawing {

// Drawings are written in DejaVu Sans where it is there, with other fonts for letters that it lacks. The
// sentence that says why nothing can be written, for want of any font; else empty.
std::string trouble_with_fonts();
// Whether some character of it is in no font that is here: a box stands for it then.
bool lacks_letters(std::string_view words);

struct Extent {
  double width = 0, height = 0;
};
// In one line; or in lines of at most `room`.
Extent extent_of(std::string_view words, const Type& type, std::optional<double> room = std::nullopt);

// Text in lines of at most `room`, whose box has its top left corner at `at` and is as wide as `room` where
// it is not aligned left.
Text text_at(const At& at, std::string words, const Type& type, double room, Align align = Align::left);
// One line whose box has its middle there.
Text text_around(const At& middle, std::string words, const Type& type, Turn turn = Turn::none);
// The same words cut short so that they go into one line of `room`: the middle is left out.
std::string shortened_to(std::string_view words, const Type& type, double room);

}  // namespace drawing
}  // namespace evenmat
