// A fast branch starving its neighbour: where two ducts meet, the air of the one holds the other's back or
// drives it backward.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// The rival is so much faster, and the meeting takes so large a share of what the port's way loses (ours).
constexpr double kFaster = 1.25;
constexpr double kMostShare = 0.2;

struct Rival {
  std::size_t run = 0;   ///< the fast leg
  std::size_t own = 0;   ///< the leg that suffers
  std::size_t main = 0;  ///< where both go on
  double rival_m_s = 0;
  double own_m_s = 0;
  double loss_pa = 0;
  double share = 0;
};

double endSpeed(const network::RunResult& run) {
  return run.pieces.empty() ? 0 : run.pieces.back().speed_m_s;
}

/// The fastest other inlet of the junction at which a run of this way ends.
std::optional<Rival> rivalAt(const Evidence& evidence, std::size_t state, const pieces::Junction& junction,
                             std::size_t own) {
  const network::Solution& solution = evidence.state(state).solution;
  std::optional<Rival> fastest;
  for (const pieces::JunctionLeg& leg : junction.legs) {
    if (!leg.at_end || leg.run == own) {
      continue;
    }
    const double speed_m_s = endSpeed(solution.runs[leg.run]);
    if (speed_m_s > 0 && (!fastest || speed_m_s > fastest->rival_m_s)) {
      fastest = Rival{leg.run, own, 0, speed_m_s, endSpeed(solution.runs[own]), 0, 0};
    }
  }
  if (fastest) {
    fastest->main = junction.legs[junction.nominal_outlet].run;
    fastest->loss_pa = solution.runs[own].total_end_pa - solution.runs[fastest->main].total_start_pa;
  }
  return fastest;
}

/// The meeting that holds a port's air back most.
std::optional<Rival> worstRival(const Evidence& evidence, const Place& place, const std::optional<Way>& way) {
  std::optional<Rival> worst;
  const bool backward = evidence.state(place.state).solution.ports[place.port].flow_m3_s < 0;
  for (const std::size_t run : evidence.path(place.state, place.port)) {
    for (const pieces::Junction& junction : evidence.pieces().junctions) {
      if (junction.node != evidence.pieces().runs[run].to) {
        continue;
      }
      auto rival = rivalAt(evidence, place.state, junction, run);
      if (!rival) {
        continue;
      }
      rival->share = way ? shareOf(*way, rival->loss_pa) : 0;
      const bool holds = rival->rival_m_s > kFaster * std::abs(rival->own_m_s) && rival->share > kMostShare;
      const bool drives = backward && rival->own_m_s < 0;
      if ((holds || drives) && (!worst || rival->share > worst->share)) {
        worst = rival;
      }
    }
  }
  return worst;
}

/// The open port whose air comes through the fast leg, the one with most first.
std::optional<std::size_t> portThrough(const Evidence& evidence, std::size_t state, std::size_t run) {
  std::optional<std::size_t> most;
  const auto& air = evidence.state(state).solution.ports;
  for (std::size_t p = 0; p < air.size(); ++p) {
    const auto path = evidence.path(state, p);
    if (std::find(path.begin(), path.end(), run) != path.end() &&
        (!most || air[p].flow_m3_s > air[*most].flow_m3_s)) {
      most = p;
    }
  }
  return most;
}

/// The duct behind the meeting one size wider: what both ask of it costs less there.
std::optional<Remedy> widerMain(const Evidence& evidence, std::size_t run) {
  for (const pieces::Piece& piece : evidence.pieces().runs[run].pieces) {
    const shop::Duct* duct = ductOfPiece(evidence, piece.key);
    if (piece.key.role != pieces::Role::Straight || duct == nullptr) {
      continue;
    }
    for (std::size_t i = 0; i + 1 < duct->corners.size(); ++i) {
      const auto& leg = duct->corners[legGivenAt(*duct, i)].leg;
      if (!leg || std::abs(leg->bore.si() - piece.bore_m) > 1e-6) {
        continue;
      }
      const auto sizes = soldAbove(evidence, piece.bore_m, isPlastic(evidence, *leg), 1);
      if (sizes.empty()) {
        return std::nullopt;
      }
      return Remedy{"bigger-duct",
                    {{"bore", sizes[0], base::Kind::Bore}},
                    {ductName(*duct) + " behind the meeting"},
                    Change{ChangeKind::LegBore, duct->id, duct->corners[i].id, sizes[0], false},
                    {},
                    {}};
    }
  }
  return std::nullopt;
}

void lookAt(const Evidence& evidence, const Place& place, std::vector<Finding>& out) {
  const double flow_m3_s = evidence.state(place.state).solution.ports[place.port].flow_m3_s;
  const auto need = portNeed(evidence, place.state, place.port);
  const bool backward = flow_m3_s < 0 && anyCollectorRuns(evidence, place.state);
  if (!backward && (!need || !need->missed)) {
    return;
  }
  const auto rival = worstRival(evidence, place, wayOf(evidence, place.state, place.port));
  if (!rival) {
    return;
  }
  const pieces::PortPlace& port = evidence.pieces().ports[place.port];
  const auto through = portThrough(evidence, place.state, rival->run);
  Finding finding;
  finding.key = evidence.pieces().runs[rival->own].key;
  finding.label = port.label;
  finding.state = place.state;
  finding.severity = need ? severityOf(evidence, place.state, *need) : Severity::Caution;
  finding.figures = {{"speed", rival->own_m_s, base::Kind::Speed},
                     {"rival", rival->rival_m_s, base::Kind::Speed},
                     {"loss", rival->loss_pa, base::Kind::Pressure},
                     {"share", rival->share, base::Kind::Ratio},
                     {"flow", flow_m3_s, base::Kind::VolumeFlow}};
  finding.words = {through ? evidence.machineName(evidence.pieces().ports[*through].ref.machine)
                           : evidence.pieces().runs[rival->run].label,
                   evidence.pieces().nodes[evidence.pieces().runs[rival->own].to].label,
                   backward ? "backward" : "held back"};
  finding.limit = Limit{kMostShare, base::Kind::Ratio, {}, base::SourceStatus::Ours, {}};
  finding.badness =
      backward ? shareBadness(2 + rival->share, kMostShare) : shareBadness(rival->share, kMostShare);
  finding.runs = {rival->own};
  finding.ports = {place.port};
  if (through) {
    if (auto shut = shutOther(evidence, place.state, *through, place.port)) {
      finding.remedies.push_back(std::move(*shut));
    }
  }
  if (auto wider = widerMain(evidence, rival->main)) {
    finding.remedies.push_back(std::move(*wider));
  }
  out.push_back(std::move(finding));
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.sheets.size(); ++s) {
    for (std::size_t p = 0; p < evidence.sheets[s].size(); ++p) {
      if (evidence.sheets[s][p]) {
        lookAt(evidence, {s, p}, out);
      }
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool backward = finding.words[2] == "backward";
  const std::string rival = voice.show(finding.figure("rival"));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("Where their ducts meet, the faster air of {} {} {}.", finding.words[0],
                         backward ? "blows back out of" : "holds back the air of", finding.label);
    case Reader::Adviser:
      return fmt::format(
          "At the {} the air of {} comes in at {}, that of {} at {}; the meeting costs the latter {}{}.",
          finding.words[1], finding.words[0], rival, finding.label, voice.show(finding.figure("speed")),
          voice.show(finding.figure("loss")),
          backward ? " and turns it round"
                   : fmt::format(", {} of all its way loses", voice.percent(finding.figure("share").value)));
    case Reader::Inspector:
      return fmt::format("{}: flow {} at the {} by the branch of {}.", finding.label,
                         backward ? "reversed" : "reduced", finding.words[1], finding.words[0]);
  }
  return {};
}

}  // namespace

const Rule kBranchRivalry{"branch-rivalry", Topic::Air, "A faster branch takes its air", &look,
                          &tidied<tell>};

}  // namespace kerfdraft::judge
