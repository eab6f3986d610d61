// The reading and traverse commands: the answer first, exit codes, and a sentence for every slip.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/reading.h"
#include "cli/traverse.h"

namespace kerfdraft::cli {
namespace {

struct Ran {
  int code = 0;
  std::string out;
  std::string err;
  std::string first() const { return out.substr(0, out.find('\n')); }
};

template <class Options>
Ran run(const Options& options) {
  std::ostringstream out;
  std::ostringstream err;
  Ran ran;
  if constexpr (std::is_same_v<Options, ReadingOptions>) {
    ran.code = runReading(options, out, err);
  } else {
    ran.code = runTraverse(options, out, err);
  }
  ran.out = out.str();
  ran.err = err.str();
  return ran;
}

ReadingOptions uTubeOptions() {
  ReadingOptions o;
  o.readings = {"1.6 in"};
  o.legs = "both";
  o.place = "mean";
  o.duct.bore = "4 in";
  return o;
}

TraverseOptions sixPoints() {
  TraverseOptions o;
  o.duct.bore = "6 in";
  o.readings = {"0.62 0.80 0.95 0.97 0.83 0.60 in w.g.", "0.58, 0.78, 0.93, 0.96, 0.82, 0.63 in w.g."};
  o.instrument.instrument = "digital";
  o.instrument.resolution = "1 Pa";
  o.upstream = "5 ft";
  o.downstream = "1 ft";
  return o;
}

TEST(ReadingCommand, AnswersFirst) {
  const Ran ran = run(uTubeOptions());
  EXPECT_EQ(ran.code, 0);
  EXPECT_TRUE(ran.err.empty());
  EXPECT_NE(ran.first().find("cfm"), std::string::npos);
  EXPECT_NE(ran.first().find("±"), std::string::npos);
  EXPECT_NE(ran.out.find("standard air assumed"), std::string::npos);
  EXPECT_NE(ran.out.find("Uncertainty budget of the flow"), std::string::npos);
}

TEST(ReadingCommand, JsonHoldsTheTradeRow) {
  ReadingOptions o = uTubeOptions();
  o.json = true;
  const auto document = nlohmann::json::parse(run(o).out);
  // Common practice: 5065 fpm and 442 cfm.
  EXPECT_NEAR(document["speed_m_s"].get<double>() / 0.00508, 5066, 6);
  EXPECT_NEAR(document["flow_m3_s"].get<double>() / 4.719474e-4, 442.1, 0.5);
  double squares = 0;
  for (const auto& line : document["budget"]["flow"]) {
    squares += std::pow(line["contribution"].get<double>(), 2);
  }
  EXPECT_NEAR(2 * std::sqrt(squares), document["flow_expanded_m3_s"].get<double>(), 1e-12);
  EXPECT_EQ(document["kind"], "reading");
}

TEST(ReadingCommand, UnitsFollowTheTypingUnlessAsked) {
  ReadingOptions o = uTubeOptions();
  o.duct.bore = "100 mm";
  EXPECT_NE(run(o).first().find("m³/h"), std::string::npos);
  o.common.units = base::UnitSystem::Us;
  EXPECT_NE(run(o).first().find("cfm"), std::string::npos);
}

TEST(ReadingCommand, EveryInstrumentRuns) {
  ReadingOptions o = uTubeOptions();
  o.legs.clear();
  o.instrument.instrument = "inclined";
  o.readings = {"12 in"};
  o.instrument.slope = "1:10";
  o.instrument.liquid = "0.826";
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o.instrument = {};
  o.instrument.instrument = "inclined";
  o.readings = {"1.1 in w.g."};
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o.instrument.instrument = "reservoir";
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o.instrument.instrument = "digital";
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o.instrument.probe = "type-s";
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o.instrument.probe = "hood";
  o.instrument.entry_loss = "0.93";
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o.instrument = {};
  o.instrument.instrument = "vane";
  o.readings = {"4200 fpm", "4300 fpm", "4150 fpm"};
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o.instrument.instrument = "hot-wire";
  o.air.altitude = "1900 m";
  EXPECT_EQ(run(o).code, 0) << run(o).err;
  o = uTubeOptions();
  o.legs = "each";
  o.readings = {"0.8 in"};
  o.other_leg = {"0.8 in"};
  EXPECT_EQ(run(o).code, 0) << run(o).err;
}

TEST(ReadingCommand, AltitudeIsSaid) {
  ReadingOptions o = uTubeOptions();
  o.air.altitude = "1900 m";
  o.air.temperature = "20 °C";
  const Ran ran = run(o);
  EXPECT_NE(ran.out.find("too low"), std::string::npos) << ran.out;
  o.air.density = "0.075 lb/ft3";
  EXPECT_NE(run(o).out.find("Caution: The density"), std::string::npos) << run(o).out;
}

TEST(ReadingCommand, AClaimIsJudged) {
  ReadingOptions o = uTubeOptions();
  o.claimed = "312.6 cfm";
  EXPECT_NE(run(o).out.find("one leg of the U-tube"), std::string::npos) << run(o).out;
}

TEST(ReadingCommand, EverySlipGetsASentence) {
  const auto refused = [](auto&& set, std::string_view where) {
    ReadingOptions o = uTubeOptions();
    set(o);
    const Ran ran = run(o);
    EXPECT_EQ(ran.code, 2) << where;
    EXPECT_TRUE(ran.out.empty()) << ran.out;
    EXPECT_NE(ran.err.find(where), std::string::npos) << ran.err;
    EXPECT_GT(ran.err.size(), where.size() + 15) << ran.err;
  };
  refused([](ReadingOptions& o) { o.readings.clear(); }, "reading");
  refused([](ReadingOptions& o) { o.readings = {"1.6"}; }, "reading");
  refused([](ReadingOptions& o) { o.readings = {"nan in"}; }, "reading");
  refused([](ReadingOptions& o) { o.readings = {"-1 in"}; }, "swapped");
  refused([](ReadingOptions& o) { o.readings = {"1.6 cfm"}; }, "reading");
  refused([](ReadingOptions& o) { o.readings = {"1.6 in", "1.5 in w.g."}; }, "reading");
  refused([](ReadingOptions& o) { o.readings = {"160 in"}; }, "check the unit");
  refused([](ReadingOptions& o) { o.duct.bore = "-4 in"; }, "--bore");
  refused([](ReadingOptions& o) { o.duct.bore = "4"; }, "--bore");
  refused([](ReadingOptions& o) { o.duct.width = "4 in"; }, "--bore");
  refused([](ReadingOptions& o) { o.duct = {"", "4 in", "", ""}; }, "--height");
  refused([](ReadingOptions& o) { o.legs = "left"; }, "--legs");
  refused([](ReadingOptions& o) { o.legs = "each"; }, "--other-leg");
  refused([](ReadingOptions& o) { o.place = "top"; }, "--place");
  refused([](ReadingOptions& o) { o.instrument.instrument = "barometer"; }, "--instrument");
  refused([](ReadingOptions& o) { o.instrument.probe = "straw"; }, "--probe");
  refused([](ReadingOptions& o) { o.instrument.probe = "hood"; }, "--coefficient");
  refused([](ReadingOptions& o) { o.instrument.entry_loss = "0.5"; }, "--entry-loss");
  refused([](ReadingOptions& o) { o.instrument.slope = "1:10"; }, "--slope");
  refused([](ReadingOptions& o) { o.instrument.instrument = "inclined"; }, "--slope");
  refused([](ReadingOptions& o) { o.instrument.coefficient = "12"; }, "coefficient");
  refused([](ReadingOptions& o) { o.instrument.resolution = "1 Pa"; }, "--resolution");
  refused([](ReadingOptions& o) { o.instrument.graduation = "0 in"; }, "scale division");
  refused([](ReadingOptions& o) { o.air.altitude = "90 km"; }, "altitude");
  refused([](ReadingOptions& o) { o.air.temperature = "900 C"; }, "temperature");
  refused([](ReadingOptions& o) { o.air.barometer = "1013 hPa", o.air.altitude = "1900 m"; }, "sea level");
  refused([](ReadingOptions& o) { o.claimed = "12 in"; }, "--claimed");
  refused([](ReadingOptions& o) { o.duct = {}, o.claimed = "400 cfm"; }, "--claimed");
  refused([](ReadingOptions& o) { o.instrument.instrument = "digital", o.readings = {"300 Pa"}; }, "U-tube");
}

TEST(TraverseCommand, PlansMarksInInchesAndMillimetres) {
  TraverseOptions o;
  o.duct.bore = "4 in";
  const Ran us = run(o);
  EXPECT_EQ(us.code, 0) << us.err;
  EXPECT_NE(us.out.find("9/16 in"), std::string::npos) << us.out;
  EXPECT_NE(us.out.find("12 points"), std::string::npos);
  o.duct.bore = "100 mm";
  EXPECT_NE(run(o).out.find("13.5 mm"), std::string::npos) << run(o).out;
}

TEST(TraverseCommand, PlansRectanglesToo) {
  TraverseOptions o;
  o.duct.width = "12 in";
  o.duct.height = "8 in";
  const Ran ran = run(o);
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_NE(ran.out.find("25 points"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("Lines across the width"), std::string::npos);
}

TEST(TraverseCommand, ReadingsMakeAFlow) {
  const Ran ran = run(sixPoints());
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_NE(ran.first().find("cfm"), std::string::npos);
  EXPECT_NE(ran.out.find("speeds were averaged"), std::string::npos);
  TraverseOptions o = sixPoints();
  o.json = true;
  const auto document = nlohmann::json::parse(run(o).out);
  EXPECT_EQ(document["result"]["speeds_m_s"].size(), 2U);
  EXPECT_EQ(document["plan"]["lines"][0]["marks"].size(), 6U);
}

TEST(TraverseCommand, AFileGivesTheSameAsTheCommandLine) {
  const std::string path = (std::filesystem::temp_directory_path() / "kerfdraft_traverse_test.csv").string();
  std::ofstream(path) << "# invented\n0.62,0.80,0.95,0.97,0.83,0.60\n0.58,0.78,0.93,0.96,0.82,0.63\n";
  TraverseOptions o = sixPoints();
  o.readings.clear();
  o.readings_file = path;
  o.reading_unit = "in w.g.";
  EXPECT_EQ(run(o).out, run(sixPoints()).out) << run(o).err;
  std::ofstream(path) << "0.62,,0.95,0.97,0.83,0.60\n0.58,0.78,0.93,0.96,0.82,0.63\n";
  EXPECT_NE(run(o).out.find("missing (diameter 1 point 2)"), std::string::npos) << run(o).out << run(o).err;
  std::filesystem::remove(path);
  EXPECT_EQ(run(o).code, 2);
}

TEST(TraverseCommand, MissingAndNegativePointsAreSaid) {
  TraverseOptions o = sixPoints();
  o.readings[0] = "0.62 - 0.95 0.97 0.83 -0.02 in w.g.";
  const Ran ran = run(o);
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_NE(ran.out.find("1 of 12 points is missing"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("1 of 11 readings is negative"), std::string::npos) << ran.out;
}

TEST(TraverseCommand, EverySlipGetsASentence) {
  const auto refused = [](auto&& set, std::string_view where) {
    TraverseOptions o = sixPoints();
    set(o);
    const Ran ran = run(o);
    EXPECT_EQ(ran.code, 2) << where << ran.out;
    EXPECT_TRUE(ran.out.empty());
    EXPECT_NE(ran.err.find(where), std::string::npos) << ran.err;
  };
  refused([](TraverseOptions& o) { o.duct = {}; }, "--bore");
  refused([](TraverseOptions& o) { o.rule = "random"; }, "--rule");
  refused([](TraverseOptions& o) { o.points = -1; }, "--points");
  refused([](TraverseOptions& o) { o.points = 10; }, "asked for");
  refused([](TraverseOptions& o) { o.fraction = 3; }, "--fraction");
  refused([](TraverseOptions& o) { o.readings[1] = "0.6 0.7 in w.g."; }, "points");
  refused([](TraverseOptions& o) { o.readings[1] = "0.6 0.7"; }, "unit");
  refused([](TraverseOptions& o) { o.readings[1] = ""; }, "unit");
  refused([](TraverseOptions& o) { o.readings[1] = "in w.g."; }, "number");
  refused([](TraverseOptions& o) { o.readings[1] = "0.58 inf 0.93 0.96 0.82 0.63 in w.g."; }, "finite");
  refused([](TraverseOptions& o) { o.readings[1] = "0.58 x 0.93 0.96 0.82 0.63 in w.g."; }, "unit");
  refused([](TraverseOptions& o) { o.upstream = "-2 ft"; }, "straight run");
  refused([](TraverseOptions& o) { o.upstream = "2"; }, "--upstream");
  refused([](TraverseOptions& o) { o.legs = "one"; }, "--legs");
  refused([](TraverseOptions& o) { o.legs = "each"; }, "--legs");
  refused([](TraverseOptions& o) { o.readings_file = "/nonexistent"; }, "--readings-file");
  refused([](TraverseOptions& o) { o.stub = "12 ft"; }, "stub");
}

}  // namespace
}  // namespace kerfdraft::cli
