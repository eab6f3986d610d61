// The band of a line: against sampling of its own inputs, and in words.
#include "cli/line_band.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "line_requests.h"
#include "network/solve.h"

namespace kerfdraft::cli {
namespace {

TEST(LineBand, ChancesAreSaidInFourWords) {
  EXPECT_EQ(chanceInWords(0.96), "yes");
  EXPECT_EQ(chanceInWords(0.95), "likely");
  EXPECT_EQ(chanceInWords(0.66), "unlikely");
  EXPECT_EQ(chanceInWords(0.06), "unlikely");
  EXPECT_EQ(chanceInWords(0.05), "no");
}

TEST(LineBand, ChanceIsThatOfANormalLogarithm) {
  LineBand band;
  band.flow_m3_s = 0.2;
  band.sigma = 0.1;
  EXPECT_NEAR(band.chanceOf(0.2), 0.5, 1e-12);
  EXPECT_NEAR(band.chanceOf(band.at(-1)), 0.841344746, 1e-6);
  EXPECT_NEAR(band.chanceOf(band.at(2)), 0.022750132, 1e-6);
}

TEST(LineBand, ALabelIsWiderThanACurve) {
  LineRequest curve = lineRequest("hood 0.5; duct 4 in 10 ft");
  LineRequest label = curve;
  label.rating.points.clear();
  label.rating.free_air_flow = *base::Given<base::VolumeFlow>::parse("930 cfm");
  label.rating.greatest_suction = *base::Given<base::Pressure>::parse("6.3 in w.g.");
  const auto of_curve = lineBand(curve, shipped(), flowOf(curve));
  const auto of_label = lineBand(label, shipped(), flowOf(label));
  ASSERT_TRUE(of_curve && of_label);
  EXPECT_GT(of_label->sigma, of_curve->sigma);
}

// The linear band against drawing the groups at random (the bores and the fan stay as they are).
TEST(LineBand, AgreesWithSamplingOfItsFactors) {
  const LineRequest request =
      lineRequest("machine planer; hose 4 in 8 ft; elbow 4 in; duct 4 in 10 ft; filter");
  const judge::Assessment line = solvedLine(request);
  const auto band = lineBand(request, shipped(), flowOf(request));
  ASSERT_TRUE(band) << band.error().text();
  double squares = 0;
  for (const Spread& spread : band->spreads) {
    if (spread.what != "bores" && spread.what != "the fan's curve") {
      squares += spread.effect * spread.effect;
    }
  }
  const std::vector<std::pair<pieces::Group, double>> spreads = {
      {pieces::Group::Hood, 1.7},    {pieces::Group::Hose, 1.6},   {pieces::Group::Friction, 1.08},
      {pieces::Group::Fitting, 1.2}, {pieces::Group::Filter, 1.6}, {pieces::Group::Leakage, 2.0}};
  std::mt19937_64 random(11);
  std::normal_distribution<double> normal;
  network::Workspace workspace(*line.network);
  network::Situation situation = line.states[0].situation;
  const double density = line.pieces->air.density_kg_m3;
  double sum = 0;
  double sum_squares = 0;
  constexpr int kSamples = 4000;
  for (int i = 0; i < kSamples; ++i) {
    for (const auto& [group, factor] : spreads) {
      situation.group_factor[static_cast<std::size_t>(group)] = std::exp(std::log(factor) * normal(random));
    }
    ASSERT_TRUE(network::solve(*line.network, situation, workspace, network::Start::Warm).usable());
    const double log_flow = std::log(workspace.runFlow()[line.pieces->ports[0].run] / density);
    sum += log_flow;
    sum_squares += log_flow * log_flow;
  }
  const double mean = sum / kSamples;
  const double sampled = std::sqrt(sum_squares / kSamples - mean * mean);
  // Linear against the true shape: a tenth at these spreads, besides 1 % from the number of samples.
  EXPECT_NEAR(std::sqrt(squares) / sampled, 1, 0.12);
}

}  // namespace
}  // namespace kerfdraft::cli
