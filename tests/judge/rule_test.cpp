// How sentences show numbers, and the list of rules.
#include "judge/rule.h"

#include <gtest/gtest.h>

#include <limits>
#include <set>

namespace kerfdraft::judge {
namespace {

using base::Kind;
using base::UnitSystem;

const Voice kUs(Reader::Owner, UnitSystem::Us);
const Voice kMetric(Reader::Owner, UnitSystem::Metric);

TEST(Voice, ShowsAtMostThreeSignificantDigits) {
  EXPECT_EQ(kUs.show(0.38345, Kind::VolumeFlow), "812 cfm");
  EXPECT_EQ(kUs.show(0.58254, Kind::VolumeFlow), "1230 cfm");
  EXPECT_EQ(kMetric.show(0.38345, Kind::VolumeFlow), "1380 m³/h");
  EXPECT_EQ(kUs.show(0.1524, Kind::Bore), "6 in");
  EXPECT_EQ(kMetric.show(0.1524, Kind::Bore), "152 mm");
  EXPECT_EQ(kUs.show(20.32, Kind::Speed), "4000 fpm");
  EXPECT_EQ(kMetric.show(20.32, Kind::Speed), "20.3 m/s");
  EXPECT_EQ(kUs.show(249.08891, Kind::Pressure), "1 in w.g.");
  EXPECT_EQ(kMetric.show(-1234.5, Kind::Pressure), "-1230 Pa");
  EXPECT_EQ(kMetric.show(0, Kind::Pressure), "0 Pa");
}

TEST(Voice, TakesAFinerUnitForLittle) {
  EXPECT_EQ(kUs.show(0.1524, Kind::Length), "6 in");
  EXPECT_EQ(kUs.show(3.048, Kind::Length), "10 ft");
  EXPECT_EQ(kMetric.show(0.25, Kind::Length), "250 mm");
  EXPECT_EQ(kMetric.show(0.002, Kind::Area), "20 cm²");
  EXPECT_EQ(kUs.show(0.00064516, Kind::Area), "1 in²");
  EXPECT_EQ(kMetric.show(750, Kind::Power), "750 W");
  EXPECT_EQ(kMetric.show(2200, Kind::Power), "2.2 kW");
  EXPECT_EQ(kMetric.show(0.005, Kind::MassFlow), "18 kg/h");
}

TEST(Voice, TellsTimeAsPeopleDo) {
  EXPECT_EQ(kUs.show(45, Kind::Time), "45 s");
  EXPECT_EQ(kUs.show(1500, Kind::Time), "25 min");
  EXPECT_EQ(kUs.show(5 * 3600, Kind::Time), "5 h");
  EXPECT_EQ(kUs.show(40 * 86400.0, Kind::Time), "40 days");
}

TEST(Voice, NeverPrintsWhatIsNoNumber) {
  EXPECT_EQ(kUs.show(std::numeric_limits<double>::quiet_NaN(), Kind::Speed), "(not computed)");
  EXPECT_EQ(kUs.show(std::numeric_limits<double>::infinity(), Kind::Speed), "(not computed)");
  EXPECT_EQ(kUs.percent(std::numeric_limits<double>::quiet_NaN()), "(not computed)");
}

TEST(Voice, PercentHasNoMoreDigitsThanItDeserves) {
  EXPECT_EQ(kUs.percent(0.62), "62 %");
  EXPECT_EQ(kUs.percent(0.045), "4.5 %");
  EXPECT_EQ(kUs.percent(1.254), "125 %");
  EXPECT_EQ(kUs.percent(0), "0 %");
}

TEST(Rules, HaveKeysOfTheirOwnANameAndBothFunctions) {
  std::set<std::string_view> keys;
  for (const Rule* rule : allRules()) {
    EXPECT_TRUE(keys.insert(rule->key).second) << rule->key;
    EXPECT_FALSE(rule->name.empty()) << rule->key;
    EXPECT_NE(rule->look, nullptr) << rule->key;
    EXPECT_NE(rule->tell, nullptr) << rule->key;
    EXPECT_EQ(findRule(rule->key), rule);
  }
  EXPECT_EQ(findRule("no-such-rule"), nullptr);
}

}  // namespace
}  // namespace kerfdraft::judge
