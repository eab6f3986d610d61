// Machines that run without the guard of their cutter. Exhaust never stands in for a guard, and a guard with
// exhaust collects best. One finding for the project.
#include <fmt/format.h>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  Finding finding;
  for (const shop::Machine* each : printed(evidence.project().machines)) {
    const shop::Machine& machine = *each;
    if (machine.guard != shop::Guard::Missing) {
      continue;
    }
    if (finding.words.empty()) {
      finding.key = {pieces::Role::Body, machine.id, {}};
    }
    finding.words.push_back(evidence.machineName(machine.id));
  }
  if (finding.words.empty()) {
    return;
  }
  const bool others = answersForOthers(evidence.project());
  finding.label = listed(finding.words);
  finding.severity = others ? Severity::Severe : Severity::Serious;
  finding.badness = 1;
  finding.defers = others;
  finding.limit = Limit{
      0,  base::Kind::Ratio,        "Cfr1910-213: woodworking machinery", base::SourceStatus::FromMemory,
      {}, "a guard over the cutter"};
  finding.remedies = {{"fit-guard", {}, finding.words, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} {} without a guard. Exhaust is no guard: hands come to the cutter, and dust is thrown past the "
          "hood.",
          finding.label, finding.words.size() == 1 ? "runs" : "run");
    case Reader::Adviser:
      return fmt::format(
          "No guard on {}. The figures here hold with the guard that a machine needs to be used at all; a "
          "guard with exhaust of its own is preferred.",
          finding.label);
    case Reader::Inspector:
      return fmt::format("{}: guard not fitted. Not met.", finding.label);
  }
  return {};
}

}  // namespace

const Rule kGuardMissing{"guard-missing", Topic::People, "Guard missing", &look, &tell};

}  // namespace kerfdraft::judge
