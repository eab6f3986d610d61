// Sentences: every notice that the room makes has one, in both unit systems.
#include "field/notice.h"

#include <gtest/gtest.h>

#include <set>

#include "base/result.h"

namespace kerfdraft::field {
namespace {

TEST(Notice, KeysAreUnique) {
  const auto keys = noticeKeys();
  EXPECT_EQ(std::set<std::string_view>(keys.begin(), keys.end()).size(), keys.size());
}

TEST(Notice, SpeaksTheReadersUnits) {
  const Notice n{
      "zero-reading", Notice::Level::Caution, {{"smallest-speed", base::Kind::Speed, 5.08}}, {}, "x"};
  EXPECT_NE(say(n, base::UnitSystem::Us).find("1000 fpm"), std::string::npos);
  EXPECT_NE(say(n, base::UnitSystem::Metric).find("5.08 m/s"), std::string::npos);
}

TEST(Notice, UnknownKeysAndMissingQuantitiesAreBugs) {
  EXPECT_THROW(say({"no-such-key", Notice::Level::Note, {}, {}, {}}, base::UnitSystem::Us),
               base::InternalError);
  EXPECT_THROW(say({"zero-reading", Notice::Level::Note, {}, {}, {}}, base::UnitSystem::Us),
               base::InternalError);
}

TEST(Notice, SaysWhichWayStandardAirIsWrong) {
  Notice n{"density-corrected",
           Notice::Level::Note,
           {{"density-used", base::Kind::Density, 1.2},
            {"density-of-day", base::Kind::Density, 0.95},
            {"speed-ratio", base::Kind::Ratio, 1.1239}},
           {},
           "x"};
  EXPECT_NE(say(n, base::UnitSystem::Us).find("11.0 % too low"), std::string::npos);
  n.quantities[2].value = 0.95;
  EXPECT_NE(say(n, base::UnitSystem::Us).find("too high"), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::field
