// Air much faster than chips need: it howls, wears elbows through, and every bit of speed is paid with its
// square in pressure.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "catalogue/materials.h"
#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

struct FastPart {
  std::size_t state = 0;
  Stretch stretch;
  const RunMargin* margin = nullptr;
  double length_m = 0;
};

/// Fast duct of one state, by duct. Hose is left out: hand tools' hoses are fast everywhere.
std::vector<FastPart> fastParts(const Evidence& evidence, std::size_t state) {
  std::vector<FastPart> out;
  for (const RunMargin& margin : evidence.margins[state].runs) {
    const double low = evidence.speedBand(state, margin.run).low;
    for (const Stretch& stretch : stretchesOf(evidence, state, margin.run)) {
      if (stretch.leg->hose || !(stretch.speed_m_s * low > margin.high_above_m_s)) {
        continue;
      }
      auto at = std::find_if(out.begin(), out.end(),
                             [&](const FastPart& each) { return each.stretch.duct == stretch.duct; });
      if (at == out.end()) {
        at = out.insert(out.end(), FastPart{state, stretch, &margin, 0});
      }
      at->length_m += stretch.length_m;
      if (stretch.speed_m_s > at->stretch.speed_m_s) {
        at->stretch = stretch;
        at->margin = &margin;
      }
    }
  }
  return out;
}

/// The greatest size sold that brings the speed below the limit while its chips are still carried.
std::optional<double> widerBore(const Evidence& evidence, const FastPart& part) {
  return boreOf(evidence, part.stretch, Pick::Greatest, [&](double bore_m) {
    const double speed_m_s = part.stretch.flow_m3_s / boreArea(bore_m);
    return bore_m > part.stretch.bore_m && speed_m_s < part.margin->high_above_m_s &&
           speed_m_s > part.margin->advised_m_s;
  });
}

/// The fastest part of each duct in any declared state, the worst first.
std::vector<FastPart> worstParts(const Evidence& evidence) {
  std::vector<FastPart> worst;
  for (std::size_t s = 0; s < evidence.margins.size(); ++s) {
    if (!evidence.solved(s) || !evidence.state(s).declared) {
      continue;
    }
    for (const FastPart& part : fastParts(evidence, s)) {
      const auto at = std::find_if(worst.begin(), worst.end(), [&](const FastPart& each) {
        return each.stretch.duct == part.stretch.duct;
      });
      if (at == worst.end()) {
        worst.push_back(part);
      } else if (part.stretch.speed_m_s > at->stretch.speed_m_s) {
        *at = part;
      }
    }
  }
  std::stable_sort(worst.begin(), worst.end(), [](const FastPart& a, const FastPart& b) {
    return a.stretch.speed_m_s > b.stretch.speed_m_s;
  });
  return worst;
}

/// One finding for the project, about the fastest; the others are named.
void look(const Evidence& evidence, std::vector<Finding>& out) {
  const std::vector<FastPart> parts = worstParts(evidence);
  if (parts.empty()) {
    return;
  }
  const FastPart& part = parts.front();
  Finding finding = aboutDuct(*part.stretch.duct);
  finding.state = part.state;
  finding.severity = Severity::Note;
  finding.figures = {{"fastest", part.stretch.speed_m_s, base::Kind::Speed},
                     {"high", part.margin->high_above_m_s, base::Kind::Speed},
                     {"bore", part.stretch.bore_m, base::Kind::Bore},
                     {"flow", part.stretch.flow_m3_s, base::Kind::VolumeFlow},
                     {"length", part.length_m, base::Kind::Length}};
  if (const auto rule = catalogue::transportRule(evidence.catalogue, part.margin->material)) {
    finding.limit = limitOf(rule->origin, part.margin->high_above_m_s, base::Kind::Speed);
  }
  finding.badness = badnessOf(part.stretch.speed_m_s / part.margin->high_above_m_s);
  for (const FastPart& each : parts) {
    finding.runs.push_back(each.stretch.run);
    if (&each != &part) {
      finding.words.push_back(each.stretch.duct->label);
    }
  }
  finding.ports = portsThrough(evidence, part.state, part.stretch.run);
  if (const auto bore = widerBore(evidence, part)) {
    finding.remedies = {{"bigger-duct",
                         {{"bore", *bore, base::Kind::Bore}},
                         {finding.label},
                         Change{ChangeKind::LegBore, part.stretch.duct->id,
                                part.stretch.duct->corners[part.stretch.corner].id, *bore, false},
                         {},
                         {}}};
  }
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string fastest = voice.show(finding.figure("fastest"));
  const std::string high = voice.show(finding.figure("high"));
  const std::string others =
      finding.words.empty() ? "" : fmt::format(" So it is in {}.", listed(finding.words));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "The air in {} is faster than it need be: {}, where {} is plenty. It is loud, wears the "
          "elbows and costs power.{}",
          finding.label, fastest, high, others);
    case Reader::Adviser:
      return fmt::format("{} in {} of {} ({}), above {}: noise, wear and power without use.{}", fastest,
                         finding.label, voice.show(finding.figure("bore")),
                         voice.show(finding.figure("flow")), high, others);
    case Reader::Inspector:
      return fmt::format("{}: duct velocity {} over {}, above the {} that is usual.{}", finding.label,
                         fastest, voice.show(finding.figure("length")), high, others);
  }
  return {};
}

}  // namespace

const Rule kAirTooFast{"air-too-fast", Topic::Conveying, "Air faster than it need be", &look, &tell};

}  // namespace kerfdraft::judge
