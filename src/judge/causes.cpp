// The table of causes.
#include "judge/causes.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace kerfdraft::judge {

namespace {

// What a person can do at once stands before what must be built, and what stands at one machine before what
// all share.
constexpr auto kRows = std::to_array<CauseRow>({
    {"port-short", "part-open-gate", Relation::OnPath, Proof::Tried, true},
    {"port-short", "filter-due", Relation::SamePort, Proof::Tried, true},
    {"port-short", "blows-back", Relation::SamePort, Proof::Tried, false},
    {"port-short", "sealed-body", Relation::SameMachine, Proof::Tried, true},
    {"port-short", "small-duct", Relation::OnPath, Proof::Tried, true},
    {"port-short", "small-port", Relation::SamePort, Proof::Tried, true},
    {"port-short", "hose-slack", Relation::OnPath, Proof::Tried, true},
    {"port-short", "hose-heavy", Relation::OnPath, Proof::Tried, true},
    {"port-short", "reducer-backwards", Relation::OnPath, Proof::Tried, true},
    {"port-short", "crowded-inlet", Relation::OnPath, Proof::Tried, true},
    {"port-short", "close-elbows", Relation::OnPath, Proof::Tried, true},
    {"port-short", "not-together", Relation::SamePort, Proof::Tried, true},
    {"port-short", "branch-rivalry", Relation::SamePort, Proof::Tried, true},
    {"port-short", "steep-entry", Relation::OnPath, Proof::Taken, true},
    {"port-short", "opposed-entries", Relation::SamePort, Proof::Taken, true},
    {"port-short", "unstable-part", Relation::SamePort, Proof::Taken, false},
    {"port-short", "weak-fan", Relation::SamePort, Proof::Taken, true},

    {"chips-settle", "port-short", Relation::OnPath, Proof::Served, false},
    {"chips-settle", "part-open-gate", Relation::OnPath, Proof::Tried, true},
    {"chips-settle", "filter-due", Relation::SamePort, Proof::Tried, true},
    {"chips-settle", "blows-back", Relation::SamePort, Proof::Tried, false},
    {"chips-settle", "sealed-body", Relation::SamePort, Proof::Tried, true},
    {"chips-settle", "small-duct", Relation::OnPath, Proof::Tried, true},
    {"chips-settle", "small-port", Relation::SamePort, Proof::Tried, true},
    {"chips-settle", "hose-slack", Relation::OnPath, Proof::Tried, true},
    {"chips-settle", "hose-heavy", Relation::OnPath, Proof::Tried, true},
    {"chips-settle", "crowded-inlet", Relation::OnPath, Proof::Tried, true},
    {"chips-settle", "branch-rivalry", Relation::SamePort, Proof::Tried, true},

    {"weak-indraught", "port-short", Relation::SameMachine, Proof::Certain, true},
    {"weak-indraught", "small-port", Relation::SameMachine, Proof::Tried, true},
    {"weak-indraught", "small-duct", Relation::OnPath, Proof::Tried, true},
    {"weak-indraught", "hose-slack", Relation::OnPath, Proof::Tried, true},
    {"weak-indraught", "hose-heavy", Relation::OnPath, Proof::Tried, true},
    {"weak-indraught", "not-together", Relation::SameMachine, Proof::Tried, true},
    {"weak-indraught", "branch-rivalry", Relation::SameMachine, Proof::Tried, true},

    {"path-loss", "port-short", Relation::SamePort, Proof::Certain, true},
    {"flat-sack", "hose-slack", Relation::OnPath, Proof::Certain, true},
    {"label-only", "impossible-label", Relation::SamePiece, Proof::Certain, true},
    {"not-together", "branch-rivalry", Relation::SamePort, Proof::Certain, true},
});

template <class T>
bool meet(const std::set<T>& a, const std::set<T>& b) {
  return std::any_of(a.begin(), a.end(), [&](const T& each) { return b.contains(each); });
}

}  // namespace

std::span<const CauseRow> causeRows() {
  return kRows;
}

bool isSymptom(std::string_view rule) {
  return std::any_of(kRows.begin(), kRows.end(),
                     [&](const CauseRow& row) { return row.symptom == rule && row.proof == Proof::Tried; });
}

Reach reachOf(const Evidence& evidence, const Finding& finding) {
  Reach reach;
  const pieces::Pieces& drawing = evidence.pieces();
  reach.runs.insert(finding.runs.begin(), finding.runs.end());
  for (std::size_t r = 0; r < drawing.runs.size() && reach.runs.empty(); ++r) {
    const auto& pieces = drawing.runs[r].pieces;
    if (drawing.runs[r].key == finding.key ||
        std::any_of(pieces.begin(), pieces.end(),
                    [&](const pieces::Piece& piece) { return piece.key == finding.key; })) {
      reach.runs.insert(r);
    }
  }
  reach.ports.insert(finding.ports.begin(), finding.ports.end());
  reach.path = reach.runs;
  const bool own_ports = !finding.ports.empty();
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (finding.state && *finding.state != s) {
      continue;
    }
    for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
      const std::vector<std::size_t> path = evidence.path(s, p);
      const bool passes = own_ports ? reach.ports.contains(p)
                                    : std::any_of(path.begin(), path.end(),
                                                  [&](std::size_t run) { return reach.runs.contains(run); });
      if (passes) {
        reach.ports.insert(p);
        reach.path.insert(path.begin(), path.end());
      }
    }
  }
  for (const std::size_t port : reach.ports) {
    reach.machines.insert(drawing.ports[port].ref.machine);
  }
  if (evidence.machine(finding.key.a) != nullptr) {
    reach.machines.insert(finding.key.a);
  }
  return reach;
}

bool related(Relation relation, const Finding& symptom, const Reach& of_symptom, const Finding& cause,
             const Reach& of_cause) {
  if (symptom.state && cause.state && symptom.state != cause.state) {
    return false;
  }
  switch (relation) {
    case Relation::OnPath:
      return meet(of_symptom.path, of_cause.runs);
    case Relation::SamePort:
      return meet(of_symptom.ports, of_cause.ports);
    case Relation::SameMachine:
      return meet(of_symptom.machines, of_cause.machines);
    case Relation::SamePiece:
      return symptom.key == cause.key;
  }
  return false;
}

}  // namespace kerfdraft::judge
