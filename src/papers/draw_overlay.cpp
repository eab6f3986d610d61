// Fills an overlay from a solution and its margins; the only place where both are known.
#include "papers/draw_overlay.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "drawing/units_text.h"

namespace kerfdraft::papers {
namespace {

using base::Kind;
using drawing::Grade;
using drawing::shortText;
using judge::FlowMargin;
using judge::Served;

/// What leaks into a shut duct moves slower than this; it is not drawn as moving air.
constexpr double kStill_m_s = 1.5;

class Filler {
 public:
  Filler(const judge::Assessment& assessment, std::size_t state, const judge::StateMargins& margins,
         base::UnitSystem units, const judge::StateBands* bands)
      : project_(*assessment.project),
        pieces_(*assessment.pieces),
        state_(assessment.states[state]),
        margins_(margins),
        units_(units),
        bands_(bands) {}

  drawing::Overlay fill() {
    places();
    if (!state_.solution.solved()) {
      return std::move(out_);
    }
    out_.judged = true;
    runs();
    needs();
    fans();
    return std::move(out_);
  }

 private:
  std::string shown(Kind kind, double si) const { return shortText(kind, si, units_); }
  std::string flow(double m3_s) const { return shown(Kind::VolumeFlow, m3_s); }
  /// With spaces at which no line breaks.
  static std::string unbroken(const std::string& text) {
    std::string out;
    for (const char c : text) {
      out += c == ' ' ? std::string("\u00A0") : std::string(1, c);
    }
    return out;
  }

  /// "540 to 690 cfm": both ends of a band; empty where none is known.
  std::string between(Kind kind, double si, const std::vector<judge::Band> judge::StateBands::*of,
                      std::size_t index) const {
    if (bands_ == nullptr || index >= (bands_->*of).size()) {
      return {};
    }
    const judge::Band& band = (bands_->*of)[index];
    return band.low == band.high ? std::string()
                                 : base::formatNumber(kind, std::max(0.0, band.low) * si, units_) + " to " +
                                       shown(kind, band.high * si);
  }

  std::string speed(double m_s) const { return shown(Kind::Speed, m_s); }

  /// What is set by hand: gates, hoses, doors.
  void places() {
    const network::Situation& situation = state_.situation;
    for (std::size_t g = 0; g < pieces_.gates.size(); ++g) {
      out_.gate_travel[pieces_.gates[g].id] = situation.gate_travel[g];
    }
    for (std::size_t m = 0; m < pieces_.moved.size(); ++m) {
      if (situation.hose_place[m] >= 0) {
        out_.hose_place[pieces_.moved[m].duct] = static_cast<std::size_t>(situation.hose_place[m]);
      }
    }
    for (std::size_t o = 0; o < pieces_.openings.size(); ++o) {
      if (pieces_.openings[o].id.valid()) {
        out_.openings_open[pieces_.openings[o].id] = situation.opening_open[o] != 0;
      }
    }
  }

  const judge::RunMargin* marginOf(std::size_t run) const {
    const auto found = std::find_if(margins_.runs.begin(), margins_.runs.end(),
                                    [&](const judge::RunMargin& m) { return m.run == run; });
    return found == margins_.runs.end() ? nullptr : &*found;
  }

  static Grade gradeOf(double speed_m_s, const judge::RunMargin* margin) {
    if (margin != nullptr && margin->minimum_m_s > 0) {
      return drawing::gradeOf(std::abs(speed_m_s) / margin->minimum_m_s);
    }
    return std::abs(speed_m_s) < kStill_m_s ? Grade::Still : Grade::NotJudged;
  }

  void runs() {
    for (std::size_t r = 0; r < pieces_.runs.size(); ++r) {
      const pieces::Run& run = pieces_.runs[r];
      const network::RunResult& result = state_.solution.runs[r];
      const judge::RunMargin* margin = marginOf(r);
      const double flow_m3_s = std::abs(result.flow_end_kg_s) / pieces_.air.density_kg_m3;
      drawing::RunMark mark;
      mark.grade = Grade::Still;
      double fastest_m_s = 0;
      double slowest_m_s = 0;
      double slowest_bore_m = 0;
      for (std::size_t p = 0; p < run.pieces.size(); ++p) {
        const pieces::Piece& piece = run.pieces[p];
        if (piece.key.role != pieces::Role::Straight && piece.key.role != pieces::Role::Hose) {
          continue;
        }
        const double speed_m_s = result.pieces[p].speed_m_s;
        drawing::PieceMark of_piece;
        of_piece.grade = gradeOf(speed_m_s, margin);
        of_piece.along = of_piece.grade == Grade::Still ? 0 : speed_m_s > 0 ? 1 : -1;
        of_piece.tooltip = of_piece.grade == Grade::Still
                               ? "no air but leakage"
                               : flow(flow_m3_s) + ", " + speed(std::abs(speed_m_s));
        if (const std::string band =
                between(Kind::Speed, std::abs(speed_m_s), &judge::StateBands::run_speed, r);
            !band.empty() && of_piece.grade != Grade::Still) {
          of_piece.tooltip += " (" + band + ")";
        }
        if (margin != nullptr) {
          of_piece.tooltip += fmt::format("; {} needs {}", margin->material, speed(margin->minimum_m_s));
        }
        out_.pieces[piece.key] = of_piece;
        if (slowest_bore_m == 0 || std::abs(speed_m_s) < slowest_m_s) {
          slowest_m_s = std::abs(speed_m_s);
          slowest_bore_m = piece.bore_m;
          mark.slowest = piece.key;
        }
        fastest_m_s = std::max(fastest_m_s, std::abs(speed_m_s));
      }
      if (slowest_bore_m == 0) {
        continue;
      }
      mark.grade = gradeOf(margin != nullptr ? slowest_m_s : fastest_m_s, margin);
      if (mark.grade != Grade::Still) {
        mark.lines.push_back(flow(flow_m3_s));
        mark.lines.push_back(speed(slowest_m_s) + ", " + drawing::boreText(slowest_bore_m, units_));
        if (mark.grade == Grade::FarBelow || mark.grade == Grade::Below) {
          mark.lines.push_back("needs " + speed(margin->minimum_m_s));
        }
      }
      out_.runs[run.key] = std::move(mark);
    }
  }

  /// The grade of what a port or machine gets: chips first, then the fine dust.
  static Grade gradeOf(const FlowMargin& margin) {
    switch (margin.served) {
      case Served::Shut:
        return Grade::Still;
      case Served::NothingAsked:
        return Grade::NotJudged;
      case Served::Short: {
        const double need = margin.floor_m3_s.value_or(margin.target_m3_s.value_or(0));
        return need > 0 && margin.flow_m3_s < drawing::kBelowFrom * need ? Grade::FarBelow : Grade::Below;
      }
      case Served::FloorMet:
        return Grade::Just;
      case Served::TargetMet:
        return margin.target_m3_s && margin.flow_m3_s >= drawing::kPlentyFrom * *margin.target_m3_s
                   ? Grade::Plenty
                   : Grade::Ample;
    }
    return Grade::NotJudged;
  }

  static std::string verdict(const FlowMargin& margin) {
    switch (margin.served) {
      case Served::Short:
        return "too little";
      case Served::FloorMet:
        return margin.target_m3_s ? "chips carried, target not met" : "chips carried";
      case Served::TargetMet:
        return "target met";
      default:
        return {};
    }
  }

  drawing::NeedMark markOf(const FlowMargin& margin) const {
    drawing::NeedMark mark;
    mark.grade = gradeOf(margin);
    if (!margin.open) {
      mark.tooltip = "shut in this state";
      return mark;
    }
    // Each part holds together when a label is broken into narrower lines.
    std::string line = unbroken(flow(margin.flow_m3_s));
    // The target is what a person wants to hear of; the floor only where it is missed or stands alone.
    if (margin.served != Served::Short && margin.target_m3_s) {
      line += " " + unbroken("of " + flow(*margin.target_m3_s));
    } else if (const auto need = margin.floor_m3_s ? margin.floor_m3_s : margin.target_m3_s) {
      line += ", " + unbroken("needs " + flow(*need));
    }
    mark.lines.push_back(line);
    mark.tooltip = line;
    if (margin.port) {
      if (const std::string band =
              between(Kind::VolumeFlow, margin.flow_m3_s, &judge::StateBands::port_flow, *margin.port);
          !band.empty()) {
        mark.lines.push_back(unbroken("(" + band + ")"));
      }
    }
    if (const std::string words = verdict(margin); !words.empty()) {
      mark.lines.push_back(words);
      mark.tooltip += ": " + words;
    }
    return mark;
  }

  void needs() {
    for (const FlowMargin& margin : margins_.ports) {
      drawing::NeedMark mark = markOf(margin);
      // The run behind a port tells its flow; the port speaks up where that is not enough.
      if (margin.served != Served::Short) {
        mark.lines.clear();
      }
      out_.ports[margin.ref.port] = std::move(mark);
    }
    for (const shop::Machine& machine : project_.machines) {
      drawing::NeedMark mark;
      const auto own = std::find_if(margins_.machines.begin(), margins_.machines.end(),
                                    [&](const FlowMargin& m) { return m.ref.machine == machine.id; });
      const bool has_own = own != margins_.machines.end() && own->open;
      std::vector<const FlowMargin*> ports;
      for (const FlowMargin& margin : margins_.ports) {
        if (margin.ref.machine == machine.id && margin.open) {
          ports.push_back(&margin);
        }
      }
      if (has_own) {
        mark = markOf(*own);
      } else if (ports.size() == 1 && machine.ports.size() == 1) {
        mark = markOf(*ports.front());
      } else if (ports.empty()) {
        mark.grade = Grade::Still;
        mark.tooltip = machine.ports.empty() ? "no port" : "shut in this state";
      } else {
        // The ports tell their own needs; the machine is as well served as its worst port.
        double sum = 0;
        mark.grade = Grade::NotJudged;
        for (const FlowMargin* port : ports) {
          sum += port->flow_m3_s;
          if (const Grade grade = gradeOf(*port); grade < mark.grade) {
            mark.grade = grade;
          }
        }
        mark.lines = {flow(sum) + " in all"};
        mark.tooltip = mark.lines.front();
      }
      out_.machines[machine.id] = std::move(mark);
    }
  }

  /// Static pressure in the duct that ends at a fan's inlet, or the total there.
  double inletPressure(std::size_t fan) const {
    for (std::size_t r = 0; r < pieces_.runs.size(); ++r) {
      if (pieces_.runs[r].to == pieces_.fans[fan].from && !pieces_.runs[r].pieces.empty()) {
        return state_.solution.runs[r].static_end_pa;
      }
    }
    return state_.solution.fans[fan].inlet_total_pa;
  }

  void fans() {
    for (std::size_t f = 0; f < pieces_.fans.size(); ++f) {
      const network::FanResult& result = state_.solution.fans[f];
      drawing::FanMark mark;
      mark.running = result.running;
      if (result.backward) {
        mark.lines.push_back(flow(std::abs(result.inlet_flow_m3_s)) + " backward");
      } else if (result.running) {
        mark.lines.push_back(flow(result.inlet_flow_m3_s));
        if (const std::string band =
                between(Kind::VolumeFlow, result.inlet_flow_m3_s, &judge::StateBands::fan_flow, f);
            !band.empty()) {
          mark.lines.push_back(unbroken("(" + band + ")"));
        }
        mark.lines.push_back("suction " + shown(Kind::Pressure, -inletPressure(f)));
      }
      out_.fans[pieces_.fans[f].id] = std::move(mark);
    }
  }

  const shop::Project& project_;
  const pieces::Pieces& pieces_;
  const judge::StateResult& state_;
  const judge::StateMargins& margins_;
  base::UnitSystem units_;
  const judge::StateBands* bands_;
  drawing::Overlay out_;
};

}  // namespace

drawing::Overlay overlayOf(const judge::Assessment& assessment, std::size_t state,
                           const judge::StateMargins& margins, base::UnitSystem units,
                           const judge::StateBands* bands) {
  return Filler(assessment, state, margins, units, bands).fill();
}

}  // namespace kerfdraft::papers
