// Nothing between the collector and the ducts stops a flame: what flashes in the filter or the bin runs back
// along the ducts to where people stand. Asked where others work, where sanding dust goes in, and where the
// dirty side is large. One finding for the project.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Dirty-side volume from which the European standard for indoor units asks for more (En16770, as summarized
/// in the trade press).
constexpr double kLarge_m3 = 0.8;

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const bool others = answersForOthers(evidence.project());
  std::vector<std::string> units;
  Finding finding;
  bool sanding = false;
  bool large = false;
  bool damped = true;
  double largest_m3 = 0;
  for (const DuctSystem& system : ductSystems(evidence)) {
    const bool sands = !sandersOn(evidence, system).empty();
    for (const std::size_t fan : system.fans) {
      const shop::Collector* collector = evidence.collector(evidence.pieces().fans[fan].id);
      if (collector == nullptr || collector->isolation || system.machines.empty() ||
          (collector->separators.empty() && collector->filters.empty())) {
        continue;
      }
      double bins_m3 = 0;
      for (const shop::Separator& separator : collector->separators) {
        bins_m3 += separator.bin ? separator.bin->si() : 0;
      }
      if (!others && !sands && !(bins_m3 > kLarge_m3)) {
        continue;
      }
      if (units.empty()) {
        finding.key = evidence.pieces().fans[fan].key;
      }
      units.push_back(fanName(evidence.pieces(), fan));
      sanding = sanding || sands;
      large = large || bins_m3 > kLarge_m3;
      largest_m3 = std::max(largest_m3, bins_m3);
      damped = damped && collector->non_return;
    }
  }
  if (units.empty()) {
    return;
  }
  finding.label = listed(units);
  finding.words = {sanding ? "sanding" : "chips", damped ? "damped" : "open"};
  finding.words.insert(finding.words.end(), units.begin(), units.end());
  if (large) {
    finding.figures.push_back({"bin", largest_m3, base::Kind::Volume});
    finding.figures.push_back({"large", kLarge_m3, base::Kind::Volume});
  }
  finding.limit = Limit{0,
                        base::Kind::Ratio,
                        "Nfpa664: isolation of ducts",
                        base::SourceStatus::FromMemory,
                        {},
                        "a flame in the collector must not run back to the shop"};
  if (others) {
    finding.severity = sanding ? Severity::Serious : Severity::Caution;
  } else {
    finding.severity = large ? Severity::Caution : Severity::Note;
  }
  finding.badness = 1;
  finding.defers = true;
  finding.remedies = {{"fit-isolation", {}, units, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string units = listedFrom(finding, 2);
  const bool sanding = finding.words[0] == "sanding";
  const bool open = finding.words[1] == "open";
  const Figure* bin = finding.findFigure("bin");
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Fire: if dust flashes in {}, nothing keeps the flame from running back through the ducts to the "
          "machines.{}",
          units, sanding ? " Sanding dust goes in there, which flashes most easily." : "");
    case Reader::Adviser:
      return fmt::format(
          "{}: no isolation drawn between collector and ducts{}{}{}. Which kind is right depends on how the "
          "dust burns and how the housing vents: not a matter of flow.",
          units, open ? ", and no damper that shuts when it stands" : "",
          sanding ? "; carries sanding dust" : "",
          bin == nullptr ? std::string()
                         : fmt::format("; bins hold {}, the European standard for indoor units asks for more "
                                       "from {}",
                                       voice.show(*bin), voice.show(finding.figure("large"))));
    case Reader::Inspector:
      return fmt::format("{}: explosion isolation not recorded{}. Cannot conclude from flows.", units,
                         sanding ? "; sanding dust is collected" : "");
  }
  return {};
}

}  // namespace

const Rule kNoIsolation{"no-isolation", Topic::People, "Nothing stops a flame in the ducts", &look, &tell};

}  // namespace kerfdraft::judge
