#include "cli/worksheet/gluing_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "cli/on_blank.h"
#include "cli/worksheet/units.h"
#include "model/faces.h"

namespace evenmat {
namespace {

const PlacedPiece* find(const SizedVersion& version, const std::string& name) {
  const auto found =
      std::find_if(version.pieces.begin(), version.pieces.end(),
                   [&](const PlacedPiece& placed) { return placed.piece->name.value == name; });
  return found == version.pieces.end() ? nullptr : &*found;
}

bool is_window(const PlacedPiece& placed) { return placed.piece->kind == Piece::Kind::window; }

bool is_flat(const PlacedPiece& placed) { return !placed.piece->raised || placed.piece->raised->value == 0; }

bool is_within(const PlacedPiece& inner, const PlacedPiece& outer) {
  return inner.left >= outer.left && inner.top >= outer.top &&
         inner.left + inner.box_width <= outer.left + outer.box_width &&
         inner.top + inner.box_height <= outer.top + outer.box_height;
}

bool is_named_over(const SizedVersion& version, const std::string& name) {
  return std::any_of(version.pieces.begin(), version.pieces.end(), [&](const PlacedPiece& other) {
    return std::any_of(other.piece->over.begin(), other.piece->over.end(),
                       [&](const Name& lower) { return lower.value == name; });
  });
}

bool has_window(const SizedVersion& version, const std::string& name) {
  return std::any_of(version.pieces.begin(), version.pieces.end(), [&](const PlacedPiece& other) {
    return is_window(other) && other.piece->on.value == name;
  });
}

// The left and top edge of a layer before it is turned: what lies on it is told as it lies then.
Patch unturned(const PlacedPiece& layer) {
  if (!layer.copies.empty()) return patch_of(layer);
  return {layer.left + (layer.box_width - layer.width) / 2,
          layer.top + (layer.box_height - layer.height) / 2,
          {layer.width, layer.height}};
}

std::vector<Patch> patches_of(const PlacedPiece& layer) {
  if (layer.copies.empty()) return {patch_of(layer)};
  std::pair<Rational, Rational> least = layer.copies.front();
  std::pair<Rational, Rational> most = least;
  for (const auto& [left, top] : layer.copies) {
    least = {std::min(least.first, left), std::min(least.second, top)};
    most = {std::max(most.first, left), std::max(most.second, top)};
  }
  const Size each{layer.box_width - (most.first - least.first),
                  layer.box_height - (most.second - least.second)};
  std::vector<Patch> patches;
  for (const auto& [left, top] : layer.copies)
    patches.push_back({layer.left + left - least.first, layer.top + top - least.second, each});
  return patches;
}

// A patch that crosses a score on the blank.
struct Crossing {
  OnBlank part;
  ScoreLine score;
  Patch patch;  // the whole of it on its face
};

std::vector<Crossing> crossings(const Design& design, const Folding& folding, const PlacedPiece& layer,
                                const std::string& face) {
  std::vector<Crossing> found;
  for (const Patch& patch : patches_of(layer)) {
    for (const OnBlank& part : on_blank(design, folding, face, patch)) {
      const Rational& from = folding.across ? part.patch.left : part.patch.top;
      const Rational& length = folding.across ? part.patch.size.width : part.patch.size.height;
      for (const ScoreLine& score : folding.scores) {
        if (score.extra && from < score.at && score.at < from + length) found.push_back({part, score, patch});
      }
    }
  }
  return found;
}

// Common practice, no source: the part of a front beyond the score, away from its fold, stands upright and
// carries what is on it. Which way that is on the face; empty where a leaf has folds at both ends, is not the
// front, or too little of the layer lies there to hold it.
std::string holding_side(const Design& design, const Folding& folding, const Crossing& crossing,
                         const std::string& face) {
  const Leaf& leaf = *crossing.part.leaf;
  if (leaf.depth != 0 || leaf.toward != face || folding.leaves.size() < 2) return {};
  const bool free_low = leaf.name == folding.leaves.front().name;
  if (!free_low && leaf.name != folding.leaves.back().name) return {};
  const auto along = [&](const Patch& patch) { return folding.across ? patch.left : patch.top; };
  const Rational from = along(crossing.part.patch);
  const Size& size = crossing.part.patch.size;
  const Rational& length = folding.across ? size.width : size.height;
  const Rational held = free_low ? crossing.score.at - from : from + length - crossing.score.at;
  if (held * 3 < length) return {};
  // A narrow strip at the low edge of the layer tells whether the face is mirrored on the blank.
  Patch strip = crossing.patch;
  (folding.across ? strip.size.width : strip.size.height) /= 2;
  const std::vector<OnBlank> low = on_blank(design, folding, face, strip);
  const bool mirrored = !low.empty() && along(low.front().patch) != from;
  if (folding.across) return free_low != mirrored ? "to the left of" : "to the right of";
  return free_low != mirrored ? "above" : "below";
}

}  // namespace

bool is_in_window(const SizedVersion& version, const PlacedPiece& layer) {
  const PlacedPiece* window = find(version, layer.piece->on.value);
  return window != nullptr && is_window(*window) && is_within(layer, *window);
}

Through through_of(const SizedVersion& version, const PlacedPiece& layer) {
  const PlacedPiece* window = find(version, layer.piece->on.value);
  if (window == nullptr || !is_window(*window)) return Through::none;
  const PlacedPiece* holder = find(version, window->piece->on.value);
  if (holder == nullptr) return Through::page;
  const std::string& name = layer.piece->name.value;
  const PlacedPiece* beneath = find(version, holder->piece->on.value);
  const bool plain = is_flat(*holder) && holder->copies.empty() && !is_named_over(version, name) &&
                     (beneath == nullptr || !is_window(*beneath));
  if (!plain) return Through::below;
  if (is_in_window(version, layer)) return Through::opening;
  const bool behind = is_flat(layer) && layer.copies.empty() && layer.piece->over.empty() &&
                      !has_window(version, name) && is_within(layer, *holder);
  return behind ? Through::back_of_it : Through::below;
}

std::pair<Rational, Rational> corner_on(const Design& design, const SizedVersion& version,
                                        const PlacedPiece& layer, const std::string& ground) {
  Rational left = layer.left;
  Rational top = layer.top;
  if (const PlacedPiece* below = find(version, ground)) {
    const Patch lies = unturned(*below);
    left -= lies.left;
    top -= lies.top;
  } else {
    for (const Face& face : faces(design.base)) {
      if (face.name != ground) continue;
      left -= face.left;
      top -= face.top;
      if (!version.cut_back) continue;
      if (face.trimmed == Edge::left) left -= *version.cut_back;
      if (face.trimmed == Edge::top) top -= *version.cut_back;
    }
  }
  return {left, top};
}

std::string place_on(const Card& card, const Design& design, const SizedVersion& version,
                     const PlacedPiece& layer, const std::string& ground) {
  const std::pair<Rational, Rational> corner = corner_on(design, version, layer, ground);
  return fmt::format("{} from its left and {} from its top edge", ruler_length(corner.first, card.unit),
                     ruler_length(corner.second, card.unit) + " " + std::string(unit_name(card.unit)));
}

std::string score_words(const Design& design, const SizedVersion& version, const PlacedPiece& layer,
                        const std::string& face) {
  const Folding& folding = version.folding;
  const std::vector<Crossing> found = crossings(design, folding, layer, face);
  if (found.empty()) return {};
  const bool one = std::all_of(found.begin(), found.end(), [&](const Crossing& other) {
    return other.score.at == found.front().score.at;
  });
  if (!one) {
    return " It crosses extra scores: glue it on one side of each of them only, so that the card can fold "
           "there.";
  }
  const std::string side = holding_side(design, folding, found.front(), face);
  return side.empty() ? " It crosses an extra score: glue it on one side of the score only, so that the card "
                        "can fold there."
                      : fmt::format(
                            " It crosses an extra score: glue only what lies {} the score, so that the card "
                            "can fold there.",
                            side);
}

}  // namespace evenmat
