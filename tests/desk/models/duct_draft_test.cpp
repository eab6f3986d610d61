// What a sketch becomes.
#include "desk/models/duct_draft.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "desk/models/places.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;
using support::length;
using ::testing::HasSubstr;

constexpr double kDegree = std::numbers::pi / 180;

shop::PlanPoint plan(double x_m, double y_m) {
  return {std::llround(x_m * 1e6), std::llround(y_m * 1e6)};
}

class Draft : public ::testing::Test {
 protected:
  support::ProjectBuilder builder;
  base::Id room = builder.room(10, 6, 3);
  shop::PortRef port = builder.machine("", at(1, 1, 0.5), "100 mm", room);
  shop::PortRef other = builder.machine("", at(4, 4, 0.5), "100 mm", room);
  base::Id collector = builder.collector(at(9, 1, 2.0), "150 mm", room);
  base::SeededIds ids{7};
  DuctSketch sketch;

  void SetUp() override {
    sketch.habits = usualHabits(builder.project, base::UnitSystem::Metric);
    sketch.habits.run_z_um = 2'500'000;
    sketch.habits.bore = length("150 mm");
  }

  void click(Snapped place, const std::string& bore = "150 mm") {
    sketch.points.push_back({std::move(place), sketch.habits.run_z_um, length(bore)});
  }
  void clickAt(double x_m, double y_m, const std::string& bore = "150 mm") {
    Snapped place;
    place.at = plan(x_m, y_m);
    place.to = SnapTo::Grid;
    click(place, bore);
  }
  void clickPort(const shop::PortRef& ref, const std::string& bore = "150 mm") {
    Snapped place;
    place.to = SnapTo::Port;
    place.port = ref;
    const shop::Point& p = builder.port(ref).at;
    place.at = {p.x_um, p.y_um};
    place.z_um = p.z_um;
    click(place, bore);
  }
  void clickInlet() {
    Snapped place;
    place.to = SnapTo::Inlet;
    place.collector = collector;
    place.at = plan(9, 1);
    place.z_um = 2'000'000;
    click(place);
  }
  void clickDuct(base::Id duct, std::size_t leg, double x_m, double y_m) {
    Snapped place;
    place.to = SnapTo::Duct;
    place.duct = duct;
    place.corner = builder.ductOf(duct).corners[leg].id;
    place.at = plan(x_m, y_m);
    click(place);
  }
  base::Result<DuctPlan> planned() { return planDuct(builder.project, sketch, ids); }

  /// Makes it, and gives the project after.
  shop::Project made() {
    const auto plan_of = planned();
    EXPECT_TRUE(plan_of.has_value()) << (plan_of ? "" : plan_of.error().text());
    if (!plan_of) {
      return builder.project;
    }
    const auto after = shop::applyEdits(builder.project, plan_of->edits);
    EXPECT_TRUE(after.has_value()) << (after ? "" : after.error().text());
    return after ? *after : builder.project;
  }
  static const shop::Duct& lastOf(const shop::Project& project) { return project.ducts.back(); }

  /// A main along y = 1 m at 2.5 m, from x = 1 to 9.
  base::Id main() {
    return builder.duct(port, shop::CollectorInlet{collector},
                        {at(1, 1, 0.5), at(1, 1, 2.5), at(9, 1, 2.5), at(9, 1, 2.0)}, "150 mm");
  }
  static double angleOfEntry(const shop::Project& project, const shop::Duct& branch) {
    const auto& on = std::get<shop::OnCorner>(branch.to);
    const shop::Duct& main_duct = *ductOf(project, on.duct);
    const std::size_t k = *cornerIndex(main_duct, on.corner);
    const auto& c = branch.corners;
    return shop::turn(c[c.size() - 2].at, c.back().at, main_duct.corners[k + 1].at) / kDegree;
  }
};

TEST_F(Draft, RisesStraightFromThePortAndDropsToTheInlet) {
  clickPort(port);
  clickInlet();
  const shop::Project after = made();
  const shop::Duct& duct = lastOf(after);
  ASSERT_EQ(duct.corners.size(), 4U);
  EXPECT_EQ(duct.corners[0].at, at(1, 1, 0.5));
  EXPECT_EQ(duct.corners[1].at, at(1, 1, 2.5));
  EXPECT_EQ(duct.corners[2].at, at(9, 1, 2.5));
  EXPECT_EQ(duct.corners[3].at, at(9, 1, 2.0));
  EXPECT_EQ(std::get<shop::PortRef>(duct.from), port);
  EXPECT_EQ(std::get<shop::CollectorInlet>(duct.to).collector, collector);
  EXPECT_EQ(duct.label, "D1");
}

TEST_F(Draft, RunsWithTheAirWhicheverEndWasClickedFirst) {
  clickInlet();
  clickAt(5, 1);
  clickPort(port);
  const auto plan_of = planned();
  ASSERT_TRUE(plan_of);
  EXPECT_TRUE(plan_of->reversed);
  const shop::Project after = made();
  EXPECT_EQ(lastOf(after).corners.front().at, at(1, 1, 0.5));
  EXPECT_EQ(lastOf(after).corners.back().at, at(9, 1, 2.0));
}

TEST_F(Draft, BoresStayOnTheirLegsWhenTurnedRound) {
  // Drawn from the inlet: 150 mm to x = 5, then 100 mm to the port.
  clickInlet();
  clickAt(5, 1, "100 mm");
  clickPort(port, "100 mm");
  const shop::Project after = made();
  const shop::Duct& duct = lastOf(after);
  for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
    EXPECT_DOUBLE_EQ(boreOfLeg(duct, k), duct.corners[k].at.x_um < 5'000'000 ? 0.1 : 0.15) << k;
  }
}

TEST_F(Draft, AChangeOfBoreMakesAReducer) {
  clickPort(port, "100 mm");
  clickAt(5, 1, "150 mm");
  clickInlet();
  const shop::Project after = made();
  const shop::Duct& duct = lastOf(after);
  EXPECT_FALSE(duct.corners[0].leg->taper);  // as wide as the port
  ASSERT_TRUE(duct.corners[2].leg);
  EXPECT_DOUBLE_EQ(duct.corners[2].leg->bore.si(), 0.15);
  ASSERT_TRUE(duct.corners[2].leg->taper);
  EXPECT_NEAR(duct.corners[2].leg->taper->si(), 15 * kDegree, 1e-12);
}

TEST_F(Draft, APortNarrowerThanTheDuctGetsAReducer) {
  clickPort(port);
  clickInlet();
  EXPECT_TRUE(lastOf(made()).corners[0].leg->taper.has_value());
}

TEST_F(Draft, MeetsAMainSquarelyDrawnAtFortyFiveDegreesWithTheAir) {
  const base::Id main_duct = main();
  clickPort(other);
  clickDuct(main_duct, 1, 4, 1);
  const shop::Project after = made();
  const shop::Duct& branch = lastOf(after);
  EXPECT_NEAR(angleOfEntry(after, branch), 45, 1e-4);
  // 3 bores = 0.45 m across the main, so 0.45 m further with the air.
  EXPECT_EQ(branch.corners.back().at, at(4.45, 1, 2.5));
  EXPECT_EQ(branch.corners[branch.corners.size() - 2].at, at(4, 1.45, 2.5));
  EXPECT_EQ(ductOf(after, main_duct)->corners.size(), 5U);
}

TEST_F(Draft, TheEntryFollowsTheAirOfAMainThatRunsTheOtherWay) {
  const base::Id far = builder.collector(at(1, 5, 2.5), "150 mm", room);
  const base::Id main_duct =
      builder.duct(shop::OpenEnd{}, shop::CollectorInlet{far}, {at(9, 5, 2.5), at(1, 5, 2.5)}, "150 mm");
  clickPort(port);
  clickDuct(main_duct, 0, 5, 5);
  const shop::Project after = made();
  EXPECT_NEAR(angleOfEntry(after, lastOf(after)), 45, 1e-4);
}

TEST_F(Draft, EntersAtThirtyDegreesWhereThatIsChosen) {
  const base::Id main_duct = main();
  sketch.habits.entry = support::given<base::Angle>("30 deg");
  clickPort(other);
  clickDuct(main_duct, 1, 4, 1);
  const shop::Project after = made();
  EXPECT_NEAR(angleOfEntry(after, lastOf(after)), 30, 1e-4);
}

TEST_F(Draft, ALegDrawnWithTheAirEntersWhereItWasClicked) {
  const base::Id main_duct = main();
  clickPort(other);
  clickDuct(main_duct, 1, 7, 1);
  const shop::Project after = made();
  EXPECT_EQ(lastOf(after).corners.back().at, at(7, 1, 2.5));
  EXPECT_NEAR(angleOfEntry(after, lastOf(after)), 45, 1e-4);
  EXPECT_EQ(lastOf(after).corners.size(), 3U);
}

TEST_F(Draft, ABranchComesToTheHeightOfItsMain) {
  const base::Id main_duct = main();
  sketch.habits.run_z_um = 2'200'000;
  clickPort(other);
  clickAt(4, 3);
  clickDuct(main_duct, 1, 4, 1);
  const shop::Project after = made();
  const shop::Duct& branch = lastOf(after);
  EXPECT_EQ(branch.corners.back().at.z_um, 2'500'000);
  EXPECT_NEAR(angleOfEntry(after, branch), 45, 1e-4);
}

TEST_F(Draft, EntersARiserWithTheRisingAir) {
  const base::Id main_duct = main();
  sketch.habits.run_z_um = 1'500'000;
  clickPort(other);
  clickDuct(main_duct, 0, 1, 1);
  const shop::Project after = made();
  const shop::Duct& branch = lastOf(after);
  EXPECT_NEAR(angleOfEntry(after, branch), 45, 1e-4);
  EXPECT_GT(branch.corners.back().at.z_um, 1'500'000);
}

TEST_F(Draft, AnEntryNearTheMainsEndIsMovedOntoItsLegAndSaysSo) {
  const base::Id main_duct = main();
  clickPort(other);
  clickAt(8.9, 3);
  clickDuct(main_duct, 1, 8.9, 1);
  const auto plan_of = planned();
  ASSERT_TRUE(plan_of);
  const shop::Project after = made();
  EXPECT_LT(lastOf(after).corners.back().at.x_um, 9'000'000);
  EXPECT_NEAR(angleOfEntry(after, lastOf(after)), 45, 1e-4);
  EXPECT_THAT(plan_of->notes, ::testing::Contains(HasSubstr("moved along the main")));
}

TEST_F(Draft, ASecondBranchMayEnterAtACornerThatIsThere) {
  support::TwoBranchTree tree = support::twoBranchTree();
  const shop::PortRef third = tree.builder.machine("", at(5, 4, 0.5), "100 mm", tree.room);
  Snapped from;
  from.to = SnapTo::Port;
  from.port = third;
  from.at = plan(5, 4);
  from.z_um = 500'000;
  Snapped to;
  to.to = SnapTo::Corner;
  to.duct = tree.main;
  to.corner = tree.builder.ductOf(tree.main).corners[2].id;
  to.at = plan(5, 2);
  to.z_um = 2'500'000;
  sketch.points = {{from, 2'500'000, length("100 mm")}, {to, 2'500'000, length("100 mm")}};
  const auto plan_of = planDuct(tree.builder.project, sketch, ids);
  ASSERT_TRUE(plan_of) << plan_of.error().text();
  const auto after = shop::applyEdits(tree.builder.project, plan_of->edits);
  ASSERT_TRUE(after) << after.error().text();
  EXPECT_EQ(std::get<shop::OnCorner>(after->ducts.back().to).corner, to.corner);
  EXPECT_NEAR(angleOfEntry(*after, after->ducts.back()), 45, 1e-4);
  EXPECT_EQ(ductOf(*after, tree.main)->corners.size(), 4U);
}

TEST_F(Draft, AGateHangsNearTheMain) {
  const base::Id main_duct = main();
  clickPort(other);
  clickDuct(main_duct, 1, 4, 1);
  const shop::Project after = made();
  const shop::Duct& branch = lastOf(after);
  ASSERT_EQ(branch.gates.size(), 1U);
  EXPECT_EQ(branch.gates[0].label, "G1");
  EXPECT_EQ(branch.gates[0].corner, branch.corners[branch.corners.size() - 2].id);
  EXPECT_NEAR(branch.gates[0].distance.si(), 0.45 * std::sqrt(2) - 0.3, 2e-4);
}

TEST_F(Draft, NoGateWhereNoneIsAskedFor) {
  sketch.habits.gate = false;
  clickPort(port);
  clickInlet();
  EXPECT_TRUE(lastOf(made()).gates.empty());
}

TEST_F(Draft, AHoseTailHasThePortsBoreAndItsTwoAnswers) {
  sketch.habits.tail = HoseTail{length("0.6 m"), shop::HoseInside::Smooth, shop::HoseHung::Tight};
  clickPort(port);
  clickInlet();
  const shop::Project after = made();
  const shop::Duct& duct = lastOf(after);
  ASSERT_TRUE(duct.corners[0].leg->hose);
  EXPECT_EQ(duct.corners[0].leg->hose->inside, shop::HoseInside::Smooth);
  EXPECT_EQ(duct.corners[0].leg->hose->hung, shop::HoseHung::Tight);
  EXPECT_DOUBLE_EQ(duct.corners[0].leg->bore.si(), 0.1);
  EXPECT_EQ(duct.corners[1].at, at(1, 1, 1.1));
  ASSERT_TRUE(duct.corners[1].leg);
  EXPECT_FALSE(duct.corners[1].leg->hose);
  EXPECT_TRUE(duct.corners[1].leg->taper.has_value());
}

TEST_F(Draft, ATailMayReachRoundTheFirstBend) {
  sketch.habits.tail = HoseTail{length("3 m")};
  clickPort(port);
  clickInlet();
  const shop::Project after = made();
  EXPECT_EQ(lastOf(after).corners[2].at, at(2, 1, 2.5));
  EXPECT_FALSE(legInForce(lastOf(after), 2)->hose);
  EXPECT_TRUE(legInForce(lastOf(after), 1)->hose);
}

TEST_F(Draft, ATailAsLongAsTheDuctIsRefused) {
  sketch.habits.tail = HoseTail{length("30 m")};
  clickPort(port);
  clickInlet();
  EXPECT_THAT(planned().error().text(), HasSubstr("the hose of 30 m is as long as the whole duct"));
}

TEST_F(Draft, AnOpenEndIsDrawnOnAsOneDuct) {
  const base::Id stub =
      builder.duct(port, shop::OpenEnd{}, {at(1, 1, 0.5), at(1, 1, 2.5), at(3, 1, 2.5)}, "150 mm");
  Snapped place;
  place.to = SnapTo::OpenEnd;
  place.duct = stub;
  place.at = plan(3, 1);
  place.z_um = 2'500'000;
  click(place);
  clickInlet();
  const shop::Project after = made();
  ASSERT_EQ(after.ducts.size(), 1U);
  EXPECT_EQ(after.ducts[0].id, stub);
  EXPECT_EQ(after.ducts[0].corners.size(), 5U);
  EXPECT_TRUE(std::holds_alternative<shop::CollectorInlet>(after.ducts[0].to));
}

TEST_F(Draft, AnOpenBeginningIsDrawnOnToItsPort) {
  const base::Id stub = builder.duct(shop::OpenEnd{}, shop::CollectorInlet{collector},
                                     {at(3, 1, 2.5), at(9, 1, 2.5), at(9, 1, 2.0)}, "150 mm");
  Snapped place;
  place.to = SnapTo::OpenEnd;
  place.start = true;
  place.duct = stub;
  place.at = plan(3, 1);
  place.z_um = 2'500'000;
  click(place);
  clickPort(port);
  const shop::Project after = made();
  ASSERT_EQ(after.ducts.size(), 1U);
  EXPECT_EQ(std::get<shop::PortRef>(after.ducts[0].from), port);
  EXPECT_EQ(after.ducts[0].corners.front().at, at(1, 1, 0.5));
  EXPECT_EQ(after.ducts[0].gates.size(), 1U);
}

TEST_F(Draft, AFreeEndStaysOpen) {
  clickPort(port);
  clickAt(5, 1);
  EXPECT_TRUE(std::holds_alternative<shop::OpenEnd>(lastOf(made()).to));
}

TEST_F(Draft, RefusesTwoPorts) {
  clickPort(port);
  clickPort(other);
  EXPECT_THAT(planned().error().text(), HasSubstr("both ends give air"));
}

TEST_F(Draft, RefusesAMainLedFromAMainToAnInlet) {
  const base::Id main_duct = main();
  clickDuct(main_duct, 1, 4, 1);
  clickDuct(main_duct, 1, 6, 1);
  EXPECT_THAT(planned().error().text(), HasSubstr("both ends take air"));
}

TEST_F(Draft, RefusesAPortThatHasItsDuctAndNamesIt) {
  main();
  clickPort(port);
  clickAt(5, 5);
  EXPECT_THAT(planned().error().text(), HasSubstr("this port has duct D1 already"));
}

TEST_F(Draft, RefusesAnInletThatHasItsDuctAndSaysWhatToDo) {
  main();
  clickPort(other);
  clickInlet();
  EXPECT_THAT(planned().error().text(), HasSubstr("end on that duct instead"));
}

TEST_F(Draft, RefusesOnePlaceAlone) {
  clickPort(port);
  EXPECT_FALSE(planned());
}

TEST_F(Draft, RefusesABranchInsideItsMain) {
  const base::Id main_duct = main();
  sketch.habits.gate = false;
  clickAt(3, 1);
  clickDuct(main_duct, 1, 5, 1);
  EXPECT_THAT(planned().error().text(), HasSubstr("would run inside duct D1"));
}

TEST_F(Draft, TheUsualHeightIsThatOfMostDuct) {
  main();
  EXPECT_EQ(usualHabits(builder.project, base::UnitSystem::Us).run_z_um, 2'500'000);
}

TEST_F(Draft, TheFirstDuctHangsBelowTheCeiling) {
  EXPECT_EQ(usualHabits(builder.project, base::UnitSystem::Metric).run_z_um, 2'700'000);
}

TEST(AnySketch, IsRefusedOrFitsTheProject) {
  // Clicks anywhere, on things or beside them, at several heights: what is planned is always accepted.
  const support::TwoBranchTree tree = support::twoBranchTree();
  std::mt19937 random(4);
  const auto upTo = [&random](double most) { return most * static_cast<double>(random() % 10'000) / 1e4; };
  std::size_t made = 0;
  for (int k = 0; k < 4000; ++k) {
    DuctSketch sketch;
    sketch.habits = usualHabits(tree.builder.project, base::UnitSystem::Metric);
    if (k % 3 == 0) {
      sketch.habits.tail = HoseTail{length("0.4 m")};
    }
    if (k % 4 == 0) {
      sketch.habits.entry = support::given<base::Angle>("30 deg");
    }
    const std::size_t places = 2 + random() % 3;
    for (std::size_t i = 0; i < places; ++i) {
      SnapRequest request;
      request.pointer = plan(upTo(9), upTo(4));
      request.reach_m = 0.4;
      request.turn = random() % 3;
      const Snapped place = snap(tree.builder.project, request);
      sketch.points.push_back({place, random() % 2 == 0 ? 2'500'000 : 1'800'000, length("100 mm")});
      if (i > 0 && endsThere(place)) {
        break;
      }
    }
    base::SeededIds ids(100 + static_cast<std::uint64_t>(k));
    const auto planned = planDuct(tree.builder.project, sketch, ids);
    if (!planned) {
      EXPECT_FALSE(planned.error().message.empty());
      continue;
    }
    const auto after = shop::applyEdits(tree.builder.project, planned->edits);
    ASSERT_TRUE(after) << "sketch " << k << ": " << after.error().text();
    ++made;
  }
  EXPECT_GT(made, 1000U);
}

TEST_F(Draft, TheGateOfTheFirstDuctIsOpenWhereNothingWasShut) {
  const base::Id day = builder.state("day", {});
  clickPort(port);
  clickInlet();
  const shop::Project first = made();
  ASSERT_EQ(first.states[0].gates.size(), 1U);
  EXPECT_EQ(first.states[0].id, day);
  EXPECT_EQ(first.states[0].gates[0].gate, lastOf(first).gates[0].id);
  EXPECT_DOUBLE_EQ(first.states[0].gates[0].travel.si(), 1);
  // The only gate may be its machine's own state; one that is shut is a choice. Both stay as they are.
  builder.project = first;
  sketch.points.clear();
  clickPort(other, "100 mm");
  clickDuct(first.ducts[0].id, 1, 6, 1);
  EXPECT_EQ(made().states[0].gates.size(), 1U);
}

TEST(TypedLength, ReadsFeetAndInchesAndMetres) {
  EXPECT_DOUBLE_EQ(*parseLength("3.2 m"), 3.2);
  EXPECT_DOUBLE_EQ(*parseLength("10 ft 6"), 10.5 * 0.3048);
  EXPECT_DOUBLE_EQ(*parseLength("10' 6 1/2\""), 10 * 0.3048 + 6.5 * 0.0254);
  EXPECT_DOUBLE_EQ(*parseLength("8 ft"), 8 * 0.3048);
  EXPECT_DOUBLE_EQ(*parseLength("18\""), 18 * 0.0254);
  EXPECT_FALSE(parseLength("10"));
  EXPECT_FALSE(parseLength("10 ft six"));
  EXPECT_FALSE(parseLength(""));
}

TEST(TypedWords, AreUnderstood) {
  using What = Typed::What;
  EXPECT_EQ(parseTyped("3.2 m")->what, What::Length);
  EXPECT_EQ(parseTyped("up 2 ft")->what, What::Up);
  EXPECT_EQ(parseTyped("down 30 cm")->what, What::Down);
  EXPECT_DOUBLE_EQ(parseTyped("height 8 ft 2")->si, 98 * 0.0254);
  EXPECT_EQ(parseTyped("bore 5 in")->text, "5 in");
  EXPECT_EQ(parseTyped("hose 3 ft")->what, What::Tail);
  EXPECT_EQ(parseTyped("hose 3 ft smooth slack")->inside, shop::HoseInside::Smooth);
  EXPECT_EQ(parseTyped("hose 3 ft smooth slack")->hung, shop::HoseHung::Slack);
  EXPECT_FALSE(parseTyped("hose 3 ft ribbed")->hung);
  EXPECT_EQ(parseTyped("hose none")->what, What::NoTail);
  EXPECT_NEAR(parseTyped("entry 30 deg")->si, 30 * kDegree, 1e-12);
}

TEST(TypedWords, AreRefusedWithASentence) {
  EXPECT_THAT(parseTyped("12").error().text(), HasSubstr("no unit"));
  EXPECT_THAT(parseTyped("entry 5 deg").error().text(), HasSubstr("is not made"));
  EXPECT_THAT(parseTyped("bore 5 m").error().text(), HasSubstr("bore"));
  EXPECT_THAT(parseTyped("0 m").error().text(), HasSubstr("not above zero"));
  EXPECT_FALSE(parseTyped("-3 m"));
  EXPECT_FALSE(parseTyped("sideways 3 m"));
  EXPECT_FALSE(parseTyped("900 m"));
}

}  // namespace
}  // namespace kerfdraft::desk
