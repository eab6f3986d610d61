// A fan as typed, pasted and read in each basis.
#include "desk/models/fan_entry.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/assessment.h"
#include "physics/velocity_pressure.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::SizeIs;

class FanEntry : public ::testing::Test {
 protected:
  support::TwoBranchTree tree = support::twoBranchTree();
  shop::Project& project = tree.builder.project;
  FanThing thing = *fanThing(project, {});

  static TypedFan curve() {
    TypedFan typed;
    typed.points = {{"0 cfm", "9 in w.g.", ""}, {"400 cfm", "8 in w.g.", ""}, {"900 cfm", "2 in w.g.", ""}};
    typed.test_bore = "6 in";
    typed.source = "leaflet";
    return typed;
  }
};

TEST_F(FanEntry, TheOnlyFanIsMeant) {
  EXPECT_EQ(thing.id, tree.collector);
  EXPECT_EQ(fanThing(project, {tree.collector})->id, tree.collector);
  project.collectors.clear();
  EXPECT_THAT(fanThing(project, {}).error().text(), HasSubstr("No fan stands"));
}

TEST_F(FanEntry, WhatIsNotTouchedStaysAsItIs) {
  EXPECT_EQ(*readFan(typedFan(thing.rating), thing.rating), thing.rating);
  TypedFan typed = typedFan(thing.rating);
  typed.standing = base::Standing::Estimated;
  typed.source = "another";
  EXPECT_EQ(*readFan(typed, thing.rating), thing.rating);
  typed.points.back()[1] = "1 Pa";
  const auto read = readFan(typed, thing.rating);
  ASSERT_TRUE(read);
  EXPECT_EQ(read->points.back().pressure.standing(), base::Standing::Estimated);
  EXPECT_EQ(read->points.front(), thing.rating.points.front());
}

TEST_F(FanEntry, EverySlipIsTold) {
  TypedFan typed = curve();
  typed.points[0][1] = "9";
  typed.points[1][0] = "fast";
  typed.density = "0 kg/m3";
  const auto read = readFan(typed, {});
  ASSERT_FALSE(read);
  ASSERT_THAT(read.error(), SizeIs(3));
  EXPECT_EQ(read.error()[0].where, "point 1, pressure");
  EXPECT_EQ(read.error()[1].where, "point 2, flow");
  EXPECT_EQ(read.error()[2].where, "density of the test");
}

TEST_F(FanEntry, CurvesThatCannotBeAreRefused) {
  TypedFan typed = curve();
  std::swap(typed.points[1], typed.points[2]);
  EXPECT_FALSE(readFan(typed, {}));
  typed.points.resize(1);
  EXPECT_FALSE(readFan(typed, {}));
  EXPECT_FALSE(readFan(TypedFan{}, {}));
  typed.points = {{"100 cfm", "2 in w.g.", ""}, {"200 cfm", "5 in w.g.", ""}};
  EXPECT_FALSE(readFan(typed, {}));
}

TEST_F(FanEntry, ARisingPartIsTaken) {
  TypedFan typed = curve();
  typed.points[0][1] = "7 in w.g.";
  const auto read = readFan(typed, {});
  ASSERT_TRUE(read);
  const auto remarks = fanRemarks(thing, *read, base::UnitSystem::Us);
  EXPECT_THAT(remarks, ::testing::Contains(HasSubstr("rises from 7 in w.g. to 8 in w.g.")));
}

TEST_F(FanEntry, EachBasisIsThatOfThePhysics) {
  thing.outlet_bore_m = 0.2;
  shop::FanRating rating = *readFan(curve(), {});
  const double q = 0.25;
  const double rho = physics::kStandardDensity_kg_m3;
  const auto vp = [&](double bore_m) {
    const double speed = q / (3.14159265358979323846 / 4 * bore_m * bore_m);
    return 0.5 * rho * speed * speed;
  };
  const std::array<double, 4> more{-vp(6 * 0.0254), 0, vp(0.2), 0};
  for (std::size_t i = 0; i < kBases.size(); ++i) {
    rating.basis = kBases[i];
    const auto made = physicsRating(thing, rating);
    ASSERT_TRUE(made);
    EXPECT_NEAR(physics::fanRise(*made, q, rho, rho).p_pa, made->curve.value(q).p_pa + more[i], 1e-9);
  }
}

TEST_F(FanEntry, TheSolverSeesTheSameRating) {
  const auto catalogue = catalogue::Catalogue::shipped();
  const auto solved = judge::assess(project, *catalogue);
  ASSERT_TRUE(solved);
  const physics::FanRating& theirs = *solved->pieces->fans.at(0).rating;
  const auto ours = physicsRating(thing, thing.rating);
  ASSERT_TRUE(ours);
  for (const double q : {0.01, 0.1, 0.3}) {
    EXPECT_DOUBLE_EQ(physics::fanRise(*ours, q, 1.2, 1.19).p_pa, physics::fanRise(theirs, q, 1.2, 1.19).p_pa);
  }
}

TEST_F(FanEntry, ReadAsTotalTheShopGetsMore) {
  const auto catalogue = catalogue::Catalogue::shipped();
  const auto trials = tryBases(project, *catalogue, thing, thing.rating, 0);
  ASSERT_THAT(trials, SizeIs(4));
  ASSERT_TRUE(trials[0].flow_m3_s) << trials[0].problem;
  ASSERT_TRUE(trials[3].flow_m3_s) << trials[3].problem;
  EXPECT_LT(*trials[0].flow_m3_s, *trials[3].flow_m3_s);
  const auto words = basisSentences(trials, shop::RatingBasis::FanTotal, base::UnitSystem::Metric);
  ASSERT_THAT(words, SizeIs(4));
  EXPECT_THAT(words[1], ::testing::AllOf(HasSubstr("in the inlet pipe"), HasSubstr("m³/h less")));
}

TEST_F(FanEntry, ATableMayHaveItsUnitsInTheHead) {
  const auto read =
      pointsFromTable("Static pressure [Pa],Air flow (m3/h),notes\n2000,0,shut\n900,1500,\n", "f.csv");
  ASSERT_TRUE(read) << read.error().text();
  EXPECT_THAT(*read, ElementsAre(TypedPoint{"0 m3/h", "2000 Pa", ""}, TypedPoint{"1500 m3/h", "900 Pa", ""}));
  EXPECT_TRUE(pointsFromTable("0 cfm\t8 in w.g.\n500 cfm\t2 in w.g.\n", "pasted"));
}

TEST_F(FanEntry, ATableWithoutUnitsOrPointsIsRefused) {
  EXPECT_EQ(pointsFromTable("flow,pressure\n0,9\n400,8\n", "f.csv").error().where, "f.csv:2");
  EXPECT_EQ(pointsFromTable("0 cfm,9 Pa\n400 cfm\n", "f.csv").error().where, "f.csv:2");
  EXPECT_FALSE(pointsFromTable("", "f.csv"));
  EXPECT_FALSE(pointsFromTable("0 cfm,9 Pa\n", "f.csv"));
  EXPECT_FALSE(pointsFromTable("1,5 cfm;9 Pa\n2 cfm;3 Pa\n", "f.csv"));
  EXPECT_FALSE(pointsFromTable("flow (cfm),air flow (cfm),pressure (Pa)\n1,1,1\n", "f.csv"));
}

TEST_F(FanEntry, TheShutInletBecomesAMeasuredPoint) {
  shop::FanRating rating = *readFan(curve(), {});
  auto read = withShutInlet(thing, rating, "8.5 in w.g.", base::UnitSystem::Us);
  ASSERT_TRUE(read);
  ASSERT_THAT(read->points, SizeIs(3));
  EXPECT_EQ(read->points[0].pressure.text(), "8.5 in w.g.");
  EXPECT_EQ(read->points[0].pressure.standing(), base::Standing::Measured);
  EXPECT_FALSE(withShutInlet(thing, rating, "8.5", base::UnitSystem::Us));
  EXPECT_FALSE(withShutInlet(thing, rating, "-8 in w.g.", base::UnitSystem::Us));
  TypedFan label;
  label.free_air_flow = "1200 cfm";
  label.greatest_suction = "11 in w.g.";
  read = withShutInlet(thing, *readFan(label, {}), "7 in w.g.", base::UnitSystem::Us);
  ASSERT_TRUE(read);
  EXPECT_EQ(read->greatest_suction->text(), "7 in w.g.");
  EXPECT_EQ(read->free_air_flow->text(), "1200 cfm");
}

TEST_F(FanEntry, AppliedAsOneEdit) {
  const shop::FanRating rating = *readFan(curve(), {});
  const auto change = applyFan(project, thing, rating);
  ASSERT_TRUE(change);
  EXPECT_THAT(change->edits, SizeIs(1));
  EXPECT_EQ(shop::applyEdits(project, change->edits)->collectors[0].rating, rating);
}

}  // namespace
}  // namespace kerfdraft::desk
