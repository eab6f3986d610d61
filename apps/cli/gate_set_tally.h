// What is kept of a stream of gate sets: extremes for each port or machine, and counts by the number of open
// gates. No set is stored, so that a million of them need no memory.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "judge/assessment.h"
#include "judge/margins.h"
#include "network/solve.h"

namespace kerfdraft::cli {

/// The least or most air of a port, and the set in which it has it.
struct Extreme {
  double flow_m3_s = 0;
  std::uint64_t set = 0;
};

/// A port, or a machine whose ports share one figure.
struct AskedTally {
  std::string label;
  std::vector<std::size_t> ports;  ///< indices in Pieces::ports
  std::optional<double> floor_m3_s;
  std::optional<double> target_m3_s;
  std::uint64_t open = 0;  ///< sets in which one of its ports is open
  std::uint64_t floor_met = 0;
  std::uint64_t target_met = 0;
  std::optional<Extreme> least;
  std::optional<Extreme> most;
};

/// Sets with the same number of open gates.
struct CountTally {
  std::uint64_t sets = 0;
  std::uint64_t served = 0;  ///< every open port and machine reaches its floor
  std::uint64_t unsolved = 0;
};

class GateSetTally {
 public:
  GateSetTally(const judge::Assessment& assessment, const network::Situation& situation);

  /// Takes one set; returns whether it was solved and everything open reaches its floor.
  bool take(const network::GateSetResult& set);

  const std::vector<AskedTally>& asked() const { return asked_; }
  const std::vector<CountTally>& counts() const { return counts_; }
  /// Whether the port is open in the set.
  bool open(std::size_t port, std::uint64_t set) const;
  /// Air of the port at room density [m3/s].
  double flow(std::size_t port, const network::GateSetResult& set) const;

 private:
  const pieces::Pieces& pieces_;
  network::Situation situation_;
  std::vector<AskedTally> asked_;
  std::vector<CountTally> counts_;
  std::vector<std::optional<std::uint64_t>> needs_;  ///< by port: gates without which it is shut; nothing
                                                     ///< where ways around exist and every set must be walked
  std::vector<char> never_;                          ///< by port: shut even with every gate open
};

}  // namespace kerfdraft::cli
