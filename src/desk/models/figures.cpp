// Figures are read from the solution and its margins; nothing is computed here but flows at room density.
#include "desk/models/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "judge/number_key.h"

namespace kerfdraft::desk {
namespace {

using base::Kind;
using judge::Element;

/// Everything of one state at hand.
struct Sight {
  const Solved& solved;
  std::size_t state;
  base::UnitSystem units;
  const pieces::Pieces& drawing;
  const network::Solution& solution;
  const judge::StateMargins& margins;

  std::string shown(Kind kind, double si) const { return base::formatQuantity(kind, si, units); }
  std::string key(Element element, std::size_t index, std::string quantity, std::size_t piece = 0) const {
    return judge::NumberKey{element, state, index, piece, std::move(quantity)}.text();
  }
  const judge::StateBands* bands() const {
    return state < solved.bands.size() ? &solved.bands[state] : nullptr;
  }
};

std::optional<Sight> sightOf(const Solved& solved, std::size_t state, base::UnitSystem units) {
  if (!solved.assessment || state >= solved.states() || state >= solved.margins.size() ||
      !solved.assessment->states[state].solution.solved()) {
    return std::nullopt;
  }
  return Sight{solved,
               state,
               units,
               *solved.assessment->pieces,
               solved.assessment->states[state].solution,
               solved.margins[state]};
}

std::string between(const Sight& sight, double value, const std::vector<judge::Band> judge::StateBands::*list,
                    std::size_t index, Kind kind) {
  const judge::StateBands* bands = sight.bands();
  if (bands == nullptr || index >= (bands->*list).size()) {
    return {};
  }
  const judge::Band& band = (bands->*list)[index];
  return fmt::format(" (between {} and {})", base::formatNumber(kind, value * band.low, sight.units),
                     base::formatNumber(kind, value * band.high, sight.units));
}

std::string needs(const Sight& sight, const judge::FlowMargin& margin) {
  std::string out;
  if (margin.floor_m3_s) {
    out += fmt::format(", chips need {}", sight.shown(Kind::VolumeFlow, *margin.floor_m3_s));
  }
  if (margin.target_m3_s) {
    out += fmt::format(", dust wants {}", sight.shown(Kind::VolumeFlow, *margin.target_m3_s));
  }
  return out + fmt::format(": {}", judge::toText(margin.served));
}

void addPort(const Sight& sight, std::size_t p, std::vector<Figure>& out) {
  const network::PortResult& result = sight.solution.ports[p];
  const pieces::PortPlace& place = sight.drawing.ports[p];
  std::string value = sight.shown(Kind::VolumeFlow, result.flow_m3_s) +
                      between(sight, result.flow_m3_s, &judge::StateBands::port_flow, p, Kind::VolumeFlow);
  if (p < sight.margins.ports.size()) {
    value += needs(sight, sight.margins.ports[p]);
  }
  out.push_back({"air into " + place.label, std::move(value), sight.key(Element::Port, p, "flow")});
  out.push_back({"speed in " + place.label, sight.shown(Kind::Speed, result.speed_m_s),
                 sight.key(Element::Port, p, "speed")});
  out.push_back({"hood static behind " + place.label, sight.shown(Kind::Pressure, result.hood_static_pa),
                 sight.key(Element::Port, p, "hood-static")});
}

double roomFlow(const Sight& sight, double flow_kg_s) {
  return flow_kg_s / sight.drawing.air.density_kg_m3;
}

const judge::RunMargin* marginOf(const Sight& sight, std::size_t run) {
  const auto at = std::find_if(sight.margins.runs.begin(), sight.margins.runs.end(),
                               [run](const judge::RunMargin& each) { return each.run == run; });
  return at == sight.margins.runs.end() ? nullptr : &*at;
}

void addRun(const Sight& sight, std::size_t r, std::vector<Figure>& out) {
  const network::RunResult& result = sight.solution.runs[r];
  const pieces::Run& run = sight.drawing.runs[r];
  out.push_back({"air at the end of " + run.label,
                 sight.shown(Kind::VolumeFlow, roomFlow(sight, result.flow_end_kg_s)),
                 sight.key(Element::Run, r, "flow-end")});
  std::string slowest = sight.shown(Kind::Speed, result.slowest_m_s);
  if (const judge::RunMargin* margin = marginOf(sight, r)) {
    slowest += between(sight, result.slowest_m_s, &judge::StateBands::run_speed, r, Kind::Speed) +
               fmt::format(", chips need {}{}", sight.shown(Kind::Speed, margin->minimum_m_s),
                           margin->ratio < 1 ? ": too slow" : "");
  }
  out.push_back({"slowest air in " + run.label, std::move(slowest), sight.key(Element::Run, r, "slowest")});
  out.push_back({"static pressure at the end of " + run.label,
                 sight.shown(Kind::Pressure, result.static_end_pa),
                 sight.key(Element::Run, r, "static-end")});
}

void addFan(const Sight& sight, std::size_t f, std::vector<Figure>& out) {
  const network::FanResult& result = sight.solution.fans[f];
  const pieces::Fan& fan = sight.drawing.fans[f];
  out.push_back(
      {"air at the inlet of " + fan.label,
       sight.shown(Kind::VolumeFlow, result.inlet_flow_m3_s) +
           between(sight, result.inlet_flow_m3_s, &judge::StateBands::fan_flow, f, Kind::VolumeFlow),
       sight.key(Element::Fan, f, "inlet-flow")});
  out.push_back({"rise of total pressure in " + fan.label, sight.shown(Kind::Pressure, result.rise_pa),
                 sight.key(Element::Fan, f, "rise")});
  out.push_back({"total pressure before " + fan.label, sight.shown(Kind::Pressure, result.inlet_total_pa),
                 sight.key(Element::Fan, f, "inlet-total")});
}

/// Ids of a key that mean the thing.
bool names(const pieces::PieceKey& key, base::Id id) {
  return key.a == id || key.b == id;
}

}  // namespace

std::vector<Figure> figuresOf(const Solved& solved, std::size_t state, const Thing& thing,
                              base::UnitSystem units) {
  std::vector<Figure> out;
  const auto sight = sightOf(solved, state, units);
  if (!sight) {
    return out;
  }
  switch (thing.kind) {
    case ThingKind::Machine:
    case ThingKind::Port:
      for (std::size_t p = 0; p < sight->drawing.ports.size(); ++p) {
        const shop::PortRef& ref = sight->drawing.ports[p].ref;
        if (ref.machine == thing.id || ref.port == thing.id) {
          addPort(*sight, p, out);
        }
      }
      break;
    case ThingKind::Collector:
      for (std::size_t f = 0; f < sight->drawing.fans.size(); ++f) {
        if (sight->drawing.fans[f].id == thing.id) {
          addFan(*sight, f, out);
        }
      }
      break;
    case ThingKind::Duct:
    case ThingKind::Corner:
    case ThingKind::Gate:
    case ThingKind::Tap:
    case ThingKind::Cleanout: {
      // The pieces of a duct carry its corners' ids.
      std::set<base::Id> ids{thing.id};
      const base::Id duct_id = thing.kind == ThingKind::Duct ? thing.id : thing.parent;
      const shop::Duct* duct = ductOf(*solved.project, duct_id);
      if (duct != nullptr && thing.kind == ThingKind::Duct) {
        for (const shop::Corner& corner : duct->corners) {
          ids.insert(corner.id);
        }
      } else if (duct != nullptr && thing.kind != ThingKind::Corner) {
        const auto hung = [&](const auto& list) {
          for (const auto& each : list) {
            if (each.id == thing.id) {
              ids.insert(each.corner);
            }
          }
        };
        hung(duct->gates);
        hung(duct->taps);
        hung(duct->cleanouts);
      }
      for (std::size_t r = 0; r < sight->drawing.runs.size(); ++r) {
        const std::vector<pieces::Piece>& pieces = sight->drawing.runs[r].pieces;
        if (std::any_of(pieces.begin(), pieces.end(), [&](const pieces::Piece& piece) {
              return std::any_of(ids.begin(), ids.end(), [&](base::Id id) { return names(piece.key, id); });
            })) {
          addRun(*sight, r, out);
        }
      }
      break;
    }
    case ThingKind::Room:
    case ThingKind::Opening:
      for (std::size_t o = 0; o < sight->drawing.openings.size(); ++o) {
        const pieces::Opening& opening = sight->drawing.openings[o];
        if (opening.id == thing.id || names(opening.key, thing.id)) {
          out.push_back(
              {"air through " + opening.label,
               sight->shown(Kind::VolumeFlow, roomFlow(*sight, sight->solution.openings[o].flow_kg_s)),
               sight->key(Element::Opening, o, "flow")});
          out.push_back({"pressure drop of " + opening.label,
                         sight->shown(Kind::Pressure, sight->solution.openings[o].drop_pa),
                         sight->key(Element::Opening, o, "drop")});
        }
      }
      break;
    case ThingKind::Obstacle:
      break;
  }
  return out;
}

std::optional<PieceAt> pieceOf(const pieces::Pieces& drawing, std::string_view element) {
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    for (std::size_t p = 0; p < drawing.runs[r].pieces.size(); ++p) {
      if (drawing.runs[r].pieces[p].key.text() == element) {
        return PieceAt{r, p};
      }
    }
  }
  return std::nullopt;
}

std::vector<std::string> readout(const Solved& solved, std::size_t state, std::string_view element,
                                 base::UnitSystem units) {
  const auto sight = sightOf(solved, state, units);
  if (!sight) {
    return {};
  }
  if (const auto at = pieceOf(sight->drawing, element)) {
    const pieces::Run& run = sight->drawing.runs[at->run];
    const network::PieceResult& result = sight->solution.runs[at->run].pieces[at->piece];
    std::vector<std::string> lines{run.pieces[at->piece].label};
    lines.push_back(fmt::format("{}, {}", sight->shown(Kind::VolumeFlow, roomFlow(*sight, result.flow_kg_s)),
                                sight->shown(Kind::Speed, std::abs(result.speed_m_s))));
    if (const judge::RunMargin* margin = marginOf(*sight, at->run)) {
      lines.push_back(fmt::format("chips need {}{}", sight->shown(Kind::Speed, margin->minimum_m_s),
                                  std::abs(result.speed_m_s) < margin->minimum_m_s ? ": too slow" : ""));
    }
    lines.push_back(fmt::format("static {}, loses {}", sight->shown(Kind::Pressure, result.static_out_pa),
                                sight->shown(Kind::Pressure, result.loss_pa)));
    return lines;
  }
  std::vector<Figure> figures;
  for (std::size_t p = 0; p < sight->drawing.ports.size(); ++p) {
    if (sight->drawing.ports[p].ref.port.text() == element ||
        sight->drawing.ports[p].ref.machine.text() == element) {
      addPort(*sight, p, figures);
    }
  }
  for (std::size_t f = 0; f < sight->drawing.fans.size(); ++f) {
    if (sight->drawing.fans[f].id.text() == element) {
      addFan(*sight, f, figures);
    }
  }
  std::vector<std::string> lines;
  lines.reserve(figures.size());
  for (const Figure& figure : figures) {
    lines.push_back(figure.name + ": " + figure.value);
  }
  constexpr std::size_t kMostLines = 6;
  lines.resize(std::min(lines.size(), kMostLines));
  return lines;
}

std::optional<std::string> numberOfElement(const Solved& solved, std::size_t state,
                                           std::string_view element) {
  const auto sight = sightOf(solved, state, base::UnitSystem::Metric);
  if (!sight) {
    return std::nullopt;
  }
  if (const auto at = pieceOf(sight->drawing, element)) {
    return sight->key(Element::Piece, at->run, "speed", at->piece);
  }
  for (std::size_t p = 0; p < sight->drawing.ports.size(); ++p) {
    if (sight->drawing.ports[p].ref.port.text() == element ||
        sight->drawing.ports[p].ref.machine.text() == element) {
      return sight->key(Element::Port, p, "flow");
    }
  }
  for (std::size_t f = 0; f < sight->drawing.fans.size(); ++f) {
    if (sight->drawing.fans[f].id.text() == element) {
      return sight->key(Element::Fan, f, "inlet-flow");
    }
  }
  return std::nullopt;
}

}  // namespace kerfdraft::desk
