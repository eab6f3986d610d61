// Project → pieces → network → one solution a state.
#include "judge/assessment.h"

#include <fmt/format.h>

#include <utility>

#include "judge/prepare.h"
#include "pieces/build.h"

namespace kerfdraft::judge {

namespace {

/// Everything open: the state of a project that declares none.
network::Situation everythingOpen(const pieces::Pieces& drawing) {
  network::Situation situation = network::restingSituation(drawing);
  for (double& travel : situation.gate_travel) {
    travel = 1;
  }
  for (int& place : situation.hose_place) {
    place = 0;
  }
  return situation;
}

}  // namespace

base::Result<Assessment> prepare(const shop::Project& project, const catalogue::Catalogue& catalogue) {
  auto built = pieces::buildPieces(project, catalogue);
  if (!built) {
    return base::Failure(built.error());
  }
  Assessment assessment;
  assessment.project = std::make_shared<const shop::Project>(project);
  assessment.pieces = std::make_shared<const pieces::Pieces>(std::move(*built));
  auto compiled = network::compileNetwork(assessment.pieces);
  if (!compiled) {
    return base::Failure(compiled.error());
  }
  assessment.network = *compiled;
  for (const shop::State& state : project.states) {
    auto situation = network::situationOf(*assessment.pieces, project, state);
    if (!situation) {
      return base::Failure(situation.error());
    }
    assessment.states.push_back({state.id, state.name, true, std::move(*situation), {}});
  }
  if (assessment.states.empty()) {
    assessment.states.push_back({{}, "every gate open", false, everythingOpen(*assessment.pieces), {}});
  }
  return assessment;
}

void solveState(Assessment& assessment, std::size_t state) {
  StateResult& one = assessment.states.at(state);
  one.solution = network::solveFully(*assessment.network, one.situation);
}

base::Result<Assessment> assess(const shop::Project& project, const catalogue::Catalogue& catalogue) {
  auto assessment = prepare(project, catalogue);
  if (assessment) {
    for (std::size_t s = 0; s < assessment->states.size(); ++s) {
      solveState(*assessment, s);
    }
  }
  return assessment;
}

base::Result<Assessment> assessOne(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                   std::size_t state) {
  auto assessment = prepare(project, catalogue);
  if (!assessment) {
    return assessment;
  }
  if (state >= assessment->states.size()) {
    return base::fail(
        base::ErrorCode::Reference,
        fmt::format("There is no state {}; there are {}, counted from 0.", state, assessment->states.size()));
  }
  solveState(*assessment, state);
  return assessment;
}

}  // namespace kerfdraft::judge
