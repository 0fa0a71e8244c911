// Lengths as a report prints them, with a sign beside each that is not simply a stated length on a mark.
#pragma once

#include <string>

#include "model/length.h"
#include "model/rational.h"

namespace evenmat {

class Ruler {
 public:
  Ruler(Unit unit, Rational mark) : unit_(unit), mark_(std::move(mark)) {}

  // The number alone, signed; remembers the signs used.
  std::string number(const Rational& length, bool stated = true);

  // "width x height".
  std::string size(const Size& size);

  // What the signs used so far mean, a line each; empty if there were none.
  [[nodiscard]] std::string key() const;

 private:
  Unit unit_;
  Rational mark_;
  bool chosen_ = false, between_ = false, rounded_ = false, negative_ = false;
};

}  // namespace evenmat
