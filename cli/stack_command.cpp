#include "cli/stack_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <list>
#include <string_view>
#include <utility>

#include "cli/clash.h"
#include "cli/excerpt.h"
#include "cli/json_answer.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "cli/wording.h"
#include "model/card.h"
#include "model/size_text.h"
#include "model/words.h"
#include "solver/size_card.h"

namespace evenmat {
namespace {

struct Word {
  std::string text;
  Spot spot;
};

// The call as one line, so that mistakes in it can be pointed at, and its words divided into stacks.
struct Typed {
  std::string line = "evenmat stack";
  std::vector<std::vector<Word>> stacks{1};
};

Typed typed(const std::vector<std::string>& words) {
  Typed all;
  for (std::string word : words) {
    const bool quoted = word.empty() || word.find_first_of(" \t") != std::string::npos;
    all.line += quoted ? " \"" : " ";
    const Spot spot{1, static_cast<int>(characters(all.line)) + 1};
    all.line += word;
    if (quoted) all.line += '"';

    const bool last = word.ends_with(',');
    if (last) word.pop_back();
    if (!trimmed(word).empty() || !last) all.stacks.back().push_back({std::move(word), spot});
    if (last) all.stacks.emplace_back();
  }
  std::erase_if(all.stacks, [](const std::vector<Word>& stack) { return stack.empty(); });
  return all;
}

// Millimetres if the base is a size published in them, or names them.
Unit unit_of(const std::string& base) {
  const SizeReading reading = read_size(base, Unit::inch);
  if (reading.named_in) return *reading.named_in;
  const bool names_metric = small_letters(base).find_first_of('m') != std::string::npos;
  return reading.size && names_metric ? Unit::millimetre : Unit::inch;
}

// Whether the mark reads as one; a bare number does so in either unit.
void check_mark(const StackCall& call, std::vector<Remark>& mistakes) {
  if (!call.mark) return;
  const LengthReading reading = read_length(*call.mark, Unit::inch);
  if (!reading.value) mistakes.push_back({{}, "The mark: " + reading.trouble});
  if (reading.value && *reading.value <= 0) mistakes.push_back({{}, "The mark must be more than 0."});
}

Rational mark_of(const StackCall& call, Unit unit) {
  const Rational usual = unit == Unit::inch ? Rational(1) / 16 : Rational(1);
  return call.mark ? read_length(*call.mark, unit).value.value_or(usual) : usual;
}

Piece layer_on(const std::string& below, std::size_t number, const Word& border, Unit unit,
               std::vector<Remark>& mistakes) {
  Piece layer;
  layer.name = {fmt::format("layer {}", number), border.spot};
  layer.on = {below, border.spot};
  const WishReading reading = read_wish(border.text, unit, border.spot);
  if (!reading.wish) {
    mistakes.push_back({border.spot, reading.trouble});
  } else if (reading.wish->same_as) {
    mistakes.push_back({border.spot, "A border in a stack is told in lengths, such as 1/8 or 1/16 to 1/4."});
  } else {
    layer.border.all = reading.wish;
  }
  return layer;
}

// A flat card of nested layers; of use only if no mistakes were added.
Card card_of(const std::vector<Word>& stack, const StackCall& call, std::vector<Remark>& mistakes) {
  const Word& base = stack.front();
  Card card;
  card.unit = unit_of(base.text);
  card.mark = mark_of(call, card.unit);
  card.design.base.fold = {Fold::flat, base.spot};
  const SizeReading size = read_size(base.text, card.unit);
  if (!size.size) {
    mistakes.push_back({base.spot, size.trouble});
  } else if (size.size->width <= 0 || size.size->height <= 0) {
    mistakes.push_back({base.spot, "A base must be wider and taller than 0."});
  } else {
    card.design.base.front = {*size.size, base.text, base.spot, {}};
  }
  if (stack.size() == 1) {
    mistakes.push_back({base.spot, "Nothing lies on this base. Add a border for each layer, such as 1/8."});
  }
  if (stack.size() - 1 > most_pieces) {
    mistakes.push_back({base.spot, fmt::format("A stack has {} layers at most.", most_pieces)});
    return card;
  }
  for (std::size_t i = 1; i < stack.size(); ++i) {
    const std::string below = i == 1 ? "front" : card.design.pieces.back().name.value;
    card.design.pieces.push_back(layer_on(below, i, stack[i], card.unit, mistakes));
  }
  return card;
}

std::string border_text(const PlacedPiece& placed, const Card& card) {
  const auto text = [&](const Rational& value) {
    return length_text(value, card.unit) + (is_multiple(value, card.mark) ? "" : " (between marks)");
  };
  const auto side = [&](const Rational& a, const Rational& b, std::string_view first,
                        std::string_view second) {
    return a == b ? fmt::format("{} {} and {}", text(a), first, second)
                  : fmt::format("{} {}, {} {}", text(a), first, text(b), second);
  };
  const bool alike = placed.from_left == placed.from_right && placed.from_top == placed.from_bottom;
  if (alike && placed.from_left == placed.from_top) return text(placed.from_left);
  return side(placed.from_left, placed.from_right, "left", "right") + ", " +
         side(placed.from_top, placed.from_bottom, "top", "bottom");
}

std::string layers_text(const Card& card, const SizedCard& sized) {
  const auto size = [&](const Rational& width, const Rational& height) {
    return fmt::format("{} x {} {}", length_text(width, card.unit), length_text(height, card.unit),
                       unit_name(card.unit));
  };
  const StatedSize& front = card.design.base.front;
  std::string text =
      fmt::format("{}: {}\n", printable(front.text), size(front.size.width, front.size.height));
  if (sized.versions.empty()) return text;
  for (const PlacedPiece& placed : sized.versions.front().pieces) {
    const bool stated = placed.width_stated && placed.height_stated;
    text += fmt::format("{}: {}, border {}{}\n", placed.piece->name.value, size(placed.width, placed.height),
                        border_text(placed, card), stated ? "" : ", chosen");
  }
  for (const Remark& warning : sized.versions.front().warnings) text += paragraph(warning.says);
  return text;
}

}  // namespace

Answer stack_command(const StackCall& call, const Style& out, const Style& err) {
  const Typed words = typed(call.words);
  const Source source{"", words.line};
  std::vector<Remark> mistakes;
  check_mark(call, mistakes);
  std::list<Card> cards;  // a list, as answers point into their cards
  for (const std::vector<Word>& stack : words.stacks) cards.push_back(card_of(stack, call, mistakes));
  if (cards.empty()) mistakes.push_back({{}, "A stack needs a base, such as \"us A2\"."});
  if (!mistakes.empty()) {
    std::string told;
    for (const Remark& mistake : mistakes) told += "evenmat: " + excerpt(source, mistake, err);
    return {Status::bad_input, call.json ? json_mistakes(mistakes) : "", std::move(told)};
  }

  Answer answer;
  Verdict worst = Verdict::buildable;
  std::list<SizedCard> all;
  std::vector<SizedStack> stacks;
  for (const Card& card : cards) {
    const SizedCard& sized = all.emplace_back(size_card(card, {}));
    worst = worse(worst, sized.verdict);
    stacks.push_back({&card, &sized});
    if (stacks.size() > 1) answer.out += "\n";
    answer.out += sized.verdict == Verdict::conflict ? clash(source, sized, out) : layers_text(card, sized);
  }
  if (call.json) answer.out = json_stacks(stacks);
  if (worst == Verdict::conflict) answer.status = Status::cannot_be_built;
  if (worst == Verdict::undecided) {
    answer.status = Status::limit_reached;
    answer.err = "evenmat: The time limit was reached before all was settled.\n";
  }
  return answer;
}

}  // namespace evenmat
