// The forms of all tables: which columns a file of the data folder has, of which kind and within which
// bounds.
#pragma once

#include <span>
#include <string_view>

#include "catalogue/table.h"

namespace kerfdraft::catalogue {

/// All forms in the order in which tables are shown.
std::span<const TableForm> forms();

/// The form of a table by its name, or nullptr.
const TableForm* findForm(std::string_view table);

}  // namespace kerfdraft::catalogue
