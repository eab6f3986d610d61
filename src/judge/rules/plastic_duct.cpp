// Plastic pipe as duct: dust charges it, and nothing on it drains the whole wall. Neither blessed nor banned
// at home; where people are employed the rules ask for metal. Once for the project.
#include <fmt/format.h>

#include <algorithm>

#include "catalogue/row_view.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

bool isPlastic(const Evidence& evidence, const std::string& construction) {
  const auto row = catalogue::RowView::find(evidence.catalogue, "constructions", construction);
  return row && row->yes("plastic");
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  std::vector<std::string> ducts;
  Finding finding;
  for (const shop::Duct* each : printed(evidence.project().ducts)) {
    const shop::Duct& duct = *each;
    const bool plastic =
        std::any_of(duct.corners.begin(), duct.corners.end(), [&](const shop::Corner& corner) {
          return corner.leg && !corner.leg->hose && isPlastic(evidence, corner.leg->construction);
        });
    if (plastic) {
      ducts.push_back(duct.label.empty() ? "a duct without label" : duct.label);
    }
  }
  if (ducts.empty()) {
    return;
  }
  const bool others = answersForOthers(evidence.project());
  const bool all = ducts.size() == evidence.project().ducts.size();
  finding.key = shopKey(evidence.project());
  finding.label = all ? std::string("All ducts") : listed(ducts);
  finding.words = {others ? "others" : "own"};
  finding.words.insert(finding.words.end(), ducts.begin(), ducts.end());
  finding.figures = {{"ducts", static_cast<double>(ducts.size()), base::Kind::Ratio}};
  finding.limit = Limit{0,
                        base::Kind::Ratio,
                        "UfcIndustrialVentilation: 7-4.4",
                        base::SourceStatus::Published,
                        {},
                        "metal duct and conductive hose, bonded and earthed, where people are employed"};
  finding.severity = others ? Severity::Serious : Severity::Note;
  finding.badness = 1;
  finding.defers = others;
  if (others) {
    finding.remedies.push_back({"metal-duct", {}, {finding.label}, {}, {}, {}});
  }
  finding.remedies.push_back({"bond-metal", {}, {finding.label}, {}, {}, {}});
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool others = finding.words[0] == "others";
  const std::string ducts = listedFrom(finding, 1);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} {} of plastic, which dust charges: shocks are real, sparks off loose metal parts too. {}",
          ducts, finding.words.size() == 2 ? "is" : "are",
          others ? "Where others work for you the rules ask for metal duct."
                 : "No home shop is known to have exploded from it, which is no proof that none can; a wire "
                   "on the pipe does not drain it.");
    case Reader::Adviser:
      return fmt::format(
          "Insulating duct: {}. Brush discharges from plastic reach about 4 mJ (IEC 60079-32-1, from "
          "memory); "
          "spruce dust ignites from 10 to 30 mJ, so little lies between. Metal parts that are not bonded "
          "hold "
          "more. A wire in or on the wall does not drain it.{}",
          ducts, others ? " Workplace rules ask for conductive duct." : "");
    case Reader::Inspector:
      return fmt::format("{}: duct of insulating material. Conductive, bonded and earthed duct: {}", ducts,
                         others ? "not met." : "not asked of a shop without employees; noted.");
  }
  return {};
}

}  // namespace

const Rule kPlasticDuct{"plastic-duct", Topic::People, "Ducts of plastic", &look, &tell};

}  // namespace kerfdraft::judge
