// Collectors: what of them is in the curve, what stands outside, where their air goes, and Y pieces on the
// inlet.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

using support::at;
using support::given;
using support::length;
using support::oneMachine;
using support::ratio;

shop::Filter filterOf(support::ProjectBuilder& builder, bool inside) {
  shop::Filter filter;
  filter.id = builder.id();
  filter.label = "F1";
  filter.inside = inside;
  filter.clean = shop::FilterPoint{given<base::VolumeFlow>("1000 m3/h"), given<base::Pressure>("100 Pa")};
  filter.seasoned = shop::FilterPoint{given<base::VolumeFlow>("1000 m3/h"), given<base::Pressure>("400 Pa")};
  filter.due = shop::FilterPoint{given<base::VolumeFlow>("1000 m3/h"), given<base::Pressure>("1000 Pa")};
  return filter;
}

TEST(Unit, BareFanBlowsStraightIntoItsRoom) {
  const Pieces pieces = build(oneMachine().builder);
  ASSERT_EQ(pieces.fans.size(), 1U);
  EXPECT_EQ(pieces.fans[0].from, pieces.runs[0].to);
  EXPECT_EQ(pieces.nodes[pieces.fans[0].to].kind, NodeKind::Room);
  EXPECT_FALSE(pieces.fans[0].rated_at_inlet);
  ASSERT_TRUE(pieces.fans[0].rating.has_value());
  EXPECT_EQ(pieces.fans[0].rating->basis, physics::RatingBasis::FanTotal);
}

TEST(Unit, FilterOutsideTheTestIsChargedInFull) {
  auto shop = oneMachine();
  shop.builder.collectorOf(shop.collector).filters.push_back(filterOf(shop.builder, false));
  const Pieces pieces = build(shop.builder);
  ASSERT_EQ(pieces.filters.size(), 1U);
  const double per_pa = 3600.0 / 1000;
  EXPECT_NEAR(pieces.filters[0].linear_pa_s_m3[0], 100 * per_pa, 1e-9);
  EXPECT_NEAR(pieces.filters[0].linear_pa_s_m3[1], 400 * per_pa, 1e-9);
  EXPECT_NEAR(pieces.filters[0].linear_pa_s_m3[2], 1000 * per_pa, 1e-9);
  const Piece& piece = onlyOf(pieces, Role::Filter);
  EXPECT_EQ(piece.filter, 0);
  EXPECT_EQ(piece.linear_pa_s_m3, pieces.filters[0].linear_pa_s_m3[0]);
  EXPECT_EQ(pieces.nodes[pieces.fans[0].to].kind, NodeKind::Joint);
  EXPECT_EQ(pieces.runs.back().from, pieces.fans[0].to);
  EXPECT_FALSE(pieces.runs.back().carries_chips);
}

TEST(Unit, FilterFittedInTheTestIsChargedAboveClean) {
  auto shop = oneMachine();
  shop::Collector& unit = shop.builder.collectorOf(shop.collector);
  unit.filters.push_back(filterOf(shop.builder, true));
  unit.rating.fitted = shop::Fitted::Filter;
  const Pieces pieces = build(shop.builder);
  const double per_pa = 3600.0 / 1000;
  EXPECT_EQ(pieces.filters[0].linear_pa_s_m3[0], 0);
  EXPECT_NEAR(pieces.filters[0].linear_pa_s_m3[1], 300 * per_pa, 1e-9);
  EXPECT_NEAR(pieces.filters[0].linear_pa_s_m3[2], 900 * per_pa, 1e-9);
}

TEST(Unit, FilterSaidToBeInsideABareTestIsChargedInFullAndNoted) {
  auto shop = oneMachine();
  shop.builder.collectorOf(shop.collector).filters.push_back(filterOf(shop.builder, true));
  const Pieces pieces = build(shop.builder);
  EXPECT_NEAR(pieces.filters[0].linear_pa_s_m3[0], 360, 1e-9);
  EXPECT_TRUE(hasNote(pieces, "charged in full"));
}

TEST(Unit, CycloneBeforeTheFanLosesHeadsOfItsOwnInlet) {
  auto shop = oneMachine();
  shop::Separator cyclone;
  cyclone.id = shop.builder.id();
  cyclone.kind = "cyclone";
  cyclone.inlet_bore = length("125 mm");
  shop.builder.collectorOf(shop.collector).separators.push_back(cyclone);
  const Pieces pieces = build(shop.builder);
  const Piece& piece = onlyOf(pieces, Role::Separator);
  EXPECT_DOUBLE_EQ(piece.k_forward, 3.0);  // common practice
  EXPECT_DOUBLE_EQ(piece.bore_m, 0.125);
  EXPECT_DOUBLE_EQ(onlyOf(pieces, Role::Reducer).bore_m, 0.1) << "100 mm duct into the cyclone's 125 mm";
  EXPECT_NE(pieces.fans[0].from, pieces.runs[0].to);
  EXPECT_TRUE(pieces.runs[0].carries_chips);
}

TEST(Unit, CycloneInsideTheRatedUnitCostsNothingMore) {
  auto shop = oneMachine();
  shop::Collector& unit = shop.builder.collectorOf(shop.collector);
  shop::Separator cyclone;
  cyclone.id = shop.builder.id();
  cyclone.kind = "cyclone";
  cyclone.inside = true;
  unit.separators.push_back(cyclone);
  unit.rating.fitted = shop::Fitted::Cyclone;
  EXPECT_TRUE(ofRole(build(shop.builder), Role::Separator).empty());
}

TEST(Unit, LidLosesTwoInchesAtItsRatedFlow) {
  // model.md 6: 2.0 in w.g. at the rated flow; here 600 m3/h through 100 mm in standard air.
  auto shop = oneMachine();
  shop::Separator lid;
  lid.id = shop.builder.id();
  lid.kind = "lid";
  lid.rated_flow = given<base::VolumeFlow>("600 m3/h");
  shop.builder.collectorOf(shop.collector).separators.push_back(lid);
  const double speed = 600.0 / 3600 / (std::numbers::pi / 4 * 0.01);
  const double vp = 0.5 * physics::kStandardDensity_kg_m3 * speed * speed;
  EXPECT_NEAR(onlyOf(build(shop.builder), Role::Separator).k_forward, 2 * 249.08891 / vp, 1e-9);
}

TEST(Unit, FanStaticWithAKnownOutletLosesItsVelocityPressureInFreeAir) {
  auto shop = oneMachine();
  shop::Collector& unit = shop.builder.collectorOf(shop.collector);
  unit.rating.basis = shop::RatingBasis::FanStatic;
  EXPECT_TRUE(ofRole(build(shop.builder), Role::Outlet).empty()) << "outlet unknown: neither gained nor lost";
  EXPECT_EQ(build(shop.builder).fans[0].rating->section_m2, 0);
  unit.outlet_bore = length("120 mm");
  const Pieces pieces = build(shop.builder);
  EXPECT_NEAR(pieces.fans[0].rating->section_m2, std::numbers::pi / 4 * 0.12 * 0.12, 1e-15);
  const Piece& outlet = onlyOf(pieces, Role::Outlet);
  EXPECT_DOUBLE_EQ(outlet.k_forward, 1.0);
  EXPECT_DOUBLE_EQ(outlet.bore_m, 0.12);
}

TEST(Unit, RatingAtTheInletHoldsItsDischarge) {
  auto shop = oneMachine();
  shop::Collector& unit = shop.builder.collectorOf(shop.collector);
  unit.rating.basis = shop::RatingBasis::StaticAtInlet;
  unit.outlet_bore = length("120 mm");
  const Pieces pieces = build(shop.builder);
  EXPECT_TRUE(ofRole(pieces, Role::Outlet).empty());
  EXPECT_TRUE(pieces.fans[0].rated_at_inlet);
  EXPECT_NEAR(pieces.fans[0].rating->section_m2, std::numbers::pi / 4 * 0.01, 1e-15);
  EXPECT_TRUE(hasNote(pieces, "rated in a pipe of its inlet bore"));
}

TEST(Unit, LabelAloneGivesTheCurveOfCommonPractice) {
  // p_s (1 - (Q/(0.75 Q_f))^2): at half of 0.75 Q_f three quarters of p_s (model.md 6).
  auto shop = oneMachine();
  shop::Collector& unit = shop.builder.collectorOf(shop.collector);
  unit.rating = shop::FanRating{};
  unit.rating.free_air_flow = given<base::VolumeFlow>("1200 cfm");
  unit.rating.greatest_suction = given<base::Pressure>("8 in w.g.");
  const Pieces pieces = build(shop.builder);
  EXPECT_TRUE(pieces.fans[0].label_only);
  const double half = 0.5 * 0.75 * 1200 * std::pow(0.3048, 3) / 60;
  EXPECT_NEAR(pieces.fans[0].rating->curve.value(half).p_pa, 0.75 * 8 * 249.08891, 1e-6);
  const double section = std::numbers::pi / 4 * 0.01;
  const double vp = 0.5 * physics::kStandardDensity_kg_m3 * half * half / (section * section);
  EXPECT_NEAR(pieces.fans[0].curve->value(half).p_pa, 0.75 * 8 * 249.08891 - vp, 1e-6);
  EXPECT_TRUE(hasNote(pieces, "from its label"));
}

TEST(Unit, FanWithNeitherCurveNorLabelIsRefused) {
  auto shop = oneMachine();
  shop.builder.collectorOf(shop.collector).rating = shop::FanRating{};
  const base::Error error = refusal(shop.builder);
  EXPECT_EQ(error.code, base::ErrorCode::Conflict);
  EXPECT_EQ(error.where, "C1");
}

TEST(Unit, SpeedOfTheMotorScalesTheRating) {
  auto shop = oneMachine();
  shop::Collector& unit = shop.builder.collectorOf(shop.collector);
  unit.rating.speed = given<base::RotationalSpeed>("2850 rpm");
  unit.motor.speed = given<base::RotationalSpeed>("3450 rpm");
  EXPECT_NEAR(build(shop.builder).fans[0].rating->speed_ratio, 3450.0 / 2850, 1e-12);
}

TEST(Unit, ElbowOnTheFanInletCostsASystemEffectThatFades) {
  auto shop = oneMachine();
  auto& corners = shop.builder.ductOf(shop.duct).corners;
  EXPECT_TRUE(ofRole(build(shop.builder), Role::FanInlet).empty()) << "4 m is 40 bores";
  corners[2].at = at(1.2, 1, 3.2);
  const Pieces pieces = build(shop.builder);
  const Piece& effect = onlyOf(pieces, Role::FanInlet);
  EXPECT_NEAR(effect.k_forward, 1 - 2.0 / 5, 1e-9);
  EXPECT_EQ(effect.k_reverse, 0);
  EXPECT_EQ(pieces.runs[0].pieces.back().key.role, Role::FanInlet);
}

TEST(Unit, SeparatorBeforeTheFanTakesTheSystemEffectAway) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[2].at = at(1.2, 1, 3.2);
  shop::Separator cyclone;
  cyclone.id = shop.builder.id();
  cyclone.kind = "cyclone";
  cyclone.inside = true;
  shop.builder.collectorOf(shop.collector).separators.push_back(cyclone);
  EXPECT_TRUE(ofRole(build(shop.builder), Role::FanInlet).empty());
}

TEST(Unit, TwoDuctsOnOneInletAreAYWithHalfTheAngleEach) {
  auto shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.ductOf(shop.duct).corners[2].at = at(4, 2, 3.2);
  b.ductOf(shop.duct).corners[1].at = at(1, 2, 3.2);
  b.ductOf(shop.duct).corners[0].at = at(1, 2, 0.2);
  const shop::PortRef second = b.machine("", at(4, 5, 3.2), "100 mm", shop.room);
  b.port(second).entry = ratio("0.5");
  b.duct(second, shop::CollectorInlet{shop.collector}, {at(4, 5, 3.2), at(4, 2, 3.2)}, "100 mm");
  const Pieces pieces = build(b);
  ASSERT_EQ(pieces.junctions.size(), 1U);
  const Junction& y = pieces.junctions[0];
  ASSERT_EQ(y.legs.size(), 3U);
  EXPECT_EQ(pieces.runs[y.legs[y.nominal_outlet].run].to, pieces.fans[0].from);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(y.angle_rad[i], i == y.nominal_outlet ? 0 : std::numbers::pi / 4, 1e-9);
  }
  const Piece& effect = onlyOf(pieces, Role::FanInlet);
  EXPECT_DOUBLE_EQ(effect.k_forward, 1.0) << "a Y straight on the fan";
}

TEST(Unit, OppositeDuctsOnOneInletEnterSquare) {
  auto shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  const shop::PortRef second = b.machine("", at(8, 1, 3.2), "100 mm", shop.room);
  b.port(second).entry = ratio("0.5");
  b.duct(second, shop::CollectorInlet{shop.collector}, {at(8, 1, 3.2), at(5, 1, 3.2)}, "100 mm");
  const Pieces pieces = build(b);
  const Junction& y = pieces.junctions.at(0);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(y.angle_rad[i], i == y.nominal_outlet ? 0 : std::numbers::pi / 2, 1e-9);
  }
}

TEST(Unit, BoosterPassesItsAirIntoTheNextDuct) {
  auto shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  const base::Id second = b.collector(at(9, 1, 3.2), "100 mm", shop.room);
  b.duct(shop::CollectorOutlet{shop.collector}, shop::CollectorInlet{second}, {at(5, 1, 3.2), at(9, 1, 3.2)},
         "100 mm");
  const Pieces pieces = build(b);
  ASSERT_EQ(pieces.fans.size(), 2U);
  EXPECT_EQ(pieces.runs[1].from, pieces.fans[0].to);
  EXPECT_EQ(pieces.runs[1].to, pieces.fans[1].from);
  EXPECT_TRUE(pieces.runs[1].carries_chips) << "nothing has taken them out";
}

TEST(Unit, NothingTravelsBehindTheFilterIntoTheOutletDuct) {
  auto shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.collectorOf(shop.collector).filters.push_back(filterOf(b, false));
  b.duct(shop::CollectorOutlet{shop.collector}, shop::FreeAir{}, {at(5, 1, 3.2), at(9, 1, 3.2)}, "150 mm");
  const Pieces pieces = build(b);
  EXPECT_TRUE(pieces.runs[0].carries_chips);
  EXPECT_FALSE(pieces.runs[1].carries_chips);
  EXPECT_DOUBLE_EQ(pieces.runs[1].pieces.front().k_forward, 0.5)
      << "flush entrance from the filter's housing";
}

TEST(Unit, OutletDuctOfAFanTotalRatingIsJoinedByItsTransition) {
  auto shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.collectorOf(shop.collector).outlet_bore = length("120 mm");
  b.duct(shop::CollectorOutlet{shop.collector}, shop::FreeAir{}, {at(5, 1, 3.2), at(9, 1, 3.2)}, "150 mm");
  const Pieces pieces = build(b);
  const Piece& step = onlyOf(pieces, Role::Reducer);
  const double share = std::pow(120.0 / 150, 2);
  EXPECT_NEAR(step.k_forward, (1 - share) * (1 - share), 1e-12);
  b.collectorOf(shop.collector).rating.basis = shop::RatingBasis::TotalAtInlet;
  EXPECT_TRUE(ofRole(build(b), Role::Reducer).empty())
      << "rated at the inlet: the duct starts at total pressure 0";
}

}  // namespace
}  // namespace kerfdraft::pieces
