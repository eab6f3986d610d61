// Whether a point is stable, by the rule of model.md section 6. Dense, for a few fans in small networks.
#include <Eigen/Dense>

#include "network/workspace.h"

namespace kerfdraft::network {

bool isStable(const Network& net, WorkspaceData& w) {
  evaluate(net, net.air, w);
  const auto flows = static_cast<Eigen::Index>(net.flowCount());
  const auto size = static_cast<Eigen::Index>(net.unknownCount());
  // Laws are written as pressure in minus loss minus pressure out, so dR/dQ in the rule's sense is the
  // negative block.
  Eigen::MatrixXd resistance = Eigen::MatrixXd::Zero(flows, flows);
  Eigen::MatrixXd incidence = Eigen::MatrixXd::Zero(size - flows, flows);
  const std::vector<int>& rows = net.elimination.rows();
  const std::vector<int>& columns = net.elimination.columns();
  for (std::size_t a = 0; a < rows.size(); ++a) {
    const Eigen::Index r = rows[a];
    const Eigen::Index c = columns[a];
    if (c < flows && r < flows) {
      resistance(r, c) -= w.values[a];
    } else if (c < flows) {
      incidence(r - flows, c) += w.values[a];
    }
  }
  // Flows that a shut link fixes at zero are no freedom: they are taken out by a row each.
  std::vector<Eigen::Index> shut;
  for (std::size_t r = 0; r < net.runs.size(); ++r) {
    if (w.closed_at[r] != kOpen) {
      shut.push_back(static_cast<Eigen::Index>(r));
    }
  }
  for (std::size_t o = 0; o < net.openings.size(); ++o) {
    if (w.opening_open[o] == 0) {
      shut.push_back(static_cast<Eigen::Index>(net.openingUnknown(o)));
    }
  }
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    const pieces::Fan& fan = net.pieces->fans[f];
    if (w.fan_on[f] == 0 && (fan.non_return || !(fan.stopped_bore_m > 0))) {
      shut.push_back(static_cast<Eigen::Index>(net.fanUnknown(f)));
    }
  }
  Eigen::MatrixXd constraints(incidence.rows() + static_cast<Eigen::Index>(shut.size()), flows);
  constraints.topRows(incidence.rows()) = incidence;
  for (std::size_t i = 0; i < shut.size(); ++i) {
    constraints.row(incidence.rows() + static_cast<Eigen::Index>(i)).setZero();
    constraints(incidence.rows() + static_cast<Eigen::Index>(i), shut[i]) = 1;
  }
  const Eigen::FullPivLU<Eigen::MatrixXd> lu(constraints);
  if (lu.dimensionOfKernel() == 0) {
    return true;
  }
  const Eigen::MatrixXd kernel = lu.kernel();
  const Eigen::MatrixXd basis = Eigen::HouseholderQR<Eigen::MatrixXd>(kernel).householderQ() *
                                Eigen::MatrixXd::Identity(kernel.rows(), kernel.cols());
  const Eigen::MatrixXd reduced = basis.transpose() * resistance * basis;
  return (reduced.eigenvalues().real().array() > 0).all();
}

}  // namespace kerfdraft::network
