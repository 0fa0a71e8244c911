#include "model/change_file.h"

#include <algorithm>
#include <cstddef>

#include "model/reading/document.h"
#include "model/reading/toml_text.h"

namespace evenmat {
namespace {

using reading::Value;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// The text or number that begins at `spot`, within the value or the value itself. Nests no deeper than the
// reading of documents allows.
const Value* value_at(const Value& value, Spot spot) {  // NOLINT(misc-no-recursion)
  if (value.kind == Value::Kind::text || value.kind == Value::Kind::number)
    return value.spot == spot ? &value : nullptr;
  for (const Value& item : value.items)
    if (const Value* found = value_at(item, spot)) return found;
  for (const reading::Entry& entry : value.entries)
    if (const Value* found = value_at(entry.value, spot)) return found;
  return nullptr;
}

// A number that TOML reads as one: digits, with a sign or decimals where they are wanted.
bool is_bare_number(std::string_view text) {
  constexpr std::size_t most_digits = 18;  // of a whole number in 64 bits
  if (text.starts_with("-")) text.remove_prefix(1);
  const std::size_t point = std::min(text.find('.'), text.size());
  const std::string_view whole = text.substr(0, point);
  const std::string_view places = text.substr(std::min(point + 1, text.size()));
  const auto all_digits = [](std::string_view part) {
    return !part.empty() && std::all_of(part.begin(), part.end(), is_digit);
  };
  if (!all_digits(whole) || (whole.size() > 1 && whole.front() == '0')) return false;
  if (whole.size() + places.size() > most_digits) return false;
  return point == text.size() || all_digits(places);
}

}  // namespace

std::optional<std::string> with_value(std::string_view file, Spot spot, std::string_view value) {
  const std::size_t mark = file.starts_with(reading::byte_order_mark) ? reading::byte_order_mark.size() : 0;
  const std::string_view text = file.substr(mark);
  const reading::DocumentReading document = reading::read_document(text);
  if (!document.root) return std::nullopt;
  const Value* old = value_at(*document.root, spot);
  if (old == nullptr) return std::nullopt;
  const std::size_t begin = reading::byte_of(text, spot);
  const std::string_view token = text.substr(begin, reading::value_end(text, begin) - begin);
  const bool number = old->kind == Value::Kind::number;
  std::string result(file);
  result.replace(mark + begin, token.size(),
                 number && is_bare_number(value) ? std::string(value) : reading::quoted(value, token));
  return result;
}

}  // namespace evenmat
