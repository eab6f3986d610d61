// Every shipped example: its states have solutions, its sheets close and all its numbers replay to the bit.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "files/project_file.h"
#include "judge/explained.h"
#include "judge/sheet.h"
#include "judge/shops.h"

namespace kerfdraft {
namespace {

std::vector<std::filesystem::path> examples() {
  std::vector<std::filesystem::path> paths;
  const std::filesystem::path folder = std::filesystem::path(KERFDRAFT_SOURCE_DIR) / "examples";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".json") {
      paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

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
  const auto paths = examples();
  ASSERT_FALSE(paths.empty());
  for (const std::filesystem::path& path : paths) {
    SCOPED_TRACE(path.filename().string());
    EXPECT_GT(tests::expectAllExplained(solvedExample(path)), 100U);
  }
}

TEST(Examples, LossesOfEveryPathAddUpToTheFansInlet) {
  for (const std::filesystem::path& path : examples()) {
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

}  // namespace
}  // namespace kerfdraft
