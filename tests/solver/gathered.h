// What tests of gathering share: sizing the cards of a batch from their texts, and looking into what their
// papers have to give.
#pragma once

#include <algorithm>
#include <deque>
#include <string>
#include <utility>
#include <vector>

#include "solver/batch/gather.h"
#include "tests/solver/sized.h"

namespace evenmat::testing {

struct Batch {
  explicit Batch(const std::vector<std::string>& texts) {
    static const std::vector<std::string> files{"first.toml", "second.toml", "third.toml"};
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const SizedText& one = sized.emplace_back(texts[i]);
      INFO(texts[i]);
      REQUIRE(one.sized.verdict == Verdict::buildable);
      cards.push_back({files.at(i), &one.card, &one.sized});
    }
    counts = batch::stated_counts(cards);
  }
  explicit Batch(const std::string& text) : Batch(std::vector<std::string>{text}) {}
  Batch(const Batch&) = delete;
  Batch& operator=(const Batch&) = delete;

  // Paper left over, in a file of its own.
  Batch& also(const std::string& file, const std::string& papers) {
    const Card card = card_of(side_fold + papers);
    more.push_back({file, card.unit, card.papers});
    return *this;
  }
  Batch& along_the_grain() {
    options.grain_along_fold = true;
    return *this;
  }

  [[nodiscard]] std::vector<batch::PaperNeeds> needs() const {
    return batch::gather(cards, more, options, counts);
  }
  [[nodiscard]] batch::PaperNeeds needs(const std::string& paper) const {
    for (batch::PaperNeeds& one : needs()) {
      if (one.paper == paper) return std::move(one);
    }
    FAIL("nothing is cut from " << paper);
    return {};
  }
  [[nodiscard]] std::vector<BatchMistake> mistakes() const { return mistakes_in_batch(cards, more, options); }

  std::deque<SizedText> sized;
  std::vector<BatchCard> cards;
  std::vector<MorePaper> more;
  CutOptions options;
  batch::Counts counts;
};

inline std::string paper(const std::string& name, const std::string& keys) {
  return "[[paper]]\nname = \"" + name + "\"\n" + keys;
}

// "12 of 3 x 4" where it may lie either way; "12 of 3 x 4, as it stands" where it may not.
inline std::string told(const CutPiece& piece) {
  std::string text = std::to_string(piece.count) + " of " + fraction_text(piece.size.width) + " x " +
                     fraction_text(piece.size.height);
  if (!piece.upright) text += ", never so";
  if (!piece.turned) text += ", as it stands";
  return text;
}
inline std::vector<std::string> told(const std::vector<CutPiece>& pieces) {
  std::vector<std::string> all;
  for (const CutPiece& piece : pieces) all.push_back(told(piece));
  return all;
}

// "4 of 17/2 x 11"; without a number where there is no end of them.
inline std::string told(const CutSheet& sheet) {
  return (sheet.have ? std::to_string(*sheet.have) + " of " : "") + fraction_text(sheet.size.width) + " x " +
         fraction_text(sheet.size.height);
}
// Those that come off the work with what they come of: "12 of 1 x 11/2, of front".
inline std::vector<std::string> offcuts_of(const batch::PaperNeeds& needs) {
  std::vector<std::string> all;
  for (const CutSheet& sheet : needs.stock) {
    if (sheet.is_offcut()) all.push_back(told(sheet) + ", of " + sheet.comes_of);
  }
  return all;
}
inline std::vector<std::string> sheets_of(const batch::PaperNeeds& needs) {
  std::vector<std::string> all;
  for (const CutSheet& sheet : needs.stock) {
    if (!sheet.is_offcut()) all.push_back(told(sheet));
  }
  return all;
}

using Told = std::vector<std::string>;

}  // namespace evenmat::testing
