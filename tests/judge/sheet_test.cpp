// The sheet's lines close, its losses are the pressure at the fan's inlet, and its numbers are the
// solution's.
#include "judge/sheet.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/shops.h"
#include "network/shown.h"

namespace kerfdraft {
namespace {

using testing::HasSubstr;

constexpr double kClosing_pa = 1e-6;

/// What holds for the sheet of every port in every state.
void expectClosed(const judge::Assessment& assessment, std::size_t state, std::size_t port) {
  const auto sheet = judge::modelSheet(assessment, state, port);
  ASSERT_TRUE(sheet.has_value()) << sheet.error().text();
  double lost_pa = 0;
  double total_pa = 0;
  for (std::size_t i = 0; i < sheet->rows.size(); ++i) {
    const judge::SheetRow& row = sheet->rows[i];
    total_pa -= row.loss_pa;
    if (row.key.role != pieces::Role::Fan) {
      lost_pa += row.loss_pa;
    }
    EXPECT_NEAR(row.running_loss_pa, lost_pa, 1e-9) << row.label;
    EXPECT_NEAR(row.total_pa, total_pa, kClosing_pa) << row.label;
  }
  EXPECT_NEAR(sheet->closure_pa, 0, 3 * kClosing_pa);
  ASSERT_FALSE(sheet->fans.empty());
  const judge::SheetFan& fan = sheet->fans.front();
  if (sheet->open) {
    // The losses on the way are what the fan's inlet stands below the room.
    EXPECT_NEAR(fan.lost_before_pa, -fan.inlet_total_pa, kClosing_pa);
    double before_pa = 0;
    for (std::size_t i = 0; i < fan.row; ++i) {
      before_pa += sheet->rows[i].loss_pa;
    }
    EXPECT_NEAR(before_pa, -fan.inlet_total_pa, kClosing_pa);
  }
}

void expectAllClosed(const shop::Project& project) {
  const judge::Assessment assessment = tests::solved(project);
  for (std::size_t state = 0; state < assessment.states.size(); ++state) {
    ASSERT_TRUE(assessment.states[state].solution.solved());
    for (std::size_t port = 0; port < assessment.pieces->ports.size(); ++port) {
      SCOPED_TRACE(assessment.states[state].name + ", " + assessment.pieces->ports[port].label);
      expectClosed(assessment, state, port);
    }
  }
}

TEST(ModelSheet, LossesAddUpToThePressureAtTheFanInlet) {
  expectAllClosed(support::oneMachine().builder.project);
  expectAllClosed(support::twoBranchTree().builder.project);
  expectAllClosed(support::ringMain().builder.project);
}

TEST(ModelSheet, LossesAddUpInOneDensityToo) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.setting.density = shop::DensityMode::Uniform;
  expectAllClosed(shop.builder.project);
}

TEST(ModelSheet, LossesAddUpWithDustGapsSeparatorAndFilter) {
  expectAllClosed(tests::shopWithEverything());
}

TEST(ModelSheet, LinesAreTheSolutionsNumbers) {
  const judge::Assessment assessment = tests::solved(support::oneMachine().builder.project);
  const judge::Sheet sheet = judge::modelSheet(assessment, 0, 0).value();
  const network::RunResult& run = assessment.states[0].solution.runs[0];
  ASSERT_GE(sheet.rows.size(), run.pieces.size());
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    EXPECT_EQ(sheet.rows[i].loss_pa, run.pieces[i].loss_pa);
    EXPECT_EQ(sheet.rows[i].velocity_pressure_pa, run.pieces[i].velocity_pressure_pa);
    EXPECT_EQ(sheet.rows[i].static_pa, run.pieces[i].static_out_pa - sheet.room_pa);
    EXPECT_FALSE(sheet.rows[i].source.formula.empty()) << sheet.rows[i].label;
  }
  EXPECT_EQ(sheet.rows[0].key.role, pieces::Role::Entry);
  EXPECT_EQ(sheet.rows.back().key.role, pieces::Role::Fan);
  EXPECT_THAT(sheet.from, HasSubstr("T1"));
}

TEST(ModelSheet, ShowsTheBranchEntryWithItsAngle) {
  const judge::Assessment assessment = tests::solved(support::twoBranchTree().builder.project);
  for (std::size_t port = 0; port < assessment.pieces->ports.size(); ++port) {
    const judge::Sheet sheet = judge::modelSheet(assessment, 0, port).value();
    std::size_t junctions = 0;
    for (const judge::SheetRow& row : sheet.rows) {
      junctions += row.key.role == pieces::Role::Junction ? 1 : 0;
    }
    EXPECT_EQ(junctions, 1U);
  }
}

TEST(ModelSheet, GapsOfABodyComeFirst) {
  const judge::Assessment assessment = tests::solved(tests::shopWithEverything());
  const judge::Sheet sheet = judge::modelSheet(assessment, 0, 0).value();
  EXPECT_EQ(sheet.rows.front().key.role, pieces::Role::Body);
  EXPECT_NEAR(sheet.rows.front().coefficient, 1 / (0.61 * 0.61), 1e-6);
}

TEST(ModelSheet, AShutPortSaysSo) {
  const judge::Assessment assessment = tests::solved(tests::shopWithEverything());
  // State 2 opens only the branch, state 1 only the main; the branch's gate is tight.
  const judge::Sheet sheet = judge::modelSheet(assessment, 1, 1).value();
  EXPECT_FALSE(sheet.open);
  EXPECT_NEAR(sheet.closure_pa, 0, 3 * kClosing_pa);
}

TEST(ModelSheet, CanBeginAtAnyRun) {
  const judge::Assessment assessment = tests::solved(support::twoBranchTree().builder.project);
  for (std::size_t run = 0; run < assessment.pieces->runs.size(); ++run) {
    const judge::Sheet sheet = judge::modelSheetOfRun(assessment, 0, run).value();
    EXPECT_NEAR(sheet.closure_pa, 0, 3 * kClosing_pa) << assessment.pieces->runs[run].label;
  }
}

TEST(ModelSheet, RefusesWhatIsNotThere) {
  const judge::Assessment assessment = tests::solved(support::oneMachine().builder.project);
  EXPECT_THAT(judge::modelSheet(assessment, 7, 0).error().message, HasSubstr("no state 7"));
  EXPECT_THAT(judge::modelSheet(assessment, 0, 7).error().message, HasSubstr("no port 7"));
  EXPECT_THAT(judge::modelSheetOfRun(assessment, 0, 70).error().message, HasSubstr("no run 70"));
}

}  // namespace
}  // namespace kerfdraft
