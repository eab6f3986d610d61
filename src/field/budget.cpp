// The arithmetic of the uncertainty budget.
// Independent inputs only, so there is no correlation term.
#include "field/budget.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace kerfdraft::field {

std::string_view toText(Spread spread) {
  return spread == Spread::Normal ? "normal" : "rectangular";
}

Uncertain rectangular(Uncertain u, double half_width) {
  u.spread = Spread::Rectangular;
  u.standard = half_width / std::numbers::sqrt3;
  return u;
}

Budget makeBudget(const std::vector<Uncertain>& inputs, const Graded& result, base::Kind kind) {
  Budget budget;
  budget.kind = kind;
  budget.value = result.value();
  double variance = 0;
  double over_freedom = 0;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    BudgetLine line{inputs[i], result.slope(i), 0, 1};
    line.contribution = std::abs(line.sensitivity) * line.input.standard;
    const double square = line.contribution * line.contribution;
    variance += square;
    over_freedom += square * square / line.input.freedom;
    budget.lines.push_back(std::move(line));
  }
  budget.combined = std::sqrt(variance);
  budget.expanded = budget.coverage * budget.combined;
  if (over_freedom > 0) {
    budget.freedom = variance * variance / over_freedom;
  }
  return budget;
}

std::vector<BudgetLine> groupedLines(const Budget& budget) {
  std::vector<BudgetLine> lines;
  for (const BudgetLine& line : budget.lines) {
    const auto same = [&](const BudgetLine& other) {
      return !line.input.group.empty() && other.input.group == line.input.group;
    };
    const auto found = std::ranges::find_if(lines, same);
    if (found == lines.end()) {
      lines.push_back(line);
      continue;
    }
    const double n = found->inputs;
    found->input.value = (found->input.value * n + line.input.value) / (n + 1);
    found->input.standard = (found->input.standard * n + line.input.standard) / (n + 1);
    found->contribution = std::hypot(found->contribution, line.contribution);
    found->inputs += 1;
    if (found->input.standard > 0) {
      found->sensitivity = found->contribution / found->input.standard;
    }
  }
  std::ranges::stable_sort(
      lines, [](const BudgetLine& a, const BudgetLine& b) { return a.contribution > b.contribution; });
  return lines;
}

}  // namespace kerfdraft::field
