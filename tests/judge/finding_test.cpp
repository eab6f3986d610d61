// Findings as values.
#include "judge/finding.h"

#include <gtest/gtest.h>

namespace kerfdraft::judge {
namespace {

TEST(Finding, AMissingFigureIsABug) {
  Finding finding;
  finding.rule = "port-short";
  finding.figures = {{"flow", 0.2, base::Kind::VolumeFlow}};
  EXPECT_EQ(finding.figure("flow").value, 0.2);
  EXPECT_EQ(finding.findFigure("needed"), nullptr);
  EXPECT_THROW(static_cast<void>(finding.figure("needed")), base::InternalError);
}

TEST(Finding, IsKnownByRulePieceAndState) {
  Finding a;
  a.rule = "chips-settle";
  a.key = {pieces::Role::Run, base::Id(1), base::Id(2)};
  a.state = 0;
  Finding b = a;
  b.badness = 3;
  EXPECT_EQ(keyOf(a), keyOf(b));
  b.state = 1;
  EXPECT_NE(keyOf(a), keyOf(b));
}

}  // namespace
}  // namespace kerfdraft::judge
