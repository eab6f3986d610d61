// A machine whose body lets in less air than its port could take: it starves whatever the fan does.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::judge {

namespace {

/// Gaps should have at least the area of the ports (ours: the catcher's inlet, passage and outlet should have
/// the section of the duct, Dguv209044: 2019 ed., 5.1); twice that is proposed, for then they cost less than
/// one velocity pressure of the port.
constexpr double kLeastGaps = 1;
constexpr double kGoodGaps = 2;
/// Below this share of the way's loss narrow gaps are worth knowing and no more (ours).
constexpr double kNoteShare = 0.1;

/// Area of all ports of a machine that a duct takes air from.
double portArea(const pieces::Pieces& drawing, base::Id machine) {
  double area_m2 = 0;
  std::vector<base::Id> seen;
  for (const pieces::PortPlace& port : drawing.ports) {
    if (port.ref.machine == machine && std::find(seen.begin(), seen.end(), port.ref.port) == seen.end()) {
      seen.push_back(port.ref.port);
      area_m2 += physics::roundArea(port.bore_m);
    }
  }
  return area_m2;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const pieces::Pieces& drawing = evidence.pieces();
  for (const shop::Machine& machine : evidence.project().machines) {
    const double ports_m2 = portArea(drawing, machine.id);
    if (!machine.openings || !(machine.openings->si() < kLeastGaps * ports_m2)) {
      continue;
    }
    const double gaps_m2 = machine.openings->si();
    Finding finding;
    finding.key = {pieces::Role::Body, machine.id, {}};
    finding.label = evidence.machineName(machine.id);
    finding.severity = Severity::Note;
    double share = 0;
    double loss_pa = 0;
    forEachWay(evidence, [&](const Place& place, const Way& way) {
      if (drawing.ports[place.port].ref.machine != machine.id) {
        return;
      }
      if (std::find(finding.ports.begin(), finding.ports.end(), place.port) == finding.ports.end()) {
        finding.ports.push_back(place.port);
      }
      for (const SheetRow& row : way.rows) {
        if (row.key.role != pieces::Role::Body) {
          continue;
        }
        const double here = shareOf(way, row.loss_pa);
        const Severity severity =
            here < kNoteShare ? Severity::Note
                              : std::min(Severity::Caution, severityAt(evidence, place.state, place.port));
        if (worse(severity, here, finding.severity, share)) {
          finding.severity = severity;
          share = here;
          loss_pa = row.loss_pa;
        }
      }
    });
    finding.figures = {{"area", gaps_m2, base::Kind::Area},
                       {"ports", ports_m2, base::Kind::Area},
                       {"loss", loss_pa, base::Kind::Pressure},
                       {"share", share, base::Kind::Ratio}};
    finding.limit = Limit{kLeastGaps * ports_m2,
                          base::Kind::Area,
                          "Dguv209044: 2019 ed., 5.1",
                          base::SourceStatus::Published,
                          {}};
    finding.badness = shortBadness(kLeastGaps * ports_m2, gaps_m2);
    finding.remedies.push_back({"body-opening",
                                {{"area", kGoodGaps * ports_m2, base::Kind::Area}},
                                {finding.label},
                                Change{ChangeKind::BodyOpening, machine.id, {}, kGoodGaps * ports_m2, false},
                                {},
                                {}});
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string gaps = voice.show(finding.figure("area"));
  const std::string ports = voice.show(finding.figure("ports"));
  const double share = finding.figure("share").value;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} is closed too tight: {} of gaps for {} of port. A bigger fan does not help, the air cannot get "
          "in.",
          finding.label, gaps, ports);
    case Reader::Adviser:
      return fmt::format("Body of {}: {} of openings before {} of port{}.", finding.label, gaps, ports,
                         share > 0 ? fmt::format("; they lose {}, {} of all its way loses",
                                                 voice.show(finding.figure("loss")), voice.percent(share))
                                   : "");
    case Reader::Inspector:
      return fmt::format("{}: section of the inlets to the enclosure {}, of its connection {}. Not met.",
                         finding.label, gaps, ports);
  }
  return {};
}

}  // namespace

const Rule kSealedBody{"sealed-body", Topic::Air, "Machine closed too tight", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
