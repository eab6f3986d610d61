// Random vectors of an independent fluids library (python3-fluids 1.0.22, vectors/make_fluids.py) against the
// laws of air, friction, contractions, expansions and mitres.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

#include "base/csv.h"
#include "physics/air.h"
#include "physics/fittings.h"
#include "physics/friction.h"
#include "physics/sample_tables.h"

namespace kerfdraft::physics {
namespace {

using tests::kDegree;

struct Vector {
  double a, b, c, low, high;
};

std::map<std::string, std::vector<Vector>> readVectors() {
  std::ifstream file(std::string(KERFDRAFT_SOURCE_DIR) + "/tests/published/vectors/fluids.csv");
  std::stringstream text;
  text << file.rdbuf();
  const auto rows = base::parseCsv(text.str(), "fluids.csv");
  std::map<std::string, std::vector<Vector>> vectors;
  for (const auto& row : rows.value()) {
    if (row.cells[0] == "kind") {
      continue;
    }
    const auto number = [&](std::size_t k) { return std::stod(row.cells.at(k)); };
    vectors[row.cells[0]].push_back({number(1), number(2), number(3), number(4), number(5)});
  }
  return vectors;
}

const std::vector<Vector>& vectors(const std::string& kind) {
  static const auto all = readVectors();
  return all.at(kind);
}

TEST(FluidsVectors, ColebrookWhite) {
  ASSERT_EQ(vectors("colebrook").size(), 120U);
  for (const auto& v : vectors("colebrook")) {
    EXPECT_NEAR(frictionFactor(v.a, v.b).f / v.low, 1, 1e-11) << v.a << " " << v.b;
  }
}

TEST(FluidsVectors, StandardAtmosphere) {
  ASSERT_EQ(vectors("atmosphere").size(), 40U);
  for (const auto& v : vectors("atmosphere")) {
    EXPECT_NEAR(pressureAtAltitude(v.a) / v.low, 1, 1e-9) << v.a;
  }
  for (const auto& v : vectors("viscosity")) {
    EXPECT_NEAR(airViscosity(v.b) / v.low, 1, 1e-9) << v.a;
  }
}

TEST(FluidsVectors, SameFormulas) {
  ASSERT_EQ(vectors("cone-contraction").size(), 30U);
  for (const auto& v : vectors("cone-contraction")) {
    EXPECT_NEAR(contraction(roundArea(v.a), roundArea(v.b), v.c * kDegree), v.low, 1e-12);
  }
  ASSERT_EQ(vectors("step-expansion").size(), 20U);
  for (const auto& v : vectors("step-expansion")) {
    EXPECT_NEAR(expansion(roundArea(v.a), roundArea(v.b), std::numbers::pi), v.low, 1e-12);
  }
}

/// Within the span of the published methods, widened by the model's own uncertainty of fittings, 20 %, or by
/// 0.03 of a velocity pressure where the coefficient is small.
void expectWithinSpan(double k, const Vector& v) {
  EXPECT_GE(k, v.low - std::max(0.03, 0.2 * v.low)) << v.a << " " << v.b << " " << v.c;
  EXPECT_LE(k, v.high + std::max(0.03, 0.2 * v.high)) << v.a << " " << v.b << " " << v.c;
}

TEST(FluidsVectors, ContractionsLieAmongThePublishedMethods) {
  ASSERT_EQ(vectors("any-contraction").size(), 40U);
  for (const auto& v : vectors("any-contraction")) {
    expectWithinSpan(contraction(roundArea(v.a), roundArea(v.b), v.c * kDegree), v);
  }
}

TEST(FluidsVectors, ExpansionsLieAmongThePublishedMethods) {
  ASSERT_EQ(vectors("cone-expansion").size(), 40U);
  for (const auto& v : vectors("cone-expansion")) {
    expectWithinSpan(expansion(roundArea(v.a), roundArea(v.b), v.c * kDegree), v);
  }
}

TEST(FluidsVectors, MitresLieAmongThePublishedMethods) {
  ASSERT_EQ(vectors("mitre").size(), 20U);
  for (const auto& v : vectors("mitre")) {
    expectWithinSpan(mitre(tests::kMitreColumn, v.a * kDegree).k, v);
  }
}

}  // namespace
}  // namespace kerfdraft::physics
