// From a project file to an assessment, with every problem of the file told; and which states a command
// means.
#pragma once

#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "cli/common.h"
#include "judge/assessment.h"
#include "judge/verdict.h"

namespace kerfdraft::cli {

/// Every problem of a file.
using Problems = std::vector<base::Error>;

template <class T>
using OrProblems = tl::expected<T, Problems>;

/// Reads, builds and solves the project in a file.
OrProblems<judge::Assessment> openShop(const std::string& path, const catalogue::Catalogue& catalogue);

/// A project that is open: the tables, and the shop solved in every state.
struct OpenShop {
  catalogue::Catalogue catalogue;
  judge::Assessment assessment;

  const shop::Project& project() const { return *assessment.project; }
  /// Those asked for, or the project's own.
  base::UnitSystem unitsFor(const Common& common) const {
    return common.units.value_or(project().setting.units);
  }
};

/// The same from the path alone. Every problem is told on `err`; nothing then, and the caller ends with
/// kBadInput.
std::optional<OpenShop> openOrRefuse(const std::string& path, std::ostream& err);

/// Prints every problem, and returns the exit code of bad input.
int refuseAll(const Problems& problems, std::ostream& err);

/// The text in small letters (ASCII alone changes).
std::string lowered(std::string_view text);

/// Index of the state with this name, letter case aside; a miss offers near names.
base::Result<std::size_t> stateByName(const judge::Assessment& assessment, std::string_view name);

/// The same for many names; every state in its order where there is none.
base::Result<std::vector<std::size_t>> statesByName(const judge::Assessment& assessment,
                                                    const std::vector<std::string>& names);

/// States in which somebody works; all where there is none, as in judge::judgeEvidence.
std::vector<std::size_t> usedStates(const judge::Assessment& assessment);

/// Index in Pieces::ports of what a person calls a port: its whole label ("T2 P1"), the machine's label or
/// name where it has one port, or a part that only one label holds. A miss lists them.
base::Result<std::size_t> portByName(const judge::Assessment& assessment, std::string_view name);

/// What a verdict is to the caller of the program: all served, not served, no solution.
int verdictCode(const judge::Verdict& verdict);

/// "clean", "seasoned" or "due".
std::string_view toText(shop::FilterState filter);

}  // namespace kerfdraft::cli
