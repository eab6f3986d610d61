// What results a picture shows, as plain values: filled from a solution, a measurement or by hand. This room
// knows no solver.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/id.h"
#include "drawing/grade.h"
#include "pieces/pieces.h"

namespace kerfdraft::drawing {

/// What became of a number since a result that was kept for comparison.
enum class Turn {
  Same,    ///< or nothing is compared
  Better,  ///< more air, faster chips
  Worse,
  New,   ///< it was shut or not there
  Other  ///< changed, and neither better nor worse in itself
};

/// The words go with every sign, so that nothing hangs on a sign alone.
struct Change {
  Turn turn = Turn::Same;
  std::string words{};  ///< "more, was 540 cfm"
};

/// A duct between two corners, or a hose.
struct PieceMark {
  Grade grade = Grade::NotJudged;
  double along = 0;     ///< 1: air goes as drawn, −1: against it, 0: still
  std::string tooltip;  ///< "812 cfm, 4070 fpm; chips need 3500 fpm"
};

/// A run, labelled once. The first line is set bold.
struct RunMark {
  std::vector<std::string> lines;
  Grade grade = Grade::NotJudged;  ///< of its slowest piece
  pieces::PieceKey slowest;        ///< the label stands beside it; another piece where it is not drawn
  Change change{};
};

/// A machine or a port: what it gets against what it asks.
struct NeedMark {
  Grade grade = Grade::NotJudged;
  std::vector<std::string> lines;  ///< "612 cfm of 700", "too little"
  std::string tooltip;
  Change change{};
};

struct FanMark {
  bool running = true;
  std::vector<std::string> lines;  ///< "780 cfm at 7.4 in w.g."
  Change change{};
};

/// Everything that is not in it is drawn without results.
struct Overlay {
  std::map<pieces::PieceKey, PieceMark> pieces;
  std::map<pieces::PieceKey, RunMark> runs;
  std::map<base::Id, NeedMark> machines;
  std::map<base::Id, NeedMark> ports;
  std::map<base::Id, double> gate_travel;  ///< 0 shut … 1 open
  std::map<base::Id, FanMark> fans;        ///< collectors
  std::map<base::Id, bool> openings_open;
  std::map<base::Id, std::size_t> hose_place;  ///< by duct of a moved hose: index of the place where it is
  bool judged = false;                         ///< grades mean something: the scale goes into the legend
  bool compared = false;     ///< against a kept result: signs and words of changes go into the legend
  std::string comparison{};  ///< what must be said where the whole state cannot be compared
};

}  // namespace kerfdraft::drawing
