// What the rules about filters share: which loading rule applies to a filter, its name, and speeds through a
// medium in the units of that trade. Private to judge/rules.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "catalogue/row_view.h"
#include "judge/evidence.h"
#include "judge/rule.h"

namespace kerfdraft::judge {

/// Subject of the policy that chooses a row of the table filter_loading.
inline constexpr std::string_view kFilterLoading = "filter-loading";

/// The row of filter_loading that a filter is held against.
struct LoadingRule {
  std::string row;
  std::string name;
  double least_m_s = 0;  ///< above this the range begins; equal to `most_m_s` where the row has one figure
  double most_m_s = 0;
  bool binds = false;    ///< a country's rule for returned air, where people are employed or taught
  bool assumed = false;  ///< nobody says how the filter is cleaned
  catalogue::Origin origin;
};

/// A policy of the project first, then the country's rule for air that comes back into a room, then the
/// filter's own cleaning, then a hand-cleaned cartridge. Nothing where a row is not in the catalogue.
std::optional<LoadingRule> loadingRule(const Evidence& evidence, std::size_t fan, const shop::Filter& filter);

/// "C1 F1", "filter of C1".
std::string filterLabel(const shop::Collector& collector, const shop::Filter& filter);

/// "8.2 fpm", "2.5 m/min": a speed through a medium, in the unit that filters are sold by.
std::string filterSpeed(double speed_m_s, const Voice& voice);

}  // namespace kerfdraft::judge
