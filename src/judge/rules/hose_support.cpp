// Lengths of drawn hose, and what can be done to it.
#include "judge/rules/hose_support.h"

#include <algorithm>

#include "judge/rules/air_support.h"

namespace kerfdraft::judge {

namespace {

/// A hose needs a little more than the straight line (ours), and shortening by less than a tenth is no
/// remedy.
constexpr double kSpare = 1.05;
constexpr double kWorth = 0.9;

}  // namespace

std::vector<DrawnHose> hosesOf(const shop::Duct& duct) {
  std::vector<DrawnHose> out;
  for (std::size_t i = 0; i + 1 < duct.corners.size();) {
    const std::size_t given_at = legGivenAt(duct, i);
    std::size_t end = i;
    double drawn_m = 0;
    while (end + 1 < duct.corners.size() && legGivenAt(duct, end) == given_at) {
      drawn_m += shop::distance(duct.corners[end].at, duct.corners[end + 1].at);
      ++end;
    }
    const auto& leg = duct.corners[given_at].leg;
    if (leg && leg->hose) {
      const shop::Hose& hose = *leg->hose;
      out.push_back({&duct, i, &hose, hose.length ? hose.length->si() : drawn_m,
                     shop::distance(duct.corners[i].at, duct.corners[end].at)});
    }
    i = end;
  }
  return out;
}

std::optional<Remedy> shorterHose(const DrawnHose& hose) {
  const double shorter_m = std::max(0.5 * hose.built_m, kSpare * hose.reach_m);
  if (!(shorter_m > 0) || shorter_m > kWorth * hose.built_m) {
    return std::nullopt;
  }
  return Remedy{
      "shorter-hose",
      {{"length", shorter_m, base::Kind::Length}},
      {ductName(*hose.duct)},
      Change{ChangeKind::HoseLength, hose.duct->id, hose.duct->corners[hose.corner].id, shorter_m, false},
      {},
      {}};
}

std::optional<Remedy> tightHose(const shop::Duct& duct) {
  const auto hoses = hosesOf(duct);
  const bool better = std::any_of(hoses.begin(), hoses.end(), [](const DrawnHose& each) {
    return each.hose->inside != shop::HoseInside::Smooth || each.hose->hung != shop::HoseHung::Tight ||
           each.hose->compression.has_value();
  });
  if (!better) {
    return std::nullopt;
  }
  return Remedy{"tight-hose", {}, {ductName(duct)}, Change{ChangeKind::HoseTight, duct.id, {}, 0, false},
                {},           {}};
}

}  // namespace kerfdraft::judge
