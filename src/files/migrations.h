// Old formats are brought to the newest one step by step, in memory; nothing on disk changes until a person
// saves.
#pragma once

#include <functional>
#include <span>
#include <string_view>

#include "base/result.h"
#include "files/json.h"

namespace kerfdraft::files {

/// Brings the tree of format `from` to format `from` + 1, the number itself left alone.
struct MigrationStep {
  int from = 0;
  std::function<base::Result<void>(Json& root)> apply;
};

/// The steps of the program, in order. A new format adds one, and a sample of the old one stays in
/// tests/formats.
std::span<const MigrationStep> migrationSteps();

/// Reads the key `format`, takes the steps up to `newest` and writes `newest` into it. Refused: no object, no
/// format or one that is no whole number from 1, a newer one, one without a step.
base::Result<void> migrate(Json& root, std::span<const MigrationStep> steps, int newest,
                           std::string_view name);

}  // namespace kerfdraft::files
