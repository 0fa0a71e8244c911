// `evenmat stack BASE BORDER...`: sizes for someone at the table, without a card file.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"

namespace evenmat {

struct StackCall {
  std::vector<std::string>
      words;  // a base, then a border for each layer on top; "," or a word that ends in one divides stacks
  std::optional<std::string> mark;  // unstated: 1/16 in, or 1 mm where the base is in millimetres
  bool json = false;
};

Answer stack_command(const StackCall& call, const Style& out, const Style& err);

}  // namespace evenmat
