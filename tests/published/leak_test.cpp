// Duct leakage against published and computed values of the leakage class.
// Inch of water: 249.08891 Pa, in which the class is defined here.
#include "physics/leak.h"

#include <gtest/gtest.h>

#include <numbers>

#include "units.h"

namespace kerfdraft::physics {
namespace {

using published::kCfm_m3_s;
using published::kFoot_m;

constexpr double kInchWater_pa = 249.08891;

double cfm(double leak_class, double area_ft2, double inches) {
  return leakFlow(leakCoefficient(leak_class, area_ft2 * kFoot_m * kFoot_m), inches * kInchWater_pa)
             .flow_m3_s /
         kCfm_m3_s;
}

TEST(PublishedLeak, LeakageClass) {
  // Computed: class 6 at 4 in w.g., 14.7737 cfm per 100 ft2.
  EXPECT_NEAR(cfm(6, 100, 4), 14.7737, 6e-5);
  // Published (US Bureau of Reclamation HVAC guide, worked example): 800 ft2, 2.5 in w.g., class 6: 10.9 cfm
  // per 100 ft2, 87 cfm.
  EXPECT_NEAR(cfm(6, 100, 2.5), 10.9, 0.05);
  EXPECT_NEAR(cfm(6, 800, 2.5), 87, 0.5);
  // Computed: 60 ft of 6 in at 6 in w.g.: sealed class 3 9 cfm, class 48 145 cfm.
  const double area = std::numbers::pi * 0.5 * 60;
  EXPECT_NEAR(cfm(3, area, 6), 9, 0.5);
  EXPECT_NEAR(cfm(48, area, 6), 145, 0.5);
}

}  // namespace
}  // namespace kerfdraft::physics
