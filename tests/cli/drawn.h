// What tests ask of drawings: the words on them and where these stand, and the cards to draw.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "tests/catch.h"

namespace evenmat::testing {

// The card files of a folder of the sources, by name.
inline std::vector<std::filesystem::path> card_files(const std::string& folder) {
  std::vector<std::filesystem::path> all;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(EVENMAT_SOURCE) + "/" + folder)) {
    if (entry.path().extension() == ".toml") all.push_back(entry.path());
  }
  std::sort(all.begin(), all.end());
  return all;
}

inline std::string whole_text(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

inline std::vector<Text> texts_on(const Page& page) {
  std::vector<Text> all;
  for (const Mark& mark : page.marks) {
    if (const auto* text = std::get_if<Text>(&mark)) all.push_back(*text);
  }
  return all;
}

inline bool says(const Drawing& drawing, const std::string& words) {
  return std::any_of(drawing.pages.begin(), drawing.pages.end(), [&](const Page& page) {
    const std::vector<Text> all = texts_on(page);
    return std::any_of(all.begin(), all.end(),
                       [&](const Text& text) { return text.words.find(words) != std::string::npos; });
  });
}

// No words over others, none past the margins.
inline void check_words(const Drawing& drawing) {
  REQUIRE_FALSE(drawing.pages.empty());
  for (const Page& page : drawing.pages) {
    const std::vector<Text> all = texts_on(page);
    REQUIRE_FALSE(all.empty());
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (!contains(within_margins(page), all[i].box)) FAIL_CHECK("leaves the page: " << all[i].words);
      for (std::size_t j = 0; j < i; ++j) {
        if (overlap(all[i].box, all[j].box)) FAIL_CHECK("overlap: " << all[j].words << " | " << all[i].words);
      }
    }
  }
}

}  // namespace evenmat::testing
