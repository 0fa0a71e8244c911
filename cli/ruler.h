// Lengths as a report prints them, with a sign beside each that is not simply a stated length on a mark.
#pragma once

#include <string>
#include <utility>

#include "model/length.h"
#include "model/rational.h"

namespace evenmat {

class Ruler {
 public:
  // `tell_chosen`: whether it is known what was stated and what chosen.
  Ruler(Unit unit, Rational mark, bool tell_chosen)
      : unit_(unit), mark_(std::move(mark)), tell_chosen_(tell_chosen) {}

  // The number alone, signed; remembers the signs used.
  std::string number(const Rational& length, bool stated = true);

  // "width x height".
  std::string size(const Size& size);

  // What the signs used so far mean, a line each; empty if there were none.
  [[nodiscard]] std::string key() const;

 private:
  Unit unit_;
  Rational mark_;
  bool tell_chosen_;
  bool chosen_ = false, between_ = false, rounded_ = false, negative_ = false;
};

}  // namespace evenmat
