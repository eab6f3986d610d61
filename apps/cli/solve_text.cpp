// Aligned tables for people: what is short first, then the numbers, cautions last.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/shop_open.h"
#include "cli/solve_writers.h"
#include "cli/text_table.h"

namespace kerfdraft::cli {
namespace {

using base::Kind;
using judge::FlowMargin;
using judge::RunMargin;
using judge::Served;

constexpr std::size_t kWidth = 100;
/// A room's pressure below this is not worth a line [Pa].
constexpr double kStillRoom_pa = 0.05;

std::string titled(std::string_view what, const std::string& unit) {
  return fmt::format("{}, {}", what, unit);
}

class StateText {
 public:
  StateText(const Solved& solved, std::size_t state)
      : pieces_(*solved.assessment.pieces),
        project_(*solved.assessment.project),
        assessment_(solved.assessment),
        state_(solved.assessment.states[state]),
        margins_(solved.margins[state]),
        bands_(solved.bands[state]),
        shown_(solved.shown),
        full_(solved.full) {}

  std::string text() const {
    std::string out = heading();
    if (!state_.solution.solved()) {
      return out;
    }
    out += '\n' + ports() + machines() + runs() + fans() + rooms();
    return out;
  }

 private:
  std::string heading() const {
    std::string out =
        fmt::format("State \"{}\", filter {}: {}\n", state_.name, toText(state_.situation.filter), verdict());
    if (!state_.declared && project_.states.empty()) {
      out += "  The project declares no state of use, so every gate is taken as open.\n";
    }
    if (!state_.solution.why.empty() && state_.solution.solved()) {
      out += "  " + wrapped(state_.solution.why, kWidth, 2) + '\n';
    }
    if (!state_.solution.stable || state_.solution.fans_hunt) {
      out += "  The fans do not share the air evenly and steadily here; they hunt.\n";
    }
    if (!state_.solution.others.empty()) {
      out += fmt::format("  {} other way{} in which this state can stand: see --json.\n",
                         state_.solution.others.size(), state_.solution.others.size() == 1 ? "" : "s");
    }
    return out;
  }

  std::string verdict() const {
    const network::Solution& solution = state_.solution;
    if (!solution.solved()) {
      return fmt::format("no solution. {}{}", solution.place.empty() ? "" : solution.place + ": ",
                         solution.why);
    }
    if (solution.outcome == network::Outcome::Still) {
      return "no air moves";
    }
    return air() + settling();
  }

  std::string air() const {
    std::size_t asked = 0;
    bool targets = true;
    std::vector<std::string> lacking;
    for (const auto* margins : {&margins_.ports, &margins_.machines}) {
      for (const FlowMargin& margin : *margins) {
        if (!margin.open || margin.served == Served::NothingAsked) {
          continue;
        }
        ++asked;
        targets = targets && (margin.served == Served::TargetMet || !margin.target_m3_s);
        if (margin.served == Served::Short) {
          lacking.push_back(margin.port ? margin.label : machineName(project_, margin.ref.machine));
        }
      }
    }
    if (!lacking.empty()) {
      return fmt::format("short of air: {}", fmt::join(lacking, ", "));
    }
    return asked == 0 ? "nothing open asks for air" : targets ? "every target is met" : "every floor is met";
  }

  std::string settling() const {
    std::size_t runs = 0;
    for (const RunMargin& margin : margins_.runs) {
      const Carried carried = carriedIn(margin, bands_);
      runs += carried == Carried::MaySettle || carried == Carried::LikelySettle ? 1U : 0U;
    }
    return runs == 0 ? std::string()
                     : fmt::format("; chips may settle in {} run{}", runs, runs == 1 ? "" : "s");
  }

  static std::string flowRemark(const FlowMargin& margin) {
    return margin.served == Served::NothingAsked || margin.served == Served::Shut
               ? std::string()
               : std::string(judge::toText(margin.served));
  }

  std::string maybeFlow(const std::optional<double>& flow_m3_s) const {
    return flow_m3_s ? shown_.number(Kind::VolumeFlow, *flow_m3_s) : std::string();
  }

  std::string ports() const {
    using enum Align;
    TextTable table({{"port"},
                     {titled("air", shown_.unit(Kind::VolumeFlow)), Right},
                     {"floor", Right},
                     {"target", Right},
                     {titled("bore", shown_.unit(Kind::Bore)), Right},
                     {titled("speed", shown_.unit(Kind::Speed)), Right},
                     {titled("hood static", shown_.unit(Kind::Pressure)), Right},
                     {""}});
    std::size_t shut = 0;
    double leak_m3_s = 0;
    for (const FlowMargin& margin : margins_.ports) {
      const network::PortResult& result = state_.solution.ports[*margin.port];
      if (!margin.open && !full_) {
        ++shut;
        leak_m3_s += result.flow_m3_s;
        continue;
      }
      table.row(
          {margin.label, shown_.number(Kind::VolumeFlow, margin.flow_m3_s), maybeFlow(margin.floor_m3_s),
           maybeFlow(margin.target_m3_s), shown_.number(Kind::Bore, pieces_.ports[*margin.port].bore_m),
           shown_.number(Kind::Speed, result.speed_m_s), shown_.number(Kind::Pressure, result.hood_static_pa),
           margin.open ? flowRemark(margin) : "shut"});
    }
    std::string out = table.empty() ? std::string() : table.text();
    if (shut > 0) {
      out +=
          fmt::format("  {}{} port{} shut", shut, table.empty() ? "" : " other", shut == 1 ? " is" : "s are");
      // Half a unit is the least that the printed number could show.
      out += std::abs(base::inUnit(Kind::VolumeFlow, leak_m3_s, shown_.system())) < 0.5
                 ? std::string(".\n")
                 : fmt::format("; {} leak {} through {}.\n", shown_.flow(std::abs(leak_m3_s)),
                               leak_m3_s < 0 ? "out" : "in", shut == 1 ? "it" : "them");
    }
    return out;
  }

  std::string machines() const {
    using enum Align;
    TextTable table({{"machine"},
                     {titled("air", shown_.unit(Kind::VolumeFlow)), Right},
                     {"floor", Right},
                     {"target", Right},
                     {titled("in-draught", shown_.unit(Kind::Speed)), Right},
                     {""}});
    for (const FlowMargin& margin : margins_.machines) {
      if (margin.open || full_) {
        table.row({machineName(project_, margin.ref.machine),
                   shown_.number(Kind::VolumeFlow, margin.flow_m3_s), maybeFlow(margin.floor_m3_s),
                   maybeFlow(margin.target_m3_s), inDraught(margin.ref.machine), flowRemark(margin)});
      }
    }
    for (const judge::BodyMargin& body : margins_.bodies) {
      const bool told = std::any_of(margins_.machines.begin(), margins_.machines.end(),
                                    [&](const FlowMargin& m) { return m.ref.machine == body.machine; });
      const bool open = std::any_of(margins_.ports.begin(), margins_.ports.end(), [&](const FlowMargin& m) {
        return m.ref.machine == body.machine && m.open;
      });
      if (!told && (open || full_)) {
        table.row({body.label, "", "", "", shown_.number(Kind::Speed, body.indraught_m_s), ""});
      }
    }
    return table.empty() ? std::string() : '\n' + table.text();
  }

  std::string inDraught(base::Id machine) const {
    for (const judge::BodyMargin& body : margins_.bodies) {
      if (body.machine == machine) {
        return shown_.number(Kind::Speed, body.indraught_m_s);
      }
    }
    return {};
  }

  std::string runs() const {
    if (state_.solution.outcome == network::Outcome::Still && !full_) {
      return {};
    }
    using enum Align;
    TextTable table({{"run"},
                     {titled("air", shown_.unit(Kind::VolumeFlow)), Right},
                     {titled("slowest", shown_.unit(Kind::Speed)), Right},
                     {"chips need", Right},
                     {titled("static at its end", shown_.unit(Kind::Pressure)), Right},
                     {""}});
    double largest_kg_s = 0;
    for (const network::RunResult& run : state_.solution.runs) {
      largest_kg_s = std::max(largest_kg_s, std::abs(run.flow_end_kg_s));
    }
    for (std::size_t r = 0; r < pieces_.runs.size(); ++r) {
      const network::RunResult& result = state_.solution.runs[r];
      const RunMargin* margin = marginOf(r);
      // A run without duct is the inside of a unit, or the place of a moved hose.
      const bool worth = margin != nullptr ||
                         (std::abs(result.flow_end_kg_s) > 0.2 * largest_kg_s && result.slowest_m_s > 0);
      if (!worth && !full_) {
        continue;
      }
      table.row({pieces_.runs[r].label,
                 shown_.number(Kind::VolumeFlow, result.flow_end_kg_s / pieces_.air.density_kg_m3),
                 result.slowest_m_s > 0 ? shown_.number(Kind::Speed, result.slowest_m_s) : "",
                 margin != nullptr ? shown_.number(Kind::Speed, margin->minimum_m_s) : "",
                 shown_.number(Kind::Pressure, result.static_end_pa),
                 margin != nullptr ? speedRemark(*margin) : ""});
    }
    return table.empty() ? std::string() : '\n' + table.text();
  }

  const RunMargin* marginOf(std::size_t run) const {
    for (const RunMargin& margin : margins_.runs) {
      if (margin.run == run) {
        return &margin;
      }
    }
    return nullptr;
  }

  std::string speedRemark(const RunMargin& margin) const {
    const Carried carried = carriedIn(margin, bands_);
    std::string material = margin.material;
    std::replace(material.begin(), material.end(), '-', ' ');
    return carried == Carried::Yes            ? std::string()
           : carried == Carried::BelowMinimum ? fmt::format("below the minimum for {}", material)
                                              : fmt::format("{} {}", material, toText(carried));
  }

  std::string fans() const {
    using enum Align;
    TextTable table({{"collector"},
                     {titled("air", shown_.unit(Kind::VolumeFlow)), Right},
                     {titled("static at the fan", shown_.unit(Kind::Pressure)), Right},
                     {"total pressure rise", Right},
                     {""}});
    for (std::size_t f = 0; f < pieces_.fans.size(); ++f) {
      const network::FanResult& result = state_.solution.fans[f];
      table.row({pieces_.fans[f].label, shown_.number(Kind::VolumeFlow, result.inlet_flow_m3_s),
                 shown_.number(Kind::Pressure, fanInletStatic(assessment_, state_.solution, f)),
                 shown_.number(Kind::Pressure, result.rise_pa), fanRemark(pieces_.fans[f], result)});
    }
    return table.empty() ? std::string() : '\n' + table.text();
  }

  std::string rooms() const {
    std::string out;
    const auto line = [&](std::string text) {
      out += (out.empty() ? "\n  " : "  ") + std::move(text) + '\n';
    };
    for (std::size_t n = 0; n < pieces_.nodes.size(); ++n) {
      if (pieces_.nodes[n].kind == pieces::NodeKind::Room &&
          std::abs(state_.solution.node_pa[n]) > kStillRoom_pa) {
        line(fmt::format("{} stands at {:.1f} Pa against outdoors.", pieces_.nodes[n].label,
                         state_.solution.node_pa[n]));
      }
    }
    return out;
  }

  const pieces::Pieces& pieces_;
  const shop::Project& project_;
  const judge::Assessment& assessment_;
  const judge::StateResult& state_;
  const judge::StateMargins& margins_;
  const judge::StateBands& bands_;
  const Shown& shown_;
  bool full_;
};

}  // namespace

std::string headLine(const judge::Assessment& assessment, const std::vector<std::size_t>& states,
                     const std::string& date) {
  std::string filter;
  for (const std::size_t s : states) {
    const std::string one(toText(assessment.states[s].situation.filter));
    filter = filter.empty() || filter == one ? one : "as each state says";
  }
  return fmt::format("{}, filter {}, predicted, nothing measured: {}\n", date, filter,
                     assessment.project->setting.name);
}

double fanInletStatic(const judge::Assessment& assessment, const network::Solution& solution,
                      std::size_t fan) {
  const pieces::Pieces& pieces = *assessment.pieces;
  for (std::size_t r = 0; r < pieces.runs.size(); ++r) {
    if (pieces.runs[r].to == pieces.fans[fan].from) {
      return solution.runs[r].static_end_pa;
    }
  }
  return solution.fans[fan].inlet_total_pa;
}

std::string fanRemark(const pieces::Fan& fan, const network::FanResult& result) {
  std::string remark;
  const auto add = [&](bool is, const char* what) {
    if (is) {
      remark += (remark.empty() ? "" : "; ") + std::string(what);
    }
  };
  add(!result.running, "stands still");
  add(result.backward, "air goes backward through it");
  add(result.beyond_data, "beyond the data of its curve");
  add(result.rising_part, "on the rising part of its curve");
  add(fan.label_only, "known by its label only");
  return remark;
}

std::string solvedText(const Solved& solved) {
  std::string out = headLine(solved.assessment, solved.states, solved.date);
  const std::string& note = solved.assessment.project->setting.note;
  if (!note.empty()) {
    out += wrapped(note, kWidth) + '\n';
  }
  if (solved.states.size() > 1 || solved.summary) {
    out += '\n' + summaryTable(solved);
  }
  for (std::size_t i = 0; i < solved.states.size() && !solved.summary; ++i) {
    out += '\n' + StateText(solved, solved.states[i]).text();
  }
  const std::vector<std::string>& lines = solved.cautions;
  for (const std::string& line : lines) {
    out += (&line == lines.data() ? "\nMind: " : "      ") + wrapped(line, kWidth, 6) + '\n';
  }
  return out;
}

}  // namespace kerfdraft::cli
