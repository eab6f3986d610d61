// From a project file to an assessment, with every problem of the file told; and which states a command
// means.
#pragma once

#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "judge/assessment.h"

namespace kerfdraft::cli {

/// Every problem of a file.
using Problems = std::vector<base::Error>;

template <class T>
using OrProblems = tl::expected<T, Problems>;

/// Reads, builds and solves the project in a file.
OrProblems<judge::Assessment> openShop(const std::string& path, const catalogue::Catalogue& catalogue);

/// Prints every problem, and returns the exit code of bad input.
int refuseAll(const Problems& problems, std::ostream& err);

/// Index of the state with this name, letter case aside; a miss offers near names.
base::Result<std::size_t> stateByName(const judge::Assessment& assessment, std::string_view name);

/// Index in Pieces::ports of what a person calls a port: its whole label ("T2 P1"), the machine's label or
/// name where it has one port, or a part that only one label holds. A miss lists them.
base::Result<std::size_t> portByName(const judge::Assessment& assessment, std::string_view name);

/// "clean", "seasoned" or "due".
std::string_view toText(shop::FilterState filter);

}  // namespace kerfdraft::cli
