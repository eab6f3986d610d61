// A parallel loop over blocks whose results are delivered in order, so that nothing depends on the number of
// threads.
#pragma once

#include <cstddef>
#include <functional>

#include "base/progress.h"

namespace kerfdraft::base {

/// Runs work(block, thread) for every block in [0, blocks) on `threads` threads (0: all cores), and calls
/// deliver(block) in the order of the blocks, from one thread at a time, as soon as a block and all before it
/// are done. Thread numbers run from 0 to threads − 1: each has its own workspace. An exception in work or
/// deliver ends the loop and is thrown again here. Returns how many blocks were delivered (fewer when
/// stopped). At most `ahead` blocks per thread run ahead of the delivery, so that a stream needs bounded
/// memory.
std::size_t orderedParallelFor(std::size_t blocks, unsigned threads,
                               const std::function<void(std::size_t block, unsigned thread)>& work,
                               const std::function<void(std::size_t block)>& deliver,
                               const StopFlag* stop = nullptr, std::size_t ahead = 16);

/// Number of threads that `threads` = 0 stands for.
unsigned coreCount();

}  // namespace kerfdraft::base
