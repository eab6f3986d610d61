// Typed views of sound levels by machine and of the limits for people's ears.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

/// What was read of machines of this kind while they cut, dB(A) at the operator.
struct MachineNoise {
  std::string key;
  std::string name;
  std::string machine;           ///< key of machine_kinds; empty: a collector
  std::optional<double> low_db;  ///< nothing where only an upper end is printed
  double high_db = 0;
  Origin origin;
};

/// A daily level (8 hours), dB(A).
struct NoiseLimit {
  std::string key;
  std::string name;
  std::string body;
  std::string country;  ///< as in countries; "European Union" for its members
  std::string level;    ///< "lower action", "action", "limit"
  double level_db = 0;
  double exchange_db = 0;  ///< so many dB more halve the time
  std::string force;       ///< "law", "recommendation"
  Origin origin;
};

/// Nothing where no figure was read for this kind of machine.
std::optional<MachineNoise> machineNoise(const Catalogue& catalogue, std::string_view machine_kind);
std::optional<MachineNoise> collectorNoise(const Catalogue& catalogue);

/// Levels that bind or are advised in a country (ISO 3166, "US"), members of the European Union under its
/// own. The lowest first. None for a country that the tables do not have.
std::vector<NoiseLimit> noiseLimitsFor(const Catalogue& catalogue, std::string_view iso);

}  // namespace kerfdraft::catalogue
