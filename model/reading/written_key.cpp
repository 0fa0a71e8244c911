#include "model/reading/written_key.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <tuple>
#include <utility>
#include <vector>

#include "model/reading/named_key.h"
#include "model/reading/toml_text.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

using Kind = Value::Kind;

// A new key goes after the first of these that its table states on a line.
constexpr std::array<std::string_view, 7> before_new_keys{"name", "front", "spare", "cards",
                                                          "mark", "unit",  "title"};

// `key = value`, by bytes. Of a dotted key only the last word.
struct Statement {
  std::size_t key = 0, key_end = 0, equals = 0, value = 0, end = 0;
};

struct Edit {
  std::size_t begin = 0, end = 0;
  std::string text;
};

std::size_t line_begin(std::string_view text, std::size_t at) {
  const std::size_t before = at == 0 ? std::string_view::npos : text.rfind('\n', at - 1);
  return before == std::string_view::npos ? 0 : before + 1;
}

// Behind the line end, if there is one.
std::size_t line_end(std::string_view text, std::size_t at) {
  const std::size_t end = text.find('\n', at);
  return end == std::string_view::npos ? text.size() : end + 1;
}

// The line end of the text, by the line in which `at` is.
std::string_view line_end_mark(std::string_view text, std::size_t at) {
  std::size_t end = text.find('\n', at);
  if (end == std::string_view::npos) end = text.find('\n');
  return end != std::string_view::npos && end > 0 && text[end - 1] == '\r' ? "\r\n" : "\n";
}

// Where the word before the last one of a dotted key begins.
std::size_t word_before(std::string_view text, std::size_t last) {
  std::size_t at = text.find_last_not_of(" \t", text.rfind('.', last) - 1);
  if (text[at] == '"' || text[at] == '\'') return text.rfind(text[at], at - 1);
  while (at > 0 && key_end(text, at - 1) > at) --at;
  return at;
}

class Writing {
 public:
  Writing(std::string_view text, const Value& root, const Value& table, const WrittenValue& value)
      : text_(text), root_(root), table_(table), value_(value) {}

  bool whole(const std::string& key) {
    const Entry* entry = table_.find(key);
    if (entry == nullptr) {
      add(table_, key, written());
    } else if (const auto statement = statement_of(*entry)) {
      replace(*statement);
    } else {
      return in_place_of_parts(*entry);
    }
    return true;
  }

  bool part(const std::string& key, const std::string& part) {
    const Entry* entry = table_.find(key);
    if (entry == nullptr) {
      add(table_, key, "{ " + part + " = " + written() + " }");
      return true;
    }
    const auto statement = statement_of(*entry);
    if (statement && entry->value.kind != Kind::table) {
      open_up(*entry, *statement, part);
    } else if (const Entry* old = entry->value.find(part)) {
      const auto inner = statement_of(*old);
      if (!inner) return false;
      replace(*inner);
    } else {
      add(entry->value, part, written());
    }
    return true;
  }

  std::string done() {
    std::sort(edits_.begin(), edits_.end(), [](const Edit& a, const Edit& b) {
      return std::tie(a.begin, a.end) > std::tie(b.begin, b.end);
    });
    std::string result(text_);
    for (const Edit& edit : edits_) result.replace(edit.begin, edit.end - edit.begin, edit.text);
    return result;
  }

 private:
  // Nothing for what is stated by headings, or by several dotted keys.
  [[nodiscard]] std::optional<Statement> statement_of(const Entry& entry) const {
    Statement found;
    found.key = byte_of(text_, entry.spot);
    found.key_end = key_end(text_, found.key);
    found.equals = blanks_end(text_, found.key_end);
    if (found.equals >= text_.size() || text_[found.equals] != '=') return std::nullopt;
    found.value = blanks_end(text_, found.equals + 1);
    found.end = value_end(text_, found.value);
    return found;
  }

  [[nodiscard]] std::string_view between(std::size_t begin, std::size_t end) const {
    return text_.substr(begin, end - begin);
  }

  [[nodiscard]] std::string written(std::string_view old = {}) const {
    return value_.bare ? value_.text : quoted(value_.text, old);
  }

  void replace(const Statement& old) {
    edits_.push_back({old.value, old.end, written(between(old.value, old.end))});
  }

  // One wish becomes a table of it and of what keeps it.
  void open_up(const Entry& entry, const Statement& old, const std::string& part) {
    const std::string_view token = between(old.value, old.end);
    std::string opened = "{ " + part + " = " + written(token);
    for (const Entry& kept : opened_up(entry.key, entry.value, part).entries)
      if (kept.key != part) opened += ", " + kept.key + " = " + std::string(token);
    edits_.push_back({old.value, old.end, opened + " }"});
  }

  // The key stated whole, where a heading of its own or dotted keys state its parts.
  bool in_place_of_parts(const Entry& entry) {
    std::vector<Statement> parts;
    for (const Entry& part : entry.value.entries) {
      const auto statement = statement_of(part);
      if (!statement) return false;
      parts.push_back(*statement);
    }
    const std::size_t heading = byte_of(text_, entry.value.spot);
    if (text_[heading] == '[') {
      remove_line(heading, text_.find(']', heading) + 1);
      for (const Statement& part : parts) remove_line(part.key, part.end);
      add(table_, entry.key, written());
      return true;
    }
    if (parts.empty()) return false;
    const Statement& first = parts.front();
    const std::size_t begin = word_before(text_, first.key);
    const std::string_view word = between(begin, key_end(text_, begin));
    Statement whole = first;
    whole.key = begin;
    edits_.push_back({begin, first.end, stated(table_, whole, std::string(word), written())});
    for (std::size_t i = 1; i < parts.size(); ++i) {
      if (table_.braces) {
        const std::size_t comma = text_.rfind(',', word_before(text_, parts[i].key));
        edits_.push_back({comma, parts[i].end, {}});
      } else {
        remove_line(parts[i].key, parts[i].end);
      }
    }
    return true;
  }

  // The line of what stands from `begin` to `end`, but for the comment behind that.
  void remove_line(std::size_t begin, std::size_t end) {
    const std::size_t comment = blanks_end(text_, end);
    const bool has_comment = comment < text_.size() && text_[comment] == '#';
    edits_.push_back({line_begin(text_, begin), has_comment ? comment : line_end(text_, end), {}});
  }

  // What the table states on lines, or between its braces, in file order.
  [[nodiscard]] std::vector<std::pair<std::string, Statement>> statements(const Value& table) const {
    std::vector<std::pair<std::string, Statement>> found;
    for (const Entry& entry : table.entries)
      if (const auto statement = statement_of(entry)) found.emplace_back(entry.key, *statement);
    return found;
  }

  // A key that the table does not state.
  void add(const Value& table, const std::string& key, const std::string& value) {
    const auto stated_ones = statements(table);
    if (stated_ones.empty()) return add_first(table, key, value);
    const Statement* before = &stated_ones.back().second;
    std::size_t rank = before_new_keys.size();
    for (const auto& [own, statement] : stated_ones) {
      const auto found = std::find(before_new_keys.begin(), before_new_keys.end(), own);
      const auto own_rank = static_cast<std::size_t>(found - before_new_keys.begin());
      if (own_rank >= rank) continue;
      rank = own_rank;
      before = &statement;
    }
    const bool dotted = text_[blanks_before(before->key)] == '.';
    if (table.braces || (dotted && table_.braces)) {
      const std::size_t begin = dotted ? word_before(text_, before->key) : before->key;
      const std::string head(between(begin, before->key));
      edits_.push_back({before->end, before->end, ", " + head + stated(table, *before, key, value)});
      return;
    }
    const std::string head(between(line_begin(text_, before->key), before->key));
    add_line(before->end, head + stated(table, *before, key, value));
  }

  // The byte before the blanks before `at`; that byte itself at the start of the text.
  [[nodiscard]] std::size_t blanks_before(std::size_t at) const {
    while (at > 0 && (text_[at - 1] == ' ' || text_[at - 1] == '\t')) --at;
    return at > 0 ? at - 1 : 0;
  }

  void add_first(const Value& table, const std::string& key, const std::string& value) {
    const std::size_t begin = byte_of(text_, table.spot);
    const std::string line = key + " = " + value;
    if (table.braces) {
      edits_.push_back({begin, value_end(text_, begin), "{ " + line + " }"});
    } else if (&table == &root_) {
      edits_.push_back({0, 0, line + std::string(line_end_mark(text_, 0))});
    } else {
      add_line(begin, line);
    }
  }

  // After the line in which `at` is.
  void add_line(std::size_t at, const std::string& line) {
    const std::size_t end = line_end(text_, at);
    const std::string mark(line_end_mark(text_, at));
    const bool ended = end > 0 && text_[end - 1] == '\n';
    edits_.push_back({end, end, ended ? line + mark : mark + line});
  }

  // `key = value` in the manner of a statement beside it: blanks as there, and the sign below the signs
  // around.
  [[nodiscard]] std::string stated(const Value& table, const Statement& beside, const std::string& key,
                                   const std::string& value) const {
    const std::string behind(between(beside.equals + 1, beside.value));
    return key + before_sign(table, beside, key) + "=" + behind + value;
  }

  [[nodiscard]] std::string before_sign(const Value& table, const Statement& beside,
                                        const std::string& key) const {
    std::string own(between(beside.key_end, beside.equals));
    if (table.braces || table_.braces || own.find('\t') != std::string::npos) return own;
    const auto column = [&](const Statement& statement) {
      return characters(between(line_begin(text_, statement.key), statement.equals));
    };
    bool in_line = own.size() > 1;
    for (const auto& [other, statement] : statements(table)) {
      const bool longer = statement.key_end - statement.key != beside.key_end - beside.key;
      in_line = in_line || (longer && column(statement) == column(beside));
    }
    if (!in_line) return own;
    const std::size_t head = characters(between(line_begin(text_, beside.key), beside.key)) + characters(key);
    own.assign(head < column(beside) ? column(beside) - head : 1, ' ');
    return own;
  }

  std::string_view text_;
  const Value& root_;
  const Value& table_;
  const WrittenValue& value_;
  std::vector<Edit> edits_;
};

}  // namespace

std::optional<std::string> with_written(std::string_view text, const Value& root, const Value& table,
                                        const std::string& key, const std::string& part,
                                        const WrittenValue& value) {
  Writing writing(text, root, table, value);
  const bool done = part.empty() ? writing.whole(key) : writing.part(key, part);
  if (!done) return std::nullopt;
  return writing.done();
}

std::string with_table(std::string_view text, const std::string& name, const std::string& key,
                       const WrittenValue& value) {
  const std::string mark(line_end_mark(text, text.size()));
  std::string result(text);
  if (!result.empty() && !result.ends_with('\n')) result += mark;
  if (!result.empty()) result += mark;
  return result + "[" + name + "]" + mark + key + " = " + (value.bare ? value.text : quoted(value.text, {})) +
         mark;
}

}  // namespace evenmat::reading
