// The cards within a card's wishes as points: one number for each amount that is open. Lists them without
// choosing any place, and makes a card of a point. Knows nothing of paper.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "model/card.h"
#include "solver/explore/region.h"
#include "solver/explore_card.h"
#include "solver/rule.h"

namespace evenmat::exploring {

struct Listing {
  std::vector<Amounts> cards;  // ascending, the first amount moving slowest
  bool complete = true;        // false: there are more, of which these are a part
  std::size_t at_least = 0;    // so many cards there are in any case
  bool time_ran_out = false;
};

class Space {
 public:
  // Sizes the card and finds what it leaves open. `card` must outlive it. `only`: of what is open only this
  // varies (name, and key with its part); `keep_same` keep the size they have in the card as sized.
  Space(const Card& card, double limit, const std::vector<std::string>& keep_same,
        const std::optional<std::pair<std::string, std::string>>& only = std::nullopt);
  ~Space();
  Space(Space&&) noexcept;
  Space& operator=(Space&&) noexcept;
  Space(const Space&) = delete;
  Space& operator=(const Space&) = delete;

  // Of the card as sized. Nothing below may be asked unless it is buildable.
  [[nodiscard]] Verdict verdict() const;
  [[nodiscard]] const std::vector<OpenAmount>& open() const;
  [[nodiscard]] const Amounts& as_sized() const;
  [[nodiscard]] const SizedCard& sized() const;  // points into the card
  // False where `only` is an amount that is not the same on all sides of the card as sized, which is no point
  // of the space then.
  [[nodiscard]] bool lists_as_sized() const;
  // Where `only` names an amount that is settled, or none: why nothing varies, as a sentence.
  [[nodiscard]] const std::string& nothing_open() const;

  // All cards that can be built, the card as sized among them if it is a point; where there are more than
  // `most`, that many or fewer that lie spread over all of them, the ends of every amount among them.
  Listing list(std::size_t most);

  // Up to `most` of the cards whose amounts lie between those of two others. None where they would have to be
  // chosen whole and are too many for that.
  std::vector<Amounts> between(const Amounts& a, const Amounts& b, std::size_t most);

  // A card with the sizes of a point and no places worth speaking of: enough for what is cut, unless it is
  // cut from offcuts. The whole card where its sizes do not follow from the amounts; nothing when time ran
  // out then. May be called from several threads at once.
  [[nodiscard]] std::optional<SizedCard> sizes_only(const Amounts& amounts) const;
  // The same with every size as small as it may be, each by itself: no card, but none is smaller anywhere.
  [[nodiscard]] SizedCard smallest() const;

  // The whole card of a listed point, as `size` chooses it. May be called from several threads at once.
  // Nothing when time ran out.
  [[nodiscard]] std::optional<SizedCard> card_of(const Amounts& amounts) const;

  // What the eye tells points apart by: the cut sizes that follow from the amounts, then the amounts. One way
  // of an entry of `rules` and the next are a mark apart.
  [[nodiscard]] std::vector<Rational> traits(const Amounts& amounts) const;
  // How far two points lie apart: the total, in marks, by which their traits differ.
  [[nodiscard]] Rational difference(const Amounts& a, const Amounts& b) const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace evenmat::exploring
