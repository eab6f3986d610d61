// A filter bag in the open, indoors, blown up from inside: what burns or bursts in it does so among people,
// and what passes the cloth is breathed at once. One finding for the project.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// How far from people such a bag stands by the workplace law of Québec (RrohsQuebec, s. 59.1); the US wood
/// rule says 20 ft (Nfpa664, from memory), which is a tenth of a metre more.
constexpr double kAway_m = 6;
/// The most that one may move by the same law.
constexpr double kMostFlow_m3_s = 2.4;
constexpr const char* kQuebec = "RrohsQuebec: s. 59.1";

/// Sanders through which the work is fed by the machine: such a bag may not stand behind one.
bool feedsItself(const std::string& kind) {
  return kind == "drum-sander" || kind == "wide-belt-sander" || kind == "multi-drum-sander";
}

double planDistance(const shop::Point& a, const shop::Point& b) {
  return 1e-6 * std::hypot(static_cast<double>(a.x_um - b.x_um), static_cast<double>(a.y_um - b.y_um));
}

bool openInRoom(const shop::Collector& collector) {
  return collector.room.valid() &&
         std::any_of(collector.filters.begin(), collector.filters.end(),
                     [](const shop::Filter& filter) { return filter.housing == shop::Housing::Open; });
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  Finding finding;
  std::vector<std::string> units;
  double nearest_m = std::numeric_limits<double>::infinity();
  double flow_m3_s = 0;
  bool sanding = false;
  bool fed = false;
  for (const DuctSystem& system : ductSystems(evidence)) {
    for (const std::size_t fan : system.fans) {
      const shop::Collector* collector = evidence.collector(evidence.pieces().fans[fan].id);
      if (collector == nullptr || !openInRoom(*collector)) {
        continue;
      }
      if (units.empty()) {
        finding.key = evidence.pieces().fans[fan].key;
      }
      units.push_back(fanName(evidence.pieces(), fan));
      if (const auto most = mostFlow(evidence, fan)) {
        flow_m3_s = std::max(flow_m3_s, most->flow_m3_s);
      }
      for (const shop::Machine& machine : evidence.project().machines) {
        if (machine.room == collector->room) {
          nearest_m = std::min(nearest_m, planDistance(machine.at, collector->at));
        }
      }
      for (const base::Id sander : sandersOn(evidence, system)) {
        sanding = true;
        fed = fed || feedsItself(evidence.machine(sander)->kind);
      }
    }
  }
  if (units.empty()) {
    return;
  }
  finding.label = listed(units);
  finding.figures = {{"away", kAway_m, base::Kind::Length},
                     {"most-flow", kMostFlow_m3_s, base::Kind::VolumeFlow}};
  if (flow_m3_s > 0) {
    finding.figures.push_back({"flow", flow_m3_s, base::Kind::VolumeFlow});
  }
  if (std::isfinite(nearest_m)) {
    finding.figures.push_back({"nearest", nearest_m, base::Kind::Length});
  }
  finding.words = {fed ? "fed" : (sanding ? "sanding" : "chips")};
  finding.words.insert(finding.words.end(), units.begin(), units.end());
  finding.limit = Limit{kAway_m, base::Kind::Length, kQuebec, base::SourceStatus::Published, {}, {}};
  const bool others = answersForOthers(evidence.project());
  if (others) {
    finding.severity = sanding ? Severity::Serious : Severity::Caution;
  } else {
    finding.severity = sanding ? Severity::Caution : Severity::Note;
  }
  finding.badness = std::isfinite(nearest_m) && nearest_m < kAway_m ? 2 - nearest_m / kAway_m : 1;
  finding.defers = others;
  finding.remedies = {{"enclose-filter", {{"away", kAway_m, base::Kind::Length}}, units, {}, {}, {}},
                      {"empty-outdoors", {}, units, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string names = listedFrom(finding, 1);
  const bool one = finding.words.size() == 2;
  const bool sanding = finding.words[0] != "chips";
  const bool fed = finding.words[0] == "fed";
  const std::string away = voice.show(finding.figure("away"));
  const Figure* nearest = finding.findFigure("nearest");
  const Figure* flow = finding.findFigure("flow");
  const std::string distance =
      nearest == nullptr ? std::string() : fmt::format(", {} from the nearest machine", voice.show(*nearest));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} {} in the open indoors{}: a fire or a burst in it is among people, and dust that passes the "
          "cloth is breathed.{}",
          names, one ? "has a bag" : "have bags", distance,
          sanding ? " Dust of sanders goes in there, which burns fastest." : "");
    case Reader::Adviser:
      return fmt::format(
          "Filter in the open under pressure, indoors: {}{}{}. Held against the workplace rule of Québec: {} "
          "from people, at most {} each, emptied often{}. The rule of wood shops in the United States is "
          "close to it (from memory); at home neither binds.",
          names, distance, flow == nullptr ? std::string() : fmt::format(", {}", voice.show(*flow)), away,
          voice.show(finding.figure("most-flow")),
          fed ? ", and never behind a sander that feeds itself, as here" : "");
    case Reader::Inspector: {
      const bool near = nearest != nullptr && nearest->value < finding.figure("away").value;
      const char* verdict = near ? "Not met." : "Cannot conclude: the places of people are not known.";
      if (!finding.defers) {
        verdict = "Asked of workplaces only; noted.";
      } else if (fed) {
        verdict = "Behind a sander with mechanical feed: not met.";
      }
      return fmt::format("{}: filter not enclosed, indoors{}; asked {} or a shield. {}", names, distance,
                         away, verdict);
    }
  }
  return {};
}

}  // namespace

const Rule kOpenBag{"open-bag", Topic::People, "Filter bag in the open", &look, &tell};

}  // namespace kerfdraft::judge
