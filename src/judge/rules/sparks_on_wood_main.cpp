// A grinder, a welder or a metal saw on ducts that carry wood: one spark travels to the bin and the filter,
// where there is fuel and air enough. One finding for the project.
#include <fmt/format.h>

#include "judge/rules/foreign_throws.h"
#include "judge/rules/people_rules.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const Foreign foreign = foreignOnDucts(evidence, shop::Throws::Sparks, true);
  if (foreign.machines.empty()) {
    return;
  }
  Finding finding = foreignFinding(evidence, foreign);
  finding.severity = foreign.sanders.empty() ? Severity::Serious : Severity::Severe;
  finding.limit = Limit{0,
                        base::Kind::Ratio,
                        "UfcIndustrialVentilation: 7-2; 7-5 b",
                        base::SourceStatus::Published,
                        {},
                        "no source of sparks on exhaust of wood"};
  finding.remedies = {{"own-collector", {}, {foreignNames(finding)}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool sanding = finding.figure("sanders").value > 0;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Fire: sparks of {} go into the same ducts as the wood of {}. A spark that lands in the bin or the "
          "filter can smoulder for hours before it flames{}.",
          foreignNames(finding), woodNames(finding),
          sanding ? ", and in a cloud of sanding dust it can explode" : "");
    case Reader::Adviser:
      return fmt::format("{} throws sparks into ducts that also serve {}{}. No flow makes that safe.",
                         foreignNames(finding), woodNames(finding), sanding ? ", among them sanders" : "");
    case Reader::Inspector:
      return fmt::format("{}: source of sparks on a system that carries wood of {}. Not met.",
                         foreignNames(finding), woodNames(finding));
  }
  return {};
}

}  // namespace

const Rule kSparksOnWoodMain{"sparks-on-wood-main", Topic::People, "Sparks in ducts that carry wood", &look,
                             &tell};

}  // namespace kerfdraft::judge
