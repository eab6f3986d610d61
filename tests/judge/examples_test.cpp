// Every shipped example: its states have solutions, its sheets close and all its numbers replay to the bit.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "catalogue/catalogue.h"
#include "files/project_file.h"
#include "judge/explained.h"
#include "judge/sheet.h"
#include "judge/shops.h"
#include "judge/verdict.h"
#include "support/examples.h"

namespace kerfdraft {
namespace {

std::string textOf(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

judge::Assessment solvedExample(const std::filesystem::path& path) {
  const auto project = files::firstProblemOnly(files::readProject(textOf(path), path.filename().string()));
  EXPECT_TRUE(project.has_value()) << project.error().text();
  return tests::solved(project.value());
}

TEST(Examples, EveryNumberReplaysToTheBit) {
  const auto paths = support::exampleFiles();
  ASSERT_FALSE(paths.empty());
  for (const std::filesystem::path& path : paths) {
    SCOPED_TRACE(path.filename().string());
    EXPECT_GT(tests::expectAllExplained(solvedExample(path)), 100U);
  }
}

TEST(Examples, LossesOfEveryPathAddUpToTheFansInlet) {
  for (const std::filesystem::path& path : support::exampleFiles()) {
    SCOPED_TRACE(path.filename().string());
    const judge::Assessment assessment = solvedExample(path);
    for (std::size_t state = 0; state < assessment.states.size(); ++state) {
      for (std::size_t port = 0; port < assessment.pieces->ports.size(); ++port) {
        const judge::Sheet sheet = judge::modelSheet(assessment, state, port).value();
        if (!sheet.open || sheet.fans.empty()) {
          continue;
        }
        EXPECT_NEAR(sheet.fans[0].lost_before_pa, -sheet.fans[0].inlet_total_pa,
                    1e-6 + 1e-9 * std::abs(sheet.fans[0].inlet_total_pa))
            << assessment.states[state].name << ", " << sheet.from;
        EXPECT_NEAR(sheet.closure_pa, 0, 1e-5) << assessment.states[state].name << ", " << sheet.from;
      }
    }
  }
}

/// What stands on top offers something for each of the states in which it stands, where anything that can be
/// tried helps there: looked at in the three worst of them.
TEST(Examples, WhatHelpsInAnotherStateIsOfferedToo) {
  const catalogue::Catalogue catalogue = *catalogue::Catalogue::shipped();
  std::size_t taken_over = 0;
  for (const std::filesystem::path& path : support::exampleFiles()) {
    SCOPED_TRACE(path.filename().string());
    const judge::Assessment assessment = solvedExample(path);
    const auto verdict = judge::judgeShop(assessment, catalogue);
    ASSERT_TRUE(verdict);
    for (std::size_t g = 0; g < verdict->on_top; ++g) {
      const judge::Finding& lead = verdict->findings[verdict->groups[g].lead];
      for (const judge::Remedy& remedy : lead.remedies) {
        if (!remedy.gain || remedy.gain->at.find("in state ") == std::string::npos) {
          continue;
        }
        ++taken_over;
        EXPECT_TRUE(remedy.change);
        EXPECT_TRUE(remedy.gain->cures || remedy.gain->after > remedy.gain->before);
        EXPECT_EQ(remedy.gain->at.find(lead.state_name), std::string::npos) << remedy.gain->at;
      }
    }
  }
  EXPECT_GT(taken_over, 0U);
}

}  // namespace
}  // namespace kerfdraft
