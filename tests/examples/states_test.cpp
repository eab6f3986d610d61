// Every state of use of every example is solved within what a solution is allowed (docs: what "solved"
// means).
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "example_shop.h"

namespace kerfdraft::examples {
namespace {

/// What flows into each node less what flows out [kg/s], found anew from runs, fans and openings.
std::vector<double> imbalance(const pieces::Pieces& pieces, const network::Solution& solution) {
  std::vector<double> sum(pieces.nodes.size(), 0);
  for (std::size_t n = 0; n < pieces.nodes.size(); ++n) {
    sum[n] += pieces.nodes[n].inflow_kg_s;
  }
  for (std::size_t r = 0; r < pieces.runs.size(); ++r) {
    sum[pieces.runs[r].from] -= solution.runs[r].flow_start_kg_s;
    sum[pieces.runs[r].to] += solution.runs[r].flow_end_kg_s;
    // Air that leaks into a run comes out of the room around it.
    sum[pieces.runs[r].room] -= solution.runs[r].flow_end_kg_s - solution.runs[r].flow_start_kg_s;
  }
  for (std::size_t f = 0; f < pieces.fans.size(); ++f) {
    sum[pieces.fans[f].from] -= solution.fans[f].flow_kg_s;
    sum[pieces.fans[f].to] += solution.fans[f].flow_kg_s;
  }
  for (std::size_t o = 0; o < pieces.openings.size(); ++o) {
    sum[pieces.openings[o].from] -= solution.openings[o].flow_kg_s;
    sum[pieces.openings[o].to] += solution.openings[o].flow_kg_s;
  }
  return sum;
}

bool everythingStands(const Shop& shop, const shop::State& state) {
  return std::all_of(shop.pieces().fans.begin(), shop.pieces().fans.end(), [&](const pieces::Fan& fan) {
    return std::find(state.off.begin(), state.off.end(), fan.id) != state.off.end();
  });
}

TEST(ExampleStates, AreAllSolvedWithinTheirAllowance) {
  for (const std::string& name : exampleNames()) {
    const Shop shop(exampleProject(name));
    for (const shop::State& state : shop.project().states) {
      SCOPED_TRACE(name + ": " + state.name);
      const network::Solution solution = shop.solve(state.name);
      ASSERT_TRUE(solution.solved()) << solution.why;
      EXPECT_LE(solution.residuals.worst_allowed, 1);
      EXPECT_TRUE(solution.stable);
      double scale = 0;
      for (const network::RunResult& run : solution.runs) {
        scale = std::max({scale, std::abs(run.flow_start_kg_s), std::abs(run.flow_end_kg_s)});
      }
      for (const network::OpeningResult& opening : solution.openings) {
        scale = std::max(scale, std::abs(opening.flow_kg_s));
      }
      const std::vector<double> rest = imbalance(shop.pieces(), solution);
      for (std::size_t n = 1; n < rest.size(); ++n) {
        if (!shop.pieces().nodes[n].fixed) {
          EXPECT_NEAR(rest[n], 0, 2e-9 * scale + 1e-12) << shop.pieces().nodes[n].label;
        }
      }
    }
  }
}

TEST(ExampleStates, AreStillExactlyWhereEveryFanStands) {
  // The basement's other exhaust does not drive the ducts either.
  for (const std::string& name : exampleNames()) {
    const Shop shop(exampleProject(name));
    for (const shop::State& state : shop.project().states) {
      SCOPED_TRACE(name + ": " + state.name);
      const bool still = shop.solve(state.name).outcome == network::Outcome::Still;
      EXPECT_EQ(still, everythingStands(shop, state));
    }
  }
}

TEST(ExampleStates, EachShopHasOneWithEverythingOffAndOneForEachStateOfTheFilter) {
  for (const std::string& name : exampleNames()) {
    SCOPED_TRACE(name);
    const Shop shop(exampleProject(name));
    bool off = false;
    std::array<bool, 3> filter{};
    for (const shop::State& state : shop.project().states) {
      off = off || everythingStands(shop, state);
      filter[static_cast<std::size_t>(state.filter)] = true;
    }
    EXPECT_TRUE(off);
    EXPECT_TRUE(filter[0] && filter[1] && filter[2]);
  }
}

TEST(ExampleStates, AFullerFilterLeavesEveryOpenMachineLessAir) {
  struct Case {
    const char* example;
    const char* machine;
    std::array<const char*, 3> states;  // clean, seasoned, due
  };
  for (const Case& c : {
           Case{"one-car-garage.json",
                "T4",
                {"Band saw, clean filter", "Band saw alone", "Band saw, filter due"}},
           Case{"two-car-garage.json", "T2", {"Planer, clean filter", "Planer alone", "Planer, filter due"}},
           Case{"cabinet-shop.json",
                "T3",
                {"Panel saw, CNC and wide-belt, clean filter", "Panel saw, CNC and wide-belt together",
                 "Panel saw, CNC and wide-belt, filter due"}},
           Case{"school-workshop.json",
                "T1",
                {"Band saw and planer, clean filter", "Band saw and planer together",
                 "Band saw and planer, filter due"}},
           Case{"basement-studio.json",
                "T3",
                {"Disc sander, clean filters", "Disc sander alone", "Disc sander, filters due"}},
           Case{"ring-main.json",
                "T2",
                {"Moulder, planer and circular saw, clean filters",
                 "Moulder, planer and circular saw together",
                 "Moulder, planer and circular saw, filters due"}},
           Case{"hand-tool-vacuum.json",
                "T3",
                {"Two sanders and the router, clean filter", "Two sanders and the router",
                 "Two sanders and the router, filter due"}},
           Case{"moved-hose.json",
                "T3",
                {"Hose on the band saw, clean bag", "Hose on the band saw", "Hose on the band saw, bag due"}},
       }) {
    SCOPED_TRACE(c.example);
    const Shop shop(exampleProject(c.example));
    std::array<double, 3> flow{};
    for (std::size_t i = 0; i < 3; ++i) {
      flow[i] = shop.machineFlow(shop.solve(c.states[i]), c.machine);
    }
    EXPECT_GT(flow[0], 1.01 * flow[1]);
    EXPECT_GT(flow[1], 1.01 * flow[2]);
    EXPECT_GT(flow[2], 0);
  }
}

TEST(ExampleStates, OnTheRingAirTurnsRoundAndTheStrongFanBlowsTheWeakOneBackward) {
  const Shop ring(exampleProject("ring-main.json"));
  const std::vector<std::size_t> west = ring.runsOf("D2");
  const network::Solution both = ring.solve("Planer-thicknesser alone");
  const network::Solution cyclone_off = ring.solve("Planer-thicknesser alone, cyclone off");
  // From the bag unit's corner eastward: toward the cyclone, then back toward the bag unit.
  EXPECT_GT(ring.flow(both, west[2]), 0);
  EXPECT_LT(ring.flow(cyclone_off, west[2]), 0);
  const network::Solution saw = ring.solve("Circular saw alone");
  EXPECT_TRUE(saw.fans[ring.fan("C2")].backward);
  EXPECT_FALSE(saw.fans[ring.fan("C1")].backward);
  // Its damper shuts both ways only when it stands.
  const network::Solution bag_off = ring.solve("Planer-thicknesser alone, bag unit off");
  EXPECT_NEAR(bag_off.fans[ring.fan("C2")].flow_kg_s, 0, 1e-9);
}

TEST(ExampleStates, TheSchoolsRoomIsUnderSuctionUntilTheDoorOpens) {
  const Shop school(exampleProject("school-workshop.json"));
  const auto suction = [&](const char* state) {
    const network::Solution solution = school.solve(state);
    for (std::size_t n = 0; n < school.pieces().nodes.size(); ++n) {
      if (school.pieces().nodes[n].label == "Workshop") {
        return -solution.node_pa[n];
      }
    }
    return 0.0;
  };
  EXPECT_GT(suction("Band saw and planer together"), 3);
  EXPECT_LT(suction("Band saw and planer, door open"), 0.2);
}

TEST(ExampleStates, ThePlanersBlowerHelpsTheMovedHoseAndBlowsAloneThroughTheStandingCollector) {
  const Shop shed(exampleProject("moved-hose.json"));
  const double helped = shed.machineFlow(shed.solve("Hose on the planer"), "T2");
  const double alone = shed.machineFlow(shed.solve("Hose on the planer, its blower off"), "T2");
  const double blown =
      shed.machineFlow(shed.solve("Collector off, hose on the planer with its blower"), "T2");
  EXPECT_GT(helped, 1.2 * alone);
  EXPECT_GT(blown, 0);
  EXPECT_LT(blown, alone);
}

TEST(ExampleStates, AirInTheVacuumLineIsAFifthThinner) {
  const Shop line(exampleProject("hand-tool-vacuum.json"));
  const network::Solution solution = line.solve("Sander 1 alone");
  const double inlet = solution.runs[line.lastRun("D1")].pieces.back().density_kg_m3;
  EXPECT_NEAR(inlet / line.pieces().air.density_kg_m3, 0.8, 0.04);
  // Built tight: shut outlets pass nothing.
  EXPECT_NEAR(line.solve("Every outlet shut").fans[0].flow_kg_s, 0, 1e-9);
}

}  // namespace
}  // namespace kerfdraft::examples
