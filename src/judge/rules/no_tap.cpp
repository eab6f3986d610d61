// Places where nothing can be measured: collectors without a tap before them, machines without one on their
// drop. One finding for the project.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/filter_bin_rules.h"

namespace kerfdraft::judge {

namespace {

bool tapped(const pieces::Pieces& drawing, std::size_t run) {
  return std::any_of(drawing.taps.begin(), drawing.taps.end(),
                     [&](const pieces::TapPlace& tap) { return tap.run == run; });
}

/// A tap on a run that ends at this node, or before what else stands between a duct and the fan.
bool tappedBefore(const pieces::Pieces& drawing, std::size_t node) {
  for (std::size_t guard = 0; guard <= drawing.runs.size(); ++guard) {
    std::optional<std::size_t> before;
    for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
      if (drawing.runs[r].to != node) {
        continue;
      }
      if (tapped(drawing, r)) {
        return true;
      }
      // The inside of a unit has no bore to drill into; look at the duct before it.
      const bool duct = std::any_of(drawing.runs[r].pieces.begin(), drawing.runs[r].pieces.end(),
                                    [](const pieces::Piece& piece) { return piece.length_m > 0; });
      if (!duct && !before) {
        before = r;
      }
    }
    if (!before || drawing.runs[*before].from == node) {
      return false;
    }
    node = drawing.runs[*before].from;
  }
  return false;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const pieces::Pieces& drawing = evidence.pieces();
  std::vector<std::string> units;
  std::vector<std::string> machines;
  std::vector<base::Id> untapped;
  Finding finding;
  for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
    const pieces::Fan& fan = drawing.fans[f];
    const bool drawn = std::any_of(drawing.runs.begin(), drawing.runs.end(),
                                   [&](const pieces::Run& run) { return run.to == fan.from; });
    if (fan.key.role == pieces::Role::Fan && drawn && !tappedBefore(drawing, fan.from)) {
      finding.key = units.empty() ? fan.key : std::min(finding.key, fan.key);
      units.push_back(fanLabel(evidence, f));
    }
  }
  for (const pieces::PortPlace& port : drawing.ports) {
    if (tapped(drawing, port.run) || drawing.runs[port.run].closed ||
        std::find(untapped.begin(), untapped.end(), port.ref.machine) != untapped.end()) {
      continue;
    }
    if (units.empty()) {
      const pieces::PieceKey key{pieces::Role::Body, port.ref.machine, {}};
      finding.key = untapped.empty() ? key : std::min(finding.key, key);
    }
    untapped.push_back(port.ref.machine);
    machines.push_back(evidence.machineName(port.ref.machine));
  }
  if (units.empty() && machines.empty()) {
    return;
  }
  sortByLabel(units);
  sortByLabel(machines);
  finding.label = units.empty() ? listed(machines) : listed(units);
  finding.figures = {{"units", static_cast<double>(units.size()), base::Kind::Ratio},
                     {"machines", static_cast<double>(machines.size()), base::Kind::Ratio}};
  finding.words = units;
  finding.words.insert(finding.words.end(), machines.begin(), machines.end());
  finding.severity = answersForOthers(evidence.project()) ? Severity::Caution : Severity::Note;
  finding.badness = 1;
  finding.remedies = {{"drill-taps", {}, finding.words, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const auto units = static_cast<std::ptrdiff_t>(finding.figure("units").value);
  const std::string before = listed({finding.words.begin(), finding.words.begin() + units});
  const std::string drops = listedFrom(finding, static_cast<std::size_t>(units));
  std::string where;
  if (!before.empty()) {
    where = "before " + before;
  }
  if (!drops.empty()) {
    where += (where.empty() ? "" : " and ") + ("on the drops of " + drops);
  }
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "There is no hole to measure through {}. Without one nobody can check these numbers or "
          "find a plug.",
          where);
    case Reader::Adviser:
      return fmt::format("No tap {}: flows there stay predictions.", where);
    case Reader::Inspector:
      return fmt::format("No measuring point {}. Cannot conclude there by measurement.", where);
  }
  return {};
}

}  // namespace

const Rule kNoTap{"no-tap", Topic::FilterAndBin, "Nowhere to measure", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
