// Ten feet more of hose and three hose bends on one small collector (common practice, no source: it halved
// the flow of one). With the defaults of the air model a quarter goes; a halving takes slack hose at two
// standard deviations of the hose factor.
#include <gtest/gtest.h>

#include "network/solve.h"
#include "support/nets.h"

namespace kerfdraft::doubt {
namespace {

constexpr double kFoot_m = 0.3048;
constexpr double kBore_m = 4 * 0.0254;
constexpr double kHung = 2.5;  // ribbed hose: times the friction of duct
constexpr double kSlack = 6.0;
constexpr double kHoseBend = 0.6;  // at R/D 1.5

/// Flow of a small unit known by its label (930 cfm in free air, 4 in w.g., a bag of 360 Pa at half that
/// flow), with a machine's usual entry and a yard of duct.
double flow(double hose_ft, int bends, double multiplier, double hose_factor) {
  constexpr double kCfm_m3_s = 4.719474432e-4;
  test::NetBuilder b(1.2, true);
  const std::size_t in = b.joint();
  const std::size_t out = b.joint();
  std::vector<pieces::Piece> line{b.entry(kBore_m, 1.5), b.duct(kBore_m, 3 * kFoot_m)};
  if (hose_ft > 0) {
    line.push_back(b.duct(kBore_m, hose_ft * kFoot_m, 0.09e-3, multiplier));
  }
  for (int i = 0; i < bends; ++i) {
    line.push_back(b.fitting(kBore_m, kHoseBend));
  }
  b.run(0, in, line);
  b.fan(in, out, physics::makeLabelRating(930 * kCfm_m3_s, 4 * 249.08891, kBore_m, 1.2).value(), kBore_m);
  b.run(out, 0, {b.filter(kBore_m, 360 / (465 * kCfm_m3_s))});
  network::Situation s = network::restingSituation(b.pieces());
  s.group_factor[static_cast<std::size_t>(pieces::Group::Hose)] = hose_factor;
  return network::solveFully(*b.compile(), s).fans[0].flow_kg_s;
}

TEST(TenFeetMoreHose, CostAQuarterByTheDefaultsAndHalfAtTheEndOfTheBand) {
  const double before = flow(0, 0, kHung, 1);
  const double two_deviations = 1.6 * 1.6;
  EXPECT_NEAR(flow(10, 3, kHung, 1) / before - 1, -0.25, 0.015);
  EXPECT_NEAR(flow(10, 3, kSlack, 1) / before - 1, -0.35, 0.015);
  EXPECT_NEAR(flow(10, 3, kHung, two_deviations) / before - 1, -0.36, 0.015);
  EXPECT_NEAR(flow(10, 3, kSlack, two_deviations) / before - 1, -0.47, 0.015);
}

}  // namespace
}  // namespace kerfdraft::doubt
