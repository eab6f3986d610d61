// Rows J: converging junctions. J1 to J9, J13, J14 with the plain cosine, the identity and J13's air data
// with the effective one; J10 to J12 and J15 to J17 belong to other published formulas and are measured
// against ours, not bent to it.
#include "physics/junction.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "physics/sample_tables.h"

namespace kerfdraft::physics {
namespace {

using tests::kDegree;

struct Zeta {
  double branch = 0;
  double straight = 0;
};

/// Leg 0 straight main of area s, leg 1 branch of area a at `degrees`, leg 2 outlet of area 1.
JunctionGeometry tee(double degrees, double a, double s = 1) {
  const std::vector<double> area{s, a, 1};
  const double alpha = degrees * kDegree;
  const double back = std::numbers::pi - alpha;
  const std::vector<double> turn{0, back, 0, back, 0, alpha, 0, alpha, 0};
  return junctionGeometry(area, turn, 2, tests::kMitreColumn).value();
}

JunctionGeometry plainTee(double degrees, double a, double s = 1) {
  JunctionGeometry geometry = tee(degrees, a, s);
  geometry.cosine[1][2] = std::cos(degrees * kDegree);
  return geometry;
}

/// Losses on the outlet's velocity pressure at branch share q.
Zeta zeta(const JunctionGeometry& geometry, double q) {
  const std::vector<double> flow{1 - q, q, -1};
  std::vector<double> rise(3);
  junctionEnds(geometry, flow, 1, rise.data(), nullptr);  // VP of the outlet is 1/2
  return {2 * (rise[1] - rise[2]), 2 * (rise[0] - rise[2])};
}

struct Row {
  const char* id;
  double degrees, a, q, branch, straight;
};

TEST(PublishedJunction, MomentumRows) {
  // Idelchik 1960 and 2006, Crane TP-410 (read through open libraries), factor A = 1, computed with their
  // tabulated 1.74 and 1.41 for 2 cos(30), 2 cos(45): up to 0.0042 q^2/a beside the cosine itself.
  const Row rows[] = {{"J1", 30, 0.25, 0.2, 0.08160, 0.08160},    {"J2", 30, 0.4444, 0.3, 0.12328, 0.15765},
                      {"J3", 30, 0.5625, 0.5, 0.51679, -0.02333}, {"J4", 45, 0.25, 0.2, 0.13440, 0.13440},
                      {"J5", 45, 0.25, 0.3, 0.95240, 0.00240},    {"J6", 45, 0.4444, 0.3, 0.19010, 0.22447},
                      {"J7", 45, 0.5625, 0.5, 0.66346, 0.12333},  {"J8", 60, 0.4444, 0.5, 1.20313, 0.18750},
                      {"J9", 60, 1.0, 0.5, 0.50000, 0.50000},     {"J13", 45, 0.5, 0.7, 1.39820, -0.47180}};
  for (const auto& row : rows) {
    const double a = row.a == 0.4444 ? 4.0 / 9 : row.a;
    const Zeta z = zeta(plainTee(row.degrees, a), row.q);
    EXPECT_NEAR(z.branch, row.branch, 0.0045) << row.id;
    EXPECT_NEAR(z.straight, row.straight, 0.0045) << row.id;
  }
}

TEST(PublishedJunction, EqualVelocityRows) {
  // J14, computed with the exact cosine: q = a, s = 1, 45 degrees.
  const double rows[][3] = {{0.16, 0.36253, 0.06813},
                            {0.25, 0.52145, 0.08395},
                            {4.0 / 9, 0.75418, 0.06282},
                            {0.5625, 0.82169, 0.01310}};
  for (const auto& row : rows) {
    const Zeta z = zeta(plainTee(45, row[0]), row[0]);
    EXPECT_NEAR(z.branch, row[1], 6e-6);
    EXPECT_NEAR(z.straight, row[2], 6e-6);
  }
}

TEST(PublishedJunction, IdentityOfEqualInletPressures) {
  // zeta_b - zeta_s = (q/a)^2 - ((1 - q)/s)^2 exactly, whatever the cosine (effective, here).
  for (double degrees = 0; degrees <= 150; degrees += 7.5) {
    for (const double a : {0.1, 0.3, 0.6, 1.0}) {
      for (const double s : {0.5, 1.0, 1.2}) {
        for (double q = 0; q <= 1; q += 0.1) {
          const Zeta z = zeta(tee(degrees, a, s), q);
          const double expected = q * q / (a * a) - (1 - q) * (1 - q) / (s * s);
          EXPECT_NEAR(z.branch - z.straight, expected, 1e-12 * (1 + std::abs(expected)));
        }
      }
    }
  }
}

TEST(PublishedJunction, AirDuctMeasurements) {
  // J13 against air-duct data (Legg 2017, read through a solver's manual): branch 1.503, straight -0.4286 at
  // 45 degrees, a 0.5, q 0.7. Ours 1.394 and -0.476: within 0.11 and 0.05 of VP_c, where the model's own
  // uncertainty (20 % of the absolute terms) is 0.9.
  const Zeta z = zeta(tee(45, 0.5), 0.7);
  EXPECT_NEAR(z.branch, 1.503, 0.11);
  EXPECT_NEAR(z.straight, -0.4286, 0.05);
}

TEST(PublishedJunction, PracticeBranchFactors) {
  // From memory (ACGIH Fig. 5-13): branch entry factors on branch VP at equal speeds and conserved area,
  // which momentum theory gives as 2 a (1 - cos alpha); a = 0.5. The practice table is within 0.06 of it.
  const double rows[][2] = {{30, 0.18}, {45, 0.28}, {60, 0.44}};
  for (const auto& row : rows) {
    const Zeta z = zeta(plainTee(row[0], 0.5, 0.5), 0.5);
    EXPECT_NEAR(z.branch, 1 - std::cos(row[0] * kDegree), 1e-12);
    EXPECT_NEAR(z.branch, row[1], 0.061);
  }
  // J15, computed: 45 degrees, a = q = 0.5, conserved area: zeta_b 0.29289; zeta_s without its Ks of 0.3.
  EXPECT_NEAR(zeta(tee(45, 0.5, 0.5), 0.5).branch, 0.29289, 6e-6);
  EXPECT_NEAR(zeta(tee(45, 0.5, 0.5), 0.5).straight, 0.59289 - 0.3, 6e-6);
}

TEST(PublishedJunction, RowsOfOtherFormulasLieWithinTheModelsUncertainty) {
  // Published formulas that differ from ours in kind: J10, J11 a 90-degree branch, zeta_s = 1.55 q - q^2 and
  // zeta_b with factor A 1; J12 Crane TP-410 example 7-35 (branch printed -0.04026, run 0.32576); J16 with
  // constants for conserved area. Bound: 20 % of the sum of absolute terms, at least 0.1 VP_c.
  struct Other {
    const char* id;
    double degrees, a, s, q, branch, straight;
  };
  const Other rows[] = {{"J10", 90, 4.0 / 9, 1, 0.3, 0.47563, 0.37500},
                        {"J11", 90, 1.0, 1, 0.5, 0.75000, 0.52500},
                        {"J12", 90, 1.0, 1, 0.25072, -0.040441, 0.325758},
                        {"J15", 45, 0.5, 0.5, 0.5, 0.29289, 0.59289},
                        {"J16", 60, 0.5, 0.5, 0.5, 0.60000, 0.75000}};
  for (const auto& row : rows) {
    const JunctionGeometry geometry = tee(row.degrees, row.a, row.s);
    const double c = std::abs(geometry.cosine[1][2]);
    const double p = 1 - row.q;
    const double shared = 1 + 2 * p * p / row.s + 2 * row.q * row.q / row.a * c;
    const double branch_terms = shared + row.q * row.q / (row.a * row.a);
    const double straight_terms = shared + p * p / (row.s * row.s);
    const Zeta z = zeta(geometry, row.q);
    EXPECT_NEAR(z.branch, row.branch, std::max(0.1, 0.2 * branch_terms)) << row.id;
    EXPECT_NEAR(z.straight, row.straight, std::max(0.1, 0.2 * straight_terms)) << row.id;
    RecordProperty(row.id,
                   std::to_string(z.branch - row.branch) + " " + std::to_string(z.straight - row.straight));
  }
}

TEST(PublishedJunction, OpposedTeeLosesThePublishedPower) {
  // J17, Idelchik diag. 7-29, opposed inlets into an equal outlet, A = 1: 2.0/1.4375/1.25/1.4375/2.0 at q 0,
  // 0.25, 0.5, 0.75, 1: one number for the tee, symmetric in q. Inlets of one static pressure lose 1 + q^2
  // and 1 + (1 - q)^2; their power together, q zeta_1 + (1 - q) zeta_2 = 2 - 3 q (1 - q), is the published
  // number.
  const std::vector<double> area{1, 1, 1};
  const double right = 90 * kDegree;
  const std::vector<double> turn{0, 0, right, 0, 0, right, right, right, 0};
  const JunctionGeometry geometry = junctionGeometry(area, turn, 2, tests::kMitreColumn).value();
  const double published[][2] = {{0, 2.0}, {0.25, 1.4375}, {0.5, 1.25}, {0.75, 1.4375}, {1, 2.0}};
  for (const auto& row : published) {
    EXPECT_NEAR(zeta(geometry, row[0]).branch, 1 + row[0] * row[0], 1e-12);
    const double q = row[0];
    const double power = q * zeta(geometry, q).branch + (1 - q) * zeta(geometry, q).straight;
    EXPECT_NEAR(power, row[1], 1e-12) << q;
  }
}

}  // namespace
}  // namespace kerfdraft::physics
