// Numbers of one piece, from the flow through it and the total pressure before it.
#include <cmath>

#include "judge/entered.h"
#include "judge/replay.h"
#include "network/shown.h"

namespace kerfdraft::judge {

namespace {

using base::Kind;
using network::PieceResult;

/// Where the coefficient of a fitting comes from: entered, a gate's travel, or a catalogue row.
void knowCoefficient(const Scene& scene, const pieces::Piece& piece, double flow_kg_s, Replay& replay) {
  const double k = flow_kg_s >= 0 ? piece.k_forward : piece.k_reverse;
  const auto entered = enteredCoefficient(*scene.assessment.project, piece.key, k);
  if (entered) {
    replay.entered("k", k, Kind::Ratio, entered->path, entered->text);
  } else {
    replay.catalogue("k", k, Kind::Ratio, piece.source);
  }
  if (piece.gate < 0) {
    return;
  }
  const auto gate = static_cast<std::size_t>(piece.gate);
  const double travel = scene.state.situation.gate_travel[gate];
  const pieces::GatePlace& place = scene.drawing.gates[gate];
  if (const auto given = enteredTravel(*scene.assessment.project, scene.key.state, place.id)) {
    replay.entered("x", travel, Kind::Ratio, given->path, given->text);
  } else {
    replay.constant("x", travel, Kind::Ratio, "travel of the gate in this state");
  }
  replay.catalogue("leak", place.leak_fraction, Kind::Ratio, piece.source);
}

void knowPiece(const Scene& scene, std::size_t run, std::size_t index, Replay& replay) {
  const pieces::Piece& piece = scene.drawing.runs[run].pieces[index];
  const PieceResult& result = scene.solution.runs[run].pieces[index];
  const shop::Project& project = *scene.assessment.project;
  replay.number("m", result.flow_kg_s, Kind::MassFlow, scene.pieceKey(run, index, "flow"));
  replay.number("P1", result.total_in_pa, Kind::Pressure, scene.pieceKey(run, index, "total-in"));
  replay.number("P", result.total_out_pa, Kind::Pressure, scene.pieceKey(run, index, "total-out"));
  if (const auto bore = enteredBore(project, piece.key, piece.bore_m)) {
    replay.entered("D", piece.bore_m, Kind::Bore, bore->path, bore->text);
  } else {
    replay.catalogue("D", piece.bore_m, Kind::Bore, {"bore of the fitting", piece.source.key, {}});
  }
  if (const auto length = enteredLength(project, piece.key)) {
    replay.entered("L", piece.length_m, Kind::Length, length->path,
                   length->text.empty() ? "drawn" : length->text);
  } else {
    replay.constant("L", piece.length_m, Kind::Length, "length of the piece");
  }
  replay.number("mu", scene.solution.runs[run].solids_ratio, Kind::Ratio, scene.runKey(run, "solids"));
  replay.catalogue("e", piece.roughness_m / piece.bore_m, Kind::Ratio, piece.source);
  replay.catalogue("multiplier", piece.multiplier, Kind::Ratio, piece.source);
  knowCoefficient(scene, piece, result.flow_kg_s, replay);
  const network::PieceTerms terms =
      network::pieceTerms(scene.drawing, scene.state.situation, run, index, result.flow_kg_s,
                          scene.solution.runs[run].solids_ratio,
                          network::acceleratingPiece(scene.drawing.runs[run]) == static_cast<int>(index));
  replay.catalogue("R", terms.linear_pa_s_m3, Kind::Ratio, piece.source);
  replay.constant("F", 1.0, Kind::Ratio, "factor of faults and doubts: none");
  knowTheAir(scene, replay);
}

void replayShut(const Scene& scene, Replay& replay) {
  const network::RunResult& run = scene.solution.runs[scene.key.index];
  const PieceResult& piece = run.pieces[scene.key.piece];
  const std::string& what = scene.key.quantity;
  const auto side = [&](double pressure_pa) {
    const bool start = sameBits(pressure_pa, run.total_start_pa);
    replay.handedOn(pressure_pa, Kind::Pressure,
                    scene.runKey(scene.key.index, start ? "total-start" : "total-end"));
  };
  if (what == "total-in" || what == "static-in") {
    side(piece.total_in_pa);
  } else if (what == "total-out" || what == "static-out") {
    side(piece.total_out_pa);
  } else if (what == "loss" || what == "density") {
    const PieceResult again = network::shownShutPiece(network::ductAir(scene.drawing), piece.total_in_pa,
                                                      piece.total_out_pa, replay.note);
    replay.number("P1", piece.total_in_pa, Kind::Pressure,
                  scene.pieceKey(scene.key.index, scene.key.piece, "total-in"));
    replay.number("P2", piece.total_out_pa, Kind::Pressure,
                  scene.pieceKey(scene.key.index, scene.key.piece, "total-out"));
    replay.constant("m", 0.0, Kind::MassFlow, "nothing passes");
    replay.constant("D", 0.0, Kind::Bore, "air at rest");
    knowTheAir(scene, replay);
    if (what == "loss") {
      replay.is(again.loss_pa, network::kPressureDifference);
    } else {
      replay.is(again.density_kg_m3, network::kMeanDensity);
    }
  } else {
    replay.atRest(0.0);
  }
}

void replayTotalIn(const Scene& scene, Replay& replay) {
  const std::size_t run = scene.key.index;
  if (scene.key.piece == 0) {
    replay.handedOn(scene.solution.runs[run].total_start_pa, Kind::Pressure,
                    scene.runKey(run, "total-start"));
  } else {
    replay.handedOn(scene.solution.runs[run].pieces[scene.key.piece - 1].total_out_pa, Kind::Pressure,
                    scene.pieceKey(run, scene.key.piece - 1, "total-out"));
  }
}

}  // namespace

void replayPiece(const Scene& scene, Replay& replay) {
  const std::size_t run = scene.key.index;
  const std::size_t index = scene.key.piece;
  const std::string& what = scene.key.quantity;
  if (network::shownClosedAt(scene.drawing, scene.state.situation, run) != network::kNotShut) {
    replayShut(scene, replay);
    return;
  }
  if (what == "flow") {
    replayLeaks(scene, run, static_cast<int>(index) - 1, replay);
    return;
  }
  if (what == "total-in") {
    replayTotalIn(scene, replay);
    return;
  }
  const network::RunResult& in = scene.solution.runs[run];
  const PieceResult again =
      network::shownPiece(scene.drawing, scene.state.situation, run, index, in.solids_ratio,
                          in.pieces[index].total_in_pa, in.pieces[index].flow_kg_s, replay.note);
  knowPiece(scene, run, index, replay);
  if (what == "speed") {
    replay.is(again.speed_m_s, physics::kMeanSpeed);
  } else if (what == "density") {
    replay.is(again.density_kg_m3, network::kMeanDensity);
  } else if (what == "velocity-pressure") {
    replay.is(again.velocity_pressure_pa, physics::kMeanVelocityPressure);
  } else if (what == "reynolds") {
    replay.is(again.reynolds, physics::kReynolds);
  } else if (what == "friction-factor") {
    if (scene.drawing.runs[run].pieces[index].length_m > 0) {
      replay.is(again.friction_factor, physics::kFrictionFactor);
    } else {
      replay.atRest(again.friction_factor);
    }
  } else if (what == "coefficient") {
    replay.is(again.coefficient, network::kPieceCoefficient);
  } else if (what == "loss") {
    replay.is(again.loss_pa, physics::kPieceLoss);
  } else if (what == "total-out") {
    replay.is(again.total_out_pa, network::kPressureBehind);
  } else if (what == "static-in") {
    replay.is(again.static_in_pa, network::kStaticFromTotal);
  } else {
    replay.is(again.static_out_pa, network::kStaticFromTotal);
  }
}

}  // namespace kerfdraft::judge
