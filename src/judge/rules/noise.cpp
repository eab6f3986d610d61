// How loud machines of these kinds were found to be at work, against the levels that count here. Nothing is
// measured, so nothing is concluded; one finding for the project.
#include "catalogue/noise.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue/row_view.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// A day's work that all levels are given for.
constexpr double kDay_s = 8 * 3600;

struct Level {
  std::string name;
  double level_db = 0;
  double exchange_db = 3;
  bool law = false;
  catalogue::Origin origin;
};

Level levelOf(const catalogue::NoiseLimit& limit) {
  return {limit.name, limit.level_db, limit.exchange_db, limit.force == "law", limit.origin};
}

/// A level that the project chose; else the country's lawful level at which something must be done for
/// hearing, else what is advised there; else the advice that stands in the tables for the United States.
std::optional<Level> levelTaken(const Evidence& evidence, const catalogue::PolicyChoice& policy) {
  const std::string& country = evidence.project().setting.country;
  const auto here = catalogue::noiseLimitsFor(evidence.catalogue, country);
  const auto advised = catalogue::noiseLimitsFor(evidence.catalogue, "US");
  if (!policy.usual) {
    const auto row = catalogue::RowView::find(evidence.catalogue, "noise_limits", policy.choice);
    return row ? std::optional(Level{row->name(), row->number("level_db"), row->number("exchange_db"),
                                     row->text("force") == "law", row->origin()})
               : std::nullopt;
  }
  for (const auto& [list, law] :
       {std::pair{&here, true}, std::pair{&here, false}, std::pair{&advised, false}}) {
    const auto found = std::find_if(list->begin(), list->end(), [law = law](const auto& each) {
      return law ? each.force == "law" && each.level == "action" : each.force != "law";
    });
    if (found != list->end()) {
      return levelOf(*found);
    }
  }
  return std::nullopt;
}

std::string db(double level) {
  return fmt::format("{:.0f} dB(A)", level);
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const auto policy = policyTaken(evidence, "noise-limit");
  const auto level = policy ? levelTaken(evidence, *policy) : std::nullopt;
  if (!level || !(level->exchange_db > 0)) {
    return;
  }
  Finding finding;
  double loudest_db = 0;
  std::optional<catalogue::MachineNoise> loudest;
  for (const shop::Machine* each : printed(evidence.project().machines)) {
    const shop::Machine& machine = *each;
    const auto noise = catalogue::machineNoise(evidence.catalogue, machine.kind);
    if (!noise || !(noise->high_db > level->level_db)) {
      continue;
    }
    finding.words.push_back(evidence.machineName(machine.id));
    if (noise->high_db > loudest_db) {
      loudest_db = noise->high_db;
      loudest = noise;
      finding.key = {pieces::Role::Body, machine.id, {}};
    }
  }
  if (!loudest) {
    return;
  }
  // So much louder halves the time so many times.
  const double over_db = loudest_db - level->level_db;
  const double time_s = kDay_s * std::exp2(-over_db / level->exchange_db);
  finding.label = listed(finding.words);
  finding.words.insert(finding.words.begin(), {level->name, loudest->origin.source});
  finding.figures = {{"high", loudest_db, base::Kind::Ratio},
                     {"level", level->level_db, base::Kind::Ratio},
                     {"exchange", level->exchange_db, base::Kind::Ratio},
                     {"time", time_s, base::Kind::Time}};
  if (loudest->low_db) {
    finding.figures.push_back({"low", *loudest->low_db, base::Kind::Ratio});
  }
  if (const auto unit = catalogue::collectorNoise(evidence.catalogue);
      unit && !evidence.project().collectors.empty()) {
    finding.figures.push_back({"collector", unit->high_db, base::Kind::Ratio});
  }
  finding.limit = limitOf(level->origin, level->level_db, base::Kind::Ratio, policyName(*policy));
  finding.limit->words = fmt::format("{} over a day of 8 hours, {} dB more halve the time ({})",
                                     db(level->level_db), level->exchange_db, level->name);
  const bool others = answersForOthers(evidence.project());
  finding.severity = others ? Severity::Caution : Severity::Note;
  finding.badness = std::min(over_db / 10, 10.0);
  finding.defers = others;
  finding.remedies = {{"protect-hearing", {}, {finding.label}, {}, {}, {}},
                      {"quiet-collector", {}, {}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const Figure* low = finding.findFigure("low");
  const double high = finding.figure("high").value;
  const std::string range =
      low == nullptr ? "up to " + db(high) : fmt::format("{:.0f} to {}", low->value, db(high));
  const std::string level = db(finding.figure("level").value);
  const std::string time = voice.show(finding.figure("time"));
  const Figure* collector = finding.findFigure("collector");
  const std::string unit = collector == nullptr
                               ? std::string()
                               : fmt::format(" A collector near by adds up to {}.", db(collector->value));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Machines like {} are loud enough to cost hearing: {} at the loudest of them, which takes up a "
          "whole "
          "day's dose in about {}.{}",
          finding.label, range, time, unit);
    case Reader::Adviser:
      return fmt::format(
          "{}: printed levels of such machines {} at the operator ({}), against {} over 8 hours ({}; {} dB "
          "halve "
          "the time): {} a day at the upper end.{} Nothing here was measured.",
          finding.label, range, finding.words[1], level, finding.words[0], finding.figure("exchange").value,
          time, unit);
    case Reader::Inspector:
      return fmt::format(
          "{}: noise not measured; machines of the kind are printed at {}, level {}. Cannot "
          "conclude.",
          finding.label, range, level);
  }
  return {};
}

}  // namespace

const Rule kNoise{"noise", Topic::People, "Loud machines", &look, &tell};

}  // namespace kerfdraft::judge
