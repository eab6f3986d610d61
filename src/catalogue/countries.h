// Countries by their ISO codes, as the tables of limits name them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/materials.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

inline constexpr std::string_view kEuropeanUnion = "European Union";

struct Country {
  std::string iso;   ///< "DE"
  std::string name;  ///< as limits, noise_limits and authorities name it
  bool in_eu = false;
  Origin origin;
};

/// The country; an unknown code is an error.
base::Result<Country> country(const Catalogue& catalogue, std::string_view iso);

/// The names under which a country's rules stand in the tables, its own first: {"Germany", "European Union"}.
/// Empty for a code that the table does not have.
std::vector<std::string> countryNames(const Catalogue& catalogue, std::string_view iso);

/// Limits that bind or are advised in a country for this wood: a key of woods, or "hardwood", "softwood",
/// "board" (judged as hardwood), or empty for all. A row for the wood itself goes before those of its group
/// and those for any wood; rows without force are left out. Empty where none is known.
std::vector<ExposureLimit> exposureLimitsFor(const Catalogue& catalogue, std::string_view iso,
                                             std::string_view wood = {});

}  // namespace kerfdraft::catalogue
