// Machines that throw what does not belong into ducts of wood.
#include "judge/rules/foreign_throws.h"

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

Foreign foreignOnDucts(const Evidence& evidence, shop::Throws what, bool with_wood) {
  Foreign out;
  for (const DuctSystem& system : ductSystems(evidence)) {
    std::vector<base::Id> wood;
    std::vector<base::Id> foreign;
    for (const base::Id id : system.machines) {
      const shop::Machine* machine = evidence.machine(id);
      if (machine != nullptr && machine->throws_what == what) {
        foreign.push_back(id);
      } else if (throwsWood(evidence, id)) {
        wood.push_back(id);
      }
    }
    if (foreign.empty() || (with_wood && wood.empty())) {
      continue;
    }
    for (const std::size_t port : system.ports) {
      const base::Id machine = evidence.pieces().ports[port].ref.machine;
      if (std::find(foreign.begin(), foreign.end(), machine) != foreign.end()) {
        out.ports.push_back(port);
      }
    }
    const std::vector<base::Id> sanders = sandersOn(evidence, system);
    out.machines.insert(out.machines.end(), foreign.begin(), foreign.end());
    out.wood.insert(out.wood.end(), wood.begin(), wood.end());
    out.sanders.insert(out.sanders.end(), sanders.begin(), sanders.end());
  }
  return out;
}

Finding foreignFinding(const Evidence& evidence, const Foreign& foreign) {
  Finding finding;
  finding.key = {pieces::Role::Body, foreign.machines.front(), {}};
  finding.words = machineNames(evidence, foreign.machines);
  finding.label = listed(finding.words);
  const std::vector<std::string> wood = machineNames(evidence, foreign.wood);
  finding.words.insert(finding.words.end(), wood.begin(), wood.end());
  finding.figures = {{"foreign", static_cast<double>(foreign.machines.size()), base::Kind::Ratio},
                     {"sanders", static_cast<double>(foreign.sanders.size()), base::Kind::Ratio}};
  finding.ports = foreign.ports;
  finding.badness = 1;
  finding.defers = true;
  return finding;
}

std::string foreignNames(const Finding& finding) {
  return listed(firstWords(finding, 0, static_cast<std::size_t>(finding.figure("foreign").value)));
}

std::string woodNames(const Finding& finding) {
  return listedFrom(finding, static_cast<std::size_t>(finding.figure("foreign").value));
}

}  // namespace kerfdraft::judge
