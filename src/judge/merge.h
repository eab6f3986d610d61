// Puts findings of one cause together and finds out by trying which cause is the true one. Private to this
// room.
#pragma once

#include <cstddef>
#include <vector>

#include "judge/trials.h"
#include "judge/verdict.h"

namespace kerfdraft::judge {

/// The same rule and piece in its states, the worst first.
struct Cluster {
  std::vector<std::size_t> findings;  ///< indices in the list
  bool operator==(const Cluster&) const = default;
};

/// Those of `wanted`, in the order of rules, then of labels: the order of machines and ducts in the file must
/// not matter.
std::vector<Cluster> clusters(const std::vector<Finding>& findings, const std::vector<std::size_t>& wanted);

/// A cluster with all that stands beneath it.
struct Merged {
  std::size_t lead = 0;                ///< index in the clusters
  std::vector<std::size_t> explained;  ///< clusters that it explains
  std::vector<std::size_t> lesser;     ///< further causes of what it explains, which bring less
};

/// Every cluster is in exactly one of the results, which stand in the order of their leads.
std::vector<Merged> mergeCauses(const Evidence& evidence, const std::vector<Finding>& findings,
                                const std::vector<Cluster>& clusters, Trials& trials);

/// Badness in thousandths: less is noise of the solver and must not order anything.
double steps(double badness);

/// Whether a stands before b: graver, then worse.
bool graver(const Finding& a, const Finding& b);

}  // namespace kerfdraft::judge
