// The drawing in words.
#include "desk/models/spoken.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

class Spoken : public ::testing::Test {
 protected:
  support::OneMachine one = support::oneMachine();
  shop::Project& project = one.builder.project;
  Thing machine{ThingKind::Machine, one.port.machine, {}};
  Thing duct{ThingKind::Duct, one.duct, {}};
  Thing gate{ThingKind::Gate, one.gate, one.duct};

  std::string said(const Thing& thing, const Solved* solved = nullptr) const {
    return spokenState(project, solved, 0, thing, base::UnitSystem::Metric);
  }
};

TEST_F(Spoken, ThingsAreCalledByKindLabelAndName) {
  project.machines[0].name = "Planer";
  project.ducts[0].name = "Main";
  EXPECT_EQ(spokenName(project, machine), "machine T1, Planer");
  EXPECT_EQ(spokenName(project, duct), "duct D1, Main");
  EXPECT_EQ(spokenName(project, gate), "gate G1");
  shop::Opening door;
  door.id = one.builder.id();
  door.label = "O1";
  door.kind = shop::OpeningKind::Window;
  project.rooms[0].openings.push_back(door);
  EXPECT_EQ(spokenName(project, {ThingKind::Opening, door.id, one.room}), "window O1 of room R1");
}

TEST_F(Spoken, ADuctSaysBetweenWhatItRunsAndItsAir) {
  EXPECT_EQ(said(duct), "from port P1 of T1 to the inlet of C1");
  const auto catalogue = catalogue::Catalogue::shipped();
  const Solved solved = solveShop(std::make_shared<const shop::Project>(project), {}, *catalogue);
  ASSERT_FALSE(solved.problem) << solved.problem->text();
  EXPECT_THAT(said(duct, &solved), HasSubstr("m³/h"));
  EXPECT_THAT(said(duct, &solved), HasSubstr("m/s"));
  EXPECT_THAT(said(machine, &solved), HasSubstr("air into T1"));
}

TEST_F(Spoken, AGateIsOpenShutOrBetween) {
  EXPECT_EQ(said(gate), "open");
  project.states[0].gates[0].travel = support::ratio("0.4");
  EXPECT_EQ(said(gate), "40 % open");
  project.states[0].gates.clear();
  EXPECT_EQ(said(gate), "shut");
  project.states.clear();
  EXPECT_EQ(said(gate), "");
}

TEST_F(Spoken, WhatIsPickedIsNamedOrCounted) {
  EXPECT_EQ(spokenPicked(project, {}), "nothing is picked");
  EXPECT_EQ(spokenPicked(project, {base::Id(4711)}), "nothing is picked");
  EXPECT_EQ(spokenPicked(project, {one.port.machine}), "machine T1 is picked");
  EXPECT_THAT(spokenPicked(project, {one.port.machine, one.duct}), HasSubstr("2 things are picked: "));
}

}  // namespace
}  // namespace kerfdraft::desk
