// Field tables of machines, their ports and blowers, and of fan ratings.
#pragma once

#include "files/limits.h"
#include "files/words.h"

namespace kerfdraft::files {

template <>
struct Table<shop::RatedPoint> {
  static constexpr std::string_view kNoun = "rated-point";
  static constexpr std::string_view kDoc = "A maker's pair: a flow and the static suction in the connection.";
  static constexpr auto kFields =
      std::make_tuple(required("flow", &shop::RatedPoint::flow, "The flow.", kFlowAboveZero),
                      required("suction", &shop::RatedPoint::suction,
                               "Static suction in the connection, as a positive value.", kPressureAboveZero));
};

template <>
struct Table<shop::Port> {
  static constexpr std::string_view kNoun = "port";
  static constexpr std::string_view kDoc = "Where a duct takes air from a machine.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Port::id, "Its id."),
      required("label", &shop::Port::label, "Printed label, different from the machine's other ports.",
               TextRule::Label),
      optional("name", &shop::Port::name, "What it takes from: \"lower cabinet\"."),
      required("at", &shop::Port::at, "Centre of the port."),
      required("bore", &shop::Port::bore, "Bore of the port.", kBore),
      optional("hood", &shop::Port::hood,
               "Catalogue hood form; without one 0.5 and the internals of the machine kind.", TextRule::Key),
      optional("entry", &shop::Port::entry,
               "Entry loss in velocity pressures of the port; goes before hood and maker's pair.",
               kCoefficient),
      optional("maker", &shop::Port::maker, "The maker's flow and suction."),
      optional("floor", &shop::Port::floor, "Flow at which chips are carried.", kFlow),
      optional("target", &shop::Port::target, "Flow at which dust is taken too.", kFlow));
};

template <>
struct Table<shop::CurvePoint> {
  static constexpr std::string_view kNoun = "curve-point";
  static constexpr std::string_view kDoc = "One point of a fan curve.";
  static constexpr auto kFields =
      std::make_tuple(required("flow", &shop::CurvePoint::flow, "The flow.", kFlow),
                      required("pressure", &shop::CurvePoint::pressure,
                               "The pressure of the rating's basis; suctions as positive values.", kPressure),
                      optional("power", &shop::CurvePoint::power, "Power at the shaft.", kPower));
};

template <>
struct Table<shop::FanRating> {
  static constexpr std::string_view kNoun = "fan-rating";
  static constexpr std::string_view kDoc =
      "What is known of a fan: a curve, or only the free-air flow and greatest suction of its label.";
  static constexpr auto kFields = std::make_tuple(
      required("basis", &shop::FanRating::basis, "Which pressure was rated."),
      optional("points", &shop::FanRating::points, "The curve, in the order of rising flow."),
      optional("free-air-flow", &shop::FanRating::free_air_flow, "Label: flow with nothing connected.",
               kFlowAboveZero),
      optional("greatest-suction", &shop::FanRating::greatest_suction,
               "Label: suction with the inlet closed.", kPressureAboveZero),
      optional("test-bore", &shop::FanRating::test_bore, "Bore of the inlet pipe in which it was measured.",
               kBore),
      optional("fitted", &shop::FanRating::fitted, "What stood on the unit when it was measured."),
      optional("density", &shop::FanRating::density, "Density of the test; standard air where not given.",
               Range{"0.5 kg/m3", "2 kg/m3"}),
      optional("speed", &shop::FanRating::speed, "Rotational speed of the test.", kSpeed));
};

template <>
struct Table<shop::Motor> {
  static constexpr std::string_view kNoun = "motor";
  static constexpr std::string_view kDoc = "Motor and wheel.";
  static constexpr auto kFields = std::make_tuple(
      optional("power", &shop::Motor::power, "Rated power of the motor.", kPower),
      optional("speed", &shop::Motor::speed,
               "Running speed of the wheel, where a belt or drive makes it another than the test's.", kSpeed),
      optional("wheel", &shop::Motor::wheel, "Diameter of the wheel.", Range{"20 mm", "3 m"}));
};

template <>
struct Table<shop::Blower> {
  static constexpr std::string_view kNoun = "blower";
  static constexpr std::string_view kDoc = "The blower built into a machine.";
  static constexpr auto kFields =
      std::make_tuple(required("id", &shop::Blower::id, "Its id."),
                      optional("label", &shop::Blower::label, "Printed label.", TextRule::Label),
                      required("rating", &shop::Blower::rating, "What is known of it."),
                      optional("motor", &shop::Blower::motor, "Its motor and wheel."));
};

template <>
struct Table<shop::Machine> {
  static constexpr std::string_view kNoun = "machine";
  static constexpr std::string_view kDoc = "A machine: a body with openings to the room, and its ports.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Machine::id, "Its id."),
      required("label", &shop::Machine::label, "Printed label: \"T1\".", TextRule::Label),
      optional("name", &shop::Machine::name, "What it is called."),
      optional("kind", &shop::Machine::kind, "Catalogue machine kind.", TextRule::Key),
      optional("chips", &shop::Machine::chips, "Catalogue material that it throws.", TextRule::Key),
      optional("room", &shop::Machine::room, "Id of its room; outdoors where not given."),
      required("at", &shop::Machine::at, "Middle of its footprint, on the floor."),
      required("width", &shop::Machine::width, "Its size along x before turning.", kBodySize),
      required("depth", &shop::Machine::depth, "Its size along y before turning.", kBodySize),
      required("height", &shop::Machine::height, "Its height.", kBodySize),
      optional("turned", &shop::Machine::turned, "How far it is turned, anticlockwise from above.", kTurned),
      optional("openings", &shop::Machine::openings,
               "Area of all openings of the body to the room; without it the body stands at room pressure.",
               kArea),
      optional("waste", &shop::Machine::waste, "Chips and dust produced while cutting.",
               Range{"0 kg/s", "10 kg/s"}),
      optional("floor", &shop::Machine::floor,
               "Flow at which chips are carried, where the ports share one figure.", kFlow),
      optional("target", &shop::Machine::target,
               "Flow at which dust is taken too, where the ports share one figure.", kFlow),
      optional("throws", &shop::Machine::throws_what, "What it throws beside air."),
      optional("guard", &shop::Machine::guard, "Whether its cutter's guard is fitted."),
      optional("circuit", &shop::Machine::circuit, "Id of the electric circuit that feeds it."),
      optional("motor", &shop::Machine::motor, "Rated power of its own motor.", kPower),
      optional("ports", &shop::Machine::ports, "Its ports."),
      optional("blower", &shop::Machine::blower, "Its own blower."));
};

}  // namespace kerfdraft::files
