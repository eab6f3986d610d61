// Branch entries and ends that meet: nodes, legs, angles, saddles.
#include <algorithm>
#include <numbers>

#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

using support::at;
using support::length;
using support::ratio;

TEST(Meeting, SaddleAddsItsLossAtTheEndOfTheBranch) {
  auto shop = support::twoBranchTree();
  std::get<shop::OnCorner>(shop.builder.ductOf(shop.branch).to).saddle = true;
  const Pieces pieces = build(shop.builder);
  const Piece& saddle = onlyOf(pieces, Role::Saddle);
  EXPECT_DOUBLE_EQ(saddle.k_forward, 0.3);
  EXPECT_DOUBLE_EQ(saddle.bore_m, 0.1);
  const auto& run = pieces.runs.back();
  EXPECT_EQ(run.pieces.back().key.role, Role::Saddle);
}

TEST(Meeting, EndsJoinedEndToEndAreAJointWithTheirElbowAndReducer) {
  // The branch goes on as another duct: its end and that duct's start are one place, turned by 90 degrees.
  auto shop = support::oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.ductOf(shop.duct).to = shop::OpenEnd{};
  const base::Id corner = b.ductOf(shop.duct).corners[2].id;
  b.duct(shop::OnCorner{shop.duct, corner, false}, shop::CollectorInlet{shop.collector},
         {at(5, 1, 3.2), at(5, 5, 3.2)}, "125 mm");
  b.collectorOf(shop.collector).inlet_bore = length("125 mm");
  const Pieces pieces = build(b);
  EXPECT_TRUE(pieces.junctions.empty());
  ASSERT_EQ(pieces.runs.size(), 2U);
  EXPECT_EQ(pieces.runs[0].to, pieces.runs[1].from);
  EXPECT_EQ(pieces.nodes[pieces.runs[0].to].kind, NodeKind::Joint);
  const auto& list = pieces.runs[0].pieces;
  ASSERT_GE(list.size(), 2U);
  EXPECT_EQ(list[list.size() - 2].key, (PieceKey{Role::Elbow, corner, {}}));
  EXPECT_NEAR(list[list.size() - 2].angle_rad, std::numbers::pi / 2, 1e-12);
  EXPECT_EQ(list.back().key, (PieceKey{Role::Reducer, corner, {}}));
  EXPECT_DOUBLE_EQ(list.back().bore_m, 0.1);
  EXPECT_EQ(ofRole(pieces, Role::Elbow).size(), 2U);
}

TEST(Meeting, ElbowBehindAJoinedEndIsStillSeenFromTheFan) {
  auto shop = support::oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.ductOf(shop.duct).to = shop::OpenEnd{};
  const base::Id corner = b.ductOf(shop.duct).corners[2].id;
  b.duct(shop::OnCorner{shop.duct, corner, false}, shop::CollectorInlet{shop.collector},
         {at(5, 1, 3.2), at(5, 1.3, 3.2)}, "100 mm");
  EXPECT_NEAR(onlyOf(build(b), Role::FanInlet).k_forward, 1 - 3.0 / 5, 1e-9);
}

TEST(Meeting, FourLegsAreOneJunction) {
  auto shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  const base::Id corner = b.ductOf(shop.main).corners[2].id;
  const shop::PortRef third = b.machine("", at(5, 3, 0.3), "80 mm", shop.room);
  b.port(third).entry = ratio("0.5");
  b.duct(third, shop::OnCorner{shop.main, corner, false}, {at(5, 4, 2.5), at(5, 2, 2.5)}, "80 mm");
  const Pieces pieces = build(b);
  ASSERT_EQ(pieces.junctions.size(), 1U);
  const Junction& junction = pieces.junctions[0];
  EXPECT_EQ(junction.legs.size(), 4U);
  EXPECT_EQ(junction.cosine.size(), 16U);
  EXPECT_NEAR(*std::max_element(junction.angle_rad.begin(), junction.angle_rad.end()), std::numbers::pi / 2,
              1e-9);
}

TEST(Meeting, NineLegsAreRefused) {
  auto shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  const base::Id corner = b.ductOf(shop.main).corners[2].id;
  for (int i = 0; i < 6; ++i) {
    b.duct(shop::OpenEnd{}, shop::OnCorner{shop.main, corner, false}, {at(5, 4, 1 + 0.2 * i), at(5, 2, 2.5)},
           "80 mm");
  }
  EXPECT_NE(refusal(b).message.find("at most 8"), std::string::npos);
}

TEST(Meeting, NearEndsThatAreNotJoinedStayApart) {
  // The branch's end lies on the main's corner but is not joined to it: topology is stored, never found.
  auto shop = support::twoBranchTree();
  shop.builder.ductOf(shop.branch).to = shop::OpenEnd{};
  const Pieces pieces = build(shop.builder);
  EXPECT_TRUE(pieces.junctions.empty());
  EXPECT_EQ(onlyOf(pieces, Role::Reducer).bore_m, 0.125) << "the main's change of bore is a reducer now";
}

TEST(Meeting, EqualBranchAtFortyFiveLosesTheMitreWhenItCarriesAll) {
  // model.md 4: everything through an equal branch costs the mitre, K 0.34 at 45 degrees (SMACNA, reprint).
  auto shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  b.ductOf(shop.main).corners[0].leg->bore = length("160 mm");
  b.ductOf(shop.branch).corners[0].leg->bore = length("160 mm");
  const Pieces pieces = build(b);
  const Junction& junction = pieces.junctions[0];
  const std::size_t n = junction.legs.size();
  for (std::size_t i = 0; i < n; ++i) {
    if (junction.angle_rad[i] > 0.1) {
      EXPECT_NEAR(2 - 2 * junction.cosine[i * n + junction.nominal_outlet], 0.34, 1e-9);
    }
  }
}

TEST(Meeting, TapIsFoundBehindItsGate) {
  auto shop = support::oneMachine();
  shop::Duct& duct = shop.builder.ductOf(shop.duct);
  shop::Access tap;
  tap.id = shop.builder.id();
  tap.label = "M1";
  tap.corner = duct.corners[0].id;
  tap.distance = length("2.5 m");
  duct.taps.push_back(tap);
  const Pieces pieces = build(shop.builder);
  ASSERT_EQ(pieces.taps.size(), 1U);
  EXPECT_EQ(pieces.taps[0].piece, 3U);
  EXPECT_NEAR(pieces.taps[0].along_m, 1.5, 1e-12);
}

}  // namespace
}  // namespace kerfdraft::pieces
