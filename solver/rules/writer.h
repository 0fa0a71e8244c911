// The pen with which one design's rules are written: names to rectangles, edges to sums, wishes to rules.
// Which rules a card has is in the files beside this one.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/card.h"
#include "model/faces.h"
#include "solver/rule.h"
#include "solver/size_card.h"

namespace evenmat::writing {

// The four edges of a box on its face, as sums.
struct Box {
  Sum left, top, right, bottom;
};

// The distances from a box's edges inward to another box's: negative where the inner one sticks out.
struct Sides {
  Sum left, top, right, bottom;
  [[nodiscard]] const Sum& operator[](Edge which) const;
};
Sides sides_between(const Box& outer, const Box& inner);

// Whether a piece is in a list of names.
bool names(const std::vector<Name>& list, const Piece& piece);

// Whether a wish about a distance says that it is nothing less than 0.
bool keeps_off(const Wish& wish);

// The number of a wish or size that says `part` with this value, if there is one.
std::optional<StatedNumber> number_of(const Wish& wish, NumberPart part, const Rational& value);
StatedNumber number_of(const StatedSize& size, NumberPart part);

// What stands for a name on the card. `body` is what has a place; `cell` has the cut size. They differ
// only for copies, whose body is the whole grid and whose cell is the first copy.
struct Thing {
  std::size_t body = 0;
  std::size_t cell = 0;
  const Piece* piece = nullptr;  // absent for faces
  std::optional<std::size_t> artwork;
  std::string face;  // the face it lies on, in the end
};

class Writer {
 public:
  Writer(Rules& rules, const Card& card, const Design& design, std::size_t version);

  std::size_t add_rectangle(Rectangle::Kind kind, const std::string& name);
  void name(const std::string& name, Thing thing) { things_.emplace(name, std::move(thing)); }
  [[nodiscard]] const Thing& thing(const std::string& name) const { return things_.at(name); }
  [[nodiscard]] bool has(const std::string& name) const { return things_.contains(name); }

  [[nodiscard]] Box box(std::size_t rectangle) const;
  // The same for what is on it: a tilted layer's own edges, since what lies on it turns with it.
  [[nodiscard]] Box cut_box(std::size_t rectangle) const;
  [[nodiscard]] Sum width(std::size_t rectangle) const {
    return Sum::of(variable(rectangle, Measure::width));
  }
  [[nodiscard]] Sum height(std::size_t rectangle) const {
    return Sum::of(variable(rectangle, Measure::height));
  }
  [[nodiscard]] Sum box_width(std::size_t rectangle) const;
  [[nodiscard]] Sum box_height(std::size_t rectangle) const;
  // The sum a rule of the maker's means by NAME.line.
  [[nodiscard]] Sum measure(const Thing& thing, Line line) const;

  // Each gives the index of the rule it wrote.
  std::size_t given(std::vector<std::vector<Relation>> choices, std::string says, Spot spot = {});
  std::size_t given(Relation relation, std::string says, Spot spot = {});
  std::size_t new_wish() { return next_wish_++; }
  std::size_t stated(std::vector<std::vector<Relation>> choices, std::string says, Spot spot,
                     std::size_t wish);
  std::size_t stated(Relation relation, std::string says, Spot spot, std::size_t wish);
  // `distance` satisfies `wish`; `what` is the subject of the sentence. `like` is what `same as` means.
  void wished(const Wish& wish, const Sum& distance, const std::string& what, std::size_t id, Amount amount,
              const std::optional<Sum>& like = std::nullopt);
  // How the length of a rule just written is told in sums.
  void tell(std::size_t rule, Amount amount) { rules_->rules[rule].amount = std::move(amount); }
  void tell_leant_on(std::size_t rule) { rules_->rules[rule].leant_on = true; }
  void tell_apart(std::size_t rule) { rules_->rules[rule].keeps_apart = true; }
  // That the constant of a rule's only relation, or of one of several, holds factor * a number of `text`,
  // which stands at `spot`.
  void uses(std::size_t rule, const StatedNumber& number, const Rational& factor, std::size_t choice = 0,
            std::size_t relation = 0);
  void aim(Step step, Sum sum, std::string says = {});
  void separate(Separation separation);

  [[nodiscard]] const Card& card() const { return *card_; }
  [[nodiscard]] const Design& design() const { return *design_; }
  [[nodiscard]] std::size_t version() const { return version_; }
  [[nodiscard]] Rectangle& rectangle(std::size_t index) { return rules_->rectangles[index]; }

 private:
  Rules* rules_;
  const Card* card_;
  const Design* design_;
  std::size_t version_;
  std::size_t next_wish_;
  std::map<std::string, Thing> things_;
};

// Where a piece lies on the closed card, seen facing the front, whatever way its face looks.
Box closed_box(const Writer& writer, const Thing& thing);

// The four ways two boxes can lie apart by `gap`: a left of b, right of it, above it, below it.
std::vector<std::vector<Relation>> apart(const Box& a, const Box& b, const Rational& gap);
// The gap between a and b in each of those directions.
std::vector<Sum> gaps(const Box& a, const Box& b);

// Wishes that bind one side, the general ones first, each with its own wish id given by `id_of`.
std::vector<const Wish*> wishes_for(const SideWishes& wishes, Edge side);

// The gaps between copies; absent where there is only one column (row).
struct Spacing {
  std::optional<Sum> across, down;
};
Spacing spacing_of(const Writer& writer, const Thing& thing);

// The distances of a piece's box from the edges of what it is on.
Sides sides_of(const Writer& writer, const Thing& thing);

void write_faces(Writer& writer);
void add_pieces(Writer& writer);                       // names and rectangles for every piece
void write_sizes(Writer& writer, const Thing& thing);  // how big it is
void write_place(Writer& writer, const Thing& thing);  // where it lies on what it is on
void write_neighbours(Writer& writer);                 // pieces beside, clear of, over one another
void write_shown(Writer& writer);                      // layers of which all is to be seen
void write_thickness(Writer& writer, PileSet set);     // how thick the closed card may be
void write_statements(Writer& writer);                 // the `rules` entries
void write_aims(Writer& writer);                       // how what is open is chosen
// The sides that `same as NAME` means, for wishes about sides.
using LikeSides = std::function<std::optional<Sides>(const std::string&)>;
// Four sides and the wishes that bind them (border, margin, frame), `about` included. `rectangle` is whose.
void write_sides(Writer& writer, const SideWishes& wishes, const Sides& sides, const std::string& what,
                 std::size_t rectangle, const LikeSides& like);

}  // namespace evenmat::writing
