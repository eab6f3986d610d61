// Air: ranges at the edge, monotonicity and what a note writes down.
// The numbered rows are in tests/published/air_test.cpp.
#include "physics/air.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace kerfdraft::physics {
namespace {

using base::AbsolutePressure;
using base::Length;
using base::Temperature;

TEST(Air, StandardAirIsSeventyFiveThousandthsOfAPoundPerCubicFoot) {
  EXPECT_NEAR(standardAir().density_kg_m3, 1.2013848, 5e-8);
  EXPECT_NEAR(standardAir().temperature_k, 294.2611, 1e-4);
  EXPECT_NEAR(airViscosity(standardAir().temperature_k), standardAir().viscosity_pa_s, 5e-10);
}

TEST(Air, StateHoldsWhatTheLawsSay) {
  const auto air = airState(Temperature(293.15), AbsolutePressure(95000), 0.3);
  ASSERT_TRUE(air.has_value());
  EXPECT_EQ(air->density_kg_m3, airDensity(293.15, 95000, 0.3));
  EXPECT_EQ(air->viscosity_pa_s, airViscosity(293.15));
  EXPECT_EQ(air->humidity, 0.3);
}

TEST(Air, AltitudeGivesThePressureOfTheStandardAtmosphere) {
  const auto air = airAtAltitude(Temperature(288.15), Length(1900), 0);
  ASSERT_TRUE(air.has_value());
  EXPECT_EQ(air->pressure_pa, pressureAtAltitude(1900));
  EXPECT_LT(air->density_kg_m3, airAtAltitude(Temperature(288.15), Length(0), 0)->density_kg_m3);
}

TEST(Air, RefusesWhatCannotBeWithValueAndUnit) {
  const auto hot = airState(Temperature(400), AbsolutePressure(101325), 0.5, "/air/temperature");
  ASSERT_FALSE(hot.has_value());
  EXPECT_EQ(hot.error().text(), "/air/temperature: An air temperature of 126.9 °C is outside -40 to 60 °C.");
  const auto thin = airState(Temperature(293), AbsolutePressure(1013.25));
  ASSERT_FALSE(thin.has_value());
  EXPECT_EQ(thin.error().text(), "A barometric pressure of 1.013 kPa is outside 45 to 110 kPa.");
  const auto wet = airState(Temperature(293), AbsolutePressure(101325), 50);
  ASSERT_FALSE(wet.has_value());
  EXPECT_EQ(wet.error().text(), "A relative humidity of 5000 % is outside 0 to 100 %.");
  const auto high = airAtAltitude(Temperature(293), Length(8848));
  ASSERT_FALSE(high.has_value());
  EXPECT_EQ(high.error().text(), "An altitude of 8848 m is outside -430 to 6000 m.");
}

TEST(Air, RefusesNotANumber) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_FALSE(airState(Temperature(nan), AbsolutePressure(101325)).has_value());
  EXPECT_FALSE(airState(Temperature(293), AbsolutePressure(nan)).has_value());
  EXPECT_FALSE(airState(Temperature(293), AbsolutePressure(101325), nan).has_value());
  EXPECT_FALSE(airAtAltitude(Temperature(293), Length(nan)).has_value());
}

TEST(Air, EdgesOfTheRangeAreServed) {
  for (const double altitude : {-430.0, 0.0, 6000.0}) {
    for (const double celsius : {-40.0, 60.0}) {
      for (const double humidity : {0.0, 1.0}) {
        const auto air = airAtAltitude(Temperature(celsius + kZeroCelsius_k), Length(altitude), humidity);
        ASSERT_TRUE(air.has_value()) << altitude << " m, " << celsius << " C";
        EXPECT_GT(air->density_kg_m3, 0.35);
        EXPECT_LT(air->density_kg_m3, 1.7);
      }
    }
  }
}

TEST(Air, WarmerOrMoisterAirIsThinner) {
  for (double celsius = -40; celsius < 59; celsius += 3) {
    const double t = celsius + kZeroCelsius_k;
    EXPECT_LT(airDensity(t + 1, 101325, 0.5), airDensity(t, 101325, 0.5));
    EXPECT_LT(airDensity(t, 101325, 0.6), airDensity(t, 101325, 0.5));
    EXPECT_GT(airViscosity(t + 1), airViscosity(t));
  }
}

TEST(Air, IdealGasFormAgreesOverTheRangeOfTheProgram) {
  // CIPM-2007 against Z = f = 1: the two may differ by the compressibility, under 0.15 %, nowhere more.
  for (double celsius = -40; celsius <= 60; celsius += 5) {
    for (double p = 47e3; p <= 106e3; p += 5e3) {
      const double t = celsius + kZeroCelsius_k;
      EXPECT_NEAR(idealAirDensity(t, p, 0.5) / airDensity(t, p, 0.5), 1, 1.5e-3) << celsius << " C " << p;
    }
  }
}

TEST(Air, LocalDensityIsThatOfTheRoomAtRoomPressureAndFallsWithSuction) {
  EXPECT_EQ(localDensity(1.2, 101325, 0), 1.2);
  EXPECT_NEAR(localDensity(1.2, 100000, -25000), 0.9, 1e-15);
}

TEST(Air, ANoteSeesEveryStepAndTheSameNumber) {
  base::Recorder recorder;
  const double noted = airDensity(293.15, 101325, 0.5, recorder);
  EXPECT_EQ(noted, airDensity(293.15, 101325, 0.5));
  ASSERT_EQ(recorder.steps().size(), 4U);
  EXPECT_EQ(recorder.steps()[0].law, &kSaturationPressure);
  EXPECT_EQ(recorder.steps()[3].law, &kAirDensity);
  EXPECT_EQ(recorder.steps()[3].result, noted);
}

}  // namespace
}  // namespace kerfdraft::physics
