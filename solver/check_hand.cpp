// From a card to what an unsteady hand does to it, and to what would be safe.
#include "solver/check_hand.h"

#include <algorithm>
#include <utility>

#include "solver/quotas.h"
#include "solver/search/choose.h"
#include "solver/why/evenness.h"
#include "solver/why/explain.h"
#include "solver/why/hand_errors.h"
#include "solver/why/inside.h"
#include "solver/why/room_for_hand.h"
#include "solver/why/slips.h"

namespace evenmat {
namespace {

class HandChecker {
 public:
  HandChecker(const Card& card, std::string_view text, const Rational& error, const CheckOptions& options)
      : card_(card),
        text_(text),
        error_(error),
        options_(options),
        prover_(options.limit, options.seed),
        sized_by_(rules_of(card)),
        rules_(with_all_inside(sized_by_, card)) {}

  HandCheck run() {
    at_work("finding the sizes");
    const Choosing sized = sized_within_quotas();
    if (sized.outcome != Outcome::found) {
      check_.verdict = sized.outcome == Outcome::impossible ? Verdict::conflict : Verdict::undecided;
      return std::move(check_);
    }
    try {
      const HandErrors errors(card_, rules_);
      check_.slips = slips_of(card_, rules_, sized.values, errors, error_, prover_);
      check_.borders = evenness_of(card_, rules_, sized.values, errors, error_);
    } catch (const OutOfTime&) {
      HandCheck undecided;
      undecided.verdict = Verdict::undecided;
      return undecided;
    }
    find_safe(sized.values);
    return std::move(check_);
  }

 private:
  // What a hand does to shares that are to be seen, and to weight, is not looked at.
  Choosing sized_within_quotas() {
    try {
      return choose(with_quotas(card_, sized_by_, prover_), prover_);
    } catch (const OutOfTime&) {
      return {Outcome::out_of_time, {}, {}};
    }
  }

  void at_work(std::string_view what) const {
    if (options_.at_work) options_.at_work(what);
  }

  void find_safe(const std::vector<Rational>& values) {
    // A card that the hand cannot spoil is the best of the safe ones too: those are among all that hold.
    if (check_.slips.empty()) {
      check_.safe.emplace();
      return;
    }
    at_work("looking for sizes that the hand cannot spoil");
    const Choosing safe = choose(tightened(rules_, card_, error_), prover_);
    if (safe.outcome == Outcome::found) {
      check_.safe.emplace();
      compare(values, safe.values);
    } else if (safe.outcome == Outcome::impossible) {
      explain_why_none();
    } else {
      check_.safe_known = false;
    }
  }

  void explain_why_none() {
    CheckOptions quiet = options_;
    quiet.found = {};  // these are no conflicts of the card
    const auto write = [&](const Card& card) {
      return tightened(with_all_inside(rules_of(card), card), card, error_);
    };
    try {
      Explanation explanation = explain(card_, text_, write, prover_, quiet);
      check_.in_the_way = std::move(explanation.conflicts);
      check_.all_in_the_way = explanation.all_conflicts;
      check_.mend = std::move(explanation.mend);
      check_.mend_known = explanation.mend_known;
    } catch (const OutOfTime&) {
      check_.safe_known = false;
    }
  }

  void compare(const std::vector<Rational>& now, const std::vector<Rational>& safe) {
    std::vector<bool> resized(rules_.rectangles.size(), false);
    for (std::size_t i = 0; i < resized.size(); ++i) {
      const Variable width = variable(i, Measure::width);
      const Variable height = variable(i, Measure::height);
      resized[i] = now[width] != safe[width] || now[height] != safe[height];
    }
    // The same in a variant is told once.
    for (std::size_t i = 0; i < resized.size(); ++i) {
      const Rectangle& it = rules_.rectangles[i];
      const std::string version = it.version == 0 ? "" : card_.variants[it.version - 1].name.value;
      const bool piece = it.kind == Rectangle::Kind::layer || it.kind == Rectangle::Kind::window;
      const bool reveal = it.kind == Rectangle::Kind::face && it.name == "reveal";
      if ((piece || reveal) && resized[i]) {
        const SafeSize size{it.name, safe[variable(i, Measure::width)], safe[variable(i, Measure::height)],
                            version};
        const bool told = std::any_of(check_.safe->begin(), check_.safe->end(), [&](const SafeSize& other) {
          return other.layer == size.layer && other.width == size.width && other.height == size.height;
        });
        if (!told) check_.safe->push_back(size);
      } else if (piece && !resized[*it.on]) {
        const auto from = [&](const std::vector<Rational>& values, Measure measure) -> Rational {
          return values[variable(i, measure)] - values[variable(*it.on, measure)];
        };
        const Rational left = from(safe, Measure::left);
        const Rational top = from(safe, Measure::top);
        if (left == from(now, Measure::left) && top == from(now, Measure::top)) continue;
        const bool told =
            std::any_of(check_.safe_places.begin(), check_.safe_places.end(), [&](const SafePlace& other) {
              return other.layer == it.name && other.from_left == left && other.from_top == top;
            });
        if (!told) check_.safe_places.push_back({it.name, left, top, version});
      }
    }
  }

  const Card& card_;
  std::string_view text_;
  const Rational& error_;
  const CheckOptions& options_;
  Prover prover_;   // its time runs from here
  Rules sized_by_;  // the card's own
  Rules rules_;     // and that all stays inside
  HandCheck check_;
};

}  // namespace

HandCheck check_hand(const Card& card, std::string_view text, const Rational& error,
                     const CheckOptions& options) {
  return HandChecker(card, text, error, options).run();
}

}  // namespace evenmat
