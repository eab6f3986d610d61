// Numbers as they stand on a drawing.
#include "drawing/units_text.h"

#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::drawing {
namespace {

using base::Kind;
using base::UnitSystem;

constexpr double kInch = 0.0254;

TEST(UnitsText, LengthsAsATapeShowsThem) {
  const auto us = [](double inches) { return lengthText(inches * kInch, UnitSystem::Us); };
  EXPECT_EQ(us(0), "0 in");
  EXPECT_EQ(us(0.5), "1/2 in");
  EXPECT_EQ(us(3.375), "3 3/8 in");
  EXPECT_EQ(us(12), "1 ft");
  EXPECT_EQ(us(99.5), "8 ft 3 1/2 in");
  EXPECT_EQ(us(24.25), "2 ft 1/4 in");
  EXPECT_EQ(us(11.99), "1 ft");  // rounding carries over
  EXPECT_EQ(us(-6), "−6 in");
  EXPECT_EQ(us(-0.01), "0 in");
  EXPECT_EQ(lengthText(2.5, UnitSystem::Metric), "2.50 m");
  EXPECT_EQ(lengthText(std::nan(""), UnitSystem::Us), "–");
}

TEST(UnitsText, EveryEighthReadsBackToItself) {
  for (int eighths = 0; eighths < 4000; ++eighths) {
    const std::string said = lengthText(eighths * kInch / 8, UnitSystem::Us);
    double feet = 0;
    std::string rest = said;
    if (const auto at = rest.find(" ft"); at != std::string::npos) {
      feet = std::stod(rest.substr(0, at));
      rest = rest.substr(at + 3);
    }
    const double inches = rest.empty() ? 0 : base::parseQuantity(Kind::Length, rest).value() / kInch;
    EXPECT_NEAR(feet * 12 + inches, eighths / 8.0, 1e-9) << said;
  }
}

TEST(UnitsText, FiguresThatAPredictionDeserves) {
  const double cfm = std::pow(0.3048, 3) / 60;
  EXPECT_EQ(shortText(Kind::VolumeFlow, 812.4 * cfm, UnitSystem::Us), "812 cfm");
  EXPECT_EQ(shortText(Kind::VolumeFlow, 1374 / 3600.0, UnitSystem::Metric), "1370 m³/h");
  EXPECT_EQ(shortText(Kind::Speed, 4074 * 0.3048 / 60, UnitSystem::Us), "4070 fpm");
  EXPECT_EQ(shortText(Kind::Speed, 20.66, UnitSystem::Metric), "20.7 m/s");
  EXPECT_EQ(shortText(Kind::Pressure, 7.437 * 249.08891, UnitSystem::Us), "7.44 in w.g.");
  EXPECT_EQ(shortText(Kind::Pressure, 13.84 * 249.08891, UnitSystem::Us), "13.8 in w.g.");
  EXPECT_EQ(shortText(Kind::Pressure, 2854, UnitSystem::Metric), "2850 Pa");
  EXPECT_EQ(shortText(Kind::Pressure, 336.4, UnitSystem::Metric), "336 Pa");
  EXPECT_EQ(shortText(Kind::Pressure, -0.2, UnitSystem::Metric), "0 Pa");
  EXPECT_EQ(shortText(Kind::Pressure, -336.4, UnitSystem::Metric), "−336 Pa");
  EXPECT_EQ(shortText(Kind::VolumeFlow, std::nan(""), UnitSystem::Us), "–");
}

TEST(UnitsText, ABoreIsAName) {
  EXPECT_EQ(boreText(6 * kInch, UnitSystem::Us), "Ø 6 in");
  EXPECT_EQ(boreText(2.5 * kInch, UnitSystem::Us), "Ø 2.5 in");
  EXPECT_EQ(boreText(0.1, UnitSystem::Metric), "Ø 100 mm");
}

}  // namespace
}  // namespace kerfdraft::drawing
