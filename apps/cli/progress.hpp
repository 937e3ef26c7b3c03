// Says on a terminal's standard error what is being worked on, once it has taken half a second.
#pragma once

#include <atomic>
#include <condition_variable>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>

namespace awlmark::cli {

class Progress {
 public:
  Progress();
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  void stage(std::string_view name);

 private:
  void watch();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::string stage_;
  unsigned count_ = 0;
  bool done_ = false;
  bool shown_ = false;
  std::thread thread_;
};

}  // namespace awlmark::cli
