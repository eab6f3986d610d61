// Trying a set of gates: a state of use that is shown and not kept. Without Qt.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/id.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// How far a gate is open in a state; shut where the state does not list it.
double travelIn(const shop::State& state, base::Id gate);

/// The state that a trial begins from: the trial itself, else the shown state, else one with every gate shut.
shop::State trialFrom(const shop::Project& project, const std::optional<shop::State>& trial,
                      std::size_t shown, base::Id new_id);

/// The trial with a gate open where it was shut, and the other way.
shop::State withGateToggled(shop::State trial, base::Id gate);

/// The trial as a state of the project: under this name, or a free one "Trial 2" where it is empty.
shop::State keptTrial(const shop::Project& project, shop::State trial, std::string name);

/// A state for each machine that has a duct: the gates on the way of its air are open, all others shut. Names
/// that are taken are left alone. None where no machine has a duct.
std::vector<shop::State> statesForMachines(const shop::Project& project, base::IdSource& ids);

}  // namespace kerfdraft::desk
