// The line that says what long work is at: when it comes, how it is replaced, and that it goes.
#include "cli/progress.h"

#include <chrono>
#include <mutex>
#include <string>
#include <thread>

#include "tests/catch.h"

using namespace evenmat;

namespace {

using std::chrono::milliseconds;

// What was put on a terminal, from whichever thread.
class Terminal {
 public:
  explicit Terminal(milliseconds quiet) : progress([this](std::string_view more) { put(more); }, quiet) {}

  std::string text() {
    const std::lock_guard lock(mutex_);
    return text_;
  }
  // Waits for the first to be put, ten seconds at most.
  std::string first() {
    for (int i = 0; i < 10'000 && text().empty(); ++i) std::this_thread::sleep_for(milliseconds(1));
    return text();
  }

 private:
  void put(std::string_view more) {
    const std::lock_guard lock(mutex_);
    text_ += more;
  }

  std::mutex mutex_;
  std::string text_;

 public:
  Progress progress;
};

constexpr milliseconds hour{3'600'000};

}  // namespace

TEST_CASE("short work shows nothing, and does not wait for what it does not show") {
  const auto start = std::chrono::steady_clock::now();
  {
    Terminal terminal(hour);
    terminal.progress.at_work("trying changes");
    terminal.progress.at_work("done soon");
    terminal.progress.clear();
    CHECK(terminal.text().empty());
  }
  CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(10));
}

TEST_CASE("long work is told though it calls in only once") {
  Terminal terminal(milliseconds(20));
  terminal.progress.at_work("asking whether it can be built");
  CHECK(terminal.first() == "\rasking whether it can be built");
}

TEST_CASE("long work is told on one line, replaced whole, and gone in the end") {
  Terminal terminal(milliseconds(1));
  terminal.progress.at_work("trying changes");
  REQUIRE(terminal.first() == "\rtrying changes");
  terminal.progress.at_work("done soon");
  terminal.progress.clear();
  terminal.progress.clear();
  CHECK(terminal.text() == "\rtrying changes\rdone soon     \r         \r");
}

TEST_CASE("what is cleared before its time does not come after it") {
  Terminal terminal(milliseconds(20));
  terminal.progress.at_work("trying changes");
  terminal.progress.clear();
  std::this_thread::sleep_for(milliseconds(100));
  CHECK(terminal.text().empty());
  terminal.progress.at_work("more");
  CHECK(terminal.first() == "\rmore");
}

TEST_CASE("what is told stays on its line whatever it is") {
  Terminal terminal(milliseconds(1));
  terminal.progress.at_work(std::string(200, 'x') + "\n\x1b[2J");
  const std::string text = terminal.first();
  CHECK(text.size() == 80);
  CHECK(text.find_first_of("\n\x1b") == std::string::npos);
}
