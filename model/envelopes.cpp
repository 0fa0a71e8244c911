#include "model/envelopes.h"

#include <array>
#include <utility>

#include "model/size_text.h"
#include "model/words.h"

namespace evenmat {
namespace {

// The standard itself could not be read: the figures are those that public listings of it repeat alike, among
// them that of GOST R 51506-99, which is built on it.
constexpr const char* iso_269 = "ISO 269:1985, table of designations and sizes (read in listings of it)";
constexpr const char* din_476 = "DIN 476-2:1991, C series (read in a listing of it)";

struct IsoEnvelope {
  const char* name;
  int width, height;  // mm
  const char* source;
};

constexpr std::array<IsoEnvelope, 12> iso_envelopes{{
    {"iso C7", 81, 114, din_476},
    {"iso C7/C6", 81, 162, iso_269},
    {"iso C6", 114, 162, iso_269},
    {"iso B6", 125, 176, iso_269},
    {"iso DL", 110, 220, iso_269},
    {"iso C6/C5", 114, 229, iso_269},
    {"iso C5", 162, 229, iso_269},
    {"iso B5", 176, 250, iso_269},
    {"iso C4", 229, 324, iso_269},
    {"iso B4", 250, 353, iso_269},
    {"iso E4", 280, 400, iso_269},
    {"iso C3", 324, 458, iso_269},
}};

// Announcement, square and commercial envelopes of the US trade, of which no standard is known: common
// practice, no source. A square one has the name of its own measure, not of the card that goes in.
constexpr const char* trade = "common practice of the US trade";

struct UsEnvelope {
  const char* name;
  int width, height;  // eighths of an inch
};

constexpr std::array<UsEnvelope, 15> us_envelopes{{
    {"us A1", 29, 41},
    {"us square 5", 40, 40},
    {"us A2", 35, 46},
    {"us square 5 1/2", 44, 44},
    {"us A6", 38, 52},
    {"us slimline", 31, 71},
    {"us square 6", 48, 48},
    {"us A7", 42, 58},
    {"us no. 10", 33, 76},
    {"us square 6 1/2", 52, 52},
    {"us A8", 44, 65},
    {"us square 7", 56, 56},
    {"us A9", 46, 70},
    {"us square 7 1/2", 60, 60},
    {"us A10", 48, 76},
}};

std::vector<Envelope> all_envelopes() {
  std::vector<Envelope> all;
  all.reserve(iso_envelopes.size() + us_envelopes.size());
  for (const IsoEnvelope& iso : iso_envelopes)
    all.push_back({iso.name, iso.source, Unit::millimetre, {Rational(iso.width), Rational(iso.height)}});
  for (const UsEnvelope& us : us_envelopes)
    all.push_back({us.name, trade, Unit::inch, {Rational(us.width) / 8, Rational(us.height) / 8}});
  return all;
}

EnvelopeReading refused(std::string trouble) { return {std::nullopt, std::move(trouble)}; }

EnvelopeReading named(std::string_view text) {
  const std::string name = plain_name(text);
  std::vector<std::string> all, alike;
  for (const Envelope& envelope : envelopes()) {
    const std::string known = plain_name(envelope.name);
    if (known == name) return {envelope, {}};
    if (known.ends_with(" " + name)) alike.push_back(envelope.name);
    all.push_back(envelope.name);
  }
  if (!alike.empty())
    return refused(in_quotes(text) + " does not say whose envelope it is. Write " + either(alike) + ".");
  return refused(in_quotes(text) + " is not an envelope that has a name here." + offer(name, all) +
                 " Or write the envelope's own width x height.");
}

bool begins_with_letter(std::string_view text) {
  const char first = text.empty() ? ' ' : small_letters(text.substr(0, 1)).front();
  return first >= 'a' && first <= 'z';
}

}  // namespace

const std::vector<Envelope>& envelopes() {
  static const std::vector<Envelope> all = all_envelopes();
  return all;
}

EnvelopeReading read_envelope(std::string_view text, Unit unit) {
  const std::string_view bare = trimmed(text);
  if (bare.empty()) return refused("An envelope needs a name, such as \"us A2\", or a width x height.");
  if (begins_with_letter(bare)) return named(bare);
  const SizeReading reading = read_size(bare, unit);
  if (!reading.size) return refused(reading.trouble);
  Size size = *reading.size;
  if (size.width > size.height) std::swap(size.width, size.height);
  if (size.width <= 0) return refused(in_quotes(bare) + " is no envelope: each side needs some length.");
  return {Envelope{std::string(bare), "your own size", unit, std::move(size)}, {}};
}

}  // namespace evenmat
