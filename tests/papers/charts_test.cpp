// Bands of predictions on charts and labels.
#include "papers/draw_charts.h"

#include <gtest/gtest.h>

#include "paper_stage.h"
#include "papers/draw_overlay.h"

namespace kerfdraft::papers {
namespace {

TEST(Charts, BandsLieRoundTheNumbers) {
  const tests::PaperStage& stage = tests::paperStage("two-car-garage");
  const judge::Evidence& evidence = stage.judgement->evidence();
  const auto fan = fanChartInput(*stage.assessment, {1}, 0, evidence.bands);
  ASSERT_TRUE(fan.states.front().seasoned && fan.states.front().seasoned->flow_low_m3_s);
  EXPECT_DOUBLE_EQ(
      *fan.states.front().seasoned->flow_low_m3_s,
      evidence.bands[1].fan_flow[0].low * stage.assessment->states[1].solution.fans[0].inlet_flow_m3_s);
  EXPECT_LT(*fan.states.front().seasoned->flow_low_m3_s, fan.states.front().seasoned->flow_m3_s);
  const auto speed = speedChartInput(*stage.assessment, evidence.margins[1], &evidence.bands[1]);
  ASSERT_FALSE(speed.bars.empty());
  for (const drawing::SpeedBar& bar : speed.bars) {
    ASSERT_TRUE(bar.low_m_s && bar.high_m_s);
    EXPECT_LT(*bar.low_m_s, bar.speed_m_s);
    EXPECT_GT(*bar.high_m_s, bar.speed_m_s);
  }
}

TEST(Charts, WithoutBandsNothingIsClaimed) {
  const tests::PaperStage& stage = tests::paperStage("two-car-garage");
  EXPECT_FALSE(fanChartInput(*stage.assessment, {1}, 0).states.front().seasoned->flow_low_m3_s);
  const judge::StateMargins& margins = stage.judgement->evidence().margins[1];
  for (const drawing::SpeedBar& bar : speedChartInput(*stage.assessment, margins).bars) {
    EXPECT_FALSE(bar.low_m_s);
  }
}

TEST(Charts, LabelsOfMachinesSayHowFarItMayBeOff) {
  const tests::PaperStage& stage = tests::paperStage("two-car-garage");
  const judge::Evidence& evidence = stage.judgement->evidence();
  const auto longest = [&](const judge::StateBands* bands) {
    std::size_t lines = 0;
    const auto overlay = overlayOf(*stage.assessment, 2, evidence.margins[2], base::UnitSystem::Us, bands);
    for (const auto& [id, mark] : overlay.machines) {
      lines = std::max(lines, mark.lines.size());
    }
    return lines;
  };
  EXPECT_EQ(longest(&evidence.bands[2]), longest(nullptr) + 1);
}

}  // namespace
}  // namespace kerfdraft::papers
