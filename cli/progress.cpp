#include "cli/progress.h"

#include <system_error>

#include "cli/printable.h"
#include "cli/table.h"

namespace evenmat {

Progress::~Progress() {
  {
    const std::lock_guard lock(mutex_);
    over_ = true;
  }
  ended_.notify_all();
  if (waiting_.joinable()) waiting_.join();
}

void Progress::at_work(std::string_view what) {
  const std::lock_guard lock(mutex_);
  what_ = what;
  if (long_enough_) show();
  if (long_enough_ || waiting_.joinable()) return;
  try {
    waiting_ = std::thread([this] { wait(); });
  } catch (const std::system_error&) {
    long_enough_ = true;  // no thread is to be had: from now on all is shown that is told
  }
}

void Progress::clear() {
  const std::lock_guard lock(mutex_);
  what_.clear();
  if (shown_ > 0) put_("\r" + padded("", shown_) + "\r");
  shown_ = 0;
}

void Progress::wait() {
  std::unique_lock lock(mutex_);
  if (ended_.wait_for(lock, quiet_, [this] { return over_; })) return;
  long_enough_ = true;
  if (!what_.empty()) show();
}

void Progress::show() {
  const std::string line = shortened(what_, page_width - 1);
  put_("\r" + padded(line, shown_));
  shown_ = columns(line);
}

}  // namespace evenmat
