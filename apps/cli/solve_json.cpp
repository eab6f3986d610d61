// The whole of every solution for other programs: docs/schema/solve-1.schema.json. SI units, named in the
// keys.
#include <fmt/format.h>

#include <cmath>

#include "cli/shop_open.h"
#include "cli/solve_writers.h"
#include "files/json.h"

namespace kerfdraft::cli {
namespace {

using files::Json;

Json number(double value) {
  base::check(std::isfinite(value), "a result is not a finite number");
  return Json::ofNumber(fmt::format("{}", value));
}

Json maybe(const std::optional<double>& value) {
  return value ? number(*value) : Json();
}

std::string_view word(network::Outcome outcome) {
  switch (outcome) {
    case network::Outcome::Solved:
      return "solved";
    case network::Outcome::Still:
      return "still";
    case network::Outcome::NoFreeAir:
      return "no-free-air";
    case network::Outcome::NoFan:
      return "no-fan";
    case network::Outcome::NoRoomAir:
      return "no-room-air";
    case network::Outcome::NotConverged:
      return "not-converged";
  }
  return "";
}

std::string_view word(judge::Served served) {
  switch (served) {
    case judge::Served::Shut:
      return "shut";
    case judge::Served::NothingAsked:
      return "nothing-asked";
    case judge::Served::Short:
      return "short";
    case judge::Served::FloorMet:
      return "floor-met";
    case judge::Served::TargetMet:
      return "target-met";
  }
  return "";
}

Json pieceJson(const pieces::Piece& piece, const network::PieceResult& r) {
  Json json = Json::object();
  json.add("key", Json::ofText(piece.key.text()));
  json.add("label", Json::ofText(piece.label));
  json.add("bore_m", number(piece.bore_m));
  json.add("flow_kg_s", number(r.flow_kg_s));
  json.add("speed_m_s", number(r.speed_m_s));
  json.add("density_kg_m3", number(r.density_kg_m3));
  json.add("velocity_pressure_pa", number(r.velocity_pressure_pa));
  json.add("coefficient", number(r.coefficient));
  json.add("loss_pa", number(r.loss_pa));
  json.add("total_out_pa", number(r.total_out_pa));
  json.add("static_out_pa", number(r.static_out_pa));
  return json;
}

class JsonWriter {
 public:
  explicit JsonWriter(const Solved& solved) : solved_(solved), pieces_(*solved.assessment.pieces) {}

  std::string text() const {
    Json root = Json::object();
    root.add("solve-format", Json::ofNumber("1"));
    root.add("date", Json::ofText(solved_.date));
    root.add("standing", Json::ofText("predicted"));
    root.add("shop", Json::ofText(solved_.assessment.project->setting.name));
    root.add("room_density_kg_m3", number(pieces_.air.density_kg_m3));
    root.add("barometric_pa", number(pieces_.air.pressure_pa));
    Json states = Json::array();
    for (const std::size_t s : solved_.states) {
      states.push(stateJson(s));
    }
    root.add("states", std::move(states));
    Json notes = Json::array();
    for (const pieces::Note& note : pieces_.notes) {
      notes.push(
          Json::object().add("key", Json::ofText(note.key.text())).add("text", Json::ofText(note.text)));
    }
    root.add("notes", std::move(notes));
    return files::printJson(root);
  }

 private:
  Json stateJson(std::size_t s) const {
    const judge::StateResult& state = solved_.assessment.states[s];
    Json json = Json::object();
    json.add("name", Json::ofText(state.name));
    json.add("declared", Json::ofBool(state.declared));
    json.add("filter", Json::ofText(toText(state.situation.filter)));
    addSolution(json, state.solution, solved_.margins[s]);
    Json others = Json::array();
    for (const network::Solution& other : state.solution.others) {
      Json each = Json::object();
      each.add("stable", Json::ofBool(other.stable));
      addFans(each, other);
      others.push(std::move(each));
    }
    json.add("others", std::move(others));
    return json;
  }

  void addSolution(Json& json, const network::Solution& solution, const judge::StateMargins& margins) const {
    json.add("outcome", Json::ofText(word(solution.outcome)));
    json.add("place", Json::ofText(solution.place));
    json.add("why", Json::ofText(solution.why));
    json.add("served", Json::ofBool(margins.served));
    if (!solution.solved()) {
      return;
    }
    json.add("stable", Json::ofBool(solution.stable));
    json.add("fans-hunt", Json::ofBool(solution.fans_hunt));
    json.add("residuals", Json::object()
                              .add("mass_kg_s", number(solution.residuals.mass_kg_s))
                              .add("pressure_pa", number(solution.residuals.pressure_pa))
                              .add("worst-allowed", number(solution.residuals.worst_allowed)));
    addPorts(json, solution, margins);
    addBodies(json, margins);
    addRuns(json, solution, margins);
    addFans(json, solution);
    Json rooms = Json::array();
    for (std::size_t n = 0; n < pieces_.nodes.size(); ++n) {
      if (pieces_.nodes[n].kind == pieces::NodeKind::Room) {
        rooms.push(Json::object()
                       .add("key", Json::ofText(pieces_.nodes[n].key.text()))
                       .add("label", Json::ofText(pieces_.nodes[n].label))
                       .add("pressure_pa", number(solution.node_pa[n])));
      }
    }
    json.add("rooms", std::move(rooms));
  }

  static Json flowJson(const judge::FlowMargin& margin) {
    Json json = Json::object();
    json.add("machine", Json::ofText(margin.ref.machine.text()));
    json.add("label", Json::ofText(margin.label));
    json.add("open", Json::ofBool(margin.open));
    json.add("flow_m3_s", number(margin.flow_m3_s));
    json.add("floor_m3_s", maybe(margin.floor_m3_s));
    json.add("target_m3_s", maybe(margin.target_m3_s));
    json.add("served", Json::ofText(word(margin.served)));
    return json;
  }

  void addPorts(Json& json, const network::Solution& solution, const judge::StateMargins& margins) const {
    Json ports = Json::array();
    for (const judge::FlowMargin& margin : margins.ports) {
      const network::PortResult& result = solution.ports[*margin.port];
      Json port = flowJson(margin);
      port.add("port", Json::ofText(margin.ref.port.text()));
      port.add("bore_m", number(pieces_.ports[*margin.port].bore_m));
      port.add("speed_m_s", number(result.speed_m_s));
      port.add("hood_static_pa", number(result.hood_static_pa));
      ports.push(std::move(port));
    }
    json.add("ports", std::move(ports));
    Json machines = Json::array();
    for (const judge::FlowMargin& margin : margins.machines) {
      machines.push(flowJson(margin));
    }
    json.add("machines", std::move(machines));
  }

  static void addBodies(Json& json, const judge::StateMargins& margins) {
    Json bodies = Json::array();
    for (const judge::BodyMargin& body : margins.bodies) {
      bodies.push(Json::object()
                      .add("machine", Json::ofText(body.machine.text()))
                      .add("label", Json::ofText(body.label))
                      .add("in-draught_m_s", number(body.indraught_m_s)));
    }
    json.add("bodies", std::move(bodies));
  }

  void addRuns(Json& json, const network::Solution& solution, const judge::StateMargins& margins) const {
    Json runs = Json::array();
    for (std::size_t r = 0; r < pieces_.runs.size(); ++r) {
      const network::RunResult& result = solution.runs[r];
      Json run = Json::object();
      run.add("key", Json::ofText(pieces_.runs[r].key.text()));
      run.add("label", Json::ofText(pieces_.runs[r].label));
      run.add("flow_start_kg_s", number(result.flow_start_kg_s));
      run.add("flow_end_kg_s", number(result.flow_end_kg_s));
      run.add("static_start_pa", number(result.static_start_pa));
      run.add("static_end_pa", number(result.static_end_pa));
      run.add("slowest_m_s", number(result.slowest_m_s));
      run.add("solids-ratio", number(result.solids_ratio));
      for (const judge::RunMargin& margin : margins.runs) {
        if (margin.run == r) {
          run.add("chips", Json::ofText(margin.material));
          run.add("minimum_m_s", number(margin.minimum_m_s));
        }
      }
      Json pieces = Json::array();
      for (std::size_t p = 0; p < result.pieces.size(); ++p) {
        pieces.push(pieceJson(pieces_.runs[r].pieces[p], result.pieces[p]));
      }
      run.add("pieces", std::move(pieces));
      runs.push(std::move(run));
    }
    json.add("runs", std::move(runs));
  }

  void addFans(Json& json, const network::Solution& solution) const {
    Json fans = Json::array();
    for (std::size_t f = 0; f < pieces_.fans.size() && f < solution.fans.size(); ++f) {
      const network::FanResult& result = solution.fans[f];
      Json fan = Json::object();
      fan.add("key", Json::ofText(pieces_.fans[f].key.text()));
      fan.add("label", Json::ofText(pieces_.fans[f].label));
      fan.add("running", Json::ofBool(result.running));
      fan.add("flow_kg_s", number(result.flow_kg_s));
      fan.add("inlet_flow_m3_s", number(result.inlet_flow_m3_s));
      fan.add("rise_pa", number(result.rise_pa));
      fan.add("inlet_total_pa", number(result.inlet_total_pa));
      fan.add("outlet_total_pa", number(result.outlet_total_pa));
      fan.add("beyond-data", Json::ofBool(result.beyond_data));
      fan.add("rising-part", Json::ofBool(result.rising_part));
      fan.add("backward", Json::ofBool(result.backward));
      fan.add("label-only", Json::ofBool(pieces_.fans[f].label_only));
      fans.push(std::move(fan));
    }
    json.add("collectors", std::move(fans));
  }

  const Solved& solved_;
  const pieces::Pieces& pieces_;
};

}  // namespace

std::string solvedJson(const Solved& solved) {
  return JsonWriter(solved).text();
}

}  // namespace kerfdraft::cli
