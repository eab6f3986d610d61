// Rooms: cracks by assumption, doors, exhausts, and when a room's pressure is given.
#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

using support::given;
using support::oneMachine;

shop::Opening openingOf(support::ProjectBuilder& builder, shop::OpeningKind kind, const std::string& label) {
  shop::Opening opening;
  opening.id = builder.id();
  opening.label = label;
  opening.kind = kind;
  opening.from = {0, 1'000'000};
  opening.to = {0, 1'900'000};
  return opening;
}

const Node& roomNode(const Pieces& pieces) {
  for (const Node& node : pieces.nodes) {
    if (node.kind == NodeKind::Room) {
      return node;
    }
  }
  throw base::InternalError("no room");
}

TEST(Rooms, CracksAreAssumedByWallAreaAndNoted) {
  const Pieces pieces = build(oneMachine().builder);
  ASSERT_EQ(pieces.openings.size(), 1U);
  EXPECT_NEAR(pieces.openings[0].area_m2, 5e-4 * 2 * (8 + 6) * 3.5, 1e-12);
  EXPECT_EQ(pieces.openings[0].from, 0U);
  EXPECT_TRUE(hasNote(pieces, "assumed cracks"));
  EXPECT_FALSE(roomNode(pieces).fixed);
}

TEST(Rooms, ListedCracksReplaceTheAssumption) {
  auto shop = oneMachine();
  shop::Opening crack = openingOf(shop.builder, shop::OpeningKind::Crack, "cracks");
  crack.area = given<base::Area>("150 cm2");
  shop.builder.project.rooms[0].openings.push_back(crack);
  const Pieces pieces = build(shop.builder);
  ASSERT_EQ(pieces.openings.size(), 1U);
  EXPECT_DOUBLE_EQ(pieces.openings[0].area_m2, 0.015);
  EXPECT_TRUE(pieces.openings[0].usually_open);
}

TEST(Rooms, RoomWithoutAnyOpeningIsFixedUnlessAUnitEmptiesIt) {
  auto shop = oneMachine();
  shop.builder.project.setting.leakage = false;
  EXPECT_TRUE(roomNode(build(shop.builder)).fixed);
  shop.builder.collectorOf(shop.collector).discharge.room = {};
  EXPECT_FALSE(roomNode(build(shop.builder)).fixed) << "a unit that blows outdoors empties it";
}

TEST(Rooms, DoorWithoutAreaIsTwoMetresHigh) {
  auto shop = oneMachine();
  shop.builder.project.rooms[0].openings.push_back(openingOf(shop.builder, shop::OpeningKind::Door, "D"));
  const Pieces pieces = build(shop.builder);
  EXPECT_NEAR(pieces.openings[0].area_m2, 0.9 * 2.0, 1e-12);
  EXPECT_FALSE(pieces.openings[0].usually_open);
  EXPECT_TRUE(hasNote(pieces, "assumed 2.0"));
}

TEST(Rooms, ExhaustTakesItsFlowOut) {
  auto shop = oneMachine();
  shop::Opening exhaust = openingOf(shop.builder, shop::OpeningKind::Exhaust, "E");
  exhaust.flow = given<base::VolumeFlow>("500 m3/h");
  shop.builder.project.rooms[0].openings.push_back(exhaust);
  const Pieces pieces = build(shop.builder);
  EXPECT_NEAR(roomNode(pieces).inflow_kg_s, -500.0 / 3600 * pieces.air.density_kg_m3, 1e-12);
  EXPECT_FALSE(roomNode(pieces).fixed);
}

TEST(Rooms, GrilleWithoutAreaIsRefused) {
  auto shop = oneMachine();
  shop.builder.project.rooms[0].openings.push_back(
      openingOf(shop.builder, shop::OpeningKind::Grille, "grille"));
  const base::Error error = refusal(shop.builder);
  EXPECT_EQ(error.where, "R1 grille");
  EXPECT_NE(error.message.find("free area"), std::string::npos);
}

TEST(Rooms, AirOfTheDayFollowsAltitudeOrBarometer) {
  // US Standard Atmosphere 1976: 84310 Pa at 1524 m (5000 ft), row A24.
  auto shop = oneMachine();
  shop.builder.project.air.altitude = support::length("5000 ft");
  EXPECT_NEAR(build(shop.builder).air.pressure_pa, 84307, 10);
  shop.builder.project.air.barometer = given<base::AbsolutePressure>("100 kPa");
  const Pieces pieces = build(shop.builder);
  EXPECT_DOUBLE_EQ(pieces.air.pressure_pa, 100000);
  EXPECT_DOUBLE_EQ(pieces.air.humidity, 0.5);
}

}  // namespace
}  // namespace kerfdraft::pieces
