// The network as the solver sees it: pieces in series joined to stretches of one bore, every unknown
// numbered, every address of the matrix known. Immutable and shared by threads. Inside the room only.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "network/elimination.h"
#include "network/network.h"
#include "physics/junction.h"
#include "physics/stretch.h"

namespace kerfdraft::network {

/// Wall friction of one roughness in a stretch: S = weight × (f |Re|) × m.
struct FrictionPart {
  double relative_roughness = 0;
  double weight = 0;  ///< L/D × multiplier / (2 A² Re per kg/s), hose or duct
  pieces::Group group = pieces::Group::Friction;
};

/// Consecutive pieces of one bore without a leak between them.
struct Stretch {
  double area_m2 = 0;
  double inverse_area = 0;
  double inverse_2a2 = 0;
  double re_per_kg_s = 0;
  std::size_t friction_begin = 0;
  std::size_t friction_end = 0;
  int gate = -1;                 ///< its travel adds to k
  int first_duct = 0;            ///< 1: holds the run's first duct or hose, where the dust is accelerated
  double leak_after = 0;         ///< coefficient of the leak behind it; 0 none
  double leak_inverse_area = 0;  ///< of the bore in which that leak acts
  bool leak_in_own_bore = true;
};

/// One piece's share in its stretch.
struct PieceShare {
  std::size_t stretch = 0;
  int friction = -1;  ///< FrictionPart it belongs to
  pieces::Group group = pieces::Group::Fitting;
  double k_forward = 0;
  double k_reverse = 0;
  int filter = -1;
  double linear = 0;
};

/// The end of a run at a node.
struct RunEnd {
  int node = 0;       ///< node number
  int junction = -1;  ///< −1: the node's pressure is the total there
  int leg = 0;
  std::vector<int> leg_addresses;  ///< row: the run's law; columns: the flows of the junction's legs
};

struct CompiledRun {
  std::size_t stretch_begin = 0;
  std::size_t stretch_end = 0;
  std::size_t share_begin = 0;
  std::size_t share_end = 0;
  double leak_before = 0;  ///< coefficient of the leak at its very start
  double leak_before_inverse_area = 0;
  RunEnd from;
  RunEnd to;
  int room = 0;
  int law_self = 0;  ///< addresses
  int law_from = -1;
  int law_to = -1;
  int from_flow = -1;  ///< balance of the from node by the flow
  int from_from = -1;
  int to_flow = -1;
  int to_from = -1;  ///< balance of the to node by the from node's pressure (through leaks)
  int to_to = -1;
  double start_conductance = 0;  ///< first guess: flow / sqrt(ρ Δp)
  double start_limit_area = 0;   ///< least area of its stretches
  bool takes_solids = true;
  bool after_its_junction =
      false;  ///< in `order`: a ring main, whose junction takes the leak of the evaluation before
  std::vector<std::size_t> gates;
};

struct CompiledLink {  // a fan or an opening
  int from = 0;
  int to = 0;
  int law_self = 0;
  int law_from = -1;
  int law_to = -1;
  int from_flow = -1;
  int to_flow = -1;
};

struct CompiledJunction {
  int node = 0;
  physics::JunctionGeometry geometry;
  std::vector<std::size_t> run;
  std::vector<char> at_end;
};

class Network {
 public:
  std::shared_ptr<const pieces::Pieces> pieces;
  physics::DuctAir air;
  std::vector<CompiledRun> runs;
  std::vector<Stretch> stretches;
  std::vector<FrictionPart> frictions;
  std::vector<PieceShare> shares;
  std::vector<CompiledLink> fans;
  std::vector<CompiledLink> openings;
  std::vector<CompiledJunction> junctions;
  /// Runs r (≥ 0) and junctions j (−1 − j) in the drawn direction of the air, so that what leaks in on the
  /// way to a junction is known when it is reached; in a ring main some inlet comes after its junction, which
  /// then takes the leak of the evaluation before.
  std::vector<int> order;
  std::vector<int> unknown_of_node;  ///< −1: pressure known
  std::vector<double> known_pa;      ///< of nodes without an unknown
  std::vector<int> balance_self;     ///< address (balance, own pressure), −1 for known nodes
  std::vector<std::size_t> gate_stretch;
  std::vector<std::size_t> gate_run;
  Elimination elimination;
  double flow_scale_kg_s = 0;  ///< largest Q_last of the fans, as mass flow; 1 without fans

  std::size_t runCount() const { return runs.size(); }
  std::size_t fanUnknown(std::size_t fan) const { return runs.size() + fan; }
  std::size_t openingUnknown(std::size_t opening) const { return runs.size() + fans.size() + opening; }
  std::size_t flowCount() const { return runs.size() + fans.size() + openings.size(); }
  std::size_t unknownCount() const { return elimination.size(); }
};

}  // namespace kerfdraft::network
