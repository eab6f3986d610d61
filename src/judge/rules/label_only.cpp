// A collector of which only the label is known. Its curve is then a rule of thumb: every flow behind it has a
// wide band, and where a machine's verdict lies inside that band two minutes with a gauge are worth more.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Where no bands were computed: two standard deviations of the label's 30 % on pressure, and flow as the
/// root of pressure: sqrt(1 - 0.6) and sqrt(1 + 0.6) (ours, from the spread in docs/theory/uncertainty.md).
constexpr Band kLabelFlow{0.632, 1.265};

Band orLabel(const Band& band) {
  return band.low == 1 && band.high == 1 ? kLabelFlow : band;
}

bool within(double value, const Band& band, double limit) {
  return value * band.low < limit && value * band.high >= limit;
}

/// Ports whose floor lies inside the band, and runs whose chips may or may not be carried.
struct Hangs {
  std::vector<std::size_t> ports;
  std::vector<std::size_t> runs;
};

void addOnce(std::vector<std::size_t>& to, std::size_t index) {
  if (std::find(to.begin(), to.end(), index) == to.end()) {
    to.push_back(index);
  }
}

Hangs whatHangs(const Evidence& evidence, std::size_t fan) {
  Hangs out;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    std::vector<char> on_way(evidence.pieces().runs.size(), 0);
    for (const std::size_t p : portsOn(evidence, s, fan)) {
      const FlowMargin& margin = evidence.margins[s].ports[p];
      const std::optional<double> need_m3_s = servedFrom(margin);
      if (need_m3_s && within(margin.flow_m3_s, orLabel(evidence.flowBand(s, p)), *need_m3_s)) {
        addOnce(out.ports, p);
      }
      for (const std::size_t run : evidence.path(s, p)) {
        on_way[run] = 1;
      }
    }
    for (const RunMargin& run : evidence.margins[s].runs) {
      if (on_way[run.run] != 0 &&
          within(run.slowest_m_s, orLabel(evidence.speedBand(s, run.run)), run.not_carried_below_m_s)) {
        addOnce(out.runs, run.run);
      }
    }
  }
  std::sort(out.ports.begin(), out.ports.end());
  std::sort(out.runs.begin(), out.runs.end());
  return out;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
    const auto entry = enteredFan(evidence, f);
    if (!evidence.pieces().fans[f].label_only || !entry || !entry->rating->free_air_flow ||
        !entry->rating->greatest_suction) {
      continue;
    }
    std::optional<std::size_t> busiest;
    for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
      if (!evidence.solved(s) || !evidence.state(s).solution.fans[f].running) {
        continue;
      }
      if (!busiest || evidence.state(s).solution.fans[f].inlet_flow_m3_s >
                          evidence.state(*busiest).solution.fans[f].inlet_flow_m3_s) {
        busiest = s;
      }
    }
    Finding finding = aboutFan(evidence, f);
    finding.figures = {{"free-air", entry->rating->free_air_flow->si(), base::Kind::VolumeFlow},
                       {"suction", entry->rating->greatest_suction->si(), base::Kind::Pressure}};
    if (busiest) {
      const double flow_m3_s = evidence.state(*busiest).solution.fans[f].inlet_flow_m3_s;
      const Band band = orLabel(evidence.fanBand(*busiest, f));
      finding.figures.push_back({"flow", flow_m3_s, base::Kind::VolumeFlow});
      finding.figures.push_back({"flow-low", flow_m3_s * band.low, base::Kind::VolumeFlow});
      finding.figures.push_back({"flow-high", flow_m3_s * band.high, base::Kind::VolumeFlow});
    }
    const Hangs hangs = whatHangs(evidence, f);
    finding.ports = hangs.ports;
    finding.runs = hangs.runs;
    for (const std::size_t p : hangs.ports) {
      finding.words.push_back(evidence.pieces().ports[p].label);
    }
    const bool matters = !hangs.ports.empty() || !hangs.runs.empty();
    finding.severity = matters ? Severity::Caution : Severity::Note;
    finding.badness = 1;
    finding.remedies = {{"shut-inlet-test", {}, {finding.label}, {}, {}, {}},
                        {"ask-for-curve", {}, {finding.label}, {}, {}, {}}};
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string free_air = voice.show(finding.figure("free-air"));
  const std::string suction = voice.show(finding.figure("suction"));
  const bool has_flow = finding.findFigure("flow") != nullptr;
  const std::string band = has_flow ? fmt::format("{} to {}", voice.show(finding.figure("flow-low")),
                                                  voice.show(finding.figure("flow-high")))
                                    : std::string();
  std::string hangs;
  if (!finding.words.empty()) {
    hangs = fmt::format(" Whether {} {} enough hangs on it.", listed(finding.words),
                        finding.words.size() == 1 ? "gets" : "get");
  } else if (!finding.runs.empty()) {
    hangs = " Whether the chips are carried hangs on it.";
  }
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Of {} only the label is known, and its {} are moved in no shop.{}{}", finding.label, free_air,
          has_flow ? fmt::format(" Yours may get anything from {}.", band) : std::string(), hangs);
    case Reader::Adviser:
      return fmt::format("The curve of {} is taken from its label, {} in free air and {} at shut inlet{}.{}",
                         finding.label, free_air, suction,
                         has_flow ? fmt::format(": {} in the busiest state, with a band of {}",
                                                voice.show(finding.figure("flow")), band)
                                  : std::string(),
                         hangs);
    case Reader::Inspector:
      return fmt::format("{}: no fan curve on file, only the label ({}, {}). {}", finding.label, free_air,
                         suction,
                         hangs.empty() ? "Conclusions do not depend on it within its band."
                                       : "Cannot conclude where the band includes the limit.");
  }
  return {};
}

}  // namespace

const Rule kLabelOnly{"label-only", Topic::Collector, "Collector known only by its label", &look,
                      &tidied<tell>};

}  // namespace kerfdraft::judge
