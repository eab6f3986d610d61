// The verdict on a shop: every rule's findings, those of one cause together, the gravest first.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.h"
#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

/// A finding to tell of, with all that is folded under it.
struct Group {
  std::size_t lead = 0;               ///< index in Verdict::findings
  std::vector<std::size_t> same;      ///< the same rule and piece in other states, the worst first
  std::vector<std::size_t> symptoms;  ///< beneath it: what it explains, then lesser causes of that
  std::size_t explained = 0;          ///< so many of the symptoms are explained
};

/// How a finding stands to what a person accepted.
enum class Accepted {
  No,
  Yes,      ///< folded away with its reason
  Returned  ///< it was accepted and has grown worse by a tenth since
};

struct Verdict {
  std::vector<Finding> findings;     ///< all, in the order of rules, states and drawing
  std::vector<Accepted> accepted;    ///< by finding
  std::vector<std::string> reasons;  ///< by finding; empty where not accepted
  std::vector<Group> groups;      ///< not accepted, the gravest first: every such finding is in exactly one
  std::size_t on_top = 0;         ///< so many groups stand on top, at most kMostOnTop; the rest is folded
  std::vector<Group> lived_with;  ///< of accepted findings
  bool all_served = false;        ///< every state is solved and serves its ports
  bool all_solved = false;
};

inline constexpr std::size_t kMostOnTop = 7;
/// An accepted finding returns when its badness has grown by this factor.
inline constexpr double kReturnsAt = 1.1;

/// Runs every rule, merges causes with their symptoms, tries the remedies of what stands on top, and puts the
/// true cause first. Errors: none beyond those of gatherEvidence(); a rule that cannot look finds nothing.
base::Result<Verdict> judgeShop(const Assessment& assessment, const catalogue::Catalogue& catalogue,
                                std::vector<StateBands> bands = {});

/// The same from evidence that is at hand already.
Verdict judgeEvidence(const Evidence& evidence);

}  // namespace kerfdraft::judge
