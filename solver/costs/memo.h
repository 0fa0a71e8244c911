// Answers that are worked out once, whichever thread asks first: others that ask for the same wait for it.
#pragma once

#include <exception>
#include <future>
#include <mutex>
#include <string>
#include <unordered_map>

namespace evenmat::exploring {

template <typename Value>
class Memo {
 public:
  // `make` runs without a lock, so that other answers are worked out meanwhile. It must not ask for its own.
  template <typename Make>
  Value get(const std::string& key, const Make& make) {
    std::promise<Value> promise;
    std::shared_future<Value> answer;
    bool is_new = false;
    {
      const std::lock_guard<std::mutex> lock(mutex_);
      const auto found = known_.find(key);
      is_new = found == known_.end();
      answer = is_new ? known_.emplace(key, promise.get_future().share()).first->second : found->second;
    }
    if (is_new) {
      try {
        promise.set_value(make());
      } catch (...) {
        promise.set_exception(std::current_exception());
      }
    }
    return answer.get();
  }

 private:
  std::mutex mutex_;
  std::unordered_map<std::string, std::shared_future<Value>> known_;
};

}  // namespace evenmat::exploring
