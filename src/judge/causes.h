// Which findings can be the cause of which others, as data, and whether two of them lie so that one can be.
// Private to this room.
#pragma once

#include <cstddef>
#include <set>
#include <span>
#include <string_view>

#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

/// How a symptom must lie to its cause.
enum class Relation {
  OnPath,       ///< the cause lies on the way of the symptom's air, or in its run
  SamePort,     ///< both are about the air of one port
  SameMachine,  ///< both are about one machine
  SamePiece,    ///< both are about one piece
};

/// How it is decided whether the cause is a true one.
enum class Proof {
  Tried,    ///< by solving the shop with the cause's change made
  Served,   ///< by what the port lacks: with that air the chips would move
  Taken,    ///< cannot be tried: taken where nothing that can be tried explains the symptom
  Certain,  ///< the one is only another side of the other
};

struct CauseRow {
  std::string_view symptom;
  std::string_view cause;
  Relation relation = Relation::OnPath;
  Proof proof = Proof::Tried;
  /// Where another cause is the true one, this one is folded beneath it with what it would bring.
  bool folds = true;
};

/// In the order in which symptoms are settled; among causes that bring as much, the earlier row leads.
std::span<const CauseRow> causeRows();

/// Whether findings of this rule are something that a machine or duct lacks, so that causes are tried on
/// them.
bool isSymptom(std::string_view rule);

/// Where a finding's air goes: what relations look at.
struct Reach {
  std::set<std::size_t> runs;   ///< in which it lies
  std::set<std::size_t> path;   ///< all that its air passes
  std::set<std::size_t> ports;  ///< its own, else those whose air passes its runs
  std::set<base::Id> machines;
};
Reach reachOf(const Evidence& evidence, const Finding& finding);

bool related(Relation relation, const Finding& symptom, const Reach& of_symptom, const Finding& cause,
             const Reach& of_cause);

}  // namespace kerfdraft::judge
