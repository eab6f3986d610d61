// Unit text: exact factors, fractions, mixed systems, refusals, and that what is shown is read back.
#include "base/units.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/given.h"

namespace kerfdraft::base {

TEST(Units, ExactFactorsOfTheInternationalFootAndPound) {
  // 1 ft = 0.3048 m and 1 in = 25.4 mm exactly; 1 cfm = 4.719474e-4 m3/s (airflow.md 0.4, exact there).
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Length, "1 ft").value(), 0.3048);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Length, "4 in").value(), 0.1016);
  EXPECT_NEAR(parseQuantity(Kind::VolumeFlow, "1 cfm").value(), 4.719474e-4, 1e-10);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Speed, "4000 fpm").value(), 20.32);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Pressure, "1 in w.g.").value(), 249.08891);
  EXPECT_NEAR(parseQuantity(Kind::Density, "0.075 lb/ft3").value(), 1.2013848, 5e-8);  // airflow.md 1.3
  EXPECT_NEAR(parseQuantity(Kind::Power, "1 hp").value(), 745.70, 0.005);              // airflow.md 5.1
  EXPECT_NEAR(parseQuantity(Kind::Temperature, "70 °F").value(), 294.261, 1e-3);
}

TEST(Units, FractionsAsTheTradeWritesThem) {
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Length, "2 1/2 in").value(), 2.5 * 0.0254);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Length, "3/4 in").value(), 0.75 * 0.0254);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Length, "-1 1/2 in").value(), -1.5 * 0.0254);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Ratio, "25 %").value(), 0.25);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Ratio, "0.25").value(), 0.25);
  EXPECT_DOUBLE_EQ(parseQuantity(Kind::Length, "150mm").value(), 0.15);
}

TEST(Units, RefusesWithTheTextAndTheUnitsItTakes) {
  for (const char* text :
       {"", "four in", "4", "4 cfm", "nan in", "inf in", "1e999 in", "4 in in", "--4 in", "4,5 in"}) {
    const auto read = parseQuantity(Kind::Length, text, "/ducts/0/bore");
    ASSERT_FALSE(read) << text;
    EXPECT_EQ(read.error().where, "/ducts/0/bore");
    EXPECT_FALSE(read.error().message.empty());
  }
  EXPECT_NE(parseQuantity(Kind::Length, "4 cfm").error().message.find("\"cfm\" is not a unit of length"),
            std::string::npos);
}

TEST(Units, WhatIsShownIsReadBackWithinItsDigits) {
  for (const Kind kind : {Kind::Length,      Kind::Bore,
                          Kind::Area,        Kind::Volume,
                          Kind::Angle,       Kind::Speed,
                          Kind::MassFlow,    Kind::VolumeFlow,
                          Kind::Pressure,    Kind::AbsolutePressure,
                          Kind::Temperature, Kind::TemperatureDifference,
                          Kind::Density,     Kind::Viscosity,
                          Kind::Power,       Kind::Time,
                          Kind::Mass,        Kind::RotationalSpeed,
                          Kind::Current,     Kind::Ratio}) {
    for (const UnitSystem system : {UnitSystem::Us, UnitSystem::Metric}) {
      for (const double si : {0.0123, 1.0, 321.0}) {
        const auto back = parseQuantity(kind, formatQuantity(kind, si, system));
        ASSERT_TRUE(back) << back.error().text();
        const double shown = inUnit(kind, si, system);
        EXPECT_NEAR(inUnit(kind, *back, system), shown, 0.500001) << kindName(kind);
      }
    }
  }
}

TEST(Units, AZeroIsNotWrittenWithASign) {
  EXPECT_EQ(formatQuantity(Kind::Pressure, -1e-9, UnitSystem::Us), "0.000 in w.g.");
}

TEST(Given, KeepsWhatWasTyped) {
  const auto g = Given<Length>::parse("0.75 in", Standing::Measured, "calliper");
  ASSERT_TRUE(g);
  EXPECT_EQ(g->text(), "0.75 in");
  EXPECT_DOUBLE_EQ(g->si(), 0.75 * 0.0254);
  EXPECT_EQ(toText(g->standing()), "measured");
}

}  // namespace kerfdraft::base
