// What a command hands back: its exit status and its two streams, whole. What it may tell before that, where
// an answer takes long. And how text may be dressed.
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace evenmat {

enum class Status {
  done = 0,
  cannot_be_built = 1,  // as stated
  bad_input = 2,        // the card file or the call
  limit_reached = 3     // before an answer
};

struct Answer {
  Status status = Status::done;
  std::string out;  // what was asked for
  std::string err;  // everything else
};

// Called while an answer is being made. What was said is not in the answer again.
struct Meanwhile {
  std::function<void(std::string_view)> say;      // the first part of `out`, for standard output at once
  std::function<void(std::string_view)> at_work;  // what is being done
};

// Dress for a terminal. It never carries meaning of its own.
struct Style {
  bool colour = false;

  [[nodiscard]] std::string strong(std::string_view text) const { return dressed("1", text); }
  [[nodiscard]] std::string faint(std::string_view text) const { return dressed("2", text); }
  [[nodiscard]] std::string wrong(std::string_view text) const { return dressed("1;31", text); }

 private:
  [[nodiscard]] std::string dressed(std::string_view how, std::string_view text) const {
    if (!colour) return std::string(text);
    return "\x1b[" + std::string(how) + "m" + std::string(text) + "\x1b[0m";
  }
};

}  // namespace evenmat
