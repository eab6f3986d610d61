// A duct that is there, changed as a whole: a leg moved sideways, a stretch hung higher or made wider, two
// open ends made one duct. Without Qt.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/given.h"
#include "base/id.h"
#include "base/result.h"
#include "desk/models/change.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// The leg that begins at `corner`, moved sideways on the plan by its share of (x, y). Its neighbours
/// stretch, upright ones stay upright and go along; from a joined end a new piece leads to it, and an entry
/// slides along its main, so that the leg into it keeps its angle where there is room. `ids` are for corners
/// that are put in: the same ids, the same change, so that a drag may be made again and again from where it
/// began. Refused: an upright leg, an entry that would leave the straight leg of its main, a leg that runs
/// with its main.
base::Result<Change> moveLeg(const shop::Project& before, base::Id duct, base::Id corner, std::int64_t x_um,
                             std::int64_t y_um, const std::array<base::Id, 2>& ids);

/// The level stretch that the leg at `corner` belongs to, and the level branches that enter it, hung at
/// another height; rises and drops at its ends grow or shrink, and are put in where there was none. Without a
/// valid `corner` the longest level stretch. Refused: nothing level, below the floor, a stretch that is
/// nothing but its entry into a main.
base::Result<Change> hangAt(const shop::Project& project, base::Id duct, base::Id corner, std::int64_t z_um,
                            base::IdSource& ids);

/// The stretch of one bore that the leg at `corner` belongs to, in another bore; reducers where it meets what
/// it was as wide as before. Hose and pipe are different stretches. Without a valid `corner` all that is
/// pipe.
base::Result<Change> boreOf(const shop::Project& project, base::Id duct, base::Id corner,
                            const base::Given<base::Length>& bore);

/// Two ducts with open ends made one: `first` with what leads on, to the beginning of `second`, which hands
/// over its corners, gates, branches and what states say of them. `between` are the corners from the end of
/// `first` on, both joints left out. The one duct keeps the id and label of `first`.
base::Result<Change> joinDucts(const shop::Project& project, const shop::Duct& first,
                               const std::vector<shop::Corner>& between, const shop::Duct& second);

/// What is typed for what is picked.
struct PickedTyped {
  enum class What { Bore, Height } what = What::Bore;
  double si = 0;     ///< [m]
  std::string text;  ///< with its unit
};

/// "5 in" is a bore; "8 ft high" a height. Refused with a sentence: anything else.
base::Result<PickedTyped> parsePickedTyped(std::string_view text);

}  // namespace kerfdraft::desk
