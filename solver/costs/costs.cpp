#include "solver/costs/costs.h"

#include <algorithm>
#include <initializer_list>
#include <utility>

#include "solver/answer/seen.h"

namespace evenmat::exploring {
namespace {

// Ink has no border, and is not covered as paper is.
bool is_paper(const PlacedPiece& placed) {
  return placed.piece->kind == Piece::Kind::layer && !placed.piece->stamped;
}

std::vector<const SizedVersion*> versions_made(const SizedCard& sized) {
  std::vector<const SizedVersion*> made;
  for (const SizedVersion& version : sized.versions) {
    if (version.cards > 0) made.push_back(&version);
  }
  return made;
}

struct Layer {
  const SizedVersion* version;
  const PlacedPiece* placed;
};

// Of all versions the layers with one of these roles; all layers where there are none.
std::vector<Layer> layers_with(const std::vector<const SizedVersion*>& versions,
                               std::initializer_list<Role> roles) {
  std::vector<Layer> with_role;
  std::vector<Layer> all;
  for (const SizedVersion* version : versions) {
    for (const PlacedPiece& placed : version->pieces) {
      if (!is_paper(placed)) continue;
      all.push_back({version, &placed});
      if (std::find(roles.begin(), roles.end(), placed.piece->role) != roles.end())
        with_role.push_back({version, &placed});
    }
  }
  return with_role.empty() ? all : with_role;
}

// Mats and panels are what borders are looked at on; a sentiment lies where it reads well.
std::optional<Rational> narrowest_border(const std::vector<const SizedVersion*>& versions) {
  std::optional<Rational> narrowest;
  for (const auto& [version, placed] : layers_with(versions, {Role::mat, Role::panel})) {
    for (const Rational* side :
         {&placed->from_left, &placed->from_top, &placed->from_right, &placed->from_bottom}) {
      if (*side > 0 && (!narrowest || *side < *narrowest)) narrowest = *side;
    }
  }
  return narrowest;
}

std::optional<Rational> least_seen(const std::vector<const SizedVersion*>& versions) {
  std::optional<Rational> least;
  for (const auto& [version, placed] : layers_with(versions, {Role::panel})) {
    const Rational& share = share_seen(*version, *placed);
    if (!least || share < *least) least = share;
  }
  return least;
}

std::optional<Rational> thickest(const std::vector<const SizedVersion*>& versions) {
  std::optional<Rational> most;
  for (const SizedVersion* version : versions) {
    if (!version->closed || !version->closed->no_thickness.empty()) return std::nullopt;
    most = std::max(most.value_or(0), version->closed->thickness);
  }
  return most;
}

void add(Costs& costs, const PaperCost& paper) {
  costs.sheets += paper.sheets;
  costs.missing += paper.missing;
  if (!paper.is_planned()) costs.enough = false;
  if (paper.missing > 0) costs.enough = false;
  costs.proven = costs.proven && paper.trouble.empty() && (paper.proven || paper.never);
  if (paper.cost) costs.cost = costs.cost.value_or(0) + *paper.cost;
}

}  // namespace

Costs costs_of(const SizedCard& sized, std::vector<PaperCost> papers) {
  Costs costs;
  Rational sheets = 0;
  Rational pieces = 0;
  for (const PaperCost& paper : papers) {
    add(costs, paper);
    sheets += paper.sheet_area;
    pieces += paper.piece_area;
  }
  costs.papers = std::move(papers);
  if (sheets > 0) costs.waste = 1 - pieces / sheets;
  const std::vector<const SizedVersion*> versions = versions_made(sized);
  costs.border = narrowest_border(versions);
  costs.seen = least_seen(versions);
  costs.thickness = thickest(versions);
  return costs;
}

}  // namespace evenmat::exploring
