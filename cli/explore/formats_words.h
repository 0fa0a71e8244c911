// What is told of a design on one base, in words and figures: whether it can be built there and in a line why
// not, and the envelope it goes in.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cli/explore/formats.h"

namespace evenmat {

// "buildable", "conflict", "undecided"; "invalid" where the card file holds mistakes with this base.
std::string_view verdict_word(const TriedFormat& tried);

// The plain card as sized, where the design can be built; else nothing.
const SizedVersion* built(const TriedFormat& tried);

// Why it cannot be built, or is not known to be: the first conflict's rules, how far they are from holding,
// and the smallest change that mends it. Empty where it can.
std::string why_not(const TriedFormat& tried);

// The first conflict, if one was found.
const Conflict* first_conflict(const TriedFormat& tried);

// The smallest standard envelope that takes the plain card, whichever was asked for; empty where none is
// known.
std::string smallest_envelope(const TriedFormat& tried);

}  // namespace evenmat
