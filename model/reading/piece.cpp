#include <algorithm>
#include <array>

#include "model/reading/parts.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

constexpr int most_copies = 600;

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (char c : std::string(text) + " ") {
    const bool apart = c == ' ' || c == '\t' || c == '-' || c == ',';
    if (!apart) word += c;
    if (apart && !word.empty()) words.push_back(std::exchange(word, {}));
  }
  return words;
}

// `left`, `top right`, `centre`, `centre across`, `left centre`: empty where the words do not go together.
std::optional<Alignment> alignment_of(const std::vector<std::string>& words) {
  Alignment alignment;
  bool loose_centre = false;
  const auto set = [](Along& axis, Along where) {
    if (axis != Along::unstated) return false;
    axis = where;
    return true;
  };
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    const std::string next = i + 1 < words.size() ? words[i + 1] : std::string();
    bool fits = false;
    if (word == "left" || word == "right") {
      fits = set(alignment.across, word == "left" ? Along::low : Along::high);
    } else if (word == "top" || word == "bottom") {
      fits = set(alignment.down, word == "top" ? Along::low : Along::high);
    } else if (word == "centre" || word == "center") {
      if (next == "across" || next == "down") {
        fits = set(next == "across" ? alignment.across : alignment.down, Along::centre);
        ++i;
      } else {
        fits = !std::exchange(loose_centre, true);
      }
    }
    if (!fits) return std::nullopt;
  }
  if (loose_centre) {
    const bool across_open = set(alignment.across, Along::centre);
    const bool down_open = set(alignment.down, Along::centre);
    if (!across_open && !down_open) return std::nullopt;
  }
  if (words.empty()) return std::nullopt;
  return alignment;
}

Maybe<Alignment> read_align(Table& table, Context& context) {
  const auto text = table.text("align");
  if (!text) return std::nullopt;
  if (const auto alignment = alignment_of(words_of(text->value)))
    return Stated<Alignment>{*alignment, text->spot};
  const std::vector<std::string> all{"left",         "right",         "top",          "bottom",
                                     "centre",       "centre across", "centre down",  "top left",
                                     "top right",    "bottom left",   "bottom right", "left centre",
                                     "right centre", "top centre",    "bottom centre"};
  context.mistake(text->spot, in_quotes(text->value) + " is no place to align to." + offer(text->value, all));
  return std::nullopt;
}

Maybe<Rational> read_ratio(Table& table, const Value& piece, Context& context) {
  const Entry* entry = piece.find("ratio");
  const std::size_t colon = entry == nullptr ? std::string::npos : entry->value.text.find(':');
  if (entry == nullptr || entry->value.kind != Value::Kind::text || colon == std::string::npos)
    return table.number("ratio", Bound::positive);
  const auto text = table.text("ratio");
  if (!text) return std::nullopt;
  const auto side = [](std::string_view part) {
    const LengthReading inches = read_length(part, Unit::inch);
    const bool plain = inches.value && inches.value == read_length(part, Unit::millimetre).value;
    return plain && *inches.value > 0 ? inches.value : std::nullopt;
  };
  const auto width = side(std::string_view(text->value).substr(0, colon));
  const auto height = side(std::string_view(text->value).substr(colon + 1));
  if (width && height) return Stated<Rational>{Rational(*width / *height), text->spot};
  context.mistake(text->spot, in_quotes(text->value) +
                                  " is not a ratio of width to height. Write two numbers above 0: 3:4.");
  return std::nullopt;
}

Maybe<Rational> read_tilt(Table& table, Context& context) {
  auto tilt = table.number("tilt", Bound::any, "an angle in degrees, clockwise, such as 4.5");
  if (!tilt || (tilt->value >= -360 && tilt->value <= 360)) return tilt;
  context.mistake(tilt->spot, "A tilt is in degrees, clockwise. Write a number from -360 to 360.");
  return std::nullopt;
}

Maybe<Show> read_show(Table& table, Context& context) {
  const auto text = table.text("show");
  if (!text) return std::nullopt;
  const std::string small = small_letters(trimmed(text->value));
  Show show;
  show.text = std::string(trimmed(text->value));
  constexpr std::string_view phrase = "at least ";
  if (small == "all") {
    show.at_least = 1;
  } else if (small.starts_with(phrase)) {
    const std::string_view part = std::string_view(small).substr(phrase.size());
    const bool percent = part.ends_with("%");
    const std::string_view bare = part.substr(0, part.size() - (percent ? 1 : 0));
    const LengthReading share = read_length(bare, Unit::inch);
    if (share.value && share.value == read_length(bare, Unit::millimetre).value)
      show.at_least = percent ? Rational(*share.value / 100) : *share.value;
  }
  if (show.at_least && *show.at_least > 0 && *show.at_least <= 1) return Stated<Show>{show, text->spot};
  context.mistake(text->spot,
                  in_quotes(text->value) +
                      R"( is no share to be seen. Write "all", or a part of 1 such as "at least 3/4".)");
  return std::nullopt;
}

// `top of NAME`, or NAME alone. A declared name is never taken apart.
LevelWith level_with(const Name& stated, Context& context) {
  const auto& names = context.names;
  const auto declared = [&](std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  if (declared(stated.value)) return {Line::centre_down, stated};
  const std::size_t of = stated.value.find(" of ");
  if (of == std::string::npos) return {Line::centre_down, stated};
  std::string word = small_letters(trimmed(std::string_view(stated.value).substr(0, of)));
  std::replace(word.begin(), word.end(), '-', ' ');
  if (word.starts_with("center")) word.replace(0, 6, "centre");
  std::string name(trimmed(std::string_view(stated.value).substr(of + 4)));
  if (name.size() > 1 && name.starts_with("'") && name.ends_with("'")) name = name.substr(1, name.size() - 2);
  const Words<Line> lines{{"left", Line::left},
                          {"right", Line::right},
                          {"top", Line::top},
                          {"bottom", Line::bottom},
                          {"centre", Line::centre_down},
                          {"centre across", Line::centre_across},
                          {"centre down", Line::centre_down}};
  std::vector<std::string> words;
  for (const auto& [line_word, line] : lines) {
    if (word == line_word) return {line, {name, stated.spot}};
    words.push_back(line_word);
  }
  if (!declared(name)) return {Line::centre_down, stated};
  context.mistake(stated.spot,
                  in_quotes(word) + " is no edge or centre to be level with." + offer(word, words));
  return {Line::centre_down, {name, stated.spot}};
}

void read_size_keys(Piece& piece, Table& table, const Value& value, Context& context) {
  piece.size = table.size("size");
  piece.width = table.wish("width", {Bound::positive});
  piece.height = table.wish("height", {Bound::positive});
  piece.ratio = read_ratio(table, value, context);
}

void read_place_keys(Piece& piece, Table& table, Context& context) {
  piece.align = read_align(table, context);
  piece.from_left = table.wish("from-left", {Bound::any});
  piece.from_right = table.wish("from-right", {Bound::any});
  piece.from_top = table.wish("from-top", {Bound::any});
  piece.from_bottom = table.wish("from-bottom", {Bound::any});
  const std::array<std::pair<const char*, Edge>, 4> sides{
      {{"above", Edge::top}, {"below", Edge::bottom}, {"left-of", Edge::left}, {"right-of", Edge::right}}};
  for (const auto& [key, side] : sides)
    for (Name& name : table.names(key)) piece.beside.push_back({side, std::move(name)});
  piece.gap = table.wish("gap", {Bound::not_negative, true});
  for (const Name& name : table.names("level-with")) piece.level_with.push_back(level_with(name, context));
  piece.clear_of = table.names("clear-of");
  piece.clearance = table.wish("clearance", {Bound::not_negative});
}

void read_paper_keys(Piece& piece, Table& table, Context& context) {
  const Words<Cut> cuts{{"trimmer", Cut::trimmer},
                        {"by hand", Cut::by_hand},
                        {"die", Cut::die},
                        {"ready-made", Cut::ready_made}};
  piece.paper = table.text("paper");
  if (const auto cut = table.word("cut", cuts)) piece.cut = cut->value;
  piece.raised = table.thickness("raised", Bound::not_negative);
  piece.adhesive = table.thickness("adhesive", Bound::not_negative);
  piece.show = read_show(table, context);
  piece.stamped = table.truth("stamped");
  piece.hollow = table.truth("hollow");
  piece.stamp_first = table.truth("stamp-first");
}

void read_layer_keys(Piece& piece, Table& table, Context& context) {
  const Words<Role> roles{{"mat", Role::mat},
                          {"panel", Role::panel},
                          {"strip", Role::strip},
                          {"sentiment", Role::sentiment},
                          {"image", Role::image}};
  if (const auto role = table.word("role", roles)) piece.role = role->value;
  piece.border = table.sides("border", {Bound::not_negative, true});
  piece.artwork = table.size("artwork");
  piece.margin = table.sides("margin", {Bound::not_negative, true});
  piece.over = table.names("over");
  piece.overhang = table.wish("overhang", {Bound::not_negative});
  piece.tuck = table.wish("tuck", {Bound::not_negative});
  piece.copies = table.count("copies", 1, most_copies);
  piece.columns = table.count("columns", 1, most_copies);
  piece.tilt = read_tilt(table, context);
  read_paper_keys(piece, table, context);
}

// Keys that say nothing without another one would be left unheard.
void check_companions(const Piece& piece, const Value& value, Context& context) {
  const auto has = [&](std::string_view key) { return value.find(key) != nullptr; };
  const auto lonely = [&](const char* key, const std::string& says) {
    context.mistake(value.find(key)->value.spot, says);
  };
  const bool beside = has("above") || has("below") || has("left-of") || has("right-of");
  if (has("gap") && !beside && !has("copies")) {
    lonely("gap",
           "This gap does not say to what. Add below, above, left-of or right-of with a name, or copies.");
  }
  if (has("clearance") && !has("clear-of"))
    lonely("clearance", "This clearance does not say of what. Add clear-of with a name.");
  if (has("margin") && !has("artwork"))
    lonely("margin", "A margin is around an artwork, and none is stated. Add artwork with its size.");
  if (has("columns") && !has("copies"))
    lonely("columns", "Columns are of copies, and none are stated. Add copies with their number.");
  if (piece.copies && piece.columns && piece.columns->value > piece.copies->value) {
    lonely("columns",
           "There are more columns than copies. State " + std::to_string(piece.copies->value) + " or fewer.");
  }
}

}  // namespace

Piece read_piece(const Value& value, Piece::Kind kind, Context& context) {
  const bool layer = kind == Piece::Kind::layer;
  Table table(value, layer ? "a layer" : "a window", context);
  Piece piece;
  piece.kind = kind;
  const std::string what = layer ? "This layer" : "This window";
  if (!table.has("name")) context.mistake(value.spot, what + " has no name. Add name = \"...\".");
  piece.name = table.text("name").value_or(Name{});
  const char* on = layer ? "on" : "in";
  if (!table.has(on)) {
    context.mistake(value.spot, layer ? what + " does not say what it is on. Add on = \"front\"."
                                      : what + " does not say what it is cut in. Add in = \"front\".");
  }
  piece.on = table.text(on).value_or(Name{});
  read_size_keys(piece, table, value, context);
  if (layer) read_layer_keys(piece, table, context);
  read_place_keys(piece, table, context);
  if (!layer) {
    piece.frame = table.wish(
        "frame", {Bound::positive, true, true, "that leaves no paper around the window to hold it"});
  }
  check_companions(piece, value, context);
  table.finish();
  return piece;
}

}  // namespace evenmat::reading
