// Gates: one curve from open to the slot beside a shut blade, its slope, and refusals.
#include "physics/gate.h"

#include <gtest/gtest.h>

#include <cmath>

#include "physics/differences.h"

namespace kerfdraft::physics {
namespace {

using base::Length;

TEST(Gate, OpenLosesATenth) {
  EXPECT_NEAR(gate(1, 0.01).k, 0.10, 1e-12);
  EXPECT_NEAR(gate(1, 0).k, 0.10, 1e-12);
}

TEST(Gate, LosesStrictlyMoreAsItShuts) {
  for (const double leak : {0.0, 0.01, 0.03}) {
    double last = gate(1, leak).k;
    for (double x = 0.999; x > 0.0005; x -= 0.001) {
      const double k = gate(x, leak).k;
      EXPECT_GT(k, last) << x;
      last = k;
    }
  }
}

TEST(Gate, SlopeIsExact) {
  for (const double leak : {0.0, 0.01, 0.03}) {
    for (const double x : {0.02, 0.1, 0.3, 0.5, 0.8, 0.97}) {
      const auto k = [leak](double travel) { return gate(travel, leak).k; };
      const double slope = gate(x, leak).dk_dx;
      EXPECT_LT(slope, 0);
      EXPECT_NEAR(slope, tests::centralDifference(k, x, 1e-3, 1e-5), 2e-7 * std::abs(slope)) << x;
    }
  }
}

TEST(Gate, ShutItIsTheSlot) {
  const double leak = gateLeak(kGateSlot_m, 0.1);
  EXPECT_NEAR(leak, 0.01, 1e-15);
  const GateLoss shut = gate(0, leak);
  EXPECT_FALSE(shut.closed);
  EXPECT_NEAR(shut.k, std::pow(1 / (0.63 * 0.01) - 1, 2), 1e-3 * shut.k);
  EXPECT_EQ(shut.dk_dx, 0);
}

TEST(Gate, ShutWithoutLeakIsClosed) {
  EXPECT_TRUE(gate(0, 0).closed);
  EXPECT_FALSE(gate(1e-6, 0).closed);
  EXPECT_FALSE(gate(0, 1e-6).closed);
}

TEST(Gate, OpeningIsTheCircleSegment) {
  EXPECT_EQ(gateOpening(0), 0);
  EXPECT_NEAR(gateOpening(0.5), 0.5, 1e-15);
  EXPECT_NEAR(gateOpening(1), 1, 1e-15);
  for (double x = 0.05; x < 1; x += 0.05) {
    EXPECT_NEAR(gateOpening(x) + gateOpening(1 - x), 1, 1e-14);
  }
}

TEST(Gate, LeakIsWhatTheTradeFinds) {
  // Common practice, no source: 2 to 10 cfm new and 20 and more worn at 4 in and 8 in w.g.
  const double vp_times_k_pa = 8 * 249.08891;
  const auto cfm = [&](double slot) {
    const double k = gate(0, gateLeak(slot, 0.1016)).k;
    const double speed = std::sqrt(2 * vp_times_k_pa / (1.2 * k));
    return speed * std::numbers::pi / 4 * 0.1016 * 0.1016 * 2118.880003;
  };
  EXPECT_GT(cfm(kGateSlot_m), 2);
  EXPECT_LT(cfm(kGateSlot_m), 10);
  EXPECT_GT(cfm(kWornGateSlot_m), 18);
  EXPECT_LT(cfm(kWornGateSlot_m), 30);
}

TEST(Gate, RefusesWhatCannotBe) {
  EXPECT_TRUE(checkGate(0.5, Length(kGateSlot_m), Length(0.1)).has_value());
  EXPECT_EQ(checkGate(1.5, Length(kGateSlot_m), Length(0.1), "G2").error().text(),
            "G2: A gate drawn by 150 % of its bore is outside 0 to 100 %.");
  EXPECT_EQ(checkGate(0.5, Length(0.02), Length(0.1)).error().text(),
            "A gate's slot of 20 mm is outside 0 to a tenth of its bore of 100 mm.");
  EXPECT_EQ(checkGate(0.5, Length(0.001), Length(-0.1)).error().text(),
            "A gate's bore of -100 mm is not above 0.");
  EXPECT_FALSE(checkGate(std::nan(""), Length(0.001), Length(0.1)).has_value());
}

TEST(Gate, ANoteSeesTheSameNumber) {
  base::Recorder recorder;
  EXPECT_EQ(gate(0.4, 0.01, recorder).k, gate(0.4, 0.01).k);
  ASSERT_EQ(recorder.steps().size(), 2U);
  EXPECT_EQ(recorder.steps()[1].result, gate(0.4, 0.01).k);
}

}  // namespace
}  // namespace kerfdraft::physics
