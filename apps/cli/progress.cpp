#include "progress.hpp"

#include <unistd.h>

#include <chrono>
#include <cstdio>

namespace awlmark::cli {

Progress::Progress() {
  if (isatty(STDERR_FILENO) != 0) thread_ = std::thread([this] { watch(); });
}

Progress::~Progress() {
  if (!thread_.joinable()) return;
  {
    const std::lock_guard lock(mutex_);
    done_ = true;
  }
  changed_.notify_all();
  thread_.join();
  if (shown_) std::fputs("\r\033[K", stderr);
}

void Progress::stage(std::string_view name) {
  {
    const std::lock_guard lock(mutex_);
    stage_ = name;
    ++count_;
  }
  changed_.notify_all();
}

void Progress::watch() {
  using namespace std::chrono_literals;
  std::unique_lock lock(mutex_);
  auto wait = 500ms;  // the first word comes late, so that quick jobs stay quiet; after that at once
  while (!done_) {
    const unsigned seen = count_;
    const bool moved = changed_.wait_for(lock, wait, [&] { return done_ || (shown_ && count_ != seen); });
    if (done_) return;
    if (!moved && shown_) continue;
    shown_ = true;
    std::fprintf(stderr, "\r\033[K  %s ...", stage_.c_str());
    std::fflush(stderr);
  }
}

}  // namespace awlmark::cli
