// Which things of the shop a number belongs to. Without Qt.
#pragma once

#include <map>
#include <set>
#include <vector>

#include "base/id.h"
#include "judge/number_key.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// Ids that a number is about, the nearest first: of a port the port and its machine, of a run its pieces'.
std::vector<base::Id> thingsOfNumber(const pieces::Pieces& drawing, const judge::NumberKey& key);

/// Which thing holds which: ports and blowers their machine, corners and what hangs on a duct the duct,
/// filters and separators their collector, openings their room.
class Belongings {
 public:
  explicit Belongings(const shop::Project& project);

  /// Whether one of these ids, or the thing that holds it, is among the things.
  bool anyOf(const std::vector<base::Id>& ids, const std::set<base::Id>& things) const;

 private:
  std::map<base::Id, base::Id> holder_;
};

}  // namespace kerfdraft::desk
