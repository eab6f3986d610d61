// Fittings: tables read without extrapolation, continuity in angle and size, refusals.
#include "physics/fittings.h"

#include <gtest/gtest.h>

#include <array>
#include <limits>

#include "physics/sample_tables.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {
namespace {

using base::Angle;
using tests::kDegree;

TEST(Column, ReadsStraightLinesAndHoldsItsEnds) {
  const std::array<double, 3> x{1, 2, 4};
  const std::array<double, 3> y{10, 20, 0};
  const Column column{x, y};
  EXPECT_EQ(readColumn(column, 1).value, 10);
  EXPECT_FALSE(readColumn(column, 1).clamped);
  EXPECT_EQ(readColumn(column, 1.5).value, 15);
  EXPECT_EQ(readColumn(column, 3).value, 10);
  EXPECT_EQ(readColumn(column, 4).value, 0);
  EXPECT_FALSE(readColumn(column, 4).clamped);
  EXPECT_EQ(readColumn(column, 0.5).value, 10);
  EXPECT_TRUE(readColumn(column, 0.5).clamped);
  EXPECT_EQ(readColumn(column, 9).value, 0);
  EXPECT_TRUE(readColumn(column, 9).clamped);
}

TEST(Column, ValidMeansFiniteAndRising) {
  const std::array<double, 2> x{1, 2};
  const std::array<double, 2> same{1, 1};
  const std::array<double, 2> nan{1, std::numeric_limits<double>::quiet_NaN()};
  EXPECT_TRUE(validColumn({x, x}));
  EXPECT_FALSE(validColumn({same, x}));
  EXPECT_FALSE(validColumn({nan, x}));
  EXPECT_FALSE(validColumn({x, nan}));
  EXPECT_FALSE(validColumn({x, std::span(x).first(1)}));
  EXPECT_FALSE(validColumn({}));
}

TEST(Elbow, AtRadiusOneAndAHalfIsTheMeasuredValue) {
  EXPECT_NEAR(elbow(tests::kStampedElbow, 0.100, 1.5, 90 * kDegree).k, 0.21, 1e-15);
  EXPECT_NEAR(elbow(tests::kFivePieceElbow, 0.150, 1.5, 90 * kDegree).k, 0.28, 1e-15);
}

TEST(Elbow, OtherRadiiAndAnglesScaleIt) {
  EXPECT_NEAR(elbow(tests::kStampedElbow, 0.100, 1.0, 90 * kDegree).k, 0.21 * 0.22 / 0.15, 1e-15);
  EXPECT_NEAR(elbow(tests::kStampedElbow, 0.100, 1.5, 45 * kDegree).k, 0.21 * 0.60, 1e-15);
  EXPECT_EQ(elbow(tests::kStampedElbow, 0.100, 1.5, 0).k, 0);
  EXPECT_NEAR(elbow(tests::kStampedElbow, 0.100, 1.5, 180 * kDegree).k, 0.21 * 1.40, 1e-15);
}

TEST(Elbow, ThreePiecesAreTheFivePieceColumnTimesTheRatioOfPieceCounts) {
  EXPECT_NEAR(elbow(tests::kThreePieceElbow, 0.150, 1.5, 90 * kDegree).k, 0.28 * 0.34 / 0.24, 1e-15);
  EXPECT_GT(elbow(tests::kThreePieceElbow, 0.100, 1.0, 90 * kDegree).k,
            elbow(tests::kFivePieceElbow, 0.100, 1.0, 90 * kDegree).k);
}

TEST(Elbow, HoldsTheEndsOfItsTablesAndSaysSo) {
  const FittingK tight = elbow(tests::kFivePieceElbow, 0.150, 0.3, 90 * kDegree);
  EXPECT_NEAR(tight.k, 0.28 * 0.46 / 0.24, 1e-15);
  EXPECT_TRUE(tight.clamped);
  EXPECT_TRUE(elbow(tests::kStampedElbow, 0.050, 1.5, 90 * kDegree).clamped);
  EXPECT_FALSE(elbow(tests::kStampedElbow, 0.100, 1.5, 90 * kDegree).clamped);
}

TEST(Elbow, OfOneShapeTakesTheAngleFactor) {
  EXPECT_NEAR(elbowOfFixedK(0.5, tests::kStampedElbow.angle_factor, 45 * kDegree).k, 0.30, 1e-15);
}

TEST(Mitre, ReadsItsOwnColumnAndVanishesWithTheAngle) {
  EXPECT_NEAR(mitre(tests::kMitreColumn, 45 * kDegree).k, 0.34, 1e-15);
  EXPECT_NEAR(mitre(tests::kMitreColumn, 10 * kDegree).k, 0.04, 1e-15);
  EXPECT_EQ(mitre(tests::kMitreColumn, 0).k, 0);
  EXPECT_FALSE(mitre(tests::kMitreColumn, 10 * kDegree).clamped);
  EXPECT_TRUE(mitre(tests::kMitreColumn, 100 * kDegree).clamped);
}

TEST(Elbow, RefusesAnglesOutsideTheTables) {
  EXPECT_TRUE(checkElbow(Angle(180 * kDegree), 1.5, false).has_value());
  EXPECT_EQ(checkElbow(Angle(200 * kDegree), 1.5, false, "T3").error().text(),
            "T3: An elbow of 200° is outside 0 to 180°.");
  EXPECT_EQ(checkElbow(Angle(120 * kDegree), 1.5, true).error().text(),
            "A mitre of 120° is outside 0 to 90°.");
  EXPECT_EQ(checkElbow(Angle(90 * kDegree), 0, false).error().text(),
            "A bend radius of 0 bores is not above 0.");
  EXPECT_FALSE(checkElbow(Angle(std::numeric_limits<double>::quiet_NaN()), 1.5, false).has_value());
}

TEST(SizeChange, AConeNeverLosesMoreThanAStep) {
  for (double ratio = 0.05; ratio <= 1.0001; ratio += 0.05) {
    const double n = std::min(ratio, 1.0);
    for (double degrees = 0; degrees <= 180; degrees += 1) {
      EXPECT_LE(contraction(1, n, degrees * kDegree), abruptContraction(1, n) + 1e-15);
      EXPECT_LE(expansion(n, 1, degrees * kDegree), (1 - n) * (1 - n) + 1e-15);
      EXPECT_GE(contraction(1, n, degrees * kDegree), 0);
      EXPECT_GE(expansion(n, 1, degrees * kDegree), 0);
    }
  }
}

TEST(SizeChange, IsContinuousAndRisesWithTheAngle) {
  for (const double n : {0.1, 0.4, 0.7, 0.95}) {
    const double step = 0.01 * kDegree;
    for (double theta = 0; theta + step < std::numbers::pi; theta += step) {
      const double down = contraction(1, n, theta + step) - contraction(1, n, theta);
      const double up = expansion(n, 1, theta + step) - expansion(n, 1, theta);
      EXPECT_GE(down, -1e-15);
      EXPECT_GE(up, -1e-15);
      EXPECT_LT(down, 2 * step);
      EXPECT_LT(up, 4 * step);
    }
  }
}

TEST(SizeChange, EqualBoresLoseNothing) {
  EXPECT_EQ(abruptContraction(0.01, 0.01), 0);
  EXPECT_EQ(contraction(0.01, 0.01, 1), 0);
  EXPECT_EQ(expansion(0.01, 0.01, 1), 0);
  EXPECT_EQ(coneAngle(0.1, 0.1, 0.2), 0);
}

TEST(SizeChange, NoLengthIsAStep) {
  EXPECT_NEAR(coneAngle(0.15, 0.1, 0), std::numbers::pi, 1e-15);
  EXPECT_NEAR(coneAngle(0.1, 0.15, 0.2), 2 * std::atan(0.125), 1e-15);
  EXPECT_EQ(expansion(0.5, 1, std::numbers::pi), 0.25);
  EXPECT_NEAR(contraction(1, 0.5, std::numbers::pi), abruptContraction(1, 0.5), 1e-15);
}

TEST(SizeChange, CrossedBackwardIsTheOppositeFitting) {
  const SizeChange narrowing = sizeChange(0.02, 0.01, 0.5);
  EXPECT_EQ(narrowing.k_forward, contraction(0.02, 0.01, 0.5));
  EXPECT_EQ(narrowing.k_backward, expansion(0.01, 0.02, 0.5));
  EXPECT_EQ(narrowing.area_m2, 0.01);
  const SizeChange widening = sizeChange(0.01, 0.02, 0.5);
  EXPECT_EQ(widening.k_forward, narrowing.k_backward);
  EXPECT_EQ(widening.k_backward, narrowing.k_forward);
  EXPECT_EQ(widening.area_m2, 0.01);
  const double dp = localLoss(narrowing.k_forward, narrowing.k_backward, -0.1, 1.2, narrowing.area_m2).dp_pa;
  EXPECT_NEAR(dp, -expansion(0.01, 0.02, 0.5) * velocityPressure(1.2, 0.1 / 0.012), 1e-12);
}

TEST(Outlet, AddsCapAndScreen) {
  EXPECT_EQ(outlet(0, 0), 1);
  EXPECT_NEAR(outlet(0.73, 0.5412, base::Silent{}), 2.2712, 1e-15);
}

TEST(Screen, FreeOpeningLosesNothingAndTooDenseIsRefused) {
  EXPECT_EQ(screen(1), 0);
  EXPECT_GT(screen(0.5), screen(0.6));
  EXPECT_TRUE(checkScreen(0.6).has_value());
  EXPECT_EQ(checkScreen(0.1).error().text(), "A screen with 10 % free area is outside 30 to 100 %.");
  EXPECT_FALSE(checkScreen(std::numeric_limits<double>::quiet_NaN()).has_value());
}

TEST(SystemEffect, FadesToNothingOverFiveBores) {
  EXPECT_EQ(systemEffect(kDefaultSystemEffect, 0), 1);
  EXPECT_NEAR(systemEffect(kDefaultSystemEffect, 2.5), 0.5, 1e-15);
  EXPECT_EQ(systemEffect(kDefaultSystemEffect, 5), 0);
  EXPECT_EQ(systemEffect(kDefaultSystemEffect, 12), 0);
}

TEST(Elbow, DisturbEachOtherWithinTwoBores) {
  EXPECT_TRUE(elbowsDisturb(0.19, 0.1));
  EXPECT_FALSE(elbowsDisturb(0.21, 0.1));
}

TEST(Fittings, ANoteSeesTheSameNumber) {
  base::Recorder recorder;
  const double k = contraction(0.02, 0.01, 2.0, recorder);
  EXPECT_EQ(k, contraction(0.02, 0.01, 2.0));
  ASSERT_EQ(recorder.steps().size(), 2U);
  EXPECT_EQ(recorder.steps()[0].law, &kAbruptContraction);
  EXPECT_EQ(recorder.steps()[1].result, k);
  base::Recorder bend;
  const double bend_k = elbow(tests::kStampedElbow, 0.1, 1.2, 1.0, bend).k;
  EXPECT_EQ(bend_k, bend.steps().at(0).result);
}

}  // namespace
}  // namespace kerfdraft::physics
