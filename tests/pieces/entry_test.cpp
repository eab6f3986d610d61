// Entries, bodies, blowers and moved hoses.
#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

using support::at;
using support::given;
using support::length;
using support::oneMachine;
using support::ratio;

TEST(Entry, SmallPortOnALargeHoseIsAnEntryAndAnExpansion) {
  // model.md 4: a 2.5 in port feeding a 4 in hose. Borda-Carnot on the port's velocity pressure.
  auto shop = oneMachine();
  shop.builder.port(shop.port).bore = length("2.5 in");
  shop.builder.ductOf(shop.duct).corners[0].leg = support::ProjectBuilder::hose("4 in");
  shop.builder.collectorOf(shop.collector).inlet_bore = length("4 in");
  const Pieces pieces = build(shop.builder);
  const auto& list = pieces.runs[0].pieces;
  EXPECT_EQ(list[0].key.role, Role::Entry);
  EXPECT_DOUBLE_EQ(list[0].bore_m, 2.5 * 0.0254);
  EXPECT_EQ(list[1].key.role, Role::Reducer);
  EXPECT_DOUBLE_EQ(list[1].bore_m, 2.5 * 0.0254);
  const double share = 2.5 * 2.5 / 16;
  EXPECT_NEAR(list[1].k_forward, (1 - share) * (1 - share), 1e-12);
  EXPECT_EQ(pieces.ports[0].run, 0U);
  EXPECT_DOUBLE_EQ(pieces.ports[0].bore_m, 2.5 * 0.0254);
}

TEST(Entry, UnknownPortTakesHalfAndTheInternalsOfItsKind) {
  auto shop = oneMachine();
  shop.builder.port(shop.port).entry.reset();
  EXPECT_DOUBLE_EQ(onlyOf(build(shop.builder), Role::Entry).k_forward, 0.5);
  EXPECT_TRUE(hasNote(build(shop.builder), "assumed entry loss"));
  shop.builder.machineOf(shop.port).kind = "band-saw";
  EXPECT_DOUBLE_EQ(onlyOf(build(shop.builder), Role::Entry).k_forward, 1.5);
  shop.builder.machineOf(shop.port).kind = "table-saw";
  EXPECT_DOUBLE_EQ(onlyOf(build(shop.builder), Role::Entry).k_forward, 3.0);
}

TEST(Entry, HoodFormIsReadFromTheCatalogue) {
  auto shop = oneMachine();
  shop.builder.port(shop.port).entry.reset();
  shop.builder.port(shop.port).hood = "flanged-end";
  EXPECT_DOUBLE_EQ(onlyOf(build(shop.builder), Role::Entry).k_forward, 0.49);
}

TEST(Entry, MakersPairGivesTheCoefficientAndTheBodyItsPart) {
  // 100 mm, 800 m3/h: V = 28.294 m/s; VP at 1.2014 kg/m3 = 480.9 Pa; SP 1442.7 Pa = 3 VP, so F = 2.
  auto shop = oneMachine();
  shop::Port& port = shop.builder.port(shop.port);
  port.entry.reset();
  port.maker = shop::RatedPoint{given<base::VolumeFlow>("800 m3/h"), given<base::Pressure>("1442.7 Pa")};
  EXPECT_NEAR(onlyOf(build(shop.builder), Role::Entry).k_forward, 2.0, 2e-3);
  // Openings of 200 cm2 pass 0.2222 m3/s at 18.21 m/s behind Cd 0.61: 199.3 Pa = 0.4144 VP less.
  shop.builder.machineOf(shop.port).openings = given<base::Area>("200 cm2");
  const Pieces pieces = build(shop.builder);
  EXPECT_NEAR(onlyOf(pieces, Role::Entry).k_forward, 2.0 - 0.4144, 2e-3);
  EXPECT_EQ(pieces.nodes[pieces.runs[0].from].kind, NodeKind::Body);
  EXPECT_EQ(pieces.ports[0].body_node, pieces.runs[0].from);
}

TEST(Entry, MakersSuctionBelowVelocityPressureIsRefused) {
  auto shop = oneMachine();
  shop::Port& port = shop.builder.port(shop.port);
  port.entry.reset();
  port.maker = shop::RatedPoint{given<base::VolumeFlow>("800 m3/h"), given<base::Pressure>("400 Pa")};
  EXPECT_EQ(refusal(shop.builder).code, base::ErrorCode::Conflict);
  EXPECT_EQ(refusal(shop.builder).where, "T1 P1");
}

TEST(Entry, BodyWithoutDataStandsAtRoomPressure) {
  const auto shop = oneMachine();
  const Pieces pieces = build(shop.builder);
  EXPECT_EQ(pieces.nodes[pieces.runs[0].from].kind, NodeKind::Room);
}

TEST(Entry, BodyOpensToItsRoomByItsArea) {
  auto shop = oneMachine();
  shop.builder.machineOf(shop.port).openings = given<base::Area>("300 cm2");
  const Pieces pieces = build(shop.builder);
  const Opening* body = nullptr;
  for (const Opening& opening : pieces.openings) {
    body = opening.to == pieces.runs[0].from ? &opening : body;
  }
  ASSERT_NE(body, nullptr);
  EXPECT_EQ(pieces.nodes[body->from].kind, NodeKind::Room);
  EXPECT_DOUBLE_EQ(body->area_m2, 0.03);
  EXPECT_DOUBLE_EQ(body->discharge, 0.61);
}

TEST(Entry, BlowerStandsBetweenBodyAndPort) {
  auto shop = oneMachine();
  shop::Blower blower;
  blower.id = shop.builder.id();
  blower.label = "B1";
  blower.rating = shop.builder.collectorOf(shop.collector).rating;
  shop.builder.machineOf(shop.port).blower = blower;
  shop.builder.port(shop.port).entry.reset();
  const Pieces pieces = build(shop.builder);
  ASSERT_EQ(pieces.fans.size(), 2U);
  EXPECT_EQ(pieces.fans[0].id, blower.id);
  EXPECT_EQ(pieces.fans[0].key.role, Role::Blower);
  EXPECT_EQ(pieces.fans[0].to, pieces.runs[0].from);
  EXPECT_EQ(pieces.nodes[pieces.fans[0].to].kind, NodeKind::Joint);
  EXPECT_EQ(pieces.fans[0].from, pieces.ports[0].body_node);
  EXPECT_EQ(onlyOf(pieces, Role::Entry).k_forward, 0) << "its rating holds the way to the port";
}

TEST(Entry, OpenPipeStartsAndEndsInFreeAir) {
  support::ProjectBuilder b;
  b.duct(shop::FreeAir{{}, ""}, shop::FreeAir{{}, "cap-0.75"}, {at(0, 0, 1), at(3, 0, 1)}, "150 mm");
  const Pieces pieces = build(b);
  const Piece& entry = onlyOf(pieces, Role::Entry);
  EXPECT_DOUBLE_EQ(entry.k_forward, 0.93);  // plain duct end (ACGIH, reprint)
  EXPECT_DOUBLE_EQ(entry.k_reverse, 1.0);
  const Piece& outlet = onlyOf(pieces, Role::Outlet);
  EXPECT_DOUBLE_EQ(outlet.k_forward, 1.18);  // weather cap 0.75 D: 0.18 (ACGIH, from memory)
  EXPECT_DOUBLE_EQ(outlet.k_reverse, 0.93 + 0.18);
  EXPECT_EQ(pieces.runs[0].from, 0U);
  EXPECT_EQ(pieces.runs[0].to, 0U);
}

TEST(Entry, OpenDrawingEndIsDeadAndClosesItsStart) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).from = shop::OpenEnd{};
  const Pieces start = build(shop.builder);
  EXPECT_TRUE(start.runs[0].closed);
  EXPECT_EQ(start.nodes[start.runs[0].from].kind, NodeKind::Dead);
  EXPECT_TRUE(start.ports.empty());
  shop.builder.ductOf(shop.duct).from = shop.port;
  shop.builder.ductOf(shop.duct).to = shop::OpenEnd{};
  const Pieces end = build(shop.builder);
  EXPECT_FALSE(end.runs[0].closed) << "its leaks still draw through the port";
  EXPECT_EQ(end.nodes[end.runs[0].to].kind, NodeKind::Dead);
}

TEST(Entry, MovedHoseHasAnEntryRunForEachPlace) {
  auto shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  const shop::PortRef second = b.machine("band-saw", at(3, 1, 0.5), "80 mm", shop.room);
  b.ductOf(shop.duct).from = shop::MovedEnd{{shop.port, second}};
  const Pieces pieces = build(b);
  ASSERT_EQ(pieces.moved.size(), 1U);
  const MovedHose& moved = pieces.moved[0];
  EXPECT_EQ(moved.duct, shop.duct);
  ASSERT_EQ(moved.places.size(), 2U);
  ASSERT_EQ(pieces.ports.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& run = pieces.runs[moved.places[i].run];
    EXPECT_EQ(run.pieces.front().key.role, Role::Entry);
    EXPECT_EQ(pieces.nodes[run.to].kind, NodeKind::Joint);
    EXPECT_EQ(run.to, pieces.runs[moved.places[0].run].to);
    EXPECT_EQ(pieces.ports[i].ref, moved.places[i].ref);
    EXPECT_EQ(pieces.ports[i].run, moved.places[i].run);
  }
  EXPECT_EQ(pieces.runs[moved.places[1].run].pieces.size(), 2U)
      << "80 mm port on a 100 mm hose: an expansion";
  EXPECT_EQ(pieces.runs.back().from, pieces.runs[moved.places[0].run].to);
}

}  // namespace
}  // namespace kerfdraft::pieces
