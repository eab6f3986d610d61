// Curly shavings through ribbed or narrow hose: the curls catch on the ribs, knit into a plug, and the
// machine stands in its own shavings.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "catalogue/machines.h"
#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Hose narrower than this plugs with curls even where it is smooth (ours, from what the trade tells of 3
/// in).
constexpr double kNarrow_m = 0.098;
/// The size that is offered in its place is no wider than this (ours).
constexpr double kWide_m = 0.12;
/// Ribbed hose longer than this is more than a connection (common practice: 3 to 5 ft for each machine).
constexpr double kLong_m = 1.524;
/// A cuff's length of ribbed hose is no place to catch in (ours).
constexpr double kCuff_m = 0.3;
constexpr const char* kCurls = "shavings";

/// A machine whose waste is curls: by its kind, else by the chips that were entered.
bool throwsCurls(const Evidence& evidence, const shop::Machine& machine) {
  if (!machine.kind.empty()) {
    if (const auto kind = catalogue::machineKind(evidence.catalogue, machine.kind)) {
      return kind->waste == kCurls && (machine.chips.empty() || machine.chips == kCurls);
    }
  }
  return machine.chips == kCurls;
}

struct HoseOnWay {
  Stretch stretch;
  std::size_t port = 0;
  double length_m = 0;
  std::vector<std::size_t> ports;
};

bool catches(const Stretch& stretch) {
  return stretch.leg->hose &&
         (stretch.leg->hose->inside == shop::HoseInside::Ribbed || stretch.bore_m < kNarrow_m);
}

/// Hose that curls pass, by duct: in any state, from the port on as far as chips travel.
std::vector<HoseOnWay> hoses(const Evidence& evidence) {
  std::vector<HoseOnWay> out;
  std::vector<std::pair<std::size_t, std::size_t>> seen;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    for (std::size_t p = 0; p < evidence.pieces().ports.size(); ++p) {
      const shop::Machine* machine = evidence.machine(evidence.pieces().ports[p].ref.machine);
      if (machine == nullptr || !throwsCurls(evidence, *machine)) {
        continue;
      }
      for (const std::size_t run : evidence.path(s, p)) {
        if (evidence.chips[s][run].empty()) {
          continue;
        }
        for (const Stretch& stretch : stretchesOf(evidence, s, run)) {
          if (!catches(stretch)) {
            continue;
          }
          auto at = std::find_if(out.begin(), out.end(),
                                 [&](const HoseOnWay& each) { return each.stretch.duct == stretch.duct; });
          if (at == out.end()) {
            at = out.insert(out.end(), HoseOnWay{stretch, p, 0, {}});
          }
          const std::pair piece{run, stretch.piece};
          if (std::find(seen.begin(), seen.end(), piece) == seen.end()) {
            seen.push_back(piece);
            at->length_m += stretch.length_m;
          }
          if (stretch.bore_m < at->stretch.bore_m) {
            at->stretch = stretch;
          }
          if (std::find(at->ports.begin(), at->ports.end(), p) == at->ports.end()) {
            at->ports.push_back(p);
          }
        }
      }
    }
  }
  return out;
}

/// Short connections of many machines are one thing to know.
void addTo(Finding& first, const Finding& other) {
  first.label += ", " + other.label;
  first.figures[0].value = std::min(first.figures[0].value, other.figures[0].value);
  first.figures[1].value = std::max(first.figures[1].value, other.figures[1].value);
  first.runs.insert(first.runs.end(), other.runs.begin(), other.runs.end());
  first.ports.insert(first.ports.end(), other.ports.begin(), other.ports.end());
  first.words.insert(first.words.end(), other.words.begin() + 2, other.words.end());
  first.remedies = {{"tight-hose", {}, {first.label}, {}, {}, {}}};
}

/// One finding for each duct with narrow or long hose, one for all that are only short connections.
void look(const Evidence& evidence, std::vector<Finding>& out) {
  std::optional<std::size_t> connections;
  for (const HoseOnWay& hose : hoses(evidence)) {
    const bool narrow = hose.stretch.bore_m < kNarrow_m;
    const bool ribbed = hose.stretch.leg->hose->inside == shop::HoseInside::Ribbed;
    if (hose.length_m < kCuff_m) {
      continue;
    }
    Finding finding = aboutDuct(*hose.stretch.duct);
    finding.severity = narrow || hose.length_m > kLong_m ? Severity::Caution : Severity::Note;
    finding.figures = {{"bore", hose.stretch.bore_m, base::Kind::Bore},
                       {"length", hose.length_m, base::Kind::Length}};
    if (narrow) {
      finding.limit = Limit{kNarrow_m, base::Kind::Bore, {}, base::SourceStatus::Ours, {}};
    }
    finding.badness = narrow ? badnessOf(1 + kNarrow_m / hose.stretch.bore_m) : (ribbed ? 1.0 : 0.0);
    finding.runs = {hose.stretch.run};
    finding.ports = hose.ports;
    finding.words = {ribbed ? "ribbed" : "smooth", narrow ? "narrow" : "wide"};
    for (std::string& name : machinesOf(evidence, hose.ports)) {
      finding.words.push_back(std::move(name));
    }
    if (ribbed) {
      finding.remedies.push_back({"tight-hose",
                                  {},
                                  {finding.label},
                                  Change{ChangeKind::HoseTight, hose.stretch.duct->id, {}, 0, false},
                                  {},
                                  {}});
    }
    if (narrow) {
      const auto wider =
          boreOf(evidence, hose.stretch, Pick::Greatest, [](double bore_m) { return bore_m < kWide_m; });
      if (wider && *wider > hose.stretch.bore_m) {
        finding.remedies.push_back(
            {"bigger-duct", {{"bore", *wider, base::Kind::Bore}}, {finding.label}, {}, {}, {}});
      }
    }
    if (finding.severity != Severity::Note) {
      out.push_back(std::move(finding));
    } else if (connections) {
      addTo(out[*connections], finding);
    } else {
      connections = out.size();
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string machines = listedFrom(finding, 2);
  const std::string bore = voice.show(finding.figure("bore"));
  const std::string length = voice.show(finding.figure("length"));
  const bool ribbed = finding.words[0] == "ribbed";
  const std::string hose = fmt::format("{} of {}{} hose", length, ribbed ? "ribbed " : "", bore);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} {} curly shavings through {} in {}: they {} and make a plug.", machines,
                         finding.words.size() > 3 ? "send" : "sends", hose, finding.label,
                         ribbed ? "catch on the ribs" : "knit together in so narrow a hose");
    case Reader::Adviser:
      return fmt::format("{} in {} carries curls from {}: {}{}{}.", hose, finding.label, machines,
                         ribbed ? "ribs catch them" : "",
                         ribbed && finding.words[1] == "narrow" ? ", and " : "",
                         finding.words[1] == "narrow" ? "the bore is narrow for them" : "");
    case Reader::Inspector:
      return fmt::format("{}: {} in the way of shavings from {}. Smooth connection not met.", finding.label,
                         hose, machines);
  }
  return {};
}

}  // namespace

const Rule kStringyHose{"stringy-hose", Topic::Conveying, "Curly shavings through hose that catches them",
                        &look, &tell};

}  // namespace kerfdraft::judge
