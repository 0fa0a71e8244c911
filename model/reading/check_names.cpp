#include <algorithm>
#include <map>
#include <set>

#include "model/faces.h"
#include "model/reading/design.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

bool is_place(Line line) { return line != Line::width && line != Line::height; }

bool is_across(Line line) { return line == Line::left || line == Line::right || line == Line::centre_across; }

class NameCheck {
 public:
  NameCheck(Design& design, bool faces_known, const std::vector<std::string>& left_out, Context& context)
      : design_(design),
        context_(context),
        left_out_(left_out.begin(), left_out.end()),
        faces_known_(faces_known),
        faces_(faces_for_names(design.base, faces_known)) {
    if (faces_known)
      for (const Face& face : faces(design.base)) frames_[face.name] = face.frame;
  }

  void run() {
    collect();
    for (std::size_t i = 0; i < design_.pieces.size(); ++i) look_up_on(i);
    tell_circles();
    for (std::size_t i = 0; i < design_.pieces.size(); ++i) look_up_others(i);
    for (const Statement& rule : design_.rules) check_rule(rule);
    prune_rules();
  }

 private:
  // Names of one kind of thing are told apart from all others, so that `on`, rules and `set` are clear.
  void collect() {
    for (std::size_t i = 0; i < design_.pieces.size(); ++i) {
      const Name& name = design_.pieces[i].name;
      if (name.value.empty()) continue;
      const bool face = std::find(faces_.begin(), faces_.end(), name.value) != faces_.end();
      if (face || name.value == "reveal" || name.value == "base") {
        context_.mistake(
            name.spot, in_quotes(name.value) + " is what a part of the base is called. Choose another name.");
      } else if (const auto [first, added] = at_.emplace(name.value, i); !added) {
        context_.mistake(name.spot, in_quotes(name.value) +
                                        " is already the name of what is stated on line " +
                                        std::to_string(design_.pieces[first->second].name.spot.line) +
                                        ". Choose another name.");
      } else {
        names_.push_back(name.value);
      }
    }
    host_.assign(design_.pieces.size(), nowhere);
    face_.assign(design_.pieces.size(), {});
  }

  [[nodiscard]] std::size_t find(const std::string& name) const {
    const auto found = at_.find(name);
    return found == at_.end() ? nowhere : found->second;
  }
  [[nodiscard]] bool is_face(const std::string& name) const {
    return std::find(faces_.begin(), faces_.end(), name) != faces_.end();
  }

  void not_found(const Name& name, const std::string& wanted, std::vector<std::string> candidates,
                 std::size_t self) {
    std::erase(candidates, design_.pieces[self].name.value);
    context_.mistake(name.spot, in_quotes(name.value) + " is not " + wanted + " of this card." +
                                    offer(name.value, candidates));
  }

  void look_up_on(std::size_t i) {
    Piece& piece = design_.pieces[i];
    const std::string& on = piece.on.value;
    const bool window = piece.kind == Piece::Kind::window;
    if (on.empty()) return;
    if (left_out_.contains(on)) {
      return context_.mistake(
          piece.on.spot,
          in_quotes(piece.name.value) + (window ? " is cut in " : " is on ") + in_quotes(on) +
              ", which this variant leaves out. Leave it out too, or set it on something else.");
    }
    host_[i] = find(on);
    if (host_[i] != nowhere) {
      if (window && design_.pieces[host_[i]].kind == Piece::Kind::window) {
        context_.mistake(
            piece.on.spot,
            in_quotes(on) + " is a window, and a window is cut in paper. Name a face or a layer.");
      }
      return;
    }
    if (window && on == "reveal") {
      return context_.mistake(
          piece.on.spot, "The reveal is only what the front lays open. Cut the window in " +
                             in_quotes(is_face(on) && faces_known_ ? face_of(design_, on) : "inside") + ".");
    }
    if (is_face(on)) {
      face_[i] = on;
      return;
    }
    if (on == "reveal") return no_reveal(piece.on.spot);
    std::vector<std::string> candidates = faces_;
    candidates.insert(candidates.end(), names_.begin(), names_.end());
    not_found(piece.on, window ? "a face or layer" : "a face, window or layer", std::move(candidates), i);
  }

  void no_reveal(Spot spot) {
    context_.mistake(spot,
                     design_.base.fold.value == Fold::flat
                         ? "A flat base has no reveal, for nothing of it opens. Name another face."
                         : "There is no reveal, for the front is not cut back and lays nothing open. Add "
                           "cut-back to [base], or name another face.");
  }

  // Follows what each piece is on down to a face; those that come round again are told once.
  void tell_circles() {
    std::vector<int> seen(design_.pieces.size(), 0);  // the walk (from 1) that came by
    for (std::size_t start = 0; start < design_.pieces.size(); ++start) {
      std::vector<std::size_t> walk;
      std::size_t at = start;
      const int mark = static_cast<int>(start) + 1;
      while (at != nowhere && seen[at] == 0) {
        seen[at] = mark;
        walk.push_back(at);
        at = host_[at];
      }
      if (at != nowhere && seen[at] == mark) tell_circle(at);
      const std::string face = at == nowhere ? face_[walk.empty() ? start : walk.back()] : face_[at];
      for (std::size_t piece : walk) face_[piece] = face;
    }
  }

  void tell_circle(std::size_t at) {
    std::size_t first = at;
    for (std::size_t next = host_[at]; next != at; next = host_[next]) first = std::min(first, next);
    std::string says = in_quotes(design_.pieces[first].name.value);
    std::size_t next = host_[first];
    for (int shown = 0; next != first && shown < 4; ++shown, next = host_[next])
      says += (shown == 0 ? " sits on " : ", that on ") + in_quotes(design_.pieces[next].name.value);
    if (next == first && host_[first] == first) {
      says += " sits on itself. Name a face, window or another layer.";
    } else {
      says += (next == first ? ", and that on " : ", and so on back to ") +
              in_quotes(design_.pieces[first].name.value) + " again. Put one of them on something else.";
    }
    context_.mistake(design_.pieces[first].on.spot, says);
  }

  // The frame in which the places of a piece or face are, if it is known.
  [[nodiscard]] std::optional<std::string> frame_of(const std::string& name) const {
    const std::size_t i = find(name);
    const auto frame = frames_.find(i == nowhere ? name : face_[i]);
    return frame == frames_.end() ? std::nullopt : std::optional(frame->second);
  }

  [[nodiscard]] std::string where(const std::string& name) const {
    const std::size_t i = find(name);
    return i == nowhere ? name : face_[i];
  }

  // True if the name is of another piece and places can be compared; tells otherwise. `or_reveal`: the
  // reveal may be named as well.
  bool fits(std::size_t self, const Name& name, bool compares_places, bool or_reveal = false) {
    const Piece& piece = design_.pieces[self];
    if (name.value == piece.name.value) {
      context_.mistake(name.spot,
                       in_quotes(name.value) + " names itself here. Name another layer or window.");
      return false;
    }
    const bool reveal = or_reveal && name.value == "reveal";
    if (reveal && !is_face(name.value)) {
      no_reveal(name.spot);
      return false;
    }
    if (find(name.value) == nowhere && !reveal) {
      if (is_face(name.value)) {
        context_.mistake(name.spot,
                         in_quotes(name.value) + " is a face. Name a layer or window here, or state a rule.");
      } else {
        not_found(name, "a layer or window", names_, self);
      }
      return false;
    }
    const auto own = frame_of(piece.name.value);
    const auto other = frame_of(name.value);
    if (!compares_places || !own || !other || *own == *other) return true;
    const std::string named = reveal ? "the reveal lies on the " + face_of(design_, name.value)
                                     : in_quotes(name.value) + " on the " + where(name.value);
    context_.mistake(name.spot, in_quotes(piece.name.value) + " is on the " + where(piece.name.value) +
                                    " and " + named +
                                    ", so their places cannot be compared. Name something on the same side.");
    return false;
  }

  void look_up_others(std::size_t i) {
    Piece& piece = design_.pieces[i];
    const auto keep = [&](const Name& name) {
      return !left_out_.contains(name.value) && fits(i, name, true);
    };
    std::erase_if(piece.clear_of, [&](const Name& name) {
      return left_out_.contains(name.value) || !fits(i, name, true, true);
    });
    std::erase_if(piece.over, [&](const Name& name) { return !keep(name); });
    std::erase_if(piece.beside, [&](const Beside& beside) { return !keep(beside.name); });
    std::erase_if(piece.level_with, [&](const LevelWith& level) { return !keep(level.name); });
    for (const std::optional<Wish>* wish :
         {&piece.border.all,    &piece.border.left,   &piece.border.right, &piece.border.top,
          &piece.border.bottom, &piece.border.across, &piece.border.down,  &piece.margin.all,
          &piece.margin.left,   &piece.margin.right,  &piece.margin.top,   &piece.margin.bottom,
          &piece.margin.across, &piece.margin.down,   &piece.width,        &piece.height,
          &piece.from_left,     &piece.from_right,    &piece.from_top,     &piece.from_bottom,
          &piece.gap,           &piece.clearance,     &piece.overhang,     &piece.tuck,
          &piece.frame}) {
      if (!*wish || !(*wish)->same_as) continue;
      const Name name{*(*wish)->same_as, (*wish)->spot};
      if (left_out_.contains(name.value)) {
        context_.mistake(name.spot, in_quotes((*wish)->text) + " speaks of " + in_quotes(name.value) +
                                        ", which this variant leaves out. Set another wish for it.");
      } else {
        fits(i, name, false);
      }
    }
    if (faces_known_ && piece.kind == Piece::Kind::layer && host_[i] != nowhere &&
        has_nothing_behind(host_[i])) {
      const Piece& window = design_.pieces[host_[i]];
      context_.mistake(piece.on.spot,
                       in_quotes(window.name.value) + " is cut in the " + window.on.value +
                           ", and no page that faces you lies behind it for " + in_quotes(piece.name.value) +
                           " to be glued to. Put the layer on a face, or cut the window in the front.");
    }
    if (piece.tuck && !piece.on.value.empty() && host_known(i) && !lies_behind(i)) {
      context_.mistake(piece.tuck->spot,
                       "A tuck reaches past an opening, and " + in_quotes(piece.on.value) +
                           " is none. Put the layer on a window or the reveal, or state overhang.");
    }
  }
  // Whether a piece is a window in a face that no other that looks the same way, to the front, lies behind.
  [[nodiscard]] bool has_nothing_behind(std::size_t i) const {
    const Piece& piece = design_.pieces[i];
    return piece.kind == Piece::Kind::window && host_[i] == nowhere && is_face(piece.on.value) &&
           face_behind(design_.base, piece.on.value) == piece.on.value;
  }
  [[nodiscard]] bool host_known(std::size_t i) const {
    return host_[i] != nowhere || is_face(design_.pieces[i].on.value);
  }
  [[nodiscard]] bool lies_behind(std::size_t i) const {
    return design_.pieces[i].on.value == "reveal" ||
           (host_[i] != nowhere && design_.pieces[host_[i]].kind == Piece::Kind::window);
  }

  [[nodiscard]] bool regards_left_out(const Statement& rule) const {
    for (const auto& choice : rule.choices) {
      for (const Comparison& comparison : choice) {
        for (const StatementTerm& term : comparison.terms)
          if (left_out_.contains(term.name)) return true;
      }
    }
    return false;
  }
  void prune_rules() {
    std::erase_if(design_.rules, [&](const Statement& rule) { return regards_left_out(rule); });
  }

  // Places in different frames have no common origin; a comparison is sound if in each frame the places
  // add up to a distance, or if there is only one frame.
  void check_rule(const Statement& rule) {
    if (regards_left_out(rule)) return;
    for (const auto& choice : rule.choices) {
      for (const Comparison& comparison : choice) {
        std::map<std::string, std::pair<Rational, Rational>> total;  // by frame: across, down
        std::map<std::string, std::string> example;
        for (const StatementTerm& term : comparison.terms) {
          if (!is_place(term.line)) continue;
          const auto frame = frame_of(term.name);
          if (!frame) continue;
          auto& [across, down] = total[*frame];
          (is_across(term.line) ? across : down) += term.factor;
          example.emplace(*frame, term.name);
        }
        std::erase_if(total,
                      [](const auto& entry) { return entry.second.first == 0 && entry.second.second == 0; });
        if (total.size() < 2) continue;
        const std::string& one = example[total.begin()->first];
        const std::string& other = example[std::next(total.begin())->first];
        context_.mistake(rule.spot, "Places on the " + where(one) + " and on the " + where(other) +
                                        " cannot be compared: " + in_quotes(one) + " and " +
                                        in_quotes(other) +
                                        " share no side. Compare widths or heights, or things on one side.");
        return;
      }
    }
  }

  Design& design_;
  Context& context_;
  std::set<std::string> left_out_;
  bool faces_known_;
  std::vector<std::string> faces_;
  std::map<std::string, std::string> frames_;
  std::map<std::string, std::size_t> at_;
  std::vector<std::string> names_;
  std::vector<std::size_t> host_;  // of each piece what piece it is on
  std::vector<std::string> face_;  // of each piece the face it ends on; empty if unknown
};

}  // namespace

void check_names(Design& design, bool faces_known, const std::vector<std::string>& left_out,
                 Context& context) {
  NameCheck(design, faces_known, left_out, context).run();
}

}  // namespace evenmat::reading
