// Support for tests of rules: an invented shop, solved, with its evidence gathered; what a rule finds in it
// and what it says of that.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "judge/evidence.h"
#include "judge/rule.h"
#include "judge/shops.h"
#include "judge/speech.h"

namespace kerfdraft::tests {

/// Solved and gathered with the shipped tables. Cheap to move; the evidence stays where it is.
class RuleStage {
 public:
  explicit RuleStage(const shop::Project& project, std::vector<judge::StateBands> bands = {})
      : assessment_(std::make_unique<judge::Assessment>(solved(project))) {
    auto gathered = judge::gatherEvidence(*assessment_, shippedTables(), std::move(bands));
    base::check(gathered.has_value(), gathered ? "" : gathered.error().text().c_str());
    evidence_ = std::make_unique<judge::Evidence>(std::move(*gathered));
  }

  const judge::Assessment& assessment() const { return *assessment_; }
  const judge::Evidence& evidence() const { return *evidence_; }

 private:
  std::unique_ptr<judge::Assessment> assessment_;
  std::unique_ptr<judge::Evidence> evidence_;
};

/// What one rule says of a finding.
inline std::string told(const judge::Rule& rule, const judge::Finding& finding,
                        judge::Reader reader = judge::Reader::Adviser,
                        base::UnitSystem units = base::UnitSystem::Metric) {
  return rule.tell(finding, judge::Voice(reader, units));
}

/// Throws where a sentence is empty, shows what is no number, or was put together badly.
inline void checkWords(const std::string& text) {
  for (const char* bad : {" nan", " inf ", "(not computed)", "  ", " ,", " .", "..", ",.", "{", "}", "()"}) {
    base::check(text.find(bad) == std::string::npos, (std::string(bad) + " in: " + text).c_str());
  }
  base::check(!text.empty(), "a sentence is empty");
}

/// What one rule finds, in its order, with rule and state name filled in as the verdict does. Throws where a
/// finding or one of its remedies cannot be told to one of the readers in one of the unit systems.
inline std::vector<judge::Finding> found(const judge::Rule& rule, const RuleStage& stage) {
  std::vector<judge::Finding> out;
  rule.look(stage.evidence(), out);
  for (judge::Finding& finding : out) {
    finding.rule = std::string(rule.key);
    if (finding.state) {
      finding.state_name = stage.evidence().state(*finding.state).name;
    }
    for (const judge::Reader reader :
         {judge::Reader::Owner, judge::Reader::Adviser, judge::Reader::Inspector}) {
      for (const base::UnitSystem units : {base::UnitSystem::Us, base::UnitSystem::Metric}) {
        checkWords(told(rule, finding, reader, units));
        for (const judge::Remedy& remedy : finding.remedies) {
          checkWords(judge::sayRemedy(remedy, judge::Voice(reader, units)));
        }
      }
    }
  }
  return out;
}

/// Those of one state.
inline std::vector<judge::Finding> foundIn(const judge::Rule& rule, const RuleStage& stage,
                                           std::size_t state) {
  std::vector<judge::Finding> out;
  for (judge::Finding& finding : found(rule, stage)) {
    if (finding.state == state) {
      out.push_back(std::move(finding));
    }
  }
  return out;
}

}  // namespace kerfdraft::tests
