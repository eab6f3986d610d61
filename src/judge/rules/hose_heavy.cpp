// Hose that takes more than a quarter of what a port's way loses: the cheapest metre to take out.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/hose_support.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

using pieces::Role;

/// Of the way's loss (ours).
constexpr double kMostShare = 0.25;

bool isHose(const SheetRow& row) {
  return row.key.role == Role::Hose || row.key.role == Role::HoseBend;
}

/// Loss and length of a duct's hose on a way.
struct HoseLoss {
  double loss_pa = 0;
  double length_m = 0;
  double bore_m = 0;
  pieces::PieceKey key;
  std::vector<std::size_t> runs;
};

HoseLoss hoseLoss(const Evidence& evidence, const Way& way, const shop::Duct& duct) {
  HoseLoss out;
  for (const SheetRow& row : way.rows) {
    if (!isHose(row) || ductOfPiece(evidence, row.key) != &duct) {
      continue;
    }
    if (out.bore_m == 0) {
      out.key = row.key;
      out.bore_m = row.bore_m;
    }
    out.loss_pa += row.loss_pa;
    out.length_m += row.length_m;
    const auto run = runOfLabel(evidence, row.run);
    if (run && std::find(out.runs.begin(), out.runs.end(), *run) == out.runs.end()) {
      out.runs.push_back(*run);
    }
  }
  return out;
}

Finding findingOf(const Evidence& evidence, const Place& place, const Way& way, const shop::Duct& duct,
                  const HoseLoss& hose) {
  const double share = shareOf(way, hose.loss_pa);
  Finding finding;
  finding.key = hose.key;
  finding.label = ductName(duct);
  finding.state = place.state;
  finding.severity = std::max(Severity::Caution, severityAt(evidence, place.state, place.port));
  finding.figures = {{"loss", hose.loss_pa, base::Kind::Pressure},
                     {"way", way.lost_pa, base::Kind::Pressure},
                     {"share", share, base::Kind::Ratio},
                     {"length", hose.length_m, base::Kind::Length},
                     {"bore", hose.bore_m, base::Kind::Bore}};
  finding.words = {evidence.pieces().ports[place.port].label};
  finding.limit = Limit{kMostShare, base::Kind::Ratio, {}, base::SourceStatus::Ours, {}};
  finding.badness = shareBadness(share, kMostShare);
  finding.runs = hose.runs;
  finding.ports = {place.port};
  for (const DrawnHose& each : hosesOf(duct)) {
    if (auto shorter = shorterHose(each)) {
      finding.remedies.push_back(std::move(*shorter));
    }
  }
  if (auto tight = tightHose(duct)) {
    finding.remedies.push_back(std::move(*tight));
  }
  return finding;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const std::size_t first = out.size();
  forEachWay(evidence, [&](const Place& place, const Way& way) {
    if (!anyCollectorRuns(evidence, place.state)) {
      return;
    }
    for (const shop::Duct& duct : evidence.project().ducts) {
      const HoseLoss hose = hoseLoss(evidence, way, duct);
      if (!(shareOf(way, hose.loss_pa) > kMostShare)) {
        continue;
      }
      Finding finding = findingOf(evidence, place, way, duct, hose);
      const auto known = std::find_if(
          out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
          [&](const Finding& each) { return each.label == finding.label && each.state == finding.state; });
      if (known == out.end()) {
        out.push_back(std::move(finding));
      } else if (worse(finding.severity, finding.badness, known->severity, known->badness)) {
        *known = std::move(finding);
      }
    }
  });
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string length = voice.show(finding.figure("length"));
  const std::string share = voice.percent(finding.figure("share").value);
  const std::string& port = finding.words[0];
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} of hose in {} takes {} of the suction for {}.", length, finding.label, share,
                         port);
    case Reader::Adviser:
      return fmt::format("{}: {} of {} hose loses {} of the {} on the way of {} ({}; over {} is much).",
                         finding.label, length, voice.show(finding.figure("bore")),
                         voice.show(finding.figure("loss")), voice.show(finding.figure("way")), port, share,
                         voice.percent(kMostShare));
    case Reader::Inspector:
      return fmt::format("{}: {} of flexible duct, {} of the pressure lost on the way of {}.", finding.label,
                         length, share, port);
  }
  return {};
}

}  // namespace

const Rule kHoseHeavy{"hose-heavy", Topic::Pressure, "Hose takes much of the suction", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
