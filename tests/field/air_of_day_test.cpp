// Density of the day from what a person gave.
#include "field/air_of_day.h"

#include <gtest/gtest.h>

#include "field/sampling.h"

namespace kerfdraft::field {
namespace {

double planeOf(const AirOfDay& air) {
  AsEntered in;
  base::Silent note;
  return planeDensity(air, std::optional<double>(), in, note);
}

TEST(AirOfDay, NothingGivenIsStandardAirAndSaysSo) {
  const AirOfDay air = airOfDay({}).value();
  EXPECT_EQ(planeOf(air), physics::kStandardDensity_kg_m3);
  ASSERT_EQ(air.notices.size(), 1U);
  EXPECT_EQ(air.notices[0].key, "standard-air-assumed");
}

TEST(AirOfDay, AltitudeAndTemperatureGiveThePhysicsDensity) {
  AirEntry e;
  e.temperature_k = 293.15;
  e.altitude_m = 1900;
  const AirOfDay air = airOfDay(e).value();
  EXPECT_DOUBLE_EQ(planeOf(air), physics::airDensity(293.15, physics::pressureAtAltitude(1900), 0.5));
  ASSERT_FALSE(air.notices.empty());
  EXPECT_EQ(air.notices[0].key, "density-corrected");
}

TEST(AirOfDay, EnteredDensityThatDoesNotFitThePlaceIsCautioned) {
  AirEntry e;
  e.density_kg_m3 = physics::kStandardDensity_kg_m3;
  e.altitude_m = 1900;
  const AirOfDay air = airOfDay(e).value();
  EXPECT_EQ(planeOf(air), physics::kStandardDensity_kg_m3);
  ASSERT_EQ(air.notices.size(), 1U);
  EXPECT_EQ(air.notices[0].key, "standard-air-at-altitude");
  EXPECT_EQ(air.notices[0].level, Notice::Level::Caution);
  e.altitude_m = 100;
  EXPECT_TRUE(airOfDay(e)->notices.empty());
}

TEST(AirOfDay, BarometerReducedToSeaLevelIsRefused) {
  AirEntry e;
  e.barometric_pa = 101300;
  e.altitude_m = 1900;
  const auto refused = airOfDay(e, "--barometer");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, base::ErrorCode::Conflict);
  EXPECT_NE(refused.error().message.find("sea level"), std::string::npos);
  e.barometric_pa = 80600;
  EXPECT_TRUE(airOfDay(e));
}

TEST(AirOfDay, StaticSuctionThinsTheAir) {
  AirEntry e;
  e.density_kg_m3 = 1.2;
  e.static_pa = -2500;
  EXPECT_NEAR(planeOf(airOfDay(e).value()), 1.2 * (101325 - 2500) / 101325, 1e-12);
}

TEST(AirOfDay, SlopesOfTheDensityAgreeWithTheIdealGas) {
  const Graded t = Graded::variable(293.15, 0);
  const Graded p = Graded::variable(101325, 1);
  const Graded h = Graded::variable(0.5, 2);
  const Graded rho = moistAirDensity(t, p, h);
  EXPECT_DOUBLE_EQ(rho.value(), physics::airDensity(293.15, 101325, 0.5));
  // d rho/dp = rho/p and d rho/dT = -rho/T for an ideal gas; vapour and Z move them by 1 and 15 %.
  EXPECT_NEAR(rho.slope(1), rho.value() / 101325, 0.01 * rho.value() / 101325);
  EXPECT_NEAR(rho.slope(0), -rho.value() / 293.15, 0.15 * rho.value() / 293.15);
  EXPECT_LT(rho.slope(2), 0);
}

TEST(AirOfDay, RefusesWhatCannotBe) {
  const auto refused = [](auto&& set) {
    AirEntry e;
    set(e);
    const auto r = airOfDay(e, "here");
    EXPECT_FALSE(r);
    if (!r) {
      EXPECT_EQ(r.error().where, "here");
      EXPECT_FALSE(r.error().message.empty());
    }
  };
  refused([](AirEntry& e) { e.temperature_k = 500; });
  refused([](AirEntry& e) { e.altitude_m = 20000; });
  refused([](AirEntry& e) { e.barometric_pa = 10; });
  refused([](AirEntry& e) { e.humidity = 50; });
  refused([](AirEntry& e) { e.density_kg_m3 = 0; });
  refused([](AirEntry& e) { e.density_kg_m3 = 12; });
  refused([](AirEntry& e) { e.static_pa = -200000; });
  refused([](AirEntry& e) { e.static_pa = std::nan(""); });
}

}  // namespace
}  // namespace kerfdraft::field
