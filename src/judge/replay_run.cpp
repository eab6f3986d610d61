// Numbers of nodes and of whole runs: what the solver found, what leaks add, what a junction gives its legs.
#include <array>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "judge/entered.h"
#include "judge/replay.h"
#include "network/shown.h"

namespace kerfdraft::judge {

namespace {

using base::Kind;
using network::RunResult;

const pieces::Junction* junctionAt(const pieces::Pieces& drawing, std::size_t node) {
  for (const pieces::Junction& junction : drawing.junctions) {
    if (junction.node == node) {
      return &junction;
    }
  }
  return nullptr;
}

void knowBoreAtEnd(const Scene& scene, std::size_t run, bool start, std::string_view symbol, Replay& replay) {
  const pieces::Run& drawn = scene.drawing.runs[run];
  const double bore_m = start ? drawn.start_bore_m : drawn.end_bore_m;
  std::optional<Entered> entered = enteredBore(*scene.assessment.project, drawn.key, bore_m);
  if (!entered && !drawn.pieces.empty()) {
    entered = enteredBore(*scene.assessment.project,
                          start ? drawn.pieces.front().key : drawn.pieces.back().key, bore_m);
  }
  if (entered) {
    replay.entered(symbol, bore_m, Kind::Bore, entered->path, entered->text);
  } else {
    replay.constant(symbol, bore_m, Kind::Bore, "bore at this end of " + drawn.label);
  }
}

/// The pressure of a node without a junction law, or what the junction's law adds for this leg.
void replayTotal(const Scene& scene, bool start, Replay& replay) {
  const std::size_t run = scene.key.index;
  const std::size_t node = start ? scene.drawing.runs[run].from : scene.drawing.runs[run].to;
  const double p_pa = scene.solution.node_pa[node];
  const pieces::Junction* junction = junctionAt(scene.drawing, node);
  if (junction == nullptr) {
    replay.handedOn(p_pa, Kind::Pressure, scene.nodeKey(node));
    return;
  }
  const physics::JunctionGeometry geometry = network::shownJunctionGeometry(scene.drawing, *junction);
  std::array<double, physics::kMaxLegs> inflow{};
  std::size_t mine = 0;
  for (std::size_t leg = 0; leg < geometry.legs; ++leg) {
    const pieces::JunctionLeg& at = junction->legs[leg];
    const RunResult& other = scene.solution.runs[at.run];
    inflow[leg] = at.at_end ? other.flow_end_kg_s : -other.flow_start_kg_s;
    if (at.run == run && at.at_end != start) {
      mine = leg;
    }
  }
  const std::span<const double> flows(inflow.data(), geometry.legs);
  replay.is(
      network::shownJunctionEnd(network::ductAir(scene.drawing), geometry, flows, p_pa, mine, replay.note),
      network::kJunctionEnd);
  replay.number("p_in", p_pa, Kind::Pressure, scene.nodeKey(node));
  for (std::size_t leg = 0; leg < geometry.legs; ++leg) {
    const pieces::JunctionLeg& at = junction->legs[leg];
    const std::string& label = scene.drawing.runs[at.run].label;
    if (at.at_end) {
      replay.number("m", inflow[leg], Kind::MassFlow, scene.runKey(at.run, "flow-end"));
    } else {
      replay.constant(
          "m", inflow[leg], Kind::MassFlow,
          fmt::format("minus {}: air that leaves by {}", scene.runKey(at.run, "flow-start").text(), label));
    }
    replay.constant("A", geometry.area_m2[leg], Kind::Area, "bore at the junction of " + label);
    replay.catalogue("c_j", geometry.cosine[leg][mine], Kind::Ratio, junction->source);
  }
  replay.constant("m_leaving", physics::leavingFlow(flows).flow_kg_s, Kind::MassFlow,
                  "sum of the flows that leave the junction");
  for (const Kind kind : {Kind::Speed, Kind::Ratio}) {
    replay.constant("sum", 0.0, kind, "nothing enters the junction");
  }
  knowTheAir(scene, replay);
}

void replayStatic(const Scene& scene, bool start, Replay& replay) {
  const std::size_t run = scene.key.index;
  const RunResult& result = scene.solution.runs[run];
  const double total_pa = start ? result.total_start_pa : result.total_end_pa;
  const double flow_kg_s = start ? result.flow_start_kg_s : result.flow_end_kg_s;
  const double bore_m = start ? scene.drawing.runs[run].start_bore_m : scene.drawing.runs[run].end_bore_m;
  replay.is(network::shownStatic(network::ductAir(scene.drawing), total_pa, flow_kg_s, bore_m, replay.note),
            network::kStaticFromTotal);
  for (const char* symbol : {"P", "P1"}) {
    replay.number(symbol, total_pa, Kind::Pressure, scene.runKey(run, start ? "total-start" : "total-end"));
  }
  replay.number("m", flow_kg_s, Kind::MassFlow, scene.runKey(run, start ? "flow-start" : "flow-end"));
  knowBoreAtEnd(scene, run, start, "D", replay);
  knowTheAir(scene, replay);
}

/// The piece in which the air is slowest.
void replaySlowest(const Scene& scene, Replay& replay) {
  const std::size_t run = scene.key.index;
  const RunResult& result = scene.solution.runs[run];
  for (std::size_t i = 0; i < result.pieces.size(); ++i) {
    const double speed_m_s = result.pieces[i].speed_m_s;
    if (scene.drawing.runs[run].pieces[i].length_m > 0 && sameBits(std::abs(speed_m_s), result.slowest_m_s)) {
      replay.note.step(network::kSlowest, std::abs(speed_m_s), {{"V", speed_m_s, Kind::Speed}});
      replay.number("V", speed_m_s, Kind::Speed, scene.pieceKey(run, i, "speed"));
      replay.is(std::abs(speed_m_s), network::kSlowest);
      return;
    }
  }
  replay.atRest(0.0);
}

void replaySolids(const Scene& scene, Replay& replay) {
  const RunResult& result = scene.solution.runs[scene.key.index];
  replay.is(physics::solidsRatio(result.solids_kg_s, result.clean_air_kg_s, replay.note),
            physics::kSolidsRatio);
  replay.entered(
      "m_s", result.solids_kg_s, Kind::MassFlow, "/machines",
      "waste of the machines whose open ports feed this run, shared with the air where it divides");
  replay.constant("m_air", result.clean_air_kg_s, Kind::MassFlow,
                  "air at the run's upstream end, found without dust");
}

}  // namespace

void replaySolved(const Scene& scene, double number, Replay& replay) {
  const network::Residuals& residuals = scene.solution.residuals;
  replay.note.step(kSolved, number,
                   {{"worst balance", residuals.mass_kg_s, Kind::MassFlow},
                    {"worst law", residuals.pressure_pa, Kind::Pressure}});
  replay.constant("worst balance", residuals.mass_kg_s, Kind::MassFlow,
                  "what the solver left over at the worst node");
  replay.constant("worst law", residuals.pressure_pa, Kind::Pressure,
                  "what the solver left over in the worst law");
  replay.is(number, kSolved);
}

void knowTheAir(const Scene& scene, Replay& replay) {
  const physics::AirState& air = scene.drawing.air;
  replay.number("rho_room", air.density_kg_m3, Kind::Density, {Element::Air, 0, 0, 0, "density"});
  replay.number("p_bar", air.pressure_pa, Kind::AbsolutePressure, {Element::Air, 0, 0, 0, "pressure"});
  replay.number("mu", air.viscosity_pa_s, Kind::Viscosity, {Element::Air, 0, 0, 0, "viscosity"});
}

void replayLeaks(const Scene& scene, std::size_t run, int after, Replay& replay) {
  const RunResult& result = scene.solution.runs[run];
  const pieces::Run& drawn = scene.drawing.runs[run];
  const bool first = after < 0;
  const auto before = static_cast<std::size_t>(first ? 0 : after);
  const double flow_kg_s = first ? result.flow_start_kg_s : result.pieces[before].flow_kg_s;
  const double total_pa = first ? result.total_start_pa : result.pieces[before].total_out_pa;
  const NumberKey flow_key = first ? scene.runKey(run, "flow-start") : scene.pieceKey(run, before, "flow");
  const double room_pa = scene.solution.node_pa[drawn.room];
  const double behind = network::shownLeaks(scene.drawing, scene.state.situation, run, after, total_pa,
                                            flow_kg_s, room_pa, replay.note);
  if (replay.note.steps().empty()) {
    replay.handedOn(behind, Kind::MassFlow, flow_key);
    return;
  }
  replay.is(behind, network::kFlowBehindLeak);
  replay.number("m", flow_kg_s, Kind::MassFlow, flow_key);
  replay.number("P", total_pa, Kind::Pressure,
                first ? scene.runKey(run, "total-start") : scene.pieceKey(run, before, "total-out"));
  replay.number("P1", room_pa, Kind::Pressure, scene.nodeKey(drawn.room));
  double coefficient = 0;
  double bore_m = 0;
  for (const pieces::LeakStation& leak : drawn.leaks) {
    if (leak.after == after) {
      coefficient += leak.coefficient;
      bore_m = leak.bore_m;
    }
  }
  replay.catalogue(
      "C", coefficient, Kind::Ratio,
      {"leakage class of the construction × half the surface of the stretch, or the cuffs of a hose",
       std::string(physics::kLeakage.source), physics::kLeakage.status});
  replay.constant("D", bore_m, Kind::Bore, "bore in which the joints leak");
  knowTheAir(scene, replay);
}

void replayNode(const Scene& scene, Replay& replay) {
  const pieces::Node& node = scene.drawing.nodes[scene.key.index];
  const double p_pa = scene.solution.node_pa[scene.key.index];
  if (node.kind == pieces::NodeKind::Outdoors || node.fixed) {
    replay.note.step(kGivenPressure, p_pa, {});
    replay.is(p_pa, kGivenPressure);
  } else {
    replaySolved(scene, p_pa, replay);
  }
}

void replayRun(const Scene& scene, Replay& replay) {
  const std::size_t run = scene.key.index;
  const RunResult& result = scene.solution.runs[run];
  const std::string& what = scene.key.quantity;
  const bool shut = network::shownClosedAt(scene.drawing, scene.state.situation, run) != network::kNotShut;
  if (what == "flow-start" || (what == "flow-end" && shut)) {
    replaySolved(scene, what == "flow-start" ? result.flow_start_kg_s : result.flow_end_kg_s, replay);
  } else if (what == "flow-end") {
    replayLeaks(scene, run, static_cast<int>(result.pieces.size()) - 1, replay);
  } else if (what == "total-start" || what == "total-end") {
    replayTotal(scene, what == "total-start", replay);
  } else if (what == "static-start" || what == "static-end") {
    replayStatic(scene, what == "static-start", replay);
  } else if (what == "slowest") {
    replaySlowest(scene, replay);
  } else {
    replaySolids(scene, replay);
  }
}

}  // namespace kerfdraft::judge
