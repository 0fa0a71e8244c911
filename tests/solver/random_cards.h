// Small cards with a little of everything, as text: the same seed is the same card on every machine.
#pragma once

#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

#include "tests/solver/dice.h"

namespace evenmat::testing {

class RandomCard {
 public:
  explicit RandomCard(unsigned seed) : dice_(seed) {}

  std::string text() {
    inches_ = !dice_.one_in(3);
    std::string card = fmt::format("unit = \"{}\"\ncards = 9\n", inches_ ? "in" : "mm");
    const bool cut = dice_.one_in(5);
    const std::string base = write_base(cut);
    std::string pieces = write_panel();
    const int children = dice_.between(1, 4);
    for (int i = 0; i < children; ++i) pieces += write_child(i);
    if (dice_.one_in(3)) pieces += write_print();
    if (dice_.one_in(5)) pieces += write_window();
    if (cut) pieces += write_strip();
    return card + write_rules() + base + pieces + write_variant();
  }

 private:
  // So many sixteenths of an inch, or in millimetres as many and a half, in whole ones.
  std::string on_marks(int sixteenths) const {
    return inches_ ? fmt::format("{}/16", sixteenths) : fmt::format("{}", sixteenths + sixteenths / 2);
  }
  // Now and then between the marks.
  std::string length(int sixteenths) {
    if (!dice_.one_in(40)) return on_marks(sixteenths);
    return inches_ ? fmt::format("{} mm", 2 * sixteenths) : fmt::format("{}/10", 17 * sixteenths);
  }
  std::string length(int least, int most) { return length(dice_.between(least, most)); }

  std::string key(const std::string& name, const std::string& wish) {
    return fmt::format("{} = \"{}\"\n", name, wish);
  }

  // A wish for something of about so many sixteenths.
  std::string wish(int least, int most) {
    const int low = dice_.between(least, most);
    switch (dice_.between(1, 7)) {
      case 1:
        return "at least " + length(low);
      case 2:
        return fmt::format("{} to {}", on_marks(low), length(low + 4, low + 9));
      case 3:
        return "about " + length(low);
      case 4:
        return fmt::format("at least {}, about {}", length(low), length(low + 1, low + 5));
      case 5:
        return fmt::format("one of {}, {}, {}", length(low), length(low + 2), length(low + 5));
      default:
        return length(low);
    }
  }

  std::string border() {
    switch (dice_.between(1, 8)) {
      case 1:
        return "border = \"even\"\n";
      case 2:
        return fmt::format("border = {{ across = \"{}\", top = \"{}\" }}\n", wish(0, 4), wish(0, 4));
      case 3:
        return fmt::format("border = {{ left = \"{}\", down = \"{}\" }}\n", wish(0, 6), wish(0, 3));
      case 4:
        return "";
      case 5:
        return key("border", "even, at least " + length(1, 3));
      default:
        return key("border", wish(0, 4));
    }
  }

  std::string write_base(bool cut) {
    const std::string fold = cut ? "side" : dice_.any_of<std::string>({"flat", "side", "top"});
    std::string base =
        fmt::format("[base]\nfold = \"{}\"\nfront = \"{} x {}\"\n", fold, length(60, 90), length(60, 90));
    if (!cut) return base;
    return base + key("cut-back",
                      dice_.one_in(2) ? length(10, 16) : fmt::format("{} to {}", on_marks(8), length(17)));
  }

  std::string write_panel() { return "[[layer]]\nname = \"panel\"\non = \"front\"\n" + border(); }

  // A layer on the panel. At most three of them are loose.
  std::string write_child(int index) {
    const std::string name = fmt::format("piece {}", index + 1);
    std::string layer = fmt::format("[[layer]]\nname = \"{}\"\non = \"panel\"\n", name);
    layer += write_size();
    const bool may_be_loose = loose_ < 3 && dice_.one_in(2);
    if (may_be_loose) {
      ++loose_;
      if (!names_.empty() && dice_.one_in(2)) {
        layer += fmt::format("clear-of = [\"{}\"]\n", dice_.any_of(names_));
        if (!dice_.one_in(3)) layer += key("clearance", length(1, 5));
      }
    } else {
      layer += write_place();
    }
    names_.push_back(name);
    return layer;
  }

  std::string write_size() {
    const int open = dice_.between(1, 9);
    if (open <= 3) {
      std::string size = key("size", fmt::format("{} x {}", length(8, 20), length(8, 20)));
      if (dice_.one_in(3)) size += fmt::format("tilt = {}\n", dice_.any_of<int>({5, -3, 10, 90, 45}));
      if (dice_.one_in(4)) size += "cut = \"die\"\n";
      return size;
    }
    if (open <= 5) {
      std::string size = key("artwork", fmt::format("{} x {}", length(8, 20), length(4, 10)));
      if (!dice_.one_in(4)) size += key("margin", dice_.one_in(4) ? "even" : wish(1, 3));
      return size;
    }
    if (open == 6) {
      std::string grid = key("size", fmt::format("{} x {}", length(4, 8), length(4, 8)));
      grid += fmt::format("copies = {}\n", dice_.between(2, 4));
      if (dice_.one_in(2)) grid += "columns = 2\n";
      if (!dice_.one_in(3))
        grid += key("gap", dice_.any_of<std::string>({"even", length(1, 4), "at least " + length(1, 4)}));
      gap_taken_ = true;
      return grid;
    }
    if (open == 7)
      return key("width", fmt::format("{} to {}", on_marks(8), length(12, 20))) + "ratio = \"3:4\"\n";
    if (open == 8) return key("width", wish(8, 16)) + key("height", length(8, 20));
    return key("width", fmt::format("{} to {}", on_marks(8), length(8, 20))) + key("height", wish(6, 16));
  }

  std::string write_place() {
    std::string place;
    const bool gap = !std::exchange(gap_taken_, false) && !dice_.one_in(3);
    const int way = names_.empty() ? dice_.between(1, 3) : dice_.between(1, 7);
    if (way == 1) {
      return key("align",
                 dice_.any_of<std::string>({"centre", "left", "top right", "centre across", "bottom"}));
    }
    if (way == 2) {
      return key("from-left", wish(1, 12)) + (dice_.one_in(2) ? key("from-top", wish(1, 12)) : "");
    }
    if (way == 3) return key("from-bottom", length(1, 12));
    if (way == 4) return key("border", "at least " + length(0, 3));
    const std::string& other = dice_.any_of(names_);
    const bool across = dice_.one_in(3);
    place += key(across ? "right-of" : dice_.any_of<std::string>({"below", "above"}), other);
    if (gap) place += key("gap", dice_.one_in(4) ? "even" : wish(0, 5));
    if (!dice_.one_in(3)) return place;
    const auto lines = across ? std::vector<std::string>{"top of ", "bottom of ", ""}
                              : std::vector<std::string>{"left of ", "right of ", "centre across of "};
    place += key("level-with", dice_.any_of(lines) + other);
    return place;
  }

  std::string write_print() {
    const std::string& other = dice_.any_of(names_);
    const std::string name = "[[layer]]\nname = \"print\"\n";
    // On the panel itself it fills what the others leave, or is glued over one of them.
    if (dice_.one_in(4)) return name + "on = \"panel\"\n";
    if (dice_.one_in(3))
      return name + "on = \"panel\"\nsize = \"1/2 in x 1/2 in\"\n" + fmt::format("over = [\"{}\"]\n", other);
    return name + fmt::format("on = \"{}\"\n", other) + border();
  }

  std::string write_window() {
    return fmt::format(
        "[[window]]\nname = \"opening\"\nin = \"panel\"\nsize = \"{} x {}\"\nframe = \"at least {}\"\n",
        length(6, 20), length(6, 20), length(1, 6));
  }

  std::string write_strip() {
    return "[[layer]]\nname = \"strip\"\non = \"reveal\"\n" +
           (dice_.one_in(2) ? border() : key("width", wish(4, 8)));
  }

  std::string write_rules() {
    if (!dice_.one_in(4)) return "";
    const std::string& a = dice_.any_of(names_);
    const std::string& b = dice_.any_of(names_);
    const std::vector<std::string> rules = {
        fmt::format("{}.left <= {}.left + {}", a, b, length(1, 20)),
        fmt::format("{}.left >= {} or {}.top >= {}", a, length(4, 20), a, length(4, 20)),
        fmt::format("{}.width >= {}.height", a, b),
        fmt::format("{}.centre-down = panel.centre-down", a),
        fmt::format("{}.width = 2 * {}.height or {}.top <= {}", a, a, b, length(4, 20)),
    };
    return fmt::format("rules = [\"{}\"]\n", dice_.any_of(rules));
  }

  std::string write_variant() {
    if (!dice_.one_in(5)) return "";
    std::string variant = "[[variant]]\nname = \"other\"\ncards = 4\n";
    if (dice_.one_in(3)) return variant + fmt::format("set = {{ \"panel.border\" = \"{}\" }}\n", wish(0, 4));
    if (dice_.one_in(2))
      return variant + fmt::format("set = {{ \"{}.height\" = \"{}\" }}\n", dice_.any_of(names_), wish(6, 16));
    return variant + fmt::format("set = {{ \"{}.artwork\" = \"{} x {}\" }}\n", dice_.any_of(names_),
                                 length(6, 12), length(6, 12));
  }

  Dice dice_;
  bool inches_ = true;
  bool gap_taken_ = false;
  int loose_ = 0;
  std::vector<std::string> names_;
};

inline std::string random_card(unsigned seed) { return RandomCard(seed).text(); }

}  // namespace evenmat::testing
