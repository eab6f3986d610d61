// What the drawing is made of: keyed pieces in runs between nodes, in the order of the drawn air. The network
// solves it, the hand method and the calculation sheet add it up, the parts list counts it. No flow in it.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/id.h"
#include "base/law.h"
#include "physics/air.h"
#include "physics/fan.h"
#include "physics/fan_curve.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

using base::Id;

/// What a piece does to the air.
enum class Role {
  Entry,     ///< from a body or room into the first bore
  Straight,  ///< duct between two corners
  Hose,      ///< hose between two corners
  Elbow,     ///< at a corner
  HoseBend,  ///< at a corner of hose
  Reducer,   ///< at a corner where the bore changes
  Gate,
  Saddle,    ///< extra loss of a hand-cut branch entry
  FanInlet,  ///< system effect at a fan's inlet
  Separator,
  Filter,
  Outlet,    ///< into free air, a plenum or a bag
  Run,       ///< the whole run (keys of numbers)
  Junction,  ///< a branch entry or ring crossing
  Body,      ///< a machine
  Fan,
  Room,
  Opening,  ///< of a body or a room
  Blower,
};

/// Carries no index, coordinate or direction, so findings and readings stay attached when the drawing
/// changes.
struct PieceKey {
  Role role = Role::Straight;
  Id a;
  Id b;
  auto operator<=>(const PieceKey&) const = default;
  std::string text() const;  ///< "elbow:00ab…:…"
};

std::string_view toText(Role role);

/// Whose spread a coefficient shares (docs: model.md section 9). Each group has one factor in a Situation.
enum class Group {
  Friction,
  Hose,
  Fitting,
  Junction,
  Hood,
  Gate,
  Filter,
  Separator,
  SystemEffect,
  Outlet,
  Leakage,
  Opening
};
inline constexpr std::size_t kGroups = 12;

/// Where a coefficient comes from, for the sheet.
struct Source {
  std::string formula;  ///< or table: how the coefficient was found, with its inputs
  std::string key;      ///< docs/references.bib key with place
  base::SourceStatus status = base::SourceStatus::CommonPractice;
};

/// One piece. It loses (friction length × f/D × multiplier + k) velocity pressures of the bore it names, and
/// a filter also `linear` × volume flow.
struct Piece {
  PieceKey key;
  std::string label;  ///< "elbow 90° at 3.2 m on D2"
  Group group = Group::Fitting;
  double bore_m = 0;    ///< of the section whose velocity pressure it names
  double length_m = 0;  ///< friction length; zero for fittings
  double roughness_m = 0;
  double multiplier = 1;      ///< on the friction loss: hose
  double k_forward = 0;       ///< drawn direction
  double k_reverse = 0;       ///< air the other way
  double linear_pa_s_m3 = 0;  ///< filter resistance [Pa s/m3] of the clean state; others by the filter index
  int gate = -1;              ///< index in Pieces::gates: k comes from its travel
  int filter = -1;            ///< index in Pieces::filters
  double angle_rad = 0;       ///< of an elbow or bend
  Source source;
};

/// Leakage of one end of a stretch between devices: coefficient C in Q = C p (p² + p0²)^−0.175 [m3/s, Pa].
/// `after` says behind which piece of the run it acts (−1: before the first), in the bore named there.
struct LeakStation {
  int after = -1;
  double bore_m = 0;
  double coefficient = 0;
};

/// A chain of pieces without a junction, in the drawn direction of the air.
struct Run {
  PieceKey key;          ///< Role::Run with the ids of its two ends
  std::string label;     ///< "R4: planer to main"
  std::size_t from = 0;  ///< node
  std::size_t to = 0;
  std::vector<Piece> pieces;
  std::vector<LeakStation> leaks;  ///< in the order of `after`
  std::size_t room = 0;            ///< node of the room around it, where its leaks come from
  double start_bore_m = 0;         ///< at its ends: what a junction there sees
  double end_bore_m = 0;
  bool carries_chips = true;  ///< false behind the first separator
  bool closed = false;        ///< an open drawing end or a blank: no air passes its start
};

enum class NodeKind {
  Outdoors,  ///< pressure zero
  Room,      ///< pressure unknown, or fixed where it has no exchange with outdoors
  Body,      ///< a machine's inside
  Joint,     ///< total pressure, two runs or a run and a fan
  Junction,  ///< static pressure p_in in the inlet plane
  Dead,      ///< the closed start of a run
};

struct Node {
  NodeKind kind = NodeKind::Joint;
  PieceKey key;
  std::string label;
  bool fixed = false;  ///< pressure given (tests, rooms without exchange)
  double fixed_pa = 0;
  double inflow_kg_s =
      0;  ///< given flow into the node; another exhaust fan of a room takes air out: negative
};

/// One leg of a junction: the end of a run.
struct JunctionLeg {
  std::size_t run = 0;
  bool at_end = true;  ///< the run's end lies here (drawn as an inlet), else its start
};

struct Junction {
  std::size_t node = 0;
  std::vector<JunctionLeg> legs;
  std::size_t nominal_outlet = 0;  ///< index in legs
  std::vector<double> cosine;      ///< effective cosine c[inlet × legs + outlet] (physics/junction.h)
  std::vector<double> angle_rad;   ///< of each leg to the nominal outlet, for the sheet
  Source source;
};

/// A sharp-edged opening between two nodes.
struct Opening {
  PieceKey key;
  std::string label;
  std::size_t from = 0;  ///< outer side
  std::size_t to = 0;    ///< inner side
  double area_m2 = 0;
  double discharge = 0.61;
  bool usually_open = true;
  Id id;  ///< shop opening, where it is one
};

/// A fan between two nodes: Joint to Joint, Body (or Room) to Joint for a machine's blower, or straight to
/// the Room or Outdoors where it discharges.
struct Fan {
  PieceKey key;
  std::string label;
  Id id;  ///< collector or blower
  std::size_t from = 0;
  std::size_t to = 0;
  std::optional<physics::FanRating>
      rating;  ///< always there; physics::fanRise() gives the rise of total pressure from it
  std::optional<physics::FanCurve>
      curve;  ///< for charts: total pressure rise over inlet flow in one density, `curve_density`; none where
              ///< the sum with the velocity pressure of the outlet would rise throughout
  double curve_density_kg_m3 = 1.2;
  bool rated_at_inlet =
      false;  ///< includes the thinner inlet air: scale by room density; its outlet is at total pressure 0
  double inlet_bore_m = 0;
  double outlet_bore_m = 0;   ///< zero: unknown
  double stopped_k = 4;       ///< on its outlet (or inlet) velocity pressure
  double stopped_bore_m = 0;  ///< of the section stopped_k names
  bool non_return = false;
  bool label_only = false;
  std::optional<physics::PiecewiseCubic>
      power;  ///< shaft power over rated flow [W], at the test's speed and density, where the curve has it
  std::optional<double> motor_power_w;
};

struct GatePlace {
  Id id;
  std::string label;
  double bore_m = 0;
  double leak_fraction = 0;  ///< slot area over bore area
  std::size_t run = 0;
  std::size_t piece = 0;
};

struct FilterPlace {
  Id id;
  std::string label;
  std::array<double, 3> linear_pa_s_m3{};  ///< clean, seasoned, due; already less what is in the unit's curve
  /// What the unit's curve holds: a gauge across the filter shows this part too.
  double in_curve_pa_s_m3 = 0;
};

/// A port as the network sees it: the first piece of a run.
struct PortPlace {
  shop::PortRef ref;
  std::string label;  ///< "T1 lower cabinet"
  std::size_t run = 0;
  double bore_m = 0;
  std::size_t body_node = 0;
};

/// A hole to measure at.
struct TapPlace {
  Id id;
  std::string label;
  std::size_t run = 0;
  std::size_t piece = 0;
  double along_m = 0;  ///< from the start of that piece, in the drawn direction
};

/// A moved hose: one short entry run per place, all into one joint where the hose itself begins. A state
/// opens the run of the place where the hose is and closes the others.
struct MovedHose {
  Id duct;
  std::string label;
  struct Place {
    shop::PortRef ref;
    std::size_t run = 0;
  };
  std::vector<Place> places;
};

/// A note about the drawing that is not an error: "two elbows closer than 2 D", "assumed: …".
struct Note {
  PieceKey key;
  std::string text;
};

struct Pieces {
  physics::AirState air;  ///< of the room
  bool local_density = true;
  std::vector<Node> nodes;  ///< nodes[0] is outdoors
  std::vector<Run> runs;
  std::vector<Junction> junctions;
  std::vector<Opening> openings;
  std::vector<Fan> fans;
  std::vector<GatePlace> gates;
  std::vector<FilterPlace> filters;
  std::vector<PortPlace> ports;
  std::vector<MovedHose> moved;
  std::vector<TapPlace> taps;
  std::vector<Note> notes;
};

}  // namespace kerfdraft::pieces
