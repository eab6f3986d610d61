// Two entries that face each other and are open together: their air collides, and each blows chips into the
// other.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

using Direction = std::array<double, 3>;

/// Entries oppose each other where what they have across the main points against the other within 30 degrees,
/// and a leg counts as the main where it turns by less than 15 (ours; never opposite: AcgihIv, from memory).
constexpr double kAgainst = -0.866;
constexpr double kStraight_rad = 15 * std::numbers::pi / 180;
/// Without a main between them two legs are a Y; only nearly head to head do they collide.
constexpr double kHeadOn_rad = 60 * std::numbers::pi / 180;

double dot(const Direction& a, const Direction& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

std::optional<Direction> between(const shop::Point& from, const shop::Point& to) {
  const double length_m = shop::distance(from, to);
  if (!(length_m > 0)) {
    return std::nullopt;
  }
  const double scale = 1e-6 / length_m;
  return Direction{scale * static_cast<double>(to.x_um - from.x_um),
                   scale * static_cast<double>(to.y_um - from.y_um),
                   scale * static_cast<double>(to.z_um - from.z_um)};
}

/// From a junction outward along a leg; nothing for the short run into a unit.
std::optional<Direction> outward(const Evidence& evidence, const pieces::JunctionLeg& leg) {
  const pieces::PieceKey& run = evidence.pieces().runs[leg.run].key;
  const base::Id corner = leg.at_end ? run.b : run.a;
  const shop::Duct* duct = evidence.ductOfCorner(corner);
  for (std::size_t i = 0; duct != nullptr && i < duct->corners.size(); ++i) {
    if (duct->corners[i].id != corner) {
      continue;
    }
    if (leg.at_end) {
      return i > 0 ? between(duct->corners[i].at, duct->corners[i - 1].at) : std::nullopt;
    }
    return i + 1 < duct->corners.size() ? between(duct->corners[i].at, duct->corners[i + 1].at)
                                        : std::nullopt;
  }
  return std::nullopt;
}

/// A direction less what it has along another, of length one.
std::optional<Direction> across(const Direction& of, const Direction& along) {
  const double part = dot(of, along);
  Direction out{of[0] - part * along[0], of[1] - part * along[1], of[2] - part * along[2]};
  const double length = std::sqrt(dot(out, out));
  if (length < 0.1) {
    return std::nullopt;
  }
  for (double& each : out) {
    each /= length;
  }
  return out;
}

struct Opposed {
  const pieces::Junction* junction = nullptr;
  std::size_t first = 0;  ///< runs
  std::size_t second = 0;
  double angle_rad = 0;  ///< of the steeper to the main
};

bool opposed(const Evidence& evidence, const pieces::Junction& junction, std::size_t a, std::size_t b) {
  const auto first = outward(evidence, junction.legs[a]);
  const auto second = outward(evidence, junction.legs[b]);
  if (!first || !second || junction.angle_rad[a] < kStraight_rad || junction.angle_rad[b] < kStraight_rad) {
    return false;
  }
  bool main = false;
  for (std::size_t leg = 0; leg < junction.legs.size(); ++leg) {
    main = main ||
           (junction.legs[leg].at_end && leg != a && leg != b && junction.angle_rad[leg] < kStraight_rad);
  }
  const auto outlet = outward(evidence, junction.legs[junction.nominal_outlet]);
  if (!outlet || !main) {
    return std::acos(std::clamp(dot(*first, *second), -1.0, 1.0)) > std::numbers::pi - kHeadOn_rad;
  }
  const auto first_across = across(*first, *outlet);
  const auto second_across = across(*second, *outlet);
  return first_across && second_across && dot(*first_across, *second_across) < kAgainst;
}

std::vector<Opposed> opposedPairs(const Evidence& evidence) {
  std::vector<Opposed> out;
  for (const pieces::Junction& junction : evidence.pieces().junctions) {
    for (std::size_t a = 0; a < junction.legs.size(); ++a) {
      for (std::size_t b = a + 1; b < junction.legs.size(); ++b) {
        if (junction.legs[a].at_end && junction.legs[b].at_end && opposed(evidence, junction, a, b)) {
          out.push_back({&junction, junction.legs[a].run, junction.legs[b].run,
                         std::max(junction.angle_rad[a], junction.angle_rad[b])});
        }
      }
    }
  }
  return out;
}

/// Open ports whose air comes through a run.
std::vector<std::size_t> portsThrough(const Evidence& evidence, std::size_t state, std::size_t run) {
  std::vector<std::size_t> out;
  for (std::size_t p = 0; p < evidence.pieces().ports.size(); ++p) {
    const auto path = evidence.path(state, p);
    if (std::find(path.begin(), path.end(), run) != path.end()) {
      out.push_back(p);
    }
  }
  return out;
}

std::string branchName(const Evidence& evidence, std::size_t run) {
  const auto ducts = evidence.ductsOfRun(run);
  return ducts.empty() ? evidence.pieces().runs[run].label : ductName(*ducts.back());
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (const Opposed& pair : opposedPairs(evidence)) {
    for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
      if (!evidence.solved(s) || !anyCollectorRuns(evidence, s)) {
        continue;
      }
      const auto first = portsThrough(evidence, s, pair.first);
      const auto second = portsThrough(evidence, s, pair.second);
      if (first.empty() || second.empty()) {
        continue;
      }
      Finding finding;
      finding.key = evidence.pieces().nodes[pair.junction->node].key;
      finding.label = evidence.pieces().nodes[pair.junction->node].label;
      finding.state = s;
      finding.severity = ofUse(evidence, s) ? Severity::Caution : Severity::Note;
      const auto& runs = evidence.state(s).solution.runs;
      const double density_kg_m3 = evidence.pieces().air.density_kg_m3;
      finding.figures = {{"angle", pair.angle_rad, base::Kind::Angle},
                         {"first", runs[pair.first].flow_end_kg_s / density_kg_m3, base::Kind::VolumeFlow},
                         {"second", runs[pair.second].flow_end_kg_s / density_kg_m3, base::Kind::VolumeFlow}};
      finding.words = {branchName(evidence, pair.first), branchName(evidence, pair.second)};
      finding.badness = 1;
      finding.runs = {pair.first, pair.second};
      finding.ports = first;
      finding.ports.insert(finding.ports.end(), second.begin(), second.end());
      finding.remedies.push_back({"move-entry", {}, {finding.words[1], finding.words[0]}, {}, {}, {}});
      if (auto shut = shutOther(evidence, s, second.front(), first.front())) {
        finding.remedies.push_back(std::move(*shut));
      }
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string& first = finding.words[0];
  const std::string& second = finding.words[1];
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} and {} enter facing each other and are open together: their air collides.",
                         first, second);
    case Reader::Adviser:
      return fmt::format(
          "At the {}: {} with {} and {} with {} enter opposite each other, up to {} to the main. "
          "Tables of branch entries do not hold for this, the true loss is higher.",
          finding.label, first, voice.show(finding.figure("first")), second,
          voice.show(finding.figure("second")), voice.show(finding.figure("angle")));
    case Reader::Inspector:
      return fmt::format("{}: entries of {} and {} oppose each other and are in use together.", finding.label,
                         first, second);
  }
  return {};
}

}  // namespace

const Rule kOpposedEntries{"opposed-entries", Topic::Pressure, "Entries that face each other", &look,
                           &tidied<tell>};

}  // namespace kerfdraft::judge
