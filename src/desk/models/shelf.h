// One's own machines, kept from shop to shop: an ordinary project file whose machines are offered. Without
// Qt.
#pragma once

#include <filesystem>
#include <vector>

#include "base/result.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// The machines of the file; none where there is no file. A file that cannot be read is a problem that is
/// said, and is left as it is.
base::Result<std::vector<shop::Machine>> readShelf(const std::filesystem::path& path);

/// Adds a machine, or replaces the one of its name. Its place, room and circuit are forgotten. Refused: a
/// machine without a name, a shelf that cannot be read or written.
base::Result<void> keepOnShelf(const std::filesystem::path& path, const shop::Machine& machine);

/// Takes the machine of this id off. Refused as above.
base::Result<void> takeOffShelf(const std::filesystem::path& path, base::Id machine);

}  // namespace kerfdraft::desk
