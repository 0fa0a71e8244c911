// The most cards, by trial: what is enough for some cards is enough for fewer, as the paper of a card that is
// not made gives whatever its offcuts gave.
//
// With one version that is bisection. With several, versions are gone through in order, each from the most
// there is paper for (those before it as chosen, those after it left out) down to none; the last takes the
// most it can. A branch is left when it cannot come to more than the best so far, which the areas of the
// pieces show: what comes later in that order is no better at the same number. Of versions that need the same
// a later one is made only once the earlier is made in full.
//
// More are proven not to be possible if at every place where a number was the most, one more was refuted, and
// no branch was left for want of time.
#include "solver/batch/most.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <utility>

namespace evenmat::batch {
namespace {

// A version by its place among all.
struct VersionAt {
  std::size_t card = 0, version = 0;
};

constexpr int most_tried = 1'000'000;  // no card file asks for more cards
constexpr int most_branches = 20'000;

// All that planning a paper depends on.
std::string key_of(const PaperNeeds& needs) {
  std::string key = needs.paper;
  for (const CutPiece& piece : needs.pieces) {
    key += fmt::format("|{}x{} {}{} {}", fraction_text(piece.size.width), fraction_text(piece.size.height),
                       piece.upright, piece.turned, piece.count);
  }
  for (std::size_t i = 0; i < needs.stock.size(); ++i) {
    const CutSheet& sheet = needs.stock[i];
    key += fmt::format("|{}x{} {}", fraction_text(sheet.size.width), fraction_text(sheet.size.height),
                       sheet.have.value_or(-1));
    for (const auto& may : needs.may) key += may[i] ? '+' : '-';
  }
  return key;
}

// A paper of which there is so much and no more, by area.
struct LimitedArea {
  Rational there;
  std::vector<Rational> wanted;  // for one card of each version, less what may be cut from its offcuts
};

Rational area_of(const Size& size) { return size.width * size.height; }

Rational area_wanted(const PaperNeeds& needs) {
  Rational area = 0;
  for (const CutPiece& piece : needs.pieces) area += area_of(piece.size) * piece.count;
  for (const CutSheet& sheet : needs.stock) {
    if (sheet.is_offcut()) area -= area_of(sheet.size) * sheet.have.value_or(0);
  }
  return area;
}

// Nothing where there is any number of some sheet.
std::optional<Rational> area_there(const PaperNeeds& needs) {
  Rational area = 0;
  for (const CutSheet& sheet : needs.stock) {
    if (sheet.is_offcut()) continue;
    if (!sheet.have) return std::nullopt;
    area += area_of(sheet.size) * *sheet.have;
  }
  return area;
}

class MostSearch {
 public:
  MostSearch(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
             const CutOptions& options, const Counts& least, const Counts& stated, Clock::time_point until)
      : cards_(cards),
        more_(more),
        options_(options),
        trimmer_(trimmer_of(cards)),
        until_(until),
        none_(stated) {
    for (std::size_t card = 0; card < stated.size(); ++card) {
      for (std::size_t version = 0; version < stated[card].size(); ++version) {
        none_[card][version] = 0;
        if (stated[card][version] == 0) continue;
        versions_.push_back({card, version});
        caps_.push_back(stated[card][version]);
        floors_.push_back(least[card][version]);
      }
    }
    best_.assign(caps_.size(), 0);
  }

  std::optional<MostCards> run(bool beyond) {
    if (!limited()) return std::nullopt;
    if (versions_.size() == 1 && beyond) raise_cap();
    compare_versions();
    std::vector<int> chosen(caps_.size(), 0);
    descend(chosen, 0);
    MostCards most;
    most.counts = counts_of(best_);
    most.proven = proven_;
    for (const PaperNeeds& needs : needs_of(best_)) {
      const auto known = enough_.find(key_of(needs));
      if (known != enough_.end() && known->second.plan) most.plans.emplace(needs.paper, *known->second.plan);
    }
    return most;
  }

 private:
  [[nodiscard]] Counts counts_of(const std::vector<int>& chosen) const {
    Counts counts = none_;
    for (std::size_t i = 0; i < chosen.size(); ++i)
      counts[versions_[i].card][versions_[i].version] = chosen[i];
    return counts;
  }

  [[nodiscard]] std::vector<PaperNeeds> needs_of(const std::vector<int>& chosen) const {
    return gather(cards_, more_, options_, counts_of(chosen));
  }

  [[nodiscard]] bool limited() const {
    const std::vector<PaperNeeds> needs = needs_of(caps_);
    return std::any_of(needs.begin(), needs.end(),
                       [&](const PaperNeeds& paper) { return sets_a_limit(paper, trimmer_); });
  }

  // To a number of cards that the paper is not enough for, as far as there is one.
  void raise_cap() {
    while (caps_.front() < most_tried && enough(caps_) != false)
      caps_.front() = std::min(2 * caps_.front(), most_tried);
  }

  // Which of them need the same, and how much area.
  void compare_versions() {
    std::map<std::string, std::size_t> last_alike;
    std::map<std::string, LimitedArea> areas;
    for (std::size_t i = 0; i < caps_.size(); ++i) {
      std::vector<int> one(caps_.size(), 0);
      one[i] = 1;
      std::string key;
      for (const PaperNeeds& needs : needs_of(one)) {
        key += key_of(needs);
        const std::optional<Rational> there = area_there(needs);
        if (!there) continue;
        LimitedArea& area = areas[needs.paper];
        area.there = *there;
        area.wanted.resize(caps_.size());
        area.wanted[i] = area_wanted(needs);
      }
      const auto alike = last_alike.find(key);
      alike_before_.push_back(alike == last_alike.end() ? std::nullopt : std::optional(alike->second));
      last_alike[key] = i;
    }
    for (const auto& [paper, area] : areas) areas_.push_back(area);
  }

  std::optional<bool> enough(const std::vector<int>& chosen) {
    bool known = true;
    for (const PaperNeeds& needs : needs_of(chosen)) {
      const std::optional<bool> yes = enough_of(needs);
      if (yes == false) return false;
      known = known && yes.has_value();
    }
    return known ? std::optional(true) : std::nullopt;
  }

  std::optional<bool> enough_of(const PaperNeeds& needs) {
    const std::string key = key_of(needs);
    const auto known = enough_.find(key);
    if (known != enough_.end()) return known->second.yes;
    PaperEffort effort;
    const Clock::time_point now = Clock::now();
    effort.until = now + (std::max(until_, now) - now) / 4;
    return enough_.emplace(key, is_enough(needs, trimmer_, effort)).first->second.yes;
  }

  // The most of a version, the others being as chosen, which can be made without it.
  int most_of(std::vector<int> chosen, std::size_t version) {
    int possible = 0;
    int too_many = caps_[version] + 1;
    bool refuted = true;
    while (possible + 1 < too_many) {
      chosen[version] = possible + (too_many - possible) / 2;
      const std::optional<bool> yes = enough(chosen);
      if (yes == true) {
        possible = chosen[version];
      } else {
        too_many = chosen[version];
        refuted = yes.has_value();
      }
    }
    if (!refuted) proven_ = false;
    return possible;
  }

  // No more than so many of the versions from `first` on, beside those chosen before.
  [[nodiscard]] Integer most_by_area(const std::vector<int>& chosen, std::size_t first) const {
    Integer most = std::accumulate(caps_.begin() + static_cast<std::ptrdiff_t>(first), caps_.end(), 0LL);
    for (const LimitedArea& area : areas_) {
      Rational left = area.there;
      for (std::size_t i = 0; i < first; ++i) left -= area.wanted[i] * chosen[i];
      std::vector<std::size_t> order(caps_.size() - first);
      std::iota(order.begin(), order.end(), first);
      std::sort(order.begin(), order.end(),
                [&](std::size_t a, std::size_t b) { return area.wanted[a] < area.wanted[b]; });
      Rational count = 0;
      for (const std::size_t i : order) {
        const Rational& wanted = area.wanted[i];
        const Rational fits =
            wanted <= 0 ? Rational(caps_[i])
                        : std::min(Rational(caps_[i]), Rational(std::max(left, Rational(0)) / wanted));
        left -= wanted * fits;
        count += fits;
      }
      most = std::min(most, floor(count));
    }
    return most;
  }

  void descend(std::vector<int>& chosen, std::size_t version) {
    if (version == caps_.size()) {
      if (total(chosen) > total(best_)) best_ = chosen;
      return;
    }
    const std::optional<std::size_t> alike = alike_before_[version];
    // Of two that need the same the later is made beyond what it must be only once the earlier is not wanted
    // more.
    const bool later = alike && chosen[*alike] < caps_[*alike];
    int most = later && floors_[version] == 0 ? 0 : most_of(chosen, version);
    if (later) most = std::min(most, floors_[version]);
    const int least = version + 1 == caps_.size() ? std::max(most, floors_[version]) : floors_[version];
    for (chosen[version] = most; chosen[version] >= least; --chosen[version]) {
      const Integer reach = total(chosen) + most_by_area(chosen, version + 1);
      if (reach <= total(best_)) continue;
      if (++branches_ > most_branches || Clock::now() >= until_) {
        proven_ = false;
        break;
      }
      tell();
      descend(chosen, version + 1);
    }
    chosen[version] = 0;
  }

  [[nodiscard]] static std::int64_t total(const std::vector<int>& chosen) {
    return std::accumulate(chosen.begin(), chosen.end(), std::int64_t{0});
  }

  void tell() const {
    if (options_.at_work && branches_ > 1) {
      options_.at_work(fmt::format("Looking for the most cards: {} so far", total(best_)));
    }
  }

  const std::vector<BatchCard>& cards_;
  const std::vector<MorePaper>& more_;
  const CutOptions& options_;
  const BatchTrimmer trimmer_;
  const Clock::time_point until_;
  Counts none_;
  std::vector<VersionAt> versions_;  // of which any are stated
  std::vector<int> caps_;
  std::vector<int> floors_;
  std::vector<std::optional<std::size_t>> alike_before_;  // the last version before it that needs the same
  std::vector<LimitedArea> areas_;
  std::map<std::string, Enough> enough_;  // by all that it depends on
  std::vector<int> best_;
  int branches_ = 0;
  bool proven_ = true;
};

}  // namespace

int cards_in(const Counts& counts) {
  int cards = 0;
  for (const auto& of_card : counts) cards = std::accumulate(of_card.begin(), of_card.end(), cards);
  return cards;
}

std::optional<MostCards> most_cards(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                                    const CutOptions& options, const Counts& stated, bool beyond,
                                    Clock::time_point until) {
  Counts none = stated;
  Counts ordered = stated;
  std::size_t versions = 0;
  for (std::size_t card = 0; card < stated.size(); ++card) {
    for (std::size_t version = 0; version < stated[card].size(); ++version) {
      none[card][version] = 0;
      ordered[card][version] = std::min(stated[card][version], cards[card].sized->versions[version].cards);
      if (stated[card][version] > 0) ++versions;
    }
  }
  if (versions < 2 || ordered == stated) {
    return MostSearch(cards, more, options, none, stated, until).run(beyond);
  }
  // No card that is asked for is given up for a spare.
  auto without = MostSearch(cards, more, options, none, ordered, until).run(false);
  if (!without || without->counts != ordered) return without;
  return MostSearch(cards, more, options, ordered, stated, until).run(false);
}

}  // namespace evenmat::batch
