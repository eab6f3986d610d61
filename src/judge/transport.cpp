// Follows chips along the air of a solution; minimum speeds from the catalogue by material and authority.
#include "judge/transport.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "catalogue/machines.h"
#include "judge/margins.h"
#include "physics/air.h"

namespace kerfdraft::judge {

namespace {

constexpr const char* kSubject = "transport-velocity";
constexpr const char* kWorkingRule = "working-rule";  // no authority: the rule of each material
constexpr const char* kUnknownChips = "mixed";

/// Key of the material that a machine throws.
base::Result<std::string> chipsOf(const shop::Machine& machine, const catalogue::Catalogue& catalogue) {
  if (!machine.chips.empty()) {
    return machine.chips;
  }
  if (machine.kind.empty()) {
    return std::string(kUnknownChips);
  }
  auto kind = catalogue::machineKind(catalogue, machine.kind);
  if (!kind) {
    kind.error().where = machine.label;
    return base::Failure(kind.error());
  }
  return kind->chips.empty() ? std::string(kUnknownChips) : kind->chips;
}

std::optional<std::string> chosenAuthority(const shop::Project& project) {
  for (const shop::Policy& policy : project.setting.policies) {
    if (policy.subject == kSubject && !policy.choice.empty() && policy.choice != kWorkingRule) {
      return policy.choice;
    }
  }
  return std::nullopt;
}

/// The authority's figure for one place, the greater where it prints several. False where it prints none.
bool takeAuthority(const std::vector<catalogue::TransportVelocity>& rows, const std::string& authority,
                   TransportNeed& need) {
  double branch = 0;
  double main = 0;
  for (const catalogue::TransportVelocity& row : rows) {
    if (row.authority != authority) {
      continue;
    }
    if (row.place != "main") {
      branch = std::max(branch, row.speed_m_s);
    }
    if (row.place == "main" || row.place == "any") {
      main = std::max(main, row.speed_m_s);
    }
    need.source = row.origin.source;
  }
  if (branch > 0) {
    need.minimum_branch_m_s = branch;
  }
  if (main > 0) {
    need.minimum_main_m_s = main;
  }
  return branch > 0 || main > 0;
}

base::Result<TransportNeed> needOf(const std::string& material, const std::optional<std::string>& authority,
                                   double factor, const catalogue::Catalogue& catalogue) {
  auto rule = catalogue::transportRule(catalogue, material);
  if (!rule) {
    return base::Failure(rule.error());
  }
  TransportNeed need;
  need.material = material;
  need.source = rule->origin.ref;
  need.minimum_branch_m_s = rule->note_below_m_s;
  need.minimum_main_m_s = rule->note_below_m_s;
  if (authority) {
    const auto rows = catalogue::transportVelocities(catalogue, material);
    if (!rows) {
      return base::Failure(rows.error());
    }
    if (!takeAuthority(*rows, *authority, need) && material != kUnknownChips) {
      // What it prints for chips in general holds too, as long as the working rule does not ask for more.
      const auto general = catalogue::transportVelocities(catalogue, kUnknownChips);
      if (!general) {
        return base::Failure(general.error());
      }
      TransportNeed other = need;
      if (takeAuthority(*general, *authority, other) && other.minimum_branch_m_s > need.minimum_branch_m_s) {
        need.source = other.source;
        need.minimum_branch_m_s = other.minimum_branch_m_s;
        need.minimum_main_m_s = std::max(need.minimum_main_m_s, other.minimum_main_m_s);
      }
    }
  }
  need.rule = std::move(*rule);
  for (double* speed : {&need.minimum_branch_m_s, &need.minimum_main_m_s, &need.rule.advised_branch_m_s,
                        &need.rule.advised_main_m_s, &need.rule.note_below_m_s, &need.rule.caution_below_m_s,
                        &need.rule.not_carried_below_m_s}) {
    *speed *= factor;
  }
  return need;
}

/// Where the air of a link arrives, or nothing where it does not move.
std::optional<std::pair<std::size_t, std::size_t>> along(double flow_kg_s, std::size_t from, std::size_t to,
                                                         double least_kg_s) {
  if (std::abs(flow_kg_s) <= least_kg_s) {
    return std::nullopt;
  }
  return flow_kg_s > 0 ? std::pair{from, to} : std::pair{to, from};
}

/// Spreads sets of chips along the air until nothing changes.
class Spreading {
 public:
  Spreading(const Assessment& assessment, std::size_t state)
      : drawing_(*assessment.pieces),
        solution_(assessment.states[state].solution),
        at_node_(drawing_.nodes.size()),
        in_run_(drawing_.runs.size()) {
    double most = 0;
    for (const network::RunResult& run : solution_.runs) {
      most = std::max(most, std::abs(run.flow_end_kg_s));
    }
    least_kg_s_ = 1e-6 * most;  // the leaks of shut gates carry no chips
  }

  void throwInto(std::size_t run, std::size_t chips) { add(in_run_[run], chips); }

  std::vector<std::vector<std::size_t>> spread() {
    do {
      changed_ = false;
      for (std::size_t r = 0; r < drawing_.runs.size(); ++r) {
        passRun(r);
      }
      for (std::size_t f = 0; f < drawing_.fans.size(); ++f) {
        const auto way =
            along(solution_.fans[f].flow_kg_s, drawing_.fans[f].from, drawing_.fans[f].to, least_kg_s_);
        if (way && ducts(way->second)) {
          merge(at_node_[way->first], at_node_[way->second]);
        }
      }
    } while (changed_);
    return std::move(in_run_);
  }

 private:
  /// Chips travel on from here in ducts; in a room or a body they lie.
  bool ducts(std::size_t node) const {
    const pieces::NodeKind kind = drawing_.nodes[node].kind;
    return kind == pieces::NodeKind::Joint || kind == pieces::NodeKind::Junction;
  }

  void passRun(std::size_t r) {
    const pieces::Run& run = drawing_.runs[r];
    const auto way = along(solution_.runs[r].flow_start_kg_s, run.from, run.to, least_kg_s_);
    if (!way || !run.carries_chips) {
      return;
    }
    if (ducts(way->first)) {
      merge(at_node_[way->first], in_run_[r]);
    }
    const bool separated = std::any_of(run.pieces.begin(), run.pieces.end(), [](const pieces::Piece& piece) {
      return piece.key.role == pieces::Role::Separator;
    });
    if (ducts(way->second) && !separated) {
      merge(in_run_[r], at_node_[way->second]);
    }
  }

  void add(std::vector<std::size_t>& set, std::size_t chips) {
    if (std::find(set.begin(), set.end(), chips) == set.end()) {
      set.push_back(chips);
      changed_ = true;
    }
  }

  void merge(const std::vector<std::size_t>& from, std::vector<std::size_t>& into) {
    for (const std::size_t chips : from) {
      add(into, chips);
    }
  }

  const pieces::Pieces& drawing_;
  const network::Solution& solution_;
  std::vector<std::vector<std::size_t>> at_node_;
  std::vector<std::vector<std::size_t>> in_run_;
  double least_kg_s_ = 0;
  bool changed_ = false;
};

}  // namespace

base::Result<TransportNeeds> TransportNeeds::of(const shop::Project& project, double barometric_pa,
                                                const catalogue::Catalogue& catalogue) {
  TransportNeeds out;
  const double factor = std::max(1.0, std::sqrt(physics::kStandardPressure_pa / barometric_pa));
  const std::optional<std::string> authority = chosenAuthority(project);
  if (authority) {
    auto known = catalogue::authority(catalogue, *authority);
    if (!known) {
      known.error().where = "policy transport-velocity";
      return base::Failure(known.error());
    }
  }
  for (const shop::Machine& machine : project.machines) {
    auto material = chipsOf(machine, catalogue);
    if (!material) {
      return base::Failure(material.error());
    }
    auto found = std::find_if(out.needs_.begin(), out.needs_.end(),
                              [&](const TransportNeed& need) { return need.material == *material; });
    if (found == out.needs_.end()) {
      auto need = needOf(*material, authority, factor, catalogue);
      if (!need) {
        need.error().where = machine.label;
        return base::Failure(need.error());
      }
      out.needs_.push_back(std::move(*need));
      found = out.needs_.end() - 1;
    }
    out.by_machine_.push_back(static_cast<std::size_t>(found - out.needs_.begin()));
  }
  return out;
}

std::vector<std::vector<std::size_t>> travellingChips(const Assessment& assessment, std::size_t state,
                                                      const TransportNeeds& needs) {
  const pieces::Pieces& drawing = *assessment.pieces;
  const StateResult& now = assessment.states[state];
  Spreading spreading(assessment, state);
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    const pieces::PortPlace& port = drawing.ports[p];
    if (!(now.solution.ports[p].flow_m3_s > 0) || !isOpen(drawing, now.situation, p)) {
      continue;
    }
    for (std::size_t m = 0; m < assessment.project->machines.size(); ++m) {
      if (assessment.project->machines[m].id == port.ref.machine) {
        spreading.throwInto(port.run, needs.ofMachine(m));
      }
    }
  }
  return spreading.spread();
}

}  // namespace kerfdraft::judge
