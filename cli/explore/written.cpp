#include "cli/explore/written.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>

#include "model/change_file.h"
#include "model/read_card.h"
#include "model/set_key.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

std::string difference_of_versions(const SizedVersion& one, const SizedVersion& other) {
  if (one.cut_back != other.cut_back) return "the cut-back";
  if (one.pieces.size() != other.pieces.size()) return "the layers";
  for (std::size_t i = 0; i < one.pieces.size(); ++i) {
    const PlacedPiece& a = one.pieces[i];
    const PlacedPiece& b = other.pieces[i];
    const std::string& name = a.piece->name.value;
    if (name != b.piece->name.value) return "the layers";
    if (a.width != b.width || a.height != b.height) return "the size of " + name;
    if (a.face != b.face || a.left != b.left || a.top != b.top || a.copies != b.copies)
      return "the place of " + name;
  }
  return {};
}

}  // namespace

std::optional<std::string> with_amounts(std::string_view text, const std::vector<OpenAmount>& open,
                                        const std::vector<Rational>& amounts, Unit unit) {
  std::vector<std::size_t> stated;
  for (std::size_t i = 0; i < open.size(); ++i) {
    if (open[i].spot.line > 0) stated.push_back(i);
  }
  // What comes after a changed value may move: the last in the file is changed first.
  std::sort(stated.begin(), stated.end(),
            [&](std::size_t a, std::size_t b) { return open[a].spot > open[b].spot; });
  std::string written(text);
  for (const std::size_t i : stated) {
    std::optional<std::string> next =
        with_value(written, open[i].spot, amount_text(open[i], amounts[i], unit));
    if (!next) return std::nullopt;
    written = std::move(*next);
  }
  for (std::size_t i = 0; i < open.size(); ++i) {
    if (open[i].spot.line > 0) continue;
    const std::string key = open[i].part.empty() ? open[i].key : open[i].key + "." + open[i].part;
    std::optional<std::string> next =
        with_key(written, {open[i].name, key, amount_text(open[i], amounts[i], unit)});
    if (!next) return std::nullopt;
    written = std::move(*next);
  }
  return written;
}

std::string difference_of(const SizedCard& one, const SizedCard& other) {
  if (one.versions.size() != other.versions.size()) return "the variants";
  for (std::size_t i = 0; i < one.versions.size(); ++i) {
    std::string difference = difference_of_versions(one.versions[i], other.versions[i]);
    if (difference.empty()) continue;
    const std::string& name = one.versions[i].name;
    return name.empty() ? difference : fmt::format("{} in \"{}\"", difference, name);
  }
  return {};
}

WriteOutcome write_card(const NewFile& file, std::string_view text, const std::vector<OpenAmount>& open,
                        const Alternative& alternative, Unit unit, double limit) {
  const auto refused = [](std::string why) { return WriteOutcome{Status::limit_reached, std::move(why)}; };
  const std::optional<std::string> written = with_amounts(text, open, alternative.amounts, unit);
  if (!written) return refused("The amounts of this card cannot be written into the file.");
  const CardReading reading = read_card(*written);
  if (!reading.card) {
    return refused(fmt::format("With the amounts of this card the file would have a mistake in line {}: {}",
                               reading.mistakes.front().spot.line, reading.mistakes.front().says));
  }
  if (const std::optional<Remark> remark = refusal(*reading.card)) return refused(remark->says);
  const SizedCard sized = size_card(*reading.card, {.limit = limit, .seed = 0, .ranges = false});
  if (sized.verdict == Verdict::undecided) {
    return refused("The limit was reached before it was sure that the file comes to this card.");
  }
  if (sized.verdict == Verdict::conflict)
    return refused("With its amounts stated in the file the card could not be built.");
  const std::string difference = difference_of(sized, alternative.sized);
  if (!difference.empty()) {
    return refused(
        fmt::format("Written as a card file this would come to another card ({} would differ).", difference));
  }
  std::string trouble = write_new_file(file, *written);
  if (!trouble.empty()) return {Status::bad_input, std::move(trouble)};
  return {};
}

}  // namespace evenmat
