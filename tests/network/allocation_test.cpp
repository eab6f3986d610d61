// A warm solve in a prepared workspace allocates nothing while one fan runs: it is called tens of thousands
// of times.
#include <gtest/gtest.h>

#include <cstdlib>
#include <new>

#include "network/solve.h"
#include "support/nets.h"

namespace {

long allocations = 0;

}  // namespace

void* operator new(std::size_t size) {
  ++allocations;
  if (void* p = std::malloc(size)) {
    return p;
  }
  throw std::bad_alloc();
}

void operator delete(void* p) noexcept {
  std::free(p);
}

void operator delete(void* p, std::size_t) noexcept {
  std::free(p);
}

namespace kerfdraft::network {
namespace {

TEST(Allocation, AWarmSolveAllocatesNothing) {
  test::NetBuilder b = test::comb(12, 1e-6);
  const auto net = b.compile();
  Situation s = restingSituation(b.pieces());
  Workspace w(*net);
  s.gate_travel[2] = 1;
  ASSERT_TRUE(solve(*net, s, w, Start::Cold).usable());
  const long before = allocations;
  for (int i = 0; i < 20; ++i) {
    s.gate_travel[static_cast<std::size_t>(i % 12)] = 0.05 * i;
    ASSERT_TRUE(solve(*net, s, w, Start::Warm).usable());
  }
  EXPECT_EQ(allocations - before, 0);
}

}  // namespace
}  // namespace kerfdraft::network
