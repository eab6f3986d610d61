// What every paper is made from: results and judgements that are there already. Papers compute no air.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "catalogue/catalogue.h"
#include "doubt/chances.h"
#include "doubt/matters.h"
#include "doubt/propagate.h"
#include "judge/assessment.h"
#include "judge/evidence.h"
#include "judge/rule.h"
#include "judge/verdict.h"

namespace kerfdraft::papers {

/// References; lives no longer than what it was made from.
struct PaperInput {
  const judge::Assessment& assessment;
  const catalogue::Catalogue& catalogue;
  const judge::Evidence& evidence;
  const judge::Verdict& verdict;
  std::span<const doubt::StateChances> chances;  ///< by state
  std::span<const doubt::Matter> matters;        ///< the greatest first
  std::string date;                              ///< as printed: "2026-01-15"
  base::UnitSystem units = base::UnitSystem::Us;
  judge::Reader reader = judge::Reader::Owner;
};

/// Everything that papers need beside the assessment and the catalogue, held together.
class Judgement {
 public:
  /// Bands, evidence, verdict, chances, and what matters most. Both references must outlive it. Errors: those
  /// of judge::gatherEvidence() and doubt::chances().
  static base::Result<std::unique_ptr<Judgement>> of(const judge::Assessment& assessment,
                                                     const catalogue::Catalogue& catalogue);

  const judge::Assessment& assessment() const { return assessment_; }
  const judge::Evidence& evidence() const { return evidence_; }
  const judge::Verdict& verdict() const { return verdict_; }
  std::span<const doubt::StateChances> chances() const { return chances_; }
  std::span<const doubt::Matter> matters() const { return matters_; }

  PaperInput input(std::string date, base::UnitSystem units, judge::Reader reader) const;

 private:
  Judgement(const judge::Assessment& assessment, const catalogue::Catalogue& catalogue,
            judge::Evidence evidence);

  const judge::Assessment& assessment_;
  const catalogue::Catalogue& catalogue_;
  judge::Evidence evidence_;
  judge::Verdict verdict_;
  std::vector<doubt::StateDoubt> doubts_;
  std::vector<doubt::StateChances> chances_;
  std::vector<doubt::Matter> matters_;
};

}  // namespace kerfdraft::papers
