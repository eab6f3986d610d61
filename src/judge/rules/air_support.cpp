// Ways from ports to their needs, their sheets and what was drawn.
#include "judge/rules/air_support.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include "catalogue/ducts.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Where only a target is given, less than this share of what counts as met is serious (ours).
constexpr double kGraveShare = 0.5;
/// Two bores that are one.
constexpr double kSameBore_m = 1e-6;

constexpr double kMostBadness = 10;
/// Sizes nearer than this are the same choice (ours: 150 mm beside 140 mm is no remedy of its own).
constexpr double kWider = 1.08;
template <class Items>
const typename Items::value_type* byId(const Items& items, base::Id id) {
  const auto found =
      std::find_if(items.begin(), items.end(), [&](const auto& item) { return item.id == id; });
  return found == items.end() || !id.valid() ? nullptr : &*found;
}

/// The part of its machine's air that a port has: by flow, evenly where the flows have no sum to share.
double portShare(const StateMargins& margins, const FlowMargin& machine, std::size_t port) {
  double sum_m3_s = 0;
  std::size_t open = 0;
  bool all_forward = true;
  for (const FlowMargin& each : margins.ports) {
    if (each.ref.machine == machine.ref.machine && each.open) {
      sum_m3_s += each.flow_m3_s;
      all_forward = all_forward && each.flow_m3_s >= 0;
      ++open;
    }
  }
  if (all_forward && sum_m3_s > 0) {
    return margins.ports[port].flow_m3_s / sum_m3_s;
  }
  return open > 0 ? 1.0 / static_cast<double>(open) : 1.0;
}

double missing(const PortNeed& need) {
  return need.needed_m3_s > 0 ? need.flow_m3_s / need.needed_m3_s : 1;
}

bool inUse(const shop::Project& project, double bore_m) {
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Corner& corner : duct.corners) {
      if (corner.leg && std::abs(corner.leg->bore.si() - bore_m) < kSameBore_m) {
        return true;
      }
    }
  }
  return false;
}

std::vector<double> sizesOf(const Evidence& evidence, bool plastic) {
  std::vector<double> sizes;
  const auto add = [&](const char* system, double above_m) {
    for (const catalogue::Bore& bore : catalogue::boresOf(evidence.catalogue, system)) {
      if (bore.bore_m > above_m) {
        sizes.push_back(bore.bore_m);
      }
    }
  };
  if (plastic && evidence.project().setting.units == base::UnitSystem::Us) {
    add("plastic", 0);
  }
  add(evidence.project().setting.units == base::UnitSystem::Us ? "inch" : "metric",
      sizes.empty() ? 0 : sizes.back());
  return sizes;
}

/// A gate that only the air of `other` passes.
std::optional<std::size_t> ownGate(const Evidence& evidence, std::size_t state, std::size_t other,
                                   std::size_t port) {
  const std::vector<std::size_t> kept = evidence.path(state, port);
  for (const std::size_t run : evidence.path(state, other)) {
    if (std::find(kept.begin(), kept.end(), run) != kept.end()) {
      continue;
    }
    for (const pieces::Piece& piece : evidence.pieces().runs[run].pieces) {
      if (piece.gate >= 0) {
        return static_cast<std::size_t>(piece.gate);
      }
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<PortNeed> needOf(const FlowMargin& margin, double high) {
  if (!margin.open || (!margin.floor_m3_s && !margin.target_m3_s)) {
    return std::nullopt;
  }
  PortNeed need;
  need.floor = margin.floor_m3_s && (margin.flow_m3_s < *margin.floor_m3_s || !margin.target_m3_s);
  need.only = !margin.floor_m3_s;
  need.needed_m3_s = need.floor ? *margin.floor_m3_s : kTargetShare * *margin.target_m3_s;
  need.flow_m3_s = margin.flow_m3_s;
  need.missed = margin.flow_m3_s < need.needed_m3_s;
  need.sure = need.missed && margin.flow_m3_s * (margin.flow_m3_s > 0 ? high : 1) < need.needed_m3_s;
  return need;
}

bool anyCollectorRuns(const Evidence& evidence, std::size_t state) {
  const network::Solution& solution = evidence.state(state).solution;
  for (std::size_t f = 0; f < solution.fans.size(); ++f) {
    if (solution.fans[f].running && evidence.pieces().fans[f].key.role == pieces::Role::Fan) {
      return true;
    }
  }
  return false;
}

std::optional<PortNeed> portNeed(const Evidence& evidence, std::size_t state, std::size_t port) {
  const StateMargins& margins = evidence.margins[state];
  if (!margins.solved || port >= margins.ports.size() || !margins.ports[port].open ||
      !anyCollectorRuns(evidence, state)) {
    return std::nullopt;
  }
  const double high = evidence.flowBand(state, port).high;
  std::optional<PortNeed> worst = needOf(margins.ports[port], high);
  for (const FlowMargin& machine : margins.machines) {
    if (machine.ref.machine != margins.ports[port].ref.machine) {
      continue;
    }
    auto need = needOf(machine, high);
    if (need) {
      const double share = portShare(margins, machine, port);
      need->needed_m3_s *= share;
      need->flow_m3_s *= share;
    }
    if (need && need->needed_m3_s > 0 && (!worst || missing(*need) < missing(*worst))) {
      worst = need;
    }
  }
  if (worst) {
    worst->port = port;
  }
  return worst;
}

bool ofUse(const Evidence& evidence, std::size_t state) {
  return evidence.state(state).declared ||
         (evidence.pieces().gates.empty() && evidence.pieces().moved.empty());
}

Severity severityOf(const Evidence& evidence, std::size_t state, const PortNeed& need) {
  const bool use = ofUse(evidence, state);
  if (!need.missed) {
    return Severity::Note;
  }
  const Severity gravest = use ? Severity::Serious : Severity::Caution;
  if (need.floor) {
    return need.sure ? gravest : Severity::Caution;
  }
  if (!need.sure) {
    return Severity::Note;
  }
  return need.only && need.flow_m3_s < kGraveShare * need.needed_m3_s ? gravest : Severity::Caution;
}

Severity severityAt(const Evidence& evidence, std::size_t state, std::size_t port) {
  const auto need = portNeed(evidence, state, port);
  return need ? severityOf(evidence, state, *need) : Severity::Note;
}

bool isFan(const SheetRow& row) {
  return row.key.role == pieces::Role::Fan || row.key.role == pieces::Role::Blower;
}

std::optional<Way> wayOf(const Evidence& evidence, std::size_t state, std::size_t port) {
  if (state >= evidence.sheets.size() || port >= evidence.sheets[state].size()) {
    return std::nullopt;
  }
  const std::optional<Sheet>& sheet = evidence.sheets[state][port];
  if (!sheet || sheet->fans.empty()) {
    return std::nullopt;
  }
  Way way{sheet->rows, sheet->lost_pa};
  return way.lost_pa > 0 && std::isfinite(way.lost_pa) ? std::optional(way) : std::nullopt;
}

double shareOf(const Way& way, double loss_pa) {
  return loss_pa / way.lost_pa;
}

const shop::Duct* ductOfPiece(const Evidence& evidence, const pieces::PieceKey& key) {
  using pieces::Role;
  if (key.role == Role::Reducer || key.role == Role::Entry || key.role == Role::Outlet) {
    const shop::Duct* at_corner = evidence.ductOfCorner(key.a);
    return at_corner != nullptr ? at_corner : evidence.duct(key.a);
  }
  if (key.role != Role::Straight && key.role != Role::Hose && key.role != Role::Elbow &&
      key.role != Role::HoseBend && key.role != Role::Gate && key.role != Role::Saddle) {
    return nullptr;
  }
  for (const base::Id id : {key.a, key.b}) {
    if (const shop::Duct* of_corner = evidence.ductOfCorner(id)) {
      return of_corner;
    }
  }
  // A stretch between two gates, or a gate itself.
  for (const shop::Duct& duct : evidence.project().ducts) {
    if (byId(duct.gates, key.a) != nullptr) {
      return &duct;
    }
  }
  return nullptr;
}

std::optional<DuctLeg> legOfPiece(const Evidence& evidence, const pieces::PieceKey& key) {
  using pieces::Role;
  const shop::Duct* duct = ductOfPiece(evidence, key);
  if (duct == nullptr || (key.role != Role::Straight && key.role != Role::Hose && key.role != Role::Gate)) {
    return std::nullopt;
  }
  const shop::Gate* gate = byId(duct->gates, key.a);
  const base::Id begins = gate != nullptr ? gate->corner : key.a;
  for (std::size_t i = 0; i + 1 < duct->corners.size(); ++i) {
    const auto& leg = duct->corners[legGivenAt(*duct, i)].leg;
    if (duct->corners[i].id == begins && leg) {
      return DuctLeg{duct, i, &*leg};
    }
  }
  return std::nullopt;
}

std::size_t legGivenAt(const shop::Duct& duct, std::size_t corner) {
  std::size_t given_at = 0;
  for (std::size_t i = 0; i <= corner && i < duct.corners.size(); ++i) {
    if (duct.corners[i].leg) {
      given_at = i;
    }
  }
  return given_at;
}

std::string ductName(const shop::Duct& duct) {
  if (duct.label.empty() || duct.name.empty()) {
    return duct.label.empty() ? (duct.name.empty() ? "a duct" : duct.name) : duct.label;
  }
  return duct.label + " " + duct.name;
}

const shop::Port* enteredPort(const Evidence& evidence, const shop::PortRef& ref) {
  const shop::Machine* machine = evidence.machine(ref.machine);
  return machine == nullptr ? nullptr : byId(machine->ports, ref.port);
}

std::optional<std::size_t> runOfLabel(const Evidence& evidence, const std::string& label) {
  const auto& runs = evidence.pieces().runs;
  for (std::size_t r = 0; r < runs.size() && !label.empty(); ++r) {
    if (runs[r].label == label) {
      return r;
    }
  }
  return std::nullopt;
}

std::vector<double> soldAbove(const Evidence& evidence, double bore_m, bool plastic, std::size_t most) {
  const std::vector<double> sizes = sizesOf(evidence, plastic);
  std::vector<double> out;
  double last_m = bore_m;
  for (std::size_t i = 0; i < sizes.size() && out.size() < most; ++i) {
    if (sizes[i] < kWider * last_m) {
      continue;
    }
    double chosen_m = sizes[i];
    for (std::size_t k = i; k < sizes.size() && sizes[k] < kWider * sizes[i]; ++k) {
      if (inUse(evidence.project(), sizes[k])) {
        chosen_m = sizes[k];
        break;
      }
    }
    out.push_back(chosen_m);
    last_m = chosen_m;
  }
  return out;
}

bool isPlastic(const Evidence& evidence, const shop::Leg& leg) {
  if (leg.hose) {
    return false;
  }
  const auto row = catalogue::construction(evidence.catalogue, leg.construction);
  return row && row->plastic;
}

std::optional<Remedy> shutOther(const Evidence& evidence, std::size_t state, std::size_t other,
                                std::size_t port) {
  const auto gate = ownGate(evidence, state, other, port);
  if (!gate || !evidence.state(state).declared) {
    return std::nullopt;
  }
  const pieces::Pieces& drawing = evidence.pieces();
  Remedy remedy;
  remedy.kind = "shut-gate";
  remedy.words = {drawing.gates[*gate].label, evidence.machineName(drawing.ports[other].ref.machine),
                  evidence.machineName(drawing.ports[port].ref.machine)};
  remedy.change = Change{ChangeKind::GateShut, drawing.gates[*gate].id, evidence.state(state).id, 0, false};
  return remedy;
}

double shortBadness(double needed, double got) {
  return got * (1 + kMostBadness) <= needed ? kMostBadness : badnessOf(needed / got);
}

double shareBadness(double share, double limit) {
  return badnessOf(share / limit);
}

}  // namespace kerfdraft::judge
