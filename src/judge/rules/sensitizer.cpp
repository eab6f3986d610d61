// Woods that are known to make people allergic, from the list of what is worked here. Once for the project.
#include <fmt/format.h>

#include "catalogue/materials.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Named for asthma and inflamed lungs beyond the other woods of the list (HseWis30, as summarized).
bool namedForAsthma(const std::string& wood) {
  return wood == "western-red-cedar" || wood == "iroko";
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  std::vector<std::string> asthma;
  std::vector<std::string> names;
  for (const std::string& key : evidence.project().setting.woods) {
    const auto wood = catalogue::wood(evidence.catalogue, key);
    if (wood && wood->sensitizer) {
      (namedForAsthma(key) ? asthma : names).push_back(wood->name);
    }
  }
  if (asthma.empty() && names.empty()) {
    return;
  }
  Finding finding;
  finding.key = shopKey(evidence.project());
  finding.figures = {{"asthma", static_cast<double>(asthma.size()), base::Kind::Ratio}};
  finding.words = asthma;
  finding.words.insert(finding.words.end(), names.begin(), names.end());
  finding.label = listed(finding.words);
  finding.limit = Limit{0,
                        base::Kind::Ratio,
                        "HseWis30: table 2",
                        base::SourceStatus::FromMemory,
                        {},
                        "the list of woods most cited for allergies of the breath"};
  const bool others = answersForOthers(evidence.project());
  finding.severity = others || !asthma.empty() ? Severity::Caution : Severity::Note;
  finding.badness = 1;
  finding.remedies = {{"wear-mask", {}, {}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const auto asthma = static_cast<std::size_t>(finding.figure("asthma").value);
  const std::string worst = listed(firstWords(finding, 0, asthma));
  const bool one = finding.words.size() == 1;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Dust of {} can make the skin and the lungs allergic{}. Once that has happened, very little sets "
          "it "
          "off again.",
          finding.label,
          worst.empty() || worst == finding.label ? (worst.empty() ? "" : ", as far as asthma")
                                                  : fmt::format("; {} as far as asthma", worst));
    case Reader::Adviser:
      return fmt::format(
          "{} {} on the list of woods most cited as respiratory sensitizers{}. Limits do not protect those "
          "who "
          "are sensitized; woods off the list are not thereby harmless.",
          finding.label, one ? "is" : "are",
          worst.empty() ? std::string() : fmt::format("; {} named for asthma and alveolitis", worst));
    case Reader::Inspector:
      return fmt::format("Sensitizing woods worked here: {}. Exposure: cannot conclude.", finding.label);
  }
  return {};
}

}  // namespace

const Rule kSensitizer{"sensitizer", Topic::People, "Woods that cause allergies", &look, &tell};

}  // namespace kerfdraft::judge
