// A speed or flow that somebody else worked out from the same readings, compared with each classic mistake.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "field/measurement.h"

namespace kerfdraft::field {

struct Claim {
  std::optional<double> speed_m_s;
  std::optional<double> flow_m3_s;
};

/// What the same readings would give with one mistake.
struct Suspect {
  std::string key;  ///< "claim-one-leg", "claim-pressures-averaged", "claim-centre", "claim-standard-air"
  double speed_m_s = 0;
};

/// Says whether the claim agrees, which mistake it is the result of, or only that it differs. A claim belongs
/// to the nearest of those within 0.4 %. Nothing where nothing is claimed, or a flow without a section.
std::optional<Notice> explainClaim(const Claim& claim, const MeasurementModel& model,
                                   const Measured& measured, std::vector<Suspect> suspects);

/// The suspects that follow from the model and its result alone: one leg, pressures averaged, standard air.
std::vector<Suspect> usualSuspects(const MeasurementModel& model, const Measured& measured);

}  // namespace kerfdraft::field
