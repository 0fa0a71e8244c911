#include "cli/making.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <string_view>

#include "cli/on_blank.h"
#include "cli/wording.h"
#include "model/faces.h"

namespace evenmat {
namespace {

using Sentences = std::vector<std::string>;

// Where scores are measured from, and the way in which the leaves follow each other.
std::string_view near_edge(const Folding& folding) { return folding.across ? "left" : "top"; }
std::string_view from_to(const Folding& folding) {
  return folding.across ? "from left to right" : "from top to bottom";
}

std::string_view up_side(const Folding& folding) { return folding.front_up ? "front" : "inside"; }

// Towards whoever works at the table, in plain words and in the trade's.
std::string_view direction(const ScoreLine& score) { return score.up ? "towards you" : "away from you"; }
std::string fold_words(const ScoreLine& score) {
  return fmt::format("{} ({})", direction(score), score.up ? "a valley" : "a mountain");
}

std::string blank_step(const Card& card, const Base& base, const Size& blank) {
  return fmt::format("Cut the blank{}, {} x {}.", base.paper ? " from " + base.paper->value : "",
                     length_text(blank.width, card.unit), length_with_unit(blank.height, card.unit));
}

std::string grain_step(GrainAtFold grain) {
  switch (grain) {
    case GrainAtFold::along:
      return "It folds with the grain.";
    case GrainAtFold::across:
      return "It folds against the grain: score it deeply, or cut the blank the other way from a sheet that "
             "is large enough.";
    case GrainAtFold::either:
      break;
  }
  return "Turn the blank on the sheet so that it folds with the grain: as many come out of it either way.";
}

// Which lines to mark on the blank, and which way each folds.
std::string mark_step(const Card& card, const Folding& folding) {
  const std::string lay = fmt::format("Lay it {} up. Its ", up_side(folding));
  if (folding.scores.size() == 1) {
    const ScoreLine& score = folding.scores.front();
    return lay + fmt::format("score is {} from its {} edge and folds {}.",
                             length_with_unit(score.at, card.unit), near_edge(folding), fold_words(score));
  }
  Sentences lines;
  for (const ScoreLine& score : folding.scores) {
    const bool beside_a_fold = score.extra && folding.leaves.size() > 1;
    lines.push_back(fmt::format("{}, folds {}{}", length_with_unit(score.at, card.unit), fold_words(score),
                                beside_a_fold ? ", against the fold beside it" : ""));
  }
  return lay + fmt::format("scores, from its {} edge: {}.", near_edge(folding), joined(lines, "; "));
}

// A score raises a ridge on the other side of the paper. That is to be inside the fold, so it is pressed from
// the side that comes outside: as the blank lies for what folds away, from below for what folds up.
std::string score_step(const Folding& folding) {
  const auto is_up = [](const ScoreLine& score) { return score.up; };
  const bool all_up = std::all_of(folding.scores.begin(), folding.scores.end(), is_up);
  const bool none_up = std::none_of(folding.scores.begin(), folding.scores.end(), is_up);
  const std::string turned =
      fmt::format("turned over with its {0} edge still at the {0}", near_edge(folding));
  if (all_up || none_up) {
    return fmt::format("Score it before folding, {}, so that the ridge comes inside the fold.",
                       all_up ? turned : "as it lies");
  }
  return fmt::format(
      "Score it before folding, so that each ridge comes inside its fold: what folds away from "
      "you as it lies, what folds towards you {}.",
      turned);
}

// "1 x 1 1/2, 6 1/2 from the left and 3/4 from the top edge of the blank", once for each door it goes
// through.
std::string on_blank_words(const Card& card, const std::vector<OnBlank>& parts) {
  Sentences words;
  for (const OnBlank& part : parts) {
    words.push_back(fmt::format(
        "{} x {}, {} from the left and {} from the top edge of the blank",
        length_text(part.patch.size.width, card.unit), length_text(part.patch.size.height, card.unit),
        length_text(part.patch.left, card.unit), length_with_unit(part.patch.top, card.unit)));
  }
  return listed(words);
}

// Windows in the base, with their places as the blank lies, and those in layers.
Sentences window_steps(const Card& card, const Design& design, const SizedVersion& version) {
  const Sentences names = face_names(design.base);
  Sentences in_base;
  Sentences in_layers;
  for (const PlacedPiece& placed : version.pieces) {
    const Piece& piece = *placed.piece;
    if (piece.kind != Piece::Kind::window) continue;
    const bool on_face = std::find(names.begin(), names.end(), piece.on.value) != names.end();
    if (!on_face) {
      in_layers.push_back(fmt::format("{} in {}", piece.name.value, piece.on.value));
      continue;
    }
    const std::vector<OnBlank> parts = on_blank(design, version.folding, piece.on.value, patch_of(placed));
    in_base.push_back(fmt::format("{} in the {}{}: {}", piece.name.value, piece.on.value,
                                  parts.size() > 1 ? " (through both doors)" : "",
                                  on_blank_words(card, parts)));
  }
  Sentences steps;
  if (!in_base.empty()) {
    steps.push_back(fmt::format(
        "With its {} up, while the base lies flat and before any layer goes on it, cut the {} {}.",
        up_side(version.folding), in_base.size() == 1 ? "window" : "windows", joined(in_base, "; ")));
  }
  if (!in_layers.empty()) {
    steps.push_back(fmt::format("Cut the {} {} before {} glued on.",
                                in_layers.size() == 1 ? "window" : "windows", listed(in_layers),
                                in_layers.size() == 1 ? "that layer is" : "those layers are"));
  }
  return steps;
}

// The leaf that turns at fold `i` of the blank, from its left (top) edge on: the one at that end, or the
// front where there is one fold only.
const Leaf& turning(const Folding& folding, std::size_t i) {
  const std::vector<Leaf>& leaves = folding.leaves;
  if (leaves.size() > 2) return i == 0 ? leaves.front() : leaves.back();
  return *std::min_element(leaves.begin(), leaves.end(),
                           [](const Leaf& a, const Leaf& b) { return a.depth < b.depth; });
}

struct Turn {
  const Leaf* leaf = nullptr;
  const ScoreLine* score = nullptr;
};

std::vector<Turn> in_turn(const Folding& folding) {
  std::vector<Turn> turns;
  for (const ScoreLine& score : folding.scores) {
    if (!score.extra) turns.push_back({&turning(folding, turns.size()), &score});
  }
  std::stable_sort(turns.begin(), turns.end(),
                   [](const Turn& a, const Turn& b) { return a.score->turn < b.score->turn; });
  return turns;
}

// "fold the flap towards you first, then the front".
std::string folded_in_turn(const std::vector<Turn>& turns) {
  std::string text = fmt::format("fold the {} {}", turns.front().leaf->name, direction(*turns.front().score));
  for (std::size_t i = 1; i < turns.size(); ++i) {
    const bool same_way = turns[i].score->up == turns[i - 1].score->up;
    text += fmt::format("{}, then the {}{}{}", i == 1 ? " first" : "", turns[i].leaf->name,
                        same_way ? "" : " ", same_way ? "" : direction(*turns[i].score));
  }
  return text;
}

Sentences fold_steps(const Base& base, const Folding& folding) {
  const std::vector<Turn> turns = in_turn(folding);
  if (turns.empty()) return {};
  // It was turned over to be scored.
  Sentences steps{
      fmt::format("With its {} up again, {}.", up_side(folding),
                  base.fold.value == Fold::gate ? "fold both doors towards you" : folded_in_turn(turns))};
  const std::size_t extras = folding.scores.size() - turns.size();
  if (extras > 0) steps.push_back(fmt::format("Fold the extra {} last.", extras == 1 ? "score" : "scores"));
  return steps;
}

std::string trim_step(const Card& card, const Base& base, const Rational& by) {
  const std::string length = length_with_unit(by, card.unit);
  const std::string what =
      base.fold.value == Fold::gate
          ? fmt::format("{} off each door where the doors meet, with only that door", length)
          : fmt::format("{} off the front's {} edge, with only the front leaf", length,
                        edge_name(base.cut_back->edge));
  return fmt::format(
      "Once it is folded, and before any layer goes on it, trim {} under the blade: a blank that is "
      "trimmed first gives only a smaller plain card.",
      what);
}

// Foremost first; the doors of a gate lie side by side.
std::string closed_line(const Folding& folding) {
  std::vector<Leaf> leaves = folding.leaves;
  std::stable_sort(leaves.begin(), leaves.end(),
                   [](const Leaf& a, const Leaf& b) { return a.depth < b.depth; });
  Sentences pile;
  for (std::size_t i = 0; i < leaves.size(); ++i) {
    const bool beside = i > 0 && leaves[i].depth == leaves[i - 1].depth;
    if (beside) {
      pile.back() += " beside " + leaves[i].name;
    } else {
      pile.push_back(leaves[i].name);
    }
  }
  return fmt::format("Closed, front to back: {}.", joined(pile, ", "));
}

std::string opened_line(const Folding& folding) {
  Sentences up;
  for (const Leaf& leaf : folding.leaves) up.push_back(leaf.toward_up ? leaf.toward : leaf.away);
  return fmt::format("Opened out, {}: {}.", from_to(folding), joined(up, ", "));
}

Sentences other_way_up_line(const Base& base) {
  Sentences tops;
  const std::vector<Face> all = faces(base);
  for (const Leaf& leaf : folding_of(base).leaves) {
    const bool turned = std::any_of(all.begin(), all.end(), [&](const Face& face) {
      return face.name == leaf.away && face.turned == Turned::down;
    });
    if (turned)
      tops.push_back(fmt::format("the top of {} lies behind the bottom of {}", leaf.away, leaf.toward));
  }
  if (tops.empty()) return {};
  return {fmt::format("Which way is up: {}.", listed(tops))};
}

void add(Sentences& all, Sentences more) { std::move(more.begin(), more.end(), std::back_inserter(all)); }

}  // namespace

Making making_of(const Card& card, const Design& design, const SizedVersion& version) {
  const Base& base = design.base;
  const Folding& folding = version.folding;
  Making making;
  if (folding.leaves.empty()) return making;
  making.order.push_back(blank_step(card, base, folding.blank));
  if (version.grain) making.order.push_back(grain_step(*version.grain));
  if (!folding.scores.empty()) {
    making.order.push_back(mark_step(card, folding));
    making.order.push_back(score_step(folding));
  }
  add(making.order, window_steps(card, design, version));
  add(making.order, fold_steps(base, folding));
  if (version.cut_back && base.cut_back && folding.leaves.size() > 1)
    making.order.push_back(trim_step(card, base, *version.cut_back));
  if (folding.leaves.size() > 1) {
    making.lies = {closed_line(folding), opened_line(folding)};
    add(making.lies, other_way_up_line(base));
  }
  return making;
}

}  // namespace evenmat
