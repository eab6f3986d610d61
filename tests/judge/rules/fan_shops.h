// Invented shops for the tests of rules about fans, filters and bins.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "judge/rule_stage.h"
#include "support/projects.h"

namespace kerfdraft::tests {

using support::at;
using support::given;
using support::length;
using support::OneMachine;
using support::oneMachine;
using support::ratio;
using support::TwoBranchTree;
using support::twoBranchTree;

inline shop::Collector& unitOf(OneMachine& shop) {
  return shop.builder.collectorOf(shop.collector);
}

/// Points of a curve, "m3/h" against "Pa".
inline void setCurve(shop::Collector& unit, const std::vector<std::pair<double, double>>& points) {
  unit.rating.points.clear();
  for (const auto& [flow_m3_h, pressure_pa] : points) {
    shop::CurvePoint point;
    point.flow = given<base::VolumeFlow>(std::to_string(flow_m3_h) + " m3/h");
    point.pressure = given<base::Pressure>(std::to_string(pressure_pa) + " Pa");
    unit.rating.points.push_back(point);
  }
}

inline void setFloor(OneMachine& shop, double flow_m3_h) {
  shop.builder.port(shop.port).floor = given<base::VolumeFlow>(std::to_string(flow_m3_h) + " m3/h");
}

/// A bag in the open, with drops at 600 m3/h where they are given.
inline shop::Filter& addFilter(support::ProjectBuilder& builder, base::Id collector) {
  shop::Filter filter;
  filter.id = builder.id();
  filter.label = "F1";
  filter.area = given<base::Area>("6 m2");
  const auto point = [](const std::string& loss) {
    return shop::FilterPoint{given<base::VolumeFlow>("600 m3/h"), given<base::Pressure>(loss)};
  };
  filter.clean = point("100 Pa");
  filter.seasoned = point("300 Pa");
  filter.due = point("900 Pa");
  shop::Collector& unit = builder.collectorOf(collector);
  unit.filters.push_back(filter);
  return unit.filters.back();
}

/// Flow at the only port of the only state [m3/s].
inline double flowAtPort(const RuleStage& stage, std::size_t state = 0, std::size_t port = 0) {
  return stage.evidence().state(state).solution.ports[port].flow_m3_s;
}

inline double perHour(double flow_m3_s) {
  return flow_m3_s * 3600;
}

/// Bands of one width for every port, run and fan of every state.
inline std::vector<judge::StateBands> evenBands(const RuleStage& stage, double low, double high) {
  const pieces::Pieces& drawing = stage.evidence().pieces();
  judge::StateBands bands;
  bands.run_speed.assign(drawing.runs.size(), {low, high});
  bands.port_flow.assign(drawing.ports.size(), {low, high});
  bands.fan_flow.assign(drawing.fans.size(), {low, high});
  return std::vector<judge::StateBands>(stage.assessment().states.size(), bands);
}

}  // namespace kerfdraft::tests
