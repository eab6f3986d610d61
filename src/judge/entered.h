// Where in the project a number was entered: the field's path and the text as a person typed it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "base/id.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::judge {

struct Entered {
  std::string path;  ///< JSON pointer, "/ducts/2/corners/0/leg/bore"
  std::string text;  ///< "6 in"; empty where it was drawn
};

/// The bore that a piece names. Found by the ids in its key and taken only where the entered value is the
/// piece's to the bit; nothing where it comes from elsewhere.
std::optional<Entered> enteredBore(const shop::Project& project, const pieces::PieceKey& key, double bore_m);

/// Length of a straight or hose: a hose's own length where given, else the corner from which it was drawn.
std::optional<Entered> enteredLength(const shop::Project& project, const pieces::PieceKey& key);

/// A fitting's own coefficient where a person entered one: at a corner, a port or a separator.
std::optional<Entered> enteredCoefficient(const shop::Project& project, const pieces::PieceKey& key,
                                          double coefficient);

/// Travel of a gate in a state (index); a gate that the state does not list is shut.
std::optional<Entered> enteredTravel(const shop::Project& project, std::size_t state, base::Id gate);

/// The rating of a collector, booster or blower.
std::optional<Entered> enteredRating(const shop::Project& project, base::Id fan);

}  // namespace kerfdraft::judge
