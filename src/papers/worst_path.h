// Which port is worst off: what a sheet or a drawing shows where nobody says which.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "judge/assessment.h"
#include "judge/margins.h"

namespace kerfdraft::papers {

struct WorstPath {
  std::size_t state = 0;
  std::size_t port = 0;
};

/// The open port that gets the smallest share of what it, or its machine, asks, in one state or in all; of
/// one port the worst state, where it is given.
std::optional<WorstPath> worstPath(const judge::Assessment& assessment,
                                   const std::vector<judge::StateMargins>& margins,
                                   std::optional<std::size_t> only_state,
                                   std::optional<std::size_t> only_port);

}  // namespace kerfdraft::papers
