// What the program is asked to do: its commands and their options, and the help that shows them.
#pragma once

#include <variant>

#include "cli/answer.h"
#include "cli/check_command.h"
#include "cli/cut_command.h"
#include "cli/draw_command.h"
#include "cli/explore_command.h"
#include "cli/size_command.h"
#include "cli/stack_command.h"

namespace evenmat {

// An Answer where the call itself leads to one: help, the version, or a mistake in it.
using Call = std::variant<Answer, SizeCall, CheckCall, ExploreCall, CutCall, DrawCall, StackCall>;

Call read_call(int count, const char* const* words);

}  // namespace evenmat
