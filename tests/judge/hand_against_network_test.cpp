// The pencil beside the network on one tree: the same flows must ask the fan for nearly the same suction.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "hand/hand_sheet.h"
#include "judge/sheet.h"
#include "judge/shops.h"

namespace kerfdraft {
namespace {

/// The solved flows of a state as design flows.
std::vector<hand::DesignFlow> solvedFlows(const judge::Assessment& assessment, std::size_t state) {
  std::vector<hand::DesignFlow> flows;
  const auto& gates = assessment.states[state].situation.gate_travel;
  for (std::size_t p = 0; p < assessment.pieces->ports.size(); ++p) {
    if (gates[p] > 0) {
      flows.push_back(
          {assessment.pieces->ports[p].run, assessment.states[state].solution.ports[p].flow_m3_s});
    }
  }
  return flows;
}

/// Leakage is left out by the pencil, so it is left out here.
judge::Assessment tightTree(shop::DensityMode density) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.setting.leakage = false;
  shop.builder.project.setting.density = density;
  return tests::solved(shop.builder.project);
}

/// What the pieces of the path lose, without junctions, and the junction's own loss.
struct Split {
  double pieces_pa = 0;
  double junction_pa = 0;
};

void addTo(Split& split, const hand::SheetRow& row) {
  (row.key.role == pieces::Role::Junction ? split.junction_pa : split.pieces_pa) += row.loss_pa;
}

Split byHand(const hand::HandSheet& sheet) {
  Split split;
  for (const hand::HandRun& run : sheet.suction) {
    for (const hand::SheetRow& row : run.rows) {
      addTo(split, row);
    }
  }
  return split;
}

Split byNetwork(const judge::Assessment& assessment, std::size_t state, std::size_t port) {
  const judge::Sheet sheet = judge::modelSheet(assessment, state, port).value();
  Split split;
  for (std::size_t i = 0; i < sheet.fans[0].row; ++i) {
    addTo(split, sheet.rows[i]);
  }
  return split;
}

TEST(HandAgainstNetwork, OneOpenBranchLosesTheSameInItsPieces) {
  const judge::Assessment assessment = tightTree(shop::DensityMode::Uniform);
  for (const std::size_t port : {std::size_t{0}, std::size_t{1}}) {
    const std::size_t state = port + 1;
    const hand::HandSheet sheet =
        hand::handSheet(*assessment.pieces, tests::shippedTables(), solvedFlows(assessment, state)).value();
    const Split hand = byHand(sheet);
    const Split network = byNetwork(assessment, state, port);
    EXPECT_NEAR(hand.pieces_pa / network.pieces_pa, 1.0, 0.001);
    // Behind the junction the main is wider and the air slows down: the pencil gives nothing back for it.
    EXPECT_GT(hand.junction_pa, network.junction_pa);
  }
}

TEST(HandAgainstNetwork, TwoBranchesAtEqualSpeedsAgreeWithinThreePercent) {
  // 125 and 100 mm into 160 mm: conserved area, the case for which the practice factors were made.
  const judge::Assessment assessment = tightTree(shop::DensityMode::Uniform);
  hand::Method method;
  method.balancing = hand::Balancing::ByGates;
  const hand::HandSheet sheet =
      hand::handSheet(*assessment.pieces, tests::shippedTables(), solvedFlows(assessment, 0), method).value();
  const network::FanResult& fan = assessment.states[0].solution.fans[0];
  EXPECT_NEAR(sheet.fan.inlet_total_pa / fan.inlet_total_pa, 1.0, 0.03);
  // The network lets both branches meet at one pressure; the pencil finds them balanced within its own rule.
  for (const hand::BalanceLeg& leg : sheet.junctions[0].legs) {
    EXPECT_LT(leg.ratio, 1.2);
  }
}

TEST(HandAgainstNetwork, LocalDensityAsksForALittleMore) {
  // Thinner air moves faster: with 1.8 kPa of total suction at the fan the pieces lose 1.6 % more than in one
  // density.
  const judge::Assessment local = tightTree(shop::DensityMode::Local);
  const hand::HandSheet sheet =
      hand::handSheet(*local.pieces, tests::shippedTables(), solvedFlows(local, 1)).value();
  const Split hand = byHand(sheet);
  const Split network = byNetwork(local, 1, 0);
  EXPECT_NEAR(hand.pieces_pa / network.pieces_pa, 0.984, 0.005);
}

TEST(HandAgainstNetwork, ARealUnitIsAddedUpToItsOutlet) {
  const judge::Assessment assessment = tests::solved(tests::shopWithEverything());
  const hand::HandSheet sheet =
      hand::handSheet(*assessment.pieces, tests::shippedTables(), solvedFlows(assessment, 0)).value();
  std::vector<pieces::Role> roles;
  for (const auto* side : {&sheet.suction, &sheet.discharge}) {
    for (const hand::HandRun& run : *side) {
      for (const hand::SheetRow& row : run.rows) {
        roles.push_back(row.key.role);
      }
    }
  }
  for (const pieces::Role role :
       {pieces::Role::Body, pieces::Role::Entry, pieces::Role::Hose, pieces::Role::Gate,
        pieces::Role::Junction, pieces::Role::Separator, pieces::Role::Filter}) {
    EXPECT_NE(std::find(roles.begin(), roles.end(), role), roles.end()) << pieces::toText(role);
  }
  EXPECT_GT(sheet.fan.required_total_pa, -sheet.fan.inlet_total_pa);
  EXPECT_GT(sheet.fan.available_total_pa, 0);
}

TEST(HandAgainstNetwork, ARingMainIsRefusedWithItsReason) {
  const judge::Assessment assessment = tests::solved(support::ringMain().builder.project);
  const auto sheet = hand::handSheet(*assessment.pieces, tests::shippedTables(), solvedFlows(assessment, 0));
  ASSERT_FALSE(sheet.has_value());
  EXPECT_NE(sheet.error().message.find("ring main"), std::string::npos) << sheet.error().text();
}

}  // namespace
}  // namespace kerfdraft
