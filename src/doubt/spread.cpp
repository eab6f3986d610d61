// Lognormal and normal bands.
#include "doubt/spread.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace kerfdraft::doubt {

Chance chanceInWords(double probability) {
  return probability > 0.95   ? Chance::Yes
         : probability > 0.66 ? Chance::Likely
         : probability > 0.05 ? Chance::Unlikely
                              : Chance::No;
}

std::string_view toText(Chance chance) {
  switch (chance) {
    case Chance::Yes:
      return "yes";
    case Chance::Likely:
      return "likely";
    case Chance::Unlikely:
      return "unlikely";
    case Chance::No:
      return "no";
  }
  return "";
}

double normalBelow(double z) {
  return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

bool Spread::lognormal() const {
  return sigma < std::abs(value);
}

double Spread::relative() const {
  return value == 0 ? 0 : sigma / std::abs(value);
}

double Spread::at(double z) const {
  if (!lognormal()) {
    return value + z * sigma;
  }
  return value * std::exp((value > 0 ? z : -z) * relative());
}

double Spread::chanceOfAtLeast(double limit) const {
  if (!(sigma > 0)) {
    return value >= limit ? 1 : 0;
  }
  if (!lognormal()) {
    return normalBelow((value - limit) / sigma);
  }
  if (value > 0) {
    return limit > 0 ? normalBelow(std::log(value / limit) / relative()) : 1;
  }
  return limit < 0 ? normalBelow(std::log(limit / value) / relative()) : 0;
}

Spread operator+(const Spread& a, const Spread& b) {
  std::vector<double> effects(std::max(a.effects.size(), b.effects.size()), 0.0);
  for (std::size_t i = 0; i < effects.size(); ++i) {
    effects[i] = (i < a.effects.size() ? a.effects[i] : 0) + (i < b.effects.size() ? b.effects[i] : 0);
  }
  return spreadOf(a.value + b.value, std::move(effects));
}

Spread spreadOf(double value, std::vector<double> effects) {
  double squares = 0;
  for (const double e : effects) {
    squares += e * e;
  }
  return {value, std::sqrt(squares), std::move(effects)};
}

}  // namespace kerfdraft::doubt
