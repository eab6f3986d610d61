// Adds up from the ports to the fan: runs in the order of the air, each junction when all its open inlets
// are known, then the discharge from free air back to the fan.
#include "hand/hand_sheet.h"

#include <cmath>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "hand/piece_rows.h"
#include "physics/air.h"
#include "physics/fan.h"

namespace kerfdraft::hand {

namespace {

using base::ErrorCode;
using base::fail;
using pieces::NodeKind;

constexpr double kDegree_rad = 3.14159265358979323846 / 180;

/// The filling in of one sheet.
class Filling {
 public:
  Filling(const pieces::Pieces& drawing, physics::Column entries, Tree tree, SheetAir air, HandSheet sheet)
      : drawing_(drawing),
        entries_(entries),
        tree_(std::move(tree)),
        air_(air),
        sheet_(std::move(sheet)),
        done_(drawing.runs.size(), kNone),
        carried_(drawing.runs.size(), 0.0) {}

  HandSheet fill() {
    for (const std::size_t run : tree_.suction) {
      suctionRun(run);
    }
    for (HandRun& run : sheet_.suction) {
      run.carried_flow_m3_s = carried_[run.run];
    }
    fanInlet();
    discharge();
    fanDemand();
    return std::move(sheet_);
  }

 private:
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

  HandRun& done(std::size_t run) { return sheet_.suction[done_[run]]; }

  /// Open runs that end at a node, in the drawing's order.
  std::vector<std::size_t> inletsOf(std::size_t node) const {
    std::vector<std::size_t> inlets;
    for (std::size_t i = 0; i < drawing_.runs.size(); ++i) {
      if (tree_.flow_m3_s[i] > 0 && drawing_.runs[i].to == node && done_[i] != kNone) {
        inlets.push_back(i);
      }
    }
    return inlets;
  }

  void append(HandRun& run, SheetRow row, double& total_pa) {
    total_pa -= row.loss_pa;
    row.total_pa = total_pa;
    row.static_pa = row.bore_m > 0 ? total_pa - row.velocity_pressure_pa : total_pa;
    row.running_loss_pa = -total_pa;
    run.rows.push_back(std::move(row));
  }

  /// Where the run begins: free air, a body, a joint, or the mixing of a junction. Returns the total there.
  double begin(std::size_t index, HandRun& run) {
    const pieces::Run& drawn = drawing_.runs[index];
    const pieces::Node& start = drawing_.nodes[drawn.from];
    double total_pa = 0;
    if (start.kind == NodeKind::Body) {
      SheetRow row = bodyRow(air_, drawing_, drawn.from, bodyFlow(drawn.from));
      if (row.loss_pa > 0) {
        row.run = drawn.label;
        append(run, std::move(row), total_pa);
      }
      run.computed_flow_m3_s = tree_.flow_m3_s[index];
      return total_pa;
    }
    const std::vector<std::size_t> inlets = inletsOf(drawn.from);
    if (inlets.empty()) {
      run.computed_flow_m3_s = tree_.flow_m3_s[index];
      return total_pa;
    }
    if (start.kind == NodeKind::Junction) {
      return mix(index, inlets, run);
    }
    run.computed_flow_m3_s = carried_[inlets.front()];
    return done(inlets.front()).total_end_pa;
  }

  /// Flow through a body's gaps: all its open ports share them.
  double bodyFlow(std::size_t body) const {
    double flow_m3_s = 0;
    for (std::size_t i = 0; i < drawing_.runs.size(); ++i) {
      if (drawing_.runs[i].from == body) {
        flow_m3_s += tree_.flow_m3_s[i];
      }
    }
    return flow_m3_s;
  }

  void suctionRun(std::size_t index) {
    const pieces::Run& drawn = drawing_.runs[index];
    HandRun run;
    run.run = index;
    run.label = drawn.label;
    double total_pa = begin(index, run);
    carried_[index] = run.computed_flow_m3_s;
    for (const pieces::Piece& piece : drawn.pieces) {
      append(run, rowOf(air_, drawing_, drawn, piece, run.computed_flow_m3_s), total_pa);
    }
    if (drawing_.nodes[drawn.to].kind == NodeKind::Junction) {
      branchEntryRow(index, run, total_pa);
    }
    run.total_end_pa = total_pa;
    run.static_end_pa = total_pa - velocityPressureOf(air_, run.computed_flow_m3_s, drawn.end_bore_m);
    done_[index] = sheet_.suction.size();
    sheet_.suction.push_back(std::move(run));
  }

  const pieces::Junction* junctionAt(std::size_t node) const {
    for (const pieces::Junction& junction : drawing_.junctions) {
      if (junction.node == node) {
        return &junction;
      }
    }
    return nullptr;
  }

  /// Angle at which a run comes into a junction.
  static double angleOf(const pieces::Junction& junction, std::size_t run) {
    for (std::size_t leg = 0; leg < junction.legs.size(); ++leg) {
      if (junction.legs[leg].run == run && junction.legs[leg].at_end) {
        return junction.angle_rad[leg];
      }
    }
    return 0;
  }

  /// The practice factor of the entry at a run's end, on the run's own velocity pressure.
  void branchEntryRow(std::size_t index, HandRun& run, double& total_pa) {
    const pieces::Run& drawn = drawing_.runs[index];
    const pieces::Junction* junction = junctionAt(drawn.to);
    base::check(junction != nullptr, "a junction node without its junction");
    const double angle_rad = angleOf(*junction, index);
    const physics::Reading factor = branchEntry(entries_, angle_rad);
    if (factor.value <= 0) {
      return;
    }
    SheetRow row;
    row.key = drawing_.nodes[drawn.to].key;
    row.run = drawn.label;
    row.label = fmt::format("branch entry {:.0f}°", angle_rad / kDegree_rad);
    row.flow_m3_s = run.computed_flow_m3_s;
    row.bore_m = drawn.end_bore_m;
    row.angle_rad = angle_rad;
    row.speed_m_s = run.computed_flow_m3_s / physics::roundArea(drawn.end_bore_m);
    row.density_kg_m3 = air_.density_factor * physics::kStandardDensity_kg_m3;
    row.velocity_pressure_pa = velocityPressureOf(air_, run.computed_flow_m3_s, drawn.end_bore_m);
    row.local_coefficient = factor.value;
    row.coefficient = factor.value;
    row.loss_pa = factor.value * row.velocity_pressure_pa;
    row.source = {"practice factor by angle, on the branch's velocity pressure",
                  std::string(kBranchEntry.source), kBranchEntry.status};
    if (factor.clamped) {
      row.remark = "the practice table ends at 90°; its last factor is too low for this angle";
    }
    append(run, std::move(row), total_pa);
  }

  BalanceLeg legOf(const pieces::Junction& junction, std::size_t run) {
    BalanceLeg leg;
    leg.run = run;
    leg.label = drawing_.runs[run].label;
    leg.angle_rad = angleOf(junction, run);
    leg.suction_pa = -done(run).static_end_pa;
    leg.flow_m3_s = carried_[run];
    leg.corrected_flow_m3_s = leg.flow_m3_s;
    return leg;
  }

  /// Settles one inlet against the governing suction.
  void settle(BalanceLeg& leg, double governing_pa, bool governs) {
    leg.ratio = balanceRatio(governing_pa, leg.suction_pa);
    const double vp_pa = velocityPressureOf(air_, leg.flow_m3_s, drawing_.runs[leg.run].end_bore_m);
    if (sheet_.method.balancing == Balancing::ByGates) {
      leg.gate_coefficient = governs ? 0 : balancingGate(governing_pa, leg.suction_pa, vp_pa);
    } else {
      leg.verdict = judgeBalance(leg.ratio);
      if (leg.verdict == Verdict::CorrectFlow) {
        leg.corrected_flow_m3_s = balancedFlow(leg.flow_m3_s, governing_pa, leg.suction_pa);
        raise(leg.run, leg.corrected_flow_m3_s / leg.flow_m3_s);
      }
    }
    leg.velocity_pressure_pa =
        velocityPressureOf(air_, leg.corrected_flow_m3_s, drawing_.runs[leg.run].end_bore_m);
  }

  /// Gives a branch and everything that feeds it more air.
  void raise(std::size_t run, double factor) {
    carried_[run] *= factor;
    for (const std::size_t feeder : inletsOf(drawing_.runs[run].from)) {
      raise(feeder, factor);
    }
  }

  /// Balances the inlets of a junction and starts the main behind it. Returns the total pressure there.
  double mix(std::size_t index, const std::vector<std::size_t>& inlets, HandRun& run) {
    const pieces::Run& drawn = drawing_.runs[index];
    const pieces::Junction* junction = junctionAt(drawn.from);
    base::check(junction != nullptr, "a junction node without its junction");
    JunctionBalance balance;
    balance.junction = static_cast<std::size_t>(junction - drawing_.junctions.data());
    balance.label = drawing_.nodes[drawn.from].label;
    for (const std::size_t inlet : inlets) {
      balance.legs.push_back(legOf(*junction, inlet));
      if (balance.legs.back().suction_pa > balance.legs[balance.governing].suction_pa) {
        balance.governing = balance.legs.size() - 1;
      }
    }
    const double governing_pa = balance.legs[balance.governing].suction_pa;
    double flow_m3_s = 0;
    for (BalanceLeg& leg : balance.legs) {
      settle(leg, governing_pa, &leg == &balance.legs[balance.governing]);
      balance.redesign = balance.redesign || leg.verdict == Verdict::Redesign;
      balance.resultant_pa = resultantVelocityPressure(flow_m3_s, balance.resultant_pa,
                                                       leg.corrected_flow_m3_s, leg.velocity_pressure_pa);
      flow_m3_s += leg.corrected_flow_m3_s;
    }
    run.computed_flow_m3_s = flow_m3_s;
    balance.main_pa = velocityPressureOf(air_, flow_m3_s, drawn.start_bore_m);
    balance.acceleration_pa = accelerationPressure(balance.main_pa, balance.resultant_pa);
    balance.suction_pa = governing_pa + balance.acceleration_pa;
    sheet_.redesign = sheet_.redesign || balance.redesign;
    const double total_pa = -balance.suction_pa + balance.main_pa;
    run.rows.push_back(mixingRow(drawn, balance, flow_m3_s, total_pa));
    sheet_.junctions.push_back(std::move(balance));
    return total_pa;
  }

  /// The line of a junction: its loss is what the total pressure of the governing branch gives up.
  SheetRow mixingRow(const pieces::Run& drawn, const JunctionBalance& balance, double flow_m3_s,
                     double total_pa) {
    SheetRow row;
    row.key = drawing_.nodes[drawn.from].key;
    row.run = drawn.label;
    row.label = balance.legs.size() == 1 ? "from " + balance.legs.front().label : "mixing, " + balance.label;
    row.flow_m3_s = flow_m3_s;
    row.bore_m = drawn.start_bore_m;
    row.speed_m_s = flow_m3_s / physics::roundArea(drawn.start_bore_m);
    row.density_kg_m3 = air_.density_factor * physics::kStandardDensity_kg_m3;
    row.velocity_pressure_pa = balance.main_pa;
    row.loss_pa = done(balance.legs[balance.governing].run).total_end_pa - total_pa;
    row.coefficient = row.loss_pa / row.velocity_pressure_pa;
    row.local_coefficient = row.coefficient;
    row.running_loss_pa = -total_pa;
    row.total_pa = total_pa;
    row.static_pa = total_pa - row.velocity_pressure_pa;
    row.source = {std::string(kAcceleration.formula) + ", " + std::string(kResultantVelocityPressure.formula),
                  std::string(kAcceleration.source), kAcceleration.status};
    return row;
  }

  void fanInlet() {
    const pieces::Fan& fan = drawing_.fans[tree_.fan];
    const std::size_t last = tree_.suction.back();
    FanDemand& demand = sheet_.fan;
    demand.fan = tree_.fan;
    demand.label = fan.label;
    demand.flow_m3_s = carried_[last];
    demand.inlet_total_pa = done(last).total_end_pa;
    const double bore_m = fan.inlet_bore_m > 0 ? fan.inlet_bore_m : drawing_.runs[last].end_bore_m;
    demand.inlet_static_pa = demand.inlet_total_pa - velocityPressureOf(air_, demand.flow_m3_s, bore_m);
  }

  /// The discharge side ends at total pressure 0 in free air, so it is added up and then hung there.
  void discharge() {
    double lost_pa = 0;
    for (const std::size_t index : tree_.discharge) {
      const pieces::Run& drawn = drawing_.runs[index];
      HandRun run;
      run.run = index;
      run.label = drawn.label;
      run.computed_flow_m3_s = sheet_.fan.flow_m3_s;
      run.carried_flow_m3_s = sheet_.fan.flow_m3_s;
      for (const pieces::Piece& piece : drawn.pieces) {
        append(run, rowOf(air_, drawing_, drawn, piece, sheet_.fan.flow_m3_s), lost_pa);
      }
      run.total_end_pa = lost_pa;
      sheet_.discharge.push_back(std::move(run));
    }
    const double start_pa = -lost_pa;
    for (HandRun& run : sheet_.discharge) {
      for (SheetRow& row : run.rows) {
        row.total_pa += start_pa;
        row.static_pa += start_pa;
        row.running_loss_pa += -sheet_.fan.inlet_total_pa;
      }
      run.total_end_pa += start_pa;
      run.static_end_pa = run.total_end_pa -
                          velocityPressureOf(air_, run.computed_flow_m3_s, drawing_.runs[run.run].end_bore_m);
    }
    sheet_.fan.outlet_total_pa = start_pa;
  }

  void fanDemand() {
    const pieces::Fan& fan = drawing_.fans[tree_.fan];
    FanDemand& demand = sheet_.fan;
    demand.required_total_pa = demand.outlet_total_pa - demand.inlet_total_pa;
    demand.required_static_pa = demand.required_total_pa;
    if (fan.outlet_bore_m > 0) {
      demand.required_static_pa -= velocityPressureOf(air_, demand.flow_m3_s, fan.outlet_bore_m);
    }
    if (fan.rating) {
      const double density_kg_m3 = air_.density_factor * physics::kStandardDensity_kg_m3;
      const physics::CurveValue at =
          physics::fanRise(*fan.rating, demand.flow_m3_s, density_kg_m3, density_kg_m3);
      demand.available_total_pa = at.p_pa;
      demand.beyond_data = at.beyond_data;
    }
  }

  const pieces::Pieces& drawing_;
  physics::Column entries_;
  Tree tree_;
  SheetAir air_;
  HandSheet sheet_;
  std::vector<std::size_t> done_;  ///< by run: index in sheet_.suction
  std::vector<double> carried_;    ///< by run
};

}  // namespace

base::Result<HandSheet> handSheet(const pieces::Pieces& drawing, const catalogue::Catalogue& catalogue,
                                  std::span<const DesignFlow> flows, const Method& method) {
  const auto entries = catalogue.curve("branch_entry_k", "practice");
  if (!entries) {
    return tl::unexpected(entries.error());
  }
  const double df =
      method.density_factor.value_or(drawing.air.density_kg_m3 / physics::kStandardDensity_kg_m3);
  if (!(df >= 0.3 && df <= 1.5)) {
    return fail(ErrorCode::Range,
                fmt::format("The density factor is {}; it must lie between 0.3 and 1.5 (room density over "
                            "0.075 lb/ft³).",
                            df));
  }
  auto tree = openTree(drawing, flows);
  if (!tree) {
    return tl::unexpected(tree.error());
  }
  HandSheet sheet;
  sheet.method = method;
  sheet.density_factor = df;
  const SheetAir air{df, method.friction, static_cast<std::size_t>(method.filter)};
  return Filling(drawing, {entries->x, entries->y}, std::move(*tree), air, std::move(sheet)).fill();
}

}  // namespace kerfdraft::hand
