// Values read back from places in a picture.
#include "desk/models/curve_tracing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;
using ::testing::SizeIs;

KnownAxis flowAxis(AxisScale scale = AxisScale::Linear) {
  return {scale, {{{{100, 500}, "100 m3/h"}, {{500, 500}, "2000 m3/h"}}}};
}
KnownAxis pressureAxis(AxisScale scale = AxisScale::Linear) {
  return {scale, {{{{100, 500}, "100 Pa"}, {{100, 100}, "2500 Pa"}}}};
}

TEST(CurveTracing, EveryScaleComesBack) {
  for (const AxisScale x : kAxisScales) {
    for (const AxisScale y : kAxisScales) {
      const auto scale = PictureScale::make(flowAxis(x), pressureAxis(y));
      ASSERT_TRUE(scale);
      EXPECT_NEAR(scale->valueAt({500, 100}).x, 2000.0 / 3600, 1e-9);
      EXPECT_NEAR(scale->valueAt({500, 100}).y, 2500, 1e-6);
      const drawing::At at = scale->placeOf(scale->valueAt({233, 341}));
      EXPECT_NEAR(at.x, 233, 1e-6);
      EXPECT_NEAR(at.y, 341, 1e-6);
    }
  }
}

TEST(CurveTracing, TheScaleSaysWhatLiesBetween) {
  const auto middle = [](AxisScale scale) {
    return PictureScale::make(flowAxis(scale), pressureAxis())->valueAt({300, 500}).x * 3600;
  };
  EXPECT_NEAR(middle(AxisScale::Linear), 1050, 1e-6);
  EXPECT_NEAR(middle(AxisScale::Square), std::sqrt((100. * 100 + 2000. * 2000) / 2), 1e-6);
  EXPECT_NEAR(middle(AxisScale::Root), std::pow((10 + std::sqrt(2000.)) / 2, 2), 1e-6);
  EXPECT_NEAR(middle(AxisScale::Logarithm), std::sqrt(100. * 2000), 1e-6);
}

TEST(CurveTracing, ACrookedPictureIsStraightened) {
  // The same chart turned and sheared: x' = a x + b y + e, y' = c x + d y + f.
  const auto crooked = [](drawing::At at) {
    return drawing::At{0.9 * at.x + 0.2 * at.y + 30, -0.15 * at.x + 1.1 * at.y - 20};
  };
  KnownAxis x = flowAxis();
  KnownAxis y = pressureAxis(AxisScale::Square);
  const auto straight = PictureScale::make(x, y);
  for (std::size_t i = 0; i < 2; ++i) {
    x.places[i].at = crooked(x.places[i].at);
    y.places[i].at = crooked(y.places[i].at);
  }
  const auto scale = PictureScale::make(x, y);
  ASSERT_TRUE(scale);
  EXPECT_NEAR(scale->valueAt(crooked({321, 234})).x, straight->valueAt({321, 234}).x, 1e-9);
  EXPECT_NEAR(scale->valueAt(crooked({321, 234})).y, straight->valueAt({321, 234}).y, 1e-6);
}

TEST(CurveTracing, AKnownCurveComesBackWithinAPixel) {
  KnownAxis x = flowAxis();
  KnownAxis y = pressureAxis();
  x.places[0] = {{100, 500}, "0 m3/h"};
  y.places[0] = {{100, 500}, "0 Pa"};
  const auto scale = PictureScale::make(x, y);
  ASSERT_TRUE(scale);
  const auto curve = [](double q) { return 2400 * (1 - q * q / (0.6 * 0.6)); };
  std::vector<drawing::At> clicked;
  for (const double q : {0.0, 0.1, 0.2, 0.3, 0.4, 0.5}) {
    const drawing::At at = scale->placeOf({q, curve(q)});
    clicked.push_back({std::round(at.x), std::round(at.y)});  // a click is a whole pixel
  }
  const auto points = tracedPoints(*scale, clicked, 4, base::UnitSystem::Metric);
  ASSERT_TRUE(points) << points.error().text();
  TypedFan typed;
  typed.points = *points;
  const auto rating = readFan(typed, {});
  ASSERT_TRUE(rating);
  const double pixel_m3_s = 2000.0 / 3600 / 400;
  const double pixel_pa = 2500.0 / 400;
  for (const shop::CurvePoint& point : rating->points) {
    // A pixel sideways moves the pressure by the slope of the curve.
    const double slope = 2 * 2400 * point.flow.si() / (0.6 * 0.6);
    EXPECT_NEAR(point.pressure.si(), curve(point.flow.si()), pixel_pa + slope * pixel_m3_s);
  }
}

TEST(CurveTracing, WhatCannotBeIsSaid) {
  KnownAxis x = flowAxis();
  x.places[1].value = "2000";
  EXPECT_EQ(PictureScale::make(x, pressureAxis()).error().where, "second place of the flow");
  x.places[1].value = "100 m3/h";
  EXPECT_THAT(PictureScale::make(x, pressureAxis()).error().text(), HasSubstr("take two that differ"));
  x.places[1] = {{100, 501}, "5 m3/h"};
  EXPECT_FALSE(PictureScale::make(x, pressureAxis()));
  x.places[1] = {{100, 100}, "5 m3/h"};
  EXPECT_THAT(PictureScale::make(x, pressureAxis()).error().text(), HasSubstr("same direction"));
  x = flowAxis(AxisScale::Logarithm);
  x.places[0].value = "0 m3/h";
  EXPECT_THAT(PictureScale::make(x, pressureAxis()).error().text(), HasSubstr("nowhere"));
}

TEST(CurveTracing, ClicksBesideAnAxisAreOnIt) {
  KnownAxis x = flowAxis();
  x.places[0].value = "0 m3/h";
  const auto scale = PictureScale::make(x, pressureAxis());
  const auto points = tracedPoints(*scale, {{300, 300}, {98, 200}}, 4, base::UnitSystem::Metric);
  ASSERT_TRUE(points);
  EXPECT_EQ(points->front()[0], "0 m³/h");
  EXPECT_FALSE(tracedPoints(*scale, {{300, 300}, {60, 200}}, 4, base::UnitSystem::Metric));
  EXPECT_FALSE(tracedPoints(*scale, {{300, 300}, {300, 200}}, 4, base::UnitSystem::Metric));
  EXPECT_FALSE(tracedPoints(*scale, {{300, 300}}, 4, base::UnitSystem::Metric));
}

}  // namespace
}  // namespace kerfdraft::desk
