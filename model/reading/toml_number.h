// A number as TOML writes it, in the plain decimal form that lengths are read from.
#pragma once

#include <string>
#include <string_view>

namespace evenmat::reading {

// `1_000` -> `1000`, `2.5e1` -> `25`, `+1` -> `1`. `trouble` says why there is no plain form: not a finite
// number, not written in tens, or an exponent beyond 30.
struct PlainNumber {
  std::string text;
  std::string trouble;
};
PlainNumber plain_number(std::string_view written);

}  // namespace evenmat::reading
