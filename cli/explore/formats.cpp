#include "cli/explore/formats.h"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <utility>

#include "cli/excerpt.h"
#include "cli/json_answer.h"
#include "model/read_card.h"
#include "model/set_key.h"
#include "model/size_text.h"
#include "model/words.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t most_formats = 100;

// A base, or why the words are none.
struct OneFormat {
  Format format;
  std::string trouble;
};

std::string_view unit_words(Unit unit) { return unit == Unit::inch ? "inches" : "millimetres"; }

// Whether one side names another unit than the file's, and the other none.
bool names_one_unit(std::string_view words, Unit unit) {
  const Unit other = unit == Unit::inch ? Unit::millimetre : Unit::inch;
  const SizeReading here = read_size(words, unit);
  const SizeReading there = read_size(words, other);
  if (!here.size || !there.size) return false;
  const bool width = here.size->width == convert(there.size->width, other, unit);
  const bool height = here.size->height == convert(there.size->height, other, unit);
  if (width == height) return false;
  // In the file's own unit it makes no difference.
  const bool in_metric =
      words.find("mm") != std::string_view::npos || words.find("cm") != std::string_view::npos;
  return in_metric == (unit == Unit::inch);
}

OneFormat read_format(std::string_view words, Unit unit) {
  OneFormat one{{std::string(words), {}}, {}};
  if (words.empty()) {
    one.trouble = "A size is missing here. Write sizes with commas between them: us A2, us A7.";
    return one;
  }
  SizeReading reading = read_size(words, unit);
  if (!reading.size) {
    one.trouble = std::move(reading.trouble);
  } else if (reading.size->width <= 0 || reading.size->height <= 0) {
    one.trouble = in_quotes(words) + " has a side of 0 or less. Write a larger one.";
  } else if (names_one_unit(words, unit)) {
    one.trouble = in_quotes(words) + " names a unit for one of its sides, and the other would be read in " +
                  std::string(unit_words(unit)) + ". Name it for both, as in 105 mm x 148 mm.";
  } else {
    one.format.size = std::move(*reading.size);
  }
  return one;
}

TriedFormat tried(std::string_view file, const Format& format, double limit,
                  const std::function<void(std::string_view)>& at_work) {
  TriedFormat result;
  result.format = format;
  auto text = with_key(file, {"base", "front", format.text});
  if (!text) {
    result.mistakes = {{{}, "In this card file the front of the base cannot be stated otherwise."}};
    return result;
  }
  result.text = std::move(*text);
  CardReading reading = read_card(result.text);
  if (reading.card) {
    if (auto remark = refusal(*reading.card)) reading = {std::nullopt, {std::move(*remark)}};
  }
  if (!reading.card) {
    result.mistakes = std::move(reading.mistakes);
    return result;
  }
  result.card = std::make_unique<const Card>(std::move(*reading.card));
  CheckOptions options;
  options.limit = limit;
  options.most_conflicts = 1;
  if (at_work)
    options.at_work = [&](std::string_view what) { at_work(format.text + ": " + std::string(what)); };
  result.checked = check_card(*result.card, result.text, options);
  return result;
}

}  // namespace

FormatReading read_formats(std::string_view list, Unit unit, bool json, const Style& err) {
  FormatReading reading;
  const auto refuse = [&](std::size_t at, const std::string& says) {
    const Remark mistake{{1, static_cast<int>(characters(list.substr(0, at))) + 1}, says};
    reading.formats.clear();
    reading.refused = {Status::bad_input, json ? json_mistakes({mistake}) : "",
                       excerpt({"", list}, mistake, err)};
    return reading;
  };
  for (std::size_t from = 0; from <= list.size();) {
    const std::size_t comma = std::min(list.find(',', from), list.size());
    const std::string_view words = trimmed(list.substr(from, comma - from));
    const std::size_t at = words.empty() ? from : static_cast<std::size_t>(words.data() - list.data());
    OneFormat one = read_format(words, unit);
    if (!one.trouble.empty()) return refuse(at, one.trouble);
    if (reading.formats.size() == most_formats)
      return refuse(at, "So many sizes are not tried at once: " + std::to_string(most_formats) + " at most.");
    reading.formats.push_back(std::move(one.format));
    from = comma + 1;
  }
  return reading;
}

std::vector<TriedFormat> try_formats(std::string_view file, const std::vector<Format>& formats,
                                     const FormatOptions& options) {
  const Clock::time_point began = Clock::now();
  std::vector<TriedFormat> all;
  for (std::size_t i = 0; i < formats.size(); ++i) {
    const std::chrono::duration<double> gone = Clock::now() - began;
    // What is left, in even parts.
    const double share = (options.limit - gone.count()) / static_cast<double>(formats.size() - i);
    all.push_back(tried(file, formats[i], std::max(share, 0.001), options.at_work));
  }
  return all;
}

Status status_of(const std::vector<TriedFormat>& tried) {
  const auto has = [&](Verdict verdict) {
    return std::any_of(tried.begin(), tried.end(), [&](const TriedFormat& one) {
      return one.checked && one.checked->verdict == verdict;
    });
  };
  if (has(Verdict::undecided)) return Status::limit_reached;
  return has(Verdict::buildable) ? Status::done : Status::cannot_be_built;
}

}  // namespace evenmat
