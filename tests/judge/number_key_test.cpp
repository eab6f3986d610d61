// Keys read as they are written, and name every number once.
#include "judge/number_key.h"

#include <set>

#include <gtest/gtest.h>

#include "judge/shops.h"

namespace kerfdraft {
namespace {

TEST(NumberKey, ReadsWhatItWrites) {
  for (const char* text :
       {"state/2/run/4/piece/3/loss", "state/0/run/1/total-start", "state/1/port/0/flow",
        "state/0/fan/2/rise", "state/0/opening/5/drop", "state/3/node/11/pressure", "air/density"}) {
    const auto key = judge::parseNumberKey(text);
    ASSERT_TRUE(key.has_value()) << text;
    EXPECT_EQ(key->text(), text);
  }
}

TEST(NumberKey, RefusesOtherShapes) {
  for (const char* text :
       {"", "state", "state/0", "state/0/run/1", "state/0/run/1/piece/2", "state/-1/run/1/flow-end",
        "state/0/run/1x/flow-end", "state/0/room/1/flow", "state/0/fan/1/piece/2/loss",
        "state/0/run/1/piece/2/loss/more", "/state/0/run/1/flow-end", "air"}) {
    EXPECT_FALSE(judge::parseNumberKey(text).has_value()) << text;
  }
}

TEST(NumberKey, NamesEveryNumberOnce) {
  const judge::Assessment assessment = tests::solved(support::twoBranchTree().builder.project);
  std::set<std::string> seen;
  for (const judge::NumberKey& key : judge::numberKeys(assessment, 0)) {
    EXPECT_TRUE(seen.insert(key.text()).second) << key.text();
    const auto number = judge::numberOf(assessment, key);
    ASSERT_TRUE(number.has_value()) << key.text();
    EXPECT_FALSE(number->name.empty());
    EXPECT_EQ(judge::parseNumberKey(key.text()).value(), key);
  }
}

}  // namespace
}  // namespace kerfdraft
