// A trial is one more state of a copy of the project, so that everything else is as ever.
#include "desk/solved.h"

#include <algorithm>

#include "doubt/bands.h"
#include "judge/prepare.h"

namespace kerfdraft::desk {
namespace {

/// Takes an assessment with its margins; the value becomes a problem where these cannot be said.
void take(Solved& out, judge::Assessment&& assessment, const catalogue::Catalogue& catalogue) {
  base::Result<std::vector<judge::StateMargins>> margins = judge::margins(assessment, catalogue);
  if (!margins) {
    out.problem = margins.error();
    out.assessment = nullptr;
    out.margins.clear();
    return;
  }
  out.assessment = std::make_shared<const judge::Assessment>(std::move(assessment));
  out.margins = std::move(*margins);
}

}  // namespace

Solved solveShown(std::shared_ptr<const shop::Project> project, const std::optional<shop::State>& trial,
                  std::size_t shown, const catalogue::Catalogue& catalogue) {
  Solved out;
  if (trial) {
    shop::Project with = *project;
    with.states.push_back(*trial);
    project = std::make_shared<const shop::Project>(std::move(with));
  }
  out.project = project;
  base::Result<judge::Assessment> assessment = judge::prepare(*project, catalogue);
  if (!assessment) {
    out.problem = assessment.error();
    return out;
  }
  const std::size_t last = assessment->states.size() - 1;  // there is always one
  const std::size_t first = trial ? last : std::min(shown, last);
  judge::solveState(*assessment, first);
  if (last > 0) {
    out.only = first;
  }
  out.tried = trial.has_value();
  take(out, std::move(*assessment), catalogue);
  return out;
}

bool solveOthers(Solved& solved, const catalogue::Catalogue& catalogue, const std::function<bool()>& wanted) {
  if (!solved.assessment || !solved.only) {
    return wanted();
  }
  judge::Assessment assessment = *solved.assessment;
  for (std::size_t s = 0; s < assessment.states.size(); ++s) {
    if (s == *solved.only) {
      continue;
    }
    if (!wanted()) {
      return false;
    }
    judge::solveState(assessment, s);
  }
  solved.only.reset();
  take(solved, std::move(assessment), catalogue);
  return true;
}

void judgeSolved(Solved& solved, const catalogue::Catalogue& catalogue) {
  if (!solved.assessment || solved.only) {
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

Solved solveShop(std::shared_ptr<const shop::Project> project, const std::optional<shop::State>& trial,
                 const catalogue::Catalogue& catalogue) {
  Solved out = solveShown(std::move(project), trial, 0, catalogue);
  solveOthers(out, catalogue, [] { return true; });
  return out;
}

}  // namespace kerfdraft::desk
