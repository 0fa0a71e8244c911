#include "model/reading/plain_text.h"

#include <array>
#include <string>
#include <utility>

#include "model/words.h"

namespace evenmat::reading {
namespace {

// A card nests three deep at most; what is deeper is refused before anything recurses into it.
constexpr int most_brackets = 32;
constexpr int most_dots = 16;

unsigned byte(char c) { return static_cast<unsigned char>(c); }
bool is_ascii(char c) { return byte(c) < 0x80; }

// How many bytes the character takes with which `text` begins; 0 if it is not UTF-8 (Unicode 15, table 3-7).
std::size_t character_bytes(std::string_view text) {
  const unsigned first = byte(text[0]);
  if (first < 0x80) return 1;
  const std::size_t size = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < size) return 0;
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(text[i]) & 0xC0U) != 0x80U) return 0;
  }
  const unsigned second = byte(text[1]);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool surrogate = first == 0xED && second > 0x9F;
  const bool beyond = first == 0xF4 && second > 0x8F;
  return overlong || surrogate || beyond ? 0 : size;
}

bool is_key_character(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '-';
}

// Walks over the text as TOML does, so far as to tell quotes, comments and the rest apart.
class Scan {
 public:
  explicit Scan(std::string_view text) : text_(text) {}

  std::optional<Remark> run() {
    while (at_ < text_.size() && !found_) {
      const char c = text_[at_];
      if (c == '"' || c == '\'') {
        quoted(c);
      } else if (c == '#') {
        while (at_ < text_.size() && text_[at_] != '\n' && !found_) step();
      } else {
        outside(c);
      }
    }
    return found_;
  }

 private:
  void find(std::string says) {
    if (!found_) found_ = Remark{spot_, std::move(says)};
  }

  // One character on.
  void step() {
    const std::size_t bytes = character_bytes(text_.substr(at_));
    if (bytes == 0) return find("There are bytes here that are not UTF-8 text. Save the file as UTF-8.");
    spot_ = text_[at_] == '\n' ? Spot{spot_.line + 1, 1} : Spot{spot_.line, spot_.column + 1};
    at_ += bytes;
  }
  void steps(std::size_t count) {
    while (count-- > 0 && at_ < text_.size() && !found_) step();
  }
  [[nodiscard]] bool at(std::string_view what) const { return text_.substr(at_).starts_with(what); }
  [[nodiscard]] std::string character() const {
    return std::string(text_.substr(at_, character_bytes(text_.substr(at_))));
  }

  void outside(char c) {
    if (!is_ascii(c)) return strange();
    if (c == '[' || c == '{') ++brackets_;
    if ((c == ']' || c == '}') && brackets_ > 0) --brackets_;
    if (c == '.') {
      ++dots_;
    } else if (!is_key_character(c) && c != ' ' && c != '\t') {
      dots_ = 0;
    }
    if (brackets_ > most_brackets || dots_ > most_dots) {
      return find("This nests deeper than any card does. Take brackets or dots out.");
    }
    step();
  }

  // TOML has no sign beyond ASCII outside quotes; those that come by pasting deserve a word of their own.
  void strange() {
    const std::string sign = character();
    if (sign.empty()) return step();
    constexpr std::array<std::string_view, 7> curly{"\u201C", "\u201D", "\u201E", "\u00AB",
                                                    "\u00BB", "\u2018", "\u2019"};
    constexpr std::array<std::string_view, 5> blank{"\u00A0", "\u2009", "\u202F", "\u200B", "\uFEFF"};
    for (std::string_view mark : curly) {
      if (sign == mark)
        return find("The quotation mark " + sign + " is not the plain one. Write \" at both ends of a text.");
    }
    for (std::string_view space : blank) {
      if (sign == space) return find("There is a blank here that is not the plain one. Type it again.");
    }
    find(in_quotes(sign) +
         " stands outside quotes. Put texts between quotes, and keys that are not plain letters too.");
  }

  void quoted(char quote) {
    const std::string three(3, quote);
    const bool many_lines = at(three);
    steps(many_lines ? 3 : 1);
    while (at_ < text_.size() && !found_) {
      if (text_[at_] == '\\' && quote == '"') {
        escaped(many_lines);
      } else if (many_lines ? at(three) : text_[at_] == quote || text_[at_] == '\n') {
        steps(many_lines ? 3 : 1);
        // Up to two quotes may stand before the three that close.
        for (int more = 0; many_lines && more < 2 && at_ < text_.size() && text_[at_] == quote; ++more)
          step();
        return;
      } else {
        step();
      }
    }
  }

  // A backslash and what it stands for, or the blanks and line ends that it takes away.
  void escaped(bool many_lines) {
    step();
    if (at_ >= text_.size()) return;
    const bool line_goes_on =
        many_lines && std::string_view(" \t\r\n").find(text_[at_]) != std::string_view::npos;
    if (line_goes_on) {
      while (at_ < text_.size() && std::string_view(" \t\r\n").find(text_[at_]) != std::string_view::npos)
        step();
      if (at_ < text_.size() && !is_ascii(text_[at_])) {
        find("After a \\ at a line's end this line cannot begin with " + in_quotes(character()) +
             ". Write the text on one line.");
      }
    } else if (!is_ascii(text_[at_])) {
      find("\\ before " + in_quotes(character()) + " stands for nothing. Take the \\ out, or write two.");
    } else {
      step();
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  Spot spot_{1, 1};
  int brackets_ = 0;
  int dots_ = 0;
  std::optional<Remark> found_;
};

}  // namespace

std::optional<Remark> not_plain(std::string_view text) { return Scan(text).run(); }

}  // namespace evenmat::reading
