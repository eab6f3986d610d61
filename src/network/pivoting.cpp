// The linear step by KLU, which pivots by size: for points where the fixed order would lose digits, such as a
// fan at the very top of its curve.
#include <klu.h>

#include <memory>

#include "network/workspace.h"

namespace kerfdraft::network {

bool linearStepPivoting(const Network& net, WorkspaceData& w) {
  const std::size_t n = net.unknownCount();
  const std::vector<int>& rows = net.elimination.rows();
  const std::vector<int>& columns = net.elimination.columns();
  std::vector<int> start(n + 1, 0);
  for (const int c : columns) {
    ++start[static_cast<std::size_t>(c) + 1];
  }
  for (std::size_t c = 0; c < n; ++c) {
    start[c + 1] += start[c];
  }
  std::vector<int> fill(start.begin(), start.end() - 1);
  std::vector<int> index(rows.size());
  std::vector<double> value(rows.size());
  for (std::size_t a = 0; a < rows.size(); ++a) {
    const auto at = static_cast<std::size_t>(fill[static_cast<std::size_t>(columns[a])]++);
    index[at] = rows[a];
    value[at] = w.keep_values[a];
  }
  klu_common common;
  klu_defaults(&common);
  const auto freeSymbolic = [&common](klu_symbolic* s) { klu_free_symbolic(&s, &common); };
  const auto freeNumeric = [&common](klu_numeric* s) { klu_free_numeric(&s, &common); };
  const std::unique_ptr<klu_symbolic, decltype(freeSymbolic)> symbolic(
      klu_analyze(static_cast<int>(n), start.data(), index.data(), &common), freeSymbolic);
  if (!symbolic) {
    return false;
  }
  const std::unique_ptr<klu_numeric, decltype(freeNumeric)> numeric(
      klu_factor(start.data(), index.data(), value.data(), symbolic.get(), &common), freeNumeric);
  if (!numeric) {
    return false;
  }
  w.rhs = w.keep_rhs;
  return klu_solve(symbolic.get(), numeric.get(), static_cast<int>(n), 1, w.rhs.data(), &common) == 1;
}

}  // namespace kerfdraft::network
