// A card file with one key stated anew: the key is there, and everything else reads and stands as it did.
#include "model/set_key.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <vector>

#include "tests/catch.h"
#include "tests/model/cards.h"
#include "tests/model/flat.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

// What the file says once the call's words are made true in it.
std::string set(std::string_view file, std::string_view words) {
  const KeyChangeReading reading = read_key_change(words, file);
  INFO(file << "\n" << words << "\n" << reading.trouble);
  REQUIRE(reading.change);
  const auto changed = with_key(file, *reading.change);
  REQUIRE(changed);
  return *changed;
}

std::string refusal(std::string_view file, std::string_view words) {
  const KeyChangeReading reading = read_key_change(words, file);
  INFO(words);
  REQUIRE_FALSE(reading.change);
  return reading.trouble;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// How many lines of `before` are gone, and how many of `after` are new, between a like start and a like end.
std::pair<std::size_t, std::size_t> differing(const std::string& before, const std::string& after) {
  const auto a = lines_of(before), b = lines_of(after);
  std::size_t start = 0, end = 0;
  while (start < std::min(a.size(), b.size()) && a[start] == b[start]) ++start;
  while (end + start < std::min(a.size(), b.size()) && a[a.size() - 1 - end] == b[b.size() - 1 - end]) ++end;
  return {a.size() - start - end, b.size() - start - end};
}

std::vector<std::filesystem::path> card_files() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(std::string(EVENMAT_SOURCE) + "/cases")) {
    const std::filesystem::path& path = entry.path();
    if (path.extension() == ".toml" && path.parent_path().filename() != "leftovers") files.push_back(path);
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string replaced(std::string text, std::string_view old, std::string_view now) {
  for (std::size_t at = text.find(old); at != std::string::npos; at = text.find(old, at + now.size()))
    text.replace(at, old.size(), now);
  return text;
}

// The tables that bear a name, by the way to them: "/layer/0".
std::map<std::string, std::string> named_tables(const Flat& all) {
  std::map<std::string, std::string> tables;
  for (const auto& [way, value] : all) {
    const bool piece = way.starts_with("/layer/") || way.starts_with("/window/");
    if (piece && way.ends_with("/name")) tables[way.substr(0, way.size() - 5)] = value.substr(5);
  }
  return tables;
}

const std::string head = "[base]\nfold = \"side\"\nfront = \"us A2\"\n";

std::string layer(const std::string& keys) {
  return head + "[[layer]]\nname = \"mat\"\non = \"front\"\n" + keys;
}

}  // namespace

TEST_CASE("a key that is stated is stated anew in its place") {
  CHECK(set(layer("border = \"1/8\" # thin\n"), "mat.border=1/4") == layer("border = \"1/4\" # thin\n"));
  CHECK(set(layer("border = '1/8'\n"), "mat.border=at least 1/4") == layer("border = 'at least 1/4'\n"));
  CHECK(set(layer("border = 0.125\n"), "mat.border=0.25") == layer("border = 0.25\n"));
  CHECK(set(layer("border = 0.125 # in\n"), "mat.border=1/4") == layer("border = \"1/4\" # in\n"));
  CHECK(set(layer("border = \"\"\"1/8\"\"\"\n"), "mat.border=1/4") == layer("border = \"\"\"1/4\"\"\"\n"));
  CHECK(set(layer("border = \"\"\"\n1/8\"\"\"\n"), "mat.border=5") == layer("border = \"\"\"5\"\"\"\n"));
  CHECK(set(layer("border = '''1/8'''"), "mat.border=1/4") == layer("border = '''1/4'''"));
  CHECK(set(layer("stamped = true\n"), "mat.stamped=false") == layer("stamped = false\n"));
  CHECK(set(layer("clear-of = [ # all\n  \"a\", # ]\n  \"b\",\n]\n"), "mat.clear-of=[\"a\"]") ==
        layer("clear-of = [\"a\"]\n"));
  CHECK(set(layer("border = { left = \"1/8\" } # {\n"), "mat.border=1/4") == layer("border = \"1/4\" # {\n"));
  CHECK(set(layer("border = \"1/8\"\n"), "base.front=us A7") ==
        replaced(layer("border = \"1/8\"\n"), "us A2", "us A7"));
}

TEST_CASE("a number in place of a text is written as a text") {
  CHECK(set(layer("paper = 'x'\n"), "mat.paper=5") == layer("paper = '5'\n"));
  CHECK(set(layer("border = \"1/8\"\n"), "mat.border.left=1") ==
        layer("border = { left = \"1\", right = \"1/8\", down = \"1/8\" }\n"));
  CHECK(set(layer("clear-of = 'x'\n"), "mat.clear-of=['y']") == layer("clear-of = ['y']\n"));
}

TEST_CASE("a key that is not stated comes after the name on a line of its own") {
  CHECK(set(layer("role = \"mat\"\n"), "mat.border=1/8") ==
        head + "[[layer]]\nname = \"mat\"\nborder = \"1/8\"\non = \"front\"\nrole = \"mat\"\n");
  const std::string bare = head + "[[layer]]\non=\"front\"\nname=\"mat\"";
  CHECK(set(bare, "mat.border=1/8") == bare + "\nborder=\"1/8\"");
  CHECK(set(layer(""), "base.cut-back=1") == replaced(layer(""), "us A2\"\n", "us A2\"\ncut-back = 1\n"));
  CHECK(set(layer(""), "cards=5") == "cards = 5\n" + layer(""));
  CHECK(set("title = \"x\" # y\n" + layer(""), "spare=2") == "title = \"x\" # y\nspare = 2\n" + layer(""));
  CHECK(set("rules = [\n  \"mat.left >= 0\",\n]\n" + layer(""), "cards=5") ==
        "rules = [\n  \"mat.left >= 0\",\n]\ncards = 5\n" + layer(""));
  CHECK(set(layer(""), "limit.thickness=1/4") == layer("") + "\n[limit]\nthickness = \"1/4\"\n");
  CHECK(set(layer("[limit]"), "limit.grams=30") == layer("[limit]\ngrams = 30"));
}

TEST_CASE("a new line keeps to the layout around it") {
  const auto table = [](const std::string& more) {
    return head + "[[layer]]\n  name   = \"mat\"  # m\n" + more +
           "  on     = \"front\"\n  role   = \"mat\"\n";
  };
  CHECK(set(table(""), "mat.border=1/8") == table("  border = \"1/8\"\n"));
  CHECK(set(table(""), "mat.clear-of=[]") == table("  clear-of = []\n"));
  CHECK(set(table(""), "mat.tilt=5") == table("  tilt   = 5\n"));
  const auto tabs = [](const std::string& more) {
    return head + "[[layer]]\n\tname\t=\t'mat'\n" + more + "\ton\t=\t'front'\n";
  };
  CHECK(set(tabs(""), "mat.border=1/8") == tabs("\tborder\t=\t\"1/8\"\n"));
  const std::string windows = replaced(table(""), "\n", "\r\n");
  CHECK(set(windows, "mat.border=1/8") == replaced(table("  border = \"1/8\"\n"), "\n", "\r\n"));
  CHECK(set("\xEF\xBB\xBF" + windows, "mat.border=1/8") ==
        "\xEF\xBB\xBF" + replaced(table("  border = \"1/8\"\n"), "\n", "\r\n"));
  CHECK(set("\xEF\xBB\xBF" + head, "cards=5") ==
        "\xEF\xBB\xBF"
        "cards = 5\n" +
            head);
}

TEST_CASE("one side of a border is changed and the others keep theirs") {
  CHECK(set(layer("border = \"1/8\"\n"), "mat.border.left=1/4") ==
        layer("border = { left = \"1/4\", right = \"1/8\", down = \"1/8\" }\n"));
  CHECK(set(layer("border = '1/8'\n"), "mat.border.down=1/4") ==
        layer("border = { down = '1/4', across = '1/8' }\n"));
  CHECK(set(layer("border = 0.125\n"), "mat.border.top=0.5") ==
        layer("border = { top = 0.5, bottom = 0.125, across = 0.125 }\n"));
  CHECK(set(layer("border = { left = \"1/8\" } # l\n"), "mat.border.left=1/4") ==
        layer("border = { left = \"1/4\" } # l\n"));
  CHECK(set(layer("border = {left=\"1/8\"}\n"), "mat.border.top=1/4") ==
        layer("border = {left=\"1/8\", top=\"1/4\"}\n"));
  CHECK(set(layer("border.left = \"1/8\"\nborder.right = \"1/8\"\n"), "mat.border.left=1/4") ==
        layer("border.left = \"1/4\"\nborder.right = \"1/8\"\n"));
  CHECK(set(layer("border.left   = \"1/8\"\ntilt = 5\n"), "mat.border.right=1/4") ==
        layer("border.left   = \"1/8\"\nborder.right  = \"1/4\"\ntilt = 5\n"));
  CHECK(set(layer("[layer.border]\nleft = \"1/8\"\n"), "mat.border.top=1/4") ==
        layer("[layer.border]\nleft = \"1/8\"\ntop = \"1/4\"\n"));
  CHECK(set(layer(""), "mat.margin.left=1/4") ==
        head + "[[layer]]\nname = \"mat\"\nmargin = { left = \"1/4\" }\non = \"front\"\n");
  CHECK(set(head + "cut-back = \"1\"\n", "base.cut-back.edge=right") ==
        head + "cut-back = { edge = \"right\", by = \"1\" }\n");
  CHECK(set(head + "cut-back = \"1\"\n", "base.cut-back.by=1 1/2") ==
        head + "cut-back = { by = \"1 1/2\" }\n");
}

TEST_CASE("one wish takes the place of a whole table") {
  CHECK(set(layer("border.left = \"1/8\" # l\ntilt = 5\n\"border\".right = '1/8' # r\n"), "mat.border=1/4") ==
        layer("border = \"1/4\" # l\ntilt = 5\n# r\n"));
  CHECK(
      set(layer("[layer.border] # sides\nleft = \"1/8\"\n# none\nright = \"1/8\" # r\n"), "mat.border=1/4") ==
      head + "[[layer]]\nname = \"mat\"\nborder = \"1/4\"\non = \"front\"\n# sides\n# none\n# r\n");
  CHECK(set(layer("border = 1\n"), "mat.border={ left = 1 }") == layer("border = { left = 1 }\n"));
}

TEST_CASE("tables written in braces stay so") {
  const std::string base = "base = { fold = \"side\", front = \"us A2\" }\n";
  const auto file = [&](const std::string& keys) { return base + "layer = [ { " + keys + " } ]\n"; };
  const std::string plain = file("name = \"a\", on = \"front\"");
  CHECK(set(plain, "a.border=1/8") == file("name = \"a\", border = \"1/8\", on = \"front\""));
  CHECK(set(plain, "a.border.left=1/8") == file("name = \"a\", border = { left = \"1/8\" }, on = \"front\""));
  CHECK(set(plain, "base.front=5 x 7") == replaced(plain, "us A2", "5 x 7"));
  CHECK(set(plain, "base.cut-back=1") == replaced(plain, "us A2\"", "us A2\", cut-back = 1"));
  CHECK(set(plain, "cards=5") == plain + "cards = 5\n");
  const std::string dotted = file("name = \"a\", border.left = 1, on = \"front\", border . top = 2");
  CHECK(set(dotted, "a.border=3") == file("name = \"a\", border = 3, on = \"front\""));
  CHECK(set(dotted, "a.border.top=3") == replaced(dotted, "top = 2", "top = 3"));
  CHECK(set(dotted, "a.border.right=3") == replaced(dotted, "top = 2", "top = 2, border . right = 3"));
  CHECK(set(file("name = \"a\", on = \"front\", border = {}"), "a.border.top=3") ==
        file("name = \"a\", on = \"front\", border = { top = 3 }"));
}

TEST_CASE("a base written with dots stays so") {
  const std::string file = "base.fold  = \"side\"\nbase.front = \"us A2\"\ncards = 2\n";
  CHECK(set(file, "base.front=us A7") == replaced(file, "us A2", "us A7"));
  CHECK(set(file, "base.paper=kraft") == replaced(file, "A2\"\n", "A2\"\nbase.paper = \"kraft\"\n"));
  CHECK(set(file, "cards=3") == replaced(file, "2\n", "3\n"));
  CHECK(set(file, "spare=3") == file + "spare = 3\n");
  const std::string cut = "base.fold = \"side\"\nbase.front = \"us A2\"\nbase.cut-back.by = \"1\"\n";
  CHECK(set(cut, "base.cut-back=2") == replaced(cut, "cut-back.by = \"1\"", "cut-back = 2"));
  CHECK(set(cut, "base.cut-back.edge=right") == cut + "base.cut-back.edge = \"right\"\n");
}

TEST_CASE("any name is found and the longest first") {
  const auto file = [](const std::string& name) {
    return head + "[[layer]]\nname = 'a'\non = \"front\"\n[[window]]\nname = " + name + "\nin = \"a\"\n";
  };
  const std::vector<std::pair<std::string, std::string>> names{{"'a.b'", "a.b"},
                                                               {"'a.border'", "a.border"},
                                                               {"'a \"b\"'", "a \"b\""},
                                                               {"\"it's\"", "it's"},
                                                               {"'M\u00E4t \u2713'", "M\u00E4t \u2713"},
                                                               {"'x=y'", "x=y"},
                                                               {"'a.width=1'", "a.width=1"},
                                                               {"'b. '", "b. "}};
  for (const auto& [written, name] : names) {
    const std::string before = file(written);
    const std::string after = set(before, name + ".width=1/2");
    CHECK(after == replaced(before, written + "\n", written + "\nwidth = \"1/2\"\n"));
  }
  const KeyChangeReading longest = read_key_change("a.b.width = 1 = 2", file("'a.b'"));
  REQUIRE(longest.change);
  CHECK(longest.change->name == "a.b");
  CHECK(longest.change->key == "width");
  CHECK(longest.change->value == "1 = 2");
}

TEST_CASE("a value is written so that it reads as what was asked for") {
  const auto value = [](const std::string& words) {
    return flat(set(layer(""), "mat.paper=" + words)).at("/layer/0/paper");
  };
  CHECK(value("lantern print") == "text lantern print");
  CHECK(value("a = b") == "text a = b");
  CHECK(value("4 1/4\"") == "text 4 1/4\"");
  CHECK(value("C:\\x") == "text C:\\x");
  CHECK(value("\"1/8\"") == "text 1/8");
  CHECK(value("'5'") == "text 5");
  CHECK(value("5") == "number 5");
  CHECK(value("-0.5") == "number -0.5");
  CHECK(value("nan") == "text nan");
  CHECK(value("1979-05-27") == "text 1979-05-27");
  CHECK(value("true") == "true");
  CHECK(value("[\"a\", \"b\"]") == "list of 2");
  CHECK(value("5 # five") == "text 5 # five");
  CHECK(value("[1] # one") == "text [1] # one");
  CHECK(value("1, w = 2") == "text 1, w = 2");
  CHECK(value("1 }\n[limit]\ngrams = 3\nx = { y = 1") == "text 1 }\n[limit]\ngrams = 3\nx = { y = 1");
  CHECK(value("[1") == "text [1");
  CHECK(value("\"a\" and \"b\"") == "text \"a\" and \"b\"");
}

TEST_CASE("names and keys that are not there are told with the nearest") {
  const std::string file =
      layer("border = \"even\"\n[[window]]\nname = \"sun\"\nin = \"mat\"\nsize = \"1 x 1\"\n");
  const auto tells = [&](const std::string& words, const std::vector<std::string>& parts) {
    const std::string trouble = refusal(file, words);
    for (const std::string& part : parts) {
      INFO(words << " -> " << trouble << " without " << part);
      CHECK(trouble.find(part) != std::string::npos);
    }
  };
  tells("mta.border=1/8", {"\"mta\" is not a layer or window", "Did you mean \"mat\"?"});
  tells("mta.border.left=1/8", {"\"mta\" is not a layer or window", "Did you mean \"mat\"?"});
  tells("mat.bordr=1/8", {"\"bordr\" is not a key of a layer", "Did you mean \"border\"?"});
  tells("sun.framee=1/8", {"\"framee\" is not a key of a window", "Did you mean \"frame\"?"});
  tells("base.fronts=1/8", {"\"fronts\" is not a key of the base", "Did you mean \"front\"?"});
  tells("mat.margin.lft=1/8", {"\"lft\" is not a key of a table of sides", "Did you mean \"left\"?"});
  tells("base.cut-back.bye=1/8", {"\"bye\" is not a key of a cut-back", "Did you mean \"by\"?"});
  tells("mat.width.left=1/8", {"\"width\" has no parts"});
  tells("mat.border.left=1/8", {"is even here"});
  tells("mat.name=rug", {"keeps its name"});
  tells("mat=1/8", {"\"mat\" does not say which key", "\"mat.width\""});
  tells("border=1/8", {"\"border\" does not say whose it is", "\"mat.border\""});
  tells("card=5", {"\"card\" is neither", "Did you mean \"cards\"?"});
  tells("mat.width", {"does not say what it is to be", "\"mat.width=VALUE\""});
  tells("mat.width= ", {"nothing after the sign"});
  tells("", {"does not say which key"});
  tells("=5", {"does not say which key"});
  CHECK_FALSE(with_key(file, {"rug", "border", "1/8"}));
  CHECK_FALSE(with_key(file, {"mat", "border.left", "1/8"}));
  CHECK_FALSE(with_key("[base", {"", "cards", "5"}));
}

TEST_CASE("every real card with one key set differs in that key alone") {
  const std::vector<std::pair<std::string, std::string>> changes{
      {"border", "3/16"},        {"width", "1 1/2"},      {"height", "7.25"}, {"from-left", "at least 1/8"},
      {"align", "top left"},     {"clear-of", "[\"x\"]"}, {"show", "all"},    {"size", "1 x \"2\""},
      {"clearance", "1/8 to 3"}, {"raised", "0.0625"},    {"copies", "3"},    {"gap", "even"}};
  int made = 0;
  for (const auto& path : card_files()) {
    const std::string original = text_of(path);
    for (const std::string& file :
         {original, "\xEF\xBB\xBF" + replaced(original, "\n", "\r\n"), replaced(original, " = ", "\t=\t")}) {
      const Flat before = flat(file);
      const auto check = [&](const std::string& name, const std::string& way, const std::string& key,
                             const std::string& value) {
        const auto changed = with_key(file, {name, key, value});
        INFO(path << ": " << name << "." << key << " = " << value);
        REQUIRE(changed);
        const Flat after = flat(*changed);
        std::string own = way + "/";
        own += key;
        REQUIRE(without(after, own) == without(before, own));
        const std::string& now = after.at(own);
        const bool told = now == "text " + value || now == "number " + value || now == "list of 1";
        REQUIRE(told);
        const auto [gone, come] = differing(file, *changed);
        REQUIRE(come <= 1);
        if (!before.contains(own)) REQUIRE(gone == 0);
        if (before.contains(own) && !before.contains(own + "/0") && before.at(own) != "table")
          REQUIRE(gone == come);
        ++made;
      };
      for (const auto& [way, name] : named_tables(before))
        for (const auto& [key, value] : changes) check(name, way, key, value);
      check("base", "/base", "front", "us A7 turned");
      check("base", "/base", "cut-back", "1 to 2");
      check("", "", "cards", "7");
      check("", "", "spare", "1");
      check("", "", "mark", "1/32");
    }
  }
  CHECK(made > 3000);
}

TEST_CASE("every real card with one side set keeps the other sides") {
  const std::vector<std::string> sides{"left", "right", "top", "bottom", "across", "down"};
  int made = 0, refused = 0;
  for (const auto& path : card_files()) {
    const std::string file = text_of(path);
    const Flat before = flat(file);
    for (const auto& table : named_tables(before)) {
      const std::string& name = table.second;
      const std::string border = table.first + "/border";
      if (border.starts_with("/window")) continue;
      const auto stated = before.find(border);
      const bool wish = stated != before.end() && stated->second != "table";
      for (const std::string& side : sides) {
        const auto changed = with_key(file, {name, "border." + side, "5/16"});
        INFO(path << ": " << name << "." << side);
        if (wish && stated->second.find("even") != std::string::npos) {
          REQUIRE_FALSE(changed);
          ++refused;
          continue;
        }
        REQUIRE(changed);
        const Flat after = flat(*changed);
        REQUIRE(without(after, border) == without(before, border));
        // What binds each of the four edges.
        const auto binds = [&](const Flat& all, const std::string& edge) {
          const bool across = edge == "left" || edge == "right";
          std::vector<std::string> found;
          for (const std::string& key :
               {std::string(), "/" + edge, std::string(across ? "/across" : "/down")}) {
            const auto own = all.find(border + key);
            if (own != all.end() && own->second != "table") found.push_back(own->second);
          }
          return found;
        };
        for (const std::string edge : {"left", "right", "top", "bottom"}) {
          const bool across = edge == "left" || edge == "right";
          const bool own = edge == side || (across ? side == "across" : side == "down");
          const auto now = binds(after, edge);
          if (own) {
            REQUIRE(std::find(now.begin(), now.end(), "text 5/16") != now.end());
            if (wish) REQUIRE(now.size() == 1);
          } else {
            REQUIRE(now == binds(before, edge));
          }
        }
        ++made;
      }
    }
  }
  CHECK(made > 300);
  CHECK(refused > 5);
}
