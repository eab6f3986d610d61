// What all sub-commands share: options that mean the same everywhere, the form of an error, and the way in
// which a finished text leaves the program.
#pragma once

#include <optional>
#include <ostream>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/units.h"

namespace kerfdraft::cli {

struct Common {
  std::optional<base::UnitSystem> units;  ///< those of the project where not given
  std::string date;                       ///< "2026-01-15", of the result
  std::string output;                     ///< file; standard output where empty
};

/// A day of the calendar written as 2026-01-15; anything else is refused.
base::Result<std::string> checkedDate(std::string_view text, std::string_view where);

/// Today by the clock and the time zone of this machine.
std::string today();

/// "2026-01-15" on a line of its own, for results that say themselves what they are; nothing without a date.
std::string dayLine(const Common& common);

/// Prints the error as a sentence and returns the exit code of bad input.
int refuse(const base::Error& error, std::ostream& err);

/// Writes a finished text to the file of the options, or to `out`. A file is written under another name
/// beside it and then renamed, so that nobody ever sees half of it. Returns kBadInput where that fails, else
/// `code`.
int deliver(std::string_view text, const Common& common, int code, std::ostream& out, std::ostream& err);

}  // namespace kerfdraft::cli
