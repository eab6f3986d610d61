// The order of the checks: first every id and label, then each family of entries.
#include "shop/invariants.h"

#include <fmt/format.h>

#include "shop/survey.h"

namespace kerfdraft::shop {
namespace {

/// A list of the project as the survey names it: its key, what one entry is called, and what it is.
struct List {
  std::string_view key;
  std::string_view noun;  ///< empty: errors do not name the entry
  Thing thing;
  Id parent;
};

template <class T>
std::string_view labelOf(const T& item) {
  if constexpr (requires { item.label; }) {
    return item.label;
  } else if constexpr (requires { item.name; }) {
    return item.name;
  } else {
    return {};
  }
}

/// Takes the ids and printed labels of a list; `inside` then takes what hangs on each entry.
template <class T, class Inside>
void claimEach(Survey& survey, const List& list, const std::vector<T>& items, Inside inside) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    const T& item = items[i];
    Survey::Place place(survey, list.key, i, list.noun.empty() ? "" : named(list.noun, labelOf(item)));
    survey.claim(item.id, {list.thing, list.parent, &item});
    if constexpr (requires { item.label; }) {
      if (list.thing != Thing::Port) {  // a port's label counts within its machine
        survey.claimLabel(item.label);
      }
    }
    inside(item);
  }
}

template <class T>
void claimEach(Survey& survey, const List& list, const std::vector<T>& items) {
  claimEach(survey, list, items, [](const T&) {});
}

void claimRooms(Survey& survey) {
  claimEach(survey, {"rooms", "room", Thing::Room, {}}, survey.project().rooms, [&](const Room& room) {
    claimEach(survey, {"openings", "opening", Thing::Opening, room.id}, room.openings);
    claimEach(survey, {"obstacles", "obstacle", Thing::Obstacle, room.id}, room.obstacles);
  });
}

void claimMachine(Survey& survey, const Machine& machine) {
  std::unordered_set<std::string> labels;
  claimEach(survey, {"ports", "port", Thing::Port, machine.id}, machine.ports, [&](const Port& port) {
    if (!port.label.empty() && !labels.insert(port.label).second) {
      Survey::Place label(survey, "label");
      survey.problem(base::ErrorCode::Conflict,
                     fmt::format("the label \"{}\" stands twice on this machine", port.label));
    }
  });
  if (machine.blower) {
    Survey::Place inner(survey, "blower");
    survey.claim(machine.blower->id, {Thing::Blower, machine.id, &*machine.blower});
    survey.claimLabel(machine.blower->label);
  }
}

void claimDucts(Survey& survey) {
  claimEach(survey, {"ducts", "duct", Thing::Duct, {}}, survey.project().ducts, [&](const Duct& duct) {
    claimEach(survey, {"corners", "", Thing::Corner, duct.id}, duct.corners);
    claimEach(survey, {"gates", "gate", Thing::Gate, duct.id}, duct.gates);
    claimEach(survey, {"taps", "tap", Thing::Access, duct.id}, duct.taps);
    claimEach(survey, {"cleanouts", "cleanout", Thing::Access, duct.id}, duct.cleanouts);
  });
}

void claimCollectors(Survey& survey) {
  claimEach(survey, {"collectors", "collector", Thing::Collector, {}}, survey.project().collectors,
            [&](const Collector& unit) {
              claimEach(survey, {"separators", "separator", Thing::Separator, unit.id}, unit.separators);
              claimEach(survey, {"filters", "filter", Thing::Filter, unit.id}, unit.filters);
            });
}

void claimStates(Survey& survey) {
  std::unordered_set<std::string> names;
  claimEach(survey, {"states", "state", Thing::State, {}}, survey.project().states, [&](const State& state) {
    if (!names.insert(state.name).second) {
      Survey::Place name(survey, "name");
      survey.problem(base::ErrorCode::Conflict,
                     fmt::format("the state's name \"{}\" stands twice", state.name));
    }
  });
}

}  // namespace

std::vector<base::Error> checkProject(const Project& project) {
  Survey survey(project);
  claimRooms(survey);
  claimEach(survey, {"machines", "machine", Thing::Machine, {}}, project.machines,
            [&](const Machine& machine) { claimMachine(survey, machine); });
  claimDucts(survey);
  claimCollectors(survey);
  claimStates(survey);
  claimEach(survey, {"circuits", "circuit", Thing::Circuit, {}}, project.circuits);
  checkRooms(survey);
  checkMachines(survey);
  checkDucts(survey);
  checkCollectors(survey);
  checkStates(survey);
  checkAccepted(survey);
  return survey.takeProblems();
}

}  // namespace kerfdraft::shop
