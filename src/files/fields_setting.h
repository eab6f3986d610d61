// Field tables of the setting, the air of the day and the rooms.
#pragma once

#include "files/limits.h"
#include "files/words.h"

namespace kerfdraft::files {

template <>
struct Table<shop::Policy> {
  static constexpr std::string_view kNoun = "policy";
  static constexpr std::string_view kDoc = "A choice where published rules disagree: whose figure decides.";
  static constexpr auto kFields = std::make_tuple(
      required("subject", &shop::Policy::subject, "What the rules disagree about.", TextRule::Key),
      required("choice", &shop::Policy::choice, "Key of the authority or rule that decides.", TextRule::Key));
};

template <>
struct Table<shop::Setting> {
  static constexpr std::string_view kNoun = "setting";
  static constexpr std::string_view kDoc = "Whose shop it is and how its answers are counted and shown.";
  static constexpr auto kFields = std::make_tuple(
      required("name", &shop::Setting::name, "Name of the shop."),
      optional("note", &shop::Setting::note, "Free text. An example says here that it is invented.",
               TextRule::Note),
      shown("who", &shop::Setting::who, "Who answers for the shop; decides which rules bind."),
      optional("country", &shop::Setting::country, "ISO 3166 code of two letters.", TextRule::Country),
      shown("units", &shop::Setting::units,
            "Units in which computed values are shown. Entered values may be in any unit."),
      optional("density", &shop::Setting::density, "Density of the air along the ducts."),
      optional("leakage", &shop::Setting::leakage, "Joints and gate slots leak."),
      optional("policies", &shop::Setting::policies, "Choices between rules that disagree."),
      optional("woods", &shop::Setting::woods, "Catalogue woods that are worked here.", TextRule::Key));
};

template <>
struct Table<shop::Air> {
  static constexpr std::string_view kNoun = "air";
  static constexpr std::string_view kDoc = "The air of the day.";
  static constexpr auto kFields = std::make_tuple(
      required("temperature", &shop::Air::temperature, "Temperature in the shop.", Range{"-40 °C", "60 °C"}),
      optional("altitude", &shop::Air::altitude,
               "Height above the sea. Sea level where neither this nor the barometer is given.",
               Range{"-430 m", "6000 m"}),
      optional("barometer", &shop::Air::barometer,
               "Pressure read at the place, not reduced to the sea. Goes before the altitude.",
               Range{"45 kPa", "110 kPa"}),
      optional("humidity", &shop::Air::humidity, "Relative humidity; 50 % where not given.",
               Range{"0 %", "100 %"}));
};

template <>
struct Table<shop::Underlay> {
  static constexpr std::string_view kNoun = "underlay";
  static constexpr std::string_view kDoc =
      "A DXF drawing or a picture that lies under the plan, to be drawn over. Nothing is computed from it. "
      "Its "
      "units are those of the drawing, or a picture's pixels, x to the right and y up.";
  static constexpr auto kFields = std::make_tuple(
      required("file", &shop::Underlay::file, "The file: beside this one, or with its whole path.",
               TextRule::Path),
      required("at", &shop::Underlay::at, "Where its point (from-x, from-y) lies in the shop."),
      optional("from-x", &shop::Underlay::from_x, "That point in the drawing's own units; 0 where not given.",
               kSheet),
      optional("from-y", &shop::Underlay::from_y, "Its other coordinate.", kSheet),
      optional("unit", &shop::Underlay::unit,
               "What one unit of it is in the shop; without it the scale is not known yet.",
               Range{"0.0001 mm", "1 km"}),
      optional("turned", &shop::Underlay::turned, "Anticlockwise about that point.", kTurned),
      optional("strength", &shop::Underlay::strength, "How strongly it is shown; 50 % where not given.",
               Range{"5 %", "100 %"}),
      optional("hidden", &shop::Underlay::hidden, "It is kept, but not shown."),
      optional("layers-off", &shop::Underlay::layers_off, "Layers of a DXF drawing that are not shown.",
               TextRule::Path));
};

template <>
struct Table<shop::Opening> {
  static constexpr std::string_view kNoun = "opening";
  static constexpr std::string_view kDoc = "Where a room meets the outdoors or another room.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Opening::id, "Its id."),
      optional("label", &shop::Opening::label, "Printed label.", TextRule::Label),
      required("kind", &shop::Opening::kind, "What it is."),
      required("from", &shop::Opening::from, "One end of it on the wall."),
      required("to", &shop::Opening::to, "Its other end."),
      optional("area", &shop::Opening::area, "Free area when open; an exhaust has none.", kArea),
      optional("flow", &shop::Opening::flow, "An exhaust only: the air it takes out of the room.", kFlow),
      optional("leads-to", &shop::Opening::leads_to, "Id of another room; outdoors where not given."),
      optional("usually-open", &shop::Opening::usually_open,
               "Doors and windows: open unless a state says otherwise."));
};

template <>
struct Table<shop::Obstacle> {
  static constexpr std::string_view kNoun = "obstacle";
  static constexpr std::string_view kDoc =
      "A body that ducts and machines must avoid: post, cupboard, boiler, low beam.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Obstacle::id, "Its id."),
      optional("label", &shop::Obstacle::label, "Printed label.", TextRule::Label),
      required("outline", &shop::Obstacle::outline, "Its corners on the plan, in order around.",
               Limits::atLeast(3)),
      required("bottom", &shop::Obstacle::bottom, "Height of its underside above the floor.", kHeight),
      required("top", &shop::Obstacle::top, "Height of its top above the floor.", kHeight));
};

template <>
struct Table<shop::Room> {
  static constexpr std::string_view kNoun = "room";
  static constexpr std::string_view kDoc = "A room with what matters to air: height, openings, fires.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Room::id, "Its id."),
      required("label", &shop::Room::label, "Printed label.", TextRule::Label),
      required("outline", &shop::Room::outline, "Its corners on the plan, in order around.",
               Limits::atLeast(3)),
      required("height", &shop::Room::height, "Height of the ceiling.", Range{"1 m", "50 m"}),
      optional("natural-draft-appliance", &shop::Room::natural_draft_appliance,
               "A boiler, heater or stove that breathes the room's air."),
      optional("openings", &shop::Room::openings, "Doors, windows, grilles, cracks, other exhausts."),
      optional("obstacles", &shop::Room::obstacles, "What stands or hangs in the way."));
};

}  // namespace kerfdraft::files
