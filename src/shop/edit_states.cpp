// Edits of states of use, circuits and accepted findings.
#include "shop/edit_parts.h"

namespace kerfdraft::shop {

using base::Result;

Result<void> make(Project& project, const PutState& edit) {
  put(project.states, edit.state);
  return {};
}

Result<void> make(Project& project, const RemoveState& edit) {
  const auto at = whereIs(project.states, edit.state);
  if (at == project.states.end()) {
    return notThere("state", edit.state);
  }
  project.states.erase(at);
  std::erase_if(project.accepted, [&](const Acceptance& each) { return each.state == edit.state; });
  return {};
}

Result<void> make(Project& project, const OrderState& edit) {
  const auto at = whereIs(project.states, edit.state);
  if (at == project.states.end()) {
    return notThere("state", edit.state);
  }
  State state = std::move(*at);
  project.states.erase(at);
  const auto place = static_cast<std::ptrdiff_t>(std::min(edit.place, project.states.size()));
  project.states.insert(project.states.begin() + place, std::move(state));
  return {};
}

Result<void> make(Project& project, const SetTravel& edit) {
  State* state = find(project.states, edit.state);
  if (state == nullptr) {
    return notThere("state", edit.state);
  }
  const auto at = std::find_if(state->gates.begin(), state->gates.end(),
                               [&](const GateSetting& each) { return each.gate == edit.gate; });
  if (at != state->gates.end()) {
    at->travel = edit.travel;
  } else {
    state->gates.push_back({edit.gate, edit.travel});
  }
  return {};
}

Result<void> make(Project& project, const PutCircuit& edit) {
  put(project.circuits, edit.circuit);
  return {};
}

Result<void> make(Project& project, const RemoveCircuit& edit) {
  const auto at = whereIs(project.circuits, edit.circuit);
  if (at == project.circuits.end()) {
    return notThere("circuit", edit.circuit);
  }
  project.circuits.erase(at);
  for (Machine& machine : project.machines) {
    machine.circuit = machine.circuit == edit.circuit ? Id{} : machine.circuit;
  }
  for (Collector& collector : project.collectors) {
    collector.circuit = collector.circuit == edit.circuit ? Id{} : collector.circuit;
  }
  return {};
}

Result<void> make(Project& project, const Accept& edit) {
  const Acceptance& given = edit.acceptance;
  std::erase_if(project.accepted, [&](const Acceptance& each) {
    return each.rule == given.rule && each.about == given.about && each.state == given.state;
  });
  project.accepted.push_back(given);
  return {};
}

Result<void> make(Project& project, const Withdraw& edit) {
  const std::size_t gone = std::erase_if(project.accepted, [&](const Acceptance& each) {
    return each.rule == edit.rule && each.about == edit.about && each.state == edit.state;
  });
  if (gone == 0) {
    return base::fail(base::ErrorCode::Reference, "no finding of this rule and place was accepted", "edit");
  }
  return {};
}

}  // namespace kerfdraft::shop
