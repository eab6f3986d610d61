// Writes a number as a person would have entered it: the shortest text in a sensible unit.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

#include "base/given.h"

namespace kerfdraft::judge {

// Units from the one that a US shop reads to the one that a metric shop reads.
inline constexpr std::array<std::string_view, 2> kBoreUnits{"in", "mm"};
inline constexpr std::array<std::string_view, 4> kLengthUnits{"ft", "in", "mm", "m"};
inline constexpr std::array<std::string_view, 4> kAreaUnits{"in2", "ft2", "m2", "cm2"};

/// "12.50" without the zeros that say nothing.
std::string decimals(double value, int digits);

/// An estimate of this value, in the first of `names` (a metric shop: the last) in which two decimals mean
/// it; where none does, in the first with four.
template <class Q, std::size_t N>
base::Given<Q> givenAs(double si, base::UnitSystem units, std::array<std::string_view, N> names,
                       std::string_view source) {
  if (units == base::UnitSystem::Metric) {
    std::reverse(names.begin(), names.end());
  }
  const auto entered = [&](std::string_view unit, int digits) {
    const std::string name(unit);
    const double one = base::parseQuantity(Q::kKind, "1 " + name).value();
    const auto made =
        base::Given<Q>::parse(decimals(si / one, digits) + " " + name, base::Standing::Estimated, source);
    base::check(made.has_value(), "a quantity is written that cannot be read");
    return *made;
  };
  for (const std::string_view unit : names) {
    auto made = entered(unit, 2);
    if (std::abs(made.si() - si) <= 1e-6 * std::abs(si)) {
      return made;
    }
  }
  return entered(names.front(), 4);
}

}  // namespace kerfdraft::judge
