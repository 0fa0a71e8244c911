#include "cli/drawn_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <variant>

#include "cli/drawing/render.h"
#include "cli/drawing/text.h"
#include "cli/files.h"
#include "cli/printable.h"
#include "model/words.h"

namespace evenmat {
namespace {

// Words with letters that no font here has, each once.
std::vector<std::string> unreadable(const Drawing& drawing) {
  std::set<std::string> words;
  const auto is_plain = [](unsigned char c) { return c < 0x80; };
  for (const Page& page : drawing.pages) {
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<Text>(&mark);
      if (text == nullptr || std::all_of(text->words.begin(), text->words.end(), is_plain)) continue;
      if (lacks_letters(text->words)) words.insert(text->words);
    }
  }
  return {words.begin(), words.end()};
}

}  // namespace

std::string trouble_with_drawing(const NewFile& file, const std::vector<std::string>& read) {
  for (const std::string& one : read) {
    if (one != "-" && same_file(file.path, one))
      return fmt::format("{} is read for this drawing, and is never written over.", printable(file.path));
  }
  const std::string trouble = trouble_with(file);
  return trouble.empty() ? trouble_with_fonts() : trouble;
}

std::string write_drawing(const NewFile& file, const Drawing& drawing, double dots) {
  const Rendered rendered = render(drawing, format_of(file.path).value_or(FileKind::pdf), dots);
  return rendered.trouble.empty() ? write_new_file(file, rendered.bytes) : rendered.trouble;
}

std::string pages_words(const Drawing& drawing, const std::string& path) {
  const std::size_t pages = drawing.pages.size();
  if (pages == 1) return "one page";
  return fmt::format("{} pages{}", pages, format_of(path) == FileKind::pdf ? "" : " below one another");
}

std::string missing_letters(const Drawing& drawing) {
  const std::vector<std::string> words = unreadable(drawing);
  if (words.empty()) return {};
  return fmt::format(
      "evenmat: No font on this machine has all the letters of {}{}; boxes stand for those. A font that has "
      "them, once installed, is used by itself.\n",
      in_quotes(words.front()), words.size() == 1 ? "" : fmt::format(" and {} more", words.size() - 1));
}

}  // namespace evenmat
