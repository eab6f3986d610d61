// How flows and pressures follow an uncertain input, to first order: one factorization at a solution, then a
// few residuals for each input, or one transposed step for each output, and no further solve.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "network/network.h"
#include "network/solve.h"

namespace kerfdraft::network {

/// One input that a Situation can move, alone or many pieces together.
struct Parameter {
  enum class What {
    Group,     ///< factor on the losses of `group` in the runs `where` (Leakage: in all)
    Opening,   ///< factor on the losses of the openings `where`
    Bore,      ///< factor on the bores of the runs `where`
    Fan,       ///< factor on the pressure of the curves of the fans `where`
    Junction,  ///< velocity pressures lost in the legs of the junctions `where`, `legs` of each
    Density,   ///< factor on the density of the room's air; no Situation holds it
  };
  What what = What::Group;
  pieces::Group group = pieces::Group::Friction;
  std::vector<std::size_t> where;  ///< indices in Pieces; empty: all
  std::vector<LegExtra> legs;      ///< Junction: by `where` (by Pieces::junctions where that is empty)
};

/// Moves an input by `by`: factors are multiplied by exp(by), a junction's extra grows by `by` × `legs`. A
/// Density is left alone. Moves add up.
void moveParameter(Situation& situation, const pieces::Pieces& pieces, const Parameter& parameter, double by);

/// One number of a solution.
struct Output {
  enum class What {
    RunFlow,       ///< at the start of a run [kg/s]
    RunEndFlow,    ///< at its end [kg/s]
    RunSpeed,      ///< slowest air in its ducts and hoses [m/s]
    FanFlow,       ///< [kg/s]
    FanRise,       ///< of total pressure [Pa]
    OpeningFlow,   ///< [kg/s]
    NodePressure,  ///< [Pa]
  };
  What what = What::RunFlow;
  std::size_t at = 0;  ///< index in Pieces
};

/// Derivatives, outputs by parameters.
class Sensitivities {
 public:
  Sensitivities() = default;
  Sensitivities(std::size_t outputs, std::size_t parameters)
      : parameters_(parameters), d_(outputs * parameters) {}

  /// d(output) for a move of 1: by ln(factor), or by a junction's legs. SI units of the output.
  double at(std::size_t output, std::size_t parameter) const { return d_[output * parameters_ + parameter]; }
  double& at(std::size_t output, std::size_t parameter) { return d_[output * parameters_ + parameter]; }
  std::size_t parameters() const { return parameters_; }

 private:
  std::size_t parameters_ = 0;
  std::vector<double> d_;
};

struct WorkspaceData;

/// Sensitivities at solutions of one network; holds the memory of one thread. Source: the implicit function
/// theorem. At a solution R(x, θ) = 0, so dx/dθ = −(∂R/∂x)⁻¹ ∂R/∂θ. The solver's own matrix stands for ∂R/∂x,
/// and ∂R/∂θ is the difference of two residuals with the input moved a ten-thousandth both ways. The dust
/// load is kept, as the solver keeps it. Right at a kink (a leg whose flow passes zero) it is the mean of
/// both sides.
class SensitivitySolver {
 public:
  explicit SensitivitySolver(const Network& network);
  ~SensitivitySolver();
  SensitivitySolver(SensitivitySolver&&) noexcept;
  SensitivitySolver& operator=(SensitivitySolver&&) noexcept;

  /// Takes a solution that solveFully() gave for `situation`. False where there are no derivatives: not
  /// solved, nothing drives the air, or a singular matrix (a fold, where flows jump). `situation` and
  /// `solution` must outlive what is asked of it.
  bool stand(const Situation& situation, const Solution& solution);

  /// Derivatives of many outputs by few inputs: each input's tangent dx/dθ. The solver's matrix leaves out
  /// what a leak does to the rest, so the tangent is refined by differences along itself until 1e-7 is left.
  /// All zero where stand() failed. Accuracy: against full solves with the input moved, 2e-5 of an output's
  /// greatest derivative; the speed in a run 1 %, in a vacuum line 6 % (tests/network/sensitivity_test.cpp).
  Sensitivities byTangent(std::span<const Parameter> parameters, std::span<const Output> outputs);

  /// Derivatives of one output (not RunEndFlow or RunSpeed) by every member of an input moved alone, in the
  /// order of `where` (of Pieces where that is empty): one transposed step, dy/dθ = −λ·∂R/∂θ with (∂R/∂x)ᵀ λ
  /// = ∂y/∂x. Groups are moved run by run, so Leakage has one member. Not refined: right to 1e-5
  /// without leaks, to a share of the leaks' flow with them.
  std::vector<double> byAdjoint(const Parameter& parameter, const Output& output);

 private:
  struct Standing;
  const Network* network_;
  std::unique_ptr<WorkspaceData> data_;
  std::unique_ptr<Standing> standing_;
};

}  // namespace kerfdraft::network
