#include "solver/rules/piles.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <string>

#include "model/faces.h"
#include "model/folding.h"
#include "model/papers.h"
#include "solver/rules/writer.h"

namespace evenmat::writing {
namespace {

Rational thickness_of(const Card& card, const Maybe<std::string>& paper) {
  const Maybe<Rational> thickness = stated_of_paper(card.papers, paper, &Paper::thickness);
  return thickness ? thickness->value : Rational(0);
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
    apart_.assign(count, std::vector<bool>(count, false));
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = 0; j < count; ++j) {
        if (i != j && lies_within(i, j) && windows_for(i, j).empty()) along_[i].push_back(j);
        apart_[i][j] = i != j && keep_apart(i, j);
      }
    }
  }

  std::optional<Piles> run() {
    const std::size_t count = found_.solids.size();
    Rational all = 0;
    for (std::size_t i = 0; i < count; ++i) all += thickness(i);
    if (!grow({0, std::vector<bool>(count, false), std::vector<bool>(count, false), 0, all}))
      return std::nullopt;
    for (const std::vector<std::size_t>& solids : piles_) {
      Pile pile{solids, {}, {}, true};
      for (const std::size_t a : solids) {
        for (const std::size_t b : solids) {
          if (a == b) continue;
          for (const std::size_t window : windows_for(a, b)) pile.may_be_in.push_back({a, window});
          const bool always = lies_within(a, b) || lies_within(b, a) || whole_leaf(a) || whole_leaf(b);
          if (a < b && !always) pile.may_part.emplace_back(a, b);
        }
      }
      pile.certain = is_certain(pile);
      found_.piles.push_back(std::move(pile));
    }
    return std::move(found_);
  }

 private:
  // Upright boxes that are what they seem part in no other way. Where one thing has windows and all other
  // layers lie inside one another, the innermost alone says whether that is in a window.
  [[nodiscard]] bool is_certain(const Pile& pile) const {
    const auto is_box = [&](std::size_t solid) {
      const Piece* layer = piece(solid);
      return layer == nullptr || (!layer->tilt && !layer->copies);
    };
    const bool boxes = std::all_of(pile.may_part.begin(), pile.may_part.end(), [&](const auto& pair) {
      return is_box(pair.first) && is_box(pair.second);
    });
    std::vector<std::size_t> open;  // those that windows are cut in
    std::copy_if(pile.solids.begin(), pile.solids.end(), std::back_inserter(open),
                 [&](std::size_t solid) { return has_windows(solid); });
    if (open.empty() || !boxes) return boxes;
    const bool nested = std::all_of(pile.may_part.begin(), pile.may_part.end(), [&](const auto& pair) {
      const bool layers = piece(pair.first) != nullptr && piece(pair.second) != nullptr;
      return !layers || pair.first == open.front() || pair.second == open.front();
    });
    return open.size() == 1 && nested && std::all_of(pile.solids.begin(), pile.solids.end(), is_box);
  }
  [[nodiscard]] bool has_windows(std::size_t solid) const {
    return std::any_of(design_.pieces.begin(), design_.pieces.end(), [&](const Piece& window) {
      if (window.kind != Piece::Kind::window) return false;
      const Piece* layer = piece(solid);
      return layer != nullptr ? window.on.value == layer->name.value : is_face_of(solid, window.on.value);
    });
  }

  [[nodiscard]] Rational thickness(std::size_t i) const {
    const Solid& solid = found_.solids[i];
    return solid.paper + solid.foam + solid.adhesive;
  }
  struct Growing {
    std::size_t next = 0;       // all before it are settled
    std::vector<bool> in, out;  // what is in the pile, and what can be no more
    Rational total;             // of what is in
    Rational rest;              // of what may yet come in
  };
  // With every solid goes all that lies wherever it does. What can no longer pass the limit is left. False
  // when there are too many.
  bool grow(Growing pile) {
    if (pile.total + pile.rest <= limit_) return true;
    if (piles_.size() > most_piles || ++steps_ > 100 * most_piles) return false;
    while (pile.next < pile.in.size() && (pile.in[pile.next] || pile.out[pile.next])) ++pile.next;
    if (pile.next == pile.in.size()) {
      std::vector<std::size_t> solids;
      for (std::size_t i = 0; i < pile.in.size(); ++i) {
        if (pile.in[i]) solids.push_back(i);
      }
      piles_.insert(std::move(solids));
      return true;
    }
    Growing with = pile;
    bool fits = put_in(with, pile.next);
    for (const std::size_t other : along_[pile.next]) fits = fits && put_in(with, other);
    leave_out(pile, pile.next);
    return (!fits || grow(std::move(with))) && grow(std::move(pile));
  }
  bool put_in(Growing& pile, std::size_t solid) const {
    if (pile.in[solid]) return true;
    if (pile.out[solid]) return false;
    pile.in[solid] = true;
    pile.total += thickness(solid);
    pile.rest -= thickness(solid);
    for (std::size_t other = 0; other < pile.in.size(); ++other) {
      if (!apart_[solid][other]) continue;
      if (pile.in[other]) return false;
      leave_out(pile, other);
    }
    return true;
  }
  void leave_out(Growing& pile, std::size_t solid) const {
    if (pile.out[solid]) return;
    pile.out[solid] = true;
    pile.rest -= thickness(solid);
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

  // The windows of b that a layer a may lie in: straight ones in what does not repeat.
  [[nodiscard]] std::vector<std::size_t> windows_for(std::size_t a, std::size_t b) const {
    std::vector<std::size_t> found;
    if (piece(a) == nullptr || is_in_window_of(a, b)) return found;
    if (const Piece* holder = piece(b)) {
      for (const Piece* step : down_from(*holder)) {
        if (step->tilt || step->copies) return found;
      }
    }
    for (std::size_t i = 0; i < design_.pieces.size(); ++i) {
      const Piece& window = design_.pieces[i];
      if (window.kind != Piece::Kind::window) continue;
      const Piece* holder = piece(b);
      const bool its_own =
          holder != nullptr ? window.on.value == holder->name.value : is_face_of(b, window.on.value);
      if (its_own) found.push_back(i);
    }
    return found;
  }

  // Whether the outline of b covers all of a, whatever their sizes.
  [[nodiscard]] bool lies_within(std::size_t a, std::size_t b) const {
    const Piece* layer = piece(a);
    if (layer == nullptr || overhangs(*layer) || is_in_window_of(a, b)) return false;
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
    if (const auto x = leaf_around(a), y = leaf_around(b); x && y) {
      const Leaf& one = folding_.leaves[*x];
      const Leaf& other = folding_.leaves[*y];
      if (one.closed_from + one.length <= other.closed_from ||
          other.closed_from + other.length <= one.closed_from)
        return true;
    }
    if (is_in_window_of(a, b) || is_in_window_of(b, a)) return true;
    const Piece* first = piece(a);
    const Piece* second = piece(b);
    if (first == nullptr || second == nullptr) return false;
    for (const Piece* x : inside_of(*first)) {
      for (const Piece* y : inside_of(*second)) {
        if (x != y && x->on.value == y->on.value && !names(x->over, *y) && !names(y->over, *x)) {
          return true;
        }
      }
    }
    return false;
  }

  // The leaf that a solid is, or certainly lies inside.
  [[nodiscard]] std::optional<std::size_t> leaf_around(std::size_t solid) const {
    if (found_.solids[solid].leaf) return found_.solids[solid].leaf;
    if (overhangs(*piece(solid))) return std::nullopt;
    const std::string face = face_of(design_, piece(solid)->on.value);
    for (std::size_t i = 0; i < folding_.leaves.size(); ++i) {
      if (folding_.leaves[i].toward == face || folding_.leaves[i].away == face) return i;
    }
    return std::nullopt;
  }

  // Whether a layer certainly lies inside a window of b, where there is no paper of b.
  [[nodiscard]] bool is_in_window_of(std::size_t a, std::size_t b) const {
    const Piece* layer = piece(a);
    if (layer == nullptr || overhangs(*layer)) return false;
    const std::vector<const Piece*> steps = down_from(*layer);
    for (std::size_t i = 0; i + 1 < steps.size() && !steps[i]->tuck; ++i) {
      if (steps[i + 1]->kind != Piece::Kind::window) continue;
      const std::string& holder = steps[i + 1]->on.value;
      const Piece* other = piece(b);
      if (other != nullptr ? other->name.value == holder : is_face_of(b, holder)) return true;
    }
    return false;
  }
  [[nodiscard]] bool is_face_of(std::size_t solid, const std::string& face) const {
    const Leaf& leaf = folding_.leaves[*found_.solids[solid].leaf];
    const bool doors = design_.base.fold.value == Fold::gate && face == "front" && leaf.depth == 0;
    return doors || leaf.toward == face || leaf.away == face;
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
  std::vector<std::vector<std::size_t>> along_;  // by solid: what lies wherever it does
  std::vector<std::vector<bool>> apart_;
  std::set<std::vector<std::size_t>> piles_;
  std::size_t steps_ = 0;
};

}  // namespace

std::optional<Piles> piles_over(const Card& card, const Design& design, const Rational& limit) {
  return Counter(card, design, limit).run();
}

std::vector<Pile> chosen_piles(const Piles& piles, PileSet set) {
  std::vector<Pile> all;
  for (const Pile& pile : piles.piles) {
    if (pile.certain || set == PileSet::all) all.push_back(pile);
  }
  if (set == PileSet::every_certain) return all;
  // A pile that holds all of a smaller one, which is too thick itself, is no pile once that one is taken
  // apart. One that nothing takes apart says more: how thick the card is.
  std::vector<Pile> chosen;
  for (const Pile& pile : all) {
    const bool stays = pile.may_part.empty() && pile.may_be_in.empty();
    const bool implied = std::any_of(all.begin(), all.end(), [&](const Pile& other) {
      return other.solids.size() < pile.solids.size() &&
             std::includes(pile.solids.begin(), pile.solids.end(), other.solids.begin(), other.solids.end());
    });
    if (stays || !implied) chosen.push_back(pile);
  }
  return chosen;
}

}  // namespace evenmat::writing
