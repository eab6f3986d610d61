// How a long computation tells how far it is, and how it is asked to stop. Both are passed in.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>

namespace kerfdraft::base {

/// Called now and then with (done, total), from one thread at a time.
using Progress = std::function<void(std::uint64_t done, std::uint64_t total)>;

/// Set from any thread; the computation ends at the next block and says that it was stopped.
class StopFlag {
 public:
  void stop() { stopped_.store(true, std::memory_order_relaxed); }
  bool stopped() const { return stopped_.load(std::memory_order_relaxed); }

 private:
  std::atomic<bool> stopped_{false};
};

}  // namespace kerfdraft::base
