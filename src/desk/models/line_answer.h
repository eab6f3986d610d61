// Two minutes without drawing: one machine, one line of pieces, a curve or a label, as typed; what air it
// gets, and what holds it back. Without Qt.
#pragma once

#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "desk/models/start.h"
#include "shop/project.h"

namespace kerfdraft::desk {

struct LineTyped {
  std::string pieces;  ///< "hood 0.5; hose 4 in 10 ft ribbed slack; duct 6 in 12 ft spiral; filter"
  std::string fan;     ///< points of a curve; empty: by the label
  std::string label;   ///< "1100 cfm 8 in w.g."
  std::string need;    ///< "350 cfm"; may be empty
};

struct LineAnswer {
  std::string flow;   ///< "304 cfm through 4 in"
  std::string limit;  ///< what falls short first and by how much, or how little there is to spare
  std::vector<std::string> lines;   ///< air against need, speed against need, band, chance, pressures
  std::vector<std::string> unsure;  ///< what makes it unsure, the most first, with what would tell
  shop::Project project;            ///< the line as a project, to go on with
};

/// Refused as the readers of `kerfdraft line` do, naming the piece; and where there is no solution. The
/// questions are "pieces", "fan", "label" and "need".
tl::expected<LineAnswer, Refused> answerLine(const LineTyped& typed, const catalogue::Catalogue& catalogue);

/// What can be typed as a piece, a line each: "hose 4 in 10 ft ribbed slack".
std::vector<std::string> pieceExamples(base::UnitSystem units);

}  // namespace kerfdraft::desk
