// Where to hold the tube: positions of a traverse as fractions of the bore or side, measured from the wall.
#pragma once

#include <string_view>
#include <vector>

#include "base/result.h"

namespace kerfdraft::field {

/// How a section is divided.
enum class PointRule {
  EqualArea,      ///< centres of equal areas [Epa40Cfr60M1]
  LogLinear,      ///< after the logarithmic law of the wall with a linear term [Iso3966]
  LogTchebycheff  ///< the same law, Tchebycheff's quadrature [Iso3966]
};

std::string_view toText(PointRule rule);

/// Fractions of the bore from the near wall, rising, for `count` points on one diameter.
/// Equal areas: y = (1 - sqrt((2i - 1)/n))/2, any even count from 2 to 48; equal to the printed table of
/// Method 1 after rounding. Log-linear: 4, 6, 8, 10 points, three digits as printed (4 from memory of
/// Iso3966). Log-Tchebycheff: 6, 8, 10 points, from r/R of Iso3966 (from memory).
base::Result<std::vector<double>> roundPositions(PointRule rule, int count, std::string_view where = {});

/// Fractions of a side from its wall, rising. Equal areas: 1 to 48 centres of equal strips.
/// Log-Tchebycheff: 5, 6 or 7 (Iso3966 and Ashrae111, from memory). Log-linear is refused: its points in a
/// rectangle carry unequal weights.
base::Result<std::vector<double>> sidePositions(PointRule rule, int count, std::string_view where = {});

/// Relative error of the plain mean over these positions on the power-law profile V = Vmax (2y)^(1/n) of a
/// round section, exact mean/max = 2 n²/((n + 1)(2n + 1)). Rows B13–B15. Positive: reads high.
double roundBias(const std::vector<double>& positions, double exponent);

/// The same along one side of a rectangle, where the exact mean/max is n/(n + 1).
double sideBias(const std::vector<double>& positions, double exponent);

/// Largest bias (absolute) over the profiles of ducts, exponents 6 to 10.
double largestBias(const std::vector<double>& positions, double (*bias)(const std::vector<double>&, double));

/// Mean over maximum speed of the round power-law profile: what a centre reading has to be multiplied by.
double meanOverMaximum(double exponent);

}  // namespace kerfdraft::field
