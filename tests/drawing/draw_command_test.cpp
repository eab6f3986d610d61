// kerfdraft draw: what it writes and what it refuses.
#include "cli/draw.h"

#include <gtest/gtest.h>

#include <sstream>

namespace kerfdraft::cli {
namespace {

struct Drawn {
  int code = 0;
  std::string out;
  std::string err;
};

Drawn draw(DrawOptions options) {
  if (options.project.empty()) {
    options.project = KERFDRAFT_SOURCE_DIR "/examples/two-car-garage.json";
  }
  options.common.date = "2026-01-15";
  std::ostringstream out;
  std::ostringstream err;
  Drawn drawn;
  drawn.code = runDraw(options, out, err);
  drawn.out = out.str();
  drawn.err = err.str();
  return drawn;
}

TEST(DrawCommand, EveryKindOfPictureIsWritten) {
  for (const DrawWhat what :
       {DrawWhat::Plan, DrawWhat::Isometric, DrawWhat::Fan, DrawWhat::Pressure, DrawWhat::Speed}) {
    DrawOptions options;
    options.what = what;
    const Drawn drawn = draw(options);
    EXPECT_EQ(drawn.code, 0) << drawn.err;
    EXPECT_TRUE(drawn.out.starts_with("<svg"));
    EXPECT_TRUE(drawn.out.ends_with("</svg>\n"));
    EXPECT_NE(drawn.out.find("2026-01-15"), std::string::npos);
  }
}

TEST(DrawCommand, UnitsAndStateAreThoseAskedFor) {
  DrawOptions options;
  options.state = "planer alone";
  EXPECT_NE(draw(options).out.find("Plan: Planer alone"), std::string::npos);
  EXPECT_NE(draw(options).out.find(" cfm"), std::string::npos);
  options.common.units = base::UnitSystem::Metric;
  const std::string metric = draw(options).out;
  EXPECT_NE(metric.find(" m³/h"), std::string::npos);
  EXPECT_EQ(metric.find(" cfm"), std::string::npos);
}

TEST(DrawCommand, APlainPlanHoldsNoResults) {
  DrawOptions options;
  options.plain = true;
  const std::string svg = draw(options).out;
  EXPECT_EQ(svg.find(" cfm"), std::string::npos);
  EXPECT_EQ(svg.find("predicted"), std::string::npos);
  EXPECT_NE(svg.find("Cabinet saw"), std::string::npos);
}

TEST(DrawCommand, RefusesWhatIsNotThere) {
  const auto refused = [](DrawOptions options, const char* words) {
    const Drawn drawn = draw(options);
    EXPECT_EQ(drawn.code, 2);
    EXPECT_TRUE(drawn.out.empty());
    EXPECT_NE(drawn.err.find(words), std::string::npos) << drawn.err;
  };
  DrawOptions state;
  state.state = "no such";
  refused(state, "there is no state \"no such\"");
  DrawOptions paper;
  paper.paper = "napkin";
  refused(paper, "\"napkin\" is no paper");
  DrawOptions port;
  port.what = DrawWhat::Pressure;
  port.port = "T99";
  refused(port, "no port is called \"T99\"");
  DrawOptions collector;
  collector.what = DrawWhat::Fan;
  collector.fan = "C9";
  refused(collector, "no collector is called \"C9\"");
  DrawOptions file;
  file.project = "/nowhere/shop.json";
  refused(file, "/nowhere/shop.json");
}

}  // namespace
}  // namespace kerfdraft::cli
