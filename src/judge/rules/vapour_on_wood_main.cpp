// Vapour of finishing on a collector: its motor, its wheel and the charge of flowing dust can light it, and
// the dust burns with it. Severe with or without wood on the same ducts. One finding for the project.
#include <fmt/format.h>

#include "judge/rules/foreign_throws.h"
#include "judge/rules/people_rules.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const Foreign foreign = foreignOnDucts(evidence, shop::Throws::Vapour, false);
  if (foreign.machines.empty()) {
    return;
  }
  Finding finding = foreignFinding(evidence, foreign);
  finding.severity = Severity::Severe;
  finding.limit = Limit{0,
                        base::Kind::Ratio,
                        "Nfpa33: finishing with flammable materials",
                        base::SourceStatus::FromMemory,
                        {},
                        "flammable vapour has a room and a fan of its own"};
  finding.remedies = {{"own-vapour-fan", {}, {foreignNames(finding)}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string wood = woodNames(finding);
  const std::string shared = wood.empty() ? std::string() : fmt::format(" that also serves {}", wood);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Fire: vapour of {} is drawn through a dust collector{}. The fan, its motor or a static spark can "
          "light it, and dust burns with it.",
          foreignNames(finding), shared);
    case Reader::Adviser:
      return fmt::format(
          "{} gives off flammable vapour into a collector{}: wheel and motor are no equipment for vapour, "
          "and "
          "flowing dust charges. Not a matter of flow.",
          foreignNames(finding), shared);
    case Reader::Inspector:
      return fmt::format("{}: flammable vapour into dust exhaust{}. Not met.", foreignNames(finding), shared);
  }
  return {};
}

}  // namespace

const Rule kVapourOnWoodMain{"vapour-on-wood-main", Topic::People, "Vapour drawn through a dust collector",
                             &look, &tell};

}  // namespace kerfdraft::judge
