// The options of each command: how they are declared, the examples below them, and what a call with them asks
// for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/call.h"

namespace CLI {
class App;
}

namespace evenmat {

// `add_...`: declares the options, which are read into the words given; these must stay where they are.
// `..._call`: what the words ask for, once they were read, or the mistake in them.

struct SizeWords {
  SizeCall call;
  std::string limit;
};
CLI::App* add_size(CLI::App& app, SizeWords& words);
Call size_call(SizeWords words);
extern const std::string_view size_examples;

struct CheckWords {
  CheckCall call;
  std::string limit, hand, tolerance, mend, choose;
};
CLI::App* add_check(CLI::App& app, CheckWords& words);
Call check_call(const CLI::App& check, CheckWords words);
extern const std::string_view check_examples;

struct ExploreWords {
  ExploreCall call;
  std::vector<std::string> set, vary, write;
  std::string show, best, limit, on, draw;
};
CLI::App* add_explore(CLI::App& app, ExploreWords& words);
Call explore_call(const CLI::App& explore, ExploreWords words);
extern const std::string_view explore_examples;

struct CutWords {
  CutCall call;
  std::string limit, keep;
};
CLI::App* add_cut(CLI::App& app, CutWords& words);
Call cut_call(const CLI::App& cut, CutWords words);
extern const std::string_view cut_examples;

struct DrawWords {
  DrawCall call;
  bool plan = false, worksheet = false, recipe = false, templates = false;
  std::string only, page, dots, limit;
};
CLI::App* add_draw(CLI::App& app, DrawWords& words);
Call draw_call(const CLI::App& draw, DrawWords words);
extern const std::string_view draw_examples;

struct StackWords {
  StackCall call;
  std::string mark;
};
CLI::App* add_stack(CLI::App& app, StackWords& words);
Call stack_call(StackWords words);
extern const std::string_view stack_examples;

}  // namespace evenmat
