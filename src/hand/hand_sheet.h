// The velocity-pressure method of the exhaust trade: from design flows at the open ports to the suction that
// the fan must pull, piece by piece, with the branches balanced at every junction. A second way to the
// answer of the network, with the trade's own simplifications; docs/theory/hand-method.md says which.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "hand/laws.h"
#include "hand/sheet_row.h"
#include "hand/tree.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::hand {

enum class FrictionRule {
  Darcy,     ///< Darcy and Colebrook-White with the roughness and hose multiplier of each piece
  PowerLaw,  ///< the trade's power law: galvanized, smooth, flexible
};

/// The two ways of the trade to make branches agree.
enum class Balancing {
  ByDesign,  ///< flows are corrected up to a ratio of 1.20, beyond it the branch is to be designed again
  ByGates,   ///< every branch keeps its flow, gates take what is left over
};

struct Method {
  FrictionRule friction = FrictionRule::Darcy;
  Balancing balancing = Balancing::ByDesign;
  shop::FilterState filter = shop::FilterState::Seasoned;
  std::optional<double> density_factor;  ///< of the day; room density / 0.075 lb/ft3 where not given
};

/// A run with its lines, computed at `computed_flow_m3_s`.
struct HandRun {
  std::size_t run = 0;
  std::string label;
  double computed_flow_m3_s = 0;  ///< design flow, with the corrections of junctions upstream
  double carried_flow_m3_s = 0;   ///< after the corrections of junctions downstream too
  std::vector<SheetRow> rows;     ///< the machine's openings, the pieces, the branch entry at its end
  double static_end_pa = 0;       ///< in the bore at its end, branch entry included; negative under suction
  double total_end_pa = 0;
};

/// One open inlet of a junction in the balance table. Suctions are positive.
struct BalanceLeg {
  std::size_t run = 0;
  std::string label;
  double angle_rad = 0;
  double suction_pa = 0;
  double ratio = 1;  ///< governing suction over this one
  Verdict verdict = Verdict::Balanced;
  double flow_m3_s = 0;             ///< before the correction
  double corrected_flow_m3_s = 0;   ///< equal to flow_m3_s where nothing is corrected
  double velocity_pressure_pa = 0;  ///< at the corrected flow, in the bore at the run's end
  double gate_coefficient = 0;      ///< by gates only: what this branch's gate must take
};

struct JunctionBalance {
  std::size_t junction = 0;  ///< index in Pieces::junctions
  std::string label;
  std::vector<BalanceLeg> legs;  ///< open inlets only, in the drawing's order
  std::size_t governing = 0;     ///< index in legs
  double resultant_pa = 0;       ///< VPr
  double main_pa = 0;            ///< VP3
  double acceleration_pa = 0;    ///< added to the governing suction
  double suction_pa = 0;         ///< carried on into the main
  bool redesign = false;
};

/// What is asked of the fan, and what it has at that flow.
struct FanDemand {
  std::size_t fan = 0;
  std::string label;
  double flow_m3_s = 0;
  double inlet_static_pa = 0;  ///< negative
  double inlet_total_pa = 0;
  double outlet_total_pa = 0;
  double required_total_pa = 0;  ///< fan total pressure
  double required_static_pa =
      0;  ///< fan static pressure; equal to the total where the outlet bore is unknown
  double available_total_pa = 0;  ///< by the fan's curve at this flow and density
  bool beyond_data = false;       ///< this flow lies right of the curve's last point
};

struct HandSheet {
  Method method;
  double density_factor = 1;
  std::vector<HandRun> suction;  ///< in the order of the air, each after those that feed it
  std::vector<JunctionBalance> junctions;
  FanDemand fan;
  std::vector<HandRun> discharge;
  bool redesign = false;  ///< some junction asks for it
  std::vector<std::string> remarks;
};

/// Fills in the sheet for one set of open ports. Gates of open runs are open; joint leakage, dust load and
/// the suction of the room are left out, as the trade does. Errors: those of openTree(), a density factor
/// outside 0.3 to 1.5, a catalogue without branch entries. Accuracy: rows V1 to V4 and N1 to N6 to their last
/// digit (tests/published/hand_test.cpp); against the network see docs/theory/hand-method.md.
base::Result<HandSheet> handSheet(const pieces::Pieces& drawing, const catalogue::Catalogue& catalogue,
                                  std::span<const DesignFlow> flows, const Method& method = {});

}  // namespace kerfdraft::hand
