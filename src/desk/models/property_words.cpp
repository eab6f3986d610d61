// The fields. A row of this table is all that a new field of the format needs to be shown in plain words.
#include "desk/models/property_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "desk/models/glossary.h"

namespace kerfdraft::desk {
namespace {

constexpr std::string_view kLabel = "The short sign that is printed on plans and lists.";
constexpr std::string_view kCircuit =
    "The electric circuit that feeds it: what shares one trips together. Circuits are put in where nothing "
    "is "
    "picked.";
constexpr std::string_view kDistance = "How far along the duct, from the corner before it.";
constexpr std::string_view kSide =
    "Before the fan it lies under suction and keeps chips from the wheel; behind it, it is blown through.";
constexpr std::string_view kInside =
    "Yes where it stood on the unit when the fan was measured: its loss is then in the fan's figures "
    "already.";

constexpr auto kFields = std::to_array<FieldWords>({
    {"setting", "name", "Name of the shop", "It heads every paper."},
    {"setting", "note", "Notes", "Whatever is worth keeping with this project."},
    {"setting", "who", "Whose shop it is", "It decides which rules bind, and how severe a finding is."},
    {"setting", "country", "Country",
     "Two capital letters, like US or DE: whose limits and rules count. Without one, no country's rules are "
     "applied."},
    {"setting", "units", "Units shown",
     "For calculated numbers. What was typed stays as it was typed, and any unit may be typed."},
    {"setting", "density", "Air under suction",
     "Whether the air is taken as thinner where the suction is greater, or as equally dense everywhere.",
     "density"},
    {"setting", "leakage", "Leaks are counted",
     "Whether joints of the ducts and slots of the gates leak in the calculation, as they do in a shop."},
    {"setting", "policies", "Where published rules disagree", "Whose figure decides."},
    {"setting", "woods", "Woods worked here",
     "Tick what is cut here: the limit for dust in the air, and cautions about some woods, follow from it."},

    {"policy", "subject", "What the rules disagree about",
     "One question to which books give several answers."},
    {"policy", "choice", "Whose figure decides", "The book or law that is followed there."},

    {"air", "temperature", "Temperature in the shop", "Warm air is thinner than cold."},
    {"air", "altitude", "Altitude above the sea",
     "Height of the shop above the sea; sea level where neither this nor a barometer is given.", "altitude"},
    {"air", "barometer", "Barometer reading",
     "Pressure of the air at the shop itself, not corrected to the sea. It goes before the altitude."},
    {"air", "humidity", "Humidity of the air", "Relative humidity; 50 % where nothing is said."},

    {"circuit", "label", "Label", kLabel},
    {"circuit", "voltage", "Voltage", "Between the wires that feed the motors."},
    {"circuit", "breaker", "Breaker", "The current that its breaker or fuse is made for."},
    {"circuit", "three-phase", "Three phases", "Yes where it is a three-phase circuit."},

    {"room", "label", "Label", kLabel},
    {"room", "height", "Ceiling height", "From the floor to the ceiling."},
    {"room", "natural-draft-appliance", "Stove or boiler that breathes the room's air",
     "A fire with a chimney and no fan: an exhaust can pull its smoke back into the room."},

    {"opening", "label", "Label", kLabel},
    {"opening", "kind", "What it is", "An exhaust takes air out; through all others it comes in."},
    {"opening", "from", "One end", "Of the opening, on the wall."},
    {"opening", "to", "Other end", "Of the opening, on the wall."},
    {"opening", "area", "Free area when open",
     "What air can pass through: of a grille the gaps alone. An exhaust has none."},
    {"opening", "flow", "Air it takes out", "Of an exhaust only: what its own fan takes out of the room."},
    {"opening", "leads-to", "Leads to", "The room behind it; outdoors where none is chosen.", "make-up air"},
    {"opening", "usually-open", "Usually open",
     "Of doors and windows: how they stand in every state of use that does not say otherwise."},

    {"obstacle", "label", "Label", kLabel},
    {"obstacle", "bottom", "Underside, above the floor", "0 for what stands on the floor."},
    {"obstacle", "top", "Top, above the floor", "The ceiling's height for what reaches up to it."},

    {"rated-point", "flow", "Flow", "What the maker asks for.", "flow"},
    {"rated-point", "suction", "Suction there", "In the connection, as a positive value.", "suction"},

    {"port", "label", "Label", kLabel},
    {"port", "name", "Where it takes from", "Like \"lower cabinet\" or \"blade guard\"."},
    {"port", "at", "Centre", "Of the port."},
    {"port", "bore", "Bore of the port", "Measure inside, not around the outside.", "bore"},
    {"port", "hood", "Form of its hood",
     "It decides what the air loses on the way in. Not said: a usual figure, and what is known of the kind "
     "of "
     "machine.",
     "hood"},
    {"port", "entry", "Entry loss, where it is known",
     "In velocity pressures of the port. It goes before the form of the hood and the maker's figures.",
     "entry coefficient"},
    {"port", "maker", "Maker's flow and suction", "From the machine's manual: what it needs at this port."},
    {"port", "floor", "Minimum air, for chips",
     "Below this the chips stay behind. Where one figure is meant for all ports, it stands with the machine.",
     "minimum"},
    {"port", "target", "Target air, for fine dust",
     "At this the fine dust goes too. Where one figure is meant for all ports, it stands with the machine.",
     "target"},

    {"curve-point", "flow", "Flow", "Of one point of the fan curve.", "flow"},
    {"curve-point", "pressure", "Pressure there", "Suction as a positive value."},
    {"curve-point", "power", "Power at the shaft", "Where the maker gives it."},

    {"fan-rating", "basis", "Which pressure was measured",
     "The data sheet says it, or shows where the gauge was."},
    {"fan-rating", "points", "Fan curve", "From the data sheet, in the order of rising flow.", "fan curve"},
    {"fan-rating", "free-air-flow", "Flow with nothing connected",
     "The flow on the label. Only used where there is no curve.", "flow"},
    {"fan-rating", "greatest-suction", "Suction with the inlet shut",
     "The greatest pressure on the label. Only used where there is no curve.", "suction"},
    {"fan-rating", "test-bore", "Bore of the test pipe",
     "Of the pipe at the inlet through which it was measured; the inlet's where nothing is said.", "bore"},
    {"fan-rating", "fitted", "On the unit when it was measured",
     "A bare fan shows more than it gives with its bag and filter on."},
    {"fan-rating", "density", "Density of the air in the test", "Standard air where nothing is said.",
     "density"},
    {"fan-rating", "speed", "Speed in the test", "Turns of the wheel in a minute when it was measured."},

    {"motor", "power", "Motor power", "From the motor's plate."},
    {"motor", "speed", "Running speed",
     "Of the wheel, where a belt or a drive makes it another than in the test."},
    {"motor", "wheel", "Diameter of the wheel", "Across the tips of its blades.", "impeller"},

    {"blower", "label", "Label of the blower", kLabel},
    {"blower", "rating", "What is known of its fan", "A curve, or the two figures of its label."},
    {"blower", "motor", "Motor and wheel", "Of the blower."},

    {"machine", "label", "Label", kLabel},
    {"machine", "name", "Name", "What it is called in this shop."},
    {"machine", "kind", "Kind of machine", "What it needs and how it loses air is looked up by it."},
    {"machine", "chips", "Kind of chips", "What it sends into the duct: it decides how fast the air must be.",
     "transport velocity"},
    {"machine", "room", "Room", "The room whose air it takes; outdoors where none is chosen."},
    {"machine", "at", "Place", "The middle of its footprint."},
    {"machine", "width", "Width", "From left to right, before it was turned."},
    {"machine", "depth", "Depth", "From front to back, before it was turned."},
    {"machine", "height", "Height", "From its underside to its top."},
    {"machine", "turned", "Turned by", "Anticlockwise, seen from above."},
    {"machine", "openings", "Openings of its body to the room",
     "All gaps together through which it takes room air, as an area. Not said: its body counts as open.",
     "in-draught"},
    {"machine", "waste", "Chips made while cutting", "As weight in an hour; none where nothing is said."},
    {"machine", "floor", "Minimum air, for chips",
     "For all its ports together: below this the chips stay behind.", "minimum"},
    {"machine", "target", "Target air, for fine dust",
     "For all its ports together: at this the fine dust goes too.", "target"},
    {"machine", "throws", "What it throws",
     "Sparks, hot metal and vapour do not belong into ducts for wood."},
    {"machine", "guard", "Guard over the cutter", "A guard also keeps the dust where the hood can take it."},
    {"machine", "circuit", "Electric circuit", kCircuit},
    {"machine", "motor", "Motor power", "Of the machine's own motor, from its plate."},
    {"machine", "ports", "Ports", "Where ducts take air from it.", "port"},
    {"machine", "blower", "Has a blower of its own",
     "A fan built into the machine, as in some sanders and planers."},

    {"port-ref", "machine", "Machine", "To which the port belongs."},
    {"port-ref", "port", "Port", "On that machine.", "port"},

    {"on-corner", "saddle", "Cut in by hand",
     "Yes where the branch was cut into thin pipe by hand instead of a made fitting: it costs more and "
     "leaks.",
     "branch entry"},

    {"free-air", "room", "Room", "Whose air it meets there; outdoors where none is chosen."},
    {"free-air", "form", "What is on its end", "A plain end of pipe where nothing is said."},

    {"hose", "inside", "Hose, inside", "Feel it with a finger: ribs cost a multiple.", "hose"},
    {"hose", "hung", "Hose, how it hangs", "Every bend and sag costs."},
    {"hose", "length", "Hose, length as it hangs", "Where it is longer than it was drawn."},
    {"hose", "compression", "Hose, pushed together by",
     "How much shorter it hangs than pulled out, as a share of the full length: 0.2 where a fifth is gone."},

    {"leg", "bore", "Bore", "Measure inside; pipes are often named by a rounder figure.", "bore"},
    {"leg", "construction", "Kind of pipe", "It decides how rough and how tight it is. Not used for hose.",
     "roughness"},
    {"leg", "hose", "It is hose", "Yes where this stretch is flexible hose instead of pipe.", "hose"},
    {"leg", "taper", "Reducer: its full angle",
     "Of the cone at the beginning of this stretch, side to side. Not said: a step, which costs the most.",
     "reducer"},

    {"elbow-form", "form", "Elbow here", "How it is made.", "elbow"},
    {"elbow-form", "radius", "Radius of its bend, over the bore",
     "1.5 is a usual one, 1 is tight. Not said: as usual for its kind.", "R/D"},

    {"corner", "at", "Place", "The middle of the duct at this corner."},
    {"corner", "leg", "Another bore or kind of pipe from here on",
     "Yes where the duct changes at this corner; else it goes on as before."},
    {"corner", "elbow", "Another elbow here", "Yes where it is not the usual one of this duct.", "elbow"},
    {"corner", "loss", "Loss of the fitting, where it is known",
     "In velocity pressures. It goes before what the tables say.", "loss"},

    {"gate", "label", "Label", kLabel},
    {"gate", "distance", "Distance from the corner", kDistance},
    {"gate", "slot", "How well it shuts", "A shut gate still leaks through its slot.", "blast gate"},

    {"access", "label", "Label", kLabel},
    {"access", "distance", "Distance from the corner", kDistance},

    {"duct", "label", "Label", kLabel},
    {"duct", "name", "Name", "What it is called in this shop."},
    {"duct", "from", "Where its air comes from", "Draw to a port or another duct to join it there."},
    {"duct", "to", "Where its air goes", "Draw to a collector or another duct to join it there."},
    {"duct", "elbow-form", "Usual elbow",
     "At all its corners that say nothing else. Not said: of five pieces.", "elbow"},

    {"separator", "label", "Label", kLabel},
    {"separator", "kind", "Kind of separator", "What takes the chips out.", "separator"},
    {"separator", "inside", "Counted in the fan's figures", kInside},
    {"separator", "side", "Side of the fan", kSide},
    {"separator", "heads", "Loss, in velocity pressures",
     "Of its inlet. Not said: as usual for its kind, unless a loss at a flow is given.", "velocity pressure"},
    {"separator", "inlet-bore", "Bore of its inlet", "As the unit's inlet where nothing is said.", "bore"},
    {"separator", "rated-flow", "Flow of the maker's loss", "Goes together with the loss below.", "flow"},
    {"separator", "rated-loss", "Maker's loss at that flow", "From its data sheet.", "loss"},
    {"separator", "bin", "Size of its bin", "How much it holds.", "bin"},
    {"separator", "bin-form", "Kind of bin", "A weak bin is pulled in by the suction."},

    {"filter-point", "flow", "Flow", "Through the whole filter.", "flow"},
    {"filter-point", "loss", "Loss there", "Of the filter at that flow.", "loss"},

    {"filter", "label", "Label", kLabel},
    {"filter", "inside", "Counted in the fan's figures", kInside},
    {"filter", "side", "Side of the fan", kSide},
    {"filter", "area", "Filter area", "All the cloth or paper that air goes through, pleats laid flat."},
    {"filter", "clean", "Loss when clean", "A flow and the loss there. Not said: worked out from the area.",
     "clean filter"},
    {"filter", "seasoned", "Loss in ordinary use", "A flow and the loss there. Not said: worked out.",
     "seasoned filter"},
    {"filter", "due", "Loss when due for cleaning", "A flow and the loss there. Not said: worked out.",
     "due filter"},
    {"filter", "housing", "How it stands in its room",
     "A bag in the open lets fine dust and, should dust ever flash, flame into the room."},
    {"filter", "cleaning", "How it is cleaned", "It decides how much cloth the flow needs."},
    {"filter", "gauge", "Has a gauge", "A gauge across it shows when it is due.", "manometer"},

    {"discharge", "room", "Blows into",
     "The room into which it blows, where no duct takes the air away; outdoors where none is chosen.",
     "make-up air"},

    {"collector", "label", "Label", kLabel},
    {"collector", "name", "Name", "What it is called in this shop."},
    {"collector", "room", "Room", "In which it stands; outdoors where none is chosen."},
    {"collector", "at", "Inlet", "The centre of its inlet."},
    {"collector", "inlet-bore", "Bore of its inlet", "Measure inside.", "bore"},
    {"collector", "outlet-bore", "Bore of its outlet", "Measure inside; needed where a duct starts there.",
     "bore"},
    {"collector", "rating", "What is known of its fan", "A curve, or the two figures of its label."},
    {"collector", "motor", "Motor and wheel", "Of the fan."},
    {"collector", "separators", "Separators", "In the order in which the air meets them.", "separator"},
    {"collector", "filters", "Filters", "In the order in which the air meets them."},
    {"collector", "non-return", "Non-return damper",
     "A flap that shuts when the fan stands, so that no air comes back through it."},
    {"collector", "isolation", "Keeps flame from the ducts",
     "Yes where a flap or valve stops a flame from running back towards the machines."},
    {"collector", "circuit", "Electric circuit", kCircuit},
    {"collector", "discharge", "Where its air goes", "Where no duct takes it away."},

    {"state", "name", "Name", "Of this way of using the shop."},
    {"state", "gates", "Gates", "How far it is open: 0 is shut, 1 is open, 0.5 or 50 % half open.", "travel"},
    {"state", "hoses", "Moved hoses", "At which machine the hose is; it lies closed where at none.",
     "moved hose"},
    {"state", "off", "What runs", "Whether its fan runs in this state."},
    {"state", "swung", "Doors and windows", "Whether it stands open in this state.", "make-up air"},
    {"state", "filter", "Filters", "How dirty they are in this state."},
    {"state", "unused", "Only to look at",
     "Yes where nobody works so: it is kept for comparison, and nothing is found wrong with it."},

    {"gate-setting", "gate", "Gate", "That is meant.", "blast gate"},
    {"gate-setting", "travel", "How far it is open", "0 is shut, 1 is open.", "travel"},
    {"hose-place", "duct", "Hose", "That is moved.", "moved hose"},
    {"hose-place", "place", "Where it is", "The port at which it hangs."},
});

constexpr auto kParts = std::to_array<PartWords>({
    {"port", "port", "Ports"},
    {"separator", "separator", "Separators"},
    {"filter", "filter", "Filters"},
    {"circuit", "circuit", "Electric circuits"},
    {"fan-rating", "fan", "What is known of its fan"},
    {"motor", "motor", "Motor and wheel"},
    {"discharge", "outlet", "Where its air goes"},
    {"hose", "hose", "Hose"},
    {"leg", "stretch of duct", "From here on"},
    {"elbow-form", "elbow", "Another elbow here"},
    {"blower", "blower", "Its own blower"},
});

}  // namespace

std::span<const FieldWords> allFieldWords() {
  return kFields;
}

std::span<const PartWords> allPartWords() {
  return kParts;
}

const FieldWords* fieldWords(std::string_view noun, std::string_view key) {
  const auto* at = std::find_if(kFields.begin(), kFields.end(),
                                [&](const FieldWords& each) { return each.noun == noun && each.key == key; });
  return at == kFields.end() ? nullptr : at;
}

const PartWords* partWords(std::string_view noun) {
  const auto* at =
      std::find_if(kParts.begin(), kParts.end(), [&](const PartWords& each) { return each.noun == noun; });
  return at == kParts.end() ? nullptr : at;
}

std::string explained(std::string_view help, std::string_view term, std::string_view key) {
  std::string out(help);
  const auto add = [&out](const std::string& line) { out += (out.empty() ? "" : "\n") + line; };
  if (!term.empty()) {
    if (const auto sentence = termText(term)) {
      add(*sentence);
    }
  }
  if (!key.empty()) {
    add(fmt::format("In the file: {}", key));
  }
  return out;
}

}  // namespace kerfdraft::desk
