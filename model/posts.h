// What posts take as a letter: published limits, each with its source and date. No prices; how a card
// measures up is judged in solver/.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/length.h"
#include "model/rational.h"

namespace evenmat {

// From least to most, both allowed; an absent one is no limit.
struct Between {
  std::optional<Rational> least, most;
};

// Limits of one format of a post ("small letter"). The longer side of the envelope is its length.
struct PostRules {
  std::string name;              // as a card file calls the post: "upu", "usps", ...
  std::string format;            // as the post calls what the limits are of
  std::string source;            // the document, and where in it
  std::string date;              // of the document: "2024", "2025-07-13"
  Unit unit = Unit::millimetre;  // of the lengths below
  Between length, height, thickness;
  std::optional<Rational> grams;  // at most
  // Length to height, of the envelope. Outside it `by_hand` applies; where that is empty, it is not taken.
  Between ratio;
  // Of a letter longer or higher than these: less than so much thickness is `by_hand` too.
  struct Thin {
    Rational length, height, thickness;
  };
  std::optional<Thin> thin;
  // What is said of letters that a machine cannot take (outside `ratio`, thin, lumpy): a sentence, or empty
  // when the post's rules have no such thing.
  std::string by_hand;
};

const std::vector<PostRules>& posts();

// The post of that name in any letter case. `trouble` says what is wrong, with the nearest name.
struct PostReading {
  const PostRules* post = nullptr;
  std::string trouble;
};
PostReading read_post(std::string_view text);

}  // namespace evenmat
