// The drawing in words, for whoever hears it: each thing with its name, what air it has, and what it is
// joined to. Without Qt.
#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "base/id.h"
#include "base/units.h"
#include "desk/models/places.h"
#include "desk/solved.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// "machine T2, Planer", "duct D1, Main", "door O1".
std::string spokenName(const shop::Project& project, const Thing& thing);

/// What there is to say of it: "air into T2 P1: 812 cfm, chips need 400 cfm: yes". A duct says between what
/// it runs, a gate whether it is open. `solved` may be null, and then only what is drawn is said.
std::string spokenState(const shop::Project& project, const Solved* solved, std::size_t state,
                        const Thing& thing, base::UnitSystem units);

/// What is picked: "nothing is picked", its name, or "3 things are picked: …".
std::string spokenPicked(const shop::Project& project, const std::set<base::Id>& picked);

}  // namespace kerfdraft::desk
