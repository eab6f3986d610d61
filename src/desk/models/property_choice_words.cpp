// The values to choose from. A row of this table is all that a new value of the format needs.
#include <algorithm>
#include <array>

#include "desk/models/property_words.h"

namespace kerfdraft::desk {
namespace {

constexpr auto kChoices = std::to_array<ChoiceWords>({
    {"standing", "measured", "measured here"},
    {"standing", "published", "published in a book or table"},
    {"standing", "maker", "from the maker"},
    {"standing", "assumed", "assumed as usual"},
    {"standing", "estimated", "a guess by eye"},

    {"unit-system", "us", "US: inches, feet, cfm, inches of water"},
    {"unit-system", "metric", "metric: mm, m, m³/h, pascals"},

    {"who", "home", "a private shop"},
    {"who", "one-person", "a business without employees"},
    {"who", "employer", "a business with employees"},
    {"who", "school", "a school or college"},

    {"density", "local", "thinner where the suction is greater"},
    {"density", "uniform", "equally dense everywhere"},

    {"opening-kind", "door", "a door"},
    {"opening-kind", "window", "a window"},
    {"opening-kind", "grille", "a grille or louvre, always open"},
    {"opening-kind", "crack", "cracks of the building"},
    {"opening-kind", "exhaust", "another fan that takes air out"},

    {"rating-basis", "static-at-inlet", "static suction in the pipe before the unit"},
    {"rating-basis", "total-at-inlet", "total suction in the pipe before the unit"},
    {"rating-basis", "fan-static", "fan static pressure"},
    {"rating-basis", "fan-total", "fan total pressure"},

    {"fitted", "unknown", "not said"},
    {"fitted", "nothing", "nothing: the bare fan"},
    {"fitted", "bag", "its bag"},
    {"fitted", "filter", "its filter"},
    {"fitted", "cyclone", "its cyclone, no filter"},
    {"fitted", "cyclone-and-filter", "its cyclone and filter"},

    {"hose-inside", "smooth", "smooth to the finger"},
    {"hose-inside", "ribbed", "ribs can be felt"},

    {"hose-hung", "tight", "pulled straight"},
    {"hose-hung", "hung", "hung with a little sag"},
    {"hose-hung", "slack", "lying in bends"},

    {"gate-slot", "none", "airtight: it has no slot"},
    {"gate-slot", "new", "well: a good gate"},
    {"gate-slot", "worn", "badly: worn or poorly made"},

    {"fan-side", "upstream", "before the fan, under suction"},
    {"fan-side", "downstream", "behind the fan"},

    {"throws", "wood", "chips and dust of wood and boards"},
    {"throws", "sparks", "sparks or hot metal"},
    {"throws", "vapour", "vapour or mist of finishes and solvents"},

    {"guard", "unknown", "not said"},
    {"guard", "fitted", "on the machine and used"},
    {"guard", "missing", "taken off or never there"},

    {"housing", "unknown", "not said"},
    {"housing", "open", "in the open: a bag or cartridge blown up from inside"},
    {"housing", "enclosed", "in a casing"},

    {"filter-state", "clean", "new or just cleaned"},
    {"filter-state", "seasoned", "in ordinary use"},
    {"filter-state", "due", "due for cleaning or change"},
});

}  // namespace

std::span<const ChoiceWords> allChoiceWords() {
  return kChoices;
}

std::string_view choiceWords(std::string_view noun, std::string_view key) {
  const auto* at = std::find_if(kChoices.begin(), kChoices.end(), [&](const ChoiceWords& each) {
    return each.noun == noun && each.key == key;
  });
  return at == kChoices.end() ? key : at->words;
}

}  // namespace kerfdraft::desk
