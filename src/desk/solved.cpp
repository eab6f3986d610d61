// A trial is one more state of a copy of the project, so that everything else is as ever.
#include "desk/solved.h"

#include "doubt/bands.h"

namespace kerfdraft::desk {

Solved solveShop(std::shared_ptr<const shop::Project> project, const std::optional<shop::State>& trial,
                 const catalogue::Catalogue& catalogue) {
  Solved out;
  if (trial) {
    shop::Project with = *project;
    with.states.push_back(*trial);
    project = std::make_shared<const shop::Project>(std::move(with));
  }
  out.project = project;
  base::Result<judge::Assessment> assessment = judge::assess(*project, catalogue);
  if (!assessment) {
    out.problem = assessment.error();
    return out;
  }
  base::Result<std::vector<judge::StateMargins>> margins = judge::margins(*assessment, catalogue);
  if (!margins) {
    out.problem = margins.error();
    return out;
  }
  out.tried = trial.has_value();
  out.assessment = std::make_shared<const judge::Assessment>(std::move(*assessment));
  out.margins = std::move(*margins);
  return out;
}

void judgeSolved(Solved& solved, const catalogue::Catalogue& catalogue) {
  if (!solved.assessment) {
    return;
  }
  const std::vector<doubt::StateDoubt> doubts = doubt::assessDoubt(*solved.assessment);
  solved.bands = doubt::bandsOf(doubts);
  if (auto chances = doubt::chances(*solved.assessment, catalogue, doubts)) {
    solved.chances = std::move(*chances);
  }
  if (base::Result<judge::Verdict> verdict = judge::judgeShop(*solved.assessment, catalogue, solved.bands)) {
    solved.verdict = std::make_shared<const judge::Verdict>(std::move(*verdict));
  }
}

}  // namespace kerfdraft::desk
