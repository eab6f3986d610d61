// The table of straight-run rules.
#include "field/straight_run.h"

#include <array>

namespace kerfdraft::field {
namespace {

using base::SourceStatus;

constexpr auto kRules = std::to_array<StraightRule>({
    {"iso-20-5", 20, 5, 0, "20 D before and 5 D after, for the stated accuracy of the standard", "Iso3966",
     SourceStatus::FromMemory},
    {"epa-8-2", 8, 2, 0.3048, "8 D before and 2 D after: the preferred plane", "Epa40Cfr60M1, sec. 11.1",
     SourceStatus::FromMemory},
    {"trade-7.5", 7.5, 0, 0, "7.5 D after an elbow, hood or branch entry", "AcgihIv",
     SourceStatus::FromMemory},
    {"epa-2-0.5", 2, 0.5, 0.3048, "2 D before and 0.5 D after: the nearest plane that is allowed",
     "Epa40Cfr60M1, sec. 1.2", SourceStatus::Published},
});

}  // namespace

std::span<const StraightRule> straightRules() {
  return kRules;
}

std::vector<StraightVerdict> judgeStraight(double upstream, double downstream, double bore_m) {
  std::vector<StraightVerdict> verdicts;
  for (const StraightRule& rule : kRules) {
    // A micrometre of slack, so that a 12 in duct is not "below 0.3048 m" by rounding.
    const bool applies = bore_m >= rule.smallest_bore_m - 1e-6;
    verdicts.push_back({&rule, applies, upstream >= rule.upstream && downstream >= rule.downstream});
  }
  return verdicts;
}

double straightStandard(std::optional<double> upstream, std::optional<double> downstream) {
  if (!upstream) {
    return 0.03;
  }
  const double after = downstream.value_or(0);
  if (*upstream >= 20 && after >= 5) {
    return 0.005;
  }
  if (*upstream >= 8 && after >= 2) {
    return 0.01;
  }
  if (*upstream >= 7.5) {
    return 0.02;
  }
  return *upstream >= 2 && after >= 0.5 ? 0.03 : 0.06;
}

}  // namespace kerfdraft::field
