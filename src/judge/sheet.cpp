// Walks one path of a solution and writes a line for every gap, piece, junction and fan on it.
#include "judge/sheet.h"

#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "judge/margins.h"
#include "network/shown.h"
#include "physics/opening.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::judge {

namespace {

using base::ErrorCode;
using base::fail;
using pieces::NodeKind;

constexpr double kDegree_rad = 3.14159265358979323846 / 180;
constexpr std::size_t kNone = static_cast<std::size_t>(-1);

class Writing {
 public:
  Writing(const Assessment& assessment, std::size_t state)
      : drawing_(*assessment.pieces),
        solution_(assessment.states[state].solution),
        air_(network::ductAir(drawing_)) {
    sheet_.state = state;
    sheet_.state_name = assessment.states[state].name;
    sheet_.local_density = drawing_.local_density;
  }

  Sheet write(std::size_t run, std::string from, bool open) {
    sheet_.from = std::move(from);
    sheet_.open = open;
    sheet_.room_pa = solution_.node_pa[drawing_.runs[run].room];
    total_pa_ = solution_.runs[run].total_start_pa - sheet_.room_pa;
    start(run);
    std::vector<char> seen(drawing_.runs.size(), 0);
    std::size_t node = 0;
    while (true) {
      seen[run] = 1;
      writeRun(run);
      node = drawing_.runs[run].to;
      node = throughFans(node);
      if (ends(node)) {
        break;
      }
      const std::size_t next = nextRun(node);
      if (next == kNone || seen[next] != 0) {
        sheet_.remarks.push_back(next == kNone
                                     ? "the drawn air has no way on from " + drawing_.nodes[node].label
                                     : "the drawn air comes round to " + drawing_.runs[next].label);
        break;
      }
      writeMeeting(run, next);
      run = next;
    }
    sheet_.to = drawing_.nodes[node].label;
    sheet_.end_pa = solution_.node_pa[node] - sheet_.room_pa;
    sheet_.closure_pa = total_pa_ - sheet_.end_pa;
    return std::move(sheet_);
  }

 private:
  static bool freeAir(NodeKind kind) { return kind == NodeKind::Outdoors || kind == NodeKind::Room; }
  bool ends(std::size_t node) const {
    return freeAir(drawing_.nodes[node].kind) || drawing_.nodes[node].kind == NodeKind::Body;
  }

  double roomFlow(double flow_kg_s) const { return flow_kg_s / air_.room_density_kg_m3; }

  /// Adds a line whose loss is known; the total behind it follows.
  void add(SheetRow row) {
    total_pa_ -= row.loss_pa;
    if (row.key.role != pieces::Role::Fan && row.key.role != pieces::Role::Blower) {
      sheet_.lost_pa += row.loss_pa;
    }
    row.running_loss_pa = sheet_.lost_pa;
    row.total_pa = total_pa_;
    sheet_.rows.push_back(std::move(row));
  }

  /// Room air reaches a machine's ports through the gaps of its body, and its own blower where it has one.
  void start(std::size_t run) {
    std::size_t node = drawing_.runs[run].from;
    std::optional<std::size_t> blower;
    for (std::size_t f = 0; f < drawing_.fans.size(); ++f) {
      if (drawing_.fans[f].to == node && drawing_.fans[f].key.role == pieces::Role::Blower) {
        blower = f;
        node = drawing_.fans[f].from;
      }
    }
    const bool body = drawing_.nodes[node].kind == NodeKind::Body;
    if (!body && !blower) {
      return;
    }
    total_pa_ = body ? 0 : solution_.node_pa[node] - sheet_.room_pa;
    if (body) {
      writeGaps(node);
    }
    if (blower) {
      writeFan(*blower);
    }
  }

  void writeGaps(std::size_t body) {
    SheetRow row;
    row.key = drawing_.nodes[body].key;
    row.label = "gaps of " + drawing_.nodes[body].label;
    row.density_kg_m3 = air_.room_density_kg_m3;
    double area_m2 = 0;
    double flow_kg_s = 0;
    for (std::size_t o = 0; o < drawing_.openings.size(); ++o) {
      if (drawing_.openings[o].to == body) {
        area_m2 += drawing_.openings[o].area_m2;
        flow_kg_s += solution_.openings[o].flow_kg_s;
        row.loss_pa = solution_.openings[o].drop_pa;
      }
    }
    row.flow_m3_s = roomFlow(flow_kg_s);
    if (area_m2 > 0) {
      row.speed_m_s = physics::meanSpeed(flow_kg_s, air_.room_density_kg_m3, area_m2);
      row.velocity_pressure_pa = physics::velocityPressure(air_.room_density_kg_m3, row.speed_m_s);
    }
    if (row.velocity_pressure_pa > 0) {
      row.coefficient = row.local_coefficient = row.loss_pa / row.velocity_pressure_pa;
    }
    row.source = {std::string(physics::kOpening.formula), std::string(physics::kOpening.source),
                  physics::kOpening.status};
    row.static_pa = total_pa_ - row.loss_pa;
    add(std::move(row));
  }

  void writeRun(std::size_t index) {
    const pieces::Run& run = drawing_.runs[index];
    const network::RunResult& result = solution_.runs[index];
    if (run.closed || (!run.pieces.empty() && result.flow_start_kg_s == 0 &&
                       result.pieces.front().total_in_pa != result.total_start_pa)) {
      sheet_.remarks.push_back(run.label + " is closed at its start");
      total_pa_ = result.total_end_pa - sheet_.room_pa;
    }
    for (std::size_t i = 0; i < run.pieces.size(); ++i) {
      writePiece(run, run.pieces[i], result.pieces[i]);
    }
    if (result.solids_ratio > 0) {
      sheet_.remarks.push_back(
          fmt::format("{} carries {:.3g} kg of chips in each kg of air", run.label, result.solids_ratio));
    }
  }

  void writePiece(const pieces::Run& run, const pieces::Piece& piece, const network::PieceResult& result) {
    SheetRow row;
    row.key = piece.key;
    row.run = run.label;
    row.label = piece.label;
    row.flow_m3_s = roomFlow(result.flow_kg_s);
    row.bore_m = piece.bore_m;
    row.length_m = piece.length_m;
    row.angle_rad = piece.angle_rad;
    row.speed_m_s = result.speed_m_s;
    row.density_kg_m3 = result.density_kg_m3;
    row.velocity_pressure_pa = result.velocity_pressure_pa;
    row.friction_factor = result.friction_factor;
    row.coefficient = result.coefficient;
    (piece.length_m > 0 ? row.friction_coefficient : row.local_coefficient) = result.coefficient;
    row.loss_pa = result.loss_pa;
    row.source = piece.source;
    row.static_pa = result.static_out_pa - sheet_.room_pa;
    if (result.flow_kg_s < 0) {
      row.remark = "the air runs against the drawn direction";
    }
    add(std::move(row));
  }

  const pieces::Junction* junctionAt(std::size_t node) const {
    for (const pieces::Junction& junction : drawing_.junctions) {
      if (junction.node == node) {
        return &junction;
      }
    }
    return nullptr;
  }

  static double angleOf(const pieces::Junction& junction, std::size_t run) {
    for (std::size_t leg = 0; leg < junction.legs.size(); ++leg) {
      if (junction.legs[leg].run == run && junction.legs[leg].at_end) {
        return junction.angle_rad[leg];
      }
    }
    return 0;
  }

  /// What the total pressure gives up between the end of a run and the start of the next.
  void writeMeeting(std::size_t before, std::size_t behind) {
    const std::size_t node = drawing_.runs[before].to;
    const pieces::Junction* junction = junctionAt(node);
    if (junction == nullptr) {
      return;
    }
    const network::RunResult& end = solution_.runs[before];
    const network::RunResult& start = solution_.runs[behind];
    SheetRow row;
    row.key = drawing_.nodes[node].key;
    row.run = drawing_.runs[behind].label;
    row.angle_rad = angleOf(*junction, before);
    row.label = fmt::format("{}, {:.0f}°", drawing_.nodes[node].label, row.angle_rad / kDegree_rad);
    row.flow_m3_s = roomFlow(start.flow_start_kg_s);
    row.bore_m = drawing_.runs[behind].start_bore_m;
    row.density_kg_m3 = network::junctionDensity(air_, solution_.node_pa[node]);
    row.speed_m_s =
        physics::meanSpeed(start.flow_start_kg_s, row.density_kg_m3, physics::roundArea(row.bore_m));
    row.velocity_pressure_pa = start.total_start_pa - start.static_start_pa;
    row.loss_pa = end.total_end_pa - start.total_start_pa;
    if (row.velocity_pressure_pa > 0) {
      row.coefficient = row.local_coefficient = row.loss_pa / row.velocity_pressure_pa;
    }
    if (row.loss_pa < 0) {
      row.remark = "the other air pulls this stream along";
    }
    row.source = junction->source;
    row.static_pa = start.static_start_pa - sheet_.room_pa;
    add(std::move(row));
  }

  /// Fans on the way; returns the node behind them.
  std::size_t throughFans(std::size_t node) {
    for (std::size_t guard = 0; guard <= drawing_.fans.size() && !ends(node); ++guard) {
      std::size_t fan = kNone;
      for (std::size_t f = 0; f < drawing_.fans.size(); ++f) {
        if (drawing_.fans[f].from == node) {
          fan = f;
        }
      }
      if (fan == kNone) {
        return node;
      }
      writeFan(fan);
      node = drawing_.fans[fan].to;
    }
    return node;
  }

  void writeFan(std::size_t index) {
    const pieces::Fan& fan = drawing_.fans[index];
    const network::FanResult& result = solution_.fans[index];
    SheetFan line;
    line.fan = index;
    line.row = sheet_.rows.size();
    line.label = fan.label;
    line.running = result.running;
    line.inlet_flow_m3_s = result.inlet_flow_m3_s;
    line.inlet_total_pa = result.inlet_total_pa - sheet_.room_pa;
    line.inlet_static_pa =
        network::shownStatic(air_, result.inlet_total_pa, result.flow_kg_s, fan.inlet_bore_m) -
        sheet_.room_pa;
    line.rise_pa = result.rise_pa;
    line.outlet_total_pa = result.outlet_total_pa - sheet_.room_pa;
    line.lost_before_pa = sheet_.lost_pa;
    SheetRow row;
    row.key = fan.key;
    row.label = fan.label;
    row.flow_m3_s = roomFlow(result.flow_kg_s);
    row.bore_m = fan.inlet_bore_m;
    if (fan.inlet_bore_m > 0 && result.flow_kg_s != 0) {
      row.density_kg_m3 = result.flow_kg_s / result.inlet_flow_m3_s;
      row.speed_m_s = result.inlet_flow_m3_s / physics::roundArea(fan.inlet_bore_m);
      row.velocity_pressure_pa = physics::velocityPressure(row.density_kg_m3, row.speed_m_s);
    }
    row.loss_pa = -result.rise_pa;
    row.static_pa = line.outlet_total_pa;
    if (!result.running) {
      row.remark = "stands";
    } else if (result.beyond_data) {
      row.remark = "beyond the data of its curve";
    } else if (result.rising_part) {
      row.remark = "on a rising part of its curve";
    }
    add(std::move(row));
    sheet_.fans.push_back(std::move(line));
  }

  /// The run that takes most of the air on.
  std::size_t nextRun(std::size_t node) const {
    std::size_t best = kNone;
    for (std::size_t r = 0; r < drawing_.runs.size(); ++r) {
      if (drawing_.runs[r].from == node && !drawing_.runs[r].closed &&
          (best == kNone || solution_.runs[r].flow_start_kg_s > solution_.runs[best].flow_start_kg_s)) {
        best = r;
      }
    }
    return best;
  }

  const pieces::Pieces& drawing_;
  const network::Solution& solution_;
  physics::DuctAir air_;
  Sheet sheet_;
  double total_pa_ = 0;
};

base::Result<void> checkState(const Assessment& assessment, std::size_t state) {
  if (state >= assessment.states.size()) {
    return fail(ErrorCode::Reference, fmt::format("There is no state {}; there are {}, counted from 0.",
                                                  state, assessment.states.size()));
  }
  const StateResult& result = assessment.states[state];
  if (!result.solution.solved()) {
    return fail(ErrorCode::Conflict,
                fmt::format("The state \"{}\" has no solution: {}", result.name, result.solution.why),
                result.solution.place);
  }
  return {};
}

}  // namespace

base::Result<Sheet> modelSheet(const Assessment& assessment, std::size_t state, std::size_t port) {
  if (auto ok = checkState(assessment, state); !ok) {
    return base::Failure(ok.error());
  }
  if (port >= assessment.pieces->ports.size()) {
    return fail(ErrorCode::Reference, fmt::format("There is no port {}; there are {}, counted from 0.", port,
                                                  assessment.pieces->ports.size()));
  }
  const pieces::PortPlace& place = assessment.pieces->ports[port];
  return Writing(assessment, state)
      .write(place.run, place.label, isOpen(*assessment.pieces, assessment.states[state].situation, port));
}

base::Result<Sheet> modelSheetOfRun(const Assessment& assessment, std::size_t state, std::size_t run) {
  if (auto ok = checkState(assessment, state); !ok) {
    return base::Failure(ok.error());
  }
  if (run >= assessment.pieces->runs.size()) {
    return fail(ErrorCode::Reference, fmt::format("There is no run {}; there are {}, counted from 0.", run,
                                                  assessment.pieces->runs.size()));
  }
  return Writing(assessment, state)
      .write(run, assessment.pieces->runs[run].label,
             network::shownClosedAt(*assessment.pieces, assessment.states[state].situation, run) ==
                 network::kNotShut);
}

}  // namespace kerfdraft::judge
