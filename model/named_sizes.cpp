#include "model/named_sizes.h"

#include <array>

namespace evenmat {
namespace {

struct IsoSize {
  const char* name;
  int width, height;  // mm
};

// ISO 216:2007, main series A and additional series B, trimmed sizes as its tables list them.
constexpr std::array<IsoSize, 22> iso_216{
    {{"iso A0", 841, 1189}, {"iso A1", 594, 841}, {"iso A2", 420, 594}, {"iso A3", 297, 420},
     {"iso A4", 210, 297},  {"iso A5", 148, 210}, {"iso A6", 105, 148}, {"iso A7", 74, 105},
     {"iso A8", 52, 74},    {"iso A9", 37, 52},   {"iso A10", 26, 37},  {"iso B0", 1000, 1414},
     {"iso B1", 707, 1000}, {"iso B2", 500, 707}, {"iso B3", 353, 500}, {"iso B4", 250, 353},
     {"iso B5", 176, 250},  {"iso B6", 125, 176}, {"iso B7", 88, 125},  {"iso B8", 62, 88},
     {"iso B9", 44, 62},    {"iso B10", 31, 44}}};

struct UsSize {
  const char* name;
  int width, height;  // eighths of an inch
};

constexpr std::array<UsSize, 15> us_sizes{{
    // ANSI/ASME Y14.1 drawing sheets A (8 1/2 x 11) and B (11 x 17), from memory of the standard; "ledger"
    // and "tabloid" are office names of sheet B.
    {"us letter", 68, 88},
    {"us tabloid", 88, 136},
    {"us ledger", 88, 136},
    // Common practice of offices, no source.
    {"us legal", 68, 112},
    {"us half letter", 44, 68},
    // Common practice of the card trade, no source.
    {"us A1", 28, 39},
    {"us A2", 34, 44},
    {"us A6", 36, 50},
    {"us A7", 40, 56},
    {"us slimline", 28, 68},
    {"us square 4", 32, 32},
    {"us square 5", 40, 40},
    {"us square 5 1/2", 44, 44},
    {"us square 6", 48, 48},
    {"us square 7", 56, 56},
}};

std::vector<NamedSize> all_sizes() {
  std::vector<NamedSize> all;
  all.reserve(iso_216.size());
  for (const IsoSize& iso : iso_216)
    all.push_back({iso.name, Unit::millimetre, {Rational(iso.width), Rational(iso.height)}});
  for (const UsSize& us : us_sizes)
    all.push_back({us.name, Unit::inch, {Rational(us.width) / 8, Rational(us.height) / 8}});
  return all;
}

}  // namespace

const std::vector<NamedSize>& named_sizes() {
  static const std::vector<NamedSize> all = all_sizes();
  return all;
}

}  // namespace evenmat
