// Branches that enter their main too steeply: the air has to turn where it meets the other, and chips hit the
// far wall.
#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

// Over 30 degrees is advised against (AcgihIv, from memory), 45 is the trade's usual compromise, more than 60
// is a tee in all but name (common practice, no source).
constexpr double kDegree_rad = std::numbers::pi / 180;
constexpr double kNote_rad = 45 * kDegree_rad;
constexpr double kCaution_rad = 60 * kDegree_rad;
/// A drawing is no better than this.
constexpr double kSlip_rad = 1 * kDegree_rad;

/// All steep entries into one main, of one grade.
struct Entries {
  std::string main;
  bool grave = false;
  pieces::PieceKey key;
  double steepest_rad = 0;
  double loss_pa = 0;
  double share = 0;
  std::vector<std::string> branches;
  std::vector<std::size_t> runs;
};

std::string branchName(const Evidence& evidence, std::size_t run) {
  const auto ducts = evidence.ductsOfRun(run);
  return ducts.empty() ? evidence.pieces().runs[run].label : ductName(*ducts.back());
}

std::string mainName(const Evidence& evidence, const pieces::Junction& junction) {
  const std::size_t run = junction.legs[junction.nominal_outlet].run;
  const auto ducts = evidence.ductsOfRun(run);
  return ducts.empty() ? evidence.pieces().nodes[junction.node].label : ductName(*ducts.front());
}

std::vector<Entries> steepEntries(const Evidence& evidence) {
  std::vector<Entries> all;
  for (const pieces::Junction& junction : evidence.pieces().junctions) {
    for (std::size_t leg = 0; leg < junction.legs.size(); ++leg) {
      const double angle_rad = junction.angle_rad[leg];
      if (!junction.legs[leg].at_end || leg == junction.nominal_outlet ||
          angle_rad <= kNote_rad + kSlip_rad) {
        continue;
      }
      // A main that bends where a branch joins it is an elbow, no entry.
      if (branchName(evidence, junction.legs[leg].run) == mainName(evidence, junction)) {
        continue;
      }
      const bool grave = angle_rad > kCaution_rad + kSlip_rad;
      const std::string main = mainName(evidence, junction);
      auto entries = std::find_if(all.begin(), all.end(), [&](const Entries& each) {
        return each.main == main && each.grave == grave;
      });
      if (entries == all.end()) {
        all.emplace_back();
        entries = all.end() - 1;
        entries->main = main;
        entries->grave = grave;
        entries->key = evidence.pieces().nodes[junction.node].key;
      }
      entries->steepest_rad = std::max(entries->steepest_rad, angle_rad);
      entries->runs.push_back(junction.legs[leg].run);
      entries->branches.push_back(branchName(evidence, junction.legs[leg].run));
    }
  }
  return all;
}

/// The dearest of these meetings in any state.
void addLoss(const Evidence& evidence, Entries& entries) {
  forEachWay(evidence, [&](const Place& place, const Way& way) {
    const auto path = evidence.path(place.state, place.port);
    for (const std::size_t run : entries.runs) {
      if (std::find(path.begin(), path.end(), run) == path.end()) {
        continue;
      }
      const pieces::PieceKey& node = evidence.pieces().nodes[evidence.pieces().runs[run].to].key;
      for (const SheetRow& row : way.rows) {
        if (row.key == node && shareOf(way, row.loss_pa) > entries.share) {
          entries.share = shareOf(way, row.loss_pa);
          entries.loss_pa = row.loss_pa;
        }
      }
    }
  });
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (Entries& entries : steepEntries(evidence)) {
    addLoss(evidence, entries);
    const double limit_rad = entries.grave ? kCaution_rad : kNote_rad;
    Finding finding;
    finding.key = entries.key;
    finding.label = entries.main;
    finding.severity = entries.grave ? Severity::Caution : Severity::Note;
    finding.figures = {{"angle", entries.steepest_rad, base::Kind::Angle},
                       {"limit", limit_rad, base::Kind::Angle},
                       {"loss", entries.loss_pa, base::Kind::Pressure},
                       {"share", entries.share, base::Kind::Ratio}};
    finding.words = entries.branches;
    finding.limit = Limit{limit_rad, base::Kind::Angle, {}, base::SourceStatus::CommonPractice, {}};
    finding.badness = badnessOf(entries.steepest_rad / limit_rad);
    finding.runs = entries.runs;
    finding.remedies.push_back({"slant-entry", {}, entries.branches, {}, {}, {}});
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string branches = listed(finding.words);
  const std::string angle = voice.show(finding.figure("angle"));
  const bool many = finding.words.size() > 1;
  const std::string verb = many ? "enter" : "enters";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} {} {} at {}{}. 30° is good, 45° will do: steeper, the air loses force and chips hit the "
          "far wall.",
          branches, verb, finding.label, many ? "up to " : "", angle);
    case Reader::Adviser:
      return fmt::format(
          "{} {} {} at {}{} (30° advised, 45° usual); the dearest entry loses {}, {} of all its way loses.",
          branches, verb, finding.label, many ? "up to " : "", angle, voice.show(finding.figure("loss")),
          voice.percent(finding.figure("share").value));
    case Reader::Inspector:
      return fmt::format("{}: entry of {} at {}{}; 30° is advised.", finding.label, branches,
                         many ? "up to " : "", angle);
  }
  return {};
}

}  // namespace

const Rule kSteepEntry{"steep-entry", Topic::Pressure, "Branch enters too steeply", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
