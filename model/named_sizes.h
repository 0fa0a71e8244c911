// Paper and card sizes that have a name, each with where its measure comes from.
#pragma once

#include <string>
#include <vector>

#include "model/length.h"

namespace evenmat {

struct NamedSize {
  std::string name;  // says whose it is: "iso A6", "us A2"
  Unit unit;         // in which it is published; `size` is in it
  Size size;         // upright: the shorter side is the width
};

const std::vector<NamedSize>& named_sizes();

}  // namespace evenmat
