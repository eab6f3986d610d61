// A plain tree from the drawing: lengths, fittings, junction, gate, and keys that stay when corners move.
#include "pieces/build.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

double straightLength(const Pieces& pieces) {
  double sum = 0;
  for (const auto& run : pieces.runs) {
    for (const Piece& piece : run.pieces) {
      sum += piece.length_m;
    }
  }
  return sum;
}

TEST(Build, OneMachineGivesEntryGateElbowAndTrueLengths) {
  const auto shop = support::oneMachine();
  const Pieces pieces = build(shop.builder);
  ASSERT_EQ(pieces.runs.size(), 1U);
  std::vector<Role> roles;
  for (const Piece& piece : pieces.runs[0].pieces) {
    roles.push_back(piece.key.role);
  }
  EXPECT_EQ(roles, (std::vector{Role::Entry, Role::Straight, Role::Gate, Role::Straight, Role::Elbow,
                                Role::Straight}));
  EXPECT_DOUBLE_EQ(pieces.runs[0].pieces[1].length_m, 1.0);
  EXPECT_DOUBLE_EQ(pieces.runs[0].pieces[3].length_m, 2.0);
  EXPECT_DOUBLE_EQ(pieces.runs[0].pieces[5].length_m, 4.0);
  EXPECT_DOUBLE_EQ(pieces.runs[0].pieces[0].k_forward, 0.5);
  EXPECT_DOUBLE_EQ(pieces.runs[0].pieces[0].k_reverse, 1.0);
}

TEST(Build, FivePieceElbowOf100MmLoses044) {
  // ASHRAE fitting tables (reprint): 5-piece, 90 degrees, R/D 1.5: 0.51 at 75 mm, 0.28 at 150 mm; linear
  // between.
  const Pieces pieces = build(support::oneMachine().builder);
  const auto elbows = ofRole(pieces, Role::Elbow);
  ASSERT_EQ(elbows.size(), 1U);
  EXPECT_NEAR(elbows[0]->angle_rad, std::numbers::pi / 2, 1e-12);
  EXPECT_NEAR(elbows[0]->k_forward, 0.51 - (0.51 - 0.28) * 25 / 75, 1e-12);
}

TEST(Build, TreeHasOneJunctionWithTheDrawnAngles) {
  const auto shop = support::twoBranchTree();
  const Pieces pieces = build(shop.builder);
  ASSERT_EQ(pieces.junctions.size(), 1U);
  const Junction& junction = pieces.junctions[0];
  ASSERT_EQ(junction.legs.size(), 3U);
  EXPECT_EQ(pieces.runs[junction.legs[junction.nominal_outlet].run].from, junction.node);
  std::vector<double> angles = junction.angle_rad;
  std::sort(angles.begin(), angles.end());
  EXPECT_NEAR(angles[0], 0, 1e-9);
  EXPECT_NEAR(angles[1], 0, 1e-9);
  EXPECT_NEAR(angles[2], std::numbers::pi / 4, 1e-9);
}

TEST(Build, ChangeOfBoreAtAJunctionBelongsToTheJunction) {
  const auto shop = support::twoBranchTree();
  const Pieces pieces = build(shop.builder);
  EXPECT_TRUE(ofRole(pieces, Role::Reducer).empty());
  const Junction& junction = pieces.junctions[0];
  for (const JunctionLeg& leg : junction.legs) {
    const auto& run = pieces.runs[leg.run];
    EXPECT_EQ(leg.at_end ? run.to : run.from, junction.node);
  }
  EXPECT_DOUBLE_EQ(pieces.runs[junction.legs[junction.nominal_outlet].run].start_bore_m, 0.16);
}

TEST(Build, StraightLengthsAddUpToTheDrawing) {
  const auto shop = support::twoBranchTree();
  double drawn = 0;
  for (const shop::Duct& duct : shop.builder.project.ducts) {
    for (std::size_t i = 1; i < duct.corners.size(); ++i) {
      drawn += shop::distance(duct.corners[i - 1].at, duct.corners[i].at);
    }
  }
  EXPECT_NEAR(straightLength(build(shop.builder)), drawn, 1e-12);
}

TEST(Build, RingMainHasFourJunctionsAndNoEndThatIsNotDead) {
  const Pieces pieces = build(support::ringMain().builder);
  EXPECT_EQ(pieces.junctions.size(), 4U);
  EXPECT_EQ(std::count_if(pieces.nodes.begin(), pieces.nodes.end(),
                          [](const Node& node) { return node.kind == NodeKind::Dead; }),
            2);
}

}  // namespace
}  // namespace kerfdraft::pieces
