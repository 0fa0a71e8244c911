// Envelopes that have a name, each with where its measure comes from. Whether a card goes in is not here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/length.h"

namespace evenmat {

struct Envelope {
  std::string name;    // says whose it is: "us A2", "iso C6"
  std::string source;  // "ISO 269:1985, table ...", or "common practice"
  Unit unit;           // in which it is published; `size` is in it
  Size size;           // laid flat; the shorter side is the width
};

// From the smallest area to the largest, of each system in turn.
const std::vector<Envelope>& envelopes();

// An envelope by its name, in any letter case ("us A2", "iso DL"), or by a size of the maker's own
// ("4 3/8 x 5 3/4", in `unit` unless it says so). `trouble` says in a maker's words what is wrong, with the
// nearest name.
struct EnvelopeReading {
  std::optional<Envelope> envelope;
  std::string trouble;
};
EnvelopeReading read_envelope(std::string_view text, Unit unit);

}  // namespace evenmat
