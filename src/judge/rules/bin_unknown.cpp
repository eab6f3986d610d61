// A separator whose bin nobody has entered though chips fall into it: when to empty it cannot be said.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/bin_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/filter_bin_rules.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const auto wood = woodTaken(evidence);
  if (!wood) {
    return;
  }
  for (const shop::Collector& collector : evidence.project().collectors) {
    const auto fan = fanOf(evidence.pieces(), collector.id);
    if (!fan || collector.separators.empty() || withBin(collector) != nullptr) {
      continue;
    }
    double loose_m3_s = 0;
    for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
      if (evidence.solved(s)) {
        loose_m3_s = std::max(loose_m3_s, fallingInto(evidence, s, *fan, *wood).loose_m3_s);
      }
    }
    if (!(loose_m3_s > 0)) {
      continue;
    }
    const shop::Separator& separator = collector.separators.front();
    Finding finding;
    finding.key = {pieces::Role::Separator, separator.id, {}};
    finding.label = binLabel(collector, separator);
    finding.figures = {{"loose", loose_m3_s, base::Kind::VolumeFlow}};
    finding.severity = Severity::Note;
    finding.badness = 1;
    finding.remedies = {{"enter-bin", {}, {finding.label}, {}, {}, {}}};
    out.push_back(std::move(finding));
  }
}

/// Litres or gallons in a minute: a bin's measure, not an air flow's.
std::string inAMinute(double loose_m3_s, const Voice& voice) {
  return voice.show(60 * loose_m3_s, base::Kind::Volume) + " of loose chips a minute";
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string loose = inAMinute(finding.figure("loose").value, voice);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("How large the {} is has not been entered. Up to {} fall into it.", finding.label,
                         loose);
    case Reader::Adviser:
      return fmt::format("Volume of the {} not entered; up to {} fall into it while cutting.", finding.label,
                         loose);
    case Reader::Inspector:
      return fmt::format("The {}: volume not recorded. Emptying interval: cannot conclude.", finding.label);
  }
  return {};
}

}  // namespace

const Rule kBinUnknown{"bin-unknown", Topic::FilterAndBin, "Bin of unknown size", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
