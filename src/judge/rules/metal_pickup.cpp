// A floor sweep on ducts whose chips pass the wheel of the fan: nails and screws come with them, strike the
// wheel and make sparks on the way to the bag. One finding for the project.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Whether nothing takes out what is heavy before it comes to the wheel.
bool throughWheel(const shop::Collector& collector) {
  return std::none_of(
      collector.separators.begin(), collector.separators.end(),
      [](const shop::Separator& separator) { return separator.side == shop::FanSide::Upstream; });
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  std::vector<std::string> sweeps;
  std::vector<std::string> units;
  Finding finding;
  for (const DuctSystem& system : ductSystems(evidence)) {
    std::vector<std::string> bare;
    for (const std::size_t fan : system.fans) {
      const shop::Collector* collector = evidence.collector(evidence.pieces().fans[fan].id);
      if (collector != nullptr && throughWheel(*collector)) {
        bare.push_back(fanName(evidence.pieces(), fan));
      }
    }
    std::vector<std::string> here;
    pieces::PieceKey first;
    for (const base::Id id : system.machines) {
      const shop::Machine* machine = evidence.machine(id);
      if (machine != nullptr && machine->kind == "floor-sweep") {
        first = here.empty() ? pieces::PieceKey{pieces::Role::Body, id, {}} : first;
        here.push_back(evidence.machineName(id));
      }
    }
    for (const base::Id id : system.sweeps) {
      const shop::Duct* duct = evidence.duct(id);
      first = here.empty() ? evidence.pieces().fans[system.fans.front()].key : first;
      here.push_back(duct == nullptr || duct->label.empty() ? "an open duct" : duct->label);
    }
    if (bare.empty() || here.empty()) {
      continue;
    }
    if (sweeps.empty()) {
      finding.key = first;
    }
    sweeps.insert(sweeps.end(), here.begin(), here.end());
    units.insert(units.end(), bare.begin(), bare.end());
  }
  if (sweeps.empty()) {
    return;
  }
  finding.label = listed(sweeps);
  finding.figures = {{"sweeps", static_cast<double>(sweeps.size()), base::Kind::Ratio}};
  finding.words = sweeps;
  finding.words.insert(finding.words.end(), units.begin(), units.end());
  finding.severity = Severity::Note;
  finding.badness = 1;
  finding.limit = Limit{0,
                        base::Kind::Ratio,
                        "UfcIndustrialVentilation: 7-2; 7-5 b",
                        base::SourceStatus::Published,
                        {},
                        "no metal into exhaust of wood"};
  finding.remedies = {{"metal-by-hand", {}, sweeps, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const auto count = static_cast<std::size_t>(finding.figure("sweeps").value);
  const std::string sweeps = listed(firstWords(finding, 0, count));
  const std::string units = listedFrom(finding, count);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "What is swept up at {} passes the wheel of {}: a nail or a screw strikes it, can break it and "
          "makes "
          "sparks on the way to the bag.",
          sweeps, units);
    case Reader::Adviser:
      return fmt::format("{}: no separator before the wheel of {}, so stray metal passes it.", sweeps, units);
    case Reader::Inspector:
      return fmt::format("{}: pick-up of metal possible, no separation before the fan of {}. Not met.",
                         sweeps, units);
  }
  return {};
}

}  // namespace

const Rule kMetalPickup{"metal-pickup", Topic::People, "Metal can come to the wheel", &look, &tell};

}  // namespace kerfdraft::judge
