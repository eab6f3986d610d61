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

/// A class is the next one where its motor is larger than this one's by more than rounding of hp and kW.
constexpr double kSameMotor = 1.01;

/// Flow that each piece of the way would carry beyond what it carries now.
using Extra = std::map<pieces::PieceKey, double>;

/// What a path would lose and its collector give if the extra air flowed.
struct Strain {
  std::size_t fan = 0;
  double fan_flow_m3_s = 0;
  double needed_pa = 0;
  double had_pa = 0;
  /// The duct in which that air would be fastest over what is advised against there; no run: none is.
  std::optional<std::size_t> narrow_run;
  double narrow_speed_m_s = 0;
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

/// The margin of the run of a sheet's line; nothing where no chips travel in it.
const RunMargin* marginOf(const Evidence& evidence, std::size_t state, const std::string& run) {
  for (const RunMargin& margin : evidence.margins[state].runs) {
    if (margin.label == run && margin.high_above_m_s > 0) {
      return &margin;
    }
  }
  return nullptr;
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
  double narrowest = 1;
  bool running = false;
  double end_growth = 1;
  for (std::size_t i = 0; i < sheet->rows.size(); ++i) {
    const SheetRow& row = sheet->rows[i];
    const double grown = growth(row);
    const auto line = std::find_if(sheet->fans.begin(), sheet->fans.end(),
                                   [&](const SheetFan& here) { return here.row == i; });
    if (line == sheet->fans.end()) {
      strain.needed_pa += row.loss_pa * (row.key.role == pieces::Role::Filter ? grown : grown * grown);
      if (row.length_m > 0) {
        const RunMargin* margin = marginOf(evidence, state, row.run);
        const double over = margin != nullptr ? row.speed_m_s * grown / margin->high_above_m_s : 0;
        if (over > narrowest) {
          narrowest = over;
          strain.narrow_run = margin->run;
          strain.narrow_speed_m_s = row.speed_m_s * grown;
        }
      }
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

/// A fan of this size class, by the label's rule of thumb, at its weakest member.
double pressureOfClass(const Evidence& evidence, const catalogue::RowView& size, const Strain& strain) {
  const double density_kg_m3 = evidence.pieces().air.density_kg_m3;
  const auto rating = physics::makeLabelRating(size.number("free_air"), size.number("shutoff"),
                                               evidence.pieces().fans[strain.fan].inlet_bore_m,
                                               physics::kStandardDensity_kg_m3);
  return rating ? physics::fanRise(*rating, strain.fan_flow_m3_s, density_kg_m3, density_kg_m3).p_pa : 0;
}

/// The greatest suction of any common collector; a fan that makes more is a vacuum plant, of which that table
/// says nothing and whose hoses are meant to be fast.
double mostCommonSuction(const Evidence& evidence) {
  double most_pa = 0;
  if (const auto table = evidence.catalogue.table("collector_sizes")) {
    for (const catalogue::Row& row : (*table)->rows()) {
      most_pa = std::max(most_pa, catalogue::RowView(**table, row).number("shutoff_to"));
    }
  }
  return most_pa;
}

bool isCommon(const Evidence& evidence, std::size_t fan) {
  const auto& rating = evidence.pieces().fans[fan].rating;
  return rating && rating->curve.shutoff() <= mostCommonSuction(evidence);
}

/// What would pull that: the smallest size class of the catalogue, or a collector without a named size where
/// the table does not reach. Nothing where the pressure is more than any common collector makes though this
/// one is common: then the ducts or the open gates are at fault.
std::optional<Remedy> biggerCollector(const Evidence& evidence, const Strain& strain) {
  const auto table = evidence.catalogue.table("collector_sizes");
  const auto entry = enteredFan(evidence, strain.fan);
  if (!table || !entry) {
    return std::nullopt;
  }
  const double motor_w = entry->motor->power ? entry->motor->power->si() : 0;
  const std::string label = fanLabel(evidence, strain.fan);
  const std::vector<Figure> figures = {{"pressure", strain.needed_pa, base::Kind::Pressure},
                                       {"flow", strain.fan_flow_m3_s, base::Kind::VolumeFlow}};
  for (const catalogue::Row& row : (*table)->rows()) {
    const catalogue::RowView size(**table, row);
    if (size.number("motor") > motor_w * kSameMotor &&
        pressureOfClass(evidence, size, strain) >= strain.needed_pa) {
      return Remedy{"bigger-collector", figures, {label, size.name()}, {}, {}, {}};
    }
  }
  return isCommon(evidence, strain.fan) && strain.needed_pa > mostCommonSuction(evidence)
             ? std::nullopt
             : std::optional(Remedy{"bigger-collector", figures, {label}, {}, {}, {}});
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

std::string ductName(const Evidence& evidence, std::size_t run) {
  const std::vector<const shop::Duct*> ducts = evidence.ductsOfRun(run);
  return ducts.empty() ? evidence.pieces().runs[run].label : ducts.front()->label;
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
  const auto bigger = strain.narrow_run ? std::nullopt : biggerCollector(evidence, strain);
  finding.words = {evidence.pieces().ports[worst.port].label,
                   strain.narrow_run ? "narrow" : (bigger ? "size" : "no-size"),
                   worst.sure ? "sure" : "doubtful"};
  if (strain.narrow_run) {
    finding.figures.push_back({"speed", strain.narrow_speed_m_s, base::Kind::Speed});
    finding.words.push_back(ductName(evidence, *strain.narrow_run));
  }
  if (bigger) {
    finding.severity = worst.floor && worst.sure ? Severity::Serious : Severity::Caution;
    finding.remedies.push_back(*bigger);
  } else {
    // The ducts come first: another fan would only blow them full.
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
    std::vector<Lack> lacking = lacks(evidence, s);
    // What is served when it runs alone lacks no collector: too many gates are open.
    std::erase_if(lacking, [&](const Lack& lack) {
      const auto alone = evidence.aloneFlow(s, lack.port);
      return alone && *alone >= lack.needed_m3_s;
    });
    const Extra extra = extraFlow(evidence, s, lacking);
    for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
      std::optional<Strain> hardest;
      const Lack* worst = nullptr;
      for (const Lack& lack : lacking) {
        auto strain = strainOf(evidence, s, lack.port, extra);
        if (strain && !isCommon(evidence, strain->fan)) {
          strain->narrow_run.reset();
        }
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
  const std::string had =
      had_pa > 0 ? "has " + voice.show(finding.figure("had")) : std::string("has nothing left there");
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string want = voice.show(finding.figure("port-needed"));
  const std::string& port = finding.words[0];
  const bool possible = finding.words[1] == "size";
  const bool narrow = finding.words[1] == "narrow";
  const bool sure = finding.words[2] == "sure";
  switch (voice.reader()) {
    case Reader::Owner:
      if (narrow) {
        return fmt::format(
            "{} is too narrow for what {} should get, {}: the air would run at {} in it. A stronger "
            "collector is no cure.",
            finding.words[3], port, want, voice.show(finding.figure("speed")));
      }
      if (!possible) {
        return fmt::format(
            "No common collector could bring {} its {} this way: it would have to pull {}. The "
            "ducts, or the number of gates open at once, come first.",
            port, want, needed);
      }
      return fmt::format("{} {} to bring {} its {}: it would have to pull {} and then {}.", finding.label,
                         sure ? "is too weak" : "may be too weak", port, want, needed, had);
    case Reader::Adviser:
      return fmt::format(
          "{} needs {} at {} (total pressure across it, with every short port at its need), {}. {} now gets "
          "{} "
          "of {}{}.{}",
          finding.label, needed, flow, had, port, voice.show(finding.figure("port-flow")), want,
          sure ? "" : "; the upper end of the prediction reaches it",
          narrow ? fmt::format(" But {} would then run at {}: it comes first.", finding.words[3],
                               voice.show(finding.figure("speed")))
                 : (possible ? "" : " No common collector makes that pressure."));
    case Reader::Inspector:
      return fmt::format("{}: for the intended flow at {} it needs {} at {} and {}. {}", finding.label, port,
                         needed, flow, had, sure ? "Not met." : "Cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kWeakFan{"weak-fan", Topic::Collector, "Collector too weak for the path", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
