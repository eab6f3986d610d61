// How fast the machines of a state fill the bin of a collector. Private to judge/rules.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/row_view.h"
#include "judge/evidence.h"

namespace kerfdraft::judge {

/// What falls into a collector's bin in one state while its open machines cut: all of them, or the fastest
/// alone where one person works.
struct Falling {
  double loose_m3_s = 0;           ///< by the lower bulking factor
  double loose_high_m3_s = 0;      ///< by the upper one where the table has a range
  std::vector<base::Id> machines;  ///< open ones with known waste, the fastest first
  catalogue::Origin bulking;       ///< of the fastest one
};

/// Density that turns waste into volume: the lightest wood that the project names, else softwood, which fills
/// a bin soonest. Nothing where neither is in the catalogue.
struct WoodTaken {
  std::string name;
  double density_kg_m3 = 0;
  bool assumed = false;
};
std::optional<WoodTaken> woodTaken(const Evidence& evidence);

/// Whether one person feeds one machine at a time here: home and one-person shops (ours).
bool oneAtATime(const shop::Project& project);

/// Of the machines whose open ports draw on this fan; nothing falls where no waste is known.
Falling fallingInto(const Evidence& evidence, std::size_t state, std::size_t fan, const WoodTaken& wood);

/// The first separator with a bin, in the order of the air; null where there is none.
const shop::Separator* withBin(const shop::Collector& collector);

/// "C1 Y1", "bin of C1".
std::string binLabel(const shop::Collector& collector, const shop::Separator& separator);

}  // namespace kerfdraft::judge
