// What the rules about fans, filters and bins share: where a fan's data stand, which ports draw on it, which
// pieces are its filter, how much each port still lacks. Private to judge/rules.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/row_view.h"
#include "judge/evidence.h"
#include "judge/rule.h"

namespace kerfdraft::judge {

/// What was entered of a fan: of a collector, or of a machine's own blower.
struct FanEntry {
  const shop::FanRating* rating = nullptr;
  const shop::Motor* motor = nullptr;
  const shop::Collector* collector = nullptr;  ///< null for a blower
};

/// Nothing for a fan that no collector or machine of the project has.
std::optional<FanEntry> enteredFan(const Evidence& evidence, std::size_t fan);

/// Density of the air in a fan's inlet as solved; of the room where it stands still.
double inletDensity(const Evidence& evidence, const network::FanResult& result);

/// The first collector on the way of a port's air; nothing where it comes to none.
std::optional<std::size_t> collectorFan(const Evidence& evidence, std::size_t state, std::size_t port);

/// Open ports whose air comes to this fan first, in the order of the ports.
std::vector<std::size_t> portsOn(const Evidence& evidence, std::size_t state, std::size_t fan);

/// A requirement of a port that is not met, or the part of its machine's that falls to it.
struct Lack {
  std::size_t port = 0;
  double now_m3_s = 0;
  double needed_m3_s = 0;
  bool floor = true;  ///< false: only the target is missed
  bool sure = true;   ///< the upper end of the prediction is below as well
};

/// Lacks of a state in the order of the ports. A port from which air blows or where none moves is left out:
/// its flow cannot be scaled.
std::vector<Lack> lacks(const Evidence& evidence, std::size_t state);

/// What a port or machine must get to count as served: its floor, else nine tenths of its target.
std::optional<double> servedFrom(const FlowMargin& margin);

/// Where one filter stands in the network.
struct FilterSpot {
  std::size_t run = 0;
  std::size_t piece = 0;
};
std::optional<FilterSpot> filterSpot(const pieces::Pieces& drawing, base::Id filter);

/// Actual flow through a filter and the pressure across it as a gauge shows it, without sign; nothing where
/// the piece is not there.
struct FilterAir {
  double flow_m3_s = 0;
  double drop_pa = 0;
};
std::optional<FilterAir> filterAir(const pieces::Pieces& drawing, const network::Solution& solution,
                                   base::Id filter);

/// Whether air behind this fan comes out in a room, as drawn.
bool returnsToRoom(const pieces::Pieces& drawing, std::size_t fan);

/// Index of a collector's fan in Pieces::fans.
std::optional<std::size_t> fanOf(const pieces::Pieces& drawing, base::Id collector);

/// What a finding is held against, from a row of the catalogue; "no source" is an empty source.
Limit limitOf(const catalogue::Origin& origin, double value, base::Kind kind, std::string policy = {});

/// "A", "A and B", "A, B and C".
std::string listed(const std::vector<std::string>& words);
/// Names by their printed labels: "T2 …" before "T10 …". What a sentence lists must not hang on the file's
/// order.
void sortByLabel(std::vector<std::string>& names);
/// The words of a finding from the one of this index on, listed.
std::string listedFrom(const Finding& finding, std::size_t first);

/// A text in which a unit's own full stop ends the sentence too: "7.4 in w.g." is not followed by another.
std::string oneStop(std::string text);
/// A rule's tell() with its stops put right.
template <std::string (*Tell)(const Finding&, const Voice&)>
std::string tidied(const Finding& finding, const Voice& voice) {
  return oneStop(Tell(finding, voice));
}

/// Whether the people in the shop are employed or taught there.
bool answersForOthers(const shop::Project& project);

/// Of a collector the label on the plan, else its name; of a blower what the network calls it.
std::string fanLabel(const Evidence& evidence, std::size_t fan);

/// A finding about a fan, as far as all of them are alike.
Finding aboutFan(const Evidence& evidence, std::size_t fan);

/// Distance of a ratio from 1, as a finding's badness; never more than ten.
double badnessOf(double ratio);

}  // namespace kerfdraft::judge
