// Charts: points where they belong, names beside what they name, bad numbers left out.
#include "drawing/chart.h"

#include <gtest/gtest.h>

#include <cmath>

#include "drawing/fan_chart.h"
#include "drawing/pressure_chart.h"
#include "drawing/speed_chart.h"
#include "drawing/svg.h"
#include "picture_texts.h"

namespace kerfdraft::drawing {
namespace {

using base::UnitSystem;

constexpr double kCfm = 0.3048 * 0.3048 * 0.3048 / 60;
constexpr double kInchWater = 249.08891;

FanChartInput fan(std::size_t states) {
  FanChartInput input;
  input.fan = "C1 cyclone";
  input.standing = "predicted";
  for (int k = 0; k <= 40; ++k) {
    const double q = 1500 * kCfm * k / 40;
    input.curve.push_back({q, 12 * kInchWater * (1 - std::pow(q / (1500 * kCfm), 2))});
  }
  for (std::size_t s = 0; s < states; ++s) {
    const double q = (300 + 100 * static_cast<double>(s)) * kCfm;
    const auto point = [&](double flow) {
      return OperatingPoint{flow, 12 * kInchWater * (1 - std::pow(flow / (1500 * kCfm), 2)), 0.9 * flow,
                            1.1 * flow};
    };
    input.states.push_back(
        {"state " + std::to_string(s + 1), point(q * 1.05), point(q), point(q * 0.9), 400});
  }
  return input;
}

/// Place of a mark on paper by the axis' own figures: what a reader would measure.
double readAlong(const Picture& picture, At at, bool along_x) {
  // Two figures of the axis with their places.
  std::vector<std::pair<double, double>> figures;
  for (const Group* group : groupsOf(picture)) {
    if (group->kind != "grid") {
      continue;
    }
    for (const Shape& shape : group->shapes) {
      const auto* text = std::get_if<Text>(&shape.what);
      if (text == nullptr || text->bold) {
        continue;
      }
      const bool of_x = text->anchor == Anchor::Middle;
      if (of_x == along_x) {
        std::string number = text->text;
        if (number.starts_with("−")) {
          number.replace(0, std::string("−").size(), "-");
        }
        const Box box = boundsOf(shape);
        figures.emplace_back(std::stod(number), along_x ? text->at.x : text->at.y - 0.358 * text->size_mm);
        (void)box;
      }
    }
  }
  const auto& [v0, p0] = figures.front();
  const auto& [v1, p1] = figures.back();
  return v0 + ((along_x ? at.x : at.y) - p0) / (p1 - p0) * (v1 - v0);
}

At markPlace(const Picture& picture, const std::string& title) {
  for (const Group* group : groupsOf(picture)) {
    if (group->kind == "mark" && group->title == title) {
      for (const Shape& shape : group->shapes) {
        if (const auto* disc = std::get_if<Circle>(&shape.what)) {
          return disc->centre;
        }
      }
    }
  }
  ADD_FAILURE() << "no mark " << title;
  return {};
}

TEST(Chart, AMarkIsReadAtItsNumbers) {
  for (const UnitSystem units : {UnitSystem::Us, UnitSystem::Metric}) {
    const FanChartInput input = fan(1);
    const Picture picture = drawChart(fanChart(input, units), units);
    const At at = markPlace(picture, "state 1");
    const OperatingPoint& point = *input.states.front().seasoned;
    const double flow = base::inUnit(base::Kind::VolumeFlow, point.flow_m3_s, units);
    const double pressure = base::inUnit(base::Kind::Pressure, point.pressure_pa, units);
    EXPECT_NEAR(readAlong(picture, at, true), flow, 1e-6 * flow);
    EXPECT_NEAR(readAlong(picture, at, false), pressure, 2e-3 * pressure);  // capital height is rounded here
  }
}

TEST(FanChart, SystemCurvesPassThroughTheirPoints) {
  const FanChartInput input = fan(3);
  const Chart chart = fanChart(input, UnitSystem::Us);
  ASSERT_EQ(chart.curves.size(), 4U);
  for (std::size_t s = 0; s < 3; ++s) {
    const OperatingPoint& point = *input.states[s].seasoned;
    double least = 1e9;
    const std::vector<ChartPoint>& points = chart.curves[s + 1].points;
    for (std::size_t k = 0; k + 1 < points.size(); ++k) {
      if (points[k].x <= point.flow_m3_s && point.flow_m3_s <= points[k + 1].x) {
        const double share = (point.flow_m3_s - points[k].x) / (points[k + 1].x - points[k].x);
        least = std::abs(points[k].y + share * (points[k + 1].y - points[k].y) - point.pressure_pa);
      }
    }
    EXPECT_LT(least, 0.005 * point.pressure_pa);
    EXPECT_EQ(points.front().y, 0);
  }
}

TEST(FanChart, OfManyStatesTheOutermostAndSomeBetweenAreShown) {
  const Chart chart = fanChart(fan(11), UnitSystem::Us);
  EXPECT_EQ(chart.curves.size(), 1 + kMostSystemCurves);
  std::string all;
  for (const ChartMark& mark : chart.marks) {
    all += mark.lines.empty() ? "" : mark.lines.front() + ";";
  }
  EXPECT_NE(all.find("state 1;"), std::string::npos);
  EXPECT_NE(all.find("state 11;"), std::string::npos);
  EXPECT_NE(chart.notes.back().find("5 of 11 states"), std::string::npos);
}

TEST(FanChart, KeepsItsLabelsApart) {
  for (std::size_t states = 0; states < 12; ++states) {
    for (const UnitSystem units : {UnitSystem::Us, UnitSystem::Metric}) {
      const Picture picture = drawChart(fanChart(fan(states), units), units, {120, 80});
      EXPECT_EQ(overlaps(picture), std::vector<std::string>{}) << states;
    }
  }
}

TEST(FanChart, NumbersThatAreNoneAreLeftOut) {
  FanChartInput input = fan(2);
  input.curve[3].y = std::nan("");
  input.states[0].seasoned->flow_m3_s = std::nan("");
  input.states[1].seasoned->pressure_pa = HUGE_VAL;
  const std::string svg =
      toSvg(drawChart(fanChart(input, UnitSystem::Us), UnitSystem::Us), {.embed_font = false});
  EXPECT_EQ(svg.find("nan"), std::string::npos);
  EXPECT_EQ(svg.find("inf"), std::string::npos);
  const Picture nothing = drawChart(Chart{}, UnitSystem::Us);
  ASSERT_FALSE(textsOf(nothing).empty());
  EXPECT_EQ(textsOf(nothing).back()->text, "Nothing to show.");
}

PressureChartInput path() {
  PressureChartInput input;
  input.path = "from T1 P1 to the outlet";
  const auto add = [&](const char* label, double length_m, double before, double loss, double vp,
                       bool is_fan = false) {
    input.steps.push_back({label, length_m, before, before - loss, before - vp, before - loss - vp, is_fan});
  };
  add("entry", 0, 0, 80, 100);
  add("hose", 3, -80, 400, 150);
  add("elbow", 0, -480, 40, 150);
  add("duct", 8, -520, 120, 150);
  add("C1", 0, -640, -900, 0, true);
  add("filter", 0, 260, 260, 0);
  return input;
}

TEST(PressureChart, TotalAndStaticAreWhatWasGiven) {
  const Chart chart = pressureChart(path(), UnitSystem::Metric);
  ASSERT_EQ(chart.curves.size(), 2U);
  EXPECT_EQ(chart.curves[0].points.front().y, 0);
  EXPECT_EQ(chart.curves[0].points.back().y, 0);
  for (std::size_t k = 0; k < chart.curves[0].points.size(); ++k) {
    EXPECT_LE(chart.curves[1].points[k].y, chart.curves[0].points[k].y);
    EXPECT_EQ(chart.curves[1].points[k].x, chart.curves[0].points[k].x);
  }
}

TEST(PressureChart, NamesTheGreatestLossesWithTheirShare) {
  const Chart chart = pressureChart(path(), UnitSystem::Metric);
  std::vector<std::string> named;
  for (const ChartMark& mark : chart.marks) {
    named.push_back(mark.lines[0] + ": " + mark.lines[1]);
  }
  // 400 of 900 Pa in all; the fan is no loss.
  ASSERT_EQ(named.size(), 6U);
  EXPECT_EQ(named[0], "hose: 400 Pa, 44 %");
  EXPECT_EQ(named[1], "filter: 260 Pa, 29 %");
  EXPECT_EQ(named.back(), "C1: adds 900 Pa");
  EXPECT_EQ(overlaps(drawChart(chart, UnitSystem::Metric)), std::vector<std::string>{});
}

TEST(SpeedChart, TheWorstRunStandsOnTop) {
  SpeedChartInput input;
  input.title = "Speed";
  input.bars = {{"R1", 20, 18, "sawdust"},
                {"R2", 10, 18, "sawdust"},
                {"R3", 40, 18, "shavings"},
                {"R4", std::nan(""), 18, ""}};
  const Picture picture = speedChart(input, UnitSystem::Metric);
  std::vector<std::string> titles;
  for (const Group* group : groupsOf(picture)) {
    if (group->kind == "speed") {
      titles.push_back(group->title);
    }
  }
  ASSERT_EQ(titles.size(), 3U);
  EXPECT_EQ(titles[0], "R2: 10.0 m/s, needs 18.0 m/s for sawdust");
  EXPECT_EQ(titles[2].substr(0, 2), "R3");
  std::string words;
  for (const Text* text : textsOf(picture)) {
    words += text->text + ";";
  }
  EXPECT_NE(words.find("56 %;far too little;"), std::string::npos) << words;
  EXPECT_NE(words.find("111 %;just enough;"), std::string::npos);
  EXPECT_EQ(textsOf(speedChart({"Speed", "", {}}, UnitSystem::Us)).back()->text,
            "No chips travel in this state.");
}

}  // namespace
}  // namespace kerfdraft::drawing
