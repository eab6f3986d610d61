// Bodies and places of ports are in steps of a foot or of 0.3 m, so that coordinates are round in either
// system.
#include "pieces/from_catalogue.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace kerfdraft::pieces {
namespace {

using base::Given;
using base::Standing;
using base::UnitSystem;

constexpr double kFoot_m = 0.3048;
constexpr double kMetricStep_m = 0.3;
constexpr double kMachineWidth = 3;
constexpr double kMachineDepth = 2;
constexpr double kMachineHeight = 3;
constexpr double kPortHeight = 2;
constexpr int kCurvePoints = 8;

double steps(double count, UnitSystem units) {
  return count * (units == UnitSystem::Us ? kFoot_m : kMetricStep_m);
}

template <class Q>
Given<Q> typed(double si, std::string_view unit, double per_unit, Standing standing,
               std::string_view source) {
  base::Result<Given<Q>> made =
      Given<Q>::parse(fmt::format("{:.6g} {}", si / per_unit, unit), standing, source);
  base::check(made.has_value(), "a figure of the catalogue does not parse");
  return std::move(*made);
}

std::int64_t um(double metres) {
  return std::llround(metres * 1e6);
}

}  // namespace

Given<base::Length> lengthAsTyped(double length_m, UnitSystem units) {
  return units == UnitSystem::Us ? typed<base::Length>(length_m, "in", 0.0254, Standing::Assumed, {})
                                 : typed<base::Length>(length_m, "mm", 1e-3, Standing::Assumed, {});
}

Given<base::VolumeFlow> flowAsTyped(double flow_m3_s, UnitSystem units, Standing standing,
                                    std::string_view source) {
  return units == UnitSystem::Us
             ? typed<base::VolumeFlow>(flow_m3_s, "cfm", kFoot_m * kFoot_m * kFoot_m / 60, standing, source)
             : typed<base::VolumeFlow>(flow_m3_s, "m3/h", 1.0 / 3600, standing, source);
}

Given<base::Pressure> pressureAsTyped(double pressure_pa, UnitSystem units, Standing standing,
                                      std::string_view source) {
  return units == UnitSystem::Us ? typed<base::Pressure>(pressure_pa, "in w.g.", 249.08891, standing, source)
                                 : typed<base::Pressure>(pressure_pa, "Pa", 1, standing, source);
}

shop::Machine machineOfKind(const catalogue::MachineKind& kind, const catalogue::Requirement* asked,
                            UnitSystem units, base::IdSource& ids) {
  shop::Machine machine;
  machine.id = ids.next();
  machine.name = kind.name;
  machine.kind = kind.key;
  machine.chips = kind.chips;
  machine.width = lengthAsTyped(steps(kMachineWidth, units), units);
  machine.depth = lengthAsTyped(steps(kMachineDepth, units), units);
  machine.height = lengthAsTyped(steps(kMachineHeight, units), units);
  machine.turned = *Given<base::Angle>::parse("0 deg");
  if (asked != nullptr) {
    const std::string source = asked->origin.ref + ": " + asked->origin.source;
    if (asked->floor_flow_m3_s) {
      machine.floor = flowAsTyped(*asked->floor_flow_m3_s, units, Standing::Published, source);
    }
    if (asked->target_flow_m3_s) {
      machine.target = flowAsTyped(*asked->target_flow_m3_s, units, Standing::Published, source);
    }
  }
  const int count = std::max(kind.port_count, 1);
  for (int k = 0; k < count; ++k) {
    shop::Port port;
    port.id = ids.next();
    port.label = fmt::format("P{}", k + 1);
    const double share = (k + 1.0) / (count + 1.0) - 0.5;
    port.at = {um(share * steps(kMachineWidth, units)), -um(steps(kMachineDepth, units) / 2),
               um(steps(kPortHeight, units))};
    port.bore = lengthAsTyped(kind.port_bore_m, units);
    machine.ports.push_back(std::move(port));
  }
  return machine;
}

shop::Collector collectorOfFan(const catalogue::TestFan& fan, const Given<base::Length>& inlet_bore,
                               UnitSystem units, base::IdSource& ids) {
  shop::Collector unit;
  unit.id = ids.next();
  unit.name = fan.like;
  unit.inlet_bore = inlet_bore;
  unit.rating.basis = shop::RatingBasis::StaticAtInlet;
  unit.rating.fitted = shop::Fitted::Nothing;
  unit.rating.test_bore = inlet_bore;
  const std::string source = "invented: " + fan.origin.ref;
  for (int i = 0; i <= kCurvePoints; ++i) {
    const double share = static_cast<double>(i) / kCurvePoints;
    shop::CurvePoint p;
    p.flow = flowAsTyped(share * fan.free_flow_m3_s, units, Standing::Estimated, source);
    p.pressure = pressureAsTyped((1 - share * share) * fan.shutoff_pa, units, Standing::Estimated, source);
    unit.rating.points.push_back(std::move(p));
  }
  shop::Filter filter;
  filter.id = ids.next();
  filter.label = "F1";
  unit.filters.push_back(std::move(filter));
  return unit;
}

const catalogue::Requirement* firstAsked(const std::vector<catalogue::Requirement>& rows) {
  const auto at = std::find_if(rows.begin(), rows.end(), [](const catalogue::Requirement& row) {
    return row.floor_flow_m3_s || row.target_flow_m3_s;
  });
  return at == rows.end() ? nullptr : &*at;
}

}  // namespace kerfdraft::pieces
