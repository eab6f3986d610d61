// The ordered parallel loop.
#include "base/parallel.h"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace kerfdraft::base {

unsigned coreCount() {
  return std::max(1U, std::thread::hardware_concurrency());
}

std::size_t orderedParallelFor(std::size_t blocks, unsigned threads,
                               const std::function<void(std::size_t, unsigned)>& work,
                               const std::function<void(std::size_t)>& deliver, const StopFlag* stop,
                               std::size_t ahead) {
  if (threads == 0) {
    threads = coreCount();
  }
  threads = static_cast<unsigned>(std::min<std::size_t>(threads, std::max<std::size_t>(blocks, 1)));

  std::mutex mutex;
  std::condition_variable room;
  std::vector<char> done(blocks, 0);
  std::size_t next = 0;       // next block to hand out
  std::size_t delivered = 0;  // blocks delivered so far
  bool ended = false;
  std::exception_ptr problem;
  const std::size_t window = std::max<std::size_t>(1, ahead) * threads;

  const auto run = [&](unsigned thread) {
    std::unique_lock lock(mutex);
    while (!ended && next < blocks) {
      if (stop != nullptr && stop->stopped()) {
        ended = true;
        break;
      }
      if (next >= delivered + window) {
        room.wait(lock);
        continue;
      }
      const std::size_t block = next++;
      lock.unlock();
      std::exception_ptr caught;
      try {
        work(block, thread);
      } catch (...) {
        caught = std::current_exception();
      }
      lock.lock();
      if (caught) {
        problem = problem ? problem : caught;
        ended = true;
        break;
      }
      done[block] = 1;
      // Whoever completes the next block in line delivers all that are ready; deliver runs under the lock.
      try {
        while (!ended && delivered < blocks && done[delivered] != 0) {
          deliver(delivered);
          ++delivered;
        }
      } catch (...) {
        problem = problem ? problem : std::current_exception();
        ended = true;
      }
      room.notify_all();
    }
    room.notify_all();
  };

  {
    std::vector<std::jthread> others;
    for (unsigned t = 1; t < threads; ++t) {
      others.emplace_back(run, t);
    }
    run(0);
  }
  if (problem) {
    std::rethrow_exception(problem);
  }
  return delivered;
}

}  // namespace kerfdraft::base
