// The examples as tests see them: read, built into pieces, compiled, and solved state by state, with look-ups
// by printed label.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "network/solve.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::examples {

/// File names of all examples, without folder, in the order of the alphabet.
std::vector<std::string> exampleNames();

/// The bytes of an example's file.
std::string exampleText(const std::string& name);

/// The project of an example; a failed test and an empty project where it cannot be read.
shop::Project exampleProject(const std::string& name);

/// A project ready to be solved.
class Shop {
 public:
  explicit Shop(shop::Project project);

  const shop::Project& project() const { return project_; }
  const pieces::Pieces& pieces() const { return *pieces_; }
  const network::Network& network() const { return *network_; }

  const shop::State& state(std::string_view name) const;
  network::Situation situation(std::string_view state) const;
  network::Solution solve(std::string_view state) const;

  /// Flow into a machine, all its ports together, at room density [m3/s].
  double machineFlow(const network::Solution& solution, std::string_view machine) const;
  /// The last run of a duct: the one that ends at the duct's last corner.
  std::size_t lastRun(std::string_view duct) const;
  /// The run that begins at the duct's start.
  std::size_t firstRun(std::string_view duct) const;
  std::size_t fan(std::string_view label) const;
  /// Flow at the end of a run, at room density [m3/s], positive in the drawn direction.
  double flow(const network::Solution& solution, std::size_t run) const;
  /// The runs of a duct in the order of the air.
  std::vector<std::size_t> runsOf(std::string_view duct) const;

 private:
  shop::Project project_;
  std::shared_ptr<const pieces::Pieces> pieces_;
  std::shared_ptr<const network::Network> network_;
};

/// An example without joint leakage and gate slots, with a fan so strong that any flow can be set by the
/// filter alone: what a path loses at a flow, whatever the fan.
class PathAtFlow {
 public:
  PathAtFlow(const std::string& example, std::string state);

  const Shop& shop() const { return shop_; }
  /// The state in which `flow_m3_s` (at room density) reaches the collector.
  network::Solution at(double flow_m3_s) const;
  /// The same with the filter as entered.
  double filterLoss(const network::Solution& solution) const;

 private:
  Shop shop_;
  std::string state_;
};

inline constexpr double kInchWater_pa = 249.08891;
inline constexpr double kCfm_m3_s = 0.3048 * 0.3048 * 0.3048 / 60;
inline constexpr double kFpm_m_s = 0.3048 / 60;
inline constexpr double kM3h_m3_s = 1.0 / 3600;

}  // namespace kerfdraft::examples
