// The project: what a person knows about a shop, as entered. A value without results; every quantity is a
// Given. Ducts are drawn in the direction of the air, from a port toward the collector.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/given.h"
#include "base/id.h"
#include "base/quantity.h"
#include "base/units.h"
#include "shop/geometry.h"

namespace kerfdraft::shop {

using base::Given;
using base::Id;

/// Who answers for the shop; decides which rules bind and how severe a finding is.
enum class Who { Home, OnePerson, Employer, School };

/// Density along the ducts: local (falls with suction) or uniform. Belongs to the system, never to a state.
enum class DensityMode { Local, Uniform };

/// A choice where published rules disagree: which authority's figure decides.
struct Policy {
  std::string subject;  ///< catalogue subject, "requirement", "transport-velocity", …
  std::string choice;   ///< key of the authority or rule
  bool operator==(const Policy&) const = default;
};

struct Setting {
  std::string name;
  std::string note;  ///< free text; examples say here that they are invented
  Who who = Who::Home;
  std::string country;  ///< ISO 3166 two letters, "US"
  base::UnitSystem units = base::UnitSystem::Us;
  DensityMode density = DensityMode::Local;
  bool leakage = true;  ///< joint leakage and gate slots are counted
  std::vector<Policy> policies;
  std::vector<std::string> woods;  ///< catalogue woods that are worked here; they choose the exposure limit
  bool operator==(const Setting&) const = default;
};

/// The air of the day.
struct Air {
  Given<base::Temperature> temperature;
  std::optional<Given<base::Length>> altitude;  ///< sea level where neither this nor the barometer is given
  std::optional<Given<base::AbsolutePressure>> barometer;  ///< station pressure; overrides the altitude
  std::optional<Given<base::Ratio>> humidity;              ///< relative, 50 % where not given
  bool operator==(const Air&) const = default;
};

// ---------------------------------------------------------------------------------------------------- rooms

enum class OpeningKind { Door, Window, Grille, Crack, Exhaust };

/// Where a room meets the outdoors (or another room).
struct Opening {
  Id id;
  std::string label;
  OpeningKind kind = OpeningKind::Door;
  PlanPoint from;  ///< ends of the opening on the wall
  PlanPoint to;
  std::optional<Given<base::Area>> area;        ///< free area; for an Exhaust none
  std::optional<Given<base::VolumeFlow>> flow;  ///< Exhaust only: what another fan takes out of the room
  Id leads_to;                                  ///< another room; outdoors where not valid
  bool usually_open = false;                    ///< doors and windows: a state lists those that differ
  bool operator==(const Opening&) const = default;
};

/// A body that ducts and machines must avoid: post, cupboard, boiler, low beam.
struct Obstacle {
  Id id;
  std::string label;
  std::vector<PlanPoint> outline;
  Given<base::Length> bottom;
  Given<base::Length> top;
  bool operator==(const Obstacle&) const = default;
};

struct Room {
  Id id;
  std::string label;
  std::vector<PlanPoint> outline;
  Given<base::Length> height;
  bool natural_draft_appliance = false;  ///< a boiler, heater or stove that breathes the room's air
  std::vector<Opening> openings;
  std::vector<Obstacle> obstacles;
  bool operator==(const Room&) const = default;
};

// ------------------------------------------------------------------------------------------------- machines

/// A maker's pair: flow and the static suction in the connection.
struct RatedPoint {
  Given<base::VolumeFlow> flow;
  Given<base::Pressure> suction;  ///< magnitude, positive
  bool operator==(const RatedPoint&) const = default;
};

/// Where a duct takes air from a machine.
struct Port {
  Id id;
  std::string label;  ///< "P1", printed
  std::string name;   ///< "lower cabinet"
  Point at;           ///< centre of the port
  Given<base::Length> bore;
  std::string hood;  ///< catalogue hood form; empty: 0.5 and the machine's internals
  std::optional<Given<base::Ratio>>
      entry;  ///< entry coefficient on the port's velocity pressure; overrides all
  std::optional<RatedPoint> maker;
  std::optional<Given<base::VolumeFlow>> floor;   ///< chips are carried
  std::optional<Given<base::VolumeFlow>> target;  ///< dust is taken too
  bool operator==(const Port&) const = default;
};

enum class RatingBasis { StaticAtInlet, TotalAtInlet, FanStatic, FanTotal };

/// What stood on the machine when its fan was measured.
enum class Fitted { Unknown, Nothing, Bag, Filter, Cyclone, CycloneAndFilter };

struct CurvePoint {
  Given<base::VolumeFlow> flow;
  Given<base::Pressure> pressure;           ///< of the basis; suctions as positive magnitudes
  std::optional<Given<base::Power>> power;  ///< at the shaft
  bool operator==(const CurvePoint&) const = default;
};

/// What is known of a fan: a curve, or only the label.
struct FanRating {
  RatingBasis basis = RatingBasis::StaticAtInlet;
  std::vector<CurvePoint> points;
  std::optional<Given<base::VolumeFlow>> free_air_flow;   ///< label only
  std::optional<Given<base::Pressure>> greatest_suction;  ///< label only
  std::optional<Given<base::Length>> test_bore;           ///< inlet pipe in which it was measured
  Fitted fitted = Fitted::Unknown;
  std::optional<Given<base::Density>> density;        ///< standard air where not given
  std::optional<Given<base::RotationalSpeed>> speed;  ///< of the test
  bool operator==(const FanRating&) const = default;
};

struct Motor {
  std::optional<Given<base::Power>> power;
  std::optional<Given<base::RotationalSpeed>>
      speed;  ///< running speed; differs from the test's after a belt or drive change
  std::optional<Given<base::Length>> wheel;  ///< wheel diameter
  bool operator==(const Motor&) const = default;
};

/// The blower built into a machine, between its body and its ports' air.
struct Blower {
  Id id;
  std::string label;
  FanRating rating;
  Motor motor;
  bool operator==(const Blower&) const = default;
};

/// What a machine throws beside air. Only wood belongs on a wood system; the others are warned about.
enum class Throws { Wood, Sparks, Vapour };

/// Whether the cutter's guard is on the machine. Nothing is said where it is not known.
enum class Guard { Unknown, Fitted, Missing };

/// An electric circuit of the shop: what shares it trips together.
struct Circuit {
  Id id;
  std::string label;  ///< "K1", printed
  Given<base::Voltage> voltage;
  std::optional<Given<base::Current>> breaker;
  bool three_phase = false;
  bool operator==(const Circuit&) const = default;
};

struct Machine {
  Id id;
  std::string label;  ///< "T1", printed
  std::string name;
  std::string kind;   ///< catalogue machine kind; may be empty
  std::string chips;  ///< catalogue material of the transport table; may be empty
  Id room;            ///< outdoors where not valid
  Point at;           ///< middle of the footprint, on the floor
  Given<base::Length> width;
  Given<base::Length> depth;
  Given<base::Length> height;
  Given<base::Angle> turned;  ///< anticlockwise from above
  std::optional<Given<base::Area>>
      openings;  ///< of the body to the room; not given: the body stands at room pressure
  std::optional<Given<base::MassFlow>> waste;    ///< solids produced while cutting; zero where unknown
  std::optional<Given<base::VolumeFlow>> floor;  ///< for the whole machine, where its ports share it
  std::optional<Given<base::VolumeFlow>> target;
  Throws throws_what = Throws::Wood;
  Guard guard = Guard::Unknown;
  Id circuit;                               ///< not valid where it is not known
  std::optional<Given<base::Power>> motor;  ///< of the machine's own motor
  std::vector<Port> ports;
  std::optional<Blower> blower;
  bool operator==(const Machine&) const = default;
};

// ---------------------------------------------------------------------------------------------------- ducts

struct PortRef {
  Id machine;
  Id port;
  auto operator<=>(const PortRef&) const = default;
};

/// Nothing joined yet: normal while drawing, closed to the air, a finding later.
struct OpenEnd {
  bool operator==(const OpenEnd&) const = default;
};

/// One hose moved from machine to machine: each state says where it is.
struct MovedEnd {
  std::vector<PortRef> places;
  bool operator==(const MovedEnd&) const = default;
};

struct CollectorInlet {
  Id collector;
  bool operator==(const CollectorInlet&) const = default;
};

struct CollectorOutlet {
  Id collector;
  bool operator==(const CollectorOutlet&) const = default;
};

/// At a corner of another duct: a branch entry there.
struct OnCorner {
  Id duct;
  Id corner;
  bool saddle = false;  ///< hand-cut into thin pipe
  bool operator==(const OnCorner&) const = default;
};

/// Ends in free air: a sweep or open pipe at the start, a discharge at the end.
struct FreeAir {
  Id room;           ///< outdoors where not valid
  std::string form;  ///< catalogue hood form (start) or cap (end); empty: plain pipe end
  bool operator==(const FreeAir&) const = default;
};

using DuctEnd = std::variant<OpenEnd, PortRef, MovedEnd, CollectorInlet, CollectorOutlet, OnCorner, FreeAir>;

enum class HoseInside { Smooth, Ribbed };
enum class HoseHung { Tight, Hung, Slack };

/// Two questions a person can answer.
struct Hose {
  HoseInside inside = HoseInside::Ribbed;
  HoseHung hung = HoseHung::Hung;
  std::optional<Given<base::Length>> length;      ///< installed length where it is not the drawn one
  std::optional<Given<base::Ratio>> compression;  ///< 1 − installed / full length, where known
  bool operator==(const Hose&) const = default;
};

/// What a duct is made of from a corner to the next; given at the first corner and where it changes.
struct Leg {
  Given<base::Length> bore;
  std::string construction;  ///< catalogue construction; ignored for hose
  std::optional<Hose> hose;
  std::optional<Given<base::Angle>>
      taper;  ///< included angle of the reducer into this leg; not given: stepped
  bool operator==(const Leg&) const = default;
};

/// An elbow's form where it is not the project's usual one.
struct ElbowForm {
  std::string form;                          ///< catalogue elbow form
  std::optional<Given<base::Ratio>> radius;  ///< centre-line radius over bore
  bool operator==(const ElbowForm&) const = default;
};

struct Corner {
  Id id;
  Point at;
  std::optional<Leg> leg;  ///< of the stretch that begins here; inherited where not given
  std::optional<ElbowForm> elbow;
  std::optional<Given<base::Ratio>> loss;  ///< overrides the coefficient of the fitting at this corner
  bool operator==(const Corner&) const = default;
};

enum class GateSlot { None, New, Worn };

/// A blast gate on the leg that begins at `corner`.
struct Gate {
  Id id;
  std::string label;  ///< "G2", printed
  Id corner;
  Given<base::Length> distance;  ///< from that corner along the leg
  GateSlot slot = GateSlot::New;
  bool operator==(const Gate&) const = default;
};

/// A hole to measure at, or a door to clean through, on the leg that begins at `corner`.
struct Access {
  Id id;
  std::string label;
  Id corner;
  Given<base::Length> distance;
  bool operator==(const Access&) const = default;
};

struct Duct {
  Id id;
  std::string label;
  std::string name;
  std::vector<Corner> corners;  ///< at least two; the first has a leg
  DuctEnd from;
  DuctEnd to;
  std::string elbow_form;  ///< usual elbow of this duct; empty: five-piece (duct), hose bends for hose
  std::vector<Gate> gates;
  std::vector<Access> taps;
  std::vector<Access> cleanouts;
  bool operator==(const Duct&) const = default;
};

// ----------------------------------------------------------------------------------------------- collectors

enum class FanSide { Upstream, Downstream };

/// How a filter stands in its room.
enum class Housing {
  Unknown,
  Open,     ///< a bag or cartridge in the open, blown up from inside
  Enclosed  ///< in a casing
};

struct Separator {
  Id id;
  std::string label;
  std::string kind;     ///< catalogue separator: "cyclone", "lid", "drop-box", …
  bool inside = false;  ///< was in the rated unit: its loss is in the curve
  FanSide side = FanSide::Upstream;
  std::optional<Given<base::Ratio>> heads;            ///< loss in velocity heads of the inlet
  std::optional<Given<base::Length>> inlet_bore;      ///< the unit's inlet where not given
  std::optional<Given<base::VolumeFlow>> rated_flow;  ///< with rated_loss: loss at a flow
  std::optional<Given<base::Pressure>> rated_loss;
  std::optional<Given<base::Volume>> bin;
  std::string bin_form;  ///< catalogue container: what suction it bears; empty where not known
  bool operator==(const Separator&) const = default;
};

struct FilterPoint {
  Given<base::VolumeFlow> flow;
  Given<base::Pressure> loss;
  bool operator==(const FilterPoint&) const = default;
};

struct Filter {
  Id id;
  std::string label;
  bool inside = false;  ///< was fitted (clean) when the unit was rated
  FanSide side = FanSide::Downstream;
  std::optional<Given<base::Area>> area;
  std::optional<FilterPoint> clean;  ///< unknown ones follow model.md section 6
  std::optional<FilterPoint> seasoned;
  std::optional<FilterPoint> due;
  Housing housing = Housing::Unknown;
  std::string cleaning;  ///< catalogue filter-loading row that says how much medium it needs; may be empty
  bool gauge = false;    ///< a gauge across it
  bool operator==(const Filter&) const = default;
};

/// Where the air of a unit without an outlet duct goes.
struct Discharge {
  Id room;  ///< outdoors where not valid
  bool operator==(const Discharge&) const = default;
};

/// A fan unit: collector, or a booster in a duct (then a duct starts at its outlet).
struct Collector {
  Id id;
  std::string label;
  std::string name;
  Id room;
  Point at;  ///< of the inlet
  Given<base::Length> inlet_bore;
  std::optional<Given<base::Length>> outlet_bore;
  FanRating rating;
  Motor motor;
  std::vector<Separator> separators;  ///< in the order of the air
  std::vector<Filter> filters;        ///< in the order of the air
  bool non_return = false;            ///< a damper that shuts both ways when stopped
  bool isolation = false;             ///< something that keeps a flame from running back into the ducts
  Id circuit;                         ///< not valid where it is not known
  Discharge discharge;
  bool operator==(const Collector&) const = default;
};

// --------------------------------------------------------------------------------------------- states of use

enum class FilterState { Clean, Seasoned, Due };

struct GateSetting {
  Id gate;
  Given<base::Ratio> travel;  ///< 0 shut … 1 open
  bool operator==(const GateSetting&) const = default;
};

struct HosePlace {
  Id duct;
  PortRef place;
  bool operator==(const HosePlace&) const = default;
};

/// Which gates are open together, and everything else that changes from day to day.
struct State {
  Id id;
  std::string name;
  std::vector<GateSetting> gates;  ///< gates not listed are shut
  std::vector<HosePlace> hoses;    ///< where each moved hose is; a hose not listed lies closed
  std::vector<Id> off;             ///< collectors, boosters and machine blowers that stand
  std::vector<Id> swung;           ///< doors and windows that are not as usual
  FilterState filter = FilterState::Seasoned;
  bool unused = false;  ///< nobody works so; it is kept to look at, and no finding comes from it
  bool operator==(const State&) const = default;
};

// ------------------------------------------------------------------------------------------------- findings

/// A finding that a person has looked at and lives with. It returns when it has grown worse.
struct Acceptance {
  std::string rule;            ///< key of the rule
  std::string about;           ///< what the finding is about: text of its PieceKey
  Id state;                    ///< not valid: of the drawing itself
  Given<base::Ratio> badness;  ///< how bad it was when it was accepted
  std::string reason;
  std::string on;  ///< date
  bool operator==(const Acceptance&) const = default;
};

// ------------------------------------------------------------------------------------------------- underlay

/// A drawing or picture that lies under the plan, to be drawn over. Nothing is computed from it. Its sheet is
/// counted in its own units: those of a DXF drawing, or a picture's pixels, x to the right and y up.
struct Underlay {
  std::string file;                          ///< beside the project file, or with its whole path
  PlanPoint at;                              ///< where the sheet's point (from_x, from_y) lies in the shop
  std::optional<Given<base::Ratio>> from_x;  ///< 0 where not given
  std::optional<Given<base::Ratio>> from_y;
  std::optional<Given<base::Length>> unit;     ///< length of one unit in the shop; not given: not known yet
  std::optional<Given<base::Angle>> turned;    ///< anticlockwise about that point
  std::optional<Given<base::Ratio>> strength;  ///< how strongly it is shown; 50 % where not given
  bool hidden = false;
  std::vector<std::string> layers_off;  ///< layers of a DXF drawing that are not shown
  bool operator==(const Underlay&) const = default;
};

struct Project {
  Setting setting;
  Air air;
  std::vector<Room> rooms;
  std::vector<Machine> machines;
  std::vector<Duct> ducts;
  std::vector<Collector> collectors;
  std::vector<State> states;
  std::vector<Circuit> circuits;
  std::vector<Acceptance> accepted;
  std::optional<Underlay> underlay;
  std::string extensions;  ///< JSON object of what other programs keep in the file; empty where there is none
  bool operator==(const Project&) const = default;
};

}  // namespace kerfdraft::shop
