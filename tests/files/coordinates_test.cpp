// Coordinates: readable, and exact to the micrometre.
#include "files/coordinates.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace kerfdraft::files {

using base::UnitSystem;

TEST(Coordinates, AreWrittenAsAPersonWould) {
  EXPECT_EQ(coordinateText(0, UnitSystem::Us), "0 ft");
  EXPECT_EQ(coordinateText(0, UnitSystem::Metric), "0 m");
  EXPECT_EQ(coordinateText(457'200, UnitSystem::Us), "1.5 ft");
  EXPECT_EQ(coordinateText(-304'800, UnitSystem::Us), "-1 ft");
  EXPECT_EQ(coordinateText(177'800, UnitSystem::Us), "7 in");
  EXPECT_EQ(coordinateText(1'250'000, UnitSystem::Metric), "1.25 m");
  EXPECT_EQ(coordinateText(152'400, UnitSystem::Us), "0.5 ft");
  EXPECT_EQ(coordinateText(152'500, UnitSystem::Metric), "152.5 mm");
  EXPECT_EQ(coordinateText(1, UnitSystem::Metric), "0.001 mm");
}

TEST(Coordinates, TheOtherSystemWhereItIsMuchShorter) {
  EXPECT_EQ(coordinateText(150'000, UnitSystem::Us), "0.15 m");
  EXPECT_EQ(coordinateText(1'000'000, UnitSystem::Us), "1 m");
  EXPECT_EQ(coordinateText(3'352'800, UnitSystem::Metric), "11 ft");
}

TEST(Coordinates, HalvesSixteenthsAndThirtysecondsOfAnInchComeBack) {
  for (const char* text : {"1 1/2 in", "3/16 in", "5 7/16 in", "11/32 in"}) {
    const auto um = parseCoordinate(text);
    ASSERT_TRUE(um) << text;
    EXPECT_EQ(parseCoordinate(coordinateText(*um, UnitSystem::Us)).value(), *um) << text;
  }
}

TEST(Coordinates, RefusedOutsideOneKilometre) {
  EXPECT_TRUE(parseCoordinate("-1 km"));
  const auto far = parseCoordinate("10 km", "/at");
  ASSERT_FALSE(far);
  EXPECT_EQ(far.error().text(), "/at: \"10 km\" is above 1 km, the most it can be");
  EXPECT_FALSE(parseCoordinate("1e300 m"));
  EXPECT_FALSE(parseCoordinate("3"));
}

RC_GTEST_PROP(Coordinates, EveryMicrometreIsReadBackInEitherSystem, ()) {
  const auto um = *rc::gen::inRange<std::int64_t>(-1'000'000'000, 1'000'000'001);
  for (const UnitSystem system : {UnitSystem::Us, UnitSystem::Metric}) {
    const auto back = parseCoordinate(coordinateText(um, system));
    RC_ASSERT(back.has_value());
    RC_ASSERT(*back == um);
  }
}

}  // namespace kerfdraft::files
