// A key set in card files written in every form that TOML has for a table, made up at random: the key is
// there, and everything else reads as it did.
#include <fmt/format.h>

#include <random>
#include <string>
#include <utility>
#include <vector>

#include "model/set_key.h"
#include "tests/catch.h"
#include "tests/model/flat.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  std::size_t below(std::size_t count) { return engine_() % count; }
  const std::string& of(const std::vector<std::string>& words) { return words[below(words.size())]; }
  bool one_in(std::size_t count) { return below(count) == 0; }

 private:
  std::mt19937 engine_;
};

using Pairs = std::vector<std::pair<std::string, std::string>>;

class Writer {
 public:
  explicit Writer(Dice& dice)
      : dice_(dice), end_(dice.one_in(3) ? "\r\n" : "\n"), sign_(dice.of({" = ", "=", "\t=\t", "  = "})) {}

  std::string file(const std::vector<std::string>& names) {
    const bool inline_layers = dice_.one_in(2);
    std::string top = "cards" + sign_ + "3" + comment() + end_;
    std::string tables;
    base(top, tables);
    if (inline_layers) top += "layer" + sign_ + "[" + comment() + end_;
    for (const std::string& name : names) {
      if (inline_layers) {
        top += "  { " + braces(layer(name)) + " }," + comment() + end_;
      } else {
        tables += "[[layer]]" + comment() + end_;
        tables += lines(layer(name), "");
        tables += headed();
      }
    }
    if (inline_layers) top += "]" + end_;
    std::string all = (dice_.one_in(4) ? "\xEF\xBB\xBF" : "") + top + tables;
    if (dice_.one_in(4)) all.erase(all.size() - end_.size());
    return all;
  }

 private:
  std::string comment() { return dice_.of({"", "", " # 'a' = [ \"b\" }", "\t# , ]"}); }

  std::string quoted(const std::string& text) {
    if (text.find_first_of("'\\") == std::string::npos)
      return dice_.of({"'" + text + "'", "'''" + text + "'''"});
    return dice_.of({"\"" + text + "\"", "\"\"\"" + end_ + text + "\"\"\""});
  }

  std::string wish() { return dice_.of({"\"1/8\"", "'at least 1/8'", "0.25", "\"\"\"1/16\"\"\"", "'4\"'"}); }

  Pairs sides() {
    Pairs all;
    for (const char* side : {"left", "right", "top", "bottom", "across", "down"})
      if (dice_.one_in(3)) all.emplace_back(side, wish());
    return all;
  }

  void add_border(Pairs& keys, const std::string& key) {
    const std::size_t form = dice_.below(5);
    const Pairs parts = sides();
    if (form == 0) keys.emplace_back(key, wish());
    if (form == 1) keys.emplace_back(key, parts.empty() ? "{}" : "{ " + braces(parts) + " }");
    const std::string dot = dice_.of({".", " . "});
    if (form == 2) {
      for (const auto& [side, value] : parts) {
        const std::string word = dice_.of({key, fmt::format("\"{}\"", key)});
        keys.insert(keys.begin() + static_cast<std::ptrdiff_t>(dice_.below(keys.size() + 1)),
                    {fmt::format("{}{}{}", word, dot, side), value});
      }
    }
    if (form == 3) headed_ = parts;
  }

  Pairs layer(const std::string& name) {
    Pairs keys{{"on", "\"front\""}, {dice_.of({"name", "\"name\""}), quoted(name)}, {"tilt", "5"}};
    if (dice_.one_in(2)) keys.emplace_back("clear-of", "[ \"a]\", '}', \"#\" ]");
    if (dice_.one_in(2)) keys.emplace_back("stamped", "true");
    headed_.clear();
    add_border(keys, "border");
    return keys;
  }

  // Of the layer made last, where its border has a heading of its own.
  std::string headed() {
    if (headed_.empty()) return {};
    const Pairs parts = std::exchange(headed_, {});
    return dice_.of({"[layer.border]", "[ layer . \"border\" ]"}) + comment() + end_ + lines(parts, "");
  }

  void base(std::string& top, std::string& tables) {
    Pairs keys{{"fold", "\"side\""}, {"front", quoted("5 x 7")}};
    if (dice_.one_in(2)) keys.emplace_back("cut-back", wish());
    const std::size_t form = dice_.below(3);
    if (form == 0) top += "base" + sign_ + "{ " + braces(keys) + " }" + comment() + end_;
    if (form == 1) top += lines(keys, "base.");
    if (form == 2) tables += end_ + "[base]" + comment() + end_ + lines(keys, "") + end_;
  }

  std::string lines(const Pairs& keys, const std::string& before) {
    std::string text;
    const std::string indent = dice_.of({"", "  ", "\t"});
    for (const auto& [key, value] : keys) {
      if (dice_.one_in(5)) text += "# border = \"1\"" + end_;
      text += fmt::format("{}{}{}{}{}{}{}", indent, before, key, sign_, value, comment(), end_);
    }
    return text;
  }

  std::string braces(const Pairs& keys) {
    std::string text;
    for (const auto& [key, value] : keys) {
      if (!text.empty()) text += dice_.of({", ", ",", " , "});
      text += fmt::format("{}{}{}", key, sign_, value);
    }
    return text;
  }

  Dice& dice_;
  std::string end_, sign_;
  Pairs headed_;
};

std::string told(const std::string& value, bool bare, const Flat& before, const std::string& way) {
  const auto old = before.find(way);
  const bool text = old != before.end() && old->second.starts_with("text ");
  return (bare && !text ? "number " : "text ") + value;
}

}  // namespace

TEST_CASE("a key is set in whichever form its table is written") {
  const std::vector<std::string> pool{"a",         "a.border",        "it's",  "x=y",
                                      "two words", "M\u00E4t \u2713", "b\\\\c"};
  const std::vector<std::string> sides{"left", "right", "top", "bottom", "across", "down"};
  int wholes = 0, parts = 0;
  for (unsigned seed = 0; seed < 1500; ++seed) {
    Dice dice(seed);
    std::vector<std::string> names;
    for (const std::string& name : pool)
      if (dice.one_in(2)) names.push_back(name);
    const std::string file = Writer(dice).file(names);
    const Flat before = flat(file);
    const auto check = [&](const std::string& name, const std::string& way, const std::string& key,
                           const std::string& value, bool bare) {
      const auto changed = with_key(file, {name, key, value});
      INFO(seed << ": " << name << "." << key << " = " << value << "\n"
                << file << "\n=>\n"
                << changed.value_or(""));
      REQUIRE(changed);
      const Flat after = flat(*changed);
      const std::string own = fmt::format("{}/{}", way, key);
      REQUIRE(without(after, own) == without(before, own));
      REQUIRE(after.at(own) == told(value, bare, before, own));
      ++wholes;
    };
    check("", "", "cards", "7", true);
    check("", "", "spare", "7", true);
    check("base", "/base", "front", "us A7", false);
    check("base", "/base", "cut-back", "1 1/2", false);
    check("base", "/base", "paper", "it's \"so\"", false);
    for (std::size_t i = 0; i < names.size(); ++i) {
      const std::string way = "/layer/" + std::to_string(i);
      const std::string name = before.at(way + "/name").substr(5);
      for (const char* key : {"border", "width", "on"}) check(name, way, key, "1 to 2", false);
      check(name, way, "tilt", "-7.5", true);

      const std::string border = way + "/border";
      const std::string& side = dice.of(sides);
      const auto changed = with_key(file, {name, "border." + side, "3/8"});
      INFO(seed << ": " << name << "." << side << "\n" << file << "\n=>\n" << changed.value_or(""));
      REQUIRE(changed);
      const Flat after = flat(*changed);
      const std::string own = fmt::format("{}/{}", border, side);
      REQUIRE(after.at(own) == "text 3/8");
      REQUIRE(without(after, border) == without(before, border));
      if (before.contains(border) && before.at(border) == "table")
        REQUIRE(without(after, own) == without(before, own));
      ++parts;
    }
  }
  CHECK(wholes > 10'000);
  CHECK(parts > 3'000);
}
