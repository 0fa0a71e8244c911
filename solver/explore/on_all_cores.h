// The same work for each of many things, on every core. Which core does which is left open, so the work may
// not depend on it.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace evenmat::exploring {

// Calls work(i) once for each i below `count`, begun in order. An exception is passed on once all have ended.
template <typename Work>
void on_all_cores(std::size_t count, const Work& work) {
  std::atomic<std::size_t> next = 0;
  std::exception_ptr failed;
  std::mutex mutex;
  const auto take_turns = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        const std::lock_guard lock(mutex);
        failed = std::current_exception();
      }
    }
  };
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::thread> others;
  for (std::size_t i = 1; i < std::min(cores, count); ++i) others.emplace_back(take_turns);
  take_turns();
  for (std::thread& other : others) other.join();
  if (failed) std::rethrow_exception(failed);
}

}  // namespace evenmat::exploring
