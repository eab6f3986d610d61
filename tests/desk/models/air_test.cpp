// The table of states and ports, what was kept beside it, charts and figures: against the solution itself.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "desk/models/charts.h"
#include "desk/models/comparison.h"
#include "desk/models/figures.h"
#include "desk/models/states_table.h"
#include "desk/models/trial.h"
#include "files/save.h"
#include "garage_air.h"
#include "judge/number_key.h"
#include "shop/edit.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

using support::shipped;

Solved judgedShop(const shop::Project& project, const std::optional<shop::State>& trial = {}) {
  Solved solved = solvedShop(project, trial);
  judgeSolved(solved, shipped());
  return solved;
}

const Solved& garageSolved() {
  static const Solved kSolved = judgedShop(garage());
  return kSolved;
}

TEST(StatesTable, EveryOpenPortHasAnExplainableFigureInItsCell) {
  const Solved& solved = garageSolved();
  const auto columns = portColumns(solved, base::UnitSystem::Us);
  const auto rows = stateRows(solved, base::UnitSystem::Us);
  ASSERT_EQ(rows.size(), solved.states());
  int open = 0;
  for (std::size_t s = 0; s < rows.size(); ++s) {
    ASSERT_EQ(rows[s].cells.size(), columns.size()) << rows[s].name;
    for (const StateCell& cell : rows[s].cells) {
      if (!cell.open) {
        EXPECT_EQ(cell.text, "−");
        continue;
      }
      ++open;
      const auto key = judge::parseNumberKey(cell.why);
      ASSERT_TRUE(key);
      EXPECT_EQ(key->state, s);
      const auto number = judge::numberOf(*solved.assessment, *key);
      ASSERT_TRUE(number);
      EXPECT_FALSE(cell.tip.empty());
    }
  }
  EXPECT_GT(open, 10);
}

TEST(StatesTable, ACellSaysHowLikelyItIs) {
  const Solved& solved = garageSolved();
  const auto rows = stateRows(solved, base::UnitSystem::Us);
  bool any = false;
  for (const StateRow& row : rows) {
    for (const StateCell& cell : row.cells) {
      for (const char* word : {" yes", " likely", " unlikely", " no"}) {
        any = any || cell.text.ends_with(word);
      }
    }
  }
  EXPECT_TRUE(any);
}

TEST(StatesTable, WhatWasKeptStandsBesideIt) {
  const shop::Project before = garage();
  shop::Project after = before;
  // A second filter in the way: every port gets less.
  after.collectors[0].filters.push_back(after.collectors[0].filters[0]);
  after.collectors[0].filters.back().id = base::Id(0xabcdef);
  after.collectors[0].filters.back().label = "F9";
  const Solved kept = judgedShop(before);
  const Solved now = judgedShop(after);
  const auto rows = stateRows(now, base::UnitSystem::Us, &kept);
  EXPECT_TRUE(std::any_of(rows.begin(), rows.end(), [](const StateRow& row) {
    return std::any_of(row.cells.begin(), row.cells.end(),
                       [](const StateCell& cell) { return cell.text.find("(was ") != std::string::npos; });
  }));
  EXPECT_THAT(comparisonText(now, &kept, base::UnitSystem::Us), HasSubstr("more air in 0 states"));
  EXPECT_THAT(comparisonText(kept, &kept, base::UnitSystem::Us), HasSubstr("no open port gets more or less"));
  EXPECT_EQ(comparisonText(now, nullptr, base::UnitSystem::Us), "");
}

TEST(StatesTable, ATrialStandsLastAndSaysSo) {
  const shop::Project project = garage();
  const shop::State trial = withGateToggled(
      trialFrom(project, std::nullopt, 0, base::Id(0x77)),
      project.ducts[0].gates.empty() ? project.ducts[1].gates[0].id : project.ducts[0].gates[0].id);
  const auto rows = stateRows(judgedShop(project, trial), base::UnitSystem::Metric);
  ASSERT_EQ(rows.size(), project.states.size() + 1);
  EXPECT_TRUE(rows.back().tried);
  EXPECT_FALSE(rows.front().tried);
}

TEST(StatesTable, OneStateForEachMachineOpensItsWayAndNoOther) {
  shop::Project project = garage();
  project.states.clear();
  base::SeededIds ids(3);
  const std::vector<shop::State> states = statesForMachines(project, ids);
  ASSERT_EQ(states.size(), project.machines.size());
  project.states = states;
  const Solved solved = judgedShop(project);
  ASSERT_TRUE(solved.assessment);
  for (std::size_t s = 0; s < states.size(); ++s) {
    ASSERT_TRUE(solved.margins[s].solved) << states[s].name;
    for (const judge::FlowMargin& port : solved.margins[s].ports) {
      EXPECT_EQ(port.open, port.ref.machine == project.machines[s].id) << states[s].name << port.label;
    }
  }
  EXPECT_TRUE(statesForMachines(project, ids).empty()) << "their names are taken";
}

TEST(Charts, TheFansCurveIsReadBackAsItIs) {
  const Solved& solved = garageSolved();
  const ShownChart chart =
      chartOf(solved, 0, ChartKind::Fan, {}, base::UnitSystem::Us, drawing::ChartSize{150, 100});
  ASSERT_TRUE(chart.frame);
  ASSERT_GT(chart.curve.size(), 2U);
  const drawing::Box& plot = chart.frame->plot_mm;
  const auto reading = readAt(chart, plot.centre());
  ASSERT_TRUE(reading);
  EXPECT_THAT(reading->text, HasSubstr("cfm"));
  EXPECT_THAT(reading->text, HasSubstr("on the fan's curve"));
  // A point of the curve itself: its place is where the reading puts the cross.
  const drawing::ChartPoint& p = chart.curve[chart.curve.size() / 2];
  const double x = base::inUnit(chart.x_kind, p.x, chart.units);
  const double y = base::inUnit(chart.y_kind, p.y, chart.units);
  const double at_x =
      plot.left + (x - chart.frame->x_low) / (chart.frame->x_high - chart.frame->x_low) * plot.width();
  const double at_y =
      plot.bottom - (y - chart.frame->y_low) / (chart.frame->y_high - chart.frame->y_low) * plot.height();
  const auto there = readAt(chart, {at_x, plot.top + 1});
  ASSERT_TRUE(there);
  EXPECT_NEAR(there->at_mm.y, at_y, 0.01);
  EXPECT_FALSE(readAt(chart, {plot.left - 1, plot.top + 1}));
}

TEST(Charts, EveryChartOfEveryStateIsDrawnOrSaysWhyNot) {
  const Solved& solved = garageSolved();
  for (std::size_t s = 0; s < solved.states(); ++s) {
    for (const ChartKind kind : {ChartKind::Fan, ChartKind::Pressure, ChartKind::Speed}) {
      const ShownChart chart = chartOf(solved, s, kind, {}, base::UnitSystem::Metric, {100, 80});
      EXPECT_FALSE(chart.picture.shapes.empty());
    }
  }
  const ShownChart none = chartOf({}, 0, ChartKind::Fan, {}, base::UnitSystem::Metric, {100, 80});
  EXPECT_FALSE(none.picture.shapes.empty());
  EXPECT_FALSE(readAt(none, {50, 40}));
}

TEST(Figures, EveryFigureOfEveryThingIsANumberOfTheSolution) {
  const Solved& solved = garageSolved();
  int figures = 0;
  const auto check = [&](base::Id id) {
    for (const Figure& figure : figuresOf(solved, 0, *thingOf(*solved.project, id), base::UnitSystem::Us)) {
      const auto key = judge::parseNumberKey(figure.why);
      ASSERT_TRUE(key) << figure.why;
      EXPECT_TRUE(judge::numberOf(*solved.assessment, *key)) << figure.why;
      EXPECT_FALSE(figure.value.empty());
      ++figures;
    }
  };
  for (const shop::Machine& machine : solved.project->machines) {
    check(machine.id);
  }
  for (const shop::Duct& duct : solved.project->ducts) {
    check(duct.id);
    check(duct.corners[0].id);
  }
  check(solved.project->collectors[0].id);
  check(solved.project->rooms[0].id);
  EXPECT_GT(figures, 60);
}

TEST(Figures, AReadoutOfEveryPieceGivesItsAir) {
  const Solved& solved = garageSolved();
  int pieces = 0;
  for (const pieces::Run& run : solved.assessment->pieces->runs) {
    for (const pieces::Piece& piece : run.pieces) {
      const auto lines = readout(solved, 0, piece.key.text(), base::UnitSystem::Us);
      ASSERT_GE(lines.size(), 3U) << piece.label;
      const auto number = numberOfElement(solved, 0, piece.key.text());
      ASSERT_TRUE(number);
      EXPECT_TRUE(judge::parseNumberKey(*number));
      ++pieces;
    }
  }
  EXPECT_GT(pieces, 50);
  EXPECT_TRUE(readout(solved, 0, "no such thing", base::UnitSystem::Us).empty());
  EXPECT_TRUE(readout({}, 0, "x", base::UnitSystem::Us).empty());
}

}  // namespace
}  // namespace kerfdraft::desk
