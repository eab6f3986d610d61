// Solved invented shops for the tests of judging.
#pragma once

#include "catalogue/catalogue.h"
#include "judge/assessment.h"
#include "support/projects.h"

namespace kerfdraft::tests {

inline const catalogue::Catalogue& shippedTables() {
  static const catalogue::Catalogue shipped = catalogue::Catalogue::shipped().value();
  return shipped;
}

inline judge::Assessment solved(const shop::Project& project) {
  auto assessment = judge::assess(project, shippedTables());
  base::check(assessment.has_value(), assessment ? "" : assessment.error().text().c_str());
  return std::move(*assessment);
}

/// The two-branch tree with everything that numbers can depend on: dust, a body with gaps, a tight gate, a
/// half-open one, a hose, a separator and a filter.
inline shop::Project shopWithEverything() {
  using support::given;
  using support::length;
  using support::ratio;
  support::TwoBranchTree shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  b.machineOf(shop.main_port).openings = given<base::Area>("200 cm2");
  b.machineOf(shop.main_port).waste = given<base::MassFlow>("1.5 kg/min");
  b.machineOf(shop.branch_port).waste = given<base::MassFlow>("0.3 kg/min");
  shop::Duct& branch = b.ductOf(shop.branch);
  branch.corners[0].leg = b.hose("100 mm");
  branch.gates[0].slot = shop::GateSlot::None;
  shop::Separator cyclone;
  cyclone.id = b.id();
  cyclone.label = "cyclone";
  cyclone.kind = "cyclone";
  cyclone.heads = ratio("3");
  b.collectorOf(shop.collector).separators.push_back(cyclone);
  shop::Filter filter;
  filter.id = b.id();
  filter.label = "bag";
  filter.area = given<base::Area>("6 m2");
  b.collectorOf(shop.collector).filters.push_back(filter);
  b.collectorOf(shop.collector).outlet_bore = length("160 mm");
  b.collectorOf(shop.collector).rating.basis = shop::RatingBasis::StaticAtInlet;
  b.collectorOf(shop.collector).rating.test_bore = length("160 mm");
  b.collectorOf(shop.collector).rating.speed = given<base::RotationalSpeed>("2900 rpm");
  b.collectorOf(shop.collector).motor.speed = given<base::RotationalSpeed>("2700 rpm");
  b.project.states[0].gates[1].travel = ratio("40 %");
  b.project.states[1].filter = shop::FilterState::Due;
  b.project.air.altitude = length("1900 m");
  return b.project;
}

}  // namespace kerfdraft::tests
