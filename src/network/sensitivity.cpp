// A solution is put back into a workspace and its matrix is factored once; tangents and transposed steps
// follow.
#include "network/sensitivity.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <optional>

#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

/// Move of an input for the difference of residuals, as ln(factor). Truncation goes as its square, rounding
/// as 1e-11 Pa over it; both are far below 1e-6 of any loss that matters.
constexpr double kMove = 1e-4;

/// Calls f(index) for the members of a parameter.
template <class F>
void forMembers(const Parameter& parameter, std::size_t count, F f) {
  const bool all = parameter.where.empty();
  for (std::size_t i = 0; i < (all ? count : parameter.where.size()); ++i) {
    f(all ? i : parameter.where[i]);
  }
}

/// Puts a solution's flows, pressures and dust load into a workspace. False where it cannot stand there.
bool restore(const Network& net, const Situation& situation, const Solution& solution, WorkspaceData& w) {
  for (std::size_t r = 0; r < net.runs.size(); ++r) {
    const RunResult& run = solution.runs[r];
    w.x[r] = run.flow_start_kg_s;
    w.leak[r] = run.flow_end_kg_s - run.flow_start_kg_s;
    w.leak_slope[r] = 1;
    w.solids[r] = run.solids_ratio;
    w.solids_carried[r] = run.solids_kg_s;
    w.solids_air[r] = run.clean_air_kg_s;
  }
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    w.x[net.fanUnknown(f)] = solution.fans[f].flow_kg_s;
  }
  for (std::size_t o = 0; o < net.openings.size(); ++o) {
    w.x[net.openingUnknown(o)] = solution.openings[o].flow_kg_s;
  }
  for (std::size_t n = 0; n < net.unknown_of_node.size(); ++n) {
    if (net.unknown_of_node[n] >= 0) {
      w.x[static_cast<std::size_t>(net.unknown_of_node[n])] = solution.node_pa[n];
    }
  }
  prepare(net, situation, w);
  return prepareTopology(net, w).usable();
}

/// The solver's matrix at the last evaluation, factored.
class Factored {
 public:
  Factored(const Network& net, const WorkspaceData& w)
      : net_(net), matrix_(w.values), factors_(w.values), work_(w.values) {
    std::vector<double> rhs(w.rhs);
    usable_ = net.elimination.solve(factors_.data(), rhs.data());
    if (!usable_) {
      // The fixed order loses digits here (a fan at the very top of its curve).
      const auto n = static_cast<Eigen::Index>(w.rhs.size());
      Eigen::MatrixXd dense = Eigen::MatrixXd::Zero(n, n);
      const std::vector<int>& rows = net.elimination.rows();
      const std::vector<int>& columns = net.elimination.columns();
      for (std::size_t a = 0; a < matrix_.size(); ++a) {
        dense(rows[a], columns[a]) += matrix_[a];
      }
      usable_ = dense.allFinite();
      if (usable_) {
        const Eigen::MatrixXd turned = dense.transpose();
        pivoted_.emplace(dense);
        turned_.emplace(turned);
        usable_ = pivoted_->isInvertible();
      }
    }
  }

  bool usable() const { return usable_; }

  void solve(std::vector<double>& rhs) const {
    if (pivoted_) {
      dense(*pivoted_, rhs);
      return;
    }
    std::copy(matrix_.begin(), matrix_.end(), work_.begin());
    net_.elimination.solve(work_.data(), rhs.data());
  }

  void solveTransposed(std::vector<double>& rhs) const {
    if (turned_) {
      dense(*turned_, rhs);
      return;
    }
    net_.elimination.solveTransposed(factors_.data(), rhs.data());
  }

 private:
  using Dense = Eigen::FullPivLU<Eigen::MatrixXd>;

  static void dense(const Dense& lu, std::vector<double>& rhs) {
    const Eigen::Map<Eigen::VectorXd> b(rhs.data(), static_cast<Eigen::Index>(rhs.size()));
    const Eigen::VectorXd y = lu.solve(b);
    std::copy(y.begin(), y.end(), rhs.begin());
  }

  const Network& net_;
  std::vector<double> matrix_;
  std::vector<double> factors_;
  mutable std::vector<double> work_;
  std::optional<Dense> pivoted_;
  std::optional<Dense> turned_;
  bool usable_ = false;
};

/// Residuals with an input moved and the unknowns moving along with it.
class Moves {
 public:
  Moves(const Network& net, const Situation& situation, WorkspaceData& w)
      : net_(net),
        situation_(situation),
        w_(w),
        moved_(situation),
        x_(w.x),
        leak_(w.leak),
        leak_slope_(w.leak_slope),
        in_ring_(std::any_of(net.runs.begin(), net.runs.end(),
                             [](const CompiledRun& run) { return run.after_its_junction; })) {}

  /// −dR by the input, with the unknowns moving along u (none where empty); the runs' end flows with it.
  std::vector<double> slope(const Parameter& parameter, const std::vector<double>& u) {
    std::vector<double> out = residual(parameter, u, kMove);
    end_flow_ = w_.flow_end;
    const std::vector<double> down = residual(parameter, u, -kMove);
    for (std::size_t i = 0; i < out.size(); ++i) {
      out[i] = (out[i] - down[i]) / (2 * kMove);
    }
    for (std::size_t r = 0; r < end_flow_.size(); ++r) {
      end_flow_[r] = (end_flow_[r] - w_.flow_end[r]) / (2 * kMove);
    }
    return out;
  }

  const std::vector<double>& endFlow() const { return end_flow_; }

 private:
  std::vector<double> residual(const Parameter& parameter, const std::vector<double>& u, double by) {
    for (std::size_t i = 0; i < x_.size(); ++i) {
      w_.x[i] = u.empty() ? x_[i] : x_[i] + by * u[i];
    }
    w_.leak = leak_;
    w_.leak_slope = leak_slope_;
    physics::DuctAir air = net_.air;
    if (parameter.what == Parameter::What::Density) {
      air = {air.room_density_kg_m3 * std::exp(by), air.barometric_pa, air.viscosity_pa_s, air.local};
      prepare(net_, situation_, w_);
      // An opening's coefficient is kept per room density.
      for (double& k : w_.opening_k) {
        k *= std::exp(-by);
      }
    } else {
      moved_ = situation_;
      moveParameter(moved_, *net_.pieces, parameter, by);
      prepare(net_, moved_, w_);
    }
    evaluate(net_, air, w_);
    if (in_ring_) {
      // A junction of a ring takes the leak of the evaluation before.
      evaluate(net_, air, w_);
    }
    return w_.rhs;
  }

  const Network& net_;
  const Situation& situation_;
  WorkspaceData& w_;
  Situation moved_;  // kept for its memory
  std::vector<double> x_;
  std::vector<double> leak_;
  std::vector<double> leak_slope_;
  std::vector<double> end_flow_;
  bool in_ring_;
};

/// dx/dθ and what the runs' end flows do.
struct Tangent {
  std::vector<double> x;
  std::vector<double> end_flow;
};

/// Greatest size among the flows, and among the pressures.
struct Size {
  double flow = 0;
  double pressure = 0;
};

Size sizeOf(const std::vector<double>& x, std::size_t flows) {
  Size size;
  for (std::size_t i = 0; i < x.size(); ++i) {
    double& most = i < flows ? size.flow : size.pressure;
    most = std::max(most, std::abs(x[i]));
  }
  return size;
}

/// x ← x − matrix⁻¹ (∂R/∂θ + J x) until nothing is left; J x is a difference along x, so J is the true one.
Tangent tangentOf(const Network& net, const Parameter& parameter, Moves& moves, const Factored& factored) {
  constexpr int kRefinements = 6;
  constexpr double kRefined = 1e-7;
  Tangent t;
  t.x = moves.slope(parameter, {});
  factored.solve(t.x);
  const Size whole = sizeOf(t.x, net.flowCount());
  for (int round = 0; round < kRefinements; ++round) {
    std::vector<double> left = moves.slope(parameter, t.x);
    factored.solve(left);
    for (std::size_t i = 0; i < left.size(); ++i) {
      t.x[i] += left[i];
    }
    const Size moved = sizeOf(left, net.flowCount());
    if (moved.flow <= kRefined * whole.flow && moved.pressure <= kRefined * whole.pressure) {
      break;
    }
  }
  t.end_flow = moves.endFlow();
  return t;
}

/// Outputs as functions of the unknowns.
class Outputs {
 public:
  Outputs(const Network& net, const Solution& solution) : net_(net), solution_(solution) {}

  /// ∂y/∂x of an output that is a sum of unknowns.
  void gradient(const Output& output, std::vector<double>& out) const {
    std::fill(out.begin(), out.end(), 0.0);
    switch (output.what) {
      case Output::What::RunFlow:
      case Output::What::RunEndFlow:
      case Output::What::RunSpeed:
        out[output.at] = 1;
        return;
      case Output::What::FanFlow:
        out[net_.fanUnknown(output.at)] = 1;
        return;
      case Output::What::FanRise:
        add(net_.fans[output.at].to, 1, out);
        add(net_.fans[output.at].from, -1, out);
        return;
      case Output::What::OpeningFlow:
        out[net_.openingUnknown(output.at)] = 1;
        return;
      case Output::What::NodePressure:
        add(static_cast<int>(output.at), 1, out);
        return;
    }
  }

  /// dy/dθ from the tangent.
  double along(const Output& output, const Parameter& parameter, const Tangent& t) const {
    switch (output.what) {
      case Output::What::RunFlow:
        return t.x[output.at];
      case Output::What::RunEndFlow:
        return t.end_flow[output.at];
      case Output::What::RunSpeed:
        return speed(output.at, parameter, t);
      case Output::What::FanFlow:
        return t.x[net_.fanUnknown(output.at)];
      case Output::What::FanRise:
        return node(net_.fans[output.at].to, t) - node(net_.fans[output.at].from, t);
      case Output::What::OpeningFlow:
        return t.x[net_.openingUnknown(output.at)];
      case Output::What::NodePressure:
        return node(static_cast<int>(output.at), t);
    }
    return 0;
  }

 private:
  void add(int node, double value, std::vector<double>& out) const {
    const int unknown = net_.unknown_of_node[static_cast<std::size_t>(node)];
    if (unknown >= 0) {
      out[static_cast<std::size_t>(unknown)] += value;
    }
  }

  double node(int node, const Tangent& t) const {
    const int unknown = net_.unknown_of_node[static_cast<std::size_t>(node)];
    return unknown >= 0 ? t.x[static_cast<std::size_t>(unknown)] : 0;
  }

  /// V = |m|/(ρA) where it is slowest: m between the run's two ends by the leaks before it, ρ by a pressure
  /// between those of the two nodes.
  double speed(std::size_t r, const Parameter& parameter, const Tangent& t) const {
    const RunResult& run = solution_.runs[r];
    const pieces::Run& drawn = net_.pieces->runs[r];
    const PieceResult* slowest = nullptr;
    for (std::size_t i = 0; i < run.pieces.size(); ++i) {
      if (drawn.pieces[i].length_m > 0 &&
          (slowest == nullptr || std::abs(run.pieces[i].speed_m_s) < std::abs(slowest->speed_m_s))) {
        slowest = &run.pieces[i];
      }
    }
    if (slowest == nullptr || slowest->flow_kg_s == 0) {
      return 0;
    }
    const auto share = [](double here, double from, double to) {
      return from == to ? 0.0 : std::clamp((here - from) / (to - from), 0.0, 1.0);
    };
    const double leaked = share(slowest->flow_kg_s, run.flow_start_kg_s, run.flow_end_kg_s);
    double relative = ((1 - leaked) * t.x[r] + leaked * t.end_flow[r]) / slowest->flow_kg_s;
    if (net_.air.local) {
      const double here_pa = 0.5 * (slowest->static_in_pa + slowest->static_out_pa);
      const double down = share(here_pa, run.static_start_pa, run.static_end_pa);
      const double moved_pa =
          (1 - down) * node(net_.runs[r].from.node, t) + down * node(net_.runs[r].to.node, t);
      relative -= moved_pa / (net_.air.barometric_pa + here_pa);
    }
    if (parameter.what == Parameter::What::Density) {
      relative -= 1;
    }
    const auto& where = parameter.where;
    if (parameter.what == Parameter::What::Bore &&
        (where.empty() || std::find(where.begin(), where.end(), r) != where.end())) {
      relative -= 2;
    }
    return relative * run.slowest_m_s;
  }

  const Network& net_;
  const Solution& solution_;
};

/// How many members a parameter has that can be moved alone, and the one at `i`.
std::vector<Parameter> membersOf(const Parameter& parameter, const pieces::Pieces& pieces) {
  std::size_t count = 1;
  switch (parameter.what) {
    case Parameter::What::Group:
      count = parameter.group == pieces::Group::Leakage ? 0 : pieces.runs.size();
      break;
    case Parameter::What::Opening:
      count = pieces.openings.size();
      break;
    case Parameter::What::Bore:
      count = pieces.runs.size();
      break;
    case Parameter::What::Fan:
      count = pieces.fans.size();
      break;
    case Parameter::What::Junction:
      count = pieces.junctions.size();
      break;
    case Parameter::What::Density:
      count = 0;
      break;
  }
  if (count == 0) {
    return {parameter};
  }
  std::vector<Parameter> members;
  forMembers(parameter, count, [&](std::size_t at) {
    Parameter member{parameter.what, parameter.group, {at}, {}};
    if (!parameter.legs.empty()) {
      member.legs.push_back(parameter.legs[members.size()]);
    }
    members.push_back(std::move(member));
  });
  return members;
}

}  // namespace

void moveParameter(Situation& situation, const pieces::Pieces& pieces, const Parameter& parameter,
                   double by) {
  const double factor = std::exp(by);
  switch (parameter.what) {
    case Parameter::What::Group: {
      const auto group = static_cast<std::size_t>(parameter.group);
      if (parameter.where.empty() || parameter.group == pieces::Group::Leakage) {
        situation.group_factor[group] *= factor;
        return;
      }
      if (situation.run_group_factor.empty()) {
        std::array<double, pieces::kGroups> one{};
        one.fill(1);
        situation.run_group_factor.assign(pieces.runs.size(), one);
      }
      for (const std::size_t run : parameter.where) {
        situation.run_group_factor[run][group] *= factor;
      }
      return;
    }
    case Parameter::What::Opening:
      situation.opening_factor.resize(pieces.openings.size(), 1);
      forMembers(parameter, pieces.openings.size(),
                 [&](std::size_t o) { situation.opening_factor[o] *= factor; });
      return;
    case Parameter::What::Bore:
      situation.bore_factor.resize(pieces.runs.size(), 1);
      forMembers(parameter, pieces.runs.size(),
                 [&](std::size_t run) { situation.bore_factor[run] *= factor; });
      return;
    case Parameter::What::Fan:
      situation.fan_factor.resize(pieces.fans.size(), 1);
      forMembers(parameter, pieces.fans.size(),
                 [&](std::size_t fan) { situation.fan_factor[fan] *= factor; });
      return;
    case Parameter::What::Junction:
      situation.junction_extra.resize(pieces.junctions.size(), LegExtra{});
      for (std::size_t i = 0; i < parameter.legs.size(); ++i) {
        LegExtra& extra = situation.junction_extra[parameter.where.empty() ? i : parameter.where[i]];
        for (std::size_t leg = 0; leg < extra.size(); ++leg) {
          extra[leg] += by * parameter.legs[i][leg];
        }
      }
      return;
    case Parameter::What::Density:
      return;
  }
}

struct SensitivitySolver::Standing {
  const Situation* situation;
  const Solution* solution;
  Moves moves;
  Factored factored;
};

SensitivitySolver::SensitivitySolver(const Network& network)
    : network_(&network), data_(std::make_unique<WorkspaceData>(network)) {}
SensitivitySolver::~SensitivitySolver() = default;
SensitivitySolver::SensitivitySolver(SensitivitySolver&&) noexcept = default;
SensitivitySolver& SensitivitySolver::operator=(SensitivitySolver&&) noexcept = default;

bool SensitivitySolver::stand(const Situation& situation, const Solution& solution) {
  standing_.reset();
  WorkspaceData& w = *data_;
  if (solution.outcome != Outcome::Solved || !restore(*network_, situation, solution, w)) {
    return false;
  }
  evaluate(*network_, network_->air, w);
  Factored factored(*network_, w);
  if (factored.usable()) {
    standing_ = std::make_unique<Standing>(
        Standing{&situation, &solution, Moves(*network_, situation, w), std::move(factored)});
  }
  return standing_ != nullptr;
}

Sensitivities SensitivitySolver::byTangent(std::span<const Parameter> parameters,
                                           std::span<const Output> outputs) {
  Sensitivities out(outputs.size(), parameters.size());
  if (!standing_) {
    return out;
  }
  const Outputs read(*network_, *standing_->solution);
  for (std::size_t p = 0; p < parameters.size(); ++p) {
    const Tangent tangent = tangentOf(*network_, parameters[p], standing_->moves, standing_->factored);
    for (std::size_t o = 0; o < outputs.size(); ++o) {
      out.at(o, p) = read.along(outputs[o], parameters[p], tangent);
    }
  }
  return out;
}

std::vector<double> SensitivitySolver::byAdjoint(const Parameter& parameter, const Output& output) {
  const std::vector<Parameter> members = membersOf(parameter, *network_->pieces);
  std::vector<double> out(members.size(), 0.0);
  if (!standing_) {
    return out;
  }
  std::vector<double> adjoint(data_->x.size());
  Outputs(*network_, *standing_->solution).gradient(output, adjoint);
  standing_->factored.solveTransposed(adjoint);
  for (std::size_t m = 0; m < members.size(); ++m) {
    const std::vector<double> column = standing_->moves.slope(members[m], {});
    for (std::size_t i = 0; i < column.size(); ++i) {
      out[m] += adjoint[i] * column[i];
    }
  }
  return out;
}

}  // namespace kerfdraft::network
