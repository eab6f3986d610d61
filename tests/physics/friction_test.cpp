// Friction: the fast solution against a slow one, the joints at Re 2000 and 4000, slopes, and refusals.
#include "physics/friction.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "physics/differences.h"

namespace kerfdraft::physics {
namespace {

using base::Length;

/// Colebrook-White by Newton in long double, from a start that converges everywhere.
double colebrookByNewton(double re, double e) {
  const long double two_over_ln10 = 2 / std::log(10.0L);
  long double x = 6;
  for (int k = 0; k < 60; ++k) {
    const long double t = static_cast<long double>(e) / 3.7L + 2.51L * x / re;
    x -= (x + 2 * std::log10(t)) / (1 + two_over_ln10 * 2.51L / re / t);
  }
  return static_cast<double>(1 / (x * x));
}

TEST(Friction, ColebrookToItsLastDigits) {
  double worst = 0;
  for (double log_re = std::log(4000.0); log_re < std::log(1e12); log_re += 0.0317) {
    const double re = std::exp(log_re);
    for (double e = 0; e <= 0.05; e = e == 0 ? 1e-8 : e * 1.37) {
      worst = std::max(worst, std::abs(frictionFactor(re, e).f / colebrookByNewton(re, e) - 1));
    }
    worst = std::max(worst, std::abs(frictionFactor(re, 0.05).f / colebrookByNewton(re, 0.05) - 1));
  }
  EXPECT_LT(worst, 1e-11);
}

TEST(Friction, SlopeIsThatOfTheExactSolution) {
  for (const double re : {4500.0, 2e4, 1.5e5, 3e6, 1e8}) {
    for (const double e : {0.0, 1e-5, 9e-4, 0.01, 0.05}) {
      const double slope = frictionFactor(re, e).df_d_re;
      const auto f = [e](double r) { return colebrookByNewton(r, e); };
      // Central differences with h = 1e-4 Re: truncation 1e-8 relative, rounding 1e-15 f/h.
      EXPECT_NEAR(slope, tests::centralDifference(f, re, 1, 1e-4),
                  1e-7 * std::abs(slope) + 1e-11 * f(re) / re)
          << re << " " << e;
    }
  }
}

TEST(Friction, LaminarBelowRe2000) {
  for (const double re : {1.5, 300.0, 1999.0, 2000.0}) {
    EXPECT_DOUBLE_EQ(frictionFactor(re, 0.01).f, 64 / re);
    EXPECT_DOUBLE_EQ(frictionTimesRe(re, 0.01).f_re, 64);
    EXPECT_EQ(frictionTimesRe(re, 0.01).slope, 0);
  }
}

TEST(Friction, HalfwayItIsTheMeanOfBothLaws) {
  EXPECT_NEAR(frictionFactor(3000, 9e-4).f, 0.5 * (64.0 / 3000 + colebrookByNewton(3000, 9e-4)), 1e-12);
}

TEST(Friction, JoinsWithoutStepOrKink) {
  for (const double joint : {kLaminarEnd, kTurbulentStart}) {
    for (const double e : {0.0, 9e-4, 0.05}) {
      const double d = 1e-7 * joint;
      const FrictionTerm below = frictionTimesRe(joint - d, e);
      const FrictionTerm above = frictionTimesRe(joint + d, e);
      EXPECT_NEAR(below.f_re, above.f_re, 3e-7 * above.f_re);
      // The blend's second derivative is 6/2000^2 times (f Re - 64): over 2 d below 1e-6 of the slope's
      // scale.
      EXPECT_NEAR(below.slope, above.slope, 1e-6 * above.f_re / joint * 10) << joint << " " << e;
    }
  }
}

TEST(Friction, SlopeIsExactInTheTransition) {
  for (const double re : {2050.0, 2400.0, 3000.0, 3700.0, 3990.0}) {
    for (const double e : {0.0, 9e-4, 0.05}) {
      const auto f_re = [e](double r) { return frictionTimesRe(r, e).f_re; };
      EXPECT_NEAR(frictionTimesRe(re, e).slope, tests::centralDifference(f_re, re, 1, 1e-5), 1e-7) << re;
      const auto f = [e](double r) { return frictionFactor(r, e).f; };
      EXPECT_NEAR(frictionFactor(re, e).df_d_re, tests::centralDifference(f, re, 1, 1e-5), 1e-10) << re;
    }
  }
}

TEST(Friction, IsEvenAndDefinedAtRest) {
  for (const double re : {0.0, 0.5, 700.0, 3000.0, 1e5}) {
    const FrictionFactor forward = frictionFactor(re, 1e-3);
    const FrictionFactor backward = frictionFactor(-re, 1e-3);
    EXPECT_EQ(forward.f, backward.f);
    EXPECT_EQ(forward.df_d_re, -backward.df_d_re);
    EXPECT_TRUE(std::isfinite(forward.f));
  }
  EXPECT_EQ(frictionTimesRe(0, 1e-3).f_re, 64);
}

TEST(Friction, LossRisesStrictlyWithFlow) {
  for (const double e : {0.0, 9e-4, 0.05}) {
    double last = 0;
    for (double re = 10; re < 1e7; re *= 1.003) {
      const double f_re_re = frictionTimesRe(re, e).f_re * re;
      EXPECT_GT(f_re_re, last) << re;
      last = f_re_re;
      EXPECT_GT(frictionTimesRe(re, e).f_re + re * frictionTimesRe(re, e).slope, 0);
    }
  }
}

TEST(Friction, IsDarcyWeisbach) {
  const double flow = 0.2;
  const double re = reynolds(flow, 0.15, 1.8e-5);
  const double vp = velocityPressure(1.2, flow / (1.2 * roundArea(0.15)));
  EXPECT_NEAR(frictionLoss(flow, 1.2, 1.8e-5, 0.15, 7, 6e-4).dp_pa,
              frictionFactor(re, 6e-4).f * 7 / 0.15 * vp, 1e-10);
}

TEST(Friction, SlopeOfTheLossIsExact) {
  const auto dp = [](double m) { return frictionLoss(m, 1.2, 1.8e-5, 0.1, 5, 9e-4).dp_pa; };
  for (const double flow : {-0.3, -0.004, -1e-4, 0.0, 1e-4, 0.0035, 0.005, 0.02, 0.2}) {
    const double slope = frictionLoss(flow, 1.2, 1.8e-5, 0.1, 5, 9e-4).slope_pa_s_kg;
    EXPECT_GT(slope, 0);
    EXPECT_NEAR(slope, tests::centralDifference(dp, flow, 1e-4, 1e-5), 1e-7 * slope) << flow;
  }
}

TEST(Friction, LossIsOddAndHasItsLaminarSlopeAtZero) {
  const Loss rest = frictionLoss(0, 1.2, 1.8e-5, 0.1, 5, 9e-4);
  EXPECT_EQ(rest.dp_pa, 0);
  // Hagen-Poiseuille: dp = 128 mu L Q / (pi D^4).
  EXPECT_NEAR(rest.slope_pa_s_kg, 128 * 1.8e-5 * 5 / (std::numbers::pi * 1e-4) / 1.2, 1e-9);
  EXPECT_EQ(frictionLoss(-0.1, 1.2, 1.8e-5, 0.1, 5, 9e-4).dp_pa,
            -frictionLoss(0.1, 1.2, 1.8e-5, 0.1, 5, 9e-4).dp_pa);
}

TEST(Friction, ANoteSeesEveryStepAndTheSameNumber) {
  base::Recorder recorder;
  const Loss loss = frictionLoss(0.1, 1.2, 1.8e-5, 0.1, 5, 9e-4, recorder);
  EXPECT_EQ(loss.dp_pa, frictionLoss(0.1, 1.2, 1.8e-5, 0.1, 5, 9e-4).dp_pa);
  ASSERT_EQ(recorder.steps().size(), 5U);
  EXPECT_EQ(recorder.steps()[0].law, &kReynolds);
  EXPECT_EQ(recorder.steps()[1].law, &kFrictionFactor);
  EXPECT_EQ(recorder.steps()[4].result, loss.dp_pa);
  EXPECT_NEAR(recorder.steps()[1].result * 5 / 0.1 * recorder.steps()[3].result, loss.dp_pa, 1e-9);
}

TEST(Friction, RefusesRoughnessThatNobodyMeasured) {
  EXPECT_NEAR(relativeRoughness(Length(0.15e-3), Length(0.1)).value(), 1.5e-3, 1e-18);
  EXPECT_EQ(relativeRoughness(Length(0), Length(0.1)).value(), 0);
  const auto rough = relativeRoughness(Length(9e-3), Length(0.1), "/runs/3/roughness");
  ASSERT_FALSE(rough.has_value());
  EXPECT_EQ(
      rough.error().text(),
      "/runs/3/roughness: A roughness of 9 mm in a bore of 100 mm is 0.09 of the bore; the friction law "
      "is measured to 0.05 only.");
  EXPECT_EQ(relativeRoughness(Length(-1e-3), Length(0.1)).error().message,
            "A roughness of -1 mm is below 0.");
  EXPECT_EQ(relativeRoughness(Length(1e-3), Length(0)).error().message,
            "A bore of 0 mm is not a positive length.");
  EXPECT_FALSE(relativeRoughness(Length(std::numeric_limits<double>::quiet_NaN()), Length(0.1)).has_value());
  EXPECT_FALSE(relativeRoughness(Length(1e-3), Length(std::numeric_limits<double>::quiet_NaN())).has_value());
}

}  // namespace
}  // namespace kerfdraft::physics
