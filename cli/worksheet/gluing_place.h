// Where a layer is glued, as far as the hand needs to know beside the table of places: through which opening
// it is seen, where it goes on what it cannot be measured from yet, which side of a score stays free. In
// which order all is glued is not here.
#pragma once

#include <string>
#include <utility>

#include "model/card.h"
#include "solver/size_card.h"

namespace evenmat {

// How a layer comes to be seen through the window that it is on.
enum class Through {
  none,        // it is on no window
  page,        // of a window in the base: it lies on the page behind
  opening,     // it goes into the opening of a layer that lies flat already
  back_of_it,  // it is glued to the back of the layer with the opening
  below        // it goes on before that layer does
};

Through through_of(const SizedVersion& version, const PlacedPiece& layer);

// Whether it is smaller than the window that it is on, either way.
bool is_in_window(const SizedVersion& version, const PlacedPiece& layer);

// From the left and the top edge of a face (as it is once it is cut back) or a layer.
std::pair<Rational, Rational> corner_on(const Design& design, const SizedVersion& version,
                                        const PlacedPiece& layer, const std::string& ground);

// "3/8 from its left and 5/8 in from its top edge".
std::string place_on(const Card& card, const Design& design, const SizedVersion& version,
                     const PlacedPiece& layer, const std::string& ground);

// A sentence behind a blank, where a layer on a face crosses an extra score and would keep it from folding;
// else empty.
std::string score_words(const Design& design, const SizedVersion& version, const PlacedPiece& layer,
                        const std::string& face);

}  // namespace evenmat
