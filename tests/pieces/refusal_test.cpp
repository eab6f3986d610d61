// Bad input gets a sentence with its place.
#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

using support::at;
using support::given;
using support::length;
using support::oneMachine;
using support::ratio;

TEST(Refusal, UnknownConstructionOffersNearKeys) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[0].leg->construction = "spiral-galvanised";
  const base::Error error = refusal(shop.builder);
  EXPECT_EQ(error.where, "D1 at 0.000 m");
  EXPECT_NE(error.message.find("spiral-galvanized"), std::string::npos) << error.message;
}

TEST(Refusal, UnknownElbowHoodAndKindOffersNearKeys) {
  auto elbow = oneMachine();
  elbow.builder.ductOf(elbow.duct).elbow_form = "gored5";
  EXPECT_NE(refusal(elbow.builder).message.find("gored-5"), std::string::npos);
  auto hood = oneMachine();
  hood.builder.port(hood.port).entry.reset();
  hood.builder.port(hood.port).hood = "flange-end";
  EXPECT_NE(refusal(hood.builder).message.find("flanged-end"), std::string::npos);
  EXPECT_EQ(refusal(hood.builder).where, "T1 P1");
  auto kind = oneMachine();
  kind.builder.port(kind.port).entry.reset();
  kind.builder.machineOf(kind.port).kind = "bandsaw";
  EXPECT_NE(refusal(kind.builder).message.find("band-saw"), std::string::npos);
}

TEST(Refusal, UnknownCapOffersNearKeys) {
  support::ProjectBuilder b;
  b.duct(shop::FreeAir{}, shop::FreeAir{{}, "cap-0.7"}, {at(0, 0, 1), at(3, 0, 1)}, "150 mm");
  const base::Error error = refusal(b);
  EXPECT_NE(error.message.find("cap-0.70"), std::string::npos) << error.message;
  EXPECT_EQ(error.where, "D1");
}

TEST(Refusal, RoughnessAboveFivePercentOfTheBore) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[0].leg->bore = length("1.5 mm");
  EXPECT_EQ(refusal(shop.builder).code, base::ErrorCode::Range);
}

TEST(Refusal, MitreBeyondNinetyDegrees) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).elbow_form = "mitre";
  EXPECT_NEAR(onlyOf(build(shop.builder), Role::Elbow).k_forward, 1.20, 0.05);  // SMACNA Table A-7 (reprint)
  shop.builder.ductOf(shop.duct).corners[2].at = at(3, 1, 2.2);
  EXPECT_EQ(refusal(shop.builder).where, "D1 at 3.000 m");
}

TEST(Refusal, NegativeCoefficientsAreRefused) {
  auto shop = oneMachine();
  shop.builder.port(shop.port).entry = ratio("-0.5");
  EXPECT_EQ(refusal(shop.builder).where, "T1 P1");
  shop.builder.port(shop.port).entry = ratio("0.5");
  shop.builder.ductOf(shop.duct).corners[1].loss = ratio("-1");
  EXPECT_EQ(refusal(shop.builder).code, base::ErrorCode::Range);
}

TEST(Refusal, CurveOfOnePointNamesTheUnit) {
  auto shop = oneMachine();
  shop.builder.collectorOf(shop.collector).rating.points.resize(1);
  const base::Error error = refusal(shop.builder);
  EXPECT_EQ(error.where.substr(0, 2), "C1");
  EXPECT_NE(error.message.find("two points"), std::string::npos) << error.message;
}

TEST(Refusal, GateBeyondItsLeg) {
  auto shop = oneMachine();
  shop.builder.ductOf(shop.duct).gates[0].distance = length("3.5 m");
  EXPECT_EQ(refusal(shop.builder).where, "D1 G1");
}

TEST(Refusal, ASecondDuctOnAPort) {
  auto shop = oneMachine();
  shop.builder.duct(shop.port, shop::OpenEnd{}, {at(1, 1, 0.2), at(2, 1, 0.2)}, "100 mm");
  EXPECT_EQ(refusal(shop.builder).code, base::ErrorCode::Conflict);
}

TEST(Refusal, ADuctDrawnAgainstTheAir) {
  auto shop = oneMachine();
  std::swap(shop.builder.ductOf(shop.duct).from, shop.builder.ductOf(shop.duct).to);
  EXPECT_EQ(refusal(shop.builder).code, base::ErrorCode::Unsupported);
}

TEST(Refusal, ImpossibleAirOfTheDay) {
  auto shop = oneMachine();
  shop.builder.project.air.temperature = given<base::Temperature>("400 °C");
  EXPECT_EQ(refusal(shop.builder).where, "air of the day");
}

}  // namespace
}  // namespace kerfdraft::pieces
