// The two-car garage of the examples and its air, for tests of what is made of it.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>

#include "desk/solved.h"
#include "files/save.h"
#include "support/shipped.h"

namespace kerfdraft::desk {

inline shop::Project garage() {
  return *files::loadProject(std::filesystem::path(KERFDRAFT_EXAMPLES) / "two-car-garage.json");
}

/// With flows and margins, without the verdict.
inline Solved solvedShop(const shop::Project& project, const std::optional<shop::State>& trial = {}) {
  return solveShop(std::make_shared<const shop::Project>(project), trial, support::shipped());
}

}  // namespace kerfdraft::desk
