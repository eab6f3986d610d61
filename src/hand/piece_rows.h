// The lines of one run of the hand method, without the junctions at its ends.
#pragma once

#include <string>

#include "hand/hand_sheet.h"

namespace kerfdraft::hand {

/// Air of the sheet: standard air, and the factor that brings its pressures to the day.
struct SheetAir {
  double density_factor = 1;
  FrictionRule friction = FrictionRule::Darcy;
  std::size_t filter = 1;  ///< index of clean, seasoned, due
};

/// Velocity pressure of a flow in a bore [Pa], density corrected.
double velocityPressureOf(const SheetAir& air, double flow_m3_s, double bore_m);

/// The line of one piece at a flow: everything but the running pressures. `gate_leak` is the slot's share of
/// the area where the piece is a gate, which stands open.
SheetRow rowOf(const SheetAir& air, const pieces::Pieces& drawing, const pieces::Run& run,
               const pieces::Piece& piece, double flow_m3_s);

/// The line for the gaps of a machine's body through which `flow_m3_s` reaches its ports; loss 0 where the
/// body stands at room pressure.
SheetRow bodyRow(const SheetAir& air, const pieces::Pieces& drawing, std::size_t body, double flow_m3_s);

}  // namespace kerfdraft::hand
