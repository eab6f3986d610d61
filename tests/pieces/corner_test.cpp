// What corners and legs become: elbows of every form, hose bends, reducers, hose lengths, gates.
#include <cmath>
#include <numbers>

#include "physics/fittings.h"
#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

using support::at;
using support::given;
using support::length;
using support::oneMachine;
using support::ratio;

TEST(Corner, ElbowFormOfTheDuctAndThenOfTheCornerDecides) {
  auto shop = oneMachine();
  shop::Duct& duct = shop.builder.ductOf(shop.duct);
  duct.elbow_form = "drain-short";
  // Plastic drain elbow, short: 0.5 at 90 degrees (common practice).
  EXPECT_DOUBLE_EQ(onlyOf(build(shop.builder), Role::Elbow).k_forward, 0.5);
  duct.corners[1].elbow = shop::ElbowForm{"drain-long", {}};
  EXPECT_DOUBLE_EQ(onlyOf(build(shop.builder), Role::Elbow).k_forward, 0.28);
}

TEST(Corner, RadiusScalesTheElbowByItsTable) {
  // SMACNA Table A-7 (reprint), 5 pieces: 0.19 at R/D 2.0, 0.24 at 1.5. ASHRAE: 0.4333 at 100 mm, R/D 1.5.
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[1].elbow = shop::ElbowForm{"", ratio("2.0")};
  const double at_15 = 0.51 - (0.51 - 0.28) * 25 / 75;
  EXPECT_NEAR(onlyOf(build(shop.builder), Role::Elbow).k_forward, at_15 * 0.19 / 0.24, 1e-12);
}

TEST(Corner, ThreePieceElbowTakesItsOwnColumnOverTheFivePieceValue) {
  // SMACNA Table A-7 (reprint): 3 pieces 0.34 at R/D 1.5, 5 pieces 0.24.
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).elbow_form = "gored-3";
  const double five = 0.51 - (0.51 - 0.28) * 25 / 75;
  EXPECT_NEAR(onlyOf(build(shop.builder), Role::Elbow).k_forward, five * 0.34 / 0.24, 1e-12);
}

TEST(Corner, AngleIsThatOfTheDrawing) {
  // A rise of 1 m over 1 m along: 45 degrees, factor 0.60 (SMACNA Table A-7, reprint).
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[1].at = at(1, 1, 2.2);
  shop.builder.ductOf(shop.duct).corners[2].at = at(2, 1, 3.2);
  const Pieces pieces = build(shop.builder);
  const Piece& elbow = onlyOf(pieces, Role::Elbow);
  EXPECT_NEAR(elbow.angle_rad, std::numbers::pi / 4, 1e-12);
  EXPECT_NEAR(elbow.k_forward, 0.60 * (0.51 - (0.51 - 0.28) * 25 / 75), 1e-12);
}

TEST(Corner, StraightOnIsNoFitting) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[1].at = at(3, 1, 1.7);  // on the line between the ends
  EXPECT_TRUE(ofRole(build(shop.builder), Role::Elbow).empty());
}

TEST(Corner, ChangeOfSizeIsAReducerBothWays) {
  auto shop = oneMachine();
  shop::Leg wide;
  wide.bore = length("125 mm");
  wide.construction = "spiral-galvanized";
  shop.builder.ductOf(shop.duct).corners[1].leg = wide;
  shop.builder.collectorOf(shop.collector).inlet_bore = length("125 mm");
  const Pieces pieces = build(shop.builder);
  const Piece& reducer = onlyOf(pieces, Role::Reducer);
  const double share = (0.1 / 0.125) * (0.1 / 0.125);
  EXPECT_DOUBLE_EQ(reducer.bore_m, 0.1);
  EXPECT_NEAR(reducer.k_forward, (1 - share) * (1 - share), 1e-12);        // Borda-Carnot
  EXPECT_NEAR(reducer.k_reverse, 0.5 * std::pow(1 - share, 0.75), 1e-12);  // Idelchik, abrupt
  const Piece& elbow = onlyOf(pieces, Role::Elbow);
  EXPECT_DOUBLE_EQ(elbow.bore_m, 0.1) << "the elbow is entered through the smaller bore";
}

TEST(Corner, TaperMakesTheReducerConical) {
  auto shop = oneMachine();
  shop::Leg wide;
  wide.bore = length("125 mm");
  wide.construction = "spiral-galvanized";
  wide.taper = given<base::Angle>("15 deg");
  shop.builder.ductOf(shop.duct).corners[1].leg = wide;
  shop.builder.collectorOf(shop.collector).inlet_bore = length("125 mm");
  const double share = (0.1 / 0.125) * (0.1 / 0.125);
  const double cone = 3.2 * std::pow(std::tan(7.5 * std::numbers::pi / 180), 1.25);
  EXPECT_NEAR(onlyOf(build(shop.builder), Role::Reducer).k_forward, cone * (1 - share) * (1 - share), 1e-12);
}

TEST(Corner, EnteredLossReplacesTheTable) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[1].loss = ratio("0.77");
  const Pieces pieces = build(shop.builder);
  const Piece& elbow = onlyOf(pieces, Role::Elbow);
  EXPECT_DOUBLE_EQ(elbow.k_forward, 0.77);
  EXPECT_DOUBLE_EQ(elbow.k_reverse, 0.77);
  EXPECT_NE(elbow.source.formula.find("entered"), std::string::npos);
}

TEST(Corner, HoseBendsWhereBothLegsAreHose) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[0].leg = support::ProjectBuilder::hose("100 mm");
  const Pieces pieces = build(shop.builder);
  EXPECT_TRUE(ofRole(pieces, Role::Elbow).empty());
  // 0.6 at R/D 1.5 for 90 degrees (common practice).
  EXPECT_DOUBLE_EQ(onlyOf(pieces, Role::HoseBend).k_forward, 0.6);
  for (const Piece* hose : ofRole(pieces, Role::Hose)) {
    EXPECT_DOUBLE_EQ(hose->multiplier, 2.5);  // ribbed, hung
    EXPECT_DOUBLE_EQ(hose->roughness_m, 0.09e-3);
  }
}

TEST(Corner, HoseOfEnteredLengthIsSharedByItsLegs) {
  auto shop = oneMachine();
  shop::Leg hose = support::ProjectBuilder::hose("100 mm");
  hose.hose->length = length("8.4 m");  // drawn 7 m
  shop.builder.ductOf(shop.duct).corners[0].leg = hose;
  const Pieces pieces = build(shop.builder);
  double sum = 0;
  for (const Piece* piece : ofRole(pieces, Role::Hose)) {
    sum += piece->length_m;
  }
  EXPECT_NEAR(sum, 8.4, 1e-12);
  EXPECT_NEAR(ofRole(pieces, Role::Hose)[0]->length_m, 1.2, 1e-12) << "1 m to the gate, 1.2 times as long";
}

TEST(Corner, HoseTooShortForItsWayIsNoted) {
  auto shop = oneMachine();
  shop::Leg hose = support::ProjectBuilder::hose("100 mm");
  hose.hose->length = length("2 m");
  shop.builder.ductOf(shop.duct).corners[0].leg = hose;
  EXPECT_TRUE(hasNote(build(shop.builder), "cannot reach"));
}

TEST(Corner, CompressedHoseTakesTheCorrection) {
  // 30 % at 150 mm: 1 + 0.58 30 exp(-0.00496 150) = 9.269 (model.md 3), on the tight ribbed value 2.0.
  auto shop = oneMachine();
  shop::Leg hose = support::ProjectBuilder::hose("150 mm");
  hose.hose->compression = ratio("30 %");
  shop.builder.ductOf(shop.duct).corners[0].leg = hose;
  const Pieces inside = build(shop.builder);
  EXPECT_NEAR(ofRole(inside, Role::Hose)[0]->multiplier, 2.0 * (1 + 0.58 * 30 * std::exp(-0.00496 * 150)),
              1e-12);
  EXPECT_FALSE(hasNote(inside, "outside the measurements"));
  hose.bore = length("80 mm");
  shop.builder.ductOf(shop.duct).corners[0].leg = hose;
  EXPECT_TRUE(hasNote(build(shop.builder), "outside the measurements"));
}

TEST(Corner, GateSlotIsALeakOverTheBore) {
  auto shop = oneMachine();
  EXPECT_NEAR(build(shop.builder).gates[0].leak_fraction, 4 * 0.25e-3 / 0.1, 1e-15);
  shop.builder.ductOf(shop.duct).gates[0].slot = shop::GateSlot::Worn;
  EXPECT_NEAR(build(shop.builder).gates[0].leak_fraction, 4 * 0.75e-3 / 0.1, 1e-15);
  shop.builder.ductOf(shop.duct).gates[0].slot = shop::GateSlot::None;
  EXPECT_EQ(build(shop.builder).gates[0].leak_fraction, 0);
  shop.builder.ductOf(shop.duct).gates[0].slot = shop::GateSlot::New;
  shop.builder.project.setting.leakage = false;
  EXPECT_EQ(build(shop.builder).gates[0].leak_fraction, 0);
}

TEST(Corner, TwoGatesOnALegStandInTheirOrder) {
  auto shop = oneMachine();
  const base::Id near = shop.builder.gate(shop.duct, 0, "0.4 m");
  const Pieces pieces = build(shop.builder);
  const auto& list = pieces.runs[0].pieces;
  ASSERT_EQ(list.size(), 8U);
  EXPECT_EQ(list[2].key.a, near);
  EXPECT_EQ(list[4].key.a, shop.gate);
  EXPECT_NEAR(list[1].length_m, 0.4, 1e-12);
  EXPECT_NEAR(list[3].length_m, 0.6, 1e-12);
  EXPECT_NEAR(list[5].length_m, 2.0, 1e-12);
  EXPECT_EQ(list[3].key, (PieceKey{Role::Straight, near, shop.gate}));
  for (const GatePlace& gate : pieces.gates) {
    EXPECT_EQ(pieces.runs[gate.run].pieces[gate.piece].key.a, gate.id);
  }
}

TEST(Corner, GateAtTheVeryEndOfItsLegLeavesNoEmptyPiece) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).gates[0].distance = length("3 m");
  const Pieces pieces = build(shop.builder);
  for (const Piece* piece : ofRole(pieces, Role::Straight)) {
    EXPECT_GT(piece->length_m, 0);
  }
}

TEST(Corner, ElbowsCloserThanTwoBoresAreNoted) {
  auto shop = oneMachine();
  auto& corners = shop.builder.ductOf(shop.duct).corners;
  EXPECT_FALSE(hasNote(build(shop.builder), "less than two bores"));
  shop::Corner corner;
  corner.id = shop.builder.id();
  corner.at = at(1.15, 1, 3.2);
  corners.insert(corners.begin() + 2, corner);
  corners[3].at = at(1.15, 5, 3.2);
  EXPECT_TRUE(hasNote(build(shop.builder), "less than two bores"));
  corners[2].at = at(1.25, 1, 3.2);
  corners[3].at = at(1.25, 5, 3.2);
  EXPECT_FALSE(hasNote(build(shop.builder), "less than two bores"));
}

TEST(Corner, BoreThatIsNotSoldIsNoted) {
  auto shop = oneMachine();
  EXPECT_FALSE(hasNote(build(shop.builder), "in no list of bores"));
  shop.builder.ductOf(shop.duct).corners[0].leg->bore = length("110 mm");
  EXPECT_TRUE(hasNote(build(shop.builder), "110 mm is in no list of bores"));
}

}  // namespace
}  // namespace kerfdraft::pieces
