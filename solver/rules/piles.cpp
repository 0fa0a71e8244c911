#include "solver/rules/piles.h"

#include <algorithm>
#include <functional>
#include <map>
#include <set>
#include <string>

#include "model/faces.h"
#include "model/folding.h"

namespace evenmat::writing {
namespace {

Rational thickness_of(const Card& card, const Maybe<std::string>& paper) {
  if (!paper) return 0;
  for (const Paper& one : card.papers) {
    if (one.name.value == paper->value && one.thickness) return one.thickness->value;
  }
  return 0;
}

bool names(const std::vector<Name>& list, const std::string& name) {
  return std::any_of(list.begin(), list.end(), [&](const Name& one) { return one.value == name; });
}

class Counter {
 public:
  Counter(const Card& card, const Design& design, const Rational& limit)
      : design_(design), limit_(limit), folding_(folding_of(design.base)) {
    for (std::size_t i = 0; i < design.pieces.size(); ++i) at_[design.pieces[i].name.value] = i;
    const Rational base = thickness_of(card, design.base.paper);
    for (std::size_t i = 0; base > 0 && i < folding_.leaves.size(); ++i)
      found_.solids.push_back({i, std::nullopt, base, 0, 0});
    for (std::size_t i = 0; i < design.pieces.size(); ++i) {
      const Piece& piece = design.pieces[i];
      if (piece.kind != Piece::Kind::layer || piece.stamped) continue;
      const Solid solid{std::nullopt, i, thickness_of(card, piece.paper),
                        piece.raised ? piece.raised->value : Rational(0),
                        piece.adhesive ? piece.adhesive->value : Rational(0)};
      if (solid.paper + solid.foam + solid.adhesive > 0) found_.solids.push_back(solid);
    }
    const std::size_t count = found_.solids.size();
    along_.resize(count);
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = 0; j < count; ++j) {
        if (i != j && lies_within(i, j)) along_[i].insert(j);
      }
    }
  }

  std::optional<Piles> run() {
    if (!grow(0, {})) return std::nullopt;
    for (const std::vector<std::size_t>& solids : piles_) {
      Rational total = 0;
      for (const std::size_t i : solids)
        total += found_.solids[i].paper + found_.solids[i].foam + found_.solids[i].adhesive;
      if (total <= limit_) continue;
      Pile pile{solids, {}};
      for (std::size_t i = 0; i < solids.size(); ++i) {
        for (std::size_t j = i + 1; j < solids.size(); ++j) {
          const std::size_t a = solids[i];
          const std::size_t b = solids[j];
          const bool always =
              along_[a].contains(b) || along_[b].contains(a) || whole_leaf(a) || whole_leaf(b);
          if (!always) pile.may_part.emplace_back(a, b);
        }
      }
      found_.piles.push_back(std::move(pile));
    }
    return std::move(found_);
  }

 private:
  // With every solid goes all that lies wherever it does. False when there are too many.
  bool grow(std::size_t next, const std::set<std::size_t>& pile) {
    if (piles_.size() > most_piles || ++steps_ > 100 * most_piles) return false;
    if (next == found_.solids.size()) {
      piles_.insert({pile.begin(), pile.end()});
      return true;
    }
    if (pile.contains(next)) return grow(next + 1, pile);
    std::set<std::size_t> with = pile;
    with.insert(next);
    with.insert(along_[next].begin(), along_[next].end());
    const bool fits = std::all_of(with.begin(), with.end(), [&](std::size_t a) {
      return std::none_of(with.begin(), with.end(), [&](std::size_t b) { return a < b && keep_apart(a, b); });
    });
    return grow(next + 1, pile) && (!fits || grow(next + 1, with));
  }

  [[nodiscard]] const Piece* piece(std::size_t solid) const {
    const auto& index = found_.solids[solid].piece;
    return index ? &design_.pieces[*index] : nullptr;
  }

  // A leaf that covers all of the closed card.
  [[nodiscard]] bool whole_leaf(std::size_t solid) const {
    const auto& index = found_.solids[solid].leaf;
    if (!index) return false;
    const Leaf& leaf = folding_.leaves[*index];
    const Size& front = design_.base.front.size;
    return leaf.length == (folding_.across ? front.width : front.height) &&
           !(design_.base.cut_back && leaf.depth == 0);
  }

  // What a layer is on, step by step down to its face.
  [[nodiscard]] std::vector<const Piece*> down_from(const Piece& layer) const {
    std::vector<const Piece*> steps{&layer};
    while (true) {
      const auto below = at_.find(steps.back()->on.value);
      if (below == at_.end()) return steps;
      steps.push_back(&design_.pieces[below->second]);
    }
  }

  [[nodiscard]] bool overhangs(const Piece& layer) const {
    const auto steps = down_from(layer);
    return std::any_of(steps.begin(), steps.end(),
                       [](const Piece* step) { return step->overhang.has_value(); });
  }

  // Whether b covers all of a, whatever their sizes.
  [[nodiscard]] bool lies_within(std::size_t a, std::size_t b) const {
    const Piece* layer = piece(a);
    if (layer == nullptr || overhangs(*layer)) return false;
    if (whole_leaf(b)) return true;
    const std::vector<const Piece*> steps = down_from(*layer);
    if (found_.solids[b].leaf) {
      const Leaf& leaf = folding_.leaves[*found_.solids[b].leaf];
      const std::string face = face_of(design_, layer->on.value);
      return face == leaf.toward || face == leaf.away;
    }
    // Behind a window a layer is on what the window's layer is on, not on that layer.
    for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
      if (steps[i + 1]->kind == Piece::Kind::window) return false;
      if (steps[i + 1] == piece(b)) return true;
    }
    return false;
  }

  // Two layers on one thing lie apart unless one is over the other; so does what lies inside them.
  [[nodiscard]] bool keep_apart(std::size_t a, std::size_t b) const {
    const Piece* first = piece(a);
    const Piece* second = piece(b);
    if (first == nullptr || second == nullptr) return false;
    for (const Piece* x : inside_of(*first)) {
      for (const Piece* y : inside_of(*second)) {
        if (x != y && x->on.value == y->on.value && !names(x->over, y->name.value) &&
            !names(y->over, x->name.value)) {
          return true;
        }
      }
    }
    return false;
  }

  // A layer and the layers that it certainly lies inside.
  [[nodiscard]] std::vector<const Piece*> inside_of(const Piece& layer) const {
    std::vector<const Piece*> all{&layer};
    for (const Piece* step = &layer; !step->overhang;) {
      const auto below = at_.find(step->on.value);
      if (below == at_.end() || design_.pieces[below->second].kind == Piece::Kind::window) break;
      step = &design_.pieces[below->second];
      all.push_back(step);
    }
    return all;
  }

  const Design& design_;
  const Rational& limit_;
  Folding folding_;
  std::map<std::string, std::size_t> at_;
  Piles found_;
  std::vector<std::set<std::size_t>> along_;
  std::set<std::vector<std::size_t>> piles_;
  std::size_t steps_ = 0;
};

}  // namespace

std::optional<Piles> piles_over(const Card& card, const Design& design, const Rational& limit) {
  return Counter(card, design, limit).run();
}

}  // namespace evenmat::writing
