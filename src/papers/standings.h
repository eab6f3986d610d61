// How the entered values of a shop are known, counted. Private to this room.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "base/given.h"
#include "shop/project.h"

namespace kerfdraft::papers {

inline constexpr std::size_t kStandings = 5;

struct StandingCount {
  std::string part;                              ///< "ducts"
  std::array<std::size_t, kStandings> values{};  ///< by base::Standing
  std::size_t total() const;
};

/// By part of the shop, those without any entered value left out. Gate settings and acceptances are choices,
/// not knowledge: they are not counted.
std::vector<StandingCount> countStandings(const shop::Project& project);

}  // namespace kerfdraft::papers
