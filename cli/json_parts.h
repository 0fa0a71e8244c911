// What all answers in JSON are made of: lengths, remarks with their place, the head of a card, the text.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "model/card.h"
#include "model/spot.h"
#include "solver/size_card.h"

namespace evenmat {

using Json = nlohmann::ordered_json;

// An exact fraction in lowest terms.
Json length_json(const Rational& value);

// A sentence, with its place if it has one.
Json remark_json(const std::string& says, const Spot& spot);

// `verdict`, `unit`, `title` if it has one, `mark`.
Json head_json(const Card& card, Verdict verdict);

// Ends with a line end. Bytes that are not UTF-8 are replaced.
std::string text_of(const Json& json);

}  // namespace evenmat
