// Adjoint sensitivities against full solves with the input moved both ways; and what each factor of a
// situation does against a network that is built that way.
#include "network/sensitivity.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "support/nets.h"

namespace kerfdraft::network {
namespace {

using pieces::Group;
using test::comb;
using test::NetBuilder;
using What = Parameter::What;

Parameter group(Group g, std::vector<std::size_t> where = {}) {
  return {What::Group, g, std::move(where), {}};
}

/// A velocity pressure more in every leg of every junction.
Parameter everyLeg(const pieces::Pieces& p) {
  LegExtra one{};
  one.fill(1);
  return {What::Junction, Group::Junction, {}, std::vector<LegExtra>(p.junctions.size(), one)};
}

std::vector<Parameter> allParameters(const pieces::Pieces& p) {
  std::vector<Parameter> list{group(Group::Friction), group(Group::Hose),     group(Group::Fitting),
                              group(Group::Hood),     group(Group::Filter),   group(Group::Leakage),
                              group(Group::Gate),     group(Group::Hood, {0})};
  list.push_back({What::Opening, Group::Opening, {}, {}});
  list.push_back({What::Bore, Group::Friction, {}, {}});
  list.push_back({What::Bore, Group::Friction, {0}, {}});
  for (std::size_t f = 0; f < p.fans.size(); ++f) {
    list.push_back({What::Fan, Group::Friction, {f}, {}});
  }
  list.push_back(everyLeg(p));
  return list;
}

std::vector<Output> allOutputs(const pieces::Pieces& p) {
  std::vector<Output> list;
  for (std::size_t r = 0; r < p.runs.size(); ++r) {
    list.push_back({Output::What::RunFlow, r});
    list.push_back({Output::What::RunEndFlow, r});
    list.push_back({Output::What::RunSpeed, r});
  }
  for (std::size_t f = 0; f < p.fans.size(); ++f) {
    list.push_back({Output::What::FanFlow, f});
    list.push_back({Output::What::FanRise, f});
  }
  for (std::size_t o = 0; o < p.openings.size(); ++o) {
    list.push_back({Output::What::OpeningFlow, o});
  }
  for (std::size_t n = 1; n < p.nodes.size(); ++n) {
    list.push_back({Output::What::NodePressure, n});
  }
  return list;
}

double read(const Solution& s, const Output& o) {
  switch (o.what) {
    case Output::What::RunFlow:
      return s.runs[o.at].flow_start_kg_s;
    case Output::What::RunEndFlow:
      return s.runs[o.at].flow_end_kg_s;
    case Output::What::RunSpeed:
      return s.runs[o.at].slowest_m_s;
    case Output::What::FanFlow:
      return s.fans[o.at].flow_kg_s;
    case Output::What::FanRise:
      return s.fans[o.at].outlet_total_pa - s.fans[o.at].inlet_total_pa;
    case Output::What::OpeningFlow:
      return s.openings[o.at].flow_kg_s;
    case Output::What::NodePressure:
      return s.node_pa[o.at];
  }
  return 0;
}

/// Every output by every parameter; the miss as a share of the output's greatest derivative.
void expectMatchesSolves(const pieces::Pieces& p, const Network& net, const Situation& situation,
                         const std::vector<Parameter>& parameters, double tolerance, double speed_tolerance) {
  constexpr double kStep = 2e-3;
  const Solution base = solveFully(net, situation);
  ASSERT_EQ(base.outcome, Outcome::Solved) << base.why;
  const std::vector<Output> outputs = allOutputs(p);
  SensitivitySolver solver(net);
  ASSERT_TRUE(solver.stand(situation, base));
  const Sensitivities found = solver.byTangent(parameters, outputs);
  std::vector<std::vector<double>> meant;
  for (const Parameter& parameter : parameters) {
    Situation up = situation;
    Situation down = situation;
    moveParameter(up, p, parameter, kStep);
    moveParameter(down, p, parameter, -kStep);
    const Solution high = solveFully(net, up);
    const Solution low = solveFully(net, down);
    ASSERT_TRUE(high.solved() && low.solved());
    meant.emplace_back();
    for (const Output& o : outputs) {
      meant.back().push_back((read(high, o) - read(low, o)) / (2 * kStep));
    }
  }
  for (std::size_t o = 0; o < outputs.size(); ++o) {
    const bool speed = outputs[o].what == Output::What::RunSpeed;
    double scale = 1e-6 * std::abs(read(base, outputs[o])) + 1e-9;
    for (const auto& row : meant) {
      scale = std::max(scale, std::abs(row[o]));
    }
    for (std::size_t q = 0; q < parameters.size(); ++q) {
      EXPECT_NEAR(found.at(o, q), meant[q][o], (speed ? speed_tolerance : tolerance) * scale)
          << "output " << static_cast<int>(outputs[o].what) << " at " << outputs[o].at << ", parameter " << q;
    }
  }
}

NetBuilder shop(bool local, double leak) {
  NetBuilder b = comb(6, leak, local);
  const std::size_t room = b.node(pieces::NodeKind::Body, "body");
  b.opening(0, room, 0.004);
  b.pieces().runs[0].from = room;
  return b;
}

Situation someOpen(const pieces::Pieces& p) {
  Situation s = restingSituation(p);
  s.gate_travel = {1, 0.5, 0, 1, 0.2, 0};
  return s;
}

TEST(Sensitivity, MatchesFullSolvesInUniformDensity) {
  NetBuilder b = shop(false, 1e-5);
  expectMatchesSolves(b.pieces(), *b.compile(), someOpen(b.pieces()), allParameters(b.pieces()), 1e-5, 0.012);
}

TEST(Sensitivity, MatchesFullSolvesInLocalDensity) {
  NetBuilder b = shop(true, 1e-5);
  expectMatchesSolves(b.pieces(), *b.compile(), someOpen(b.pieces()), allParameters(b.pieces()), 1e-5, 0.012);
}

TEST(Sensitivity, MatchesFullSolvesOnARingWithTwoFans) {
  for (const bool local : {false, true}) {
    NetBuilder b(1.2, local);
    std::vector<std::size_t> ring;
    for (int i = 0; i < 4; ++i) {
      ring.push_back(b.node(pieces::NodeKind::Junction, "ring " + std::to_string(i)));
    }
    std::vector<std::size_t> sides;
    for (std::size_t i = 0; i < 4; ++i) {
      sides.push_back(b.run(ring[i], ring[(i + 1) % 4], {b.duct(0.15, 4 + static_cast<double>(i))}));
      b.pieces().runs.back().leaks.push_back({0, 0.15, 1e-5});
    }
    const auto leg = [&](std::size_t node, bool collector) {
      if (!collector) {
        return b.run(0, node, {b.entry(0.12, 1), b.duct(0.12, 3, 0.09e-3, 2)});
      }
      const std::size_t in = b.joint();
      const std::size_t out = b.joint();
      const std::size_t run = b.run(node, in, {b.duct(0.15, 2)});
      b.lawFan(in, out, node == ring[1] ? 2600 : 3000, 0.6, 0.15);
      b.run(out, 0, {b.filter(0.15, 600), b.fitting(0.15, 1)});
      return run;
    };
    const std::size_t h0 = leg(ring[0], false);
    const std::size_t h2 = leg(ring[2], false);
    const std::size_t c1 = leg(ring[1], true);
    const std::size_t c3 = leg(ring[3], true);
    b.junction(ring[0], {sides[3], h0}, {0, 90}, sides[0]);
    b.junction(ring[2], {sides[1], h2}, {0, 90}, sides[2]);
    const auto takeOff = [&](std::size_t node, std::size_t arriving, std::size_t going, std::size_t out) {
      pieces::Junction j;
      j.node = node;
      j.legs = {{arriving, true}, {going, false}, {out, false}};
      j.nominal_outlet = 2;
      j.cosine = {0, 1, 0, 1, 0, 0, 0, 0, 0};
      b.pieces().junctions.push_back(j);
    };
    takeOff(ring[1], sides[0], sides[1], c1);
    takeOff(ring[3], sides[2], sides[3], c3);
    std::vector<Parameter> parameters = allParameters(b.pieces());
    expectMatchesSolves(b.pieces(), *b.compile(), restingSituation(b.pieces()), parameters, 1e-5, 0.012);
  }
}

TEST(Sensitivity, MatchesFullSolvesOnAVacuumLine) {
  NetBuilder b(1.2, true);
  const std::size_t in = b.joint();
  const std::size_t out = b.joint();
  b.run(0, in, {b.entry(0.027, 1.5), b.duct(0.027, 3, 0.09e-3, 2), b.duct(0.038, 12)});
  b.lawFan(in, out, 25000, 0.09, 0.038);
  b.run(out, 0, {b.fitting(0.05, 1)});
  std::vector<Parameter> parameters{group(Group::Hose),
                                    group(Group::Hood),
                                    group(Group::Friction),
                                    {What::Fan, Group::Friction, {}, {}},
                                    {What::Bore, Group::Friction, {0}, {}}};
  expectMatchesSolves(b.pieces(), *b.compile(), restingSituation(b.pieces()), parameters, 1e-5, 0.06);
}

TEST(Sensitivity, MatchesFullSolvesWithADustLoad) {
  NetBuilder b = shop(true, 0);
  Situation s = someOpen(b.pieces());
  s.solids_kg_s.assign(6, 0);
  s.solids_kg_s[0] = 0.02;
  s.solids_kg_s[3] = 0.05;
  // A full solve counts the load anew with every move; the derivative keeps it. These are heavy loads (0.4 kg
  // of chips per kg of air in one branch).
  expectMatchesSolves(b.pieces(), *b.compile(), s, allParameters(b.pieces()), 0.05, 0.2);
}

TEST(Sensitivity, MembersByTheAdjointAddUpToTheWhole) {
  for (const double leak : {0.0, 1e-6}) {
    NetBuilder b = shop(true, leak);
    const auto net = b.compile();
    const Situation s = someOpen(b.pieces());
    const Solution base = solveFully(*net, s);
    SensitivitySolver solver(*net);
    ASSERT_TRUE(solver.stand(s, base));
    for (const Parameter& parameter :
         {group(Group::Friction), group(Group::Hood), Parameter{What::Bore, Group::Friction, {}, {}},
          everyLeg(b.pieces())}) {
      for (const Output& output : {Output{Output::What::RunFlow, 0}, Output{Output::What::FanFlow, 0},
                                   Output{Output::What::NodePressure, 2}}) {
        const double whole =
            solver.byTangent(std::vector<Parameter>{parameter}, std::vector<Output>{output}).at(0, 0);
        double sum = 0;
        for (const double d : solver.byAdjoint(parameter, output)) {
          sum += d;
        }
        EXPECT_NEAR(sum, whole, (leak > 0 ? 5e-3 : 1e-5) * std::abs(whole));
      }
    }
  }
}

TEST(Sensitivity, DensityIsThatOfARoomWithOtherAir) {
  for (const bool local : {false, true}) {
    const auto flowAt = [&](double density) {
      NetBuilder b = comb(3, 1e-5, local);
      b.pieces().air.density_kg_m3 = density;
      Situation s = restingSituation(b.pieces());
      s.gate_travel = {1, 1, 0};
      return solveFully(*b.compile(), s).fans[0].flow_kg_s;
    };
    NetBuilder b = comb(3, 1e-5, local);
    Situation s = restingSituation(b.pieces());
    s.gate_travel = {1, 1, 0};
    const auto net = b.compile();
    SensitivitySolver solver(*net);
    const std::vector<Parameter> parameters{{What::Density, Group::Friction, {}, {}}};
    const std::vector<Output> outputs{{Output::What::FanFlow, 0}};
    const Solution base = solveFully(*net, s);
    ASSERT_TRUE(solver.stand(s, base));
    const double found = solver.byTangent(parameters, outputs).at(0, 0);
    const double step = 1e-3;
    const double meant = (flowAt(1.2 * std::exp(step)) - flowAt(1.2 * std::exp(-step))) / (2 * step);
    EXPECT_NEAR(found, meant, 1e-4 * meant);
  }
}

TEST(Sensitivity, OneQuadraticPathHasThePencilsDerivative) {
  // c m² = p0 (1 − (m/m0)²): m = 1/sqrt(c/p0 + 1/m0²), d ln m/d ln c = −½ c/(c + p0/m0²).
  NetBuilder b;
  const std::size_t in = b.joint();
  b.run(0, in, {b.quadratic(4000)});
  b.lawFan(in, 0, 2000, 1.0);
  const auto net = b.compile();
  const Situation s = restingSituation(b.pieces());
  const Solution base = solveFully(*net, s);
  const std::vector<Parameter> parameters{group(Group::Fitting), {What::Fan, Group::Friction, {0}, {}}};
  const std::vector<Output> outputs{{Output::What::RunFlow, 0}};
  SensitivitySolver solver(*net);
  ASSERT_TRUE(solver.stand(s, base));
  const Sensitivities d = solver.byTangent(parameters, outputs);
  const double of_fan = 2000 / (1.2 * 1.2);
  const double share = 4000 / (4000 + of_fan);
  EXPECT_NEAR(d.at(0, 0) / base.runs[0].flow_start_kg_s, -0.5 * share, 1e-7);
  EXPECT_NEAR(d.at(0, 1) / base.runs[0].flow_start_kg_s, 0.5 * share, 1e-7);
}

TEST(Sensitivity, AFanAtTheVeryTopOfItsCurveStillHasDerivatives) {
  // The fan's own slope is zero there, and the branch behind it is the only one that resists.
  NetBuilder b;
  const std::size_t in = b.joint();
  b.run(0, in, {b.quadratic(1000)});
  physics::FanRating rating{
      physics::makeFanCurve(std::vector<physics::FanPoint>{{0, 900}, {0.5, 1000}, {1.0, 800}}).value(),
      physics::RatingBasis::FanTotal, 1.2, 0, 1};
  b.fan(in, 0, rating);
  const auto net = b.compile();
  Situation s = restingSituation(b.pieces());
  s.group_factor[static_cast<std::size_t>(Group::Fitting)] = 1000 / (1000 * 0.36);  // 0.5 m3/s at 1000 Pa
  const Solution base = solveFully(*net, s);
  ASSERT_NEAR(base.fans[0].flow_kg_s, 0.6, 1e-6);
  SensitivitySolver solver(*net);
  const std::vector<Parameter> parameters{group(Group::Fitting)};
  const std::vector<Output> outputs{{Output::What::FanFlow, 0}};
  ASSERT_TRUE(solver.stand(s, base));
  const double d = solver.byTangent(parameters, outputs).at(0, 0);
  EXPECT_NEAR(d / 0.6, -0.5, 1e-4);
}

TEST(Sensitivity, NothingFollowsWhereNothingDrivesTheAir) {
  NetBuilder b = comb(2);
  const auto net = b.compile();
  Situation s = restingSituation(b.pieces());
  s.fan_on = {0};
  SensitivitySolver solver(*net);
  const std::vector<Parameter> parameters = allParameters(b.pieces());
  const Solution still = solveFully(*net, s);
  EXPECT_FALSE(solver.stand(s, still));
  EXPECT_EQ(solver.byTangent(parameters, allOutputs(b.pieces())).at(0, 0), 0);
  EXPECT_EQ(solver.byAdjoint(parameters[0], {}), std::vector<double>(b.pieces().runs.size(), 0.0));
}

// -------------------------------------------------------------------------- factors against built networks

TEST(SituationFactors, ABoreFactorIsThatOfANetworkWithSuchBores) {
  for (const bool local : {false, true}) {
    NetBuilder drawn = comb(3, 1e-5, local);
    NetBuilder wide = comb(3, 1e-5, local);
    const double factor = 1.03;
    for (pieces::Run& run : wide.pieces().runs) {
      run.start_bore_m *= factor;
      run.end_bore_m *= factor;
      for (pieces::Piece& piece : run.pieces) {
        piece.bore_m *= factor;
      }
      for (pieces::LeakStation& leak : run.leaks) {
        leak.bore_m *= factor;
      }
    }
    Situation s = restingSituation(drawn.pieces());
    s.gate_travel = {1, 0.4, 0};
    const Solution meant = solveFully(*wide.compile(), s);
    s.bore_factor.assign(drawn.pieces().runs.size(), factor);
    const auto net = drawn.compile();
    const Solution found = solveFully(*net, s);
    ASSERT_TRUE(found.solved());
    for (std::size_t r = 0; r < meant.runs.size(); ++r) {
      EXPECT_NEAR(found.runs[r].flow_start_kg_s, meant.runs[r].flow_start_kg_s, 1e-9);
      EXPECT_NEAR(found.runs[r].slowest_m_s, meant.runs[r].slowest_m_s, 1e-7);
      EXPECT_NEAR(found.runs[r].static_end_pa, meant.runs[r].static_end_pa, 1e-4);
      EXPECT_NEAR(found.runs[r].pieces.back().total_out_pa, found.runs[r].total_end_pa, 1e-5);
    }
    // And back: the workspace forgets the other bores.
    Workspace w(*net);
    ASSERT_TRUE(solve(*net, s, w, Start::Cold).usable());
    s.bore_factor.clear();
    ASSERT_TRUE(solve(*net, s, w, Start::Cold).usable());
    EXPECT_EQ(w.fanFlow()[0], solveFully(*net, s).fans[0].flow_kg_s);
  }
}

TEST(SituationFactors, AFanFactorScalesTheCurveAndNotTheVelocityPressure) {
  for (const physics::RatingBasis basis :
       {physics::RatingBasis::StaticAtInlet, physics::RatingBasis::TotalAtInlet,
        physics::RatingBasis::FanStatic, physics::RatingBasis::FanTotal}) {
    const auto rating = [&](double factor) {
      std::vector<physics::FanPoint> points{{0, 2000 * factor}, {0.2, 1700 * factor}, {0.4, 600 * factor}};
      return physics::makeFanRating(points, {basis, 1.2, 0.15, 0.15, 1}).value();
    };
    const auto net = [&](double factor) {
      NetBuilder b(1.19, true);
      const std::size_t in = b.joint();
      const std::size_t out = b.joint();
      b.run(0, in, {b.entry(0.15, 1), b.duct(0.15, 12)});
      b.fan(in, out, rating(factor), 0.15);
      b.run(out, 0, {b.fitting(0.15, 1)});
      return b;
    };
    NetBuilder one = net(1);
    NetBuilder other = net(1.12);
    Situation s = restingSituation(one.pieces());
    s.fan_factor = {1.12};
    const Solution found = solveFully(*one.compile(), s);
    const Solution meant = other.solve();
    EXPECT_NEAR(found.fans[0].flow_kg_s, meant.fans[0].flow_kg_s, 1e-9);
    EXPECT_NEAR(found.fans[0].rise_pa, meant.fans[0].rise_pa, 1e-6);
  }
}

TEST(SituationFactors, AJunctionsExtraIsAPieceInItsLegs) {
  NetBuilder drawn = comb(3);
  NetBuilder built = comb(3);
  Situation plain = restingSituation(drawn.pieces());
  plain.gate_travel = {1, 1, 0.5};
  Situation extra = plain;
  extra.junction_extra.resize(drawn.pieces().junctions.size());
  for (std::size_t j = 0; j < built.pieces().junctions.size(); ++j) {
    const pieces::Junction& junction = built.pieces().junctions[j];
    for (std::size_t leg = 0; leg < junction.legs.size(); ++leg) {
      const bool out = leg == junction.nominal_outlet;
      const double k = out ? 0.4 : 0.2 + 0.1 * static_cast<double>(leg);
      extra.junction_extra[j][leg] = k;
      pieces::Run& run = built.pieces().runs[junction.legs[leg].run];
      const double bore_m = out ? run.start_bore_m : run.end_bore_m;
      run.pieces.insert(out ? run.pieces.begin() : run.pieces.end(), built.fitting(bore_m, k));
    }
  }
  const Solution meant = solveFully(*built.compile(), plain);
  const Solution found = solveFully(*drawn.compile(), extra);
  ASSERT_TRUE(found.solved());
  for (std::size_t r = 0; r < meant.runs.size(); ++r) {
    // The junction's law has the density of its inlet plane, a piece that of its own two ends.
    EXPECT_NEAR(found.runs[r].flow_start_kg_s / meant.runs[r].flow_start_kg_s, 1, 2e-4);
    EXPECT_NEAR(found.runs[r].pieces.back().total_out_pa, found.runs[r].total_end_pa, 1e-5);
  }
  EXPECT_GT(solveFully(*drawn.compile(), plain).fans[0].flow_kg_s, found.fans[0].flow_kg_s);
}

TEST(SituationFactors, AGroupInOneRunIsThatRunsPieces) {
  NetBuilder drawn = comb(3);
  NetBuilder built = comb(3);
  built.pieces().runs[1].pieces[0].k_forward *= 1.7;
  built.pieces().runs[1].pieces[1].multiplier *= 1.6;
  Situation s = restingSituation(drawn.pieces());
  s.gate_travel = {1, 1, 1};
  const Solution meant = solveFully(*built.compile(), s);
  moveParameter(s, drawn.pieces(), group(Group::Hood, {1}), std::log(1.7));
  moveParameter(s, drawn.pieces(), group(Group::Hose, {1}), std::log(1.6));
  const Solution found = solveFully(*drawn.compile(), s);
  for (std::size_t r = 0; r < meant.runs.size(); ++r) {
    EXPECT_NEAR(found.runs[r].flow_start_kg_s, meant.runs[r].flow_start_kg_s, 1e-9);
  }
  EXPECT_NEAR(found.runs[1].pieces[0].coefficient, meant.runs[1].pieces[0].coefficient, 1e-9);
}

TEST(SituationFactors, AGateFactorIsShownAsItIsSolved) {
  NetBuilder b = comb(2, 1e-5);
  Situation s = restingSituation(b.pieces());
  s.gate_travel = {0.3, 1};
  s.group_factor[static_cast<std::size_t>(Group::Gate)] = 2;
  const Solution found = solveFully(*b.compile(), s);
  EXPECT_NEAR(found.runs[0].pieces.back().total_out_pa, found.runs[0].total_end_pa, 1e-5);
}

TEST(SituationFactors, ALoadedSolveIsWhatIsShown) {
  NetBuilder b = comb(3, 1e-5);
  const auto net = b.compile();
  Situation s = restingSituation(b.pieces());
  s.gate_travel = {1, 1, 0};
  s.solids_kg_s = {0.03, 0.01, 0};
  Workspace w(*net);
  ASSERT_TRUE(solveLoaded(*net, s, w, Start::Cold).usable());
  const Solution shown = solveFully(*net, s);
  for (std::size_t r = 0; r < shown.runs.size(); ++r) {
    EXPECT_EQ(w.runFlow()[r], shown.runs[r].flow_start_kg_s);
  }
}

}  // namespace
}  // namespace kerfdraft::network
