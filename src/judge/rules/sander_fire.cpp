// Dust of sanding in the ducts: raised in a cloud it can explode, and it lights more easily than chips. One
// finding for the project.
#include <fmt/format.h>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  std::vector<base::Id> sanders;
  std::vector<std::string> units;
  for (const DuctSystem& system : ductSystems(evidence)) {
    const std::vector<base::Id> here = sandersOn(evidence, system);
    sanders.insert(sanders.end(), here.begin(), here.end());
    for (const std::size_t fan : here.empty() ? std::vector<std::size_t>{} : system.fans) {
      units.push_back(fanName(evidence.pieces(), fan));
    }
  }
  if (sanders.empty()) {
    return;
  }
  Finding finding;
  finding.key = {pieces::Role::Body, sanders.front(), {}};
  const std::vector<std::string> names = machineNames(evidence, sanders);
  finding.label = listed(names);
  finding.words = {listed(units)};
  if (const auto policy = policyTaken(evidence, "explosible-size"); policy && policy->size_m) {
    finding.figures = {{"size", *policy->size_m, base::Kind::Length}};
    finding.limit = limitOf(policy->origin, *policy->size_m, base::Kind::Length, policyName(*policy));
    finding.limit->words =
        fmt::format("{:.0f} µm, below which wood dust counts as explosible", *policy->size_m * 1e6);
  }
  finding.severity = Severity::Caution;
  finding.badness = 1;
  finding.defers = true;
  finding.remedies = {{"empty-outdoors", {}, units, {}, {}, {}},
                      {"ask-fire-authority", {}, units, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const Figure* size = finding.findFigure("size");
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Fire: dust of {} goes into {}. Raised in a cloud it can explode, and in a heap it smoulders. Keep "
          "sparks, metal and finishing vapour away from it.",
          finding.label, finding.words[0]);
    case Reader::Adviser:
      return fmt::format(
          "Dust of {} in {}: to be taken as explosible{}. Isolation, venting and place of the collector are "
          "for "
          "those who are licensed to judge them.",
          finding.label, finding.words[0],
          size == nullptr ? std::string()
                          : fmt::format("; sanding dust lies far below {:.0f} µm", size->value * 1e6));
    case Reader::Inspector:
      return fmt::format(
          "{}: explosible dust is conveyed to {}. Protection against fire and explosion: cannot conclude "
          "from "
          "flows.",
          finding.label, finding.words[0]);
  }
  return {};
}

}  // namespace

const Rule kSanderFire{"sander-fire", Topic::People, "Sanding dust can explode", &look, &tell};

}  // namespace kerfdraft::judge
