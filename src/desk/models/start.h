// The first minutes: an example, a shop from a few answers, or two minutes without drawing. Without Qt.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "shop/project.h"

namespace kerfdraft::desk {

struct ExampleRow {
  std::string file;  ///< "two-car-garage.json": what openExample() takes
  std::string name;
  std::string teaches;  ///< its note
};
/// Those that travel with the program, in the order of their names.
std::vector<ExampleRow> examples();
base::Result<shop::Project> openExample(std::string_view file);

/// Answers as typed. What is empty is taken as usual, and said to be assumed.
struct StartAnswers {
  std::string name;
  shop::Who who = shop::Who::Home;
  std::string country;  ///< two letters; may be empty
  base::UnitSystem units = base::UnitSystem::Us;
  std::string width;
  std::string depth;
  std::string height;
  std::string altitude;
  std::string temperature;
  std::vector<std::pair<std::string, int>> machines;  ///< catalogue kind and how many
  std::string fan;                                    ///< key of an invented fan; empty: by the label below
  std::string label_flow;
  std::string label_suction;
  std::string inlet;  ///< bore of the collector's inlet; found from the machines where empty
};

/// What is taken for an answer that is left empty: "24 ft".
StartAnswers usualAnswers(base::UnitSystem units);

/// A shop with these machines in a row along a wall, ducts to a collector in the corner, a gate and a state
/// of use for each. Refused with the question named: a length, an altitude, a label that is none, no
/// machine, a room too small for the row.
base::Result<shop::Project> shopFromAnswers(const StartAnswers& answers,
                                            const catalogue::Catalogue& catalogue, base::IdSource& ids);

/// One machine, one line of pieces, a curve or a label: as typed.
struct LineTyped {
  std::string pieces;  ///< "hood 0.5; hose 4 in 10 ft ribbed slack; duct 6 in 12 ft spiral; filter"
  std::string fan;     ///< points of a curve, or the key of an invented fan; empty: by the label
  std::string label;   ///< "1100 cfm 8 in w.g."
  std::string need;    ///< "350 cfm"; may be empty
};

struct LineAnswer {
  std::string flow;                 ///< "304 cfm through 4 in"
  std::vector<std::string> lines;   ///< band, chance, speeds, pressures
  std::vector<std::string> unsure;  ///< what makes it unsure, the most first, with what would tell
  shop::Project project;            ///< the line as a project, to go on with
};

/// Refused as the readers of `kerfdraft line` do, naming the piece; and where there is no solution.
base::Result<LineAnswer> answerLine(const LineTyped& typed, const catalogue::Catalogue& catalogue);

/// What can be typed as a piece, a line each: "hose 4 in 10 ft ribbed slack".
std::vector<std::string> pieceExamples(base::UnitSystem units);

}  // namespace kerfdraft::desk
