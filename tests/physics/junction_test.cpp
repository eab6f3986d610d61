// Junctions: the properties that make the law safe to solve, over random junctions: what enters never gains
// power as a whole, more suction never means less air, nothing jumps.
#include "physics/junction.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>
#include <vector>

#include "physics/differences.h"
#include "physics/sample_tables.h"

namespace kerfdraft::physics {
namespace {

using tests::kDegree;
using tests::kMitreColumn;

constexpr double kDensity = 1.2;

/// Random junctions with the outlet as last leg. Half of them have a straight main.
class RandomJunctions {
 public:
  explicit RandomJunctions(unsigned seed) : random_(seed) {}

  double uniform(double low, double high) { return std::uniform_real_distribution<>(low, high)(random_); }

  JunctionGeometry next() {
    const auto inlets = std::uniform_int_distribution<std::size_t>(1, 6)(random_);
    std::vector<std::array<double, 3>> outward(inlets + 1);
    std::vector<double> area(inlets + 1);
    for (std::size_t i = 0; i < inlets; ++i) {
      const double turn = i == 0 && uniform(0, 1) < 0.5 ? 0 : uniform(0, 180 * kDegree);
      const double around = uniform(0, 2 * std::numbers::pi);
      outward[i] = {-std::cos(turn), std::sin(turn) * std::cos(around), std::sin(turn) * std::sin(around)};
      area[i] = uniform(0.002, 0.03);
    }
    outward[inlets] = {1, 0, 0};
    area[inlets] = uniform(0.008, 0.05);
    std::vector<double> turn(area.size() * area.size());
    junctionTurns(outward, turn);
    return junctionGeometry(area, turn, inlets, kMitreColumn).value();
  }

  /// Every leg but the last takes air in; the last lets all of it out.
  std::vector<double> converging(const JunctionGeometry& geometry) {
    std::vector<double> flow(geometry.legs);
    double sum = 0;
    for (std::size_t i = 0; i + 1 < geometry.legs; ++i) {
      flow[i] = uniform(0, 1) < 0.15 ? 0 : uniform(0, 0.4);
      sum += flow[i];
    }
    flow.back() = -sum;
    return flow;
  }

  /// Any signs, in balance up to a leak of either sign.
  std::vector<double> any(const JunctionGeometry& geometry, double leak) {
    std::vector<double> flow(geometry.legs);
    double sum = 0;
    for (std::size_t i = 0; i + 1 < geometry.legs; ++i) {
      flow[i] = uniform(-0.4, 0.4);
      sum += flow[i];
    }
    flow.back() = -sum - leak;
    return flow;
  }

 private:
  std::mt19937 random_;
};

std::vector<double> rises(const JunctionGeometry& geometry, const std::vector<double>& flow) {
  std::vector<double> rise(geometry.legs);
  junctionEnds(geometry, flow, kDensity, rise.data(), nullptr);
  return rise;
}

TEST(Junction, DissipatesWithOneOutlet) {
  RandomJunctions random(1);
  for (int k = 0; k < 3000; ++k) {
    const JunctionGeometry geometry = random.next();
    const auto flow = random.converging(geometry);
    const auto rise = rises(geometry, flow);
    double power = 0;
    double scale = 0;
    for (std::size_t i = 0; i < geometry.legs; ++i) {
      power += flow[i] * rise[i];
      scale += std::abs(flow[i] * rise[i]);
    }
    EXPECT_GE(power, -1e-12 * scale);
  }
}

TEST(Junction, IsAMonotoneOperatorWithOneOutlet) {
  RandomJunctions random(2);
  std::vector<double> slope(kMaxLegs * kMaxLegs);
  std::vector<double> rise(kMaxLegs);
  for (int k = 0; k < 3000; ++k) {
    const JunctionGeometry geometry = random.next();
    const std::size_t n = geometry.legs;
    const auto flow = random.converging(geometry);
    junctionEnds(geometry, flow, kDensity, rise.data(), slope.data());
    // x is any change of the inlets; the outlet takes their sum.
    std::vector<double> x(n);
    for (std::size_t i = 0; i + 1 < n; ++i) {
      x[i] = random.uniform(-1, 1);
      x[n - 1] -= x[i];
    }
    double product = 0;
    double scale = 0;
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) {
        product += x[i] * slope[i * n + j] * x[j];
        scale += std::abs(x[i] * slope[i * n + j] * x[j]);
      }
    }
    EXPECT_GE(product, -1e-12 * scale);
  }
}

TEST(Junction, InletsDifferByTheirVelocityPressuresOnly) {
  RandomJunctions random(3);
  for (int k = 0; k < 500; ++k) {
    const JunctionGeometry geometry = random.next();
    const auto flow = random.converging(geometry);
    const auto rise = rises(geometry, flow);
    for (std::size_t i = 0; i + 1 < geometry.legs; ++i) {
      const double speed = flow[i] / (kDensity * geometry.area_m2[i]);
      EXPECT_NEAR(rise[i], 0.5 * kDensity * speed * speed, 1e-12 * (1 + rise[i]));
    }
  }
}

TEST(Junction, SlopesAreExact) {
  RandomJunctions random(4);
  std::vector<double> slope(kMaxLegs * kMaxLegs);
  std::vector<double> rise(kMaxLegs);
  int by_outlets = 0;
  int by_inlets = 0;
  for (int k = 0; k < 400; ++k) {
    const JunctionGeometry geometry = random.next();
    const std::size_t n = geometry.legs;
    const auto flow = random.any(geometry, k % 2 == 0 ? 0.01 : -0.01);
    if (std::any_of(flow.begin(), flow.end(), [](double q) { return std::abs(q) < 1e-4; })) {
      continue;  // a kink within reach of the difference
    }
    junctionEnds(geometry, flow, kDensity, rise.data(), slope.data());
    (leavingFlow(flow).by_outlets ? by_outlets : by_inlets) += 1;
    for (std::size_t j = 0; j < n; ++j) {
      for (std::size_t i = 0; i < n; ++i) {
        const auto f = [&](double q) {
          auto moved = flow;
          moved[j] = q;
          return rises(geometry, moved)[i];
        };
        const double scale = std::abs(slope[i * n + j]) + std::abs(rise[i]) / 0.1 + 1;
        EXPECT_NEAR(slope[i * n + j], tests::centralDifference(f, flow[j], 0.01, 1e-5), 1e-6 * scale)
            << k << ": end " << i << ", flow " << j;
      }
    }
  }
  EXPECT_GT(by_outlets, 50);
  EXPECT_GT(by_inlets, 50);
}

TEST(Junction, NothingJumpsWhenAFlowPassesZero) {
  RandomJunctions random(5);
  for (int k = 0; k < 500; ++k) {
    const JunctionGeometry geometry = random.next();
    for (std::size_t leg = 0; leg < geometry.legs; ++leg) {
      auto flow = random.any(geometry, 0.01);
      double most = 0;
      for (const double rise : rises(geometry, flow)) {
        most = std::max(most, std::abs(rise));
      }
      flow[leg] = 0;
      const auto at = rises(geometry, flow);
      EXPECT_EQ(at[leg], 0);  // shut, it sees the plenum
      for (const double side : {-1e-9, 1e-9}) {
        flow[leg] = side;
        const auto near = rises(geometry, flow);
        for (std::size_t i = 0; i < geometry.legs; ++i) {
          // Slopes stay below rise/flow of the others, some 1e4 Pa s/kg here.
          EXPECT_NEAR(near[i], at[i], 1e-4 * (1 + most));
        }
      }
    }
  }
}

TEST(Junction, NothingJumpsWhenTheLeakChangesSign) {
  RandomJunctions random(6);
  for (int k = 0; k < 500; ++k) {
    const JunctionGeometry geometry = random.next();
    auto flow = random.converging(geometry);
    const auto at = rises(geometry, flow);
    for (const double side : {-1e-9, 1e-9}) {
      auto leaky = flow;
      leaky.back() += side;
      const auto near = rises(geometry, leaky);
      for (std::size_t i = 0; i < geometry.legs; ++i) {
        EXPECT_NEAR(near[i], at[i], 1e-5 * (1 + std::abs(at[i])));
      }
    }
  }
}

TEST(Junction, RestsWhereNothingFlows) {
  RandomJunctions random(7);
  const JunctionGeometry geometry = random.next();
  const std::vector<double> flow(geometry.legs, 0.0);
  std::vector<double> rise(kMaxLegs, 1);
  std::vector<double> slope(kMaxLegs * kMaxLegs, 1);
  junctionEnds(geometry, flow, kDensity, rise.data(), slope.data());
  for (std::size_t i = 0; i < geometry.legs; ++i) {
    EXPECT_EQ(rise[i], 0);
    for (std::size_t j = 0; j < geometry.legs; ++j) {
      EXPECT_EQ(slope[i * geometry.legs + j], 0);
    }
  }
}

TEST(Junction, GoesAsOneOverDensityAndAsTheSquareOfTheFlow) {
  RandomJunctions random(8);
  for (int k = 0; k < 100; ++k) {
    const JunctionGeometry geometry = random.next();
    auto flow = random.any(geometry, 0.01);
    std::vector<double> thin(geometry.legs);
    junctionEnds(geometry, flow, kDensity / 2, thin.data(), nullptr);
    const auto rise = rises(geometry, flow);
    for (double& q : flow) {
      q *= 3;
    }
    const auto triple = rises(geometry, flow);
    for (std::size_t i = 0; i < geometry.legs; ++i) {
      EXPECT_NEAR(thin[i], 2 * rise[i], 1e-12 * std::abs(rise[i]));
      EXPECT_NEAR(triple[i], 9 * rise[i], 1e-11 * std::abs(rise[i]));
    }
  }
}

TEST(Junction, LeakAirDilutesTheMomentum) {
  // One straight inlet and a leak as large: half the speed arrives as momentum.
  const std::vector<double> area{0.01, 0.01};
  const std::vector<double> turn{0, 0, 0, 0};
  const JunctionGeometry geometry = junctionGeometry(area, turn, 1, kMitreColumn).value();
  const auto rise = rises(geometry, {0.1, -0.2});
  const double v1 = 0.1 / (kDensity * 0.01);
  const double v2 = 2 * v1;
  EXPECT_NEAR(rise[1], kDensity * (-0.5 * v2 * v2 + v2 * 0.5 * v1), 1e-9);
}

TEST(Junction, ThroughAStraightMainNothingIsLost) {
  const std::vector<double> area{0.02, 0.01, 0.02};
  const std::vector<double> turn{0, 0, 0, 0, 0, 45 * kDegree, 0, 45 * kDegree, 0};
  const JunctionGeometry geometry = junctionGeometry(area, turn, 2, kMitreColumn).value();
  const auto rise = rises(geometry, {0.3, 0, -0.3});
  EXPECT_NEAR(rise[0], rise[2], 1e-9);
  EXPECT_EQ(rise[1], 0);
}

TEST(Junction, EverythingThroughAnEqualBranchCostsTheMitre) {
  for (const double degrees : {30.0, 45.0, 60.0}) {
    const double alpha = degrees * kDegree;
    const std::vector<double> area{0.01, 0.01, 0.01};
    const std::vector<double> turn{0, 0, 0, 0, 0, alpha, 0, alpha, 0};
    const JunctionGeometry geometry = junctionGeometry(area, turn, 2, kMitreColumn).value();
    const auto rise = rises(geometry, {0, 0.2, -0.2});
    const double speed = 0.2 / (kDensity * 0.01);
    EXPECT_NEAR((rise[1] - rise[2]) / (0.5 * kDensity * speed * speed), mitre(kMitreColumn, alpha).k, 1e-12);
  }
}

TEST(Junction, CosineIsContinuousInAngleAndArea) {
  const double step = 0.01 * kDegree;
  for (const double main : {0.0, 0.4, 1.0}) {
    for (double a = 0.05; a < 1.3; a += 0.05) {
      for (double alpha = 0; alpha + step <= std::numbers::pi; alpha += step) {
        const double c = effectiveCosine(alpha, a, main, kMitreColumn);
        EXPECT_LE(c, 1);
        EXPECT_GE(c, -1);
        EXPECT_NEAR(effectiveCosine(alpha + step, a, main, kMitreColumn), c, 2 * step);
      }
    }
    for (double alpha = 0; alpha <= std::numbers::pi; alpha += 1.5 * kDegree) {
      for (double a = 0.01; a < 1.3; a += 0.001) {
        EXPECT_NEAR(effectiveCosine(alpha, a + 0.001, main, kMitreColumn),
                    effectiveCosine(alpha, a, main, kMitreColumn), 0.0031);
      }
    }
  }
}

TEST(Junction, CosinesOfTheModel) {
  const auto c = [](double degrees, double a, double main) {
    return effectiveCosine(degrees * kDegree, a, main, kMitreColumn);
  };
  EXPECT_EQ(c(0, 0.3, 1), 1);
  EXPECT_EQ(c(15, 0.3, 1), 1);
  EXPECT_NEAR(c(45, 0.5, 1), std::cos(45 * kDegree), 1e-15);
  EXPECT_NEAR(c(45, 1.0, 1), 1 - 0.34 / 2, 1e-15);
  EXPECT_NEAR(c(45, 0.75, 1), 0.5 * (std::cos(45 * kDegree) + 0.83), 1e-15);
  EXPECT_NEAR(c(90, 0.2, 1), 0, 1e-15);
  EXPECT_NEAR(c(90, 0.5, 1), 0.30, 1e-15);
  EXPECT_NEAR(c(90, 0.9, 1), 0.35, 1e-15);
  EXPECT_NEAR(c(90, 1.2, 1), 0.40, 1e-15);
  EXPECT_NEAR(c(90, 0.5, 0), 0, 1e-15);
  EXPECT_NEAR(c(75, 0.5, 1), 0.5 * (0.5 + 0.30), 1e-15);
  EXPECT_NEAR(c(120, 0.5, 1), 0.30 - 0.5, 1e-15);
  EXPECT_NEAR(c(22.5, 0.3, 0.5), 0.5 + 0.5 * std::cos(22.5 * kDegree), 1e-15);
}

TEST(Junction, BackwardItTurnsByThePlainAngle) {
  // Main to branch at 30 degrees of the outlet: 150 degrees of turn; outlet to branch: 30.
  const std::vector<std::array<double, 3>> outward{
      {-1, 0, 0}, {-std::cos(30 * kDegree), std::sin(30 * kDegree), 0}, {1, 0, 0}};
  std::vector<double> turn(9);
  junctionTurns(outward, turn);
  EXPECT_NEAR(turn[0 * 3 + 2], 0, 1e-15);
  EXPECT_NEAR(turn[1 * 3 + 2], 30 * kDegree, 1e-15);
  EXPECT_NEAR(turn[0 * 3 + 1], 150 * kDegree, 1e-14);
  const std::vector<double> area{0.02, 0.01, 0.02};
  const JunctionGeometry geometry = junctionGeometry(area, turn, 2, kMitreColumn).value();
  EXPECT_NEAR(geometry.cosine[0][1], std::cos(150 * kDegree), 1e-15);
  EXPECT_NEAR(geometry.cosine[2][1], std::cos(30 * kDegree), 1e-15);
  EXPECT_NEAR(geometry.cosine[2][0], 1, 1e-15);
  EXPECT_EQ(geometry.cosine[0][0], 0);
}

TEST(Junction, RefusesWhatIsNoJunction) {
  const std::vector<double> area{0.02, 0.01, 0.02};
  const std::vector<double> turn{0, 0, 0, 0, 0, 0.5, 0, 0.5, 0};
  EXPECT_TRUE(junctionGeometry(area, turn, 2, kMitreColumn).has_value());
  EXPECT_EQ(junctionGeometry(area, turn, 3, kMitreColumn, "J1").error().text(),
            "J1: Leg 4 is named as outlet, but the junction has 3 legs.");
  const std::vector<double> none{0.02, 0, 0.02};
  EXPECT_EQ(junctionGeometry(none, turn, 2, kMitreColumn).error().message,
            "Leg 2 of the junction has an area of 0 m², which is not above 0.");
  const std::vector<double> far{0, 0, 0, 0, 0, 4, 0, 4, 0};
  EXPECT_EQ(junctionGeometry(area, far, 2, kMitreColumn).error().message,
            "From leg 2 to leg 3 of the junction air would turn by 229.2°, which is outside 0 to 180°.");
  const std::vector<double> one{0.02};
  const std::vector<double> own{0};
  EXPECT_EQ(junctionGeometry(one, own, 0, kMitreColumn).error().message,
            "A junction of 1 legs: it must have 2 to 8.");
  const std::vector<double> nan{0.02, std::numeric_limits<double>::quiet_NaN(), 0.02};
  EXPECT_FALSE(junctionGeometry(nan, turn, 2, kMitreColumn).has_value());
}

TEST(Junction, ANoteSeesTheSameNumber) {
  RandomJunctions random(9);
  for (int k = 0; k < 50; ++k) {
    const JunctionGeometry geometry = random.next();
    const auto flow = random.any(geometry, 0.01);
    const auto rise = rises(geometry, flow);
    for (std::size_t i = 0; i < geometry.legs; ++i) {
      base::Recorder recorder;
      EXPECT_EQ(junctionRise(geometry, flow, leavingFlow(flow), kDensity, i, nullptr, recorder), rise[i]);
      ASSERT_EQ(recorder.steps().size(), 1U);
      EXPECT_EQ(recorder.steps()[0].law, flow[i] < 0 ? &kJunctionOutlet : &kJunctionInlet);
      EXPECT_EQ(recorder.steps()[0].result, rise[i]);
    }
  }
}

}  // namespace
}  // namespace kerfdraft::physics
