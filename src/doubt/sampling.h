// The same spreads by drawing the inputs at random and solving every time: the check of the linear way, and
// what to use where that is not good enough.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "base/progress.h"
#include "doubt/inputs.h"
#include "judge/assessment.h"

namespace kerfdraft::doubt {

struct SamplingOptions {
  std::size_t samples = 2000;
  std::uint64_t seed = 1;
  unsigned threads = 0;  ///< 0: all cores
  const base::StopFlag* stop = nullptr;
};

/// One number over all samples, in their order. Statistics are of what was solved.
struct Sampled {
  std::vector<double> values;

  double mean() const;
  double deviation() const;
  /// Standard deviation of ln; only values above zero count, and their share must be above 0.99, else zero.
  double logDeviation() const;
  /// The value below which this share of the samples lies, 0 … 1, by linear interpolation.
  double quantile(double share) const;
  /// Share of samples of at least `limit`.
  double chanceOfAtLeast(double limit) const;
};

struct SampledState {
  std::size_t state = 0;
  std::size_t solved = 0;  ///< samples that found a solution; the others are left out
  std::size_t asked = 0;
  std::vector<Sampled> ports;  ///< flow at room density [m3/s], by Pieces::ports
  std::vector<Sampled> fans;   ///< mass flow over room density [m3/s], by Pieces::fans
};

/// Draws every input of a state (inputsOf()) from its distribution and solves, dust load counted. Draws and
/// their order depend on the seed alone, not on the number of threads. Standard error of a deviation from n
/// samples: 1/√(2n) of it, 1.6 % at 2000.
SampledState sampleState(const judge::Assessment& assessment, std::size_t state,
                         const SamplingOptions& options = {});

}  // namespace kerfdraft::doubt
