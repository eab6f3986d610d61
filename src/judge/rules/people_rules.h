// Rules about the room and the people in it.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

extern const Rule kFlueGas;
extern const Rule kSparksOnWoodMain;
extern const Rule kVapourOnWoodMain;
extern const Rule kGuardMissing;
extern const Rule kSanderFire;
extern const Rule kNoIsolation;
extern const Rule kOpenBag;
extern const Rule kMetalPickup;
extern const Rule kPlasticDuct;
extern const Rule kReturnedAir;
extern const Rule kSensitizer;
extern const Rule kExposureLimit;
extern const Rule kExhaustNotEnough;
extern const Rule kNoise;
extern const Rule kSharedCircuit;
extern const Rule kRoomSuction;
extern const Rule kMakeUpHeat;
extern const Rule kEmployees;
extern const Rule kBigPlant;

/// In the order in which papers list them.
std::span<const Rule* const> peopleRules();

}  // namespace kerfdraft::judge
