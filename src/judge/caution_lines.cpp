// Looks with the rules about rooms and people alone, at a shop that is solved already.
#include "judge/caution_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "judge/evidence.h"
#include "judge/rules/people_rules.h"
#include "judge/speech.h"

namespace kerfdraft::judge {

namespace {

/// Told even where they are no more than a note.
constexpr std::array<std::string_view, 5> kAlways = {"flue-gas", "room-suction", "sander-fire",
                                                     "returned-air", "employees"};
/// What to do at once; the rest of the remedies is the verdict's to tell.
constexpr std::size_t kMostRemedies = 3;

bool told(const Finding& finding, const std::vector<std::size_t>& states) {
  if (finding.severity <= Severity::Serious) {
    return true;
  }
  const bool always = std::find(kAlways.begin(), kAlways.end(), finding.rule) != kAlways.end();
  return always &&
         (!finding.state || std::find(states.begin(), states.end(), *finding.state) != states.end());
}

std::string line(const Finding& finding, const Voice& voice) {
  const Said said = say(finding, voice);
  std::string out = said.what;
  if (!finding.state_name.empty()) {
    out += fmt::format(" It is most in state \"{}\".", finding.state_name);
  }
  const std::size_t remedies = finding.severity <= Severity::Serious || finding.rule == "flue-gas"
                                   ? std::min(said.remedies.size(), kMostRemedies)
                                   : 0;
  for (std::size_t r = 0; r < remedies; ++r) {
    out += ' ' + said.remedies[r];
  }
  return out;
}

}  // namespace

base::Result<std::vector<std::string>> cautionLines(const Assessment& assessment,
                                                    const catalogue::Catalogue& catalogue,
                                                    const std::vector<std::size_t>& states,
                                                    base::UnitSystem units) {
  auto needs = TransportNeeds::of(*assessment.project, assessment.pieces->air.pressure_pa, catalogue);
  if (!needs) {
    return base::Failure(needs.error());
  }
  // These rules look at rooms, fans and what was drawn: no margins, sheets or trials are gathered for them.
  const Evidence evidence{assessment, catalogue, {}, {}, {}, {}, {}, {}, {}, std::move(*needs)};
  std::vector<Finding> findings;
  for (const Rule* rule : peopleRules()) {
    const std::size_t first = findings.size();
    rule->look(evidence, findings);
    for (std::size_t f = first; f < findings.size(); ++f) {
      findings[f].rule = std::string(rule->key);
      if (findings[f].state && assessment.states[*findings[f].state].declared) {
        findings[f].state_name = assessment.states[*findings[f].state].name;
      }
    }
  }
  std::erase_if(findings, [&](const Finding& finding) { return !told(finding, states); });
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
  const Voice voice(Reader::Owner, units);
  std::vector<std::string> lines;
  lines.reserve(findings.size());
  for (const Finding& finding : findings) {
    lines.push_back(line(finding, voice));
  }
  return lines;
}

}  // namespace kerfdraft::judge
