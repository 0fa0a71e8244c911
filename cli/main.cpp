// The program's entry: from the words of a call to its answer on the two streams.
#include <unistd.h>

#include <csignal>
#include <exception>
#include <string>
#include <string_view>
#include <variant>

#include "cli/call.h"
#include "cli/files.h"
#include "cli/progress.h"

namespace {

using namespace evenmat;

// What is told while an answer is being made: parts of it at once, and on a terminal what is being done.
class Telling {
 public:
  [[nodiscard]] Meanwhile meanwhile() {
    Meanwhile told;
    told.say = [this](std::string_view text) {
      progress_.clear();
      if (trouble_ == 0) trouble_ = write_whole(STDOUT_FILENO, text);
    };
    if (::isatty(STDERR_FILENO) == 1) {
      told.at_work = [this](std::string_view what) { progress_.at_work(what); };
    }
    return told;
  }

  int deliver(const Answer& answer) {
    progress_.clear();
    return evenmat::deliver(answer, trouble_);
  }

 private:
  Progress progress_{[](std::string_view text) { static_cast<void>(write_whole(STDERR_FILENO, text)); }};
  int trouble_ = 0;  // with a part of the answer
};

Answer answer_to(const Call& call, Telling& telling) {
  if (const auto* size = std::get_if<SizeCall>(&call)) return size_command(*size, style_for(1), style_for(2));
  if (const auto* check = std::get_if<CheckCall>(&call))
    return check_command(*check, style_for(1), style_for(2), telling.meanwhile());
  if (const auto* explore = std::get_if<ExploreCall>(&call))
    return explore_command(*explore, style_for(1), style_for(2), telling.meanwhile());
  if (const auto* cut = std::get_if<CutCall>(&call))
    return cut_command(*cut, style_for(1), style_for(2), telling.meanwhile());
  if (const auto* draw = std::get_if<DrawCall>(&call))
    return draw_command(*draw, style_for(1), style_for(2), telling.meanwhile());
  if (const auto* stack = std::get_if<StackCall>(&call))
    return stack_command(*stack, style_for(1), style_for(2));
  return std::get<Answer>(call);
}

}  // namespace

int main(int count, char** words) {
  // A reader that stops listening is told by the write that fails.
  static_cast<void>(std::signal(SIGPIPE, SIG_IGN));
  Telling telling;
  try {
    return telling.deliver(answer_to(read_call(count, words), telling));
  } catch (const std::exception& error) {
    // Nothing is known to come here but the end of the machine's memory.
    return telling.deliver(
        {Status::bad_input, "",
         "evenmat: This went wrong in a way nobody foresaw: " + std::string(error.what()) + "\n"});
  }
}
