// The cards that the benchmarks size, as the text of card files.
#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

namespace bench {

inline std::string layer(const std::string& name, const std::string& role, const std::string& on,
                         const std::vector<std::string>& keys) {
  std::string text = fmt::format("[[layer]]\nname = \"{}\"\nrole = \"{}\"\non = \"{}\"\n", name, role, on);
  for (const std::string& key : keys) text += key + "\n";
  return text + "\n";
}

inline std::string base(const std::string& fold, const std::string& front) {
  return fmt::format("unit = \"in\"\nmark = \"1/16\"\n\n[base]\nfold = \"{}\"\nfront = \"{}\"\n\n", fold,
                     front);
}

inline std::string mat_and_print() {
  return layer("dark mat", "mat", "front", {"border = \"1/16 to 3/16, about 1/8\""}) +
         layer("print", "panel", "dark mat", {"border = \"1/16\""});
}

// Twelve layers of all kinds; where each lies to its neighbours is stated.
inline std::string settled_twelve() {
  return base("side", "5 x 7") + mat_and_print() +
         layer("band mat", "mat", "print",
               {"from-left = \"0\"", "from-right = \"0\"", "from-bottom = \"1/2\"",
                "height = \"at most 1 3/4\""}) +
         layer("band", "strip", "band mat", {"border = \"even\""}) +
         layer("words", "sentiment", "band", {"artwork = \"2 1/4 x 1/2\"", "margin = \"at least 1/8\""}) +
         layer("one", "image", "print",
               {"size = \"1 x 1 1/4\"", "above = \"band mat\"", "gap = \"at least 1/8\""}) +
         layer("two", "image", "print",
               {"size = \"1 x 1 1/4\"", "right-of = \"one\"", "gap = \"at least 1/8\"",
                "level-with = \"top of one\""}) +
         layer("three", "image", "print",
               {"size = \"1 x 1 1/4\"", "right-of = \"two\"", "gap = \"at least 1/8\"",
                "level-with = \"top of one\""}) +
         layer("title strip", "strip", "print",
               {"above = \"two\"", "gap = \"at least 1/8\"", "height = \"3/4\"",
                "from-left = \"at least 1/4\"", "from-right = \"at least 1/4\""}) +
         layer("title", "sentiment", "title strip", {"artwork = \"2 x 3/8\"", "margin = \"at least 1/16\""}) +
         layer("note mat", "mat", "inside", {"border = \"1/8 to 1/4\""}) +
         layer("note", "panel", "note mat", {"border = \"at least 1/16\""});
}

// A gate card with a window in each door and fourteen layers whose order is stated, of papers with thickness
// and weight, some raised, and a limit to how thick it may be.
inline std::string gate_of_fourteen() {
  const std::string paper = "paper = \"card\"";
  const auto stack = [&](const std::string& name, const std::string& on) {
    return layer(name + " mat", "mat", on,
                 {"border = \"about 1/8\"", "height = \"1 3/4\"", "from-top = \"1/4\"", paper}) +
           layer(name + " print", "panel", name + " mat", {"border = \"1/16\"", paper}) +
           layer(name + " star", "image", name + " print",
                 {"size = \"1 x 3/4\"", "align = \"centre\"", "raised = \"1/16\"", paper});
  };
  const auto window = [](const std::string& name, const std::string& in) {
    return fmt::format(
        "[[window]]\nname = \"{}\"\nin = \"{}\"\nsize = \"1 1/2 x 2\"\nalign = \"centre across\"\n"
        "from-bottom = \"3/4\"\nframe = \"at least 1/4\"\n\n",
        name, in);
  };
  return base("gate", "6 x 6").substr(0, base("gate", "6 x 6").size() - 1) + paper +
         "\n\n[limit]\nthickness = \"1/4\"\n\n" + stack("left", "left front") +
         stack("right", "right front") + window("left light", "left front") +
         window("right light", "right front") +
         layer("left view", "panel", "left light", {"tuck = \"1/8\"", paper}) +
         layer("right view", "panel", "right light", {"tuck = \"1/8\"", paper}) +
         layer("head mat", "mat", "inside",
               {"from-top = \"1/4\"", "from-left = \"1/4\"", "from-right = \"1/4\"", "height = \"1 1/2\"",
                paper}) +
         layer("head", "panel", "head mat", {"border = \"1/16\"", paper}) +
         layer("words", "sentiment", "head", {"artwork = \"3 x 1/2\"", "margin = \"at least 1/8\"", paper}) +
         layer("back mat", "mat", "back", {"border = \"1/8 to 1/4\"", paper}) +
         layer("back print", "panel", "back mat", {"border = \"1/16\"", paper}) +
         layer("maker", "sentiment", "back print",
               {"artwork = \"1 1/2 x 1/4\"", "margin = \"1/16\"", "stamped = true"}) +
         "[[paper]]\nname = \"card\"\nsheet = \"12 x 12\"\nweight = \"80 lb cover\"\nthickness = "
         "\"0.012\"\n\n"
         "[mail]\npost = [\"usps\", \"upu\"]\n";
}

// Twelve layers, `loose` of them pictures on one panel that only keep clear of one another. `sizes` gives
// each its keys beside that; without, nothing says how big they are.
inline std::string with_loose(int loose, const std::vector<std::vector<std::string>>& sizes = {}) {
  std::string text = base("side", "5 x 7") + mat_and_print();
  for (int i = 1; i <= loose; ++i) {
    std::string others;
    for (int j = 1; j <= loose; ++j) {
      if (j != i) others += fmt::format("{}\"picture {}\"", others.empty() ? "" : ", ", j);
    }
    std::vector<std::string> keys = {fmt::format("clear-of = [{}]", others), "clearance = \"1/8\""};
    if (!sizes.empty()) {
      const auto& more = sizes[static_cast<std::size_t>(i - 1) % sizes.size()];
      keys.insert(keys.end(), more.begin(), more.end());
    }
    text += layer(fmt::format("picture {}", i), "image", "print", keys);
  }
  for (int i = 1; i <= 10 - loose; ++i) {
    text += layer(fmt::format("inner {}", i), i % 2 == 1 ? "mat" : "panel",
                  i == 1 ? "inside" : fmt::format("inner {}", i - 1),
                  {i == 1 ? "border = \"1/8\"" : "border = \"1/16\""});
  }
  return text;
}

// The same twelve layers with three faults that have nothing to do with one another: a band taller than its
// mat, a greeting wider than its strip, borders that do not fill the inside.
inline std::string three_faults() {
  std::string text = settled_twelve();
  const auto after = [&](const std::string& name, const std::string& key) {
    const std::size_t line = text.find("on = ", text.find("name = \"" + name + "\""));
    text.insert(text.find('\n', line) + 1, key + "\n");
  };
  after("band", "height = \"2\"");
  after("words", "width = \"2 3/8\"");
  after("note mat", "width = \"4 1/4\"");
  return text;
}

// Sixty layers in twelve stacks of five, side by side; in the last stack the innermost is too wide.
inline std::string one_fault_in_sixty() {
  std::string text = base("flat", "12 x 12");
  for (int stack = 0; stack < 12; ++stack) {
    for (int i = 0; i < 5; ++i) {
      const std::string name = fmt::format("layer {} of stack {}", i + 1, stack + 1);
      const std::string on = i == 0 ? "front" : fmt::format("layer {} of stack {}", i, stack + 1);
      std::vector<std::string> keys{i == 0 ? "size = \"2 3/4 x 3 3/4\"" : "border = \"1/16 to 1/8\""};
      if (i == 0) {
        keys.push_back(fmt::format("from-left = \"{}\"", stack % 4 * 3));
        keys.push_back(fmt::format("from-top = \"{}\"", stack / 4 * 4));
      }
      if (i == 4 && stack == 11) keys.emplace_back("width = \"2 1/2\"");
      text += layer(name, "mat", on, keys);
    }
  }
  return text;
}

inline std::string nested(int layers) {
  std::string text = base("flat", "12 x 12");
  for (int i = 1; i <= layers; ++i) {
    text += layer(fmt::format("mat {}", i), "mat", i == 1 ? "front" : fmt::format("mat {}", i - 1),
                  {"border = \"1/16\""});
  }
  return text;
}

// Every border of sixty is needed for the innermost to be too wide.
inline std::string fault_of_sixty() {
  return nested(60).substr(0, nested(60).size() - 1) + "width = \"5\"\n";
}

}  // namespace bench
