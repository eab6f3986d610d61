// Waste of machines as loose volume.
#include "judge/rules/bin_support.h"

#include <algorithm>
#include <utility>

#include "catalogue/machines.h"
#include "catalogue/materials.h"
#include "judge/rules/fan_support.h"
#include "physics/waste.h"

namespace kerfdraft::judge {

namespace {

/// Key of the bulking row of a machine's waste: by its kind, else by its chips, else sawdust.
std::string bulkingKey(const Evidence& evidence, const shop::Machine& machine) {
  if (!machine.kind.empty()) {
    if (const auto kind = catalogue::machineKind(evidence.catalogue, machine.kind)) {
      return kind->waste;
    }
  }
  return machine.chips == "shavings" || machine.chips == "sander-dust" ? machine.chips : "sawdust";
}

}  // namespace

std::optional<WoodTaken> woodTaken(const Evidence& evidence) {
  std::optional<WoodTaken> out;
  for (const std::string& key : evidence.project().setting.woods) {
    const auto wood = catalogue::wood(evidence.catalogue, key);
    if (wood && wood->density_kg_m3 && (!out || *wood->density_kg_m3 < out->density_kg_m3)) {
      out = WoodTaken{wood->name, *wood->density_kg_m3, false};
    }
  }
  if (!out) {
    const auto wood = catalogue::wood(evidence.catalogue, "softwood");
    if (wood && wood->density_kg_m3) {
      out = WoodTaken{"softwood", *wood->density_kg_m3, true};
    }
  }
  return out;
}

bool oneAtATime(const shop::Project& project) {
  return project.setting.who == shop::Who::Home || project.setting.who == shop::Who::OnePerson;
}

Falling fallingInto(const Evidence& evidence, std::size_t state, std::size_t fan, const WoodTaken& wood) {
  struct Source {
    base::Id machine;
    double loose_m3_s;
    double loose_high_m3_s;
    catalogue::Origin origin;
  };
  std::vector<Source> sources;
  for (const std::size_t p : portsOn(evidence, state, fan)) {
    const base::Id id = evidence.pieces().ports[p].ref.machine;
    const shop::Machine* machine = evidence.machine(id);
    if (machine == nullptr || !machine->waste || !(machine->waste->si() > 0) ||
        std::any_of(sources.begin(), sources.end(),
                    [&](const Source& known) { return known.machine == id; })) {
      continue;
    }
    const auto bulking = catalogue::bulking(evidence.catalogue, bulkingKey(evidence, *machine));
    if (!bulking) {
      continue;
    }
    const double solid_m3_s = machine->waste->si() / wood.density_kg_m3;
    sources.push_back({id, physics::looseVolume(solid_m3_s, bulking->factor),
                       physics::looseVolume(solid_m3_s, bulking->factor_to.value_or(bulking->factor)),
                       bulking->origin});
  }
  std::stable_sort(sources.begin(), sources.end(),
                   [](const Source& a, const Source& b) { return a.loose_m3_s > b.loose_m3_s; });
  if (oneAtATime(evidence.project()) && sources.size() > 1) {
    sources.resize(1);
  }
  Falling out;
  for (const Source& source : sources) {
    out.loose_m3_s += source.loose_m3_s;
    out.loose_high_m3_s += source.loose_high_m3_s;
    out.machines.push_back(source.machine);
  }
  if (!sources.empty()) {
    out.bulking = std::move(sources.front().origin);
  }
  return out;
}

const shop::Separator* withBin(const shop::Collector& collector) {
  const auto found =
      std::find_if(collector.separators.begin(), collector.separators.end(),
                   [](const shop::Separator& separator) { return separator.bin && separator.bin->si() > 0; });
  return found == collector.separators.end() ? nullptr : &*found;
}

std::string binLabel(const shop::Collector& collector, const shop::Separator& separator) {
  const std::string& unit = collector.label.empty() ? collector.name : collector.label;
  if (separator.label.empty()) {
    return unit.empty() ? "bin" : "bin of " + unit;
  }
  return "bin of " + (unit.empty() ? separator.label : unit + " " + separator.label);
}

}  // namespace kerfdraft::judge
