// Things carried from one shop to another as text: copied and put in at a place. Without Qt.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "base/id.h"
#include "base/result.h"
#include "desk/models/change.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// The machines and collectors among these as the text of a small project, with the rooms and circuits that
/// they speak of. Refused: none among them.
base::Result<std::string> textOfThings(const shop::Project& project, const std::set<base::Id>& ids);

/// Whether a text could be one of textOfThings(): it begins as a JSON object does.
bool looksLikeThings(std::string_view text);

/// The machines and collectors of a project's text put in so that their common middle is at a place, with new
/// ids and free labels, as one step; beside it where the like stands there already. What they say of circuits
/// that are not here is forgotten; a collector that blew into the room round it does so here. Refused with a
/// sentence: text that is no project, one without machines and collectors, one too long. `made` gets the ids
/// of what was put in.
base::Result<Change> putThings(const shop::Project& project, std::string_view text, shop::PlanPoint at,
                               base::IdSource& ids, std::set<base::Id>* made = nullptr);

}  // namespace kerfdraft::desk
