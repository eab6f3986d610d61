// Field tables of ducts and what hangs on them, and of the ways in which a duct can end.
#pragma once

#include "files/limits.h"
#include "files/words.h"

namespace kerfdraft::files {

template <>
struct Table<shop::PortRef> {
  static constexpr std::string_view kNoun = "port-ref";
  static constexpr std::string_view kDoc = "One port of one machine.";
  static constexpr auto kFields =
      std::make_tuple(required("machine", &shop::PortRef::machine, "Id of the machine."),
                      required("port", &shop::PortRef::port, "Id of the port on it."));
};

template <>
struct Table<shop::OnCorner> {
  static constexpr std::string_view kNoun = "on-corner";
  static constexpr std::string_view kDoc = "A branch entry at an inner corner of another duct.";
  static constexpr auto kFields = std::make_tuple(
      required("duct", &shop::OnCorner::duct, "Id of the other duct."),
      required("corner", &shop::OnCorner::corner, "Id of one of its inner corners."),
      optional("saddle", &shop::OnCorner::saddle, "Hand-cut into thin pipe instead of a fitting."));
};

template <>
struct Table<shop::FreeAir> {
  static constexpr std::string_view kNoun = "free-air";
  static constexpr std::string_view kDoc =
      "Free air: a floor sweep or open pipe where a duct starts, a discharge where it ends.";
  static constexpr auto kFields = std::make_tuple(
      optional("room", &shop::FreeAir::room, "Id of the room; outdoors where not given."),
      optional("form", &shop::FreeAir::form, "Catalogue hood form or cap; a plain pipe end where not given.",
               TextRule::Key));
};

/// How each alternative of a duct end is written: an object with this one key.
template <class End>
struct EndForm;

template <>
struct EndForm<shop::OpenEnd> {
  static constexpr std::string_view kKey = "open";
  static constexpr std::string_view kDoc = "`true`: nothing is joined yet.";
};
template <>
struct EndForm<shop::PortRef> {
  static constexpr std::string_view kKey = "port";
  static constexpr std::string_view kDoc = "A port of a machine (`from` only).";
};
template <>
struct EndForm<shop::MovedEnd> {
  static constexpr std::string_view kKey = "moved";
  static constexpr std::string_view kDoc =
      "A list of ports: one hose that is moved between them; each state says where it is (`from` only).";
};
template <>
struct EndForm<shop::CollectorInlet> {
  static constexpr std::string_view kKey = "collector-inlet";
  static constexpr std::string_view kDoc = "Id of a collector whose inlet the duct reaches (`to` only).";
};
template <>
struct EndForm<shop::CollectorOutlet> {
  static constexpr std::string_view kKey = "collector-outlet";
  static constexpr std::string_view kDoc = "Id of a collector at whose outlet the duct starts (`from` only).";
};
template <>
struct EndForm<shop::OnCorner> {
  static constexpr std::string_view kKey = "corner";
  static constexpr std::string_view kDoc = "An inner corner of another duct: a branch entry there.";
};
template <>
struct EndForm<shop::FreeAir> {
  static constexpr std::string_view kKey = "free-air";
  static constexpr std::string_view kDoc = "Free air in a room or outdoors.";
};

template <>
struct Table<shop::Hose> {
  static constexpr std::string_view kNoun = "hose";
  static constexpr std::string_view kDoc = "Makes a leg hose instead of duct.";
  static constexpr auto kFields = std::make_tuple(
      shown("inside", &shop::Hose::inside, "How it is inside."),
      shown("hung", &shop::Hose::hung, "How it hangs."),
      optional("length", &shop::Hose::length, "Installed length, where it is not the drawn one.",
               Range{"10 mm", "100 m"}),
      optional("compression", &shop::Hose::compression,
               "How much it is pushed together: 1 − installed length / full length.", Range{"0", "0.9"}));
};

template <>
struct Table<shop::Leg> {
  static constexpr std::string_view kNoun = "leg";
  static constexpr std::string_view kDoc = "What a duct is made of from a corner on.";
  static constexpr auto kFields =
      std::make_tuple(required("bore", &shop::Leg::bore, "True bore.", kBore),
                      optional("construction", &shop::Leg::construction,
                               "Catalogue construction; not used for hose.", TextRule::Key),
                      optional("hose", &shop::Leg::hose, "Given where it is hose."),
                      optional("taper", &shop::Leg::taper,
                               "Included angle of the reducer at its beginning; stepped where not given.",
                               Range{"1 deg", "180 deg"}));
};

template <>
struct Table<shop::ElbowForm> {
  static constexpr std::string_view kNoun = "elbow-form";
  static constexpr std::string_view kDoc = "An elbow that is not the duct's usual one.";
  static constexpr auto kFields = std::make_tuple(
      optional("form", &shop::ElbowForm::form, "Catalogue elbow.", TextRule::Key),
      optional("radius", &shop::ElbowForm::radius, "Centre-line radius over bore.", Range{"0.5", "20"}));
};

template <>
struct Table<shop::Corner> {
  static constexpr std::string_view kNoun = "corner";
  static constexpr std::string_view kDoc = "A corner of a duct's middle line, its ends included.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Corner::id, "Its id."), required("at", &shop::Corner::at, "Where it is."),
      optional("leg", &shop::Corner::leg,
               "What the duct is made of from here on; as before where not given. The first corner has one."),
      optional("elbow", &shop::Corner::elbow, "The elbow here, where it is not the usual one."),
      optional("loss", &shop::Corner::loss,
               "Loss of the fitting here in velocity pressures; goes before the catalogue.", kCoefficient));
};

template <>
struct Table<shop::Gate> {
  static constexpr std::string_view kNoun = "gate";
  static constexpr std::string_view kDoc = "A blast gate.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Gate::id, "Its id."),
      required("label", &shop::Gate::label, "Printed label: \"G2\".", TextRule::Label),
      required("corner", &shop::Gate::corner, "Id of the corner at which its leg begins."),
      required("distance", &shop::Gate::distance, "How far along the leg from that corner.", kAlongLeg),
      optional("slot", &shop::Gate::slot, "How well it shuts."));
};

template <>
struct Table<shop::Access> {
  static constexpr std::string_view kNoun = "access";
  static constexpr std::string_view kDoc =
      "A hole to measure at (tap) or a door to clean through (cleanout).";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Access::id, "Its id."),
      required("label", &shop::Access::label, "Printed label.", TextRule::Label),
      required("corner", &shop::Access::corner, "Id of the corner at which its leg begins."),
      required("distance", &shop::Access::distance, "How far along the leg from that corner.", kAlongLeg));
};

template <>
struct Table<shop::Duct> {
  static constexpr std::string_view kNoun = "duct";
  static constexpr std::string_view kDoc = "A duct, drawn in the direction of its air.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Duct::id, "Its id."),
      required("label", &shop::Duct::label, "Printed label: \"D1\".", TextRule::Label),
      optional("name", &shop::Duct::name, "What it is called."),
      shown("from", &shop::Duct::from, "Where its air comes from; open where not given."),
      shown("to", &shop::Duct::to, "Where its air goes; open where not given."),
      optional("elbow-form", &shop::Duct::elbow_form,
               "Catalogue elbow of its corners; the five-piece one where not given.", TextRule::Key),
      required("corners", &shop::Duct::corners, "Its corners from end to end.", Limits::atLeast(2)),
      optional("gates", &shop::Duct::gates, "Its blast gates."),
      optional("taps", &shop::Duct::taps, "Its measuring holes."),
      optional("cleanouts", &shop::Duct::cleanouts, "Its cleaning doors."));
};

}  // namespace kerfdraft::files
