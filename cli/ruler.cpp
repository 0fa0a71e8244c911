#include "cli/ruler.h"

#include <fmt/format.h>

#include <string_view>

namespace evenmat {

std::string Ruler::number(const Rational& length, bool stated) {
  std::string text = length_text(length, unit_);
  if (length < 0) negative_ = true;
  constexpr std::string_view about = "about ";
  if (text.starts_with(about)) {
    text = "~" + text.substr(about.size());
    rounded_ = true;
  }
  if (!stated && tell_chosen_) {
    text += '*';
    chosen_ = true;
  }
  if (!is_multiple(length, mark_)) {
    text += '^';
    between_ = true;
  }
  return text;
}

std::string Ruler::size(const Size& size) {
  return fmt::format("{} x {}", number(size.width), number(size.height));
}

std::string Ruler::key() const {
  std::string text;
  if (chosen_) text += "* chosen, where what is stated leaves it open\n";
  if (between_) text += fmt::format("^ between marks (every {})\n", length_with_unit(mark_, unit_));
  if (negative_) text += "- reaches past the edge by so much\n";
  if (rounded_) text += "~ rounded\n";
  return text;
}

}  // namespace evenmat
