// How long the bin lasts when the machines of the busiest state work. A full cyclone bin sends everything on
// to the filter.
#include <fmt/format.h>

#include <optional>

#include "judge/rules/bin_support.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/filter_bin_rules.h"
#include "physics/waste.h"

namespace kerfdraft::judge {

namespace {

/// A bin counts as full at 75 to 80 % of its volume (common practice): the lower end.
constexpr double kFull = 0.75;
/// Machines cut 5 to 30 % of the time in small shops, 40 to 70 % in production (common practice): the upper
/// ends.
constexpr double kSmallShop = 0.30;
constexpr double kProduction = 0.70;
/// Emptying more often than this hinders the work (ours).
constexpr double kSoon_s = 1800;

struct Worst {
  std::size_t state = 0;
  Falling falling;
};

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const auto wood = woodTaken(evidence);
  if (!wood) {
    return;
  }
  const double duty = evidence.project().setting.who == shop::Who::Employer ? kProduction : kSmallShop;
  for (const shop::Collector& collector : evidence.project().collectors) {
    const auto fan = fanOf(evidence.pieces(), collector.id);
    const shop::Separator* separator = withBin(collector);
    if (!fan || separator == nullptr) {
      continue;
    }
    std::optional<Worst> worst;
    for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
      if (!evidence.solved(s) || !evidence.state(s).declared) {
        continue;
      }
      Falling falling = fallingInto(evidence, s, *fan, *wood);
      if (falling.loose_m3_s > 0 && (!worst || falling.loose_m3_s > worst->falling.loose_m3_s)) {
        worst = Worst{s, std::move(falling)};
      }
    }
    if (!worst) {
      continue;
    }
    const double bin_m3 = separator->bin->si();
    const double time_s = physics::binFillTime(bin_m3, kFull, worst->falling.loose_m3_s, duty);
    Finding finding;
    finding.key = {pieces::Role::Separator, separator->id, {}};
    finding.label = binLabel(collector, *separator);
    finding.state = worst->state;
    finding.figures = {
        {"time", time_s, base::Kind::Time},
        {"time-cutting", physics::binFillTime(bin_m3, kFull, worst->falling.loose_m3_s, 1), base::Kind::Time},
        {"time-least", physics::binFillTime(bin_m3, kFull, worst->falling.loose_high_m3_s, duty),
         base::Kind::Time},
        {"bin", bin_m3, base::Kind::Volume},
        {"duty", duty, base::Kind::Ratio},
        {"loose", worst->falling.loose_m3_s, base::Kind::VolumeFlow},
        {"density", wood->density_kg_m3, base::Kind::Density}};
    finding.words = {wood->name, wood->assumed ? "assumed" : "known"};
    for (const base::Id machine : worst->falling.machines) {
      finding.words.push_back(evidence.machineName(machine));
    }
    finding.limit = Limit{kSoon_s, base::Kind::Time, {}, base::SourceStatus::Ours, {}};
    finding.severity = time_s < kSoon_s ? Severity::Caution : Severity::Note;
    finding.badness = badnessOf(kSoon_s / time_s);
    if (time_s < kSoon_s) {
      finding.remedies = {{"bigger-bin",
                           {{"bin", bin_m3 * kSoon_s / time_s, base::Kind::Volume}},
                           {finding.label},
                           {},
                           {},
                           {}}};
    }
    finding.remedies.push_back({"empty-bin",
                                {{"time-cutting", finding.figure("time-cutting").value, base::Kind::Time}},
                                {finding.label},
                                {},
                                {},
                                {}});
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string time = voice.show(finding.figure("time"));
  const std::string cutting = voice.show(finding.figure("time-cutting"));
  const std::string bin = voice.show(finding.figure("bin"));
  const std::string who = listedFrom(finding, 2);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "With {} at work the {} ({}) is full after {} of cutting. A full bin sends the chips on "
          "into the filter.",
          who, finding.label, bin, cutting);
    case Reader::Adviser: {
      const std::string least = voice.show(finding.figure("time-least"));
      return fmt::format(
          "The {}, {}, is three quarters full after {} of cutting, {} with a duty of {}{}; {}, and the wood "
          "taken as "
          "{} of {}{}.",
          finding.label, bin, cutting, time, voice.percent(finding.figure("duty").value),
          least == time ? std::string() : fmt::format(" ({} where chips lie loosest)", least), who,
          finding.words[0], voice.show(finding.figure("density")),
          finding.words[1] == "assumed" ? ", since none is named" : "");
    }
    case Reader::Inspector:
      return fmt::format("The {} ({}): predicted to fill within {} of work ({} of cutting).", finding.label,
                         bin, time, cutting);
  }
  return {};
}

}  // namespace

const Rule kBinFills{"bin-fills", Topic::FilterAndBin, "How soon the bin is full", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
