// Typed views of the tables of conveying, waste, woods and exposure limits.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

/// The working rule for one material, in smooth straight duct at sea level.
struct TransportRule {
  std::string key;
  std::string name;
  double advised_branch_m_s = 0;
  double advised_main_m_s = 0;
  double note_below_m_s = 0;
  double caution_below_m_s = 0;
  double not_carried_below_m_s = 0;
  double high_above_m_s = 0;  ///< noise, wear, power
  bool damp = false;
  Origin origin;
};

/// What one authority prints for a material.
struct TransportVelocity {
  std::string key;
  std::string name;
  std::string material;   ///< key of transport_rules
  std::string authority;  ///< key of authorities
  std::string place;      ///< "any", "connection", "branch", "main"
  double speed_m_s = 0;
  std::optional<double> speed_to_m_s;
  Origin origin;
};

struct Wood {
  std::string key;
  std::string name;
  std::string group;  ///< "hardwood", "softwood", "board"
  std::optional<double> density_kg_m3;
  std::optional<double> density_to_kg_m3;
  bool sensitizer = false;  ///< among the most cited; false is no promise
  Origin origin;
};

struct Bulking {
  std::string key;
  std::string name;
  double factor = 1;  ///< loose volume over solid volume
  std::optional<double> factor_to;
  Origin origin;
};

/// An exposure limit over 8 hours.
struct ExposureLimit {
  std::string key;
  std::string name;
  std::string body;
  std::string country;
  std::string wood;  ///< "any", "hardwood", "softwood" or a key of woods
  double limit_kg_m3 = 0;
  std::optional<double> short_term_kg_m3;
  std::string fraction;  ///< "total", "inhalable", "respirable"
  std::string date;
  std::string force;  ///< "law", "recommendation", "none"
  Origin origin;
};

/// A velocity or range of them at the point of release.
struct CaptureVelocity {
  std::string key;
  std::string name;
  double low_m_s = 0;
  double high_m_s = 0;
  Origin origin;
};

base::Result<TransportRule> transportRule(const Catalogue& catalogue, std::string_view material);
/// All published velocities for a material; an unknown material is an error.
base::Result<std::vector<TransportVelocity>> transportVelocities(const Catalogue& catalogue,
                                                                 std::string_view material);
base::Result<Wood> wood(const Catalogue& catalogue, std::string_view key);
base::Result<Bulking> bulking(const Catalogue& catalogue, std::string_view key);
base::Result<CaptureVelocity> captureVelocity(const Catalogue& catalogue, std::string_view key);
/// All limits of a country as it stands in the table, or of every country where it is empty.
std::vector<ExposureLimit> exposureLimits(const Catalogue& catalogue, std::string_view country = {});

}  // namespace kerfdraft::catalogue
