// Sentences: every notice that the room makes has one, in both unit systems.
#include "field/notice.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "base/result.h"
#include "field/reading.h"
#include "field/sampling.h"
#include "field/traverse.h"

namespace kerfdraft::field {
namespace {

/// Speaks every notice in both systems and remembers its key.
void hear(const std::vector<Notice>& notices, std::set<std::string>& heard) {
  for (const Notice& n : notices) {
    heard.insert(n.key);
    EXPECT_GT(say(n, base::UnitSystem::Us).size(), 20U);
    EXPECT_GT(say(n, base::UnitSystem::Metric).size(), 20U);
    EXPECT_FALSE(n.source.empty()) << n.key;
  }
}

Reading uTubeOn(double difference_in, AirEntry day = {}) {
  Reading r;
  r.instrument = testing::pitotWith(ColumnGauge{});
  r.repeats = {{difference_in * testing::kInch_m, 0, 1}};
  r.section = testing::roundSection(4 * testing::kInch_m);
  r.air = testing::airFrom(day);
  return r;
}

void hearReadings(std::set<std::string>& heard) {
  AirEntry high;
  high.altitude_m = 1900;
  AirEntry warm;
  warm.temperature_k = 293.15;
  AirEntry wrong = high;
  wrong.density_kg_m3 = 1.2;
  for (const AirEntry& day : {AirEntry{}, warm, high, wrong}) {
    hear(measureReading(uTubeOn(1.6, day))->notices, heard);
  }
  for (const double in : {0.0, 0.1, 0.25, 12.0}) {
    hear(measureReading(uTubeOn(in))->notices, heard);
  }
  Reading r = uTubeOn(1.6);
  r.legs = Legs::OneDoubled;
  r.mean_of_pressures = true;
  std::get<PressureInstrument>(r.instrument).probe.diameter_m = 0.008;
  hear(measureReading(r)->notices, heard);
  r = uTubeOn(0, high);
  r.legs = Legs::Each;
  r.place = Place::Centre;
  r.repeats = {{0.9 * testing::kInch_m, 0.6 * testing::kInch_m, 1},
               {0.5 * testing::kInch_m, 0.5 * testing::kInch_m, 1}};
  const Measured right = measureReading(r).value();
  const double v = right.speed_m_s;
  const double standard = std::sqrt(right.density_kg_m3 / physics::kStandardDensity_kg_m3);
  for (const double claimed : {v, v / std::sqrt(2.0), v / 0.9, v * standard, right.rms_speed_m_s, 3 * v}) {
    r.claim.speed_m_s = claimed;
    hear(measureReading(r)->notices, heard);
  }
  SpeedMeter vane = usualSpeedMeter(SpeedMeter::Form::Vane);
  vane.diameter_m = 0.07;
  r = uTubeOn(0);
  r.instrument = vane;
  r.repeats = {{20, 0, 1}};
  hear(measureReading(r)->notices, heard);
}

void hearTraverses(std::set<std::string>& heard) {
  Traverse t;
  t.request.section = testing::roundSection(0.15);
  t.instrument = testing::pitotWith(DigitalGauge{});
  t.air = testing::airOfDensity(1.2);
  t.lines = {{200, {}, 300, 300, 250, -5}};
  hear(measureTraverse(t)->measured.notices, heard);
  t.lines = {{5, 4, 300, 300, 4, 5}};
  hear(measureTraverse(t)->measured.notices, heard);
  t.lines = {{-200, -250, -300, -300, -250, -200}};
  t.request.upstream_m = 0.1;
  t.request.downstream_m = 0.1;
  hear(measureTraverse(t)->measured.notices, heard);
  PlanRequest large;
  large.section = testing::roundSection(0.5);
  large.rule = PointRule::EqualArea;
  large.points = 20;
  hear(planTraverse(large)->notices, heard);
  large.section = testing::roundSection(0.1);
  hear(planTraverse(large)->notices, heard);
}

TEST(Notice, EveryKeyIsMadeBySomeMeasurementAndSpoken) {
  std::set<std::string> heard;
  hearReadings(heard);
  hearTraverses(heard);
  for (const std::string_view key : noticeKeys()) {
    EXPECT_TRUE(heard.contains(std::string(key))) << key;
  }
}

TEST(Notice, KeysAreUnique) {
  const auto keys = noticeKeys();
  EXPECT_EQ(std::set<std::string_view>(keys.begin(), keys.end()).size(), keys.size());
}

TEST(Notice, SpeaksTheReadersUnits) {
  const Notice n{
      "zero-reading", Notice::Level::Caution, {{"smallest-speed", base::Kind::Speed, 5.08}}, {}, "x"};
  EXPECT_NE(say(n, base::UnitSystem::Us).find("1000 fpm"), std::string::npos);
  EXPECT_NE(say(n, base::UnitSystem::Metric).find("5.08 m/s"), std::string::npos);
}

TEST(Notice, UnknownKeysAndMissingQuantitiesAreBugs) {
  EXPECT_THROW(say({"no-such-key", Notice::Level::Note, {}, {}, {}}, base::UnitSystem::Us),
               base::InternalError);
  EXPECT_THROW(say({"zero-reading", Notice::Level::Note, {}, {}, {}}, base::UnitSystem::Us),
               base::InternalError);
}

TEST(Notice, SaysWhichWayStandardAirIsWrong) {
  Notice n{"density-corrected",
           Notice::Level::Note,
           {{"density-used", base::Kind::Density, 1.2},
            {"density-of-day", base::Kind::Density, 0.95},
            {"speed-ratio", base::Kind::Ratio, 1.1239}},
           {},
           "x"};
  EXPECT_NE(say(n, base::UnitSystem::Us).find("11.0 % too low"), std::string::npos);
  n.quantities[2].value = 0.95;
  EXPECT_NE(say(n, base::UnitSystem::Us).find("too high"), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::field
