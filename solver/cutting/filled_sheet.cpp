#include "solver/cutting/filled_sheet.h"

#include <algorithm>
#include <limits>

namespace evenmat::cutting {

CutLimits limits_of(const Job& job) {
  Measure largest = 1;
  for (const Sheet& sheet : job.sheets)
    largest = std::max(largest, (sheet.width + job.blade) * (sheet.height + job.blade));
  int shift = 0;
  while (largest >> shift >= Measure{1} << 30) ++shift;
  return {job.sliver + job.blade,
          job.longest > 0 ? job.longest + job.blade : std::numeric_limits<Measure>::max(), shift};
}

FilledSheet::FilledSheet(std::size_t sheet, Measure width, Measure height)
    : sheet_(sheet), nodes_{Node{width, height, width, -1, -1, -1, false, false}} {
  list_rooms();
}

void FilledSheet::list_rooms() {
  rooms_.clear();
  most_short_ = most_long_ = 0;
  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    const Node& node = nodes_[i];
    if (node.piece >= 0 || node.rest == 0) continue;
    rooms_.push_back({static_cast<int>(i), node.across, node.first >= 0, node.rest,
                      node.across ? node.width : node.height});
    most_short_ = std::max(most_short_, std::min(rooms_.back().room, rooms_.back().side));
    most_long_ = std::max(most_long_, std::max(rooms_.back().room, rooms_.back().side));
  }
}

void FilledSheet::clear() {
  nodes_.resize(1);
  Node& root = nodes_.front();
  root = Node{root.width, root.height, root.width, -1, -1, -1, false, false};
  filled_ = 0;
  list_rooms();
}

int FilledSheet::add(const Node& node) {
  nodes_.push_back(node);
  return static_cast<int>(nodes_.size()) - 1;
}

void FilledSheet::put(const Spot& spot, std::size_t kind) {
  const auto at = static_cast<std::size_t>(spot.node);
  const bool across = nodes_[at].across;
  const Measure room = nodes_[at].rest;
  const Measure side = across ? nodes_[at].width : nodes_[at].height;
  const Measure length = across ? spot.height : spot.width;
  const Measure breadth = across ? spot.width : spot.height;
  const auto sized = [&](Measure along, Measure beside) {
    return across ? Node{beside, along, 0, -1, -1, -1, !across, false}
                  : Node{along, beside, 0, -1, -1, -1, !across, false};
  };
  Node piece{spot.width, spot.height, 0, static_cast<int>(kind), -1, -1, false, spot.turned};
  filled_ += spot.width * spot.height;
  int part = -1;
  if (!spot.lengthwise) {
    if (breadth == side) {
      part = add(piece);
    } else {
      Node strip = sized(length, side);
      strip.rest = side - breadth;
      strip.first = add(piece);
      part = add(strip);
    }
    nodes_[at].rest = room - length;
  } else {
    // All that is left becomes one part, cut the other way; its first strip is cut as the node is.
    Node inner = sized(room, breadth);
    inner.across = across;
    inner.rest = room - length;
    inner.first = add(piece);
    Node outer = sized(room, side);
    outer.rest = side - breadth;
    outer.first = add(inner);
    part = add(outer);
    nodes_[at].rest = 0;
  }
  nodes_[static_cast<std::size_t>(part)].next = nodes_[at].first;
  nodes_[at].first = part;
  list_rooms();
}

void FilledSheet::collect(int node, std::vector<std::size_t>& out) const {
  const Node& here = nodes_[static_cast<std::size_t>(node)];
  if (here.piece >= 0) out.push_back(static_cast<std::size_t>(here.piece));
  for (int part = here.first; part >= 0; part = nodes_[static_cast<std::size_t>(part)].next)
    collect(part, out);
}

void FilledSheet::pieces(std::vector<std::size_t>& out) const { collect(0, out); }

void FilledSheet::take(int node, const CutLimits& limits, std::vector<std::size_t>& out) {
  collect(node, out);
  if (node == 0) return clear();
  Node& here = nodes_[static_cast<std::size_t>(node)];
  here.piece = -1;
  here.first = -1;
  broken_ = false;
  tidy(0, limits);
  if (broken_) {
    // What was taken is narrower than any trim may be.
    collect(0, out);
    return clear();
  }
  if (nodes_.front().first < 0) return clear();
  compact();
  filled_ = 0;
  for (const Node& one : nodes_) {
    if (one.piece >= 0) filled_ += one.width * one.height;
  }
  list_rooms();
}

// Drops parts without pieces, and draws in what is wider than it need be.
void FilledSheet::tidy(int node, const CutLimits& limits) {
  const auto at = static_cast<std::size_t>(node);
  int last = -1;
  for (int part = nodes_[at].first; part >= 0;) {
    const auto here = static_cast<std::size_t>(part);
    const int next = nodes_[here].next;
    if (nodes_[here].piece < 0) tidy(part, limits);
    if (nodes_[here].piece < 0 && nodes_[here].first < 0) {
      nodes_[at].rest += along(nodes_[here], nodes_[at].across);
      if (last < 0) {
        nodes_[at].first = next;
      } else {
        nodes_[static_cast<std::size_t>(last)].next = next;
      }
    } else {
      last = part;
    }
    part = next;
  }
  draw_together(node, limits);
  splice(node);
  if (!limits.is_trim(nodes_[at].rest)) broken_ = true;
}

// Each part is made as much shorter as all its strips leave room at their ends.
void FilledSheet::draw_together(int node, const CutLimits& limits) {
  const auto at = static_cast<std::size_t>(node);
  const bool across = nodes_[at].across;
  for (int part = nodes_[at].first; part >= 0; part = nodes_[static_cast<std::size_t>(part)].next) {
    const auto here = static_cast<std::size_t>(part);
    if (nodes_[here].piece >= 0) continue;
    Measure spare = std::numeric_limits<Measure>::max();
    for (int strip = nodes_[here].first; strip >= 0; strip = nodes_[static_cast<std::size_t>(strip)].next) {
      const Node& one = nodes_[static_cast<std::size_t>(strip)];
      spare = one.piece >= 0 ? 0 : std::min(spare, one.rest);
      if (spare == 0) break;
    }
    if (spare == 0 || !limits.is_trim(nodes_[at].rest + spare)) continue;
    // Where it was all there is of the node, the node would be cut anew.
    const bool is_all = nodes_[at].rest == 0 && nodes_[at].first == part && nodes_[here].next < 0;
    if (is_all && along(nodes_[at], !across) > limits.longest) continue;
    bool allowed = true;
    for (int strip = nodes_[here].first; strip >= 0 && allowed;
         strip = nodes_[static_cast<std::size_t>(strip)].next) {
      allowed = limits.is_trim(nodes_[static_cast<std::size_t>(strip)].rest - spare);
    }
    if (!allowed) continue;
    for (int strip = nodes_[here].first; strip >= 0; strip = nodes_[static_cast<std::size_t>(strip)].next) {
      Node& one = nodes_[static_cast<std::size_t>(strip)];
      one.rest -= spare;
      (across ? one.height : one.width) -= spare;
    }
    (across ? nodes_[here].height : nodes_[here].width) -= spare;
    nodes_[at].rest += spare;
    splice(part);
  }
}

// A part that is one part only, with nothing left, is that part; if that is cut as the node is, its parts are
// the node's own.
void FilledSheet::splice(int node) {
  const auto at = static_cast<std::size_t>(node);
  int last = -1;
  for (int part = nodes_[at].first; part >= 0;) {
    const auto here = static_cast<std::size_t>(part);
    const int next = nodes_[here].next;
    int first_new = part;
    int last_new = part;
    if (nodes_[here].piece < 0 && nodes_[here].rest == 0 && nodes_[here].first >= 0) {
      const int only = nodes_[here].first;
      const Node& inner = nodes_[static_cast<std::size_t>(only)];
      if (inner.next < 0) {
        if (inner.piece >= 0) {
          first_new = last_new = only;
        } else {
          nodes_[at].rest += inner.rest;
          first_new = inner.first;
          last_new = first_new;
          while (nodes_[static_cast<std::size_t>(last_new)].next >= 0)
            last_new = nodes_[static_cast<std::size_t>(last_new)].next;
        }
        nodes_[static_cast<std::size_t>(last_new)].next = next;
        if (last < 0) {
          nodes_[at].first = first_new;
        } else {
          nodes_[static_cast<std::size_t>(last)].next = first_new;
        }
      }
    }
    last = last_new;
    part = next;
  }
}

int FilledSheet::copy_into(const std::vector<Node>& from, int node) {
  const int copy = add(from[static_cast<std::size_t>(node)]);
  int last = -1;
  for (int part = from[static_cast<std::size_t>(node)].first; part >= 0;
       part = from[static_cast<std::size_t>(part)].next) {
    const int made = copy_into(from, part);
    if (last < 0) {
      nodes_[static_cast<std::size_t>(copy)].first = made;
    } else {
      nodes_[static_cast<std::size_t>(last)].next = made;
    }
    last = made;
  }
  if (last >= 0) nodes_[static_cast<std::size_t>(last)].next = -1;
  return copy;
}

void FilledSheet::compact() {
  thread_local std::vector<Node> old;
  old = nodes_;
  nodes_.clear();
  copy_into(old, 0);
}

Part FilledSheet::part_of(int node, Measure blade) const {
  const Node& here = nodes_[static_cast<std::size_t>(node)];
  Part part;
  part.width = here.width - blade;
  part.height = here.height - blade;
  if (here.piece >= 0) {
    part.what = Part::What::piece;
    part.kind = static_cast<std::size_t>(here.piece);
    part.turned = here.turned;
    return part;
  }
  if (here.first < 0) return part;
  part.what = Part::What::cut;
  part.across = here.across;
  for (int one = here.first; one >= 0; one = nodes_[static_cast<std::size_t>(one)].next) {
    Part inner = part_of(one, blade);
    // An inner part that is cut the same way, as a root that is one part only may have.
    if (inner.what == Part::What::cut && inner.across == part.across) {
      for (Part& deeper : inner.parts) part.parts.push_back(std::move(deeper));
    } else {
      part.parts.push_back(std::move(inner));
    }
  }
  if (here.rest > 0) {
    Part rest;
    rest.width = here.across ? part.width : here.rest - blade;
    rest.height = here.across ? here.rest - blade : part.height;
    part.parts.push_back(rest);
  }
  if (part.parts.size() > 1) return part;
  Part only = std::move(part.parts.front());
  return only;
}

Part FilledSheet::tree(Measure blade) const {
  Part root = part_of(0, blade);
  place_parts(root, blade);
  return root;
}

}  // namespace evenmat::cutting
