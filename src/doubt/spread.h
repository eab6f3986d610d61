// One predicted number with its spread, and the chance that it reaches another.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace kerfdraft::doubt {

/// A chance in words: above 95 %, above 66 %, above 5 %, else.
enum class Chance { Yes, Likely, Unlikely, No };

Chance chanceInWords(double probability);
std::string_view toText(Chance chance);  ///< "yes", "likely", "unlikely", "no"

/// Share of a standard normal distribution below z. Accuracy: that of erfc.
double normalBelow(double z);

/// A number, its standard deviation to first order, and what each input does to it.
///
/// Lognormal while the standard deviation is below the number itself, so that a flow stays positive; else
/// normal, since then its sign is not known (a ring's idle stretch). Unit: that of the number.
struct Spread {
  double value = 0;
  double sigma = 0;             ///< √Σ effects²
  std::vector<double> effects;  ///< by input of the state, at one standard deviation, signed

  bool lognormal() const;
  /// Of ln|value| where lognormal; else over |value|. Zero where the value is zero.
  double relative() const;
  /// The number at z standard deviations.
  double at(double z) const;
  /// Probability of at least `limit`. A number without spread has 0 or 1.
  double chanceOfAtLeast(double limit) const;
};

/// Sum of numbers of one state, by their common inputs.
Spread operator+(const Spread& a, const Spread& b);

/// A number from the effects of its inputs.
Spread spreadOf(double value, std::vector<double> effects);

}  // namespace kerfdraft::doubt
