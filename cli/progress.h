// What long work is at, on one line of a terminal that is replaced, and gone before anything else is written.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <utility>

namespace evenmat {

// Work that calls in seldom is told too: a thread of its own waits until it is time to show anything.
class Progress {
 public:
  // `put` writes to the terminal, and is called from either thread, never from both at once. Nothing is shown
  // in the first `quiet` of the work, which begins with what is told first.
  explicit Progress(std::function<void(std::string_view)> put,
                    std::chrono::milliseconds quiet = std::chrono::milliseconds(500))
      : put_(std::move(put)), quiet_(quiet) {}
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  Progress(Progress&&) = delete;
  Progress& operator=(Progress&&) = delete;
  ~Progress();

  void at_work(std::string_view what);

  // Until something is told again.
  void clear();

 private:
  void wait();
  void show();

  std::function<void(std::string_view)> put_;
  std::chrono::milliseconds quiet_;
  std::mutex mutex_;  // of all below
  std::condition_variable ended_;
  std::string what_;
  int shown_ = 0;  // columns
  bool long_enough_ = false;
  bool over_ = false;
  std::thread waiting_;
};

}  // namespace evenmat
