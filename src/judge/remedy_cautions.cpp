// A table: the kind of work, and the remedies that need it.
#include "judge/remedy_cautions.h"

#include <algorithm>
#include <array>
#include <utility>

namespace kerfdraft::judge {

namespace {

constexpr std::string_view kOverhead =
    "Before work on ducts: collector off and locked, so that nobody starts it. Stand on a ladder that is "
    "held, with nothing below; edges of sheet metal cut, so wear gloves.";
constexpr std::string_view kDust =
    "Fine dust: collector off, a mask for fine dust on, outdoors where that can be, no flame or spark near.";
constexpr std::string_view kMains = "Mains wiring is for a licensed electrician.";
constexpr std::string_view kFlue =
    "Where a stove, boiler or heater breathes the room's air, its smoke can be drawn in: carbon monoxide "
    "kills unnoticed. Have the draft tested before use.";
constexpr std::string_view kInlet =
    "At an inlet that pulls: hands, sleeves and hair away, and nothing loose near it.";

constexpr auto kCautions = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"bigger-bin", kDust},
    {"bigger-collector", kMains},
    {"bigger-duct", kOverhead},
    {"bigger-duct-and-port", kOverhead},
    {"bigger-motor", kMains},
    {"clean-filter", kDust},
    {"clean-filter-at", kDust},
    {"drill-taps", kOverhead},
    {"empty-bin", kDust},
    {"empty-outdoors", kDust},
    {"enter-from-above", kOverhead},
    {"gate-at-main", kOverhead},
    {"gates-at-main", kOverhead},
    {"lead-outdoors", kFlue},
    {"let-room-breathe", kFlue},
    {"metal-duct", kOverhead},
    {"more-filter", kDust},
    {"move-entry", kOverhead},
    {"non-return", kOverhead},
    {"own-circuit", kMains},
    {"room-opening", kFlue},
    {"sealed-appliance", kFlue},
    {"shut-inlet-test", kInlet},
    {"slant-entry", kOverhead},
    {"smaller-duct", kOverhead},
    {"spread-elbows", kOverhead},
    {"stiffer-duct", kOverhead},
    {"straight-inlet", kOverhead},
    {"uncover-outlet", kDust},
    {"wide-elbows", kOverhead},
    {"widen-narrow-part", kOverhead},
});

}  // namespace

std::string_view remedyCaution(std::string_view kind) {
  const auto* found =
      std::find_if(kCautions.begin(), kCautions.end(), [&](const auto& each) { return each.first == kind; });
  return found == kCautions.end() ? std::string_view{} : found->second;
}

}  // namespace kerfdraft::judge
