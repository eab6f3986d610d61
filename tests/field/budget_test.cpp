// The budget against differences, against sampling, and against the textbook rules.
#include "field/budget.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "field/reading.h"
#include "field/sampling.h"

namespace kerfdraft::field {
namespace {

using testing::airFrom;
using testing::kInch_m;
using testing::pitotWith;
using testing::roundSection;
using testing::sample;
using testing::Sampled;

/// One model for every instrument and kind of legs, with repeats, factors and a computed density.
std::vector<MeasurementModel> manyModels() {
  AirEntry day;
  day.temperature_k = 298.15;
  day.altitude_m = 1900;
  day.humidity = 0.4;
  std::vector<Instrument> instruments;
  ColumnGauge u_tube;
  ColumnGauge inclined;
  inclined.form = ColumnGauge::Form::Inclined;
  inclined.rise = 0.1;
  inclined.rise_half_width = 0.002;
  inclined.well_ratio = 0.01;
  inclined.scale_allows_for_well = false;
  inclined.specific_gravity = 0.826;
  inclined.graduation = 0.002;
  ColumnGauge marked = u_tube;
  marked.scale = ColumnGauge::Scale::Pressure;
  marked.graduation = 10;
  marked.scale_gravity = 0.826;
  Probe hood = usualProbe(Probe::Form::HoodTap);
  hood.coefficient = 0.72;
  SpeedMeter wire = usualSpeedMeter(SpeedMeter::Form::HotWire);
  instruments = {pitotWith(u_tube),
                 pitotWith(inclined),
                 pitotWith(marked),
                 pitotWith(DigitalGauge{}),
                 PressureInstrument{DigitalGauge{}, usualProbe(Probe::Form::TypeS)},
                 PressureInstrument{DigitalGauge{}, hood},
                 usualSpeedMeter(SpeedMeter::Form::Vane),
                 wire};
  std::vector<MeasurementModel> models;
  for (const Instrument& instrument : instruments) {
    MeasurementModel m;
    m.instrument = instrument;
    const double raw = rawKind(instrument) == base::Kind::Bore       ? (isUTube(instrument) ? 0.04 : 0.3)
                       : rawKind(instrument) == base::Kind::Pressure ? 350
                                                                     : 20;
    m.samples = {{raw, 0, 1}, {1.1 * raw, 0, 1}, {0.95 * raw, 0, 1.5}};
    m.section = roundSection(0.1);
    m.air = airFrom(day);
    Uncertain factor;
    factor.key = "place";
    factor.value = 0.9;
    m.factors = {rectangular(factor, 0.03)};
    models.push_back(m);
  }
  MeasurementModel legs = models.front();
  legs.legs = Legs::Each;
  for (Sample& s : legs.samples) {
    s.other_leg = 0.9 * s.raw;
  }
  models.push_back(legs);
  legs.legs = Legs::OneDoubled;
  models.push_back(legs);
  MeasurementModel box = models.front();
  box.section->shape = RectangularSection{0.2, 0.15};
  models.push_back(box);
  return models;
}

TEST(Budget, SensitivitiesAgreeWithDifferences) {
  for (const MeasurementModel& m : manyModels()) {
    const Measured result = measure(m).value();
    std::vector<double> x;
    for (const Uncertain& u : inputsOf(m)) {
      x.push_back(u.value);
    }
    ASSERT_EQ(x.size(), result.flow.lines.size());
    for (std::size_t i = 0; i < x.size(); ++i) {
      const double step = 1e-5 * std::max(std::abs(x[i]), 10 * result.speed.lines[i].input.standard);
      if (step == 0) {
        continue;
      }
      std::vector<double> up = x;
      std::vector<double> down = x;
      up[i] += step;
      down[i] -= step;
      const SpeedAndFlow high = evaluateAt(m, up);
      const SpeedAndFlow low = evaluateAt(m, down);
      const double by_speed = (high.speed_m_s - low.speed_m_s) / (2 * step);
      const double by_flow = (high.flow_m3_s - low.flow_m3_s) / (2 * step);
      EXPECT_NEAR(result.speed.lines[i].sensitivity, by_speed, 1e-5 * std::abs(by_speed) + 1e-12)
          << result.speed.lines[i].input.key;
      EXPECT_NEAR(result.flow.lines[i].sensitivity, by_flow, 1e-5 * std::abs(by_flow) + 1e-12)
          << result.flow.lines[i].input.key;
    }
  }
}

TEST(Budget, ValueEqualsThePlainEvaluation) {
  for (const MeasurementModel& m : manyModels()) {
    const Measured result = measure(m).value();
    std::vector<double> x;
    for (const Uncertain& u : inputsOf(m)) {
      x.push_back(u.value);
    }
    const SpeedAndFlow plain = evaluateAt(m, x);
    EXPECT_EQ(plain.speed_m_s, result.speed_m_s);
    EXPECT_EQ(plain.flow_m3_s, result.flow_m3_s);
    EXPECT_NEAR(result.speed.value, result.speed_m_s, 1e-12 * result.speed_m_s);
    EXPECT_NEAR(result.flow.value, result.flow_m3_s, 1e-12 * result.flow_m3_s);
  }
}

TEST(Budget, AgreesWithMonteCarlo) {
  // 60,000 draws leave 0.3 % of noise (one sigma) in a deviation; curvature of these models adds up to 1 %.
  unsigned seed = 1;
  for (const MeasurementModel& m : manyModels()) {
    const Measured result = measure(m).value();
    const Sampled s = sample(m, 60000, seed++);
    EXPECT_NEAR(s.speed_deviation, result.speed.combined, 0.02 * result.speed.combined);
    EXPECT_NEAR(s.flow_deviation, result.flow.combined, 0.02 * result.flow.combined);
    EXPECT_NEAR(s.speed_mean, result.speed_m_s, 0.1 * result.speed.combined);
    EXPECT_NEAR(s.flow_mean, result.flow_m3_s, 0.1 * result.flow.combined);
  }
}

TEST(Budget, TwiceTheStandardUncertaintyCoversAboutNinetyFivePercent) {
  const MeasurementModel m = testing::uTubeModel();
  const Measured result = measure(m).value();
  const Sampled s = sample(m, 60000, 7);
  EXPECT_NEAR(s.speed_high - s.speed_low, 2 * result.speed.expanded, 0.08 * result.speed.expanded);
}

TEST(Budget, CombinesInQuadrature) {
  Uncertain a;
  a.value = 3;
  a.standard = 0.3;
  Uncertain b = a;
  b.value = 4;
  b.standard = 0.4;
  Listing in;
  const Graded first = in(a);
  const Graded product = first * in(b);
  const Budget budget = makeBudget(in.list(), product, base::Kind::Ratio);
  EXPECT_DOUBLE_EQ(budget.value, 12);
  EXPECT_DOUBLE_EQ(budget.lines[0].sensitivity, 4);
  EXPECT_DOUBLE_EQ(budget.lines[1].sensitivity, 3);
  EXPECT_DOUBLE_EQ(budget.combined, std::hypot(4 * 0.3, 3 * 0.4));
  EXPECT_DOUBLE_EQ(budget.expanded, 2 * budget.combined);
}

TEST(Budget, EffectiveFreedomIsThatOfTheOnlyScatteredInput) {
  Uncertain a;
  a.value = 1;
  a.standard = 0.1;
  a.freedom = 4;
  Listing in;
  const Graded alone = in(a);
  EXPECT_DOUBLE_EQ(makeBudget(in.list(), alone, base::Kind::Ratio).freedom, 4);
  Uncertain b = a;
  b.freedom = std::numeric_limits<double>::infinity();
  // GUM G.2b by hand: u² = 0.02, u⁴ = 4e-4, a's fourth power / 4 = 2.5e-5.
  const Graded sum = alone + in(b);
  EXPECT_NEAR(makeBudget(in.list(), sum, base::Kind::Ratio).freedom, 16, 1e-9);
}

TEST(Budget, GroupingKeepsTheCombinedUncertainty) {
  for (const MeasurementModel& m : manyModels()) {
    const Budget budget = measure(m).value().flow;
    const std::vector<BudgetLine> lines = groupedLines(budget);
    double squares = 0;
    for (const BudgetLine& line : lines) {
      squares += line.contribution * line.contribution;
    }
    EXPECT_NEAR(std::sqrt(squares), budget.combined, 1e-12 * budget.combined);
    EXPECT_LT(lines.size(), budget.lines.size());
    EXPECT_TRUE(std::ranges::is_sorted(lines, std::greater<>(), &BudgetLine::contribution));
  }
}

TEST(Budget, EveryLineNamesItsSource) {
  for (const MeasurementModel& m : manyModels()) {
    const Measured result = measure(m).value();
    for (const BudgetLine& line : result.flow.lines) {
      if (line.input.key != "place") {
        EXPECT_FALSE(line.input.source.empty()) << line.input.key;
        EXPECT_FALSE(line.input.name.empty()) << line.input.key;
      }
    }
  }
}

}  // namespace
}  // namespace kerfdraft::field
