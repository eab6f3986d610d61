// What must hold between the entries of a project before pieces can be built from it. Ranges of single fields
// are the file format's business; judgement of what is unwise belongs to the findings.
#pragma once

#include <vector>

#include "base/result.h"
#include "shop/project.h"

namespace kerfdraft::shop {

/// Above this speed a port's figures are taken for a slip of the pen and refused [m/s] (ours: three times
/// what chips need, and far beyond what any collector holds up).
inline constexpr double kAbsurdSpeed_m_s = 100;

/// A duct's end may lie this far from the port or inlet that it is joined to [m] (ours: a cuff and half a
/// port).
inline constexpr double kJoinReach_m = 0.5;

/// All that contradicts itself, in the order of the project; empty where nothing does. Each error's `where`
/// is a JSON pointer with the labels on the way to it: "/ducts/0/gates/1/distance (duct D1, gate G2)".
///
/// Ids: not all zero, none twice, none dangling. Labels and names of states: none twice (ports within their
/// machine). Outlines: three corners, no two edges cross. Ducts: two corners or more, none upon the one
/// before, a leg at the first, gates, taps and cleanouts on their leg, ends of the right kind and near what
/// they are joined to, a branch only at an inner corner of another duct, no port joined twice. Fans: a curve
/// with two points or more in rising flow that falls at its end, or a label with flow and suction. Makers'
/// pairs: static suction not below the velocity pressure. States: only gates, hoses, fans and doors that are
/// there, each once, a moved hose at one of its places. Circuits: machines and collectors only on those that
/// are there. Accepted findings: of a rule, about a piece's key or nothing, in a state that is there, each
/// once.
std::vector<base::Error> checkProject(const Project& project);

}  // namespace kerfdraft::shop
