// People are employed or taught here: then law asks for examinations, records and limits that no plan of
// flows can meet by itself. Says which duties there are and that these figures are no approval. Once for the
// project.
#include <fmt/format.h>

#include "catalogue/countries.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Longest time between thorough examinations in the United Kingdom: 14 months of a twelfth of a year.
constexpr double kExamined_s = 14.0 / 12 * 365.25 * 86400;

struct Duties {
  const char* country;  ///< ISO code; empty: where nothing was read
  const char* owner;
  const char* adviser;
  const char* source;
  base::SourceStatus status;
  const char* words;
};

constexpr Duties kDuties[] = {
    {"GB",
     "a competent person examines the plant at least every 14 months, and the records are kept for five "
     "years",
     "thorough examination at least every 14 months (HSE), records for five years (COSHH reg. 9, as "
     "summarized by "
     "testers): what was intended, what was found, what is to be repaired",
     "HseLev: questions and answers", base::SourceStatus::Published,
     "a thorough examination at least every 14 months"},
    {"DE",
     "the speed of the air at every machine is measured before first use and after changes, the plant is "
     "looked "
     "at daily and checked monthly, and once a year that is written down",
     "speed at the connections measured and recorded before first use and after significant change; daily "
     "look, "
     "monthly check of function, yearly record (TRGS 553, 2008, 4.2 (2) to (4))",
     "Trgs553: 2008 issue, 4.2 (2) to (4)", base::SourceStatus::Published,
     "speed at the connections measured before first use, and a yearly record"},
    {"US",
     "the exposure limits of federal or state law bind, and wood dust needs a look at its fire hazard first",
     "exposure limits of federal or state law, and by the wood fire code an analysis of the dust hazard "
     "(from "
     "memory)",
     "Nfpa664: dust hazard analysis", base::SourceStatus::FromMemory, "an analysis of the dust hazard"},
    {"", "law sets limits, examinations and records",
     "limits, examinations and records are those of local law", "", base::SourceStatus::Ours, "local law"},
};

const Duties& dutiesOf(const std::string& country) {
  for (const Duties& duties : kDuties) {
    if (country == duties.country) {
      return duties;
    }
  }
  return kDuties[std::size(kDuties) - 1];
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const shop::Project& project = evidence.project();
  if (!answersForOthers(project)) {
    return;
  }
  const Duties& duties = dutiesOf(project.setting.country);
  const auto names = catalogue::countryNames(evidence.catalogue, project.setting.country);
  Finding finding;
  finding.key = shopKey(project);
  finding.severity = Severity::Note;
  finding.badness = 1;
  finding.defers = true;
  finding.words = {project.setting.who == shop::Who::School ? "school" : "employer",
                   names.empty() ? std::string("this country") : names.front(), duties.country};
  if (*duties.source != '\0') {
    finding.limit = Limit{0, base::Kind::Ratio, duties.source, duties.status, {}, duties.words};
  }
  if (std::string_view(duties.country) == "GB") {
    finding.figures = {{"examined", kExamined_s, base::Kind::Time}};
  }
  finding.remedies = {{"examine", {}, {}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const Duties& duties = dutiesOf(finding.words[2]);
  const char* who = finding.words[0] == "school" ? "Pupils and teachers work" : "Others work";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} here, so ({}) {}. These figures are a plan, not an approval.", who,
                         finding.words[1], duties.owner);
    case Reader::Adviser:
      return fmt::format("{} here. {}: {}. Flows as predicted here are no proof of any of it.", who,
                         finding.words[1], duties.adviser);
    case Reader::Inspector:
      return fmt::format("{} here ({}). Asked: {}. Cannot conclude from a plan.", who, finding.words[1],
                         duties.words);
  }
  return {};
}

}  // namespace

const Rule kEmployees{"employees", Topic::People, "Duties to those who work here", &look, &tell};

}  // namespace kerfdraft::judge
