// Where the suction of the shop's worst path goes, part by part: a note that the charts and the other
// findings about pressure are read with.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

using pieces::Role;

/// The parts in the order of the air.
struct Part {
  std::string_view name;
  std::string_view words;
};
constexpr auto kParts = std::to_array<Part>({
    {"gaps", "gaps of the body"},
    {"entry", "port and hood"},
    {"hose", "hose"},
    {"duct", "straight duct"},
    {"elbows", "elbows"},
    {"steps", "changes of bore"},
    {"gates", "gates"},
    {"meetings", "branch entries"},
    {"separator", "separator"},
    {"inlet", "crowded fan inlet"},
    {"filter", "filter"},
    {"outlet", "outlet"},
});

std::string_view partOf(const SheetRow& row) {
  switch (row.key.role) {
    case Role::Body:
    case Role::Opening:
      return "gaps";
    case Role::Entry:
      return "entry";
    case Role::Hose:
    case Role::HoseBend:
      return "hose";
    case Role::Straight:
      return "duct";
    case Role::Elbow:
      return "elbows";
    case Role::Reducer:
      return "steps";
    case Role::Outlet:
      return "outlet";
    case Role::Gate:
      return "gates";
    case Role::Separator:
      return "separator";
    case Role::Filter:
      return "filter";
    case Role::FanInlet:
      return "inlet";
    default:
      return "meetings";
  }
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  std::optional<Place> worst;
  std::optional<Way> worst_way;
  double least = 0;
  bool least_asked = false;
  forEachWay(evidence, [&](const Place& place, const Way& way) {
    if (!ofUse(evidence, place.state) || !anyCollectorRuns(evidence, place.state)) {
      return;
    }
    const auto need = portNeed(evidence, place.state, place.port);
    const bool asked = need && need->needed_m3_s > 0;
    // Where nothing is asked anywhere, the path that loses most.
    const double rank = asked ? need->flow_m3_s / need->needed_m3_s : -way.lost_pa;
    if (!worst || (asked && !least_asked) || (asked == least_asked && rank < least)) {
      worst = place;
      worst_way = way;
      least = rank;
      least_asked = asked;
    }
  });
  if (!worst) {
    return;
  }
  const pieces::PortPlace& port = evidence.pieces().ports[worst->port];
  Finding finding;
  finding.key = evidence.pieces().runs[port.run].pieces.front().key;
  finding.label = port.label;
  finding.state = worst->state;
  finding.severity = Severity::Note;
  const double flow_m3_s = evidence.state(worst->state).solution.ports[worst->port].flow_m3_s;
  finding.figures = {{"lost", worst_way->lost_pa, base::Kind::Pressure},
                     {"flow", flow_m3_s, base::Kind::VolumeFlow}};
  std::vector<std::pair<double, std::string_view>> dear;
  for (const Part& part : kParts) {
    double loss_pa = 0;
    for (const SheetRow& row : worst_way->rows) {
      loss_pa += !isFan(row) && partOf(row) == part.name ? row.loss_pa : 0;
    }
    if (loss_pa != 0) {
      finding.figures.push_back({part.name, loss_pa, base::Kind::Pressure});
      dear.emplace_back(loss_pa, part.words);
    }
  }
  std::stable_sort(dear.begin(), dear.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  for (const auto& [loss_pa, words] : dear) {
    finding.words.emplace_back(words);
  }
  finding.badness = 1;
  finding.runs = evidence.path(worst->state, worst->port);
  finding.ports = {worst->port};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const double lost_pa = finding.figure("lost").value;
  const std::string lost = voice.show(finding.figure("lost"));
  std::vector<std::string> parts;
  for (const std::string& words : finding.words) {
    const auto part =
        std::find_if(kParts.begin(), kParts.end(), [&](const Part& each) { return each.words == words; });
    const Figure& loss = finding.figure(part->name);
    parts.push_back(voice.reader() == Reader::Owner
                        ? fmt::format("{} {}", words, voice.percent(loss.value / lost_pa))
                        : fmt::format("{} {}", words, voice.show(loss)));
    if (voice.reader() == Reader::Owner && parts.size() == 3) {
      break;
    }
  }
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("Most of the suction for {} goes into: {}.", finding.label, listed(parts));
    case Reader::Adviser:
      return fmt::format("{} loses {} of total pressure at {}, from the room to free air again: {}.",
                         finding.label, lost, voice.show(finding.figure("flow")), listed(parts));
    case Reader::Inspector:
      return fmt::format("{}: loss of total pressure on its whole way {} at {} (predicted).", finding.label,
                         lost, voice.show(finding.figure("flow")));
  }
  return {};
}

}  // namespace

const Rule kPathLoss{"path-loss", Topic::Pressure, "Where the suction of the worst path goes", &look,
                     &tidied<tell>};

}  // namespace kerfdraft::judge
