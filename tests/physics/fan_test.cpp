// Ratings turned into rises, their derivatives, and labels against wheels and motors.
#include "physics/fan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "physics/differences.h"

namespace kerfdraft::physics {
namespace {

using ::testing::HasSubstr;

const std::vector<FanPoint> kPoints{{0, 2600}, {0.2, 2550}, {0.4, 2100}, {0.6, 900}};

FanRating rated(RatingBasis basis, double speed_ratio = 1) {
  auto rating = makeFanRating(kPoints, {.basis = basis,
                                        .density_kg_m3 = 1.2,
                                        .test_bore_m = 0.2,
                                        .outlet_bore_m = 0.18,
                                        .speed_ratio = speed_ratio});
  EXPECT_TRUE(rating) << rating.error().text();
  return *rating;
}

double vp(double rho, double q, double bore) {
  const double v = q / (std::numbers::pi * bore * bore / 4);
  return 0.5 * rho * v * v;  // written out, as a check on the section the rating takes
}

TEST(Fan, StaticInTheInletPipeLosesTheVelocityPressureOfTheTestBore) {
  const auto rating = rated(RatingBasis::StaticAtInlet);
  EXPECT_NEAR(fanRise(rating, 0.4, 1.2, 1.2).p_pa, 2100 - vp(1.2, 0.4, 0.2), 1e-9);
}

TEST(Fan, FanStaticGainsTheVelocityPressureOfAKnownOutletOnly) {
  EXPECT_NEAR(fanRise(rated(RatingBasis::FanStatic), 0.4, 1.2, 1.2).p_pa, 2100 + vp(1.2, 0.4, 0.18), 1e-9);
  const auto unknown = makeFanRating(kPoints, {.basis = RatingBasis::FanStatic, .density_kg_m3 = 1.2});
  ASSERT_TRUE(unknown);
  EXPECT_NEAR(fanRise(*unknown, 0.4, 1.2, 1.2).p_pa, 2100, 1e-9);
}

TEST(Fan, TotalRatingsAreTakenAsTheyAre) {
  for (const auto basis : {RatingBasis::TotalAtInlet, RatingBasis::FanTotal}) {
    EXPECT_NEAR(fanRise(rated(basis), 0.4, 1.2, 1.2).p_pa, 2100, 1e-9);
  }
}

TEST(Fan, ARatingAtTheInletScalesWithTheRoomAndAFanRatingWithItsInlet) {
  EXPECT_NEAR(fanRise(rated(RatingBasis::TotalAtInlet), 0.4, 0.96, 0.9).p_pa, 2100 * 0.8, 1e-9);
  EXPECT_NEAR(fanRise(rated(RatingBasis::FanTotal), 0.4, 0.96, 0.9).p_pa, 2100 * 0.75, 1e-9);
  EXPECT_NEAR(fanRise(rated(RatingBasis::StaticAtInlet), 0.4, 0.96, 0.9).p_pa, 2100 * 0.8 - vp(0.9, 0.4, 0.2),
              1e-9);
  EXPECT_TRUE(ratedAtInlet(RatingBasis::StaticAtInlet));
  EXPECT_FALSE(ratedAtInlet(RatingBasis::FanStatic));
}

TEST(Fan, SpeedFollowsTheFanLaws) {
  const auto slow = rated(RatingBasis::FanTotal, 0.8);
  const FanScale scale = fanLaws(0.8, 1, 1);
  EXPECT_NEAR(fanRise(slow, 0.4 * scale.flow, 1.2, 1.2).p_pa, 2100 * scale.pressure, 1e-9);
  // The velocity pressure of the bore is that of the flow that runs, so static and total keep the same ratio.
  const auto slow_static = rated(RatingBasis::StaticAtInlet, 0.8);
  EXPECT_NEAR(fanRise(slow_static, 0.32, 1.2, 1.2).p_pa, 0.64 * (2100 - vp(1.2, 0.4, 0.2)), 1e-9);
}

TEST(Fan, RiseMatchesItsDerivative) {
  for (const auto basis : {RatingBasis::StaticAtInlet, RatingBasis::TotalAtInlet, RatingBasis::FanStatic,
                           RatingBasis::FanTotal}) {
    const auto rating = rated(basis, 1.1);
    for (double q = -0.5; q < 1.2; q += 0.0137) {
      const double numeric = tests::centralDifference(
          [&](double x) { return fanRise(rating, x, 1.15, 1.1).p_pa; }, q, 0.5, 1e-7);
      EXPECT_NEAR(fanRise(rating, q, 1.15, 1.1).dp_d_q, numeric, 2) << q;
    }
  }
}

TEST(Fan, RiseIsSmoothThroughZeroFlow) {
  for (const auto basis : {RatingBasis::StaticAtInlet, RatingBasis::FanStatic}) {
    const auto rating = rated(basis);
    const auto left = fanRise(rating, -1e-9, 1.2, 1.2);
    const auto right = fanRise(rating, 1e-9, 1.2, 1.2);
    EXPECT_NEAR(left.p_pa, right.p_pa, 1e-4);
    EXPECT_NEAR(left.dp_d_q, right.dp_d_q, 1e-3);
  }
}

TEST(Fan, TheNoteRepeatsTheSilentNumber) {
  const auto rating = rated(RatingBasis::StaticAtInlet);
  base::Recorder recorder;
  EXPECT_EQ(fanRise(rating, 0.37, 1.1, 1.0, recorder).p_pa, fanRise(rating, 0.37, 1.1, 1.0).p_pa);
  ASSERT_EQ(recorder.steps().size(), 3U);
  EXPECT_EQ(recorder.steps()[2].law->key, "fan-rise-from-inlet-static");
}

TEST(Fan, ALabelGivesTheQuadraticOfThreeQuartersOfItsFreeAir) {
  const auto rating = makeLabelRating(0.4, 1500, 0.125, 1.2);
  ASSERT_TRUE(rating);
  EXPECT_NEAR(rating->curve.value(0.15).p_pa, 1500 * 0.75, 1e-9);
  EXPECT_NEAR(rating->curve.value(0.3).p_pa, 0, 1e-9);
  EXPECT_NEAR(fanRise(*rating, 0.15, 1.2, 1.2).p_pa, 1125 - vp(1.2, 0.15, 0.125), 1e-9);
  EXPECT_EQ(rating->basis, RatingBasis::StaticAtInlet);
}

TEST(Fan, RefusesARatingThatLacksWhatItNeeds) {
  const auto no_bore = makeFanRating(kPoints, {.basis = RatingBasis::StaticAtInlet, .density_kg_m3 = 1.2});
  ASSERT_FALSE(no_bore);
  EXPECT_THAT(no_bore.error().message, HasSubstr("needs the bore of that pipe"));
  const auto no_density = makeFanRating(kPoints, {.basis = RatingBasis::FanTotal});
  ASSERT_FALSE(no_density);
  EXPECT_THAT(no_density.error().message, HasSubstr("not 0 kg/m3"));
  const auto bad_bore =
      makeFanRating(kPoints, {.basis = RatingBasis::FanStatic, .density_kg_m3 = 1.2, .outlet_bore_m = -0.1});
  ASSERT_FALSE(bad_bore);
  EXPECT_THAT(bad_bore.error().message, HasSubstr("not -0.1 m"));
  const auto stopped =
      makeFanRating(kPoints, {.basis = RatingBasis::FanTotal, .density_kg_m3 = 1.2, .speed_ratio = 0});
  ASSERT_FALSE(stopped);
  EXPECT_THAT(stopped.error().message, HasSubstr("0 times the rated speed"));
  EXPECT_FALSE(
      makeFanRating(std::vector<FanPoint>{{0, 5}}, {.basis = RatingBasis::FanTotal, .density_kg_m3 = 1.2}));
  EXPECT_FALSE(makeLabelRating(0, 1500, 0.1, 1.2));
  EXPECT_FALSE(makeLabelRating(0.4, 0, 0.1, 1.2));
  EXPECT_FALSE(makeLabelRating(0.4, 1500, 0, 1.2));
  EXPECT_FALSE(makeLabelRating(0.4, 1500, 0.1, std::nan("")));
}

TEST(Fan, AWheelCannotMakeMoreSuctionThanItsRimSpeedGives) {
  // 250 mm at 3450 rpm: u = 45.2 m/s, 0.65 rho u^2 = 1.59 kPa.
  const double speed = 3450 * 2 * std::numbers::pi / 60;
  const WheelCheck honest = checkWheel(1500, 0.25, speed, 1.2);
  EXPECT_NEAR(honest.tip_speed_m_s, std::numbers::pi * 0.25 * 3450 / 60, 1e-9);
  EXPECT_NEAR(honest.shutoff_high_pa, 0.65 * 1.2 * std::pow(std::numbers::pi * 0.25 * 57.5, 2), 1e-9);
  EXPECT_FALSE(honest.above_wheel);
  const WheelCheck proud = checkWheel(2500, 0.25, speed, 1.2);
  EXPECT_TRUE(proud.above_wheel);
  EXPECT_NEAR(proud.claim_over_high, 2500 / honest.shutoff_high_pa, 1e-12);
}

TEST(Fan, GreatestAirPowerOfTheLabelLawIsItsClosedForm) {
  // p = p_s - (p_s/Q0^2 + rho/2A^2) Q^2 has its greatest Q p at Q = Q1/sqrt(3), p = 2 p_s/3.
  const auto rating = makeLabelRating(0.4, 1500, 0.125, 1.2);
  ASSERT_TRUE(rating);
  const double area = std::numbers::pi * 0.125 * 0.125 / 4;
  const double q1 = std::sqrt(1500 / (1500 / 0.09 + 0.6 / (area * area)));
  const MotorCheck check = checkMotor(*rating, 750);
  EXPECT_NEAR(check.at.flow_m3_s, q1 / std::sqrt(3.0), 1e-6);
  EXPECT_NEAR(check.air_power_w, 2.0 / 3 * 1500 * q1 / std::sqrt(3.0), 1e-6);
  EXPECT_NEAR(check.efficiency_needed, check.air_power_w / 750, 1e-12);
  EXPECT_FALSE(check.above_motor);
  EXPECT_TRUE(checkMotor(*rating, 50).above_motor);
  EXPECT_TRUE(checkMotor(*rating, 1.5 * check.air_power_w).above_small_fan);
}

TEST(Fan, APowerCurveGoesThroughItsPointsAndFlagsWhatIsBeyond) {
  const auto power = makePowerCurve(std::vector<FanPoint>{{0.1, 300}, {0.3, 600}, {0.5, 1000}});
  ASSERT_TRUE(power);
  EXPECT_NEAR(power->value(0.3).p_pa, 600, 1e-9);
  EXPECT_FALSE(power->value(0.3).beyond_data);
  EXPECT_NEAR(power->value(0.02).p_pa, 300, 1e-9);
  EXPECT_TRUE(power->value(0.02).beyond_data);
  EXPECT_NEAR(power->value(0.6).p_pa, 1000 + 0.1 * power->value(0.5).dp_d_q, 1e-9);
  EXPECT_TRUE(power->value(0.6).beyond_data);
  const auto one = makePowerCurve(std::vector<FanPoint>{{0.1, 300}});
  ASSERT_FALSE(one);
  EXPECT_THAT(one.error().message, HasSubstr("at least two points"));
  EXPECT_FALSE(makePowerCurve(std::vector<FanPoint>{{0.1, 300}, {0.1, 400}}));
  EXPECT_FALSE(makePowerCurve(std::vector<FanPoint>{{0.1, -300}, {0.2, 400}}));
}

}  // namespace
}  // namespace kerfdraft::physics
