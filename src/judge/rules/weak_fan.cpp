// The collector as the cause of too little air: with every short port brought to what it needs, the path
// loses more than the fan then gives. Says by how much, and which size of collector would do.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "catalogue/row_view.h"
#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"
#include "physics/fan.h"

namespace kerfdraft::judge {

namespace {

/// Flow that each piece of the way would carry beyond what it carries now.
using Extra = std::map<pieces::PieceKey, double>;

/// What a path would lose and its collector give if the extra air flowed.
struct Strain {
  std::size_t fan = 0;
  double fan_flow_m3_s = 0;
  double needed_pa = 0;
  double had_pa = 0;
};

Extra extraFlow(const Evidence& evidence, std::size_t state, const std::vector<Lack>& lacking) {
  Extra extra;
  for (const Lack& lack : lacking) {
    if (const auto& sheet = evidence.sheets[state][lack.port]) {
      for (const SheetRow& row : sheet->rows) {
        extra[row.key] += lack.needed_m3_s - lack.now_m3_s;
      }
    }
  }
  return extra;
}

/// Losses grow with the square of the flow, through a filter with the flow itself (ours: friction factors are
/// kept, so a path of smooth duct is a little overrated). Machines that are served keep their air.
std::optional<Strain> strainOf(const Evidence& evidence, std::size_t state, std::size_t port,
                               const Extra& extra) {
  const auto& sheet = evidence.sheets[state][port];
  const auto fan = collectorFan(evidence, state, port);
  if (!sheet || !fan || !evidence.pieces().fans[*fan].rating) {
    return std::nullopt;
  }
  const auto growth = [&](const SheetRow& row) {
    const auto found = extra.find(row.key);
    return found == extra.end() || !(row.flow_m3_s > 0) ? 1.0 : 1 + found->second / row.flow_m3_s;
  };
  Strain strain;
  strain.fan = *fan;
  bool running = false;
  double end_growth = 1;
  for (std::size_t i = 0; i < sheet->rows.size(); ++i) {
    const SheetRow& row = sheet->rows[i];
    const double grown = growth(row);
    const auto line = std::find_if(sheet->fans.begin(), sheet->fans.end(),
                                   [&](const SheetFan& here) { return here.row == i; });
    if (line == sheet->fans.end()) {
      strain.needed_pa += row.loss_pa * (row.key.role == pieces::Role::Filter ? grown : grown * grown);
      continue;
    }
    if (!line->running) {
      strain.needed_pa -= line->rise_pa * grown * grown;
      continue;
    }
    const network::FanResult& result = evidence.state(state).solution.fans[line->fan];
    const auto& rating = evidence.pieces().fans[line->fan].rating;
    if (!rating) {
      return std::nullopt;
    }
    const double flow_m3_s = result.inlet_flow_m3_s * grown;
    const double rise_pa = physics::fanRise(*rating, flow_m3_s, evidence.pieces().air.density_kg_m3,
                                            inletDensity(evidence, result))
                               .p_pa;
    if (line->fan == *fan) {
      running = true;
      strain.fan_flow_m3_s = flow_m3_s;
      strain.had_pa = rise_pa;
      end_growth = grown;
    } else {
      strain.needed_pa -= rise_pa;
    }
  }
  strain.needed_pa += sheet->end_pa * end_growth * end_growth;
  return running ? std::optional(strain) : std::nullopt;
}

/// The smallest size class whose weakest member gives this pressure at this flow; nothing where none does.
std::optional<Remedy> biggerCollector(const Evidence& evidence, const Strain& strain) {
  const auto table = evidence.catalogue.table("collector_sizes");
  const auto entry = enteredFan(evidence, strain.fan);
  if (!table || !entry) {
    return std::nullopt;
  }
  const double motor_w = entry->motor->power ? entry->motor->power->si() : 0;
  for (const catalogue::Row& row : (*table)->rows()) {
    const catalogue::RowView size(**table, row);
    if (size.number("motor") <= motor_w * 1.01) {
      continue;
    }
    const double density_kg_m3 = evidence.pieces().air.density_kg_m3;
    const auto rating = physics::makeLabelRating(size.number("free_air"), size.number("shutoff"),
                                                 evidence.pieces().fans[strain.fan].inlet_bore_m,
                                                 physics::kStandardDensity_kg_m3);
    if (rating && physics::fanRise(*rating, strain.fan_flow_m3_s, density_kg_m3, density_kg_m3).p_pa >=
                      strain.needed_pa) {
      return Remedy{"bigger-collector",
                    {{"pressure", strain.needed_pa, base::Kind::Pressure},
                     {"flow", strain.fan_flow_m3_s, base::Kind::VolumeFlow},
                     {"motor", size.number("motor"), base::Kind::Power},
                     {"shutoff", size.number("shutoff"), base::Kind::Pressure},
                     {"shutoff-to", size.number("shutoff_to"), base::Kind::Pressure}},
                    {evidence.pieces().fans[strain.fan].label, size.name()},
                    {},
                    {},
                    {}};
    }
  }
  return std::nullopt;
}

/// A gate that only the air of `other` passes.
std::optional<std::size_t> ownGate(const Evidence& evidence, std::size_t state, std::size_t other,
                                   std::size_t port) {
  const std::vector<std::size_t> kept = evidence.path(state, port);
  for (const std::size_t run : evidence.path(state, other)) {
    if (std::find(kept.begin(), kept.end(), run) != kept.end()) {
      continue;
    }
    for (const pieces::Piece& piece : evidence.pieces().runs[run].pieces) {
      if (piece.gate >= 0) {
        return static_cast<std::size_t>(piece.gate);
      }
    }
  }
  return std::nullopt;
}

/// Shutting the machine that takes most beside this one.
std::optional<Remedy> fewerGates(const Evidence& evidence, std::size_t state, const Strain& strain,
                                 std::size_t port) {
  const auto& ports = evidence.pieces().ports;
  const std::vector<network::PortResult>& air = evidence.state(state).solution.ports;
  std::optional<std::size_t> most;
  for (const std::size_t p : portsOn(evidence, state, strain.fan)) {
    if (ports[p].ref.machine != ports[port].ref.machine && air[p].flow_m3_s > 0 &&
        (!most || air[p].flow_m3_s > air[*most].flow_m3_s)) {
      most = p;
    }
  }
  const auto gate = most ? ownGate(evidence, state, *most, port) : std::nullopt;
  if (!gate || !evidence.state(state).declared) {
    return std::nullopt;
  }
  return Remedy{
      "shut-gate",
      {},
      {evidence.pieces().gates[*gate].label, evidence.machineName(ports[*most].ref.machine),
       evidence.machineName(ports[port].ref.machine)},
      Change{ChangeKind::GateShut, evidence.pieces().gates[*gate].id, evidence.state(state).id, 0, false},
      {},
      {}};
}

Finding findingOf(const Evidence& evidence, std::size_t state, const Strain& strain, const Lack& worst,
                  const std::vector<Lack>& lacking) {
  Finding finding = aboutFan(evidence, strain.fan);
  finding.state = state;
  finding.figures = {{"needed", strain.needed_pa, base::Kind::Pressure},
                     {"had", strain.had_pa, base::Kind::Pressure},
                     {"flow", strain.fan_flow_m3_s, base::Kind::VolumeFlow},
                     {"port-flow", worst.now_m3_s, base::Kind::VolumeFlow},
                     {"port-needed", worst.needed_m3_s, base::Kind::VolumeFlow}};
  finding.limit = Limit{strain.had_pa, base::Kind::Pressure, {}, base::SourceStatus::Ours, {}};
  finding.badness = strain.had_pa > 0 ? badnessOf(strain.needed_pa / strain.had_pa) : badnessOf(HUGE_VAL);
  finding.runs = evidence.path(state, worst.port);
  for (const Lack& lack : lacking) {
    if (collectorFan(evidence, state, lack.port) == strain.fan) {
      finding.ports.push_back(lack.port);
    }
  }
  const auto bigger = biggerCollector(evidence, strain);
  finding.words = {evidence.pieces().ports[worst.port].label, bigger ? "size" : "no-size",
                   worst.sure ? "sure" : "doubtful"};
  if (bigger) {
    finding.severity = worst.floor && worst.sure ? Severity::Serious : Severity::Caution;
    finding.remedies.push_back(*bigger);
  } else {
    // No common collector would help: the ducts come first.
    finding.severity = Severity::Note;
  }
  if (auto gates = fewerGates(evidence, state, strain, worst.port)) {
    finding.remedies.push_back(std::move(*gates));
  }
  return finding;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    const std::vector<Lack> lacking = lacks(evidence, s);
    const Extra extra = extraFlow(evidence, s, lacking);
    for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
      std::optional<Strain> hardest;
      const Lack* worst = nullptr;
      for (const Lack& lack : lacking) {
        const auto strain = strainOf(evidence, s, lack.port, extra);
        if (strain && strain->fan == f && strain->needed_pa > strain->had_pa &&
            (!hardest || strain->needed_pa > hardest->needed_pa)) {
          hardest = strain;
          worst = &lack;
        }
      }
      if (worst != nullptr) {
        out.push_back(findingOf(evidence, s, *hardest, *worst, lacking));
      }
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string needed = voice.show(finding.figure("needed"));
  const double had_pa = finding.figure("had").value;
  const std::string had = had_pa > 0 ? voice.show(finding.figure("had")) : std::string("nothing");
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string& port = finding.words[0];
  const bool size = finding.words[1] == "size";
  const bool sure = finding.words[2] == "sure";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} {} to bring {} its {}: it would have to pull {} and then has {}.{}",
                         finding.label, sure ? "is too weak" : "may be too weak", port,
                         voice.show(finding.figure("port-needed")), needed, had,
                         size ? "" : " No common collector pulls that: the ducts come first.");
    case Reader::Adviser:
      return fmt::format(
          "{} needs {} at {} (total pressure across it, with every short port at its need), has {}. {} now "
          "gets {} "
          "of {}{}.",
          finding.label, needed, flow, had, port, voice.show(finding.figure("port-flow")),
          voice.show(finding.figure("port-needed")),
          sure ? "" : "; the upper end of the prediction reaches it");
    case Reader::Inspector:
      return fmt::format("{}: pressure required for the intended flow at {} {}, available {} at {}. {}",
                         finding.label, port, needed, had, flow, sure ? "Not met." : "Cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kWeakFan{"weak-fan", Topic::Collector, "Collector too weak for the path", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
