// A state of use as a situation: gates, hose, stopped units, swung doors, waste shared by ports; unknown ids
// refused.
#include <gtest/gtest.h>

#include "network/network.h"
#include "support/nets.h"

namespace kerfdraft::network {
namespace {

using base::Given;
using base::Id;

shop::GateSetting gate(Id id, const char* travel) {
  return {id, Given<base::Ratio>::parse(travel).value()};
}

TEST(Situation, TakesGatesFansAndOpeningsFromTheState) {
  test::NetBuilder b = test::comb(3);
  b.opening(0, 1, 0.5);
  shop::State state;
  state.name = "second";
  state.filter = shop::FilterState::Due;
  state.gates = {gate(b.pieces().gates[1].id, "1"), gate(b.pieces().gates[2].id, "25 %")};
  state.off = {b.pieces().fans[0].id};
  state.swung = {b.pieces().openings[0].id};
  const auto s = situationOf(b.pieces(), {}, state);
  ASSERT_TRUE(s) << s.error().text();
  EXPECT_EQ(s->gate_travel, (std::vector<double>{0, 1, 0.25}));
  EXPECT_EQ(s->fan_on[0], 0);
  EXPECT_EQ(s->opening_open[0], 0);
  EXPECT_EQ(s->filter, shop::FilterState::Due);
}

TEST(Situation, UnknownIdsAreRefusedWithTheStatesName) {
  test::NetBuilder b = test::comb(2);
  shop::State state;
  state.name = "all";
  state.gates = {gate(Id(77777), "1")};
  EXPECT_EQ(situationOf(b.pieces(), {}, state).error().where, "state \"all\"");
  state.gates.clear();
  state.off = {Id(88888)};
  EXPECT_FALSE(situationOf(b.pieces(), {}, state));
  state.off.clear();
  state.swung = {Id(99999)};
  EXPECT_FALSE(situationOf(b.pieces(), {}, state));
}

TEST(Situation, WasteIsSharedByTheAreasOfThePorts) {
  test::NetBuilder b = test::comb(2);
  shop::Project project;
  shop::Machine machine;
  machine.id = Id(500);
  machine.waste = Given<base::MassFlow>::parse("50 g/s").value();
  for (const auto& [id, bore] : {std::pair{Id(501), "80 mm"}, std::pair{Id(502), "160 mm"}}) {
    shop::Port port;
    port.id = id;
    port.bore = Given<base::Length>::parse(bore).value();
    machine.ports.push_back(port);
  }
  project.machines = {machine};
  b.pieces().ports[0].ref = {Id(500), Id(501)};
  b.pieces().ports[0].bore_m = 0.08;
  b.pieces().ports[1].ref = {Id(500), Id(502)};
  b.pieces().ports[1].bore_m = 0.16;
  const auto s = situationOf(b.pieces(), project, {});
  ASSERT_TRUE(s);
  EXPECT_NEAR(s->solids_kg_s[0], 0.010, 1e-12);
  EXPECT_NEAR(s->solids_kg_s[1], 0.040, 1e-12);
}

}  // namespace
}  // namespace kerfdraft::network
