// Which limit for wood dust in the breath counts here, by country and wood; and that flows do not answer it.
// Once for the project.
#include <fmt/format.h>

#include <algorithm>

#include "catalogue/countries.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

using catalogue::ExposureLimit;

std::string told(const ExposureLimit& limit) {
  return fmt::format("{} {} ({})", dustText(limit.limit_kg_m3), limit.fraction, limit.name);
}

/// Rows of every wood, the lowest of each fraction; the first where two are alike.
std::vector<ExposureLimit> lowest(const std::vector<ExposureLimit>& rows, std::string_view force) {
  std::vector<ExposureLimit> out;
  for (const ExposureLimit& row : rows) {
    if (row.force != force) {
      continue;
    }
    const auto same = std::find_if(out.begin(), out.end(),
                                   [&](const ExposureLimit& each) { return each.fraction == row.fraction; });
    if (same == out.end()) {
      out.push_back(row);
    } else if (row.limit_kg_m3 < same->limit_kg_m3) {
      *same = row;
    }
  }
  return out;
}

std::vector<ExposureLimit> rowsFor(const Evidence& evidence, const catalogue::PolicyChoice& policy) {
  const shop::Setting& setting = evidence.project().setting;
  if (!policy.usual) {
    std::vector<ExposureLimit> chosen;
    for (ExposureLimit& limit : catalogue::exposureLimits(evidence.catalogue)) {
      if (limit.key == policy.choice) {
        chosen.push_back(std::move(limit));
      }
    }
    return chosen;
  }
  // A mixture counts as hardwood, and so does wood that nobody names.
  const std::vector<std::string> woods =
      setting.woods.empty() ? std::vector<std::string>{"hardwood"} : setting.woods;
  std::vector<ExposureLimit> rows;
  for (const std::string& wood : woods) {
    for (ExposureLimit& limit : catalogue::exposureLimitsFor(evidence.catalogue, setting.country, wood)) {
      rows.push_back(std::move(limit));
    }
  }
  return rows;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const shop::Setting& setting = evidence.project().setting;
  const auto policy = policyTaken(evidence, "exposure-limit");
  if (evidence.project().machines.empty() || !policy) {
    return;
  }
  std::vector<ExposureLimit> rows = rowsFor(evidence, *policy);
  const auto names = catalogue::countryNames(evidence.catalogue, setting.country);
  // Of two that are alike the country's own is named.
  std::stable_partition(rows.begin(), rows.end(), [&](const ExposureLimit& row) {
    return !names.empty() && row.country == names.front();
  });
  const std::vector<ExposureLimit> law = lowest(rows, "law");
  std::vector<ExposureLimit> advised = lowest(rows, "recommendation");
  std::sort(advised.begin(), advised.end(),
            [](const auto& a, const auto& b) { return a.limit_kg_m3 < b.limit_kg_m3; });
  Finding finding;
  finding.key = shopKey(evidence.project());
  finding.words = {setting.woods.empty() && policy->usual ? "assumed" : "named",
                   names.empty() ? std::string("this country") : names.front(),
                   advised.empty() ? std::string() : told(advised.front())};
  for (const ExposureLimit& limit : law) {
    finding.words.push_back(told(limit));
  }
  const ExposureLimit* held = !law.empty() ? &law.front() : (advised.empty() ? nullptr : &advised.front());
  if (held != nullptr) {
    finding.figures = {{"limit", held->limit_kg_m3, base::Kind::Density}};
    finding.limit = limitOf(held->origin, held->limit_kg_m3, base::Kind::Density, policyName(*policy));
    finding.limit->words = told(*held) + " over 8 hours";
  }
  finding.severity = Severity::Note;
  finding.badness = 1;
  finding.defers = true;
  finding.remedies = {{"measure-exposure", {}, {}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string law = listedFrom(finding, 3);
  const std::string& advised = finding.words[2];
  const std::string& country = finding.words[1];
  const std::string assumed =
      finding.words[0] == "assumed" ? " No woods are named here, so hardwood is taken." : "";
  const std::string limits =
      law.empty()
          ? (advised.empty() ? fmt::format("no limit for {} stands in the tables", country)
                             : fmt::format("no lawful limit for {} and these woods stands in the tables; "
                                           "advised: {}",
                                           country, advised))
          : fmt::format("{}: {}{}", country, law, advised.empty() ? "" : "; advised: " + advised);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Wood dust harms nose and lungs. What counts is what you breathe over a day; {}.{} Air at the "
          "machines says nothing about that; only measuring does.",
          limits, assumed);
    case Reader::Adviser:
      return fmt::format("Exposure limits over 8 hours: {}.{} A verdict on flows is not an exposure result.",
                         limits, assumed);
    case Reader::Inspector:
      return fmt::format("Exposure not measured; {}.{} Cannot conclude.", limits, assumed);
  }
  return {};
}

}  // namespace

const Rule kExposureLimit{"exposure-limit", Topic::People, "Limit of dust in the breath", &look, &tell};

}  // namespace kerfdraft::judge
