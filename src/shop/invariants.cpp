// The order of the checks: first every id and label, then each family of entries.
#include "shop/invariants.h"

#include <fmt/format.h>

#include "shop/survey.h"

namespace kerfdraft::shop {
namespace {

void claimRooms(Survey& survey) {
  const Project& project = survey.project();
  for (std::size_t i = 0; i < project.rooms.size(); ++i) {
    const Room& room = project.rooms[i];
    Survey::Place place(survey, "rooms", i, named("room", room.label));
    survey.claim(room.id, {Thing::Room, {}, &room});
    survey.claimLabel(room.label);
    for (std::size_t k = 0; k < room.openings.size(); ++k) {
      Survey::Place inner(survey, "openings", k, named("opening", room.openings[k].label));
      survey.claim(room.openings[k].id, {Thing::Opening, room.id, &room.openings[k]});
      survey.claimLabel(room.openings[k].label);
    }
    for (std::size_t k = 0; k < room.obstacles.size(); ++k) {
      Survey::Place inner(survey, "obstacles", k, named("obstacle", room.obstacles[k].label));
      survey.claim(room.obstacles[k].id, {Thing::Obstacle, room.id, &room.obstacles[k]});
      survey.claimLabel(room.obstacles[k].label);
    }
  }
}

void claimMachines(Survey& survey) {
  const Project& project = survey.project();
  for (std::size_t i = 0; i < project.machines.size(); ++i) {
    const Machine& machine = project.machines[i];
    Survey::Place place(survey, "machines", i, named("machine", machine.label));
    survey.claim(machine.id, {Thing::Machine, machine.room, &machine});
    survey.claimLabel(machine.label);
    std::unordered_set<std::string> port_labels;
    for (std::size_t k = 0; k < machine.ports.size(); ++k) {
      const Port& port = machine.ports[k];
      Survey::Place inner(survey, "ports", k, named("port", port.label));
      survey.claim(port.id, {Thing::Port, machine.id, &port});
      if (!port.label.empty() && !port_labels.insert(port.label).second) {
        Survey::Place label(survey, "label");
        survey.problem(base::ErrorCode::Conflict,
                       fmt::format("the label \"{}\" stands twice on this machine", port.label));
      }
    }
    if (machine.blower) {
      Survey::Place inner(survey, "blower");
      survey.claim(machine.blower->id, {Thing::Blower, machine.id, &*machine.blower});
      survey.claimLabel(machine.blower->label);
    }
  }
}

void claimDucts(Survey& survey) {
  const Project& project = survey.project();
  for (std::size_t i = 0; i < project.ducts.size(); ++i) {
    const Duct& duct = project.ducts[i];
    Survey::Place place(survey, "ducts", i, named("duct", duct.label));
    survey.claim(duct.id, {Thing::Duct, {}, &duct});
    survey.claimLabel(duct.label);
    for (std::size_t k = 0; k < duct.corners.size(); ++k) {
      Survey::Place inner(survey, "corners", k);
      survey.claim(duct.corners[k].id, {Thing::Corner, duct.id, &duct.corners[k]});
    }
    for (std::size_t k = 0; k < duct.gates.size(); ++k) {
      Survey::Place inner(survey, "gates", k, named("gate", duct.gates[k].label));
      survey.claim(duct.gates[k].id, {Thing::Gate, duct.id, &duct.gates[k]});
      survey.claimLabel(duct.gates[k].label);
    }
    for (std::size_t k = 0; k < duct.taps.size(); ++k) {
      Survey::Place inner(survey, "taps", k, named("tap", duct.taps[k].label));
      survey.claim(duct.taps[k].id, {Thing::Access, duct.id, &duct.taps[k]});
      survey.claimLabel(duct.taps[k].label);
    }
    for (std::size_t k = 0; k < duct.cleanouts.size(); ++k) {
      Survey::Place inner(survey, "cleanouts", k, named("cleanout", duct.cleanouts[k].label));
      survey.claim(duct.cleanouts[k].id, {Thing::Access, duct.id, &duct.cleanouts[k]});
      survey.claimLabel(duct.cleanouts[k].label);
    }
  }
}

void claimCollectors(Survey& survey) {
  const Project& project = survey.project();
  for (std::size_t i = 0; i < project.collectors.size(); ++i) {
    const Collector& collector = project.collectors[i];
    Survey::Place place(survey, "collectors", i, named("collector", collector.label));
    survey.claim(collector.id, {Thing::Collector, collector.room, &collector});
    survey.claimLabel(collector.label);
    for (std::size_t k = 0; k < collector.separators.size(); ++k) {
      const Separator& separator = collector.separators[k];
      Survey::Place inner(survey, "separators", k, named("separator", separator.label));
      survey.claim(separator.id, {Thing::Separator, collector.id, &separator});
      survey.claimLabel(separator.label);
    }
    for (std::size_t k = 0; k < collector.filters.size(); ++k) {
      const Filter& filter = collector.filters[k];
      Survey::Place inner(survey, "filters", k, named("filter", filter.label));
      survey.claim(filter.id, {Thing::Filter, collector.id, &filter});
      survey.claimLabel(filter.label);
    }
  }
}

void claimStates(Survey& survey) {
  const Project& project = survey.project();
  std::unordered_set<std::string> names;
  for (std::size_t i = 0; i < project.states.size(); ++i) {
    const State& state = project.states[i];
    Survey::Place place(survey, "states", i, named("state", state.name));
    survey.claim(state.id, {Thing::State, {}, &state});
    if (!names.insert(state.name).second) {
      Survey::Place name(survey, "name");
      survey.problem(base::ErrorCode::Conflict,
                     fmt::format("the state's name \"{}\" stands twice", state.name));
    }
  }
}

}  // namespace

std::vector<base::Error> checkProject(const Project& project) {
  Survey survey(project);
  claimRooms(survey);
  claimMachines(survey);
  claimDucts(survey);
  claimCollectors(survey);
  claimStates(survey);
  checkRooms(survey);
  checkMachines(survey);
  checkDucts(survey);
  checkCollectors(survey);
  checkStates(survey);
  return survey.takeProblems();
}

}  // namespace kerfdraft::shop
