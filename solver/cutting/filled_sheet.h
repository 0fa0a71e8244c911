// A sheet while it is being filled: its cut tree in a shape that pieces can be put into and taken out of
// quickly. What is left of a part that is cut always lies behind its other parts, as one: parts beside one
// another can change places, so nothing is lost by that. Lengths have the blade's loss added, pieces and
// sheets alike.
#pragma once

#include <cstdint>
#include <vector>

#include "solver/cutting/job.h"
#include "solver/cutting/part.h"

namespace evenmat::cutting {

// What keeps a cut from being made, with the blade's loss added.
struct CutLimits {
  Measure least_trim =
      0;  // a trim is 0 or at least this; no more than the blade's loss where slivers do not matter
  Measure longest = 0;  // a cut is at most this long; never 0
  int shift = 0;        // areas are told in steps of 2^shift where they are squared

  [[nodiscard]] bool is_trim(Measure length) const { return length == 0 || length >= least_trim; }
};
CutLimits limits_of(const Job& job);

// Room for a piece: what is left of a node, and how the piece would lie in it.
struct Spot {
  int node = -1;
  Measure width = 0, height = 0;  // of the piece as it would lie
  bool turned = false;
  bool lengthwise = false;  // first cut the way the node is not cut
  std::int64_t loss = 0;    // how much worse what is left is: the less, the better
};

class FilledSheet {
 public:
  FilledSheet() = default;
  FilledSheet(std::size_t sheet, Measure width, Measure height);

  [[nodiscard]] std::size_t sheet() const { return sheet_; }
  [[nodiscard]] std::int64_t filled() const { return filled_; }  // area of its pieces
  [[nodiscard]] bool is_empty() const { return nodes_.front().first < 0; }
  [[nodiscard]] int node_count() const { return static_cast<int>(nodes_.size()); }
  [[nodiscard]] int room_count() const { return static_cast<int>(rooms_.size()); }

  // Whether some room is so large, whichever way it lies; if not, there is no spot for such a piece.
  [[nodiscard]] bool has_room(Measure shorter, Measure longer) const {
    return shorter <= most_short_ && longer <= most_long_;
  }
  // Calls `offer(Spot)` for every way to put in a piece of this size.
  template <typename Offer>
  void spots(Measure width, Measure height, bool turned, const CutLimits& limits, const Offer& offer) const;
  void put(const Spot& spot, std::size_t kind);

  // Takes out all pieces below a node (0: all), which are appended to `out` by kind, and draws the rest
  // together.
  void take(int node, const CutLimits& limits, std::vector<std::size_t>& out);

  // The kinds of its pieces, appended.
  void pieces(std::vector<std::size_t>& out) const;
  // As a tree of parts without the blade's loss, `width` x `height` large.
  [[nodiscard]] Part tree(Measure blade) const;

 private:
  struct Node {
    Measure width, height;
    Measure rest;     // of one that is cut: what is left behind its parts, in the direction of the cuts
    int piece;        // kind, or -1 for one that is cut
    int first, next;  // its first part, and the next part of what it is a part of; -1: none
    bool across;      // its cuts run left to right
    bool turned;      // of a piece
  };
  [[nodiscard]] Measure along(const Node& node, bool across) const {
    return across ? node.height : node.width;
  }
  // What is left of one that is cut, seen along the way in which its parts follow each other.
  struct Room {
    int node;
    bool across, has_parts;
    Measure room, side;
  };
  void list_rooms();
  void clear();
  int add(const Node& node);
  void tidy(int node, const CutLimits& limits);
  void draw_together(int node, const CutLimits& limits);
  void splice(int node);
  void compact();
  int copy_into(const std::vector<Node>& from, int node);
  void collect(int node, std::vector<std::size_t>& out) const;
  [[nodiscard]] Part part_of(int node, Measure blade) const;

  std::size_t sheet_ = 0;
  std::int64_t filled_ = 0;
  bool broken_ = false;
  std::vector<Node> nodes_;                 // the root first
  std::vector<Room> rooms_;                 // of all nodes that have any
  Measure most_short_ = 0, most_long_ = 0;  // sides of rooms
};

// What is left, squared: one of 4 by 4 is worth more than four of 2 by 2.
inline std::int64_t worth(Measure width, Measure height, int shift) {
  const std::int64_t area = (width * height) >> shift;
  return area * area;
}

template <typename Offer>
void FilledSheet::spots(Measure width, Measure height, bool turned, const CutLimits& limits,
                        const Offer& offer) const {
  for (const Room& here : rooms_) {
    const auto [i, across, has_parts, room, side] = here;
    const Measure length = across ? height : width;
    const Measure breadth = across ? width : height;
    if (length > room || breadth > side) continue;
    if (!limits.is_trim(room - length) || !limits.is_trim(side - breadth)) continue;
    const bool side_cut = has_parts || room > length;
    const std::int64_t before = worth(room, side, limits.shift);
    if ((!side_cut || side <= limits.longest) && (side == breadth || length <= limits.longest)) {
      offer(Spot{
          i, width, height, turned, false,
          before - worth(room - length, side, limits.shift) - worth(length, side - breadth, limits.shift)});
    }
    if (room > length && side > breadth && (!has_parts || side <= limits.longest) && room <= limits.longest &&
        breadth <= limits.longest) {
      offer(Spot{
          i, width, height, turned, true,
          before - worth(room, side - breadth, limits.shift) - worth(room - length, breadth, limits.shift)});
    }
  }
}

}  // namespace evenmat::cutting
