// The program's entry: from the words of a call to its answer on the two streams.
#include <csignal>
#include <cstddef>
#include <exception>
#include <string>
#include <variant>

#include "cli/call.h"
#include "cli/files.h"

namespace {

evenmat::Answer answer_to(const evenmat::Call& call) {
  using namespace evenmat;
  if (const auto* size = std::get_if<SizeCall>(&call)) return size_command(*size, style_for(1), style_for(2));
  if (const auto* stack = std::get_if<StackCall>(&call))
    return stack_command(*stack, style_for(1), style_for(2));
  return std::get<Answer>(call);
}

}  // namespace

int main(int count, char** words) {
  // A reader that stops listening is told by the write that fails.
  static_cast<void>(std::signal(SIGPIPE, SIG_IGN));
  try {
    return evenmat::deliver(answer_to(evenmat::read_call(count, words)));
  } catch (const std::exception& error) {
    // Nothing is known to come here but the end of the machine's memory.
    return evenmat::deliver(
        {evenmat::Status::bad_input, "",
         "evenmat: This went wrong in a way nobody foresaw: " + std::string(error.what()) + "\n"});
  }
}
