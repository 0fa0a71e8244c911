// What lies on the craft table: that it all stands on the pages, and on them in good order. Over every case
// and over cards that are hard on a page.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <tuple>

#include "cli/cut/telling.h"
#include "cli/drawing/render.h"
#include "cli/worksheet/units.h"
#include "cli/worksheet/worksheet.h"
#include "model/versions.h"
#include "tests/catch.h"
#include "tests/cli/cut_plans.h"

using namespace evenmat;
using evenmat::testing::Planned;

namespace {

std::vector<std::filesystem::path> cases() {
  std::vector<std::filesystem::path> all;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(EVENMAT_SOURCE) + "/cases")) {
    if (entry.path().extension() == ".toml") all.push_back(entry.path());
  }
  std::sort(all.begin(), all.end());
  return all;
}

std::string text_of(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

// What states no sheet is cut from one that is large enough.
void state_sheets(Card& card) {
  const Rational side = card.unit == Unit::inch ? 12 : 300;
  std::set<std::string> named;
  for (std::size_t version = 0; version <= card.variants.size(); ++version) {
    const Design& design = design_of(card, version);
    if (design.base.paper) named.insert(design.base.paper->value);
    for (const Piece& piece : design.pieces) {
      if (piece.paper) named.insert(piece.paper->value);
    }
  }
  for (const std::string& name : named) {
    const auto stated = std::find_if(card.papers.begin(), card.papers.end(),
                                     [&](const Paper& paper) { return paper.name.value == name; });
    Paper& paper = stated == card.papers.end() ? card.papers.emplace_back() : *stated;
    paper.name.value = name;
    if (!paper.sheet) paper.sheet = StatedSize{{side, side}, "", {}, {}};
  }
}

// A card file with its plan, ready for the table.
struct Made {
  Planned planned;

  explicit Made(const std::string& text, const std::string& file = "card.toml") { add(text, file); }
  void add(const std::string& text, const std::string& file) {
    CardReading reading = read_card(text);
    REQUIRE(reading.mistakes.empty());
    state_sheets(*reading.card);
    planned.cards.push_back(std::move(*reading.card));
    planned.sized.push_back(size_card(planned.cards.back(), {}));
    REQUIRE(planned.sized.back().verdict == Verdict::buildable);
    planned.batch_cards.push_back({file, &planned.cards.back(), &planned.sized.back()});
    planned.batch = cut_batch(planned.batch_cards, {}, {.limit = 5});
  }
  [[nodiscard]] Drawing worksheet(PageSize size = PageSize::letter) const {
    return evenmat::worksheet(planned.telling(), size);
  }
  [[nodiscard]] Drawing recipe(PageSize size = PageSize::letter, std::size_t version = 0) const {
    return evenmat::recipe(planned.cards.front(), planned.sized.front(), version, size);
  }
};

std::vector<Text> texts(const Page& page) {
  std::vector<Text> all;
  for (const Mark& mark : page.marks) {
    if (const Text* text = std::get_if<Text>(&mark)) all.push_back(*text);
  }
  return all;
}

std::string plain(const std::string& words) { return with_plain_blanks(words); }

bool says(const Drawing& drawing, const std::string& words) {
  return std::any_of(drawing.pages.begin(), drawing.pages.end(), [&](const Page& page) {
    const std::vector<Text> all = texts(page);
    return std::any_of(all.begin(), all.end(), [&](const Text& text) {
      return with_plain_blanks(text.words).find(words) != std::string::npos;
    });
  });
}

// A row of a table with a name and a size in it.
bool has_row(const Drawing& drawing, const std::string& name, const std::string& size) {
  return std::any_of(drawing.pages.begin(), drawing.pages.end(), [&](const Page& page) {
    const std::vector<Text> all = texts(page);
    return std::any_of(all.begin(), all.end(), [&](const Text& named) {
      return named.words == name && std::any_of(all.begin(), all.end(), [&](const Text& sized) {
               return plain(sized.words) == size && std::abs(sized.box.top - named.box.top) < 1;
             });
    });
  });
}

void check_pages(const Drawing& drawing) {
  for (const Page& page : drawing.pages) {
    const Box area = within_margins(page);
    const std::vector<Text> all = texts(page);
    REQUIRE_FALSE(all.empty());
    for (std::size_t i = 0; i < all.size(); ++i) {
      INFO(all[i].words << " at " << all[i].box.left << " " << all[i].box.top << " " << all[i].type.size);
      CHECK(contains(area, all[i].box));
      for (std::size_t j = 0; j < i; ++j) {
        INFO(all[j].words);
        CHECK_FALSE(overlap(all[i].box, all[j].box));
      }
    }
    // A heading is never the last of a page: of all but the footer the lowest.
    const Text* lowest = nullptr;
    for (const Text& text : all) {
      const bool footer = text.box.top > area.bottom() - 12;
      if (!footer && (lowest == nullptr || text.box.bottom() > lowest->box.bottom())) lowest = &text;
    }
    REQUIRE(lowest != nullptr);
    INFO(lowest->words);
    CHECK_FALSE((lowest->type.bold && lowest->type.size >= 9));
  }
}

std::string size_of(const PlacedPiece& placed, Unit unit) {
  return ruler_size({placed.width, placed.height}, unit);
}

void check_all_is_told(const Drawing& drawing, const SizedVersion& version, Unit unit) {
  for (const PlacedPiece& placed : version.pieces) {
    INFO(placed.piece->name.value);
    CHECK(has_row(drawing, placed.piece->name.value, plain(size_of(placed, unit))));
  }
}

bool same_bytes(const Drawing& one, const Drawing& other) {
  return render(one, FileKind::pdf).bytes == render(other, FileKind::pdf).bytes;
}

std::string side_card(const std::string& title, const std::string& layers) {
  return "title = " + title +
         "\nunit = \"in\"\ncards = 3\n[base]\nfold = \"side\"\nfront = \"us A2\"\npaper = \"ivory\"\n" +
         layers;
}

std::string layer(const std::string& name, const std::string& on, const std::string& more = "") {
  return "[[layer]]\nname = " + name + "\non = " + on + "\npaper = \"ivory\"\n" + more + "\n";
}

}  // namespace

TEST_CASE("Every case has a worksheet whose words stand apart and within its margins") {
  for (const std::filesystem::path& path : cases()) {
    INFO(path.string());
    const Made made(text_of(path));
    const PageSize size = made.planned.cards.front().unit == Unit::inch ? PageSize::letter : PageSize::a4;
    const Drawing drawing = made.worksheet(size);
    check_pages(drawing);
    CHECK(drawing.pages.size() >= 2);
    CHECK(drawing.pages.size() <= 10);
    CHECK(same_bytes(drawing, made.worksheet(size)));
    const SizedCard& sized = made.planned.sized.front();
    std::size_t first = 0;
    while (made.planned.batch.made[0][first] == 0 && first + 1 < sized.versions.size()) ++first;
    check_all_is_told(drawing, sized.versions[first], made.planned.cards.front().unit);
  }
}

TEST_CASE("Every case has a recipe of one or two pages that tells each layer in both units") {
  for (const std::filesystem::path& path : cases()) {
    INFO(path.string());
    const Made made(text_of(path));
    const Unit unit = made.planned.cards.front().unit;
    for (std::size_t version = 0; version < made.planned.sized.front().versions.size(); ++version) {
      const SizedVersion& sized = made.planned.sized.front().versions[version];
      for (const PageSize size : {PageSize::letter, PageSize::a4}) {
        const Drawing drawing = made.recipe(size, version);
        check_pages(drawing);
        CHECK(drawing.pages.size() <= 2);
        CHECK(same_bytes(drawing, made.recipe(size, version)));
        check_all_is_told(drawing, sized, unit);
        for (const PlacedPiece& placed : sized.pieces) {
          INFO(placed.piece->name.value);
          CHECK(says(drawing, with_plain_blanks(other_size({placed.width, placed.height}, unit))));
        }
      }
    }
  }
}

TEST_CASE("A recipe counts no sheets and a worksheet does") {
  const Made made(text_of(std::string(EVENMAT_SOURCE) + "/cases/swift-tower.toml"));
  CHECK(says(made.worksheet(), "6 sheets of 11 x 8 1/2"));
  CHECK(says(made.worksheet(), "6 cards"));
  const Drawing drawing = made.recipe();
  CHECK_FALSE(says(drawing, "sheet"));
  CHECK_FALSE(says(drawing, "6 cards"));
}

TEST_CASE("What is cut stands under its paper with its number and what it is for") {
  const Planned planned = evenmat::testing::three_sheets();
  const Drawing drawing = worksheet(planned.telling(), PageSize::letter);
  CHECK(says(drawing, "3 sheets of 8 1/2 x 11, the fewest possible."));
  CHECK(has_row(drawing, "moss mat", "4 x 5 1/4"));
  CHECK(has_row(drawing, "moss mat", "11"));
  CHECK(has_row(drawing, "base", "it states no paper"));
  CHECK(says(drawing, "ribbon: 22"));
  CHECK(says(drawing, "foam, under all raised layers: 12.5 square inches"));
  CHECK(says(drawing, "10 cards and 1 spare: the plain card 7, for the choir 4"));
  // The steps, as the report has them.
  CHECK(says(
      drawing,
      "Set 5 1/4 along the 11 side. 2 sheets, 2 cuts each: 4 strips 8 1/2 x 5 1/4; scrap 1/2; tape it."));
  CHECK(says(drawing, "Done together: steps 1 and 2 of A and B."));
}

TEST_CASE("What states no paper is listed with its size and how many of it there are") {
  const std::string none =
      "unit = \"in\"\ncards = 3\n[base]\nfold = \"side\"\nfront = \"us A2\"\n[[layer]]\nname = \"mat\"\n"
      "on = \"front\"\nborder = \"1/8\"\n[[layer]]\nname = \"dot\"\non = \"mat\"\nsize = \"1 x 1\"\n"
      "copies = 2\ngap = \"1/4\"\n";
  const Drawing drawing = Made(none).worksheet();
  check_pages(drawing);
  CHECK(says(drawing, "No paper is stated, so no sheets are counted"));
  for (const auto& [name, size, count] :
       {std::tuple("base", "8 1/2 x 5 1/2", "3"), std::tuple("mat", "4 x 5 1/4", "3"),
        std::tuple("dot", "1 x 1", "6")}) {
    INFO(name);
    CHECK(has_row(drawing, name, size));
    CHECK(has_row(drawing, name, count));
    CHECK(has_row(drawing, name, "it states no paper"));
  }
}

TEST_CASE("A worksheet of which no card can be cut says what is missing and lists no pieces") {
  Made made(text_of(std::string(EVENMAT_SOURCE) + "/cases/swift-tower.toml"));
  for (Paper& paper : made.planned.cards.front().papers) {
    if (paper.have) paper.have->value = 0;
  }
  made.planned.batch = cut_batch(made.planned.batch_cards, {}, {.limit = 5});
  REQUIRE(cards_made(made.planned.batch) == 0);
  const Drawing drawing = made.worksheet();
  check_pages(drawing);
  const auto count = [&](const std::string& words) {
    std::ptrdiff_t times = 0;
    for (const Page& page : drawing.pages) {
      const std::vector<Text> all = texts(page);
      times += std::count_if(all.begin(), all.end(),
                             [&](const Text& one) { return one.words.find(words) != std::string::npos; });
    }
    return times;
  };
  CHECK(count("There is not paper enough") == 1);
  CHECK(count("So nothing is cut yet") == 1);
  for (const char* left_out :
       {"To cut", "First, one card", "The sheets as they are cut", "Supplies for the batch"}) {
    INFO(left_out);
    CHECK(count(left_out) == 0);
  }
  CHECK(count("Where each layer goes") == 1);
}

TEST_CASE("A paper with blanks in its name keeps them where its first card is told") {
  std::string text = side_card("\"Blanks\"", layer("\"mat\"", "\"front\"", "border = \"1/8\""));
  for (std::size_t at = 0; (at = text.find("ivory", at)) != std::string::npos; at += 6)
    text.replace(at, 5, "a  b c");
  const Drawing drawing = Made(text).worksheet();
  CHECK(says(drawing, "a  b c: one B, steps 2 to 5: base, mat"));
}

TEST_CASE("Places on a worksheet are such as a ruler shows and no sign stands beside them") {
  CHECK(ruler_length(Rational(94359) / 1000, Unit::millimetre) == "about 94.5");
  CHECK(ruler_length(Rational(21) / 2, Unit::millimetre) == "10.5");
  CHECK(ruler_length(Rational(277) / 10, Unit::millimetre) == "27.7");
  CHECK(ruler_length(-Rational(32) / 3, Unit::millimetre) == "about -10.5");
  CHECK(ruler_length(Rational(5) / 64, Unit::inch) == "5/64");
  CHECK(ruler_length(Rational(1) / 3, Unit::inch) == "about 11/32");
  CHECK(with_plain_blanks(ruler_size({Rational(1) / 3, 2}, Unit::inch)) == "about 11/32 x 2");
  const Made made(text_of(std::string(EVENMAT_SOURCE) + "/cases/kite-day.toml"));
  const Drawing drawing = made.worksheet(PageSize::a4);
  CHECK(says(drawing, "about"));
  for (const Page& page : drawing.pages) {
    for (const Text& one : texts(page)) {
      INFO(one.words);
      CHECK(one.words.find_first_of("~^") == std::string::npos);
    }
  }
}

TEST_CASE("Worksheet and recipe warn of blade and adhesive and heat and give way to makers and local rules") {
  const Made made(text_of(std::string(EVENMAT_SOURCE) + "/cases/swift-tower.toml"));
  for (const Drawing& drawing : {made.worksheet(), made.recipe()}) {
    for (const char* words :
         {"Keep fingers behind the guard or the rule", "Windows and corners: a sharp knife",
          "Adhesives and inks:", "Heat tools:", "as its maker says", "come before this page",
          "in a school or a workplace its own rules come first"}) {
      INFO(words);
      CHECK(says(drawing, words));
    }
  }
}

// 32.5 - 6 = 26.5 mm and 22 - 6 = 16 mm, by the sixteenth of an inch 1 1/16 and 5/8; the window in the flat
// blank 1 1/4 and 7/8.
TEST_CASE("A recipe tells by the other ruler too where a window is cut and where lies what it shows") {
  const Drawing drawing = Made(text_of(std::string(EVENMAT_SOURCE) + "/cases/porthole.toml")).recipe();
  CHECK(says(drawing, "in inches: about 1 1/16 from the left and about 5/8 from the top of the inside"));
  CHECK(says(drawing, "porthole about 2 3/4 x 2 3/4, about 1 1/4 from the left and about 7/8 from the top"));
}

TEST_CASE("A variant is told by what differs from the plain card") {
  const Made made(text_of(std::string(EVENMAT_SOURCE) + "/cases/lantern-thanks.toml"));
  const Drawing drawing = made.worksheet();
  CHECK(says(drawing, "for the drummers (4 cards)"));
  CHECK(says(drawing, "As the plain card, but for this:"));
  CHECK(says(drawing, "Left out: lantern"));
  CHECK(says(drawing, "As the plain card, without what is left out."));
  CHECK(says(drawing, "only for the drummers"));
  CHECK(says(drawing, "the plain card 7, for the drummers 4; rough"));
  CHECK(says(drawing, "of drum print"));
}

TEST_CASE("Cards of several files are told one after the other by their names") {
  Made made(text_of(std::string(EVENMAT_SOURCE) + "/cases/swift-tower.toml"), "swift.toml");
  made.add(text_of(std::string(EVENMAT_SOURCE) + "/cases/lantern-thanks.toml"), "lantern.toml");
  const Drawing drawing = made.worksheet();
  check_pages(drawing);
  CHECK(says(drawing, "Cut together: 2 card files"));
  CHECK(says(drawing, "The swifts are back: Where each layer goes"));
  CHECK(says(drawing, "Lantern walk thank-you: To put together"));
  CHECK(says(drawing, "label (The swifts are back)"));
}

TEST_CASE("Names that are long or strange stay whole on the pages") {
  const std::vector<std::string> names = {
      std::string(60, 'm'),
      "un nom d'été très long, pour voir où il se casse à la ligne!",
      "燈籠紙牌燈籠紙牌燈籠紙牌燈籠紙牌燈籠紙牌燈籠紙牌燈籠紙牌燈籠紙牌",
      "بطاقة شكر للفوانيس",
      "a <b> & \"quoted\" 'name' %s {}",
      "bell\x07 and \x1b[31m red",
  };
  const auto quoted = [](const std::string& name) {
    std::string text = "\"";
    for (const char c : name) {
      if (c == '"') {
        text += "\\\"";
      } else if (static_cast<unsigned char>(c) < 0x20) {
        text += c == '\x07' ? "\\u0007" : "\\u001b";
      } else {
        text += c;
      }
    }
    return text + "\"";
  };
  for (std::size_t first = 0; first < names.size(); first += 3) {
    std::string layers;
    std::string on = "\"front\"";
    for (std::size_t i = first; i < std::min(first + 3, names.size()); ++i) {
      layers += layer(quoted(names[i]), on, "border = \"1/8\"");
      on = quoted(names[i]);
    }
    const std::string& title = names[first + 1];
    INFO(title);
    const Made made(side_card(quoted(title), layers));
    for (const PageSize size : {PageSize::letter, PageSize::a4}) {
      const Drawing drawing = made.worksheet(size);
      check_pages(drawing);
      check_pages(made.recipe(size));
      check_all_is_told(drawing, made.planned.sized.front().versions.front(), Unit::inch);
      check_all_is_told(made.recipe(size), made.planned.sized.front().versions.front(), Unit::inch);
    }
  }
}

TEST_CASE("A name longer than a page is cut short and leaves the pages in order") {
  const std::string name(3900, 'w');
  const Made made(side_card("\"long\"", layer('"' + name + '"', "\"front\"", "border = \"1/8\"")));
  check_pages(made.worksheet());
  check_pages(made.recipe());
}

TEST_CASE("Forty layers go on from page to page with the heads of their table") {
  std::string layers;
  std::string on = "\"front\"";
  for (int i = 1; i <= 40; ++i) {
    const std::string name = "\"leaf " + std::to_string(i) + "\"";
    layers += layer(name, on, "border = \"1/16\"");
    on = name;
  }
  std::string text = side_card("\"Forty leaves\"", layers);
  text.replace(text.find("us A2"), 5, "8 1/2 x 11");
  const Made made(text);
  const Drawing drawing = made.worksheet();
  check_pages(drawing);
  check_all_is_told(drawing, made.planned.sized.front().versions.front(), Unit::inch);
  const Drawing recipe = made.recipe();
  check_pages(recipe);
  check_all_is_told(recipe, made.planned.sized.front().versions.front(), Unit::inch);
  // Wherever a page has a row of the table, its heads stand above.
  int pages = 0;
  for (const Page& page : recipe.pages) {
    const std::vector<Text> all = texts(page);
    const auto at = [&](const std::string& words) {
      const auto found =
          std::find_if(all.begin(), all.end(), [&](const Text& one) { return one.words == words; });
      return found == all.end() ? -1.0 : found->box.top;
    };
    const auto row = std::find_if(all.begin(), all.end(),
                                  [](const Text& one) { return one.words.starts_with("on leaf"); });
    if (row == all.end()) continue;
    ++pages;
    CHECK(std::count_if(all.begin(), all.end(),
                        [](const Text& one) { return one.words == "width x height"; }) == 1);
    CHECK(at("width x height") < row->box.top);
  }
  CHECK(pages >= 2);
}

TEST_CASE("Lengths in the other unit are rounded to its ruler and say so") {
  CHECK(other_length(1, Unit::inch) == "about 25.5");
  CHECK(other_length(5, Unit::inch) == "127");
  CHECK(other_length(0, Unit::inch) == "0");
  CHECK(other_length(Rational(1) / 8, Unit::inch) == "about 3");
  CHECK(other_length(Rational(-1) / 8, Unit::inch) == "about -3");
  CHECK(other_length(127, Unit::millimetre) == "5");
  CHECK(other_length(148, Unit::millimetre) == "about 5 13/16");
  CHECK(with_plain_blanks(other_size({5, Rational(21) / 4}, Unit::inch)) == "about 127 x 133.5");
  CHECK(with_plain_blanks(other_size({5, 10}, Unit::inch)) == "127 x 254");
}
