// The uncertain inputs of one state: one factor for all pieces that are known alike, as something that a
// situation can move.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "doubt/prior.h"
#include "judge/assessment.h"
#include "network/sensitivity.h"

namespace kerfdraft::doubt {

struct Input {
  std::string key;               ///< the same in every state: the row's key, and for a fan its id
  const Prior* prior = nullptr;  ///< of the table; lives as long as the program
  network::Parameter parameter;
  std::string label;  ///< what it is in this shop: "hose friction", "the fan's curve (C1)"
};

/// Inputs that can matter in a solved state, in the order of the table and then of the fans. Empty where
/// the state is not solved. Pieces of a run that are of one group share the widest of their rows.
std::vector<Input> inputsOf(const judge::Assessment& assessment, std::size_t state);

/// By how many of its own velocity pressures each leg of a junction is uncertain in a solution: where air
/// enters 20 % of |P_i − P_c|, its loss to the main, at most half a velocity pressure; where it leaves what
/// the legs' mean, by their flow, lacks to 0.1 velocity pressures of the main.
network::LegExtra junctionDoubt(const pieces::Pieces& drawing, const network::Solution& solution,
                                std::size_t junction);

/// Moves an input of a situation to `z` standard deviations.
void moveInput(network::Situation& situation, const pieces::Pieces& drawing, const Input& input, double z);

}  // namespace kerfdraft::doubt
