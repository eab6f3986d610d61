// What can hurt while a remedy is carried out, by kind of remedy. Usual cautions of the trades (common
// practice, no source); they take nobody's training's place.
#pragma once

#include <string_view>

namespace kerfdraft::judge {

/// One or two sentences; empty where the work is no more dangerous than any in a shop.
std::string_view remedyCaution(std::string_view kind);

}  // namespace kerfdraft::judge
