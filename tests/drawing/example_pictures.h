// Examples put together and solved, for tests that draw them.
#pragma once

#include <string>
#include <vector>

#include "drawing/overlay.h"
#include "judge/assessment.h"
#include "judge/margins.h"

namespace kerfdraft::drawing {

struct Example {
  std::string name;
  judge::Assessment assessment;
  std::vector<judge::StateMargins> margins;

  Overlay overlay(std::size_t state, base::UnitSystem units) const;
};

/// Every file of the examples folder, by name.
std::vector<Example> examples();

}  // namespace kerfdraft::drawing
