// One line of a calculation sheet, as a person would fill it in by hand: what the piece is, its coefficient
// with source, and the pressures that follow. The hand method and the model's sheet write the same lines.
#pragma once

#include <string>

#include "pieces/pieces.h"

namespace kerfdraft::hand {

/// SI numbers. A cell that has no meaning for the piece is zero. Pressures are gauge: suction is negative.
struct SheetRow {
  pieces::PieceKey key;
  std::string run;       ///< label of the run, "R4: planer to main"
  std::string label;     ///< of the piece
  double flow_m3_s = 0;  ///< at room density
  double bore_m = 0;     ///< of the section whose velocity pressure counts
  double length_m = 0;   ///< friction length
  double angle_rad = 0;
  double speed_m_s = 0;  ///< actual
  double density_kg_m3 = 0;
  double velocity_pressure_pa = 0;
  double friction_factor = 0;       ///< Darcy; zero where a power law was used
  double friction_coefficient = 0;  ///< velocity pressures by friction, multiplier included
  double local_coefficient = 0;     ///< velocity pressures by the fitting itself
  double coefficient = 0;           ///< velocity pressures in all
  double loss_pa = 0;               ///< of total pressure
  double running_loss_pa = 0;       ///< all losses from the port to the end of this piece
  double total_pa = 0;              ///< behind the piece
  double static_pa = 0;             ///< behind the piece, in the bore it names
  pieces::Source source;            ///< of the coefficient
  std::string remark;
};

}  // namespace kerfdraft::hand
