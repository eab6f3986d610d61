// Tables and formulas of traverse positions.
// The tables hold the first half; the other half mirrors it.
#include "field/positions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace kerfdraft::field {
namespace {

using base::ErrorCode;
using base::Result;

std::vector<double> mirrored(std::vector<double> half, bool middle = false) {
  const std::vector<double> first = half;
  if (middle) {
    half.push_back(0.5);
  }
  for (auto y = first.rbegin(); y != first.rend(); ++y) {
    half.push_back(1 - *y);
  }
  return half;
}

// Fractions of the bore, as printed in instrument manuals (6, 8, 10) and from memory of the standard (4).
std::vector<double> logLinear(int count) {
  switch (count) {
    case 4:
      return mirrored({0.043, 0.290});
    case 6:
      return mirrored({0.032, 0.135, 0.321});
    case 8:
      return mirrored({0.021, 0.117, 0.184, 0.345});
    case 10:
      return mirrored({0.019, 0.077, 0.153, 0.217, 0.361});
    default:
      return {};
  }
}

// From r/R of the standard, from memory: y/D = (1 - r/R)/2.
std::vector<double> logTchebycheff(int count) {
  std::vector<double> radii;
  if (count == 6) {
    radii = {0.9358, 0.7252, 0.3754};
  } else if (count == 8) {
    radii = {0.9524, 0.8000, 0.6124, 0.3314};
  } else if (count == 10) {
    radii = {0.9622, 0.8472, 0.6892, 0.5700, 0.2866};
  }
  for (double& r : radii) {
    r = (1 - r) / 2;
  }
  return radii.empty() ? radii : mirrored(radii);
}

std::vector<double> equalAnnuli(int count) {
  std::vector<double> half;
  const int n = count / 2;
  for (int i = n; i >= 1; --i) {
    half.push_back((1 - std::sqrt((2.0 * i - 1) / (2.0 * n))) / 2);
  }
  return mirrored(half);
}

std::vector<double> sideTchebycheff(int count) {
  switch (count) {
    case 5:
      return mirrored({0.074, 0.288}, true);
    case 6:
      return mirrored({0.061, 0.235, 0.437});
    case 7:
      return mirrored({0.053, 0.203, 0.366}, true);
    default:
      return {};
  }
}

}  // namespace

std::string_view toText(PointRule rule) {
  switch (rule) {
    case PointRule::EqualArea:
      return "equal areas";
    case PointRule::LogLinear:
      return "log-linear";
    case PointRule::LogTchebycheff:
      return "log-Tchebycheff";
  }
  return "";
}

Result<std::vector<double>> roundPositions(PointRule rule, int count, std::string_view where) {
  if (rule == PointRule::EqualArea) {
    if (count < 2 || count > 48 || count % 2 != 0) {
      return base::fail(
          ErrorCode::Range,
          fmt::format("Equal areas take an even number of points on a diameter, 2 to 48, not {}.", count),
          std::string(where));
    }
    return equalAnnuli(count);
  }
  std::vector<double> y = rule == PointRule::LogLinear ? logLinear(count) : logTchebycheff(count);
  if (y.empty()) {
    return base::fail(
        ErrorCode::Unsupported,
        fmt::format("The {} rule has positions for {} points on a diameter, not for {}.", toText(rule),
                    rule == PointRule::LogLinear ? "4, 6, 8 or 10" : "6, 8 or 10", count),
        std::string(where));
  }
  return y;
}

Result<std::vector<double>> sidePositions(PointRule rule, int count, std::string_view where) {
  if (rule == PointRule::EqualArea) {
    if (count < 1 || count > 48) {
      return base::fail(ErrorCode::Range,
                        fmt::format("Equal areas take 1 to 48 points along a side, not {}.", count),
                        std::string(where));
    }
    std::vector<double> y;
    for (int i = 0; i < count; ++i) {
      y.push_back((i + 0.5) / count);
    }
    return y;
  }
  if (rule == PointRule::LogLinear) {
    return base::fail(ErrorCode::Unsupported,
                      "The log-linear rule has unequal weights in a rectangle and is not offered there; take "
                      "log-Tchebycheff or equal areas.",
                      std::string(where));
  }
  std::vector<double> y = sideTchebycheff(count);
  if (y.empty()) {
    return base::fail(
        ErrorCode::Unsupported,
        fmt::format("The log-Tchebycheff rule has positions for 5, 6 or 7 points along a side, not for {}.",
                    count),
        std::string(where));
  }
  return y;
}

double meanOverMaximum(double n) {
  return 2 * n * n / ((n + 1) * (2 * n + 1));
}

namespace {

double meanPower(const std::vector<double>& positions, double exponent) {
  double sum = 0;
  for (const double y : positions) {
    sum += std::pow(2 * std::min(y, 1 - y), 1 / exponent);
  }
  return sum / static_cast<double>(positions.size());
}

}  // namespace

double roundBias(const std::vector<double>& positions, double exponent) {
  return meanPower(positions, exponent) / meanOverMaximum(exponent) - 1;
}

double sideBias(const std::vector<double>& positions, double exponent) {
  return meanPower(positions, exponent) * (exponent + 1) / exponent - 1;
}

double largestBias(const std::vector<double>& positions, double (*bias)(const std::vector<double>&, double)) {
  double largest = 0;
  for (int exponent = 6; exponent <= 10; ++exponent) {
    largest = std::max(largest, std::abs(bias(positions, exponent)));
  }
  return largest;
}

}  // namespace kerfdraft::field
