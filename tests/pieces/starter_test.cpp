// The starter shop passes the invariants and solves, whatever machines stand in it.
#include "pieces/starter.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <set>

#include "shop/invariants.h"
#include "support/shipped.h"

namespace kerfdraft::pieces {

using namespace support;
namespace {

TEST(Starter, EveryKindOfMachineSolves) {
  const catalogue::Table& kinds = **shipped().table("machine_kinds");
  ASSERT_GT(kinds.rows().size(), 10U);
  for (const catalogue::Row& row : kinds.rows()) {
    const judge::Assessment assessment = starter({row.key});
    ASSERT_EQ(assessment.states.size(), 1U) << row.key;
    EXPECT_EQ(assessment.states[0].solution.outcome, network::Outcome::Solved) << row.key;
    EXPECT_GT(assessment.states[0].solution.ports[0].flow_m3_s, 0.01) << row.key;
    EXPECT_TRUE(shop::checkProject(*assessment.project).empty()) << row.key;
  }
}

TEST(Starter, EachMachineAloneIsAState) {
  const judge::Assessment assessment = starter({"table-saw", "planer", "band-saw", "lathe"});
  EXPECT_EQ(assessment.states.size(), 4U);
  EXPECT_EQ(assessment.pieces->gates.size(), 4U);
  EXPECT_EQ(assessment.pieces->junctions.size(), 3U);
  for (std::size_t s = 0; s < 4; ++s) {
    const auto& ports = assessment.states[s].solution.ports;
    std::size_t most = 0;
    for (std::size_t p = 0; p < ports.size(); ++p) {
      most = ports[p].flow_m3_s > ports[most].flow_m3_s ? p : most;
    }
    EXPECT_EQ(assessment.project->machines[s].id, assessment.pieces->ports[most].ref.machine) << s;
  }
}

TEST(Starter, RefusesARoomTooSmallAndUnknownKinds) {
  base::SeededIds ids(1);
  StarterRequest small = starterRequest({"planer", "planer", "planer"});
  small.width_m = 2;
  const auto refused = starterProject(small, shipped(), ids);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().where, "--room");
  const auto unknown = starterProject(starterRequest({"plainer"}), shipped(), ids);
  ASSERT_FALSE(unknown);
  EXPECT_NE(unknown.error().message.find("planer"), std::string::npos) << unknown.error().message;
  EXPECT_FALSE(starterProject(starterRequest({}), shipped(), ids));
}

// ------------------------------------------------------------------------------------------ where they stand

struct Box {
  double x0, y0, x1, y1;
  bool meets(const Box& b) const {
    constexpr double kTouch_m = 1e-5;
    return x0 < b.x1 - kTouch_m && b.x0 < x1 - kTouch_m && y0 < b.y1 - kTouch_m && b.y0 < y1 - kTouch_m;
  }
  bool within(const Box& b) const {
    constexpr double kTouch_m = 1e-5;
    return x0 > b.x0 - kTouch_m && x1 < b.x1 + kTouch_m && y0 > b.y0 - kTouch_m && y1 < b.y1 + kTouch_m;
  }
};

double m(std::int64_t um) {
  return static_cast<double>(um) * 1e-6;
}

/// A strip before the front of a machine, or its body where `deep_m` is zero: from what the project says.
Box boxOf(const shop::Machine& machine, double deep_m) {
  const double turned = machine.turned.si();
  const double half_w = machine.width.si() / 2;
  const double half_d = machine.depth.si() / 2;
  const double y0 = deep_m > 0 ? half_d : -half_d;
  const double y1 = deep_m > 0 ? half_d + deep_m : half_d;
  Box out{1e9, 1e9, -1e9, -1e9};
  for (const auto& [x, y] : {std::pair{-half_w, y0}, {half_w, y0}, {-half_w, y1}, {half_w, y1}}) {
    const double there_x = m(machine.at.x_um) + x * std::cos(turned) - y * std::sin(turned);
    const double there_y = m(machine.at.y_um) + x * std::sin(turned) + y * std::cos(turned);
    out = {std::min(out.x0, there_x), std::min(out.y0, there_y), std::max(out.x1, there_x),
           std::max(out.y1, there_y)};
  }
  return out;
}

/// Half a metre round the inlet, and the way through the door: nothing may stand there.
std::vector<Box> keptFree(const shop::Project& project) {
  const shop::Point& inlet = project.collectors[0].at;
  const shop::Opening& door = project.rooms[0].openings[0];
  return {{m(inlet.x_um) - 0.5, m(inlet.y_um) - 0.5, m(inlet.x_um) + 0.5, m(inlet.y_um) + 0.5},
          {m(door.from.x_um), m(door.from.y_um) - 0.6, m(door.to.x_um), m(door.to.y_um)}};
}

/// Empty where all stand as they should.
std::string wrongWith(const shop::Project& project) {
  constexpr double kToWork_m = 0.6;
  const std::vector<shop::PlanPoint>& outline = project.rooms[0].outline;
  const Box room{0, 0, m(outline[2].x_um), m(outline[2].y_um)};
  std::vector<Box> bodies;
  for (const shop::Machine& machine : project.machines) {
    bodies.push_back(boxOf(machine, 0));
    const Box work = boxOf(machine, kToWork_m);
    if (!bodies.back().within(room) || !work.within(room)) {
      return machine.label + " or the room to work before it leaves the room";
    }
    const Box port{m(machine.ports[0].at.x_um), m(machine.ports[0].at.y_um), m(machine.ports[0].at.x_um),
                   m(machine.ports[0].at.y_um)};
    if (!port.within(bodies.back()) || work.meets(port)) {
      return machine.label + " has its port elsewhere than at its back";
    }
    for (const Box& free : keptFree(project)) {
      if (bodies.back().meets(free)) {
        return machine.label + " stands in the door or in the collector";
      }
    }
  }
  for (std::size_t a = 0; a < bodies.size(); ++a) {
    for (std::size_t b = 0; b < bodies.size(); ++b) {
      if (a != b && (bodies[a].meets(bodies[b]) || boxOf(project.machines[a], kToWork_m).meets(bodies[b]))) {
        return project.machines[b].label + " stands in " + project.machines[a].label + " or before it";
      }
    }
  }
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Corner& corner : duct.corners) {
      if (!Box{m(corner.at.x_um), m(corner.at.y_um), m(corner.at.x_um), m(corner.at.y_um)}.within(room) ||
          m(corner.at.z_um) > project.rooms[0].height.si()) {
        return duct.label + " leaves the room";
      }
    }
  }
  return {};
}

RC_GTEST_PROP(StarterPlaces, InsideApartAndWithRoomToWorkOrASentence, ()) {
  const catalogue::Table& kinds = **shipped().table("machine_kinds");
  std::vector<std::string> machines;
  const auto count = *rc::gen::inRange<std::size_t>(1, 25);
  for (std::size_t k = 0; k < count; ++k) {
    machines.push_back(kinds.rows()[*rc::gen::inRange<std::size_t>(0, kinds.rows().size())].key);
  }
  StarterRequest request = starterRequest(machines);
  request.units = *rc::gen::element(base::UnitSystem::Us, base::UnitSystem::Metric);
  request.width_m = *rc::gen::inRange(200, 2500) * 0.01;
  request.depth_m = *rc::gen::inRange(200, 2500) * 0.01;
  request.height_m = *rc::gen::inRange(190, 600) * 0.01;
  base::SeededIds ids(5);
  const auto project = starterProject(request, shipped(), ids);
  if (!project) {
    RC_ASSERT(project.error().where == "--room");
    RC_ASSERT(!project.error().message.empty());
    // Half the walls of a large room take as many, so only small ones may be refused.
    RC_ASSERT(request.width_m + request.depth_m < 6 + 1.9 * static_cast<double>(count) ||
              std::min(request.width_m, request.depth_m) < 5 || request.height_m < 2.2);
    RC_TAG("refused");
    return;
  }
  RC_TAG("made");
  RC_ASSERT(project->machines.size() == count);
  RC_ASSERT(wrongWith(*project) == std::string());
  RC_ASSERT(shop::checkProject(*project).empty());
  const auto assessment = judge::assess(*project, shipped());
  RC_ASSERT(assessment.has_value());
  for (const judge::StateResult& state : assessment->states) {
    RC_ASSERT(state.solution.solved());
  }
  // Every branch and the second main enter along the air.
  for (const pieces::Junction& junction : assessment->pieces->junctions) {
    for (const double angle_rad : junction.angle_rad) {
      RC_ASSERT(angle_rad < 0.8);
    }
  }
}

TEST(StarterPlaces, AnOrdinaryShopUsesSeveralWalls) {
  StarterRequest request = starterRequest({"table-saw", "planer", "band-saw", "lathe"});
  request.width_m = 24 * 0.3048;
  request.depth_m = 20 * 0.3048;
  base::SeededIds ids(1);
  const auto project = starterProject(request, shipped(), ids);
  ASSERT_TRUE(project) << project.error().text();
  std::set<std::string> turned;
  for (const shop::Machine& machine : project->machines) {
    turned.insert(machine.turned.text());
  }
  EXPECT_GE(turned.size(), 3U);
  EXPECT_EQ(wrongWith(*project), "");
}

TEST(StarterPlaces, TooManyForASmallRoomSaysHowManyFit) {
  StarterRequest request = starterRequest(std::vector<std::string>(30, "planer"));
  request.width_m = 6;
  request.depth_m = 5;
  base::SeededIds ids(1);
  const auto refused = starterProject(request, shipped(), ids);
  ASSERT_FALSE(refused);
  const std::string& said = refused.error().message;
  EXPECT_NE(said.find("30 machines do not fit"), std::string::npos) << said;
  const std::size_t at = said.find("before each; ");
  ASSERT_NE(at, std::string::npos) << said;
  const int most = std::stoi(said.substr(at + 13));
  EXPECT_GE(most, 4);
  request.machines.resize(static_cast<std::size_t>(most));
  EXPECT_TRUE(starterProject(request, shipped(), ids)) << said;
  request.machines.resize(static_cast<std::size_t>(most) + 1, "planer");
  EXPECT_FALSE(starterProject(request, shipped(), ids)) << said;
}

}  // namespace
}  // namespace kerfdraft::pieces
