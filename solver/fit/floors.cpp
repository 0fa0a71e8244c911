// Smaller pieces want no more paper than larger ones, and larger offcuts of the work are no worse than
// smaller ones, as long as trims may be of any width and cuts of any length. So the plan for the smallest of
// each piece and the largest of each offcut in a box bounds all jobs in it; where the plan for the largest
// pieces and smallest offcuts costs no more, nothing better can be said of any of them. Else the box is cut
// in two where it is widest, the fullest box first.
#include "solver/fit/floors.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <string>
#include <utility>

#include "solver/explore/on_all_cores.h"

namespace evenmat::exploring {
namespace {

using batch::PaperNeeds;
using Price = std::function<PricedPaper(const PaperNeeds&)>;

// A job with a kind of its own for every use, so that jobs of one card in many sizes have as many kinds.
PaperNeeds taken_apart(const PaperNeeds& needs) {
  PaperNeeds apart = needs;
  apart.pieces.clear();
  apart.may.clear();
  for (std::size_t kind = 0; kind < needs.pieces.size(); ++kind) {
    for (const PieceUse& use : needs.pieces[kind].uses) {
      CutPiece piece = needs.pieces[kind];
      if (use.turned) std::swap(piece.size.width, piece.size.height);
      piece.uses = {use};
      piece.count = use.count;
      apart.pieces.push_back(std::move(piece));
      apart.may.push_back(needs.may[kind]);
    }
  }
  return apart;
}

// All that has to be alike for sizes to be compared: what there is, but for the sizes of pieces and offcuts.
std::string likeness_of(const PaperNeeds& needs) {
  std::string text;
  for (std::size_t kind = 0; kind < needs.pieces.size(); ++kind) {
    const CutPiece& piece = needs.pieces[kind];
    const PieceUse& use = piece.uses.front();
    text += fmt::format("{} {} {} {}{} ", use.layer, use.version, piece.count, piece.upright, piece.turned);
    for (const bool may : needs.may[kind]) text += may ? '+' : '-';
  }
  for (const CutSheet& sheet : needs.stock)
    text += fmt::format("{} {} {} ", static_cast<int>(sheet.from), sheet.have.value_or(-1), sheet.comes_of);
  return text;
}

// Uses come in the order of the sizes that they share; by version and layer they are the same in every job.
void put_in_order(PaperNeeds& needs) {
  std::vector<std::size_t> order(needs.pieces.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const PieceUse& first = needs.pieces[a].uses.front();
    const PieceUse& second = needs.pieces[b].uses.front();
    return std::tie(first.version, first.base, first.layer, a) <
           std::tie(second.version, second.base, second.layer, b);
  });
  PaperNeeds sorted = needs;
  for (std::size_t i = 0; i < order.size(); ++i) {
    sorted.pieces[i] = needs.pieces[order[i]];
    sorted.may[i] = needs.may[order[i]];
  }
  needs = std::move(sorted);
}

// The lengths by which jobs that are alike differ: of pieces, and of offcuts with their sign turned, so that
// less is easier to cut throughout.
std::vector<Rational> lengths_of(const PaperNeeds& needs) {
  std::vector<Rational> lengths;
  for (const CutPiece& piece : needs.pieces)
    lengths.insert(lengths.end(), {piece.size.width, piece.size.height});
  for (const CutSheet& sheet : needs.stock) {
    if (sheet.is_offcut())
      lengths.insert(lengths.end(), {Rational(-sheet.size.width), Rational(-sheet.size.height)});
  }
  return lengths;
}

PaperNeeds with_lengths(PaperNeeds needs, const std::vector<Rational>& lengths) {
  std::size_t next = 0;
  for (CutPiece& piece : needs.pieces) {
    piece.size = {lengths[next], lengths[next + 1]};
    next += 2;
  }
  for (CutSheet& sheet : needs.stock) {
    if (!sheet.is_offcut()) continue;
    sheet.size = {-lengths[next], -lengths[next + 1]};
    next += 2;
  }
  return needs;
}

bool no_better_can_be_said(const PaperBound& floor, const PaperCost& ceiling) {
  if (!ceiling.trouble.empty() || floor.never != ceiling.never || floor.missing != ceiling.missing)
    return false;
  return ceiling.cost ? floor.cost == *ceiling.cost : floor.sheets == ceiling.sheets;
}

class Boxes {
 public:
  Boxes(const PaperNeeds& pattern, std::vector<std::vector<Rational>> jobs, const Price& price)
      : pattern_(pattern), jobs_(std::move(jobs)), price_(price) {}

  // Of each job.
  std::vector<PaperBound> run(int most, std::chrono::steady_clock::time_point until) {
    std::vector<std::size_t> all(jobs_.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    std::vector<Box> boxes{box_of(std::move(all), nullptr)};
    for (int made = 1; made < most && std::chrono::steady_clock::now() < until; made += 2) {
      const auto fullest = std::max_element(boxes.begin(), boxes.end(),
                                            [](const Box& a, const Box& b) { return a.open() < b.open(); });
      if (fullest->open() == 0) break;
      const Box whole = std::move(*fullest);
      boxes.erase(fullest);
      std::array<std::vector<std::size_t>, 2> parts = parted(whole);
      std::array<Box, 2> halves;
      on_all_cores(2, [&](std::size_t i) { halves.at(i) = box_of(std::move(parts.at(i)), &whole.floor); });
      for (Box& half : halves) boxes.push_back(std::move(half));
    }
    std::vector<PaperBound> floors(jobs_.size());
    for (const Box& box : boxes) {
      for (const std::size_t job : box.jobs) floors[job] = box.floor;
    }
    return floors;
  }

 private:
  struct Box {
    std::vector<std::size_t> jobs;
    PaperBound floor;
    bool settled = false;
    [[nodiscard]] std::size_t open() const { return settled || jobs.size() < 2 ? 0 : jobs.size(); }
  };

  // The least (the greatest) of each length.
  [[nodiscard]] std::vector<Rational> corner(const std::vector<std::size_t>& jobs, bool greatest) const {
    std::vector<Rational> lengths = jobs_[jobs.front()];
    for (const std::size_t job : jobs) {
      for (std::size_t i = 0; i < lengths.size(); ++i) {
        const Rational& length = jobs_[job][i];
        if (greatest ? length > lengths[i] : length < lengths[i]) lengths[i] = length;
      }
    }
    return lengths;
  }

  // Sheets and costs are bounded where no fewer are missing than that, so they go with it.
  static PaperBound higher(const PaperBound& a, const PaperBound& b) {
    if (a.never != b.never) return a.never ? a : b;
    if (a.missing != b.missing) return a.missing > b.missing ? a : b;
    PaperBound both = a;
    both.sheets = std::max(a.sheets, b.sheets);
    both.cost = std::max(a.cost, b.cost);
    return both;
  }

  Box box_of(std::vector<std::size_t> jobs, const PaperBound* around) const {
    Box box;
    box.floor = price_(with_lengths(pattern_, corner(jobs, false))).bound;
    if (around != nullptr)
      box.floor = higher(box.floor, *around);  // what holds for the whole holds for its parts
    if (jobs.size() > 1) {
      const PaperCost ceiling = price_(with_lengths(pattern_, corner(jobs, true))).cost;
      box.settled = no_better_can_be_said(box.floor, ceiling);
    }
    box.jobs = std::move(jobs);
    return box;
  }

  // Halves along the length that differs most.
  [[nodiscard]] std::array<std::vector<std::size_t>, 2> parted(const Box& box) const {
    const std::vector<Rational> low = corner(box.jobs, false);
    const std::vector<Rational> high = corner(box.jobs, true);
    std::size_t widest = 0;
    for (std::size_t i = 1; i < low.size(); ++i) {
      if (high[i] - low[i] > high[widest] - low[widest]) widest = i;
    }
    const Rational middle = (low[widest] + high[widest]) / 2;
    std::array<std::vector<std::size_t>, 2> parts;
    for (const std::size_t job : box.jobs)
      (jobs_[job][widest] <= middle ? parts[0] : parts[1]).push_back(job);
    return parts;
  }

  const PaperNeeds& pattern_;
  const std::vector<std::vector<Rational>> jobs_;
  const Price& price_;
};

}  // namespace

std::vector<PaperBound> floors_of(const std::vector<PaperNeeds>& jobs, const Price& price, int most_boxes,
                                  std::chrono::steady_clock::time_point until) {
  struct Alike {
    PaperNeeds pattern;
    std::vector<std::size_t> places;
    std::vector<std::vector<Rational>> lengths;
  };
  std::map<std::string, Alike> groups;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    PaperNeeds apart = taken_apart(jobs[i]);
    put_in_order(apart);
    Alike& group = groups[likeness_of(apart)];
    group.places.push_back(i);
    group.lengths.push_back(lengths_of(apart));
    if (group.places.size() == 1) group.pattern = std::move(apart);
  }
  std::vector<PaperBound> floors(jobs.size());
  for (auto& [likeness, group] : groups) {
    const auto part = static_cast<std::size_t>(most_boxes) * group.places.size() / jobs.size();
    const int share = std::max(1, static_cast<int>(part));
    const std::vector<PaperBound> own =
        Boxes(group.pattern, std::move(group.lengths), price).run(share, until);
    for (std::size_t i = 0; i < own.size(); ++i) floors[group.places[i]] = own[i];
  }
  return floors;
}

}  // namespace evenmat::exploring
