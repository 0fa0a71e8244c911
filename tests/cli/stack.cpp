// `evenmat stack`: sizes at the table, without a file.
#include <nlohmann/json.hpp>

#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using testing::Run;
using testing::run;

namespace {

using Json = nlohmann::json;

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a stack is answered in one line a layer") {
  const Run told = run({"stack", "us A2", "1/8", "1/16"});
  CHECK(told.status == 0);
  CHECK(told.err.empty());
  CHECK(told.out ==
        "us A2: 4 1/4 x 5 1/2 in\n"
        "layer 1: 4 x 5 1/4 in, border 1/8\n"
        "layer 2: 3 7/8 x 5 1/8 in, border 1/16\n");
}

// Common practice: a 2 3/4 x 1 greeting with an even 1/8 border takes a 3 x 1 1/4 mat.
TEST_CASE("a base may be any size, in either unit") {
  CHECK(has(run({"stack", "3 x 1 1/4", "1/8"}).out, "layer 1: 2 3/4 x 1 in, border 1/8\n"));
  CHECK(run({"stack", "iso A6", "3", "2"}).out ==
        "iso A6: 105 x 148 mm\n"
        "layer 1: 99 x 142 mm, border 3\n"
        "layer 2: 95 x 138 mm, border 2\n");
  CHECK(has(run({"stack", "105 mm x 14.8 cm", "3"}).out, "layer 1: 99 x 142 mm, border 3\n"));
  CHECK(has(run({"stack", "us A2 turned", "1/8"}).out, "layer 1: 5 1/4 x 4 in, border 1/8\n"));
}

TEST_CASE("a border may be a wish, and what was chosen says so") {
  CHECK(has(run({"stack", "us A2", "1/16 to 1/8, about 1/8"}).out,
            "layer 1: 4 x 5 1/4 in, border 1/8, chosen\n"));
  CHECK(has(run({"stack", "us A2", "1/8", "at least 1/16"}).out, ", chosen\n"));
}

TEST_CASE("several stacks are divided by a comma, alone or at the end of a word") {
  const std::string two =
      "us A2: 4 1/4 x 5 1/2 in\n"
      "layer 1: 4 x 5 1/4 in, border 1/8\n"
      "\n"
      "us A7: 5 x 7 in\n"
      "layer 1: 4 1/2 x 6 1/2 in, border 1/4\n";
  CHECK(run({"stack", "us A2", "1/8", ",", "us A7", "1/4"}).out == two);
  CHECK(run({"stack", "us A2", "1/8,", "us A7", "1/4"}).out == two);
  CHECK(run({"stack", "us A2", "1/8,", "us A7", "1/4", ","}).out == two);
}

TEST_CASE("sizes fall on the mark, and it may be told") {
  const Run odd = run({"stack", "us A2", "1/10"});
  CHECK(odd.status == 1);
  CHECK(odd.err.empty());
  CHECK(has(odd.out, "cannot be built as stated"));
  CHECK(has(odd.out, "evenmat stack \"us A2\" 1/10\n"));
  CHECK(has(run({"stack", "us A2", "1/10", "--mark", "1/20"}).out,
            "layer 1: 4 1/20 x 5 3/10 in, border 1/10\n"));
  CHECK(run({"stack", "us A2", "--mark", "1/32", "1/64"}).status == 0);
}

TEST_CASE("the JSON of stacks has the first on top and every one in a list") {
  const Json json = Json::parse(run({"stack", "us A2", "1/8", ",", "iso A6", "3", "2", "--json"}).out);
  CHECK(json.at("verdict") == "buildable");
  CHECK(json.at("unit") == "in");
  CHECK(json.at("layers").size() == 1);
  CHECK(json.at("layers").at(0).at("width") == "4");
  REQUIRE(json.at("stacks").size() == 2);
  CHECK(json.at("stacks").at(0).at("layers") == json.at("layers"));
  CHECK(json.at("stacks").at(1).at("unit") == "mm");
  CHECK(json.at("stacks").at(1).at("layers").at(1).at("height") == "138");

  const Run worst = run({"stack", "us A2", "1/8", ",", "us A2", "3", "--json"});
  CHECK(worst.status == 1);
  CHECK(Json::parse(worst.out).at("verdict") == "conflict");
  CHECK(Json::parse(worst.out).at("stacks").at(0).at("verdict") == "buildable");
}

TEST_CASE("a stack that cannot be built says so beside those that can") {
  const Run told = run({"stack", "us A2", "1/8", ",", "us A2", "3"});
  CHECK(told.status == 1);
  CHECK(has(told.out, "layer 1: 4 x 5 1/4 in, border 1/8\n"));
  CHECK(has(told.out, "cannot be built as stated"));
  CHECK(has(told.out,
            "  evenmat stack \"us A2\" 1/8 , \"us A2\" 3\n"
            "                                      ^\n"));
}

TEST_CASE("mistakes in a stack are pointed at, all of them") {
  const Run told = run({"stack", "us A9", "1/l6", ",", "0 x 3", "same as layer 1"});
  CHECK(told.status == 2);
  CHECK(told.out.empty());
  CHECK(has(told.err, "\"us A9\""));
  CHECK(has(told.err,
            "  evenmat stack \"us A9\" 1/l6 , \"0 x 3\" \"same as layer 1\"\n"
            "                        ^\n"));
  CHECK(has(told.err, "wider and taller than 0"));
  CHECK(has(told.err, "told in lengths"));

  CHECK(has(run({"stack", "us A2"}).err, "Nothing lies on this base."));
  CHECK(has(run({"stack", "us A2", "1/8", "--mark", "x"}).err, "The mark: \"x\" is not a length."));
  CHECK(has(run({"stack", "us A2", "1/8", "--mark", "0"}).err, "The mark must be more than 0."));
  CHECK(has(run({"stack", ","}).err, "A stack needs a base"));
  CHECK(run({"stack", "A2", "1/8"}).status == 2);
  CHECK(run({"stack", "us A2", "1/8", std::string(1000, '9')}).status == 2);
  CHECK(run(std::vector<std::string>(700, "1/8")).status == 2);
}

TEST_CASE("a stack has as many layers as a card file at most") {
  std::vector<std::string> words(701, "1/1000");
  words[0] = "stack";
  words[1] = "us A2";
  const Run told = run(words);
  CHECK(told.status == 2);
  CHECK(has(told.err, "layers at most"));
}
