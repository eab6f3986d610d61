// Every entered value is counted once, by how it is known.
#include "papers/standings.h"

#include <gtest/gtest.h>

#include "support/projects.h"

namespace kerfdraft::papers {
namespace {

std::size_t of(const std::vector<StandingCount>& counts, const std::string& part, base::Standing standing) {
  for (const StandingCount& count : counts) {
    if (count.part == part) {
      return count.values[static_cast<std::size_t>(standing)];
    }
  }
  return 0;
}

TEST(Standings, CountsByPartAndStanding) {
  shop::Project project;
  project.air.temperature = support::given<base::Temperature>("20 °C", base::Standing::Measured);
  shop::Duct duct;
  shop::Corner corner;
  corner.leg = shop::Leg{support::given<base::Length>("150 mm", base::Standing::Maker), "", std::nullopt,
                         std::nullopt};
  corner.loss = support::given<base::Ratio>("0.3", base::Standing::Estimated);
  duct.corners = {corner, shop::Corner{}};
  project.ducts = {duct, duct};
  shop::Machine machine;
  machine.target = support::given<base::VolumeFlow>("500 m3/h", base::Standing::Published);
  project.machines = {machine};
  const auto counts = countStandings(project);
  EXPECT_EQ(of(counts, "the air of the day", base::Standing::Measured), 1U);
  EXPECT_EQ(of(counts, "ducts and hoses", base::Standing::Maker), 2U);
  EXPECT_EQ(of(counts, "ducts and hoses", base::Standing::Estimated), 2U);
  EXPECT_EQ(of(counts, "what the machines need", base::Standing::Published), 1U);
  // Width and depth of that machine were never entered.
  EXPECT_EQ(of(counts, "machines and ports", base::Standing::Assumed), 0U);
  EXPECT_EQ(counts.size(), 3U);
}

}  // namespace
}  // namespace kerfdraft::papers
