// Machines that cannot be served together: short with these gates open, served when each is alone.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// The need of a machine's port that is missed together and met alone; nothing where that is not so.
std::optional<PortNeed> servedAlone(const Evidence& evidence, std::size_t state, std::size_t port) {
  const auto need = portNeed(evidence, state, port);
  const auto alone_m3_s = evidence.aloneFlow(state, port);
  return need && need->missed && alone_m3_s && *alone_m3_s >= need->needed_m3_s ? need : std::nullopt;
}

std::vector<Remedy> remedies(const Evidence& evidence, std::size_t state, std::size_t worst,
                             const std::vector<std::size_t>& open) {
  const auto& ports = evidence.pieces().ports;
  const auto& air = evidence.state(state).solution.ports;
  std::vector<std::size_t> others;
  for (const std::size_t p : open) {
    if (ports[p].ref.machine != ports[worst].ref.machine && air[p].flow_m3_s > 0) {
      others.push_back(p);
    }
  }
  std::stable_sort(others.begin(), others.end(),
                   [&](std::size_t a, std::size_t b) { return air[a].flow_m3_s > air[b].flow_m3_s; });
  std::vector<Remedy> out;
  for (const std::size_t other : others) {
    auto remedy = shutOther(evidence, state, other, worst);
    if (remedy && std::none_of(out.begin(), out.end(),
                               [&](const Remedy& known) { return known.change->a == remedy->change->a; })) {
      out.push_back(std::move(*remedy));
    }
  }
  return out;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const auto& ports = evidence.pieces().ports;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    std::vector<std::size_t> open;
    std::optional<PortNeed> worst;
    std::vector<std::string> lacking;
    Finding finding;
    finding.severity = Severity::Note;
    for (std::size_t p = 0; p < ports.size(); ++p) {
      if (!evidence.margins[s].ports[p].open) {
        continue;
      }
      open.push_back(p);
      const auto need = servedAlone(evidence, s, p);
      if (!need) {
        continue;
      }
      const std::string name = evidence.machineName(ports[p].ref.machine);
      if (std::find(lacking.begin(), lacking.end(), name) == lacking.end()) {
        lacking.push_back(name);
      }
      finding.ports.push_back(p);
      finding.severity = std::min(finding.severity, severityOf(evidence, s, *need));
      if (!worst || need->flow_m3_s / need->needed_m3_s < worst->flow_m3_s / worst->needed_m3_s) {
        worst = need;
      }
    }
    if (!worst) {
      continue;
    }
    // The number that trials read is that of the worst port.
    std::stable_partition(finding.ports.begin(), finding.ports.end(),
                          [&](std::size_t p) { return p == worst->port; });
    std::vector<std::string> beside;
    for (const std::size_t p : open) {
      const std::string name = evidence.machineName(ports[p].ref.machine);
      if (std::find(lacking.begin(), lacking.end(), name) == lacking.end() &&
          std::find(beside.begin(), beside.end(), name) == beside.end()) {
        beside.push_back(name);
      }
    }
    sortByLabel(lacking);
    sortByLabel(beside);
    const pieces::PortPlace& place = ports[worst->port];
    finding.key = {pieces::Role::Body, place.ref.machine, {}};
    finding.label = listed(lacking);
    finding.state = s;
    finding.figures = {{"flow", worst->flow_m3_s, base::Kind::VolumeFlow},
                       {"needed", worst->needed_m3_s, base::Kind::VolumeFlow},
                       {"alone", *evidence.aloneFlow(s, worst->port), base::Kind::VolumeFlow}};
    finding.words = {place.label, worst->sure ? "sure" : "doubtful", listed(beside)};
    finding.limit =
        Limit{worst->needed_m3_s, base::Kind::VolumeFlow, {}, base::SourceStatus::CommonPractice, {}};
    finding.badness = shortBadness(worst->needed_m3_s, worst->flow_m3_s);
    finding.remedies = remedies(evidence, s, worst->port, open);
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string needed = voice.show(finding.figure("needed"));
  const std::string alone = voice.show(finding.figure("alone"));
  const std::string& port = finding.words[0];
  const bool sure = finding.words[1] == "sure";
  const std::string beside =
      finding.words[2].empty() ? "at the same time" : fmt::format("together with {}", finding.words[2]);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} {} {}: {} then gets {} of the {} it needs, alone it gets {}.", finding.label,
                         sure ? "cannot be served" : "may not be served", beside, port, flow, needed, alone);
    case Reader::Adviser:
      return fmt::format("{} short {} and served alone. Worst: {}, {} together, {} alone, {} needed{}.",
                         finding.label, beside, port, flow, alone, needed,
                         sure ? "" : "; the upper end of the prediction reaches it");
    case Reader::Inspector:
      return fmt::format("{}: intended {}, found {} {}, {} alone. {}", port, needed, flow, beside, alone,
                         sure ? "Not met together." : "Cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kNotTogether{"not-together", Topic::Air, "Machines that cannot be served together", &look,
                        &tidied<tell>};

}  // namespace kerfdraft::judge
