// Random shops that could stand somewhere: machines against each other, drops, branches into a main, gates.
#pragma once

#include <cstdint>

#include "drawing/overlay.h"
#include "shop/project.h"

namespace kerfdraft::drawing {

/// The same seed gives the same shop; `machines` of them crowd the room more and more.
shop::Project randomShop(std::uint64_t seed, int machines);

/// Results for every leg, run, machine, port, gate and fan, made up.
Overlay randomOverlay(std::uint64_t seed, const shop::Project& project, const pieces::Pieces& pieces);

}  // namespace kerfdraft::drawing
