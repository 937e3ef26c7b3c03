// How often an address may ask, in windows of a steady clock (a jump of the wall clock changes nothing).
#pragma once

#include <chrono>
#include <map>
#include <mutex>
#include <string>

namespace awlmark::office {

class RateLimit {
 public:
  RateLimit(int most, std::chrono::seconds window) : most_(most), window_(window) {}

  bool allows(const std::string& who) {
    const std::lock_guard<std::mutex> guard(mutex_);
    const auto now = std::chrono::steady_clock::now();
    if (counts_.size() > kMostAddresses) counts_.clear();
    auto& count = counts_[who];
    if (count.asked == 0 || now - count.since >= window_) count = {now, 0};
    return ++count.asked <= most_;
  }

 private:
  static constexpr std::size_t kMostAddresses = 10000;
  struct Count {
    std::chrono::steady_clock::time_point since;
    int asked = 0;
  };
  const int most_;
  const std::chrono::seconds window_;
  std::mutex mutex_;
  std::map<std::string, Count> counts_;
};

}  // namespace awlmark::office
