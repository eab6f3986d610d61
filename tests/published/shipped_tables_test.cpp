// The shipped tables of ducts (data/*.csv) hold the published numbers, and the numbers that stand in a law's
// own code are those of the table that a person reads.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <span>
#include <sstream>
#include <string>
#include <vector>

#include "base/csv.h"
#include "base/units.h"
#include "physics/fittings.h"
#include "physics/hose.h"
#include "physics/sample_tables.h"

namespace kerfdraft::physics {
namespace {

using base::Kind;

struct Table {
  std::vector<std::string> head;
  std::vector<base::CsvRow> rows;

  const std::string& cell(const base::CsvRow& row, const std::string& name) const {
    for (std::size_t k = 0; k < head.size(); ++k) {
      if (head[k] == name) {
        return row.cells.at(k);
      }
    }
    throw std::out_of_range("no column " + name);
  }
};

Table shipped(const std::string& name) {
  std::ifstream file(std::string(KERFDRAFT_SOURCE_DIR) + "/data/" + name);
  std::stringstream text;
  text << file.rdbuf();
  auto rows = base::parseCsv(text.str(), name).value();
  Table table{rows.at(0).cells, {}};
  table.rows.assign(rows.begin() + 1, rows.end());
  return table;
}

/// Column `column` of a shipped table against published points, in order and none left out.
void expectColumn(const std::string& file, const std::string& column, const std::string& x, Kind kind,
                  const std::string& y, std::span<const double> published_x,
                  std::span<const double> published_y) {
  const Table table = shipped(file);
  std::size_t k = 0;
  for (const auto& row : table.rows) {
    if (table.cell(row, "column") != column) {
      continue;
    }
    const double value = base::parseQuantity(kind, table.cell(row, x)).value();
    if (value == 0 && published_x[0] > 0) {
      EXPECT_EQ(std::stod(table.cell(row, y)), 0) << "no turn, no loss";
      continue;
    }
    ASSERT_LT(k, published_x.size()) << file << " " << column;
    EXPECT_NEAR(value, published_x[k], 1e-12) << file << " " << column;
    EXPECT_EQ(std::stod(table.cell(row, y)), published_y[k]) << file << " " << column;
    ++k;
  }
  EXPECT_EQ(k, published_x.size()) << file << " " << column;
}

TEST(ShippedTables, ElbowsAreThePublishedOnes) {
  using namespace tests;
  expectColumn("elbow_k_by_bore.csv", "stamped-90", "bore", Kind::Bore, "k", kStampedBore, kStampedK);
  expectColumn("elbow_k_by_bore.csv", "gored5-90", "bore", Kind::Bore, "k", kGoredBore, kGoredK);
  expectColumn("elbow_k_by_ratio.csv", "smooth", "radius_ratio", Kind::Ratio, "k", kSmoothRatio, kSmoothK);
  expectColumn("elbow_k_by_ratio.csv", "pieces-3", "radius_ratio", Kind::Ratio, "k", kThreePieceRatio,
               kThreePieceK);
  expectColumn("elbow_k_by_ratio.csv", "pieces-5", "radius_ratio", Kind::Ratio, "k", kFivePieceRatio,
               kFivePieceK);
  expectColumn("elbow_angle_factor.csv", "smacna", "angle", Kind::Angle, "factor", kFactorAngle, kFactor);
  expectColumn("mitre_k.csv", "mitre", "angle", Kind::Angle, "k", kMitreAngle, kMitreK);
}

TEST(ShippedTables, HosesAreThoseOfTheLaw) {
  const Table table = shipped("hoses.csv");
  ASSERT_EQ(table.rows.size(), 6U);
  for (const auto& row : table.rows) {
    const HoseInside inside = table.cell(row, "inside") == "smooth" ? HoseInside::Smooth : HoseInside::Ribbed;
    const std::string& lay = table.cell(row, "lay");
    const HosePull pull = lay == "tight" ? HosePull::Tight : lay == "hung" ? HosePull::Hung : HosePull::Slack;
    EXPECT_EQ(std::stod(table.cell(row, "friction_factor")), hoseMultiplier(inside, pull)) << row.line;
    EXPECT_NEAR(base::parseQuantity(Kind::Bore, table.cell(row, "reference_roughness")).value(),
                kHoseReferenceRoughness_m, 1e-15);
  }
  const Table bends = shipped("hose_bend_k.csv");
  ASSERT_EQ(bends.rows.size(), 3U);
  for (const auto& row : bends.rows) {
    EXPECT_NEAR(hoseBend(std::stod(bends.cell(row, "radius_ratio")), kRightAngle_rad),
                std::stod(bends.cell(row, "k")), 1e-15);
  }
}

}  // namespace
}  // namespace kerfdraft::physics
