#include "model/size_text.h"

#include <utility>

#include "model/named_sizes.h"
#include "model/words.h"

namespace evenmat {
namespace {

constexpr std::string_view times = "\u00D7";

SizeReading refused(std::string trouble) { return {std::nullopt, std::nullopt, std::move(trouble), {}}; }

bool begins_like_number(std::string_view text) {
  // A vulgar fraction or sign may come first, so anything but an ASCII letter does.
  const char c = text.empty() ? 'a' : small_letters(text.substr(0, 1)).front();
  return c < 'a' || c > 'z';
}

SizeReading named(std::string_view text, Unit unit) {
  std::string name = plain_name(text);
  constexpr std::string_view turned_word = " turned";
  const bool turned = name.ends_with(turned_word);
  if (turned) name.resize(name.size() - turned_word.size());
  std::vector<std::string> all, alike;
  for (const NamedSize& entry : named_sizes()) {
    const std::string known = plain_name(entry.name);
    if (known == name) {
      Size size{convert(entry.size.width, entry.unit, unit), convert(entry.size.height, entry.unit, unit)};
      if (turned) std::swap(size.width, size.height);
      NumberedText numbered = size_in_numbers(size, unit);
      return {std::move(size), entry.unit, {}, std::move(numbered)};
    }
    if (known.ends_with(" " + name)) alike.push_back(entry.name);
    all.push_back(entry.name);
  }
  if (alike.size() > 1) {
    return refused(in_quotes(text) + " is the name of an ISO size and of a US one. Write " + either(alike) +
                   ".");
  }
  if (alike.size() == 1)
    return refused(in_quotes(text) + " does not say whose size it is. Write " + either(alike) + ".");
  return refused(in_quotes(text) + " is not a size that has a name here." + offer(name, all) +
                 " Or write width x height.");
}

}  // namespace

SizeReading read_size(std::string_view text, Unit unit) {
  const std::string_view bare = trimmed(text);
  if (!bare.empty() && !begins_like_number(bare)) return named(bare, unit);
  std::size_t cross = bare.find(times);
  std::size_t bytes = times.size();
  if (cross == std::string_view::npos) {
    cross = bare.find_first_of("xX");
    bytes = 1;
  }
  if (cross == std::string_view::npos)
    return refused(in_quotes(text) + " is not a size. Write a width and a height: 4 1/4 x 5 1/2.");
  const std::string_view across = trimmed(bare.substr(0, cross));
  const std::string_view down = trimmed(bare.substr(cross + bytes));
  const LengthReading width = read_length(across, unit);
  if (!width.value) return refused(width.trouble);
  const LengthReading height = read_length(down, unit);
  if (!height.value) return refused(height.trouble);
  NumberedText numbered{std::string(bare), {}};
  numbered.numbers = {{NumberPart::width, *width.value, 0, across.size()},
                      {NumberPart::height, *height.value, bare.size() - down.size(), bare.size()}};
  return {Size{*width.value, *height.value}, std::nullopt, {}, std::move(numbered)};
}

}  // namespace evenmat
