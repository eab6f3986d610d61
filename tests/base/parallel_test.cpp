// The ordered parallel loop: order, every block once, stop, exceptions, bounded look-ahead.
#include "base/parallel.h"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

namespace kerfdraft::base {

TEST(OrderedParallelFor, DeliversEveryBlockOnceInOrder) {
  for (const unsigned threads : {1U, 2U, 5U}) {
    std::vector<int> squares(500);
    std::vector<std::size_t> order;
    const std::size_t n = orderedParallelFor(
        squares.size(), threads, [&](std::size_t b, unsigned) { squares[b] = static_cast<int>(b * b); },
        [&](std::size_t b) {
          EXPECT_EQ(squares[b], static_cast<int>(b * b));
          order.push_back(b);
        });
    EXPECT_EQ(n, squares.size());
    ASSERT_EQ(order.size(), squares.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      EXPECT_EQ(order[i], i);
    }
  }
}

TEST(OrderedParallelFor, StopsWhenAsked) {
  StopFlag stop;
  const std::size_t n = orderedParallelFor(
      100000, 2, [](std::size_t, unsigned) {},
      [&](std::size_t b) {
        if (b == 50) {
          stop.stop();
        }
      },
      &stop);
  EXPECT_GE(n, 51U);
  EXPECT_LT(n, 100000U);
}

TEST(OrderedParallelFor, AnExceptionInABlockReachesTheCaller) {
  EXPECT_THROW(orderedParallelFor(
                   100, 2,
                   [](std::size_t b, unsigned) {
                     if (b == 10) {
                       throw std::runtime_error("block 10");
                     }
                   },
                   [](std::size_t) {}),
               std::runtime_error);
}

TEST(OrderedParallelFor, NoBlocksIsNoWork) {
  EXPECT_EQ(orderedParallelFor(
                0, 2, [](std::size_t, unsigned) { FAIL(); }, [](std::size_t) { FAIL(); }),
            0U);
}

}  // namespace kerfdraft::base
