// Index of the project and the small helpers of the build.
#include "pieces/draft.h"

#include <fmt/format.h>

#include <utility>

namespace kerfdraft::pieces {

namespace {

template <class Items>
std::map<Id, std::size_t> indexOf(const Items& items) {
  std::map<Id, std::size_t> index;
  for (std::size_t i = 0; i < items.size(); ++i) {
    index.emplace(items[i].id, i);
  }
  return index;
}

std::size_t find(const std::map<Id, std::size_t>& index, Id id, const char* what) {
  const auto found = index.find(id);
  base::check(found != index.end(), what);
  return found->second;
}

}  // namespace

Draft::Draft(const shop::Project& the_project, const catalogue::Catalogue& the_catalogue)
    : project(the_project),
      catalogue(the_catalogue),
      machine_index_(indexOf(the_project.machines)),
      duct_index_(indexOf(the_project.ducts)),
      collector_index_(indexOf(the_project.collectors)) {}

std::size_t Draft::machine(Id id) const {
  return find(machine_index_, id, "a machine that is not in the project was asked for");
}

std::size_t Draft::duct(Id id) const {
  return find(duct_index_, id, "a duct that is not in the project was asked for");
}

std::size_t Draft::collector(Id id) const {
  return find(collector_index_, id, "a collector that is not in the project was asked for");
}

const shop::Port& Draft::port(const shop::PortRef& ref) const {
  for (const shop::Port& port : project.machines[machine(ref.machine)].ports) {
    if (port.id == ref.port) {
      return port;
    }
  }
  throw base::InternalError("a port that is not on its machine was asked for");
}

std::size_t Draft::roomNode(Id room) const {
  return room.valid() ? find(room_node, room, "a room that is not in the project was asked for") : 0;
}

std::size_t Draft::addNode(NodeKind kind, PieceKey key, std::string label) {
  Node node;
  node.kind = kind;
  node.key = key;
  node.label = std::move(label);
  out.nodes.push_back(std::move(node));
  return out.nodes.size() - 1;
}

std::size_t Draft::addRun(Run run, std::vector<DraftPiece> pieces) {
  std::vector<WallLeak> leaks;
  leaks.reserve(pieces.size());
  run.pieces.reserve(pieces.size());
  for (DraftPiece& draft : pieces) {
    if (draft.piece.gate >= 0) {
      GatePlace& gate = out.gates[static_cast<std::size_t>(draft.piece.gate)];
      gate.run = out.runs.size();
      gate.piece = run.pieces.size();
    }
    leaks.push_back(draft.leak);
    run.pieces.push_back(std::move(draft.piece));
  }
  wall_leaks.push_back(std::move(leaks));
  out.runs.push_back(std::move(run));
  return out.runs.size() - 1;
}

void Draft::note(PieceKey key, std::string text) {
  out.notes.push_back(Note{key, std::move(text)});
}

std::string Draft::say(base::Kind kind, double si) const {
  return base::formatQuantity(kind, si, project.setting.units);
}

std::string named(const std::string& label, const std::string& name) {
  if (label.empty()) {
    return name;
  }
  return name.empty() ? label : fmt::format("{} {}", label, name);
}

std::string portLabel(const shop::Machine& machine, const shop::Port& port) {
  const std::string& what = port.name.empty() ? port.label : port.name;
  return named(machine.label.empty() ? machine.name : machine.label, what);
}

Source sourceOf(const catalogue::Origin& origin, std::string formula) {
  return Source{std::move(formula), fmt::format("{} ({})", origin.source, origin.ref), origin.status};
}

Source enteredSource(const std::string& text, const std::string& source) {
  return Source{fmt::format("entered: {}", text), source, base::SourceStatus::Ours};
}

}  // namespace kerfdraft::pieces
