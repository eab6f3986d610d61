// The solver's front: topology, Newton, the fixed starts where several solutions may be, and the choice among
// them.
#include "network/solve.h"

#include <algorithm>
#include <cmath>

#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

constexpr int kMostIterations = 80;
constexpr int kHeldIterations = 4;
constexpr double kSamePoint = 1e-6;  // of the flow scale: two starts that end this close found one solution

/// Newton in the network's air; a case that fails or is choked begins again with one density (model.md
/// section 2).
Report solveFrom(const Network& net, WorkspaceData& w, bool from_guess) {
  std::copy(w.x.begin(), w.x.end(), w.best_x.begin());
  Report report = newton(net, net.air, w, kMostIterations);
  if (report.usable() || !net.air.local) {
    return report;
  }
  if (from_guess) {
    std::copy(w.best_x.begin(), w.best_x.end(), w.x.begin());
    std::fill(w.leak.begin(), w.leak.end(), 0.0);
  } else {
    firstGuess(net, w);
  }
  physics::DuctAir uniform = net.air;
  uniform.local = false;
  const int first = report.iterations;
  report = newton(net, uniform, w, kMostIterations);
  if (report.usable()) {
    const int second = report.iterations;
    report = newton(net, net.air, w, kMostIterations);
    report.iterations += first + second;
  }
  return report;
}

double fanFlow(const Network& net, const WorkspaceData& w) {
  double sum = 0;
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    sum += w.fan_on[f] != 0 ? w.x[net.fanUnknown(f)] : 0;
  }
  return sum;
}

bool needsSeveralStarts(const Network& net, const WorkspaceData& w) {
  int running = 0;
  bool rising = false;
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    if (w.fan_on[f] != 0) {
      ++running;
      rising = rising || net.pieces->fans[f].rating->curve.hasRisingPart();
    }
  }
  return running >= 2 || rising;
}

double lastFlow(const Network& net, std::size_t fan) {
  const physics::FanRating& rating = *net.pieces->fans[fan].rating;
  return rating.speed_ratio * rating.curve.lastFlow();
}

/// The fixed starts: flows at which the running fans are held while the rest settles.
std::vector<std::vector<double>> fanStarts(const Network& net, const WorkspaceData& w) {
  const double rho = net.air.room_density_kg_m3;
  std::vector<std::vector<double>> starts;
  std::vector<double> halfway(net.fans.size(), 0);
  std::vector<double> right(net.fans.size(), 0);
  std::vector<double> left(net.fans.size(), 0);
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    if (w.fan_on[f] == 0) {
      continue;
    }
    const physics::FanRating& rating = *net.pieces->fans[f].rating;
    const double peak = rating.speed_ratio * rating.curve.peak().flow_m3_s;
    const double last = lastFlow(net, f);
    halfway[f] = rho * 0.5 * (peak + last);
    right[f] = rho * (peak + 0.1 * (last - peak));
    left[f] = rho * 0.3 * peak;
  }
  starts.push_back(halfway);
  for (std::size_t lead = 0; lead < net.fans.size(); ++lead) {
    if (w.fan_on[lead] == 0) {
      continue;
    }
    std::vector<double> start(net.fans.size(), 0);
    for (std::size_t f = 0; f < net.fans.size(); ++f) {
      if (w.fan_on[f] != 0) {
        start[f] = rho * lastFlow(net, f) * (f == lead ? 0.8 : -0.4);
      }
    }
    starts.push_back(start);
  }
  starts.push_back(right);
  starts.push_back(left);
  return starts;
}

bool samePoint(const Network& net, const std::vector<double>& a, const std::vector<double>& b) {
  for (std::size_t i = 0; i < net.flowCount(); ++i) {
    if (std::abs(a[i] - b[i]) > kSamePoint * net.flow_scale_kg_s) {
      return false;
    }
  }
  return true;
}

bool better(const Found& a, const Found& b) {
  if (a.stable != b.stable) {
    return a.stable;
  }
  if (a.all_forward != b.all_forward) {
    return a.all_forward;
  }
  return a.fan_flow > b.fan_flow;
}

}  // namespace

std::vector<Found> solveFromFixedStarts(const Network& net, WorkspaceData& w) {
  std::vector<Found> found;
  for (const std::vector<double>& start : fanStarts(net, w)) {
    firstGuess(net, w);
    for (std::size_t f = 0; f < net.fans.size(); ++f) {
      w.held_fan[f] = start[f];
      w.x[net.fanUnknown(f)] = start[f];
    }
    w.holding = true;
    newton(net, net.air, w, kHeldIterations);
    w.holding = false;
    const Report report = solveFrom(net, w, true);
    if (!report.usable()) {
      continue;
    }
    const bool known = std::any_of(found.begin(), found.end(),
                                   [&](const Found& other) { return samePoint(net, w.x, other.x); });
    if (known) {
      continue;
    }
    Found point;
    point.x = w.x;
    point.leak = w.leak;
    point.report = report;
    point.fan_flow = fanFlow(net, w);
    for (std::size_t f = 0; f < net.fans.size(); ++f) {
      point.all_forward = point.all_forward && (w.fan_on[f] == 0 || w.x[net.fanUnknown(f)] >= 0);
    }
    point.stable = isStable(net, w);
    found.push_back(std::move(point));
  }
  // Stable sort: ties are left in the order of the fans' starts.
  std::stable_sort(found.begin(), found.end(), better);
  return found;
}

namespace {

Report solvePrepared(const Network& net, WorkspaceData& w, Start start) {
  const Report topology = prepareTopology(net, w);
  if (!topology.usable()) {
    return topology;
  }
  Report report;
  w.several_starts = needsSeveralStarts(net, w);
  if (w.several_starts) {
    const std::vector<Found> found = solveFromFixedStarts(net, w);
    if (!found.empty()) {
      w.x = found.front().x;
      w.leak = found.front().leak;
      evaluate(net, net.air, w);
      report = found.front().report;
    }
  } else {
    if (start == Start::Cold) {
      firstGuess(net, w);
    }
    report = solveFrom(net, w, start == Start::Cold);
    if (!report.usable() && start == Start::Warm) {
      firstGuess(net, w);
      report = solveFrom(net, w, true);
    }
  }
  if (report.usable() && topology.outcome == Outcome::Still) {
    report.outcome = Outcome::Still;
  }
  return report;
}

}  // namespace

Report solve(const Network& network, const Situation& situation, Workspace& workspace, Start start) noexcept {
  WorkspaceData& w = workspace.data();
  std::fill(w.solids.begin(), w.solids.end(), 0.0);
  prepare(network, situation, w);
  return solvePrepared(network, w, start);
}

Report solveLoaded(const Network& network, const Situation& situation, Workspace& workspace, Start start) {
  const Report clean = solve(network, situation, workspace, start);
  const bool dusty =
      std::any_of(situation.solids_kg_s.begin(), situation.solids_kg_s.end(), [](double s) { return s > 0; });
  if (!clean.usable() || !dusty) {
    return clean;
  }
  // The load is that of the clean-air solution and then constant (model.md section 2).
  WorkspaceData& w = workspace.data();
  updateSolids(network, situation, w);
  prepare(network, situation, w);
  return solvePrepared(network, w, Start::Warm);
}

Workspace::Workspace(const Network& network) : data_(std::make_unique<WorkspaceData>(network)) {}

Workspace::~Workspace() = default;
Workspace::Workspace(Workspace&&) noexcept = default;
Workspace& Workspace::operator=(Workspace&&) noexcept = default;

std::span<const double> Workspace::runFlow() const {
  return std::span(data_->x).first(data_->leak.size());
}

std::span<const double> Workspace::runEndFlow() const {
  return data_->flow_end;
}

std::span<const double> Workspace::fanFlow() const {
  return std::span(data_->x).subspan(data_->leak.size(), data_->fan_on.size());
}

std::span<const double> Workspace::openingFlow() const {
  return std::span(data_->x).subspan(data_->leak.size() + data_->fan_on.size(), data_->opening_open.size());
}

std::span<const double> Workspace::nodePressure() const {
  return data_->node_pa;
}

Solution solveFully(const Network& network, const Situation& situation) {
  Workspace workspace(network);
  WorkspaceData& w = workspace.data();
  const Report report = solveLoaded(network, situation, workspace, Start::Cold);
  if (!report.usable() || !w.several_starts) {
    return expand(network, situation, w, report);
  }
  std::vector<Found> found = solveFromFixedStarts(network, w);
  std::vector<Solution> all;
  for (Found& point : found) {
    w.x = point.x;
    w.leak = point.leak;
    evaluate(network, network.air, w);
    Solution s = expand(network, situation, w, point.report);
    s.stable = point.stable;
    all.push_back(std::move(s));
  }
  base::check(!all.empty(), "a solution was found and then lost");
  Solution best = std::move(all.front());
  // Parallel fans hunt where another stable way to share stands beside this one, or none is stable.
  best.fans_hunt = !best.stable ||
                   std::count_if(all.begin() + 1, all.end(), [](const Solution& s) { return s.stable; }) > 0;
  best.others.assign(std::make_move_iterator(all.begin() + 1), std::make_move_iterator(all.end()));
  return best;
}

}  // namespace kerfdraft::network
