// Keys of the catalogue that no law reads but that findings depend on: policies, woods, bins, how a filter is
// cleaned.
#pragma once

#include <string_view>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/policies.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

/// Refuses such keys where the catalogue does not have them, and offers near ones.
base::Result<void> checkChoices(const shop::Project& project, const catalogue::Catalogue& catalogue);

/// What the project chose where published rules disagree about `subject`; the usual choice where it chose
/// nothing. An error for a subject or choice that the catalogue does not have.
base::Result<catalogue::PolicyChoice> chosenPolicy(const shop::Project& project,
                                                   const catalogue::Catalogue& catalogue,
                                                   std::string_view subject);

}  // namespace kerfdraft::pieces
