// Published and computed networks: the reference tree of two branches, two- and three-loop networks, three
// reservoirs. The numbers stand in our notes with their marks: computed there in double precision from the
// printed formulas, and where a text was read, equal to its printed values.
#include <gtest/gtest.h>

#include <cmath>

#include "support/nets.h"

namespace kerfdraft {
namespace {

using test::NetBuilder;

constexpr double kCfm = 0.3048 * 0.3048 * 0.3048 / 60;
constexpr double kInch = 0.0254;
constexpr double kFoot = 0.3048;
constexpr double kInchWater60F = 248.84;  // the inch of water that the reference tree is computed with
constexpr double kStandard = 0.075 * 0.45359237 / (kFoot * kFoot * kFoot);

/// The reference tree (computed; uniform density, no junction term beyond the listed coefficients): 4 in and
/// 5 in branches, 7 in main, filter 0.0015 in w.g. per cfm, 6 in discharge, fan 9.0 − 3.0e-6 Q².
struct Tree {
  NetBuilder b{kStandard, false};
  std::size_t first = 0;
  std::size_t second = 0;
  std::size_t main = 0;
};

Tree referenceTree(double filter_inwg_cfm, bool gate1_shut, bool gate2_shut) {
  Tree t;
  NetBuilder& b = t.b;
  const double eps = 3e-4 * kFoot;
  const std::size_t j = b.joint("junction");
  const std::size_t in = b.joint("fan inlet");
  const std::size_t out = b.joint("fan outlet");
  t.first = b.run(0, j, {b.duct(4 * kInch, 15 * kFoot, eps), b.fitting(4 * kInch, 0.49 + 0.36 + 0.18)});
  t.second = b.run(0, j, {b.duct(5 * kInch, 25 * kFoot, eps), b.fitting(5 * kInch, 0.25 + 0.48 + 0.18)});
  t.main = b.run(j, in, {b.duct(7 * kInch, 30 * kFoot, eps), b.fitting(7 * kInch, 0.48)});
  b.lawFan(in, out, 9.0 * kInchWater60F, std::sqrt(9.0 / 3.0e-6) * kCfm, 7 * kInch);
  b.run(out, 0,
        {b.filter(6 * kInch, filter_inwg_cfm * kInchWater60F / kCfm), b.duct(6 * kInch, 10 * kFoot, eps),
         b.fitting(6 * kInch, 1.0)});
  b.pieces().runs[t.first].closed = gate1_shut;
  b.pieces().runs[t.second].closed = gate2_shut;
  return t;
}

TEST(PublishedNetworks, ReferenceTreeInAllItsStates) {
  struct Row {
    double filter;
    bool shut1;
    bool shut2;
    double q1;
    double q2;
    double q;
    double fan_inwg;
  };
  // computed rows of the reference tree
  for (const Row& row : {Row{0.0015, false, false, 365.0929, 552.0436, 917.1365, 6.476582},
                         Row{0.0015, false, true, 599.9428, 0, 599.9428, 7.920206},
                         Row{0.0015, true, false, 0, 762.4537, 762.4537, 7.255993},
                         Row{0.0040, false, false, 318.0861, 480.6902, 798.7763, 7.085869}}) {
    Tree t = referenceTree(row.filter, row.shut1, row.shut2);
    const network::Solution s = t.b.solve();
    ASSERT_TRUE(s.solved()) << s.why;
    const auto cfm = [&](std::size_t run) { return s.runs[run].flow_start_kg_s / kStandard / kCfm; };
    EXPECT_NEAR(cfm(t.first), row.q1, 2e-3);
    EXPECT_NEAR(cfm(t.second), row.q2, 2e-3);
    EXPECT_NEAR(cfm(t.main), row.q, 2e-3);
    EXPECT_NEAR(s.fans[0].rise_pa / kInchWater60F, row.fan_inwg, 2e-5);
  }
  Tree t = referenceTree(0.0015, false, false);
  const network::Solution s = t.b.solve();
  EXPECT_NEAR(s.node_pa[1] / kInchWater60F, -2.160516, 1e-5);
  EXPECT_NEAR(s.fans[0].inlet_total_pa / kInchWater60F, -3.223966, 1e-5);
  // The row takes its velocity pressure as (V/4005)², whose inch is that of water at 68 °F; ours follows the
  // density.
  const double v_fpm = s.runs[t.main].pieces.back().speed_m_s / 0.00508;
  EXPECT_NEAR(v_fpm, 3431.71, 0.02);
  EXPECT_NEAR(s.fans[0].inlet_total_pa / kInchWater60F - std::pow(v_fpm / 4005, 2), -3.958168, 2e-5);
  EXPECT_NEAR(s.runs[t.first].pieces[0].speed_m_s / 0.00508, 4183.66, 0.05);
}

/// Links that lose r m², demands and fixed pressures: water-network examples in our terms.
struct Loops {
  NetBuilder b{1.0, false};
  std::vector<std::size_t> nodes;
  std::vector<std::size_t> links;
  explicit Loops(int n) {
    for (int i = 0; i < n; ++i) {
      nodes.push_back(b.joint("node " + std::to_string(i + 1)));
    }
  }
  void link(std::size_t from, std::size_t to, double r) {
    links.push_back(b.run(nodes[from], nodes[to], {b.quadratic(r)}));
  }
  void demand(std::size_t node, double inflow) { b.pieces().nodes[nodes[node]].inflow_kg_s = inflow; }
  void fix(std::size_t node, double pa) {
    b.pieces().nodes[nodes[node]].fixed = true;
    b.pieces().nodes[nodes[node]].fixed_pa = pa;
  }
};

TEST(PublishedNetworks, T1TwoLoopTeachingExample) {
  // Teaching example, from memory; exact solution computed: Q12 = Q34 = 20/3, the others 10/3.
  Loops n(4);
  n.link(0, 1, 1);
  n.link(0, 2, 5);
  n.link(1, 2, 1);
  n.link(1, 3, 5);
  n.link(2, 3, 1);
  n.fix(0, 1e-9);
  n.demand(3, -10);
  const network::Solution s = n.b.solve();
  ASSERT_TRUE(s.solved()) << s.why;
  const double expected[] = {20.0 / 3, 10.0 / 3, 10.0 / 3, 10.0 / 3, 20.0 / 3};
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_NEAR(s.runs[n.links[i]].flow_start_kg_s, expected[i], 1e-7);
  }
  EXPECT_NEAR(s.node_pa[n.nodes[1]], -400.0 / 9, 1e-5);
  EXPECT_NEAR(s.node_pa[n.nodes[2]], -500.0 / 9, 1e-5);
  EXPECT_NEAR(s.node_pa[n.nodes[3]], -100, 1e-5);
}

TEST(PublishedNetworks, T2FivePipes) {
  // Data of the R package "hydraulics", vignette section 7; converged values computed.
  Loops n(4);  // A B C D
  n.link(2, 0, 200);
  n.link(0, 3, 2500);
  n.link(2, 3, 500);
  n.link(0, 1, 800);
  n.link(3, 1, 300);
  n.fix(2, 1e-9);
  n.demand(1, -0.5);
  const network::Solution s = n.b.solve();
  ASSERT_TRUE(s.solved()) << s.why;
  const double expected[] = {0.27466906, 0.06418224, 0.22533094, 0.21048682, 0.28951318};
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_NEAR(s.runs[n.links[i]].flow_start_kg_s, expected[i], 1e-8);
  }
  EXPECT_NEAR(s.node_pa[n.nodes[0]], -15.088618, 1e-5);
  EXPECT_NEAR(s.node_pa[n.nodes[3]], -25.387017, 1e-5);
  EXPECT_NEAR(s.node_pa[n.nodes[1]], -50.532380, 1e-5);
}

TEST(PublishedNetworks, T3TenPipesThreeLoops) {
  // Ten pipes, three loops, of the same vignette: the resistances and the start are printed, the converged
  // flows computed. Loops (+ clockwise): (1 2 3 4 5), (-4 6 7 8), (-3 9 10 -6). The nodes follow from the
  // loops: pipes 1-2 meet at B, 2-3-9 at C, 3-4-6-10 at D, 4-5-8 at E, 5-1 at A, 6... each start flow
  // balances them.
  const double r[] = {159.728,  535.784, 669.729,  669.729,  535.784,
                      2429.706, 207.717, 2429.706, 2429.706, 207.717};
  const double start[] = {0.040, 0.040, 0.020, -0.020, -0.040, 0, 0, -0.020, 0.020, 0};
  const double expected[] = {0.038228, 0.038228, 0.023153,  -0.025647, -0.041772,
                             0.008800, 0.003875, -0.016125, 0.015075,  -0.004925};
  // A-1-B-2-C-3-D-4-E-5-A; loop 2 runs 4 backward (E to D), then 6 (D-F), 7 (F-G), 8 (G-E); loop 3 runs 3
  // backward (D to C), then 9 (C-H), 10 (H-F), and 6 backward (F to D).
  enum { A, B, C, D, E, F, G, H };
  Loops n(8);
  const std::pair<int, int> ends[] = {{A, B}, {B, C}, {C, D}, {D, E}, {E, A},
                                      {D, F}, {F, G}, {G, E}, {C, H}, {H, F}};
  std::vector<double> out(8, 0);
  for (std::size_t i = 0; i < 10; ++i) {
    n.link(static_cast<std::size_t>(ends[i].first), static_cast<std::size_t>(ends[i].second), r[i]);
    out[static_cast<std::size_t>(ends[i].first)] += start[i];
    out[static_cast<std::size_t>(ends[i].second)] -= start[i];
  }
  n.fix(A, 1e-9);
  for (std::size_t i = 1; i < 8; ++i) {
    n.demand(i, out[i]);
  }
  const network::Solution s = n.b.solve();
  ASSERT_TRUE(s.solved()) << s.why;
  for (std::size_t i = 0; i < 10; ++i) {
    EXPECT_NEAR(s.runs[n.links[i]].flow_start_kg_s, expected[i], 1e-6) << "pipe " << i + 1;
  }
}

TEST(PublishedNetworks, T4AndT5ThreeReservoirs) {
  // Textbook companion collection (Douglas et al., Ex. 14.8, by memory of the list): heads 60, 30, 15;
  // converged computed.
  const auto reservoirs = [](const double(&heads)[3], const double(&r)[3]) {
    NetBuilder b(1.0, false);
    const std::size_t j = b.joint("junction");
    for (int i = 0; i < 3; ++i) {
      b.run(b.reservoir(heads[i]), j, {b.quadratic(r[i])});
    }
    return b.solve();
  };
  const network::Solution four = reservoirs({60, 30, 15}, {2057.6132, 2730.6667, 4166.6667});
  ASSERT_TRUE(four.solved()) << four.why;
  EXPECT_NEAR(four.node_pa[1], 34.776657, 2e-6);
  EXPECT_NEAR(four.runs[0].flow_start_kg_s, 0.11071831, 1e-8);
  EXPECT_NEAR(four.runs[1].flow_start_kg_s, -0.04182421, 1e-8);
  EXPECT_NEAR(four.runs[2].flow_start_kg_s, -0.06889411, 1e-8);
  // The same collection, Ex. 9.12: the book's trial junction is 131.6; exact computed 131.604838.
  const network::Solution five = reservoirs({135, 120, 112}, {0.7594, 36.33, 8.168});
  ASSERT_TRUE(five.solved()) << five.why;
  EXPECT_NEAR(five.node_pa[1], 131.604838, 1e-5);
  EXPECT_NEAR(five.runs[0].flow_start_kg_s, 2.1144381, 1e-6);
  EXPECT_NEAR(five.runs[1].flow_start_kg_s, -0.5651801, 1e-6);
  EXPECT_NEAR(five.runs[2].flow_start_kg_s, -1.5492580, 1e-6);
}

TEST(PublishedNetworks, T6ExhaustTreeWithFan) {
  // Computed: branches 3e-5 and 5e-5 in w.g./cfm², trunk 2e-6, fan 10 − 1e-6 Q²; here in those units (ρ = 1).
  for (const bool shut : {false, true}) {
    NetBuilder b(1.0, false);
    const std::size_t j = b.joint();
    const std::size_t in = b.joint();
    b.run(0, j, {b.quadratic(3.0e-5)});
    b.run(0, j, {b.quadratic(5.0e-5)});
    b.run(j, in, {b.quadratic(2.0e-6)});
    b.lawFan(in, 0, 10, std::sqrt(1e7));
    b.pieces().runs[1].closed = shut;
    const network::Solution s = b.solve();
    ASSERT_TRUE(s.solved()) << s.why;
    EXPECT_NEAR(s.fans[0].flow_kg_s, shut ? 550.48188 : 893.48955, 2e-4);
    EXPECT_NEAR(s.runs[0].flow_start_kg_s, shut ? 550.48188 : 503.48880, 2e-4);
    EXPECT_NEAR(s.fans[0].rise_pa, shut ? 9.696970 : 9.201676, 2e-6);
  }
}

TEST(PublishedNetworks, OperatingPointsOfSingleFans) {
  // Computed rows: fan 10 − 2.5e-6 Q² against k Q²; two in series and two in parallel.
  const auto point = [](double k, int series, int parallel) {
    NetBuilder b(1.0, false);
    std::size_t at = b.joint();
    b.run(0, at, {b.quadratic(k)});
    for (int i = 0; i < series; ++i) {
      const std::size_t next = i + 1 == series ? 0 : b.joint();
      for (int p = 0; p < parallel; ++p) {
        b.lawFan(at, next, 10, 2000);
      }
      at = next;
    }
    const network::Solution s = b.solve();
    EXPECT_TRUE(s.solved()) << s.why;
    return s.runs[0].flow_start_kg_s;
  };
  EXPECT_NEAR(point(4e-6, 1, 1), 1240.347, 2e-3);
  EXPECT_NEAR(point(2e-6, 1, 1), 1490.712, 2e-3);
  EXPECT_NEAR(point(8e-6, 1, 1), 975.900, 2e-3);
  EXPECT_NEAR(point(4e-6, 2, 1), 1490.712, 2e-3);
  EXPECT_NEAR(point(4e-6, 1, 2), 1470.429, 2e-3);
}

}  // namespace
}  // namespace kerfdraft
