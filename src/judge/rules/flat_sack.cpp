// Hose that hangs slack where chips pass: they lie in the sag, fill it, and leave the air a narrow way.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Slack hose of one duct in the state in which its air is slowest.
struct Sag {
  std::size_t state = 0;
  Stretch stretch;
  double length_m = 0;
  double loss_pa = 0;
};

std::vector<Sag> sagsOf(const Evidence& evidence, std::size_t state) {
  std::vector<Sag> out;
  for (const RunMargin& margin : evidence.margins[state].runs) {
    for (const Stretch& stretch : stretchesOf(evidence, state, margin.run)) {
      if (!stretch.leg->hose || stretch.leg->hose->hung != shop::HoseHung::Slack) {
        continue;
      }
      auto at = std::find_if(out.begin(), out.end(),
                             [&](const Sag& each) { return each.stretch.duct == stretch.duct; });
      if (at == out.end()) {
        at = out.insert(out.end(), Sag{state, stretch, 0, 0});
      }
      at->length_m += stretch.length_m;
      at->loss_pa += std::abs(evidence.state(state).solution.runs[stretch.run].pieces[stretch.piece].loss_pa);
      if (stretch.speed_m_s < at->stretch.speed_m_s) {
        at->stretch = stretch;
      }
    }
  }
  return out;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  std::vector<Sag> worst;
  for (std::size_t s = 0; s < evidence.margins.size(); ++s) {
    for (const Sag& sag : evidence.solved(s) ? sagsOf(evidence, s) : std::vector<Sag>{}) {
      const auto at = std::find_if(worst.begin(), worst.end(),
                                   [&](const Sag& each) { return each.stretch.duct == sag.stretch.duct; });
      if (at == worst.end()) {
        worst.push_back(sag);
      } else if (sag.stretch.speed_m_s < at->stretch.speed_m_s) {
        *at = sag;
      }
    }
  }
  for (const Sag& sag : worst) {
    Finding finding = aboutDuct(*sag.stretch.duct);
    finding.state = sag.state;
    finding.severity = evidence.state(sag.state).declared ? Severity::Caution : Severity::Note;
    finding.figures = {{"length", sag.length_m, base::Kind::Length},
                       {"speed", sag.stretch.speed_m_s, base::Kind::Speed},
                       {"loss", sag.loss_pa, base::Kind::Pressure}};
    finding.badness = 1;
    finding.runs = {sag.stretch.run};
    finding.ports = portsThrough(evidence, sag.state, sag.stretch.run);
    finding.words = machinesOf(evidence, finding.ports);
    finding.remedies = {{"tight-hose",
                         {},
                         {finding.label},
                         Change{ChangeKind::HoseTight, sag.stretch.duct->id, {}, 0, false},
                         {},
                         {}}};
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string length = voice.show(finding.figure("length"));
  const std::string machines = finding.words.empty() ? "the machines" : listed(finding.words);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} of hose in {} hangs slack: chips of {} lie in the sag and fill it.", length,
                         finding.label, machines);
    case Reader::Adviser:
      return fmt::format(
          "{} of slack hose in {} carries chips of {} at {} and takes {} while it is empty; a "
          "filled sag takes more.",
          length, finding.label, machines, voice.show(finding.figure("speed")),
          voice.show(finding.figure("loss")));
    case Reader::Inspector:
      return fmt::format("{}: {} of hose hung slack in a run that carries chips of {}. Even fall not met.",
                         finding.label, length, machines);
  }
  return {};
}

}  // namespace

const Rule kFlatSack{"flat-sack", Topic::Conveying, "Slack hose fills with chips", &look, &tell};

}  // namespace kerfdraft::judge
