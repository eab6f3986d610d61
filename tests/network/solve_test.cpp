// The solver: balances, convergence from nothing, warm equals cold, shut states, reversed flow, several fans.
#include "network/solve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "support/nets.h"

namespace kerfdraft::network {
namespace {

using test::comb;
using test::NetBuilder;

/// All that model.md section 7 asks of a solution, and that the pieces of each run add up to its pressures.
void expectSolved(const pieces::Pieces& p, const Solution& s) {
  ASSERT_TRUE(s.solved()) << s.why;
  EXPECT_LE(s.residuals.worst_allowed, 1);
  std::vector<double> balance(p.nodes.size(), 0);
  double scale = 1e-9;
  for (std::size_t r = 0; r < p.runs.size(); ++r) {
    balance[p.runs[r].from] -= s.runs[r].flow_start_kg_s;
    balance[p.runs[r].to] += s.runs[r].flow_end_kg_s;
    scale = std::max(scale, std::abs(s.runs[r].flow_start_kg_s));
    if (!s.runs[r].pieces.empty() && !p.runs[r].closed) {
      EXPECT_NEAR(s.runs[r].pieces.back().total_out_pa, s.runs[r].total_end_pa, 3e-6) << p.runs[r].label;
    }
  }
  for (std::size_t f = 0; f < p.fans.size(); ++f) {
    balance[p.fans[f].from] -= s.fans[f].flow_kg_s;
    balance[p.fans[f].to] += s.fans[f].flow_kg_s;
  }
  for (std::size_t o = 0; o < p.openings.size(); ++o) {
    balance[p.openings[o].from] -= s.openings[o].flow_kg_s;
    balance[p.openings[o].to] += s.openings[o].flow_kg_s;
  }
  for (std::size_t n = 1; n < p.nodes.size(); ++n) {
    if (p.nodes[n].kind == pieces::NodeKind::Junction || p.nodes[n].kind == pieces::NodeKind::Joint) {
      EXPECT_NEAR(balance[n], 0, 2e-9 * scale) << p.nodes[n].label;
    }
  }
}

TEST(Solve, ASinglePathLosesWhatTheFanGives) {
  for (const bool local : {false, true}) {
    NetBuilder b(1.2, local);
    const std::size_t in = b.joint();
    const std::size_t out = b.joint();
    b.run(0, in, {b.entry(0.1, 0.5), b.duct(0.1, 8), b.fitting(0.1, 0.3)});
    b.lawFan(in, out, 2500, 0.4, 0.1);
    b.run(out, 0, {b.fitting(0.12, 1)});
    const Solution s = b.solve();
    expectSolved(b.pieces(), s);
    double losses = 0;
    for (const RunResult& r : s.runs) {
      for (const PieceResult& p : r.pieces) {
        losses += p.loss_pa;
      }
    }
    EXPECT_NEAR(losses, s.fans[0].rise_pa, 1e-6);
    EXPECT_GT(s.fans[0].flow_kg_s, 0.1);
  }
}

TEST(Solve, LocalDensityLowersAnOrdinaryShopByUpToFourPercent) {
  // model.md section 2: "local lowers ordinary shops by 0.5–4 % against uniform".
  NetBuilder local = comb(4, 0, true);
  NetBuilder uniform = comb(4, 0, false);
  for (NetBuilder* b : {&local, &uniform}) {
    ASSERT_TRUE(b->compile());
  }
  Situation open = restingSituation(local.pieces());
  open.gate_travel = {1, 0, 0, 1};
  const Solution l = solveFully(*local.compile(), open);
  const Solution u = solveFully(*uniform.compile(), open);
  ASSERT_TRUE(l.solved());
  const double ratio = l.fans[0].flow_kg_s / u.fans[0].flow_kg_s;
  EXPECT_LT(ratio, 0.995);
  EXPECT_GT(ratio, 0.96);
}

TEST(Solve, EveryGateSetOfACombIsSolvedAndWarmEqualsCold) {
  for (const double leak : {0.0, 2e-6}) {
    const NetBuilder b = comb(7, leak);
    const auto net = b.compile();
    Situation s = restingSituation(const_cast<NetBuilder&>(b).pieces());
    Workspace warm(*net);
    Workspace cold(*net);
    double worst = 0;
    int most = 0;
    for (unsigned set = 0; set < 128; ++set) {
      const unsigned open = set ^ (set >> 1U);
      for (std::size_t g = 0; g < 7; ++g) {
        s.gate_travel[g] = ((open >> g) & 1U) != 0 ? 1 : 0;
      }
      const Report w = solve(*net, s, warm, set == 0 ? Start::Cold : Start::Warm);
      const Report c = solve(*net, s, cold, Start::Cold);
      ASSERT_TRUE(w.usable()) << open;
      ASSERT_TRUE(c.usable()) << open;
      most = std::max(most, c.iterations);
      for (std::size_t r = 0; r < warm.runFlow().size(); ++r) {
        worst = std::max(worst, std::abs(warm.runFlow()[r] - cold.runFlow()[r]));
      }
    }
    EXPECT_LT(worst, 1e-9);
    EXPECT_LE(most, 16);
    RecordProperty("iterations", most);
  }
}

TEST(Solve, EveryGateShutIsAStateLikeAnyOther) {
  NetBuilder b = comb(3);
  for (pieces::GatePlace& g : b.pieces().gates) {
    g.leak_fraction = 0;
  }
  const Solution tight = b.solve();
  expectSolved(b.pieces(), tight);
  EXPECT_NEAR(tight.fans[0].flow_kg_s, 0, 1e-9);
  // The fan stands at its shut-off pressure, thinner by the suction it makes.
  EXPECT_LT(tight.fans[0].inlet_total_pa, -0.96 * 3500);
  EXPECT_GT(tight.fans[0].inlet_total_pa, -3500);
}

TEST(Solve, AStoppedFanLetsTheAirStand) {
  NetBuilder b = comb(3);
  Situation s = restingSituation(b.pieces());
  s.fan_on = {0};
  s.gate_travel = {1, 1, 1};
  const Solution still = solveFully(*b.compile(), s);
  EXPECT_EQ(still.outcome, Outcome::Still);
  EXPECT_NEAR(still.fans[0].flow_kg_s, 0, 1e-6);
}

TEST(Solve, NoWayToFreeAirIsSaidWithItsPlace) {
  NetBuilder b;
  const std::size_t in = b.joint("box A");
  const std::size_t out = b.joint("box B");
  b.run(out, in, {b.duct(0.1, 1)});
  b.lawFan(in, out, 1000, 0.3, 0.1);
  const Solution s = b.solve();
  EXPECT_EQ(s.outcome, Outcome::NoFreeAir);
  EXPECT_NE(s.why.find("box A"), std::string::npos) << s.why;
}

TEST(Solve, NoFanIsSaid) {
  NetBuilder b;
  const std::size_t j = b.joint();
  b.run(0, j, {b.duct(0.1, 1)});
  b.run(j, 0, {b.duct(0.1, 1)});
  EXPECT_EQ(b.solve().outcome, Outcome::NoFan);
}

TEST(Solve, ARoomEmptiedOutdoorsNeedsAnOpening) {
  const auto shop = [](bool door) {
    NetBuilder b;
    const std::size_t room = b.node(pieces::NodeKind::Room, "the shop");
    const std::size_t in = b.joint();
    const std::size_t out = b.joint();
    b.run(room, in, {b.entry(0.1, 1), b.duct(0.1, 5)});
    b.lawFan(in, out, 2500, 0.5, 0.1);
    b.run(out, 0, {b.fitting(0.1, 1)});
    if (door) {
      b.opening(0, room, 0.02);
    }
    return b.solve();
  };
  const Solution closed = shop(false);
  EXPECT_EQ(closed.outcome, Outcome::NoRoomAir);
  EXPECT_NE(closed.why.find("the shop"), std::string::npos);
  const Solution open = shop(true);
  ASSERT_TRUE(open.solved()) << open.why;
  // Q = Cd A sqrt(2 dp/ρ) through the door.
  const double q = open.openings[0].flow_kg_s / 1.2;
  EXPECT_NEAR(open.openings[0].drop_pa, 0.5 * 1.2 * std::pow(q / (0.61 * 0.02), 2), 1e-6);
  EXPECT_NEAR(open.node_pa[1], -open.openings[0].drop_pa, 1e-6);
}

TEST(Solve, ABoosterInOneBranchCanTurnTheOtherBackward) {
  // A strong blower pushes into a junction whose collector is off and stands behind a damper: the air leaves
  // by the other hood, whose entry then loses its velocity pressure.
  NetBuilder b;
  const std::size_t j = b.node(pieces::NodeKind::Junction, "J");
  const std::size_t a = b.joint();
  const std::size_t fan_in = b.joint();
  const std::size_t fan_out = b.joint();
  b.run(0, a, {b.entry(0.1, 0.5), b.duct(0.1, 2)});
  const std::size_t pushed = b.run(fan_out, j, {b.duct(0.1, 2)});
  const std::size_t other = b.run(0, j, {b.entry(0.1, 0.5), b.duct(0.1, 3)});
  const std::size_t main = b.run(j, fan_in, {b.duct(0.14, 3)});
  b.junction(j, {other, pushed}, {0, 45}, main);
  b.lawFan(a, fan_out, 1500, 0.3, 0.1);
  const std::size_t out = b.joint();
  b.lawFan(fan_in, out, 2000, 0.5, 0.14);
  b.run(out, 0, {b.fitting(0.14, 1)});
  b.pieces().fans[1].non_return = true;
  Situation s = restingSituation(b.pieces());
  s.fan_on = {1, 0};
  const Solution blown = solveFully(*b.compile(), s);
  expectSolved(b.pieces(), blown);
  EXPECT_NEAR(blown.runs[main].flow_start_kg_s, 0, 1e-9);
  EXPECT_LT(blown.runs[other].flow_start_kg_s, -0.05);
  EXPECT_NEAR(blown.runs[other].pieces[0].coefficient, 1.0, 1e-12);
}

TEST(Solve, TwoCollectorsOnARingShareTheAirAndWarmEqualsCold) {
  NetBuilder b(1.2, true);
  std::vector<std::size_t> ring;
  for (int i = 0; i < 4; ++i) {
    ring.push_back(b.node(pieces::NodeKind::Junction, "ring " + std::to_string(i)));
  }
  std::vector<std::size_t> sides;
  for (int i = 0; i < 4; ++i) {
    sides.push_back(b.run(ring[static_cast<std::size_t>(i)], ring[static_cast<std::size_t>((i + 1) % 4)],
                          {b.duct(0.15, 4)}));
  }
  const auto hood = [&](std::size_t node) { return b.run(0, node, {b.entry(0.12, 1), b.duct(0.12, 3)}); };
  const auto collector = [&](std::size_t node) {
    const std::size_t in = b.joint();
    const std::size_t out = b.joint();
    const std::size_t run = b.run(node, in, {b.duct(0.15, 2)});
    b.lawFan(in, out, 2600, 0.6, 0.15);
    b.run(out, 0, {b.filter(0.15, 600), b.fitting(0.15, 1)});
    return run;
  };
  const std::size_t h0 = hood(ring[0]);
  const std::size_t h2 = hood(ring[2]);
  const std::size_t c1 = collector(ring[1]);
  const std::size_t c3 = collector(ring[3]);
  // Each ring node: the side that arrives, a branch at 90 degrees, the side that goes on. Collectors branch
  // off.
  b.junction(ring[0], {sides[3], h0}, {0, 90}, sides[0]);
  b.junction(ring[2], {sides[1], h2}, {0, 90}, sides[2]);
  const auto takeOff = [&](std::size_t node, std::size_t arriving, std::size_t going, std::size_t out) {
    pieces::Junction j;
    j.node = node;
    j.legs = {{arriving, true}, {going, false}, {out, false}};
    j.nominal_outlet = 2;
    j.cosine = {0, 1, 0, 1, 0, 0, 0, 0, 0};  // straight on through the ring, nothing of it into the take-off
    b.pieces().junctions.push_back(j);
  };
  takeOff(ring[1], sides[0], sides[1], c1);
  takeOff(ring[3], sides[2], sides[3], c3);
  const Solution s = b.solve();
  expectSolved(b.pieces(), s);
  // Half a turn of the ring maps it onto itself, so the collectors take the same.
  EXPECT_NEAR(s.fans[0].flow_kg_s, s.fans[1].flow_kg_s, 1e-7);
  const auto net = b.compile();
  Workspace w(*net);
  Situation one = restingSituation(b.pieces());
  one.fan_on = {1, 0};
  ASSERT_TRUE(solve(*net, one, w, Start::Cold).usable());
  const Report warm = solve(*net, restingSituation(b.pieces()), w, Start::Warm);
  ASSERT_TRUE(warm.usable());
  EXPECT_NEAR(w.fanFlow()[0], s.fans[0].flow_kg_s, 1e-9);
}

TEST(Solve, AVacuumLineAt25KilopascalComesOut) {
  // A hand-tool line: 38 mm, 12 m, an orifice at the tool. Checked against the isothermal law of the whole
  // line.
  NetBuilder b(1.2, true);
  const std::size_t in = b.joint();
  const std::size_t out = b.joint();
  b.run(0, in, {b.entry(0.027, 1.5), b.duct(0.027, 3, 0.09e-3, 2), b.duct(0.038, 12)});
  b.lawFan(in, out, 25000, 0.09, 0.038);
  b.run(out, 0, {b.fitting(0.05, 1)});
  const Solution s = b.solve();
  expectSolved(b.pieces(), s);
  EXPECT_LT(s.fans[0].inlet_total_pa, -12000);
  const pieces::Pieces& p = b.pieces();
  // Each duct piece by itself: a (ρ1² − ρ2²)/2 − (G²/2) ln(ρ1/ρ2) = f L/D G²/2.
  const double a = 101325 / 1.2;
  const PieceResult& line = s.runs[0].pieces[2];
  const double g = line.flow_kg_s / physics::roundArea(0.038);
  const double rho1 = (line.static_in_pa + 101325) / a;
  const double rho2 = (line.static_out_pa + 101325) / a;
  EXPECT_NEAR(0.5 * a * (rho1 * rho1 - rho2 * rho2) - 0.5 * g * g * std::log(rho1 / rho2),
              0.5 * g * g * line.friction_factor * p.runs[0].pieces[2].length_m / 0.038, 1e-6 * 0.5 * g * g);
}

TEST(Solve, ImpossibleDemandsDoNotCrash) {
  // A fan of 90 kPa on a pinhole: the air chokes; whatever is said, it is said without NaN.
  NetBuilder b(1.2, true);
  const std::size_t in = b.joint();
  const std::size_t out = b.joint();
  b.run(0, in, {b.entry(0.004, 50), b.duct(0.004, 3)});
  b.lawFan(in, out, 90000, 5, 0.2);
  b.run(out, 0, {b.fitting(0.2, 1)});
  const Solution s = b.solve();
  for (const RunResult& r : s.runs) {
    EXPECT_TRUE(std::isfinite(r.flow_start_kg_s));
  }
  EXPECT_TRUE(s.solved() || s.outcome == Outcome::NotConverged);
}

TEST(Solve, RandomTreesConvergeFromNothingWhateverTheGates) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> u(0, 1);
  int most = 0;
  for (int trial = 0; trial < 300; ++trial) {
    NetBuilder b(1.2, trial % 2 == 0);
    const int n = 2 + static_cast<int>(u(random) * 9);
    std::vector<std::pair<std::size_t, double>> open_runs;  // run, bore
    const std::size_t end = b.joint("fan");
    // Runs are joined in pairs until one is left; each begins at its own junction.
    std::vector<std::size_t> node(static_cast<std::size_t>(n - 1));
    for (std::size_t& at : node) {
      at = b.node(pieces::NodeKind::Junction, "J");
    }
    std::size_t used = 0;
    const auto randomRun = [&](std::size_t from, std::size_t to, double bore, bool hood) {
      std::vector<pieces::Piece> list;
      if (hood) {
        list.push_back(b.entry(bore, 0.1 + 3 * u(random)));
      }
      list.push_back(b.duct(bore, 0.05 + 12 * u(random) * u(random), u(random) < 0.5 ? 0.03e-3 : 0.15e-3));
      list.push_back(b.fitting(bore, 2 * u(random)));
      if (hood && u(random) < 0.7) {
        list.push_back(b.gate(bore, u(random) < 0.5 ? 0.0 : 0.01));
      }
      return b.run(from, to, list);
    };
    struct Pending {
      std::size_t run;
      double bore;
    };
    std::vector<Pending> pending;
    const auto bore = [&] { return 0.06 + 0.14 * u(random); };
    double d = bore();
    pending.push_back({randomRun(0, n == 1 ? end : node[0], d, true), d});
    for (int i = 1; i < n; ++i) {
      const std::size_t here = node[used++];
      b.pieces().runs[pending.back().run].to = here;
      const double db = bore();
      const std::size_t branch = randomRun(0, here, db, true);
      const double dm = std::max(db, pending.back().bore) * (0.8 + 0.5 * u(random));
      const std::size_t out = randomRun(here, i + 1 < n ? node[used] : end, dm, false);
      b.junction(here, {pending.back().run, branch},
                 {u(random) < 0.3 ? 90.0 * u(random) : 0.0, 20 + 80 * u(random)}, out);
      pending.push_back({out, dm});
    }
    const std::size_t fan_out = b.joint();
    b.lawFan(end, fan_out, 800 + 5000 * u(random), 0.2 + u(random), pending.back().bore);
    b.run(fan_out, 0, {b.filter(0.2, 2000 * u(random)), b.fitting(0.2, 1)});
    Situation s = restingSituation(b.pieces());
    for (double& travel : s.gate_travel) {
      travel = u(random) < 0.4 ? 0.0 : u(random) < 0.5 ? 1.0 : u(random);
    }
    const auto net = b.compile();
    const Solution solution = solveFully(*net, s);
    ASSERT_TRUE(solution.solved()) << "trial " << trial << ": " << solution.why;
    expectSolved(b.pieces(), solution);
    most = std::max(most, solution.residuals.iterations);
  }
  RecordProperty("most_iterations", most);
  std::printf("most iterations over 300 random trees: %d\n", most);
}

TEST(Solve, GateSetsDoNotDependOnTheNumberOfThreads) {
  const NetBuilder b = comb(8, 1e-6);
  const auto net = b.compile();
  const Situation s = restingSituation(const_cast<NetBuilder&>(b).pieces());
  const auto walk = [&](unsigned threads) {
    std::vector<double> flows;
    GateSetOptions options;
    options.threads = threads;
    const auto count = solveGateSets(*net, s, options, [&](const GateSetResult& r) {
      EXPECT_EQ(r.outcome, Outcome::Solved);
      flows.insert(flows.end(), r.run_flow_kg_s.begin(), r.run_flow_kg_s.end());
    });
    EXPECT_EQ(count.value(), 256U);
    return flows;
  };
  const auto one = walk(1);
  EXPECT_EQ(one, walk(2));
  EXPECT_EQ(one, walk(3));
}

TEST(Solve, TooManyGatesAreRefused) {
  NetBuilder b = comb(41);
  const auto refused =
      solveGateSets(*b.compile(), restingSituation(b.pieces()), {}, [](const GateSetResult&) {});
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().message.find("41 gates"), std::string::npos);
}

TEST(Solve, DustLoadsFrictionAndIsAcceleratedOnce) {
  NetBuilder b = comb(2);
  Situation s = restingSituation(b.pieces());
  s.gate_travel = {1, 0};
  const auto net = b.compile();
  const Solution clean = solveFully(*net, s);
  s.solids_kg_s = {0.03, 0.05};  // the second stands behind a shut gate and throws nothing
  const Solution dusty = solveFully(*net, s);
  ASSERT_TRUE(dusty.solved());
  const double mu = 0.03 / clean.runs[0].flow_start_kg_s;
  EXPECT_NEAR(dusty.runs[0].solids_ratio, mu, 1e-12);
  EXPECT_EQ(dusty.runs[1].solids_ratio, 0);
  EXPECT_NEAR(dusty.runs[0].pieces[3].coefficient / dusty.runs[0].pieces[3].friction_factor,
              2 / 0.1 * (1 + 0.5 * mu), 1e-9);
  const PieceResult& first = dusty.runs[0].pieces[1];
  EXPECT_NEAR(first.coefficient, 2.5 * first.friction_factor * 15 * (1 + 0.5 * mu) + 1.6 * mu, 1e-9);
  EXPECT_LT(dusty.fans[0].flow_kg_s, clean.fans[0].flow_kg_s);
}

}  // namespace
}  // namespace kerfdraft::network
