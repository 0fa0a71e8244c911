// What is wrong with a call, and the options that several commands read alike.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cli/answer.h"

namespace evenmat {

// A mistake in the call, with the way to its help. `command`: empty for none.
Answer mistaken(const std::string& says, std::string_view command, bool json);

// The seconds of --limit into `value`, or the answer to a call in which they are none. Left as it is where
// there is no such option.
std::optional<Answer> take_limit(const std::string& limit, double& value, std::string_view command,
                                 bool json);

}  // namespace evenmat
