// The calculation sheet of a solved state: from a port (or any run) along the drawn air to the fan and out,
// line by line. The lines are those of the pencil method (hand/sheet_row.h), filled from the solution.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.h"
#include "hand/sheet_row.h"
#include "judge/assessment.h"

namespace kerfdraft::judge {

using hand::SheetRow;

/// A fan on the path.
struct SheetFan {
  std::size_t fan = 0;  ///< index in Pieces::fans
  std::size_t row = 0;  ///< its line: rows before it lead to its inlet
  std::string label;
  bool running = false;
  double inlet_flow_m3_s = 0;  ///< actual
  double inlet_static_pa = 0;  ///< in its inlet bore; the total where the bore is unknown
  double inlet_total_pa = 0;
  double rise_pa = 0;
  double outlet_total_pa = 0;
  double lost_before_pa = 0;  ///< sum of the losses from the start of the sheet to its inlet
};

/// Pressures are relative to the room where the path begins. Each line's loss is what the total pressure
/// gives up, so that the lines close: total of a line = total of the one before - loss (a fan's is negative).
struct Sheet {
  std::size_t state = 0;
  std::string state_name;
  bool local_density = true;
  std::string from;    ///< label of the port or run
  std::string to;      ///< where the path ends
  bool open = true;    ///< false: shut in this state; what still flows is leakage
  double room_pa = 0;  ///< of the room where it begins, relative to outdoors
  std::vector<SheetRow> rows;
  std::vector<SheetFan> fans;
  double lost_pa = 0;     ///< all losses of the path
  double end_pa = 0;      ///< pressure of the place where it ends
  double closure_pa = 0;  ///< total behind the last line less end_pa: what the solver left over
  std::vector<std::string> remarks;
};

/// From a port (index in Pieces::ports) or from a run to free air, along the drawn air; where it divides,
/// along the greater flow. Errors: a state, port or run that is not there; a state without a solution.
base::Result<Sheet> modelSheet(const Assessment& assessment, std::size_t state, std::size_t port);
base::Result<Sheet> modelSheetOfRun(const Assessment& assessment, std::size_t state, std::size_t run);

}  // namespace kerfdraft::judge
