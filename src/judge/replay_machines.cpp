// Numbers of ports, fans, openings and of the room's air.
#include "judge/entered.h"
#include "judge/replay.h"
#include "network/shown.h"
#include "physics/air.h"

namespace kerfdraft::judge {

namespace {

using base::Kind;

NumberKey fanKey(const Scene& scene, std::string quantity) {
  return {Element::Fan, scene.key.state, scene.key.index, 0, std::move(quantity)};
}

/// The steps of a rise end in one of these.
const base::Law& lawOfRise(const Replay& replay) {
  const base::Step& last = replay.note.steps().back();
  return *last.law;
}

void knowRating(const Scene& scene, const pieces::Fan& fan, Replay& replay) {
  if (!fan.rating) {
    return;
  }
  const auto entered = enteredRating(*scene.assessment.project, fan.id);
  const auto rating = [&](std::string_view symbol, double value, Kind kind, std::string text) {
    if (entered) {
      replay.entered(symbol, value, kind, entered->path, std::move(text));
    } else {
      replay.constant(symbol, value, kind, std::move(text));
    }
  };
  rating("VP", 0.0, Kind::Pressure, "the rating has no velocity pressure to add or take off");
  rating("n", fan.rating->speed_ratio, Kind::Ratio, "running speed over rated speed");
  for (const base::Step& step : replay.note.steps()) {
    if (step.law == &physics::kVelocityPressure) {
      rating("V", step.inputs.back().value, Kind::Speed, "inlet flow over the section of the rating");
    }
  }
  rating("rho_test", fan.rating->density_kg_m3, Kind::Density, "density of the test");
}

}  // namespace

void replayFan(const Scene& scene, Replay& replay) {
  const pieces::Fan& fan = scene.drawing.fans[scene.key.index];
  const network::FanResult& result = scene.solution.fans[scene.key.index];
  const std::string& what = scene.key.quantity;
  if (what == "flow") {
    replaySolved(scene, result.flow_kg_s, replay);
    return;
  }
  if (what == "inlet-total" || what == "outlet-total") {
    const std::size_t node = what == "inlet-total" ? fan.from : fan.to;
    replay.handedOn(scene.solution.node_pa[node], Kind::Pressure, scene.nodeKey(node));
    return;
  }
  const network::FanResult again =
      network::shownFan(network::ductAir(scene.drawing), fan, result.running, result.flow_kg_s,
                        result.inlet_total_pa, result.outlet_total_pa, 0.0, replay.note);
  replay.number("m", result.flow_kg_s, Kind::MassFlow, fanKey(scene, "flow"));
  replay.number("P1", result.inlet_total_pa, Kind::Pressure, fanKey(scene, "inlet-total"));
  replay.number("P2", result.inlet_total_pa, Kind::Pressure, fanKey(scene, "inlet-total"));
  replay.number("P1", result.outlet_total_pa, Kind::Pressure, fanKey(scene, "outlet-total"));
  const auto bore = enteredBore(*scene.assessment.project, fan.key, fan.inlet_bore_m);
  if (bore) {
    replay.entered("D", fan.inlet_bore_m, Kind::Bore, bore->path, bore->text);
  } else {
    replay.constant("D", fan.inlet_bore_m, Kind::Bore, "inlet of the fan; zero where it is not known");
  }
  knowTheAir(scene, replay);
  if (what == "inlet-flow") {
    replay.is(again.inlet_flow_m3_s, network::kActualFlow);
    return;
  }
  replay.number("Q", result.inlet_flow_m3_s, Kind::VolumeFlow, fanKey(scene, "inlet-flow"));
  if (result.running && fan.rating) {
    replay.constant("Q", result.inlet_flow_m3_s / fan.rating->speed_ratio, Kind::VolumeFlow,
                    "inlet flow at the rated speed");
  }
  knowRating(scene, fan, replay);
  replay.is(again.rise_pa, lawOfRise(replay));
}

void replayOpening(const Scene& scene, Replay& replay) {
  const pieces::Opening& opening = scene.drawing.openings[scene.key.index];
  const network::OpeningResult& result = scene.solution.openings[scene.key.index];
  if (scene.key.quantity == "flow") {
    replaySolved(scene, result.flow_kg_s, replay);
    return;
  }
  const double from_pa = scene.solution.node_pa[opening.from];
  const double to_pa = scene.solution.node_pa[opening.to];
  const network::OpeningResult again = network::shownOpening(network::ductAir(scene.drawing), opening,
                                                             result.flow_kg_s, from_pa, to_pa, replay.note);
  replay.number("m", result.flow_kg_s, Kind::MassFlow,
                {Element::Opening, scene.key.state, scene.key.index, 0, "flow"});
  replay.number("P1", from_pa, Kind::Pressure, scene.nodeKey(opening.from));
  replay.number("P2", to_pa, Kind::Pressure, scene.nodeKey(opening.to));
  replay.constant("A", opening.area_m2, Kind::Area, "area of " + opening.label);
  knowTheAir(scene, replay);
  replay.number("rho", scene.drawing.air.density_kg_m3, Kind::Density, {Element::Air, 0, 0, 0, "density"});
  if (scene.key.quantity == "speed") {
    replay.is(again.speed_m_s, physics::kMeanSpeed);
  } else {
    replay.is(again.drop_pa, network::kPressureDifference);
  }
}

void replayPort(const Scene& scene, Replay& replay) {
  const pieces::PortPlace& port = scene.drawing.ports[scene.key.index];
  const pieces::Run& run = scene.drawing.runs[port.run];
  const network::RunResult& result = scene.solution.runs[port.run];
  const bool entry = !run.pieces.empty() && run.pieces.front().key.role == pieces::Role::Entry;
  const double room_pa = scene.solution.node_pa[run.room];
  const network::PortResult again =
      network::shownPort(network::ductAir(scene.drawing), result, entry, port.bore_m, room_pa, replay.note);
  replay.number("m", result.flow_start_kg_s, Kind::MassFlow, scene.runKey(port.run, "flow-start"));
  replay.number("p_room", room_pa, Kind::Pressure, scene.nodeKey(run.room));
  knowTheAir(scene, replay);
  if (!result.pieces.empty()) {
    const network::PieceResult& first = result.pieces.front();
    replay.number("m", first.flow_kg_s, Kind::MassFlow, scene.pieceKey(port.run, 0, "flow"));
    replay.number("rho", first.density_kg_m3, Kind::Density, scene.pieceKey(port.run, 0, "density"));
    replay.number("p", entry ? first.static_out_pa : first.static_in_pa, Kind::Pressure,
                  scene.pieceKey(port.run, 0, entry ? "static-out" : "static-in"));
  }
  const auto bore =
      enteredBore(*scene.assessment.project, {pieces::Role::Entry, port.ref.port, {}}, port.bore_m);
  if (bore) {
    replay.entered("D", port.bore_m, Kind::Bore, bore->path, bore->text);
  } else {
    replay.constant("D", port.bore_m, Kind::Bore, "bore of the port");
  }
  if (scene.key.quantity == "flow") {
    replay.is(again.flow_m3_s, network::kFlowAtRoomDensity);
  } else if (result.pieces.empty()) {
    replay.atRest(0.0);
  } else if (scene.key.quantity == "speed") {
    replay.is(again.speed_m_s, physics::kMeanSpeed);
  } else {
    replay.is(again.hood_static_pa, network::kHoodStatic);
  }
}

void replayAir(const Assessment& assessment, const std::string& quantity, Replay& replay) {
  const physics::AirState& air = assessment.pieces->air;
  const shop::Air& given = assessment.project->air;
  const auto as_given = [&](double value) {
    replay.note.step(kGivenAir, value, {});
    replay.is(value, kGivenAir);
  };
  replay.entered("T", air.temperature_k, Kind::Temperature, "/air/temperature", given.temperature.text());
  if (quantity == "viscosity") {
    const double again = physics::airViscosity(air.temperature_k, replay.note);
    sameBits(again, air.viscosity_pa_s) ? replay.is(again, physics::kViscosity)
                                        : as_given(air.viscosity_pa_s);
  } else if (quantity == "pressure") {
    if (given.barometer || !given.altitude) {
      const double altitude_m = 0;
      const double again = physics::pressureAtAltitude(altitude_m, replay.note);
      replay.constant("z", altitude_m, Kind::Length, "no altitude is given: sea level");
      replay.constant("H", altitude_m, Kind::Length, "no altitude is given: sea level");
      if (!given.barometer && sameBits(again, air.pressure_pa)) {
        replay.is(again, physics::kPressureAtAltitude);
        return;
      }
      replay.note.step(kGivenAir, air.pressure_pa, {{"p", air.pressure_pa, Kind::AbsolutePressure}});
      replay.entered("p", air.pressure_pa, Kind::AbsolutePressure, "/air/barometer",
                     given.barometer ? given.barometer->text() : "");
      replay.is(air.pressure_pa, kGivenAir);
      return;
    }
    const double altitude_m = given.altitude->si();
    const double again = physics::pressureAtAltitude(altitude_m, replay.note);
    replay.entered("z", altitude_m, Kind::Length, "/air/altitude", given.altitude->text());
    for (const base::Input& input : replay.note.steps().back().inputs) {
      if (input.symbol == "H") {
        replay.constant("H", input.value, Kind::Length, "geopotential altitude, by the formula from z");
      }
    }
    sameBits(again, air.pressure_pa) ? replay.is(again, physics::kPressureAtAltitude)
                                     : as_given(air.pressure_pa);
  } else {
    const double again = physics::airDensity(air.temperature_k, air.pressure_pa, air.humidity, replay.note);
    replay.number("p", air.pressure_pa, Kind::AbsolutePressure, {Element::Air, 0, 0, 0, "pressure"});
    if (given.humidity) {
      replay.entered("h", air.humidity, Kind::Ratio, "/air/humidity", given.humidity->text());
    } else {
      replay.constant("h", air.humidity, Kind::Ratio, "not given: 50 %");
    }
    sameBits(again, air.density_kg_m3) ? replay.is(again, physics::kAirDensity) : as_given(air.density_kg_m3);
  }
}

}  // namespace kerfdraft::judge
