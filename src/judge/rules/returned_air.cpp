// Air of a collector that comes back into the room: the finest dust, which a filter lets through, comes back
// with it and stays. One finding for the project.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Woods for which the Austrian lexicon does not allow returned air where much of them is worked.
bool beechOrOak(const std::string& wood) {
  return wood == "beech" || wood == "red-oak" || wood == "white-oak";
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const shop::Setting& setting = evidence.project().setting;
  std::vector<std::string> filtered;
  std::vector<std::string> bare;
  Finding finding;
  for (const DuctSystem& system : ductSystems(evidence)) {
    for (const std::size_t fan : system.fans) {
      const shop::Collector* collector = evidence.collector(evidence.pieces().fans[fan].id);
      if (collector == nullptr || outletOf(evidence.pieces(), fan) != Outlet::Room) {
        continue;
      }
      if (filtered.empty() && bare.empty()) {
        finding.key = evidence.pieces().fans[fan].key;
      }
      (collector->filters.empty() ? bare : filtered).push_back(fanName(evidence.pieces(), fan));
    }
  }
  if (filtered.empty() && bare.empty()) {
    return;
  }
  const bool others = answersForOthers(evidence.project());
  const bool refused = others && setting.country == "AT" &&
                       std::any_of(setting.woods.begin(), setting.woods.end(), beechOrOak);
  std::vector<std::string> all = bare;
  all.insert(all.end(), filtered.begin(), filtered.end());
  finding.label = listed(all);
  finding.figures = {{"bare", static_cast<double>(bare.size()), base::Kind::Ratio}};
  finding.words = {refused ? "refused" : (setting.country == "DE" ? "germany" : "usual")};
  finding.words.insert(finding.words.end(), all.begin(), all.end());
  if (refused) {
    finding.limit = Limit{0,
                          base::Kind::Ratio,
                          "AuvaLexikon: wood dust",
                          base::SourceStatus::Published,
                          {},
                          "no returned air where much beech or oak is worked"};
  } else if (const auto policy = policyTaken(evidence, "return-air-dust"); policy && policy->dust_kg_m3) {
    finding.figures.push_back({"dust", *policy->dust_kg_m3, base::Kind::Density});
    finding.limit = limitOf(policy->origin, *policy->dust_kg_m3, base::Kind::Density, policyName(*policy));
    finding.limit->words = dustText(*policy->dust_kg_m3) + " of dust in the returned air";
  }
  if (refused || (others && !bare.empty())) {
    finding.severity = Severity::Serious;
  } else {
    finding.severity = others || !bare.empty() ? Severity::Caution : Severity::Note;
  }
  finding.badness = 1;
  finding.defers = others;
  finding.remedies = {{"fine-filter", {}, all, {}, {}, {}}, {"lead-outdoors", {}, all, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const auto bare = static_cast<std::size_t>(finding.figure("bare").value);
  const std::size_t all = finding.words.size() - 1;
  const std::string names = listedFrom(finding, 1);
  const std::string unfiltered =
      bare == 0 ? std::string()
                : fmt::format(" No filter is drawn on {}.", listed(firstWords(finding, 1, bare)));
  const bool germany = finding.words[0] == "germany";
  const bool refused = finding.words[0] == "refused";
  const Figure* dust = finding.findFigure("dust");
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Fine dust: the air of {} comes back into the room, with what {} through: the part that reaches "
          "the "
          "lungs.{} Flows do not say what is breathed.",
          names, all == 1 ? "its filter lets" : "their filters let", unfiltered);
    case Reader::Adviser:
      return fmt::format(
          "Air of {} returns to the room; residual dust is not computed{}.{}{}", names,
          dust == nullptr ? std::string()
                          : fmt::format(" and would be held against {}", dustText(dust->value)),
          unfiltered,
          germany
              ? " German rules for returned air: at most 0.5 % of the test dust through the medium, at "
                "most 150 m³/h through each square metre of it, a flap between return and exhaust, and "
                "monitoring (TRGS 553, 4.3 (7); DGUV 209-044, 5.4)."
              : (refused ? " Austria does not allow returned air where much beech or oak is worked." : ""));
    case Reader::Inspector:
      return fmt::format("{}: air returned to the workroom.{} Residual dust content: {}", names, unfiltered,
                         refused ? "not to be judged, since returned air is not allowed for these woods. Not "
                                   "met."
                                 : "cannot conclude from flows.");
  }
  return {};
}

}  // namespace

const Rule kReturnedAir{"returned-air", Topic::People, "Air comes back into the room", &look, &tell};

}  // namespace kerfdraft::judge
