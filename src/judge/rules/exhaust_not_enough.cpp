// Machines at which the German rule does not take its limit as kept even with exhaust, beyond a short time a
// shift. Only where that rule counts; one finding for the project.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

#include "catalogue/row_view.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Our kinds of machine and the rows of emission_lists that name them.
constexpr std::array kListed = {
    std::pair{"band-saw", "over-band-saw"},
    std::pair{"router", "over-router"},
    std::pair{"lathe", "over-lathe"},
};

void look(const Evidence& evidence, std::vector<Finding>& out) {
  if (evidence.project().setting.country != "DE") {
    return;
  }
  Finding finding;
  double shortest_s = std::numeric_limits<double>::infinity();
  std::vector<std::string> names;
  std::vector<std::string> times;
  for (const shop::Machine* each : printed(evidence.project().machines)) {
    const shop::Machine& machine = *each;
    const auto* const known = std::find_if(kListed.begin(), kListed.end(),
                                           [&](const auto& row) { return machine.kind == row.first; });
    const auto row = known == kListed.end() ? std::nullopt : [&]() -> std::optional<catalogue::RowView> {
      auto found = catalogue::RowView::find(evidence.catalogue, "emission_lists", known->second);
      return found ? std::optional(*found) : std::nullopt;
    }();
    const auto time_s = row ? row->maybe("time") : std::nullopt;
    if (!time_s) {
      continue;
    }
    if (names.empty()) {
      finding.key = {pieces::Role::Body, machine.id, {}};
    }
    names.push_back(evidence.machineName(machine.id));
    times.push_back(fmt::format("{:.3g} h", *time_s / 3600));
    if (*time_s < shortest_s) {
      shortest_s = *time_s;
      finding.limit = limitOf(row->origin(), *time_s, base::Kind::Time);
      finding.limit->words = fmt::format("at most {:.3g} h a shift", *time_s / 3600);
    }
  }
  if (names.empty()) {
    return;
  }
  finding.label = listed(names);
  for (std::size_t i = 0; i < names.size(); ++i) {
    finding.words.push_back(names.size() == 1 ? times[i] : fmt::format("{} {}", names[i], times[i]));
  }
  finding.figures = {{"time", shortest_s, base::Kind::Time}};
  const bool others = answersForOthers(evidence.project());
  finding.severity = others ? Severity::Caution : Severity::Note;
  finding.badness = 1;
  finding.defers = others;
  finding.remedies = {{"short-use", {}, names, {}, {}, {}}, {"wear-mask", {}, {}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string times = listedFrom(finding, 0);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "At {} exhaust alone may not be enough: so much dust stays in the air that the German rule trusts "
          "it "
          "only for a short time a shift ({}).",
          finding.label, times);
    case Reader::Adviser:
      return fmt::format(
          "2 mg/m³ is not presumed kept at {} even with exhaust, beyond this machine time a shift: {}. "
          "Beyond "
          "that exposure has to be measured.",
          finding.label, times);
    case Reader::Inspector:
      return fmt::format(
          "{}: limit not presumed kept by exhaust beyond {}. Cannot conclude without "
          "measurement or machine times.",
          finding.label, times);
  }
  return {};
}

}  // namespace

const Rule kExhaustNotEnough{"exhaust-not-enough", Topic::People, "Exhaust alone may not be enough", &look,
                             &tell};

}  // namespace kerfdraft::judge
