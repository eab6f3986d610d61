// The search that two rules share: machines that throw sparks or vapour into ducts of wood. Private to
// judge/rules.
#pragma once

#include <string>
#include <vector>

#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

/// Machines that throw this and hang on ducts with a collector, and the wood machines beside them.
struct Foreign {
  std::vector<base::Id> machines;
  std::vector<std::size_t> ports;  ///< of these
  std::vector<base::Id> wood;      ///< on the same ducts, each once
  std::vector<base::Id> sanders;   ///< of the latter
};

/// Only on ducts that carry wood too, where `with_wood`.
Foreign foreignOnDucts(const Evidence& evidence, shop::Throws what, bool with_wood);

/// A finding about them, in words: the foreign machines (figure "foreign" says how many), then the wood ones.
Finding foreignFinding(const Evidence& evidence, const Foreign& foreign);

/// The foreign machines and the wood machines of such a finding, as lists.
std::string foreignNames(const Finding& finding);
std::string woodNames(const Finding& finding);

}  // namespace kerfdraft::judge
