// Legs dragged, stretches hung higher and made wider, open ends joined: small ducts with a pencil, then all
// the examples at random.
#include "desk/models/reshape.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "desk/models/duct_draft.h"
#include "desk/models/places.h"
#include "files/save.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;
using support::length;
using ::testing::HasSubstr;

std::int64_t um(double m) {
  return std::llround(m * 1e6);
}

class Reshape : public ::testing::Test {
 protected:
  support::ProjectBuilder builder;
  base::Id room = builder.room(10, 6, 3);
  shop::PortRef port = builder.machine("", at(1, 1, 0.5), "100 mm", room);
  shop::PortRef other = builder.machine("", at(4, 4, 0.5), "100 mm", room);
  base::Id collector = builder.collector(at(9, 1, 2.0), "150 mm", room);
  base::SeededIds ids{11};
  std::array<base::Id, 2> put{ids.next(), ids.next()};

  /// A main along y = 1 m at 2.5 m: rises from the port, drops to the inlet.
  base::Id main() {
    return builder.duct(port, shop::CollectorInlet{collector},
                        {at(1, 1, 0.5), at(1, 1, 2.5), at(5, 1, 2.5), at(9, 1, 2.5), at(9, 1, 2.0)},
                        "150 mm");
  }
  base::Id branchInto(base::Id main_id) {
    const base::Id corner = builder.ductOf(main_id).corners[2].id;
    return builder.duct(other, shop::OnCorner{main_id, corner, false},
                        {at(4, 4, 0.5), at(4, 4, 2.5), at(4, 2, 2.5), at(5, 1, 2.5)}, "100 mm");
  }
  shop::Project made(const base::Result<Change>& change) { return after(builder.project, change); }
  static shop::Project after(const shop::Project& project, const base::Result<Change>& change) {
    EXPECT_TRUE(change.has_value()) << (change ? "" : change.error().text());
    if (!change) {
      return project;
    }
    const auto out = shop::applyEdits(project, change->edits);
    EXPECT_TRUE(out.has_value()) << (out ? "" : out.error().text());
    return out ? *out : project;
  }
  static std::vector<shop::Point> path(const shop::Project& project, base::Id duct) {
    std::vector<shop::Point> out;
    for (const shop::Corner& corner : ductOf(project, duct)->corners) {
      out.push_back(corner.at);
    }
    return out;
  }
};

TEST_F(Reshape, ALegBetweenRisersGoesSidewaysAndKeepsItsMachine) {
  const base::Id duct = builder.duct(port, shop::CollectorInlet{collector},
                                     {at(1, 1, 0.5), at(1, 1, 2.5), at(9, 1, 2.5), at(9, 1, 2.0)}, "150 mm");
  const base::Id leg = builder.ductOf(duct).corners[1].id;
  const shop::Project out = made(moveLeg(builder.project, duct, leg, um(0.3), um(2), put));
  EXPECT_EQ(path(out, duct), (std::vector<shop::Point>{at(1, 1, 0.5), at(1, 1, 2.5), at(1, 3, 2.5),
                                                       at(9, 3, 2.5), at(9, 1, 2.5), at(9, 1, 2.0)}));
  EXPECT_EQ(std::get<shop::PortRef>(ductOf(out, duct)->from), port);
}

TEST_F(Reshape, ADragMadeTwiceIsTheSame) {
  const base::Id duct = main();
  branchInto(duct);
  const base::Id leg = builder.ductOf(duct).corners[1].id;
  const shop::Project once = made(moveLeg(builder.project, duct, leg, 0, um(1.5), put));
  const shop::Project half = made(moveLeg(builder.project, duct, leg, 0, um(0.7), put));
  // The edits are counted from before the drag, and made on what the drag has made of it so far.
  EXPECT_EQ(path(after(half, moveLeg(builder.project, duct, leg, 0, um(1.5), put)), duct), path(once, duct));
}

TEST_F(Reshape, ABranchFollowsTheLegOfItsMain) {
  const base::Id duct = main();
  const base::Id branch = branchInto(duct);
  const base::Id leg = builder.ductOf(duct).corners[2].id;
  const shop::Project out = made(moveLeg(builder.project, duct, leg, 0, um(-0.5), put));
  EXPECT_EQ(ductOf(out, branch)->corners.back().at, at(5, 0.5, 2.5));
}

TEST_F(Reshape, TheLastLegOfABranchSlidesAlongTheMain) {
  const base::Id duct = main();
  const base::Id branch = branchInto(duct);
  const base::Id leg = builder.ductOf(branch).corners[2].id;
  const shop::Project out = made(moveLeg(builder.project, branch, leg, um(1), um(1), put));
  const auto& corners = ductOf(out, branch)->corners;
  EXPECT_NEAR(static_cast<double>(corners.back().at.x_um), 7e6, 2);
  EXPECT_NEAR(static_cast<double>(corners.back().at.y_um), 1e6, 2);
  EXPECT_NEAR(static_cast<double>(corners[2].at.x_um), 6e6, 2);
  EXPECT_EQ(ductOf(out, duct)->corners[2].at, corners.back().at);
  const auto too_far = moveLeg(builder.project, branch, leg, um(4), um(4), put);
  ASSERT_FALSE(too_far);
  EXPECT_THAT(too_far.error().text(), HasSubstr("straight leg of D1"));
}

TEST_F(Reshape, TheEntryKeepsItsAngleWhileThereIsRoom) {
  const base::Id duct = main();
  const base::Id branch = branchInto(duct);
  // The leg from (4, 4) to (4, 2), a metre to the east: the entry goes along, at 45 degrees still.
  const base::Id leg = builder.ductOf(branch).corners[1].id;
  const shop::Project out = made(moveLeg(builder.project, branch, leg, um(1), 0, put));
  EXPECT_EQ(path(out, branch).back(), at(6, 1, 2.5));
  EXPECT_EQ(ductOf(out, duct)->corners[2].at, at(6, 1, 2.5));
  EXPECT_EQ(path(out, branch)[path(out, branch).size() - 2], at(5, 2, 2.5));
  // Four metres are more than the main has: the entry stays where it was.
  const shop::Project far = made(moveLeg(builder.project, branch, leg, um(4.5), 0, put));
  EXPECT_EQ(path(far, branch).back(), at(5, 1, 2.5));
}

TEST_F(Reshape, AnUprightLegIsNotDraggedSideways) {
  const base::Id duct = main();
  const auto refused = moveLeg(builder.project, duct, builder.ductOf(duct).corners[0].id, um(1), 0, put);
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().text(), HasSubstr("upright"));
}

TEST_F(Reshape, GatesStayOnTheirLeg) {
  const base::Id duct = main();
  shop::Gate gate;
  gate.id = builder.id();
  gate.label = "G1";
  gate.corner = builder.ductOf(duct).corners[1].id;
  gate.distance = length("1.5 m");
  builder.ductOf(duct).gates.push_back(gate);
  const shop::Project out = made(moveLeg(builder.project, duct, gate.corner, 0, um(1), put));
  ASSERT_EQ(ductOf(out, duct)->gates.size(), 1U);
  EXPECT_EQ(ductOf(out, duct)->gates[0].corner, put[0]) << "the new corner begins the leg that was dragged";
  EXPECT_NEAR(ductOf(out, duct)->gates[0].distance.si(), 1.5, 1e-3);
}

TEST_F(Reshape, AWholeLevelSystemIsHungHigher) {
  const base::Id duct = main();
  const base::Id branch = branchInto(duct);
  const shop::Project out = made(hangAt(builder.project, duct, {}, um(2.8), ids));
  EXPECT_EQ(path(out, duct), (std::vector<shop::Point>{at(1, 1, 0.5), at(1, 1, 2.8), at(5, 1, 2.8),
                                                       at(9, 1, 2.8), at(9, 1, 2.0)}));
  EXPECT_EQ(path(out, branch),
            (std::vector<shop::Point>{at(4, 4, 0.5), at(4, 4, 2.8), at(4, 2, 2.8), at(5, 1, 2.8)}));
}

TEST_F(Reshape, ABranchAloneGetsADropBeforeItsMain) {
  const base::Id duct = main();
  const base::Id branch = branchInto(duct);
  const base::Id leg = builder.ductOf(branch).corners[1].id;
  const shop::Project out = made(hangAt(builder.project, branch, leg, um(2.8), ids));
  EXPECT_EQ(path(out, branch), (std::vector<shop::Point>{at(4, 4, 0.5), at(4, 4, 2.8), at(4, 2, 2.8),
                                                         at(4, 2, 2.5), at(5, 1, 2.5)}));
  EXPECT_EQ(path(out, duct), path(builder.project, duct));
}

TEST_F(Reshape, AStretchBesideAPortGetsItsRiser) {
  const base::Id duct = builder.duct(port, shop::CollectorInlet{collector},
                                     {at(1, 1, 0.5), at(9, 1, 0.5), at(9, 1, 2.0)}, "150 mm");
  const shop::Project out = made(hangAt(builder.project, duct, {}, um(1.0), ids));
  EXPECT_EQ(path(out, duct),
            (std::vector<shop::Point>{at(1, 1, 0.5), at(1, 1, 1), at(9, 1, 1), at(9, 1, 2.0)}));
  EXPECT_THAT(hangAt(builder.project, duct, {}, um(-1), ids).error().text(), HasSubstr("floor"));
  EXPECT_FALSE(hangAt(builder.project, duct, builder.ductOf(duct).corners[1].id, um(1), ids)) << "a riser";
}

TEST_F(Reshape, OneStretchIsMadeWiderWithReducersAtItsEnds) {
  const base::Id duct = main();
  shop::Leg narrow = *builder.ductOf(duct).corners[0].leg;
  narrow.bore = length("125 mm");
  builder.ductOf(duct).corners[2].leg = narrow;
  const base::Id clicked = builder.ductOf(duct).corners[3].id;
  const shop::Project out = made(boreOf(builder.project, duct, clicked, length("175 mm")));
  const shop::Duct& wide = *ductOf(out, duct);
  EXPECT_EQ(legInForce(wide, 1)->bore.text(), "150 mm");
  EXPECT_EQ(legInForce(wide, 2)->bore.text(), "175 mm");
  EXPECT_EQ(legInForce(wide, 3)->bore.text(), "175 mm");
  ASSERT_TRUE(wide.corners[2].leg);
  // Made as wide as what comes before, nothing is left to say.
  const shop::Project even = after(out, boreOf(out, duct, clicked, length("150 mm")));
  EXPECT_FALSE(legInForce(*ductOf(even, duct), 2)->taper);
}

TEST_F(Reshape, AllPipeOfADuctIsMadeWiderAndItsHoseIsNot) {
  const base::Id duct = main();
  builder.ductOf(duct).corners[0].leg->hose = shop::Hose{};
  shop::Leg pipe = *builder.ductOf(duct).corners[0].leg;
  pipe.hose.reset();
  builder.ductOf(duct).corners[1].leg = pipe;
  const shop::Project out = made(boreOf(builder.project, duct, {}, length("200 mm")));
  EXPECT_EQ(legInForce(*ductOf(out, duct), 0)->bore.text(), "150 mm");
  EXPECT_EQ(legInForce(*ductOf(out, duct), 3)->bore.text(), "200 mm");
  EXPECT_TRUE(ductOf(out, duct)->corners[1].leg->taper);
}

TEST_F(Reshape, TwoOpenEndsBecomeOneDuctWithItsBranchesGatesAndStates) {
  const base::Id first =
      builder.duct(port, shop::OpenEnd{}, {at(1, 1, 0.5), at(1, 1, 2.5), at(3, 1, 2.5)}, "125 mm");
  const base::Id second =
      builder.duct(shop::OpenEnd{}, shop::CollectorInlet{collector},
                   {at(4, 1, 2.2), at(5, 1, 2.2), at(9, 1, 2.2), at(9, 1, 2.0)}, "150 mm");
  const base::Id entry = builder.ductOf(second).corners[1].id;
  const base::Id branch =
      builder.duct(other, shop::OnCorner{second, entry, false},
                   {at(4, 4, 0.5), at(4, 4, 2.2), at(4, 2, 2.2), at(5, 1, 2.2)}, "100 mm");
  shop::Gate gate;
  gate.id = builder.id();
  gate.label = "G7";
  gate.corner = builder.ductOf(second).corners.front().id;
  gate.distance = length("0.3 m");
  builder.ductOf(second).gates.push_back(gate);
  shop::State state;
  state.id = builder.id();
  state.name = "all";
  state.gates.push_back({gate.id, support::ratio("1")});
  builder.project.states.push_back(state);

  DuctSketch sketch;
  sketch.habits = usualHabits(builder.project, base::UnitSystem::Metric);
  Snapped from;
  from.to = SnapTo::OpenEnd;
  from.duct = first;
  from.corner = builder.ductOf(first).corners.back().id;
  from.at = {um(3), um(1)};
  from.z_um = um(2.5);
  Snapped to = from;
  to.duct = second;
  to.corner = builder.ductOf(second).corners.front().id;
  to.at = {um(4), um(1)};
  to.z_um = um(2.2);
  to.start = true;
  sketch.points = {{from, um(2.5), length("125 mm")}, {to, um(2.5), length("125 mm")}};
  const auto plan = planDuct(builder.project, sketch, ids);
  ASSERT_TRUE(plan) << plan.error().text();
  EXPECT_EQ(plan->words, "Join D1 and D2");
  const shop::Project out = made(Change{plan->words, plan->edits});
  ASSERT_EQ(ductOf(out, second), nullptr);
  const shop::Duct& whole = *ductOf(out, first);
  EXPECT_EQ(path(out, first),
            (std::vector<shop::Point>{at(1, 1, 0.5), at(1, 1, 2.5), at(3, 1, 2.5), at(4, 1, 2.5),
                                      at(4, 1, 2.2), at(5, 1, 2.2), at(9, 1, 2.2), at(9, 1, 2.0)}));
  EXPECT_EQ(whole.gates.size(), 1U);
  EXPECT_EQ(std::get<shop::OnCorner>(ductOf(out, branch)->to).duct, first);
  EXPECT_EQ(out.states[0].gates, state.gates);
  EXPECT_EQ(std::get<shop::CollectorInlet>(whole.to).collector, collector);
  EXPECT_EQ(legInForce(whole, 3)->bore.text(), "125 mm");
  EXPECT_EQ(legInForce(whole, 5)->bore.text(), "150 mm");
}

TEST_F(Reshape, DuctsEndInTheAirWhereThatIsTyped) {
  DuctSketch sketch;
  sketch.habits = usualHabits(builder.project, base::UnitSystem::Metric);
  Snapped free;
  free.to = SnapTo::Grid;
  free.at = {um(2), um(2)};
  Snapped inlet;
  inlet.to = SnapTo::Inlet;
  inlet.collector = collector;
  inlet.at = {um(9), um(1)};
  inlet.z_um = um(2);
  // Drawn against the air: from the inlet to the mouth.
  sketch.points = {{inlet, um(2.4), length("150 mm")}, {free, um(2.4), length("150 mm")}};
  sketch.points[1].loose = LooseEnd{true, {room, "bellmouth"}};
  const auto plan = planDuct(builder.project, sketch, ids);
  ASSERT_TRUE(plan) << plan.error().text();
  const shop::Project out = made(Change{plan->words, plan->edits});
  EXPECT_EQ(std::get<shop::FreeAir>(out.ducts.back().from), (shop::FreeAir{room, "bellmouth"}));
  EXPECT_EQ(std::get<shop::CollectorInlet>(out.ducts.back().to).collector, collector);

  // And from its outlet to the outdoors.
  sketch.points = {{inlet, um(2.6), length("150 mm")}, {free, um(2.6), length("150 mm")}};
  sketch.points[0].outlet = true;
  sketch.points[1].loose = LooseEnd{false, {{}, "cap-0.75"}};
  const auto blown = planDuct(out, sketch, ids);
  ASSERT_TRUE(blown) << blown.error().text();
  const shop::Project both = after(out, Change{blown->words, blown->edits});
  EXPECT_EQ(std::get<shop::CollectorOutlet>(both.ducts.back().from).collector, collector);
  EXPECT_EQ(std::get<shop::FreeAir>(both.ducts.back().to).form, "cap-0.75");
  EXPECT_EQ(both.collectors[0].outlet_bore->text(), "150 mm");
  EXPECT_THAT(blown->notes, ::testing::Contains(HasSubstr("outlet of")));
  const auto twice = planDuct(both, sketch, ids);
  ASSERT_FALSE(twice);
  EXPECT_THAT(twice.error().text(), HasSubstr("outlet has duct"));
  sketch.points[0].outlet = false;
  EXPECT_FALSE(planDuct(both, sketch, ids)) << "inlet and outlet of air both take it";
}

TEST(ReshapeTyped, BoresAndHeights) {
  EXPECT_EQ(parsePickedTyped("5 in")->what, PickedTyped::What::Bore);
  EXPECT_EQ(parsePickedTyped("8 ft 6 high")->what, PickedTyped::What::Height);
  EXPECT_NEAR(parsePickedTyped("8 ft 6 high")->si, 8.5 * 0.3048, 1e-9);
  EXPECT_NEAR(parsePickedTyped("0 m high")->si, 0, 0);
  for (const char* bad : {"5", "0 in", "3 m", "60 m high", "5 kg", "5 in wide"}) {
    EXPECT_FALSE(parsePickedTyped(bad)) << bad;
  }
}

TEST(ReshapeExamples, WhateverTheHandDoesTheProjectHoldsTogether) {
  std::mt19937 random(20261129);
  const auto pick = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
  };
  std::size_t done = 0;
  std::size_t asked = 0;
  for (const auto& entry : std::filesystem::directory_iterator(KERFDRAFT_EXAMPLES)) {
    if (entry.path().extension() != ".json") {
      continue;
    }
    auto read = files::loadProject(entry.path());
    ASSERT_TRUE(read) << entry.path();
    const shop::Project start = *read;
    for (int walk = 0; walk < 12; ++walk) {
      shop::Project project = start;
      base::SeededIds ids(1000 + static_cast<std::uint64_t>(walk));
      for (int step = 0; step < 8; ++step) {
        const shop::Duct& duct = project.ducts[pick(project.ducts.size())];
        const base::Id corner = duct.corners[pick(duct.corners.size() - 1)].id;
        std::size_t gates = 0;
        for (const shop::Duct& each : project.ducts) {
          gates += each.gates.size();
        }
        base::Result<Change> change = base::fail(base::ErrorCode::Unsupported, "");
        switch (pick(3)) {
          case 0:
            change = moveLeg(project, duct.id, corner, um(static_cast<double>(pick(200)) * 0.01 - 1),
                             um(static_cast<double>(pick(200)) * 0.01 - 1), {ids.next(), ids.next()});
            break;
          case 1:
            change = hangAt(project, duct.id, corner, um(0.5 + static_cast<double>(pick(300)) * 0.01), ids);
            break;
          default:
            change = boreOf(project, duct.id, pick(2) == 0 ? corner : base::Id(), length("140 mm"));
            break;
        }
        ++asked;
        if (!change) {
          EXPECT_FALSE(change.error().text().empty());
          continue;
        }
        auto out = shop::applyEdits(project, change->edits);
        if (!out) {
          continue;  // refused as a whole: nothing changed
        }
        ++done;
        std::size_t now = 0;
        for (const shop::Duct& each : out->ducts) {
          now += each.gates.size();
          for (const shop::Corner& c : each.corners) {
            EXPECT_GE(c.at.z_um, 0);
          }
        }
        EXPECT_EQ(now, gates) << entry.path() << ": " << change->words;
        EXPECT_EQ(out->states, project.states);
        project = std::move(*out);
      }
    }
  }
  EXPECT_GT(done * 2, asked) << "most of what was asked for is done";
}

}  // namespace
}  // namespace kerfdraft::desk
