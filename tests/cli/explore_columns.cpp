// Rows of facts in columns: what a row does not know leaves its column empty, long headings go on in further
// lines, and nothing is wider than a page.
#include <algorithm>
#include <sstream>

#include "cli/explore/columns.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "tests/catch.h"

using namespace evenmat;

namespace {

const Style plain;

Fact sheets(const std::string& paper, const std::string& count) {
  return {paper, "sheets", count, paper + " " + count + " sheets"};
}

TEST_CASE("a row without a figure leaves its column empty and keeps the others in theirs") {
  std::vector<std::string> alike;
  const std::string text = fact_table(
      {{1, {sheets("white", "4"), {"", "cost", "2", "cost 2"}, {"", "waste", "48 %", "waste 48 %"}}, ""},
       {2, {sheets("white", "5"), {"", "waste", "49 %", "waste 49 %"}}, "as sized"}},
      alike, plain);
  CHECK(text ==
        "      white\n"
        "      sheets  cost  waste\n"
        "  1.  4       2     48 %\n"
        "  2.  5             49 %   as sized\n");
  CHECK(alike.empty());
  // Streamed, the first row says which columns there are.
  const Columns columns({sheets("white", "4"), {"", "cost", "2", ""}, {"", "waste", "48 %", "waste 48 %"}},
                        {}, 2, "as sized");
  CHECK(columns.row({2, {sheets("white", "5"), {"", "waste", "49 %", "waste 49 %"}}, ""}) ==
        "  2.  5             49 %\n");
}

TEST_CASE("a long heading goes on in further lines that end above the figures") {
  std::vector<Fact> facts;
  for (const char* paper : {"harvest moon print", "tower print", "gull card", "slate", "night blue", "fern"})
    facts.push_back(sheets(paper, "12"));
  const std::string heading = Columns(facts, {}, 8, "as sized").heading(plain);
  std::istringstream lines(heading);
  std::string last;
  for (std::string line; std::getline(lines, line); last = line) CHECK(columns(line) <= page_width);
  std::istringstream words(last);
  std::size_t sheets_told = 0;
  for (std::string word; words >> word; ++sheets_told) CHECK(word == "sheets");
  CHECK(sheets_told == facts.size());
  CHECK(heading.find("harvest") != std::string::npos);
}

TEST_CASE("papers with long names and two figures each stand in one row where narrow headings allow it") {
  std::vector<Fact> facts{{"deep mat", "border", "1/16", ""}};
  for (const char* paper : {"river card", "deep blue", "ripple print"}) {
    facts.push_back(sheets(paper, "7"));
    facts.push_back({paper, "cards each", "4", ""});
  }
  facts.push_back({"", "waste", "14 %", ""});
  const Columns table(facts, {}, 8, "as sized");
  const std::string row = table.row({1, facts, "as sized"});
  CHECK(std::count(row.begin(), row.end(), '\n') == 1);
  // No word of a heading is cut short.
  for (const char* word : {"river", "ripple", "sheets", "cards", "each", "border"})
    CHECK(table.heading(plain).find(word) != std::string::npos);
  const Columns narrow({{"narrowest", "border", "1/16", ""}}, {}, 8, "as sized");
  CHECK(narrow.heading(plain).find("narrowest") != std::string::npos);
}

}  // namespace
