// A collector to which no duct comes. Where it runs its state has no solution and another rule says so; where
// it stands in every state nothing else would mention it.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

bool ductComes(const shop::Project& project, base::Id collector) {
  return std::any_of(project.ducts.begin(), project.ducts.end(), [&](const shop::Duct& duct) {
    const auto* inlet = std::get_if<shop::CollectorInlet>(&duct.to);
    return inlet != nullptr && inlet->collector == collector;
  });
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const bool all_unsolved = std::none_of(evidence.assessment.states.begin(), evidence.assessment.states.end(),
                                         [](const StateResult& state) { return state.solution.solved(); });
  if (all_unsolved) {
    return;
  }
  for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
    const shop::Collector* collector = evidence.collector(evidence.pieces().fans[f].id);
    if (collector == nullptr || ductComes(evidence.project(), collector->id)) {
      continue;
    }
    Finding finding = aboutFan(evidence, f);
    finding.severity = Severity::Note;
    finding.badness = 1;
    finding.remedies = {{"join-collector", {}, {finding.label}, {}, {}, {}}};
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  return voice.reader() == Reader::Inspector
             ? fmt::format("{}: not connected to any duct; not part of this verdict.", finding.label)
             : fmt::format("No duct comes to {}: it takes no air from any machine.", finding.label);
}

}  // namespace

const Rule kLooseCollector{"loose-collector", Topic::Collector, "Collector without a duct", &look,
                           &tidied<tell>};

}  // namespace kerfdraft::judge
