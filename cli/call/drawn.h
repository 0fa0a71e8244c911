// Names of drawings in a call.
#pragma once

#include <string>

namespace evenmat {

// What is wrong with the ending of a name, by which a drawing's format is told, in a sentence; empty if
// nothing is.
std::string trouble_with_ending(const std::string& out);

}  // namespace evenmat
