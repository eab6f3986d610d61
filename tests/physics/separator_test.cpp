// Separators and cyclones: charged as velocity pressures, their limits, and the refusals.
#include "physics/separator.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "physics/cyclone.h"

namespace kerfdraft::physics {
namespace {

using ::testing::HasSubstr;

constexpr CycloneShape kLapple{0.5, 0.25, 0.25, 2.0, 2.0, 0.5, 0.625};

TEST(Separator, ALidLosesTwoInchesAtItsRatedFlow) {
  const double area = roundArea(0.1);
  const double k = lidSeparatorK(0.19, area);
  const double rho = kStandardDensity_kg_m3;
  EXPECT_NEAR(localLoss(k, k, 0.19 * rho, rho, area).dp_pa, 2 * 249.08891, 1e-9);
  EXPECT_NEAR(localLoss(k, k, 0.095 * rho, rho, area).dp_pa, 0.5 * 249.08891, 1e-9);
}

TEST(Separator, SettlingIsAllOrLessAndMixingSettlesLess) {
  const Settling slow = settling(2.0, 0.6, 0.4, 1.5);
  EXPECT_EQ(slow.plug, 1);
  EXPECT_NEAR(slow.mixed, 1 - std::exp(-2.0), 1e-12);
  const Settling fast = settling(0.1, 0.6, 0.4, 1.5);
  EXPECT_NEAR(fast.plug, 0.1, 1e-12);
  EXPECT_LT(fast.mixed, fast.plug);
}

TEST(Cyclone, RefusesWhatCannotBeBuilt) {
  EXPECT_TRUE(checkedCyclone(kLapple));
  CycloneShape shape = kLapple;
  shape.inlet_width = 0.3;
  auto made = checkedCyclone(shape, "/collectors/0/cyclone");
  ASSERT_FALSE(made);
  EXPECT_THAT(made.error().message, HasSubstr("0.3 of the body's diameter wide"));
  EXPECT_EQ(made.error().where, "/collectors/0/cyclone");
  shape = kLapple;
  shape.gas_outlet = 1.2;
  EXPECT_THAT(checkedCyclone(shape).error().message, HasSubstr("gas outlet must be narrower"));
  shape = kLapple;
  shape.cone = 0;
  EXPECT_THAT(checkedCyclone(shape).error().message, HasSubstr("cone must be above zero, not 0"));
  shape = kLapple;
  shape.outlet_depth = 5;
  EXPECT_THAT(checkedCyclone(shape).error().message, HasSubstr("must end inside its body"));
  shape = kLapple;
  shape.inlet_height = std::nan("");
  EXPECT_FALSE(checkedCyclone(shape));
}

TEST(Cyclone, GradeIsHalfAtTheCutAndRisesWithSize) {
  EXPECT_NEAR(lappleGrade(5e-6, 5e-6), 0.5, 1e-15);
  EXPECT_EQ(lappleGrade(0, 5e-6), 0);
  EXPECT_EQ(barthGrade(0, 5e-6), 0);
  double lapple = 0;
  double leith = 0;
  double barth = 0;
  for (double d = 1e-6; d < 100e-6; d *= 1.3) {
    EXPECT_GT(lappleGrade(d, 5e-6), lapple);
    EXPECT_GE(leithLichtGrade(d, 402.9, 0.3, 0.15, 600, 1.81e-5, 293.15), leith);
    EXPECT_GE(barthGrade(d, 5e-6), barth);
    lapple = lappleGrade(d, 5e-6);
    leith = leithLichtGrade(d, 402.9, 0.3, 0.15, 600, 1.81e-5, 293.15);
    barth = barthGrade(d, 5e-6);
    EXPECT_LE(leith, 1);
    EXPECT_LE(barth, 1);
  }
}

TEST(Cyclone, ASmallerOrFasterCycloneCutsFiner) {
  const double base = lappleCutSize(0.125, 6, 15, 1.81e-5, 600, 1.2);
  EXPECT_LT(lappleCutSize(0.0625, 6, 15, 1.81e-5, 600, 1.2), base);
  EXPECT_NEAR(lappleCutSize(0.125, 6, 60, 1.81e-5, 600, 1.2), 0.5 * base, 1e-12);
}

TEST(Cyclone, CollectionOfADustChecksItsClasses) {
  const CycloneBody body{1.26, 2.5, 0.42, 0.65, 0.6, 0.2};
  const CycloneDuty duty{11.5741, 1.85e-5, 1.2, 2000, 0.05, 0.005};
  EXPECT_FALSE(barthCollection(body, duty, {}));
  const std::vector<SizeClass> short_sum{{5e-6, 0.5}, {10e-6, 0.4}};
  EXPECT_THAT(barthCollection(body, duty, short_sum).error().message, HasSubstr("add up to 0.9"));
  const std::vector<SizeClass> disorder{{10e-6, 0.5}, {5e-6, 0.5}};
  EXPECT_EQ(barthCollection(body, duty, disorder).error().where, "class 2");
  const std::vector<SizeClass> negative{{5e-6, 1.5}, {10e-6, -0.5}};
  EXPECT_FALSE(barthCollection(body, duty, negative));
  // At a load below the critical one nothing drops out at the inlet.
  CycloneDuty thin = duty;
  thin.load_kg_m3 = 0.001;
  const auto light = barthCollection(body, thin, std::vector<SizeClass>{{5e-6, 0.5}, {10e-6, 0.5}});
  ASSERT_TRUE(light);
  EXPECT_EQ(light->total, light->vortex);
}

TEST(Cyclone, NotesRepeatTheSilentNumbers) {
  base::Recorder recorder;
  EXPECT_EQ(headsShepherdLapple(kLapple, recorder), headsShepherdLapple(kLapple));
  EXPECT_EQ(headsStairmand(kLapple, recorder), headsStairmand(kLapple));
  EXPECT_EQ(leithLichtGrade(5e-6, 402.9, 0.3, 0.15, 600, 1.81e-5, 293.15, recorder),
            leithLichtGrade(5e-6, 402.9, 0.3, 0.15, 600, 1.81e-5, 293.15));
  ASSERT_EQ(recorder.steps().size(), 4U);
  EXPECT_EQ(recorder.steps()[2].law->key, "cyclone-vortex-exponent");
}

}  // namespace
}  // namespace kerfdraft::physics
