// Field tables of collectors and of the states of use.
#pragma once

#include "files/limits.h"
#include "files/words.h"

namespace kerfdraft::files {

template <>
struct Table<shop::Separator> {
  static constexpr std::string_view kNoun = "separator";
  static constexpr std::string_view kDoc = "What takes chips out before the filter: cyclone, lid, drop box.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Separator::id, "Its id."),
      optional("label", &shop::Separator::label, "Printed label.", TextRule::Label),
      optional("kind", &shop::Separator::kind, "Catalogue separator.", TextRule::Key),
      optional("inside", &shop::Separator::inside,
               "It was in the unit when that was rated: its loss is in the curve."),
      shown("side", &shop::Separator::side, "On which side of the fan it is."),
      optional("heads", &shop::Separator::heads, "Loss in velocity pressures of its inlet.", kCoefficient),
      optional("inlet-bore", &shop::Separator::inlet_bore, "Bore of its inlet; the unit's where not given.",
               kBore),
      optional("rated-flow", &shop::Separator::rated_flow, "Flow at which `rated-loss` was rated.",
               kFlowAboveZero),
      optional("rated-loss", &shop::Separator::rated_loss, "Loss at `rated-flow`.", kPressure),
      optional("bin", &shop::Separator::bin, "Volume of its bin.", Range{"0.1 l", "1000 m3"}),
      optional("bin-form", &shop::Separator::bin_form, "Catalogue container that its bin is.",
               TextRule::Key));
};

template <>
struct Table<shop::FilterPoint> {
  static constexpr std::string_view kNoun = "filter-point";
  static constexpr std::string_view kDoc = "A filter's loss at a flow.";
  static constexpr auto kFields = std::make_tuple(
      required("flow", &shop::FilterPoint::flow, "The flow through the whole filter.", kFlowAboveZero),
      required("loss", &shop::FilterPoint::loss, "Its loss there.", kPressure));
};

template <>
struct Table<shop::Filter> {
  static constexpr std::string_view kNoun = "filter";
  static constexpr std::string_view kDoc = "A filter or filter bag in its three states.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Filter::id, "Its id."),
      optional("label", &shop::Filter::label, "Printed label.", TextRule::Label),
      optional("inside", &shop::Filter::inside, "It was fitted, clean, when the unit was rated."),
      shown("side", &shop::Filter::side, "On which side of the fan it is."),
      optional("area", &shop::Filter::area, "Area of the medium.", kArea),
      optional("clean", &shop::Filter::clean, "Loss when clean."),
      optional("seasoned", &shop::Filter::seasoned, "Loss in ordinary use."),
      optional("due", &shop::Filter::due, "Loss at which it is cleaned or changed."),
      optional("housing", &shop::Filter::housing, "How it stands in its room."),
      optional("cleaning", &shop::Filter::cleaning,
               "Catalogue row of filter_loading that says how much medium it needs.", TextRule::Key),
      optional("gauge", &shop::Filter::gauge, "A gauge shows the pressure across it."));
};

template <>
struct Table<shop::Discharge> {
  static constexpr std::string_view kNoun = "discharge";
  static constexpr std::string_view kDoc = "Where the air of a unit without an outlet duct goes.";
  static constexpr auto kFields =
      std::make_tuple(optional("room", &shop::Discharge::room, "Id of the room; outdoors where not given."));
};

template <>
struct Table<shop::Collector> {
  static constexpr std::string_view kNoun = "collector";
  static constexpr std::string_view kDoc =
      "A fan unit: a collector, or a booster in a duct (then a duct starts at its outlet).";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Collector::id, "Its id."),
      required("label", &shop::Collector::label, "Printed label: \"C1\".", TextRule::Label),
      optional("name", &shop::Collector::name, "What it is called."),
      optional("room", &shop::Collector::room, "Id of its room; outdoors where not given."),
      required("at", &shop::Collector::at, "Centre of its inlet."),
      required("inlet-bore", &shop::Collector::inlet_bore, "Bore of its inlet.", kBore),
      optional("outlet-bore", &shop::Collector::outlet_bore, "Bore of its outlet.", kBore),
      required("rating", &shop::Collector::rating, "What is known of its fan."),
      optional("motor", &shop::Collector::motor, "Its motor and wheel."),
      optional("separators", &shop::Collector::separators, "In the order of the air."),
      optional("filters", &shop::Collector::filters, "In the order of the air."),
      optional("non-return", &shop::Collector::non_return, "A damper that shuts both ways when it stands."),
      optional("isolation", &shop::Collector::isolation,
               "Something keeps a flame from running back into the ducts."),
      optional("circuit", &shop::Collector::circuit, "Id of the electric circuit that feeds it."),
      shown("discharge", &shop::Collector::discharge, "Where its air goes; outdoors where not given."));
};

template <>
struct Table<shop::GateSetting> {
  static constexpr std::string_view kNoun = "gate-setting";
  static constexpr std::string_view kDoc = "How far one gate is open.";
  static constexpr auto kFields = std::make_tuple(
      required("gate", &shop::GateSetting::gate, "Id of the gate."),
      required("travel", &shop::GateSetting::travel, "0 is shut, 1 is open.", Range{"0", "1"}));
};

template <>
struct Table<shop::HosePlace> {
  static constexpr std::string_view kNoun = "hose-place";
  static constexpr std::string_view kDoc = "Where one moved hose is.";
  static constexpr auto kFields =
      std::make_tuple(required("duct", &shop::HosePlace::duct, "Id of the duct whose end is moved."),
                      required("place", &shop::HosePlace::place, "One of its places."));
};

template <>
struct Table<shop::State> {
  static constexpr std::string_view kNoun = "state";
  static constexpr std::string_view kDoc = "A state of use: everything that changes from day to day.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::State::id, "Its id."),
      required("name", &shop::State::name, "Its name, different from all others."),
      optional("gates", &shop::State::gates, "Gates that are open; the others are shut."),
      optional("hoses", &shop::State::hoses, "Where each moved hose is; a hose not listed lies closed."),
      optional("off", &shop::State::off, "Ids of collectors, boosters and blowers that stand."),
      optional("swung", &shop::State::swung, "Ids of doors and windows that are not as usual."),
      shown("filter", &shop::State::filter, "In which state the filters are."),
      optional("unused", &shop::State::unused,
               "Nobody works so: it is kept to look at, and no finding comes from it."));
};

}  // namespace kerfdraft::files
