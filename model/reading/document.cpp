#include "model/reading/document.h"

#include <algorithm>
#include <cstdint>
#include <utility>

#include "model/reading/plain_text.h"
#include "model/words.h"

// The whole TOML reader is compiled here, with results in place of exceptions; the form in which a
// system ships it may be built otherwise.
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#undef TOML_EXCEPTIONS
#define TOML_HEADER_ONLY 1
#define TOML_SHARED_LIB 0
#define TOML_EXCEPTIONS 0
#define TOML_ENABLE_FORMATTERS 0
// Releases (3.3 and 3.4 at least) assert what a spoilt file need not keep ("[[["), and where asserts are off
// promise it to the compiler. Each such place goes on to a proper error, so it is neither asserted nor
// promised here.
#undef NDEBUG
#define TOML_ASSERT(condition) static_cast<void>(0)
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#endif
#include <toml++/toml.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

namespace evenmat::reading {
namespace {

Spot spot_of(const toml::source_position& at) {
  return {static_cast<int>(at.line), static_cast<int>(at.column)};
}

// Where the characters of the text begin, by line and column.
class Places {
 public:
  explicit Places(std::string_view text) : text_(text) {
    lines_.push_back(0);
    for (std::size_t i = 0; i < text.size(); ++i) {
      if ((static_cast<unsigned char>(text[i]) & 0xC0U) == 0x80U) continue;
      starts_.push_back(static_cast<std::uint32_t>(i));
      if (text[i] == '\n') lines_.push_back(starts_.size());
    }
  }

  [[nodiscard]] std::string_view from(Spot spot) const {
    const auto line = static_cast<std::size_t>(spot.line);
    if (line < 1 || line > lines_.size() || spot.column < 1) return {};
    const std::size_t index = lines_[line - 1] + static_cast<std::size_t>(spot.column) - 1;
    return index < starts_.size() ? text_.substr(starts_[index]) : std::string_view();
  }

  [[nodiscard]] std::string_view line(int number) const {
    const std::string_view rest = from({number, 1});
    return rest.substr(0, rest.find_first_of("\r\n"));
  }

 private:
  std::string_view text_;
  std::vector<std::uint32_t> starts_;
  std::vector<std::size_t> lines_;  // the index in starts_ of each line's first character
};

bool is_number_character(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '.' ||
         c == '+' || c == '-';
}

std::string_view number_at(std::string_view text) {
  std::size_t size = 0;
  while (size < text.size() && is_number_character(text[size])) ++size;
  return text.substr(0, size);
}

class Converter {
 public:
  explicit Converter(const Places& places) : places_(places) {}

  [[nodiscard]] Value convert(const toml::node& node) const {
    Value value;
    value.spot = spot_of(node.source().begin);
    if (const toml::table* table = node.as_table()) {
      value.kind = Value::Kind::table;
      value.braces = table->is_inline();
      for (auto&& [key, child] : *table)
        value.entries.push_back({std::string(key.str()), spot_of(key.source().begin), convert(child)});
      std::stable_sort(value.entries.begin(), value.entries.end(),
                       [](const Entry& a, const Entry& b) { return a.spot < b.spot; });
    } else if (const toml::array* array = node.as_array()) {
      value.kind = Value::Kind::list;
      for (const toml::node& item : *array) value.items.push_back(convert(item));
    } else if (const auto* text = node.as_string()) {
      value.kind = Value::Kind::text;
      value.text = text->get();
    } else if (const auto* truth = node.as_boolean()) {
      value.kind = Value::Kind::truth;
      value.truth = truth->get();
    } else if (node.is_number()) {
      value.kind = Value::Kind::number;
      value.text = std::string(number_at(places_.from(value.spot)));
    } else {
      value.kind = Value::Kind::moment;
    }
    return value;
  }

 private:
  const Places& places_;
};

std::string_view without_comment(std::string_view text) { return trimmed(text.substr(0, text.find('#'))); }

bool is_bare_value(std::string_view text) {
  if (text.empty()) return false;
  if (std::string_view("\"'[{").find(text.front()) != std::string_view::npos) return false;
  return text != "true" && text != "false";
}

// What a maker most often did where a line is not TOML; the reader's own words where it is none of that.
Remark describe(std::string_view line, Spot spot, std::string_view reader_says) {
  const auto reader_tells = [&](std::string_view words) {
    return reader_says.find(words) != std::string_view::npos;
  };
  const auto column = [&](std::string_view part) {
    const auto before = static_cast<std::size_t>(part.data() - line.data());
    return Spot{spot.line, static_cast<int>(characters(line.substr(0, before))) + 1};
  };
  const std::size_t sign = line.find('=');
  const std::string_view key = without_comment(line.substr(0, sign));
  const std::string_view value =
      sign == std::string_view::npos ? std::string_view() : without_comment(line.substr(sign + 1));
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  if (reader_tells("redefine") && !key.empty())
    return {column(key), in_quotes(key) + " is stated twice. Keep one of them."};
  if (is_bare_value(value)) {
    const std::string_view number = number_at(value);
    if (number.size() == value.size() && std::count_if(number.begin(), number.end(), digit) > 18) {
      return {column(value),
              "The number " + in_quotes(number.substr(0, 12)) +
                  " goes on for too many digits. Write it with 18 at most, or up to 30 between quotes."};
    }
    return {column(value), in_quotes(value) + " needs quotes around it. Write " +
                               std::string(key.substr(0, 60)) + " = " + in_quotes(value) + "."};
  }
  if (key.starts_with("[") && key.find(']') == std::string_view::npos)
    return {column(key), "The bracket of this heading is not closed. Write it like [base] or [[layer]]."};
  if (std::count(line.begin(), line.end(), '"') % 2 == 1) {
    return {
        spot,
        "A quotation mark here has no partner. Close the text with \", and write in for inches inside it."};
  }
  if (reader_tells("control character")) {
    return {spot, "There is a character here that cannot be seen. Take it out and type the text again."};
  }
  if (reader_tells("end-of-file"))
    return {spot, "The file ends before this is finished. Close the bracket or quotation mark that is open."};
  std::string says(reader_says.substr(0, 200));
  const std::size_t colon = says.find(": ");
  if (says.starts_with("Error while parsing") && colon != std::string::npos) says.erase(0, colon + 2);
  std::replace_if(
      says.begin(), says.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return {spot, "This is not written as TOML: " + says + ". Write KEY = VALUE, with texts between quotes."};
}

}  // namespace

const Entry* Value::find(std::string_view key) const {
  for (const Entry& entry : entries)
    if (entry.key == key) return &entry;
  return nullptr;
}

Entry* Value::find(std::string_view key) {
  return const_cast<Entry*>(static_cast<const Value*>(this)->find(key));
}

DocumentReading read_document(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // the mark some editors put first
  if (auto strange = not_plain(text)) return {std::nullopt, std::move(*strange)};
  const Places places(text);
  const toml::parse_result result = toml::parse(text);
  if (!result) {
    Spot spot = spot_of(result.error().source().begin);
    if (spot.line < 1) spot = {1, 1};
    const std::string_view line = places.line(spot.line);
    spot.column = std::clamp(spot.column, 1, static_cast<int>(characters(line)) + 1);
    return {std::nullopt, describe(line, spot, result.error().description())};
  }
  Value root = Converter(places).convert(result.table());
  root.spot = {1, 1};
  return {std::move(root), {}};
}

}  // namespace evenmat::reading
