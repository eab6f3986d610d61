// Which chips travel in which run in a state, and the least speed that they need there.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/materials.h"
#include "judge/assessment.h"

namespace kerfdraft::judge {

/// The need of one material, at the density of the day.
struct TransportNeed {
  std::string material;
  std::string source;  ///< of the minimum
  double minimum_branch_m_s = 0;
  double minimum_main_m_s = 0;
  catalogue::TransportRule rule;  ///< speeds at the density of the day
};

/// Needs of all materials of a project's machines. A machine without chips takes those of its kind, without a
/// kind "mixed". A policy of subject "transport-velocity" chooses an authority; where that authority prints
/// nothing for a material, its figure for mixed chips holds or the working rule's, whichever is greater. At
/// altitude every speed rises by sqrt(rho0 / rho), that is by the root of sea-level pressure over the
/// barometric one; a high barometer lowers none.
class TransportNeeds {
 public:
  static base::Result<TransportNeeds> of(const shop::Project& project, double barometric_pa,
                                         const catalogue::Catalogue& catalogue);

  /// Index into needs() of what a machine throws.
  std::size_t ofMachine(std::size_t machine) const { return by_machine_[machine]; }
  const std::vector<TransportNeed>& needs() const { return needs_; }

 private:
  std::vector<TransportNeed> needs_;
  std::vector<std::size_t> by_machine_;
};

/// For each run the needs (indices) of the chips that travel in it: from every open port whose air goes
/// forward, along the air, to the first separator.
std::vector<std::vector<std::size_t>> travellingChips(const Assessment& assessment, std::size_t state,
                                                      const TransportNeeds& needs);

}  // namespace kerfdraft::judge
