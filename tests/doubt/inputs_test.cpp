// Which inputs a state has, and how each is known.
#include "doubt/inputs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "shops.h"

namespace kerfdraft::doubt {
namespace {

using base::Standing;
using network::Parameter;
using support::given;

std::vector<Input> inputsIn(const support::TwoBranchTree& shop, std::size_t state = 0) {
  return inputsOf(assessed(shop.builder.project), state);
}

/// Whether an input covers the run that begins at a port.
bool covers(const judge::Assessment& a, const Input& input, const shop::PortRef& port) {
  for (const pieces::PortPlace& place : a.pieces->ports) {
    if (place.ref == port) {
      const auto& where = input.parameter.where;
      return std::find(where.begin(), where.end(), place.run) != where.end();
    }
  }
  return false;
}

TEST(Inputs, AMeasuredEntryIsSurerThanOneOfWhichNothingIsKnown) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.port(shop.branch_port).entry.reset();
  const judge::Assessment a = assessed(shop.builder.project);
  const std::vector<Input> inputs = inputsOf(a, 0);
  const Input* measured = find(inputs, "hood-measured");
  const Input* unknown = find(inputs, "hood-unknown");
  ASSERT_TRUE(measured && unknown);
  EXPECT_TRUE(covers(a, *measured, shop.main_port));
  EXPECT_FALSE(covers(a, *measured, shop.branch_port));
  EXPECT_TRUE(covers(a, *unknown, shop.branch_port));
}

TEST(Inputs, EachWayToKnowAnEntryHasItsRow) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop::Port& port = shop.builder.port(shop.branch_port);
  port.entry = given<base::Ratio>("1.5", Standing::Estimated);
  EXPECT_TRUE(find(inputsIn(shop), "hood-form"));
  port.entry.reset();
  port.hood = "flanged-end";
  port.maker = shop::RatedPoint{given<base::VolumeFlow>("700 m3/h", Standing::Maker),
                                given<base::Pressure>("1200 Pa", Standing::Maker)};
  EXPECT_TRUE(find(inputsIn(shop), "hood-maker"));
  port.maker->flow = given<base::VolumeFlow>("700 m3/h", Standing::Measured);
  EXPECT_TRUE(find(inputsIn(shop), "hood-maker"));  // both figures must be measured
  port.maker->suction = given<base::Pressure>("1200 Pa", Standing::Measured);
  EXPECT_FALSE(find(inputsIn(shop), "hood-maker"));
}

TEST(Inputs, AFanIsAsSureAsTheWorstOfItsPoints) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop::FanRating& rating = shop.builder.collectorOf(shop.collector).rating;
  EXPECT_TRUE(find(inputsIn(shop), "fan-measured"));
  const auto with = [&](Standing standing) {
    rating.points[1].pressure = given<base::Pressure>("2200 Pa", standing);
    return inputsIn(shop);
  };
  EXPECT_TRUE(find(with(Standing::Published), "fan-certified"));
  EXPECT_TRUE(find(with(Standing::Maker), "fan-maker"));
  EXPECT_TRUE(find(with(Standing::Assumed), "fan-maker"));
  EXPECT_TRUE(find(with(Standing::Estimated), "fan-estimated"));
  rating.points.clear();
  rating.basis = shop::RatingBasis::StaticAtInlet;
  rating.free_air_flow = given<base::VolumeFlow>("3000 m3/h", Standing::Maker);
  rating.greatest_suction = given<base::Pressure>("2400 Pa", Standing::Maker);
  const std::vector<Input> label = inputsIn(shop);
  ASSERT_TRUE(find(label, "fan-label"));
  EXPECT_EQ(find(label, "fan-label")->parameter.where, std::vector<std::size_t>{0});
  EXPECT_NE(find(label, "fan-label")->label.find("C1"), std::string::npos);
  // The two-minute test with the inlet shut: one end of the curve is sure then.
  rating.greatest_suction = given<base::Pressure>("2200 Pa", Standing::Measured);
  EXPECT_FALSE(find(inputsIn(shop), "fan-label"));
  EXPECT_TRUE(find(inputsIn(shop), "fan-label-shut"));
}

TEST(Inputs, BoresThatWereMeasuredAreSurerThanTypedOnes) {
  support::TwoBranchTree shop = support::twoBranchTree();
  EXPECT_TRUE(find(inputsIn(shop), "bore-measured"));
  EXPECT_FALSE(find(inputsIn(shop), "bore"));
  shop.builder.ductOf(shop.branch).corners[0].leg->bore = given<base::Length>("100 mm", Standing::Assumed);
  const judge::Assessment a = assessed(shop.builder.project);
  const std::vector<Input> inputs = inputsOf(a, 0);
  ASSERT_TRUE(find(inputs, "bore"));
  EXPECT_EQ(find(inputs, "bore")->parameter.where.size(), 1U);
  EXPECT_TRUE(covers(a, *find(inputs, "bore"), shop.branch_port));
  shop.builder.ductOf(shop.branch).corners[0].leg->bore = given<base::Length>("100 mm", Standing::Published);
  EXPECT_TRUE(find(inputsIn(shop), "bore-published"));
}

TEST(Inputs, AHoseOfMeasuredCompressionIsSurerThanItsLook) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop::Corner& corner = shop.builder.ductOf(shop.branch).corners[1];
  corner.leg = support::ProjectBuilder::hose("100 mm");
  EXPECT_TRUE(find(inputsIn(shop), "hose"));
  corner.leg->hose->compression = given<base::Ratio>("20 %", Standing::Estimated);
  EXPECT_TRUE(find(inputsIn(shop), "hose"));
  corner.leg->hose->compression = given<base::Ratio>("20 %", Standing::Measured);
  EXPECT_FALSE(find(inputsIn(shop), "hose"));
  EXPECT_TRUE(find(inputsIn(shop), "hose-compression"));
}

TEST(Inputs, AFilterIsKnownInTheStatesThatWereMeasured) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop::Filter filter;
  filter.id = shop.builder.id();
  filter.label = "F1";
  filter.seasoned = shop::FilterPoint{given<base::VolumeFlow>("2000 m3/h"), given<base::Pressure>("300 Pa")};
  shop.builder.collectorOf(shop.collector).filters.push_back(filter);
  EXPECT_TRUE(find(inputsIn(shop), "filter-measured"));
  shop.builder.project.states[0].filter = shop::FilterState::Due;
  EXPECT_TRUE(find(inputsIn(shop), "filter"));
}

TEST(Inputs, AGateBelowThirtyPercentIsAnInputOfItsOwn) {
  support::TwoBranchTree shop = support::twoBranchTree();
  EXPECT_TRUE(find(inputsIn(shop), "gate-open"));
  shop.builder.project.states[0].gates[1].travel = given<base::Ratio>("25 %");
  const judge::Assessment a = assessed(shop.builder.project);
  const std::vector<Input> inputs = inputsOf(a, 0);
  ASSERT_TRUE(find(inputs, "gate-throttled"));
  EXPECT_TRUE(covers(a, *find(inputs, "gate-throttled"), shop.branch_port));
  EXPECT_TRUE(covers(a, *find(inputs, "gate-open"), shop.main_port));
}

TEST(Inputs, TheGapsOfABodyAreAnInputWhereTheyAreGiven) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.machineOf(shop.main_port).openings = given<base::Area>("80 cm2", Standing::Estimated);
  EXPECT_TRUE(find(inputsIn(shop), "body"));
  shop.builder.machineOf(shop.main_port).openings = given<base::Area>("80 cm2", Standing::Measured);
  EXPECT_TRUE(find(inputsIn(shop), "body-measured"));
}

TEST(Inputs, AStateWhereNothingMovesHasNone) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.states[0].off = {shop.collector};
  EXPECT_TRUE(inputsIn(shop, 0).empty());
  EXPECT_FALSE(inputsIn(shop, 1).empty());
}

TEST(Inputs, AJunctionIsDoubtfulByAFifthOfWhatALegLosesAndAtLeastATenthOfTheMain) {
  const judge::Assessment a = assessed(support::twoBranchTree().builder.project);
  ASSERT_EQ(a.pieces->junctions.size(), 1U);
  const pieces::Junction& j = a.pieces->junctions[0];
  for (std::size_t state = 0; state < 3; ++state) {
    // By hand from the shown pressures: every leg's total before it against the main's behind it.
    const network::Solution& s = a.states[state].solution;
    const network::LegExtra found = junctionDoubt(*a.pieces, s, 0);
    const network::RunResult& main = s.runs[j.legs[j.nominal_outlet].run];
    const double main_vp_pa = main.total_start_pa - main.static_start_pa;
    double by_flow = 0;
    double in = 0;
    for (std::size_t leg = 0; leg < j.legs.size(); ++leg) {
      const network::RunResult& run = s.runs[j.legs[leg].run];
      if (leg == j.nominal_outlet || !(run.flow_end_kg_s > 0)) {
        continue;
      }
      const double vp_pa = run.total_end_pa - run.static_end_pa;
      const double meant = std::min(0.5, 0.2 * std::abs(run.total_end_pa - main.total_start_pa) / vp_pa);
      EXPECT_NEAR(found[leg], meant, 1e-12);
      by_flow += run.flow_end_kg_s * meant * vp_pa;
      in += run.flow_end_kg_s;
    }
    EXPECT_NEAR(found[j.nominal_outlet], std::max(0.0, 0.1 - by_flow / in / main_vp_pa), 1e-12);
  }
}

TEST(Inputs, MovingAnInputMovesOnlyItsOwnPieces) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.port(shop.branch_port).entry.reset();
  const judge::Assessment a = assessed(shop.builder.project);
  const std::vector<Input> inputs = inputsOf(a, 0);
  network::Situation s = a.states[0].situation;
  moveInput(s, *a.pieces, *find(inputs, "hood-unknown"), 1);
  const network::Solution moved = network::solveFully(*a.network, s);
  for (std::size_t p = 0; p < a.pieces->ports.size(); ++p) {
    const std::size_t run = a.pieces->ports[p].run;
    const double ratio =
        moved.runs[run].pieces[0].coefficient / a.states[0].solution.runs[run].pieces[0].coefficient;
    EXPECT_NEAR(ratio, a.pieces->ports[p].ref == shop.branch_port ? 1.7 : 1.0, 1e-12);
  }
}

}  // namespace
}  // namespace kerfdraft::doubt
