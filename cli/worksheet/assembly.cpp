#include "cli/worksheet/assembly.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "cli/wording.h"
#include "cli/worksheet/gluing_place.h"
#include "model/faces.h"
#include "solver/batch/offcuts.h"
#include "solver/body/pile.h"

namespace evenmat {
namespace {

using Kind = AssemblyStep::Kind;

// The faces of the card in the order in which they are covered: the front, what else looks outward, the
// inside. What lies across both doors of a gate comes after what lies on each.
std::vector<std::string> faces_in_turn(const Base& base) {
  std::vector<Face> all = faces(base);
  std::erase_if(all, [](const Face& face) { return face.name == "reveal"; });
  const bool gate = base.fold.value == Fold::gate;
  const auto rank = [&](const Face& face) {
    if (face.name == "back" || (gate && face.name == "front")) return 1;
    return face.depth == 0 && face.turned == Turned::no ? 0 : 2;
  };
  std::stable_sort(all.begin(), all.end(), [&](const Face& a, const Face& b) { return rank(a) < rank(b); });
  std::vector<std::string> names;
  for (const Face& face : all) names.push_back(face.name);
  return names;
}

class Assembly {
 public:
  Assembly(const Card& card, const Design& design, const SizedVersion& version)
      : card_(card), design_(design), version_(version), late_(version.pieces.size()) {
    for (std::size_t i = 0; i < version.pieces.size(); ++i) at_[piece(i).name.value] = i;
    for (const std::string& face : faces_in_turn(design.base)) {
      for (const Lying& lying : pile_on(design, version, face)) {
        if (!face_.contains(lying.piece)) piled_.push_back(lying.piece);
        face_[lying.piece] = face;
      }
    }
    for (const std::size_t layer : piled_) {
      if (const auto other = at_.find(ground_of(layer)); other != at_.end()) ground_[layer] = other->second;
    }
    for (const std::size_t layer : piled_) {
      for (const std::size_t lower : named_below(layer)) add_below(layer, lower);
      const bool in_opening = through(layer) == Through::opening;
      for (const std::size_t holder : seen_through(layer)) {
        if (in_opening) {
          below_[layer].insert(holder);
        } else {
          below_[holder].insert(layer);
        }
      }
    }
    find_late();
  }

  std::vector<AssemblyStep> steps() {
    for (const std::size_t layer : piled_) stamp(layer);
    for (const std::size_t layer : piled_) cut_out(layer);
    for (const std::size_t layer : glued_in_turn()) glue(layer);
    return std::move(steps_);
  }

 private:
  [[nodiscard]] const Piece& piece(std::size_t index) const { return *version_.pieces[index].piece; }
  [[nodiscard]] bool is_raised(std::size_t index) const {
    return piece(index).raised && piece(index).raised->value > 0;
  }
  [[nodiscard]] const std::string& name(std::size_t index) const { return piece(index).name.value; }

  [[nodiscard]] Through through(std::size_t layer) const {
    return through_of(version_, version_.pieces[layer]);
  }

  // The paper that a layer is glued to, a face or a layer: of one on an opening what lies behind that, or the
  // back of what the opening is in.
  [[nodiscard]] std::string ground_of(std::size_t layer) const {
    std::string on = piece(layer).on.value;
    if (through(layer) == Through::back_of_it) return piece(at_.at(on)).on.value;
    while (true) {
      const auto below = at_.find(on);
      if (below == at_.end()) return on == "reveal" ? face_of(design_, on) : on;
      if (piece(below->second).kind == Piece::Kind::layer && !piece(below->second).stamped) return on;
      if (piece(below->second).stamped) {  // ink is no paper: what it is on is
        on = piece(below->second).on.value;
        continue;
      }
      // Of a window what its holder is on; of one in a face the page behind.
      const auto holder = at_.find(piece(below->second).on.value);
      if (holder == at_.end()) return face_of(design_, on);
      on = piece(holder->second).on.value;
    }
  }

  // What it is said to lie over, on its own face.
  [[nodiscard]] std::vector<std::size_t> named_below(std::size_t layer) const {
    std::vector<std::size_t> lower;
    for (const Name& one : piece(layer).over) {
      const auto other = at_.find(one.value);
      if (other == at_.end() || !face_.contains(other->second)) continue;
      if (face_.at(other->second) == face_.at(layer)) lower.push_back(other->second);
    }
    return lower;
  }

  // The layers in whose windows it is seen.
  [[nodiscard]] std::vector<std::size_t> seen_through(std::size_t layer) const {
    std::vector<std::size_t> above;
    std::string on = piece(layer).on.value;
    while (true) {
      const auto below = at_.find(on);
      if (below == at_.end() || piece(below->second).kind == Piece::Kind::layer) return above;
      const auto holder = at_.find(piece(below->second).on.value);
      if (holder == at_.end()) return above;
      above.push_back(holder->second);
      on = piece(holder->second).on.value;
    }
  }

  // A layer goes on after what it lies over, and after all that carries that, but for what carries both.
  void add_below(std::size_t layer, std::size_t lower) {
    below_[layer].insert(lower);
    for (auto on = ground_.find(lower); on != ground_.end(); on = ground_.find(on->second)) {
      if (on->second == layer || lies_on(layer, on->second)) return;
      below_[layer].insert(on->second);
    }
  }

  [[nodiscard]] bool lies_on(std::size_t layer, std::size_t ground) const {
    for (auto below = ground_.find(layer); below != ground_.end(); below = ground_.find(below->second)) {
      if (below->second == ground) return true;
    }
    return false;
  }

  // What cannot go on before all that is flat has: foam, and what lies over such, or over something of
  // another stack.
  void find_late() {
    for (const std::size_t layer : piled_) late_[layer] = is_raised(layer);
    for (bool changed = true; changed;) {
      changed = false;
      for (const std::size_t layer : piled_) {
        if (late_[layer]) continue;
        const auto ground = ground_.find(layer);
        late_[layer] = std::any_of(below_[layer].begin(), below_[layer].end(), [&](std::size_t lower) {
          const bool elsewhere =
              ground != ground_.end() && lower != ground->second && !lies_on(lower, ground->second);
          return late_[lower] || elsewhere;
        });
        changed = changed || late_[layer];
      }
    }
  }

  [[nodiscard]] std::string thing(std::size_t layer) const {
    const std::size_t copies = version_.pieces[layer].copies.size();
    return copies > 1 ? fmt::format("{} (all {})", name(layer), copies) : name(layer);
  }

  [[nodiscard]] std::string below_words(std::size_t layer) const {
    const std::string ground = ground_of(layer);
    if (through(layer) == Through::back_of_it) return "the back of " + ground;
    return at_.contains(ground) ? ground : "the " + ground;
  }

  [[nodiscard]] std::string size(std::size_t layer) const {
    const PlacedPiece& placed = version_.pieces[layer];
    return fmt::format("{} x {}", length_text(placed.width, card_.unit),
                       length_with_unit(placed.height, card_.unit));
  }

  void say(Kind kind, std::size_t layer, std::string words) {
    steps_.push_back({kind, layer, std::move(words)});
  }

  void stamp(std::size_t layer) {
    const Piece& one = piece(layer);
    if (one.stamped) {
      say(Kind::stamp, layer, fmt::format("Stamp {} on {}. Let it dry.", thing(layer), below_words(layer)));
    } else if (one.stamp_first) {
      say(Kind::stamp, layer,
          fmt::format("Stamp or print {} while it is still oversize. Let it dry.", thing(layer)));
    } else if (one.artwork) {
      say(Kind::stamp, layer, fmt::format("Stamp or print what goes on {}. Let it dry.", thing(layer)));
    }
  }

  void cut_out(std::size_t layer) {
    const Piece& one = piece(layer);
    if (one.stamped) return;
    if (one.cut == Cut::by_hand) {
      say(Kind::cut_out, layer,
          fmt::format("Cut out {} by hand, {}. What is to be coloured on it is coloured first.", thing(layer),
                      size(layer)));
    } else if (one.cut == Cut::die) {
      say(Kind::cut_out, layer, fmt::format("Cut {} with its die, {}.", thing(layer), size(layer)));
    } else if (one.stamp_first && one.cut == Cut::trimmer) {
      say(Kind::cut_out, layer,
          fmt::format("Trim {} to {}, the work in its middle.", thing(layer), size(layer)));
    }
    if (one.hollow) say_hollow(layer);
  }

  void say_hollow(std::size_t layer) {
    std::vector<std::string> middles;
    for (const batch::HiddenMiddle& one : batch::hidden_middles(version_, piece(layer), card_.unit)) {
      middles.push_back(
          fmt::format("{} x {}, {} from its left and {} from its top edge",
                      length_text(one.size.width, card_.unit), length_text(one.size.height, card_.unit),
                      length_text(one.left, card_.unit), length_with_unit(one.top, card_.unit)));
    }
    say(Kind::cut_out, layer,
        fmt::format(
            "The hidden middle of {} may be cut out and used{}{}: now, before anything is glued to it.",
            name(layer), middles.empty() ? "" : ", ", joined(middles, "; ")));
  }

  // What is glued to a layer while it is in the hand, the lowest and its own stack first.
  void add_stack(std::size_t layer, std::vector<std::size_t>& order) const {
    for (const std::size_t above : piled_) {
      const auto ground = ground_.find(above);
      if (ground != ground_.end() && ground->second == layer && !late_[above]) add_stack(above, order);
    }
    if (!piece(layer).stamped) order.push_back(layer);
  }

  // Face by face, what is flat before what is late; of a late one what must be there before is waited for. (A
  // stack waits for nothing: what would have to is late.)
  [[nodiscard]] std::vector<std::size_t> glued_in_turn() const {
    std::vector<std::size_t> wished;
    for (const std::string& face : faces_in_turn(design_.base)) {
      for (const bool late : {false, true}) {
        for (const std::size_t layer : piled_) {
          const bool begins = late_[layer] || !ground_.contains(layer);
          if (face_.at(layer) == face && begins && late_[layer] == late) add_stack(layer, wished);
        }
      }
    }
    std::vector<std::size_t> order;
    while (!wished.empty()) {
      auto next = std::find_if(wished.begin(), wished.end(), [&](std::size_t layer) {
        return std::none_of(wished.begin(), wished.end(),
                            [&](std::size_t other) { return other != layer && waits_for(layer, other); });
      });
      if (next == wished.end()) next = wished.begin();  // each over the other
      order.push_back(*next);
      wished.erase(next);
    }
    return order;
  }

  [[nodiscard]] bool waits_for(std::size_t layer, std::size_t other) const {
    const auto below = below_.find(layer);
    if (below != below_.end() && below->second.contains(other)) return true;
    const auto ground = ground_.find(layer);
    return late_[layer] && ground != ground_.end() && ground->second == other;
  }

  // What of its own stack is glued to it in the hand.
  [[nodiscard]] std::string with_words(std::size_t layer) const {
    bool on = false;
    bool behind = false;
    for (const std::size_t above : piled_) {
      const auto ground = ground_.find(above);
      if (ground == ground_.end() || ground->second != layer || late_[above] || piece(above).stamped)
        continue;
      (through(above) == Through::back_of_it ? behind : on) = true;
    }
    if (!on && !behind) return {};
    return fmt::format(", with what is {} it,", on && behind ? "on and behind" : on ? "on" : "behind");
  }

  // "over" other layers, behind openings, turned.
  [[nodiscard]] std::string manner(std::size_t layer) const {
    std::string words;
    const Piece& one = piece(layer);
    const auto opening = at_.find(one.on.value);
    if (one.on.value == "reveal") words += ", at the reveal";
    if (opening != at_.end() && piece(opening->second).kind == Piece::Kind::window) {
      const PlacedPiece& placed = version_.pieces[layer];
      const Through how = through(layer);
      // What goes on before its opening is there to measure from.
      if (how == Through::page || how == Through::below)
        words += ", " + place_on(card_, design_, version_, placed, ground_of(layer));
      words += fmt::format(", {} the opening of {}", is_in_window(version_, placed) ? "in" : "behind",
                           one.on.value);
    }
    std::vector<std::string> lower;
    for (const std::size_t other : named_below(layer)) lower.push_back(name(other));
    if (!lower.empty()) words += ", over " + listed(lower);
    if (one.tilt && one.tilt->value != 0) {
      const Rational& tilt = one.tilt->value;
      const Rational degrees = tilt < 0 ? Rational(-tilt) : tilt;
      words += fmt::format(", turned {} {} {}", length_text(degrees, Unit::millimetre),
                           degrees == 1 ? "degree" : "degrees", tilt < 0 ? "anticlockwise" : "clockwise");
    }
    return words;
  }

  void glue(std::size_t layer) {
    const Piece& one = piece(layer);
    const bool face = !ground_.contains(layer);
    const Kind kind = is_raised(layer) ? Kind::foam
                      : late_[layer]   ? Kind::late_glue
                      : face           ? Kind::on_face
                                       : Kind::glue;
    const std::string with = with_words(layer);
    // A gate's front is two doors, and a layer glued to both keeps them shut.
    const bool doors = design_.base.fold.value == Fold::gate && ground_of(layer) == "front";
    std::string only = doors ? " Where it reaches over both doors, glue it to one." : "";
    if (face) only += score_words(design_, version_, version_.pieces[layer], ground_of(layer));
    if (is_raised(layer)) {
      say(kind, layer,
          fmt::format("Put {}{} on foam of {}, and on {}{}.{}", thing(layer), with,
                      length_with_unit(one.raised->value, card_.unit), below_words(layer), manner(layer),
                      only));
    } else {
      say(kind, layer,
          fmt::format("Glue {}{} to {}{}.{}", thing(layer), with, below_words(layer), manner(layer), only));
    }
  }

  const Card& card_;
  const Design& design_;
  const SizedVersion& version_;
  std::map<std::string, std::size_t> at_;      // pieces by name
  std::map<std::size_t, std::string> face_;    // of a layer: which it lies on in the end
  std::map<std::size_t, std::size_t> ground_;  // of a layer: the layer it is glued to; none: a face
  std::map<std::size_t, std::set<std::size_t>> below_;
  std::vector<std::size_t> piled_;  // layers: face by face, from the lowest to the topmost
  std::vector<bool> late_;
  std::vector<AssemblyStep> steps_;
};

}  // namespace

std::vector<AssemblyStep> assembly_of(const Card& card, const Design& design, const SizedVersion& version) {
  return Assembly(card, design, version).steps();
}

}  // namespace evenmat
