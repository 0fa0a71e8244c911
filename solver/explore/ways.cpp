#include "solver/explore/ways.h"

#include "model/faces.h"
#include "model/words.h"
#include "solver/answer/version.h"

namespace evenmat::exploring {
namespace {

constexpr std::string_view joint = "or";

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

// Where the word stands by itself. In a name it may, too: what is cut there then does not read.
std::vector<std::size_t> joints(std::string_view text) {
  std::vector<std::size_t> found;
  for (std::size_t at = text.find(joint); at != std::string_view::npos; at = text.find(joint, at + 1)) {
    const std::size_t end = at + joint.size();
    if (at > 0 && is_blank(text[at - 1]) && end < text.size() && is_blank(text[end])) found.push_back(at);
  }
  return found;
}

}  // namespace

std::vector<std::string> ways_of(const Card& card, std::size_t version, const Statement& statement) {
  const Design& design = design_of(card, version);
  std::vector<std::string> names = face_names(design.base);
  for (const Piece& piece : design.pieces) names.push_back(piece.name.value);
  const std::string_view text = statement.text;
  std::vector<std::string> ways;
  std::size_t begin = 0;
  const auto take = [&](std::size_t end) {
    const std::string_view part = trimmed(text.substr(begin, end - begin));
    const StatementReading reading = read_statement(part, names, card.unit, statement.spot);
    if (!reading.statement || reading.statement->choices.size() != 1) return false;
    ways.emplace_back(part);
    return true;
  };
  for (const std::size_t at : joints(text)) {
    if (take(at)) begin = at + joint.size();
  }
  if (!take(text.size()) || ways.size() != statement.choices.size()) return {};
  return ways;
}

}  // namespace evenmat::exploring
