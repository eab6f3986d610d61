// Plain numbers: what every open port gets against what it asks, and how fast the slowest air is in every run
// that carries chips against what these chips need. Findings are made from them elsewhere.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "judge/assessment.h"

namespace kerfdraft::judge {

/// At least this share of a target counts as met.
inline constexpr double kTargetShare = 0.9;

enum class Served {
  Shut,  ///< not open in this state
  NothingAsked,
  Short,      ///< below the floor, or below 90 % of the target where no floor is given
  FloorMet,   ///< the floor is met, the target is not or is not given
  TargetMet,  ///< 90 % of the target or more, and the floor
};

std::string_view toText(Served served);

/// A port, or a machine whose ports share one requirement.
struct FlowMargin {
  shop::PortRef ref;                ///< the port is not valid for a whole machine
  std::optional<std::size_t> port;  ///< index in Pieces::ports, for a port
  std::string label;
  bool open = false;
  double flow_m3_s = 0;  ///< at room density; negative where it blows
  std::optional<double> floor_m3_s;
  std::optional<double> target_m3_s;
  Served served = Served::NothingAsked;
  /// False where the port is open, has a floor and does not reach it.
  bool reached() const { return !(open && floor_m3_s && flow_m3_s < *floor_m3_s); }
};

/// Air through the gaps of a machine's body: what holds dust that the port does not see.
struct BodyMargin {
  base::Id machine;
  std::string label;
  double indraught_m_s = 0;  ///< flow through the gaps over their area; negative where dust is blown out
};

/// A run in which chips travel, against the speed that these chips need.
struct RunMargin {
  std::size_t run = 0;
  std::string label;
  bool main = false;       ///< behind a junction
  std::string material;    ///< the most demanding one that travels here: key of transport_rules
  std::string source;      ///< of the minimum
  double slowest_m_s = 0;  ///< in its ducts and hoses
  double minimum_m_s = 0;  ///< at the density of the day
  double ratio = 0;        ///< slowest over minimum
  double advised_m_s = 0;  ///< by the working rule, for a branch or a main
  double caution_below_m_s = 0;
  double not_carried_below_m_s = 0;
  double high_above_m_s = 0;
};

struct StateMargins {
  std::size_t state = 0;
  bool solved = false;
  bool served = false;               ///< solved, and every open port and machine with a floor reaches it
  std::vector<FlowMargin> ports;     ///< by Pieces::ports
  std::vector<FlowMargin> machines;  ///< those with a requirement for the whole machine
  std::vector<BodyMargin> bodies;
  std::vector<RunMargin> runs;  ///< only those where chips travel in this state
};

/// Margins of every state, in the order of the states. Errors: a material or machine kind that is not in the
/// catalogue; a policy for "transport-velocity" that names an authority that is not in it.
base::Result<std::vector<StateMargins>> margins(const Assessment& assessment,
                                                const catalogue::Catalogue& catalogue);

/// Whether a port is open in a state: drawn air can go from it to a fan, or
/// from a machine's blower to free air, past gates that are not shut.
bool isOpen(const pieces::Pieces& drawing, const network::Situation& situation, std::size_t port);

}  // namespace kerfdraft::judge
