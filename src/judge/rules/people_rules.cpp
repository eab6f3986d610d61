// The list.
#include "judge/rules/people_rules.h"

#include <array>

namespace kerfdraft::judge {

std::span<const Rule* const> peopleRules() {
  static constexpr std::array kRules = {
      &kFlueGas,     &kSparksOnWoodMain, &kVapourOnWoodMain, &kGuardMissing, &kSanderFire,
      &kNoIsolation, &kOpenBag,          &kMetalPickup,      &kPlasticDuct,  &kReturnedAir,
      &kSensitizer,  &kExposureLimit,    &kExhaustNotEnough, &kNoise,        &kSharedCircuit,
      &kRoomSuction, &kMakeUpHeat,       &kEmployees,        &kBigPlant,
  };
  return kRules;
}

}  // namespace kerfdraft::judge
