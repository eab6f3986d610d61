// Where leaks are put and how large they are.
#include <numbers>
#include <numeric>

#include "physics/leak.h"
#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

using support::given;
using support::oneMachine;

double leaking(const Pieces& pieces) {
  double sum = 0;
  for (const auto& run : pieces.runs) {
    for (const LeakStation& leak : run.leaks) {
      sum += leak.coefficient;
    }
  }
  return sum;
}

TEST(Leaks, HalfAtEachEndOfEachStretchBetweenDevices) {
  // Sealed spiral, class 3: C = 3/100 A, cfm and ft2 at 1 in w.g. (SMACNA), in SI.
  const Pieces pieces = build(oneMachine().builder);
  const auto& leaks = pieces.runs[0].leaks;
  ASSERT_EQ(leaks.size(), 4U);
  const double per_m = physics::leakCoefficient(3, std::numbers::pi * 0.1);
  EXPECT_EQ(leaks[0].after, 0);  // behind the entry
  EXPECT_EQ(leaks[1].after, 1);  // before the gate
  EXPECT_EQ(leaks[2].after, 2);
  EXPECT_EQ(leaks[3].after, 5);  // at the collector
  EXPECT_NEAR(leaks[0].coefficient, 0.5 * per_m, 1e-18);
  EXPECT_NEAR(leaks[2].coefficient, 3.0 * per_m, 1e-18);
  EXPECT_NEAR(leaking(pieces), 7 * per_m, 1e-17);
}

TEST(Leaks, OneHoseHasTwoCuffsHoweverOftenItBends) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).gates.clear();
  shop.builder.project.states.clear();
  shop.builder.ductOf(shop.duct).corners[0].leg = support::ProjectBuilder::hose("100 mm");
  EXPECT_NEAR(leaking(build(shop.builder)), physics::leakCoefficient(12, 0.2), 1e-18);
}

TEST(Leaks, AGateInAHoseMakesTwoHoses) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[0].leg = support::ProjectBuilder::hose("100 mm");
  EXPECT_NEAR(leaking(build(shop.builder)), physics::leakCoefficient(12, 0.4), 1e-18);
}

TEST(Leaks, OffMeansNone) {
  auto shop = oneMachine();
  shop.builder.project.setting.leakage = false;
  EXPECT_EQ(leaking(build(shop.builder)), 0);
}

TEST(Leaks, VacuumLineIsTightWhereItIsSealed) {
  auto shop = oneMachine();
  for (shop::CurvePoint& point : shop.builder.collectorOf(shop.collector).rating.points) {
    point.pressure = given<base::Pressure>(std::to_string(10 * point.pressure.si()) + " Pa");
  }
  const Pieces sealed = build(shop.builder);
  EXPECT_EQ(leaking(sealed), 0);
  EXPECT_EQ(sealed.gates[0].leak_fraction, 0);
  shop.builder.ductOf(shop.duct).gates[0].slot = shop::GateSlot::Worn;
  EXPECT_GT(build(shop.builder).gates[0].leak_fraction, 0) << "worn was entered, not assumed";
  shop.builder.ductOf(shop.duct).corners[0].leg->construction = "snap-lock";
  EXPECT_GT(leaking(build(shop.builder)), 0);
}

TEST(Leaks, AClassOfOnesOwnRowsIsKeptInAVacuumLine) {
  auto shop = oneMachine();
  for (shop::CurvePoint& point : shop.builder.collectorOf(shop.collector).rating.points) {
    point.pressure = given<base::Pressure>(std::to_string(10 * point.pressure.si()) + " Pa");
  }
  shop.builder.ductOf(shop.duct).corners[0].leg->construction = "own-pipe";
  const std::vector<catalogue::TableText> own{
      {"constructions", "own.csv",
       "key,name,roughness,leakage_class,plastic,gauge_note,source,status,note\n"
       "own-pipe,Own pipe,0.05 mm,2,no,,no source,ours,\n"}};
  const auto catalogue = shipped().with(catalogue::Layer::Project, own);
  ASSERT_TRUE(catalogue.has_value()) << catalogue.error().text();
  const auto pieces = buildPieces(shop.builder.project, *catalogue);
  ASSERT_TRUE(pieces.has_value()) << pieces.error().text();
  EXPECT_NEAR(leaking(*pieces), physics::leakCoefficient(2, 7 * std::numbers::pi * 0.1), 1e-17);
}

TEST(Leaks, ComeFromTheRoomAround) {
  const auto shop = oneMachine();
  const Pieces pieces = build(shop.builder);
  EXPECT_EQ(pieces.nodes[pieces.runs[0].room].key.a, shop.room);
}

}  // namespace
}  // namespace kerfdraft::pieces
