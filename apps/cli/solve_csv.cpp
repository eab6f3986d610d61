// One table for all kinds of element, so that a spreadsheet can filter it; cells without meaning are empty.
#include <fmt/format.h>

#include "base/csv.h"
#include "cli/shop_open.h"
#include "cli/solve_writers.h"

namespace kerfdraft::cli {
namespace {

using base::Kind;

class CsvWriter {
 public:
  explicit CsvWriter(const Solved& solved) : solved_(solved), shown_(solved.shown) {}

  std::string text() {
    const std::string flow = shown_.unit(Kind::VolumeFlow);
    const std::string speed = shown_.unit(Kind::Speed);
    const std::string pressure = shown_.unit(Kind::Pressure);
    out_ = "# " + headLine(solved_.assessment, solved_.states, solved_.date);
    for (const std::string& title :
         {std::string("state"), std::string("filter"), std::string("what"), std::string("label"),
          std::string("open"), "air (" + flow + ")", "floor (" + flow + ")", "target (" + flow + ")",
          "speed (" + speed + ")", "speed needed (" + speed + ")", "static (" + pressure + ")",
          "pressure rise (" + pressure + ")"}) {
      out_ += base::csvCell(title) + ',';
    }
    out_ += "remark\n";
    for (const std::size_t s : solved_.states) {
      state(solved_.assessment.states[s], solved_.margins[s]);
    }
    return std::move(out_);
  }

 private:
  struct Line {
    std::string what{};
    std::string label{};
    std::string open{};
    std::optional<double> flow{};
    std::optional<double> floor{};
    std::optional<double> target{};
    std::optional<double> speed{};
    std::optional<double> speed_needed{};
    std::optional<double> static_pa{};
    std::optional<double> rise_pa{};
    std::string remark{};
  };

  void write(const judge::StateResult& state, const Line& line) {
    const auto cell = [&](Kind kind, const std::optional<double>& value) {
      // More digits than the text shows: a spreadsheet goes on with them.
      return value ? fmt::format("{:.6g}", base::inUnit(kind, *value, shown_.system())) : std::string();
    };
    for (const std::string& text :
         {state.name, std::string(toText(state.situation.filter)), line.what, line.label, line.open,
          cell(Kind::VolumeFlow, line.flow), cell(Kind::VolumeFlow, line.floor),
          cell(Kind::VolumeFlow, line.target), cell(Kind::Speed, line.speed),
          cell(Kind::Speed, line.speed_needed), cell(Kind::Pressure, line.static_pa),
          cell(Kind::Pressure, line.rise_pa)}) {
      out_ += base::csvCell(text) + ',';
    }
    out_ += base::csvCell(line.remark) + '\n';
  }

  void state(const judge::StateResult& state, const judge::StateMargins& margins) {
    const pieces::Pieces& pieces = *solved_.assessment.pieces;
    const network::Solution& solution = state.solution;
    if (!solution.solved()) {
      write(state, {.what = "state", .label = solution.place, .remark = "no solution: " + solution.why});
      return;
    }
    for (const judge::FlowMargin& m : margins.ports) {
      const network::PortResult& port = solution.ports[*m.port];
      write(state, {.what = "port",
                    .label = m.label,
                    .open = m.open ? "yes" : "no",
                    .flow = m.flow_m3_s,
                    .floor = m.floor_m3_s,
                    .target = m.target_m3_s,
                    .speed = port.speed_m_s,
                    .static_pa = port.hood_static_pa,
                    .remark = std::string(judge::toText(m.served))});
    }
    for (const judge::FlowMargin& m : margins.machines) {
      write(state, {.what = "machine",
                    .label = m.label,
                    .open = m.open ? "yes" : "no",
                    .flow = m.flow_m3_s,
                    .floor = m.floor_m3_s,
                    .target = m.target_m3_s,
                    .remark = std::string(judge::toText(m.served))});
    }
    for (const judge::BodyMargin& body : margins.bodies) {
      write(state,
            {.what = "body", .label = body.label, .speed = body.indraught_m_s, .remark = "in-draught"});
    }
    for (std::size_t r = 0; r < pieces.runs.size(); ++r) {
      Line line{.what = "run",
                .label = pieces.runs[r].label,
                .flow = solution.runs[r].flow_end_kg_s / pieces.air.density_kg_m3,
                .static_pa = solution.runs[r].static_end_pa};
      if (solution.runs[r].slowest_m_s > 0) {
        line.speed = solution.runs[r].slowest_m_s;
      }
      for (const judge::RunMargin& m : margins.runs) {
        if (m.run == r) {
          line.speed_needed = m.minimum_m_s;
          line.remark = m.material;
        }
      }
      write(state, line);
    }
    for (std::size_t f = 0; f < pieces.fans.size(); ++f) {
      write(state, {.what = "collector",
                    .label = pieces.fans[f].label,
                    .flow = solution.fans[f].inlet_flow_m3_s,
                    .static_pa = fanInletStatic(solved_.assessment, solution, f),
                    .rise_pa = solution.fans[f].rise_pa,
                    .remark = fanRemark(pieces.fans[f], solution.fans[f])});
    }
    for (std::size_t n = 0; n < pieces.nodes.size(); ++n) {
      if (pieces.nodes[n].kind == pieces::NodeKind::Room) {
        write(state, {.what = "room", .label = pieces.nodes[n].label, .static_pa = solution.node_pa[n]});
      }
    }
  }

  const Solved& solved_;
  const Shown& shown_;
  std::string out_;
};

}  // namespace

std::string solvedCsv(const Solved& solved) {
  return CsvWriter(solved).text();
}

}  // namespace kerfdraft::cli
