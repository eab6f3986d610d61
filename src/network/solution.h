// What solving one state gives: a value with every pressure, flow and speed, and the residuals that show that
// the laws hold. A network without a solution is such a value too, which says where and why.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "pieces/pieces.h"

namespace kerfdraft::network {

enum class Outcome {
  Solved,
  Still,        ///< solved, and nothing drives the air: every fan off or every gate tight
  NoFreeAir,    ///< a fan has no path from or to free air; `place` says which
  NoFan,        ///< there is no fan at all
  NoRoomAir,    ///< a room is emptied outdoors and has no opening
  NotConverged  ///< a bug or a network beyond physics; residuals tell how far
};

struct Residuals {
  double mass_kg_s = 0;  ///< worst node
  double mass_scale_kg_s = 0;
  double pressure_pa = 0;  ///< worst law
  double worst_allowed =
      0;  ///< worst ratio of a residual to what model.md section 7 allows; solved means ≤ 1
  int iterations = 0;
};

/// State of the air through one piece, in the drawn direction.
struct PieceResult {
  double flow_kg_s = 0;             ///< positive in the drawn direction
  double speed_m_s = 0;             ///< mean of the bore it names, at mean density, signed
  double density_kg_m3 = 0;         ///< mean of its two ends
  double velocity_pressure_pa = 0;  ///< G²/(2 ρ) at mean density
  double reynolds = 0;
  double friction_factor = 0;
  double coefficient =
      0;               ///< all it loses, in velocity pressures (friction and k, with factors and dust load)
  double loss_pa = 0;  ///< of total pressure, with the sign of the flow
  double total_in_pa = 0;
  double total_out_pa = 0;
  double static_in_pa = 0;  ///< in the bore it names
  double static_out_pa = 0;
};

struct RunResult {
  double flow_start_kg_s = 0;
  double flow_end_kg_s = 0;
  double total_start_pa = 0;  ///< at the node side of its ends
  double total_end_pa = 0;
  double static_start_pa = 0;  ///< in the bore at its ends
  double static_end_pa = 0;
  double slowest_m_s = 0;     ///< least |speed| of its straight and hose pieces; zero without any
  double solids_ratio = 0;    ///< solids per air, by mass
  double solids_kg_s = 0;     ///< carried, as found in clean air; the ratio is taken there and then constant
  double clean_air_kg_s = 0;  ///< at its upstream end, in the clean-air solution
  std::vector<PieceResult> pieces;  ///< as Run::pieces
};

struct FanResult {
  bool running = false;
  double flow_kg_s = 0;
  double inlet_flow_m3_s = 0;  ///< actual
  double rise_pa = 0;          ///< of total pressure
  double inlet_total_pa = 0;
  double outlet_total_pa = 0;
  bool beyond_data = false;  ///< right of the last point of the curve, or left of zero flow
  bool rising_part = false;  ///< on a part where pressure rises with flow
  bool backward = false;
};

struct OpeningResult {
  double flow_kg_s = 0;
  double speed_m_s = 0;  ///< through its area
  double drop_pa = 0;
};

struct PortResult {
  double flow_m3_s = 0;  ///< at room density: what "cfm at the port" means in balances and targets
  double speed_m_s = 0;  ///< actual, in the port's bore
  double hood_static_pa =
      0;  ///< static in the bore behind the entry, relative to the room; negative under suction
};

/// One way the network can stand; with several fans there may be more than one.
struct Solution {
  Outcome outcome = Outcome::NotConverged;
  std::string place;  ///< element, where there is no solution
  std::string why;    ///< one sentence, where there is no solution or something must be said
  Residuals residuals;
  std::vector<double> node_pa;  ///< total at joints, bodies and rooms; p_in at junctions
  std::vector<RunResult> runs;
  std::vector<FanResult> fans;
  std::vector<OpeningResult> openings;
  std::vector<PortResult> ports;
  bool stable = true;
  bool fans_hunt = false;        ///< even sharing of parallel fans is unstable
  std::vector<Solution> others;  ///< further solutions, stable ones first

  bool solved() const { return outcome == Outcome::Solved || outcome == Outcome::Still; }
};

}  // namespace kerfdraft::network
