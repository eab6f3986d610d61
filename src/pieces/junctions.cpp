// Junction geometry from the directions of the legs.
#include "pieces/junctions.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "physics/junction.h"
#include "physics/velocity_pressure.h"
#include "pieces/elbow.h"
#include "pieces/units.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;
using Direction = std::array<double, 3>;

struct Leg {
  JunctionLeg leg;
  Direction outward{};
  double bore_m = 0;
  bool leaves = false;  ///< as drawn
  bool of_root = false;
  bool of_unit = false;
};

std::string unitLabel(const Draft& draft, std::size_t collector) {
  const shop::Collector& unit = draft.project.collectors[collector];
  return named(unit.label, unit.name);
}

/// A unit's inlet is not drawn with a direction: it looks along the duct that joins it, or between several.
Direction unitDirection(const std::vector<Leg>& legs) {
  Direction sum{};
  for (const Leg& leg : legs) {
    if (leg.of_unit) {
      for (std::size_t i = 0; i < 3; ++i) {
        sum[i] -= leg.outward[i];
      }
    }
  }
  const double size = std::hypot(sum[0], sum[1], sum[2]);
  if (size > 1e-6) {
    return {sum[0] / size, sum[1] / size, sum[2] / size};
  }
  // Head to head: square to both, in the plan where that can be.
  const Direction& d = legs.front().outward;
  const double plan = std::hypot(d[0], d[1]);
  return plan > 1e-6 ? Direction{-d[1] / plan, d[0] / plan, 0.0} : Direction{1.0, 0.0, 0.0};
}

std::size_t nominalOutlet(const std::vector<Leg>& legs) {
  std::size_t best = kNowhere;
  const auto rank = [](const Leg& leg) {
    return std::pair{(leg.leaves ? 2 : 0) + (leg.leaves && leg.of_root ? 1 : 0), leg.bore_m};
  };
  for (std::size_t i = 0; i < legs.size(); ++i) {
    if (best == kNowhere || rank(legs[i]) > rank(legs[best])) {
      best = i;
    }
  }
  return best;
}

Result<void> addJunction(Draft& draft, const Drawing& drawing, const Meeting& meeting, const RunsOfLegs& runs,
                         const physics::Column& mitre) {
  std::vector<Leg> legs;
  for (const MeetingLeg& at : meeting.legs) {
    const DrawnDuct& duct = drawing.ducts[at.duct];
    Leg leg;
    leg.leg = {runs.run[at.duct][at.leg], at.arrives};
    leg.outward = outward(duct, at.leg, at.arrives);
    leg.bore_m = duct.legs[at.leg].bore_m;
    leg.leaves = !at.arrives;
    leg.of_root = at.duct == meeting.root_duct;
    const bool last_leg = at.arrives ? at.leg + 1 == duct.legs.size() : at.leg == 0;
    const shop::DuctEnd& end = at.arrives ? duct.duct->to : duct.duct->from;
    leg.of_unit = last_leg && (std::holds_alternative<shop::CollectorInlet>(end) ||
                               std::holds_alternative<shop::CollectorOutlet>(end));
    legs.push_back(leg);
  }
  if (meeting.inlet_of || meeting.outlet_of) {
    Leg unit;
    const bool inlet = meeting.inlet_of.has_value();
    const std::size_t joint =
        inlet ? draft.unit_nodes[*meeting.inlet_of].inlet : draft.unit_nodes[*meeting.outlet_of].outlet;
    for (std::size_t r = 0; r < draft.out.runs.size(); ++r) {
      const Run& run = draft.out.runs[r];
      if (inlet ? run.from == meeting.node && run.to == joint : run.to == meeting.node && run.from == joint) {
        unit.leg = {r, !inlet};
        unit.bore_m = inlet ? run.start_bore_m : run.end_bore_m;
      }
    }
    unit.outward = unitDirection(legs);
    unit.leaves = inlet;
    unit.of_root = true;
    legs.push_back(unit);
  }
  const std::size_t n = legs.size();
  std::vector<double> areas;
  std::vector<Direction> directions;
  for (const Leg& leg : legs) {
    areas.push_back(physics::roundArea(leg.bore_m));
    directions.push_back(leg.outward);
  }
  std::vector<double> turns(n * n);
  const std::string label = draft.out.nodes[meeting.node].label;
  if (n > physics::kMaxLegs) {
    return fail(ErrorCode::Unsupported,
                fmt::format("{} legs meet here; at most {} can", n, physics::kMaxLegs), label);
  }
  physics::junctionTurns(directions, turns);
  Junction junction;
  junction.node = meeting.node;
  junction.nominal_outlet = nominalOutlet(legs);
  const auto geometry = physics::junctionGeometry(areas, turns, junction.nominal_outlet, mitre, label);
  if (!geometry) {
    return Failure(geometry.error());
  }
  junction.cosine.resize(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    junction.legs.push_back(legs[i].leg);
    junction.angle_rad.push_back(i == junction.nominal_outlet ? 0.0 : turns[i * n + junction.nominal_outlet]);
    for (std::size_t o = 0; o < n; ++o) {
      junction.cosine[i * n + o] = geometry->cosine[i][o];
    }
  }
  junction.source = {std::string(physics::kEffectiveCosine.formula),
                     std::string(physics::kEffectiveCosine.source), physics::kEffectiveCosine.status};
  draft.out.junctions.push_back(std::move(junction));
  return {};
}

}  // namespace

void addMeetingNodes(Draft& draft, Drawing& drawing) {
  for (Meeting& meeting : drawing.meetings) {
    base::check(!meeting.inlet_of || !meeting.outlet_of, "a meeting is at two ends of a unit");
    const DrawnDuct& root = drawing.ducts[meeting.root_duct];
    const Id corner = root.duct->corners[meeting.root_corner].id;
    if (meeting.inlet_of || meeting.outlet_of) {
      const bool inlet = meeting.inlet_of.has_value();
      const std::size_t unit = inlet ? *meeting.inlet_of : *meeting.outlet_of;
      const shop::Collector& collector = draft.project.collectors[unit];
      const std::size_t joint = inlet ? draft.unit_nodes[unit].inlet : draft.unit_nodes[unit].outlet;
      if (meeting.legs.size() == 1) {
        meeting.node = joint;
        continue;
      }
      meeting.node =
          draft.addNode(NodeKind::Junction, {Role::Junction, collector.id, {}},
                        fmt::format("{} {}", unitLabel(draft, unit), inlet ? "inlet Y" : "outlet Y"));
      Run run;
      run.key = inlet ? PieceKey{Role::Run, collector.id, {}} : PieceKey{Role::Run, {}, collector.id};
      run.label = fmt::format("{}: {}", unitLabel(draft, unit), inlet ? "inlet" : "outlet");
      run.from = inlet ? meeting.node : joint;
      run.to = inlet ? joint : meeting.node;
      run.room = draft.roomNode(collector.room);
      run.start_bore_m = run.end_bore_m =
          inlet || !collector.outlet_bore ? inletBore(collector) : collector.outlet_bore->si();
      draft.addRun(std::move(run), {});
      continue;
    }
    const bool joint = meeting.legs.size() == 2;
    meeting.node = draft.addNode(
        joint ? NodeKind::Joint : NodeKind::Junction, {Role::Junction, corner, {}},
        fmt::format("{} {}", joint ? "joint" : "junction", cornerPlace(draft, root, meeting.root_corner)));
  }
}

Result<void> addJunctions(Draft& draft, const Drawing& drawing, const RunsOfLegs& runs) {
  const auto mitre = mitreColumn(draft.catalogue);
  if (!mitre) {
    return Failure(mitre.error());
  }
  for (const Meeting& meeting : drawing.meetings) {
    if (draft.out.nodes[meeting.node].kind != NodeKind::Junction) {
      continue;
    }
    if (auto added = addJunction(draft, drawing, meeting, runs, *mitre); !added) {
      return added;
    }
  }
  return {};
}

}  // namespace kerfdraft::pieces
