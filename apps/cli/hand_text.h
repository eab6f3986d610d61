// The hand method's answer for one state: all open paths with their balances and what is asked of the fan.
#pragma once

#include <string>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "cli/sheet.h"
#include "cli/shown.h"
#include "judge/assessment.h"

namespace kerfdraft::cli {

/// Every open port asks for its target, or its floor, or what the model finds where neither is given. Of the
/// runs, those on the way of `port` are printed as lines, all in CSV.
base::Result<std::string> handText(const SheetOptions& options, const judge::Assessment& assessment,
                                   std::size_t state, std::size_t port, const catalogue::Catalogue& catalogue,
                                   const Shown& shown);

}  // namespace kerfdraft::cli
