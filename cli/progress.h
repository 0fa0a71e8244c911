// What long work is at, on one line of a terminal that is replaced, and gone before anything else is written.
#pragma once

#include <functional>
#include <string_view>
#include <utility>

namespace evenmat {

class Progress {
 public:
  // `put` writes to the terminal, `seconds` tells the time since the work began.
  Progress(std::function<void(std::string_view)> put, std::function<double()> seconds)
      : put_(std::move(put)), seconds_(std::move(seconds)) {}

  // Nothing is shown in the first half second.
  void at_work(std::string_view what);
  void clear();

 private:
  std::function<void(std::string_view)> put_;
  std::function<double()> seconds_;
  int shown_ = 0;  // columns
};

}  // namespace evenmat
