// Blocks of samples on all cores, each block with its own generator.
#include "doubt/sampling.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>
#include <random>

#include "base/parallel.h"
#include "network/solve.h"

namespace kerfdraft::doubt {
namespace {

constexpr std::size_t kBlock = 64;

/// Normal numbers from a generator whose sequence the language fixes; the library's own distribution may
/// differ from one standard library to the next.
class Normals {
 public:
  explicit Normals(std::uint64_t seed) : random_(seed) {}

  double next() {
    if (kept_) {
      kept_ = false;
      return spare_;
    }
    const double radius = std::sqrt(-2 * std::log(uniform()));
    const double angle = 2 * std::numbers::pi * uniform();
    spare_ = radius * std::sin(angle);
    kept_ = true;
    return radius * std::cos(angle);
  }

 private:
  /// In (0, 1).
  double uniform() { return (static_cast<double>(random_() >> 11U) + 0.5) * 0x1.0p-53; }

  std::mt19937_64 random_;
  bool kept_ = false;
  double spare_ = 0;
};

/// Blocks far apart from neighbouring seeds.
std::uint64_t mixed(std::uint64_t seed, std::uint64_t block) {
  std::uint64_t z = seed * 0x9E3779B97F4A7C15U + block + 1;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31U);
}

struct Sample {
  bool solved = false;
  std::vector<double> ports;
  std::vector<double> fans;
};

}  // namespace

double Sampled::mean() const {
  double sum = 0;
  for (const double v : values) {
    sum += v;
  }
  return values.empty() ? 0 : sum / static_cast<double>(values.size());
}

double Sampled::deviation() const {
  const double middle = mean();
  double squares = 0;
  for (const double v : values) {
    squares += (v - middle) * (v - middle);
  }
  return values.size() < 2 ? 0 : std::sqrt(squares / static_cast<double>(values.size() - 1));
}

double Sampled::logDeviation() const {
  Sampled logs;
  for (const double v : values) {
    if (v > 0) {
      logs.values.push_back(std::log(v));
    }
  }
  const bool enough = static_cast<double>(logs.values.size()) > 0.99 * static_cast<double>(values.size());
  return enough ? logs.deviation() : 0;
}

double Sampled::quantile(double share) const {
  if (values.empty()) {
    return 0;
  }
  std::vector<double> sorted(values);
  std::sort(sorted.begin(), sorted.end());
  const double at = std::clamp(share, 0.0, 1.0) * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (at - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

double Sampled::chanceOfAtLeast(double limit) const {
  const auto reached = std::count_if(values.begin(), values.end(), [limit](double v) { return v >= limit; });
  return values.empty() ? 0 : static_cast<double>(reached) / static_cast<double>(values.size());
}

SampledState sampleState(const judge::Assessment& assessment, std::size_t state,
                         const SamplingOptions& options) {
  const pieces::Pieces& drawing = *assessment.pieces;
  const judge::StateResult& result = assessment.states[state];
  const std::vector<Input> inputs = inputsOf(assessment, state);
  SampledState out;
  out.state = state;
  out.ports.resize(drawing.ports.size());
  out.fans.resize(drawing.fans.size());
  if (inputs.empty()) {
    return out;
  }
  const unsigned threads = options.threads == 0 ? base::coreCount() : options.threads;
  std::vector<std::unique_ptr<network::Workspace>> workspaces;
  for (unsigned t = 0; t < threads; ++t) {
    workspaces.push_back(std::make_unique<network::Workspace>(*assessment.network));
  }
  const std::size_t blocks = (options.samples + kBlock - 1) / kBlock;
  std::vector<std::vector<Sample>> samples(blocks);
  const double per_density = 1 / drawing.air.density_kg_m3;
  const auto work = [&](std::size_t block, unsigned thread) {
    network::Workspace& workspace = *workspaces[thread];
    Normals normals(mixed(options.seed, block));
    const std::size_t count = std::min(kBlock, options.samples - block * kBlock);
    for (std::size_t i = 0; i < count; ++i) {
      network::Situation situation = result.situation;
      for (const Input& input : inputs) {
        moveInput(situation, drawing, input, normals.next());
      }
      // Cold, so that a sample does not depend on the one before.
      Sample sample;
      sample.solved =
          network::solveLoaded(*assessment.network, situation, workspace, network::Start::Cold).usable();
      for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
        sample.ports.push_back(workspace.runFlow()[drawing.ports[p].run] * per_density);
      }
      for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
        sample.fans.push_back(workspace.fanFlow()[f] * per_density);
      }
      samples[block].push_back(std::move(sample));
    }
  };
  const auto deliver = [&](std::size_t block) {
    for (const Sample& sample : samples[block]) {
      ++out.asked;
      if (!sample.solved) {
        continue;
      }
      ++out.solved;
      for (std::size_t p = 0; p < out.ports.size(); ++p) {
        out.ports[p].values.push_back(sample.ports[p]);
      }
      for (std::size_t f = 0; f < out.fans.size(); ++f) {
        out.fans[f].values.push_back(sample.fans[f]);
      }
    }
    samples[block].clear();
  };
  base::orderedParallelFor(blocks, threads, work, deliver, options.stop);
  return out;
}

}  // namespace kerfdraft::doubt
