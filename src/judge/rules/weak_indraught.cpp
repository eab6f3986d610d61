// Air that trickles in through the gaps of an open machine's body: it arrives at the port, but dust is not
// held at gaps where the air is slower than the cutter throws it.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::judge {

namespace {

/// Slower than this dust drifts out of the gaps, and so much is wanted near cutters (common practice, no
/// source; docs: model of record, section 5).
constexpr double kCaution_m_s = 0.5;
constexpr double kWanted_m_s = 1.0;
/// Gaps are not closed further than twice the ports' area: the machine would starve (ours).
constexpr double kLeastGaps = 2;

/// Open ports of a machine with their area and the largest of their bands.
struct OpenPorts {
  std::vector<std::size_t> ports;
  double area_m2 = 0;
  double high = 1;
};

OpenPorts openPorts(const Evidence& evidence, std::size_t state, base::Id machine) {
  OpenPorts out;
  for (const FlowMargin& margin : evidence.margins[state].ports) {
    if (margin.open && margin.port && margin.ref.machine == machine) {
      const double bore_m = evidence.pieces().ports[*margin.port].bore_m;
      out.ports.push_back(*margin.port);
      out.area_m2 += physics::roundArea(bore_m);
      out.high = std::max(out.high, evidence.flowBand(state, *margin.port).high);
    }
  }
  return out;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s) || !anyCollectorRuns(evidence, s)) {
      continue;
    }
    for (const BodyMargin& body : evidence.margins[s].bodies) {
      const OpenPorts open = openPorts(evidence, s, body.machine);
      const shop::Machine* machine = evidence.machine(body.machine);
      const double air_m_s = body.indraught_m_s;
      if (open.ports.empty() || machine == nullptr || !machine->openings || !(air_m_s < kWanted_m_s)) {
        continue;
      }
      const double area_m2 = machine->openings->si();
      const bool sure = air_m_s <= 0 || air_m_s * open.high < kCaution_m_s;
      Finding finding;
      finding.key = {pieces::Role::Opening, body.machine, {}};
      finding.label = evidence.machineName(body.machine);
      finding.state = s;
      finding.severity =
          air_m_s < kCaution_m_s && sure && ofUse(evidence, s) ? Severity::Caution : Severity::Note;
      if (air_m_s < 0 && ofUse(evidence, s)) {
        finding.severity = Severity::Serious;
      }
      finding.figures = {{"speed", air_m_s, base::Kind::Speed},
                         {"wanted", kWanted_m_s, base::Kind::Speed},
                         {"flow", air_m_s * area_m2, base::Kind::VolumeFlow},
                         {"area", area_m2, base::Kind::Area}};
      finding.words = {air_m_s < 0               ? "out"
                       : air_m_s >= kCaution_m_s ? "less than wanted"
                       : sure                    ? "sure"
                                                 : "doubtful"};
      finding.limit = Limit{kCaution_m_s, base::Kind::Speed, {}, base::SourceStatus::CommonPractice, {}};
      if (air_m_s >= kCaution_m_s) {
        finding.limit->value = kWanted_m_s;
      }
      finding.badness = shortBadness(finding.limit->value, air_m_s);
      finding.ports = open.ports;
      const double smaller_m2 = area_m2 * air_m_s / kWanted_m_s;
      if (smaller_m2 >= kLeastGaps * open.area_m2) {
        finding.remedies.push_back({"close-gaps",
                                    {{"area", smaller_m2, base::Kind::Area}},
                                    {finding.label},
                                    Change{ChangeKind::BodyOpening, body.machine, {}, smaller_m2, false},
                                    {},
                                    {}});
      }
      finding.remedies.push_back({"hood-at-cutter", {}, {finding.label}, {}, {}, {}});
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string& how = finding.words[0];
  const std::string speed = voice.show(finding.figure("speed"));
  const std::string wanted = voice.show(finding.figure("wanted"));
  const std::string area = voice.show(finding.figure("area"));
  switch (voice.reader()) {
    case Reader::Owner:
      if (how == "out") {
        return fmt::format(
            "Air comes out of the gaps of {} instead of going in: its dust is blown into the room.",
            finding.label);
      }
      return fmt::format(
          "Air goes into the gaps of {} at only {}{}. The port has air, but dust is not held at the machine: "
          "near "
          "the cutter {} are wanted.",
          finding.label, speed, how == "doubtful" ? ", as far as one can predict" : "", wanted);
    case Reader::Adviser:
      return fmt::format("In-draught of {}: {} through {} of openings; {} wanted near cutters{}.",
                         finding.label, speed, area, wanted,
                         how == "doubtful" ? "; the upper end of the prediction passes the limit" : "");
    case Reader::Inspector:
      return fmt::format(
          "{}: mean speed into the body {} through {}. {} Containment is to be observed, not computed.",
          finding.label, speed, area, how == "doubtful" ? "Cannot conclude." : "Not met.");
  }
  return {};
}

}  // namespace

const Rule kWeakIndraught{"weak-indraught", Topic::Air, "Air arrives, dust is not held", &look,
                          &tidied<tell>};

}  // namespace kerfdraft::judge
