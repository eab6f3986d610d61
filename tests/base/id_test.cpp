// Ids as text and their seeded source.
#include "base/id.h"

#include <gtest/gtest.h>

#include <set>

namespace kerfdraft::base {

TEST(Id, TextRoundTrips) {
  const Id id(0x00ab12cd34ef5678U);
  EXPECT_EQ(id.text(), "00ab12cd34ef5678");
  EXPECT_EQ(Id::parse(id.text()).value(), id);
}

TEST(Id, RefusesWhatIsNoId) {
  for (const char* text : {"", "0", "xyz", "12345678901234567", "-1", "1 "}) {
    EXPECT_FALSE(Id::parse(text, "/machines/0/id")) << text;
  }
}

TEST(Id, ASeedGivesTheSameDifferentIds) {
  SeededIds a(7);
  SeededIds b(7);
  std::set<Id> seen;
  for (int i = 0; i < 1000; ++i) {
    const Id id = a.next();
    EXPECT_EQ(id, b.next());
    EXPECT_TRUE(seen.insert(id).second);
  }
}

}  // namespace kerfdraft::base
