// Gathers a judgement in the one order in which it can be made.
#include "papers/paper_input.h"

#include "doubt/bands.h"
#include "papers/got.h"

namespace kerfdraft::papers {

Judgement::Judgement(const judge::Assessment& assessment, const catalogue::Catalogue& catalogue,
                     judge::Evidence evidence)
    : assessment_(assessment),
      catalogue_(catalogue),
      evidence_(std::move(evidence)),
      verdict_(judge::judgeEvidence(evidence_)) {}

base::Result<std::unique_ptr<Judgement>> Judgement::of(const judge::Assessment& assessment,
                                                       const catalogue::Catalogue& catalogue) {
  std::vector<doubt::StateDoubt> doubts = doubt::assessDoubt(assessment);
  base::Result<judge::Evidence> evidence =
      judge::gatherEvidence(assessment, catalogue, doubt::bandsOf(doubts));
  if (!evidence) {
    return base::Failure(evidence.error());
  }
  base::Result<std::vector<doubt::StateChances>> chances = doubt::chances(assessment, catalogue, doubts);
  if (!chances) {
    return base::Failure(chances.error());
  }
  std::unique_ptr<Judgement> out(new Judgement(assessment, catalogue, std::move(*evidence)));
  out->doubts_ = std::move(doubts);
  out->chances_ = std::move(*chances);
  // No verdict hangs on a state in which nobody works.
  std::vector<doubt::StateChances> in_use = out->chances_;
  for (std::size_t s = 0; s < in_use.size(); ++s) {
    if (!used(assessment, s)) {
      in_use[s] = {};
      in_use[s].state = s;
    }
  }
  out->matters_ = doubt::whatMatters(assessment, out->doubts_, in_use);
  return out;
}

PaperInput Judgement::input(std::string date, base::UnitSystem units, judge::Reader reader) const {
  return {assessment_, catalogue_, evidence_, verdict_, chances_, matters_, std::move(date), units, reader};
}

}  // namespace kerfdraft::papers
