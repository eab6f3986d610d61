// Too little air at an open port or a whole machine: below the floor its chips are not carried, below nine
// tenths of the target its dust is not taken. The symptom that most causes lead to.
#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

using Asked = std::optional<base::Given<base::VolumeFlow>>;

base::SourceStatus statusOf(base::Standing standing) {
  switch (standing) {
    case base::Standing::Published:
    case base::Standing::Maker:
      return base::SourceStatus::Published;
    case base::Standing::Assumed:
      return base::SourceStatus::CommonPractice;
    case base::Standing::Measured:
    case base::Standing::Estimated:
      break;
  }
  return base::SourceStatus::Ours;
}

/// Where only the target is missed, nine tenths of it count as met.
Limit limitOf(const PortNeed& need, const Asked& floor, const Asked& target) {
  const Asked& asked = need.floor ? floor : target;
  Limit limit{need.needed_m3_s, base::Kind::VolumeFlow, {}, base::SourceStatus::CommonPractice, {}};
  if (asked) {
    limit.source = asked->source();
    limit.status = statusOf(asked->standing());
  }
  return limit;
}

/// What is always worth trying: the machine's own duct one size wider.
std::optional<Remedy> widerDuct(const Evidence& evidence, const pieces::PortPlace& port) {
  for (const shop::Duct& duct : evidence.project().ducts) {
    const auto* from = std::get_if<shop::PortRef>(&duct.from);
    if (from == nullptr || *from != port.ref || !duct.corners.front().leg) {
      continue;
    }
    const shop::Leg& leg = *duct.corners.front().leg;
    const auto sizes = soldAbove(evidence, leg.bore.si(), isPlastic(evidence, leg), 1);
    if (sizes.empty()) {
      return std::nullopt;
    }
    return Remedy{"bigger-duct-and-port",
                  {{"bore", sizes[0], base::Kind::Bore}},
                  {ductName(duct), port.label},
                  Change{ChangeKind::Bore, duct.id, {}, sizes[0], true},
                  {},
                  {}};
  }
  return std::nullopt;
}

void add(const Evidence& evidence, std::size_t state, const FlowMargin& margin, Finding finding,
         const Asked& floor, const Asked& target, std::vector<Finding>& out) {
  double high = 1;
  for (const std::size_t port : finding.ports) {
    high = std::max(high, evidence.flowBand(state, port).high);
  }
  const auto need = needOf(margin, high);
  if (!need || !need->missed || finding.ports.empty()) {
    return;
  }
  finding.state = state;
  finding.severity = severityOf(evidence, state, *need);
  finding.figures = {{"flow", need->flow_m3_s, base::Kind::VolumeFlow},
                     {"needed", need->needed_m3_s, base::Kind::VolumeFlow},
                     {"share", need->flow_m3_s / need->needed_m3_s, base::Kind::Ratio},
                     {"upper", need->flow_m3_s * (need->flow_m3_s > 0 ? high : 1), base::Kind::VolumeFlow}};
  if (margin.target_m3_s) {
    finding.figures.push_back({"target", *margin.target_m3_s, base::Kind::VolumeFlow});
  }
  finding.words = {need->floor ? "floor" : (need->only ? "target-only" : "target"),
                   need->sure ? "sure" : "doubtful"};
  finding.limit = limitOf(*need, floor, target);
  finding.badness = shortBadness(need->needed_m3_s, need->flow_m3_s);
  if (auto wider = widerDuct(evidence, evidence.pieces().ports[finding.ports.front()])) {
    finding.remedies.push_back(std::move(*wider));
  }
  out.push_back(std::move(finding));
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    const StateMargins& margins = evidence.margins[s];
    if (!margins.solved || !anyCollectorRuns(evidence, s)) {
      continue;
    }
    for (std::size_t p = 0; p < margins.ports.size(); ++p) {
      const pieces::PortPlace& place = evidence.pieces().ports[p];
      const shop::Port* port = enteredPort(evidence, place.ref);
      if (port == nullptr) {
        continue;
      }
      Finding finding;
      finding.key = evidence.pieces().runs[place.run].pieces.front().key;
      finding.label = place.label;
      finding.runs = {place.run};
      finding.ports = {p};
      add(evidence, s, margins.ports[p], std::move(finding), port->floor, port->target, out);
    }
    for (const FlowMargin& margin : margins.machines) {
      const shop::Machine* machine = evidence.machine(margin.ref.machine);
      Finding finding;
      finding.key = {pieces::Role::Body, margin.ref.machine, {}};
      finding.label = evidence.machineName(margin.ref.machine);
      for (std::size_t p = 0; p < margins.ports.size(); ++p) {
        if (margins.ports[p].open && margins.ports[p].ref.machine == margin.ref.machine) {
          finding.ports.push_back(p);
        }
      }
      // Trials read the first: the widest one, whatever the order of the file.
      const auto& places = evidence.pieces().ports;
      std::sort(finding.ports.begin(), finding.ports.end(), [&](std::size_t a, std::size_t b) {
        return places[a].bore_m != places[b].bore_m ? places[a].bore_m > places[b].bore_m
                                                    : places[a].ref < places[b].ref;
      });
      for (const std::size_t p : finding.ports) {
        finding.runs.push_back(places[p].run);
      }
      if (machine != nullptr) {
        add(evidence, s, margin, std::move(finding), machine->floor, machine->target, out);
      }
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const double flow_m3_s = finding.figure("flow").value;
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string needed = voice.show(finding.figure("needed"));
  const bool floor = finding.words[0] == "floor";
  const bool sure = finding.words[1] == "sure";
  if (!(flow_m3_s > 0)) {
    switch (voice.reader()) {
      case Reader::Owner:
        return fmt::format("{} gets no air at all{}; it needs {}.", finding.label,
                           flow_m3_s < 0 ? ", air blows out of it" : "", needed);
      case Reader::Adviser:
        return fmt::format("{}: {} where {} is needed{}.", finding.label, flow, needed,
                           flow_m3_s < 0 ? "; the air runs backward" : "");
      case Reader::Inspector:
        return fmt::format("{}: intended {}, found {}. Not met.", finding.label, needed, flow);
    }
  }
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} gets {} and needs {} {}.{}", finding.label, flow, needed,
                         floor ? "for its chips to be carried off" : "for its fine dust to be taken too",
                         sure ? "" : " It may just do: the prediction is not that sure.");
    case Reader::Adviser:
      return fmt::format(
          "{}: {} of {} ({}), {}{}.", finding.label, flow, needed,
          voice.percent(finding.figure("share").value),
          floor ? "the floor"
                : fmt::format("nine tenths of the target of {}", voice.show(finding.figure("target"))),
          sure ? ""
               : fmt::format("; the upper end of the prediction, {}, reaches it",
                             voice.show(finding.figure("upper"))));
    case Reader::Inspector:
      return fmt::format("{}: intended {} ({}), found {} (predicted). {}", finding.label, needed,
                         floor ? "floor" : "nine tenths of the target", flow,
                         sure ? "Not met." : "Cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kPortShort{"port-short", Topic::Air, "Too little air", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
