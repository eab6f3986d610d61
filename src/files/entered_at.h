// Where a path of the format leads in a project: what was entered there, and how it is known.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/given.h"
#include "base/id.h"
#include "shop/project.h"

namespace kerfdraft::files {

struct EnteredAt {
  std::string text;  ///< as it was typed
  base::Standing standing = base::Standing::Assumed;
  std::string source;
  std::string field;  ///< its key in the format: "inlet-bore"
  std::string label;  ///< of the innermost thing on the way that has one: "D3"
  base::Id thing;     ///< the innermost thing on the way that has an id
};

/// Follows a path as explanations name it ("/ducts/2/corners/0/leg/bore") through the field tables. Nothing
/// where no entered quantity stands there.
std::optional<EnteredAt> enteredAt(const shop::Project& project, std::string_view path);

}  // namespace kerfdraft::files
