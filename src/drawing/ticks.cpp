// Axis numbers a person would have chosen.
#include "drawing/ticks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace kerfdraft::drawing {

std::string Ticks::text(double value) const {
  std::string out = fmt::format("{:.{}f}", value, digits);
  if (out.starts_with('-')) {
    const bool nothing = out.find_first_not_of("-0.") == std::string::npos;
    out = nothing ? out.substr(1) : "−" + out.substr(1);
  }
  return out;
}

Ticks niceTicks(double low, double high, int about) {
  if (!std::isfinite(low) || !std::isfinite(high)) {
    low = 0;
    high = 1;
  }
  if (low > high) {
    std::swap(low, high);
  }
  // Ends that are equal, or so near that no double lies between their ticks, are spread.
  const double least = std::max({std::abs(low), std::abs(high), 1e-6}) * 1e-9;
  if (high - low < least) {
    const double spread = std::max(std::abs(high) * 0.5, 0.5);
    low = low > 0 ? std::max(0.0, low - spread) : low - spread;
    high += spread;
  }
  const double rough = (high - low) / std::max(about, 1);
  const double power = std::pow(10, std::floor(std::log10(rough)));
  const double share = rough / power;
  const double step = power * (share <= 1.001 ? 1 : share <= 2.001 ? 2 : share <= 5.001 ? 5 : 10);
  Ticks out;
  out.digits = std::clamp(static_cast<int>(-std::floor(std::log10(step) + 1e-9)), 0, 20);
  constexpr double kSlack = 1e-9;
  const double first = std::floor(low / step + kSlack);
  const int count = static_cast<int>(std::ceil(high / step - kSlack) - first);
  for (int k = 0; k <= count; ++k) {
    out.at.push_back((first + k) * step);
  }
  return out;
}

}  // namespace kerfdraft::drawing
