// Names of states and ports as a person says them.
#include "cli/shop_open.h"
#include "support/shipped.h"

namespace kerfdraft::cli {

using support::starter;
namespace {

TEST(Names, StatesAreFoundWhateverTheLetterCase) {
  const judge::Assessment assessment = starter({"table-saw", "planer"});
  ASSERT_TRUE(stateByName(assessment, "t2 thickness PLANER"));
  EXPECT_EQ(*stateByName(assessment, "t2 thickness PLANER"), 1U);
  const auto missing = stateByName(assessment, "T2 Thicknes planer");
  ASSERT_FALSE(missing);
  EXPECT_NE(missing.error().message.find("T2 Thickness planer"), std::string::npos);
}

TEST(Names, PortsAreFoundByLabelMachineOrPart) {
  const judge::Assessment assessment = starter({"table-saw", "planer"});
  const auto by_label = portByName(assessment, "T2 P1");
  ASSERT_TRUE(by_label) << by_label.error().text();
  EXPECT_EQ(*portByName(assessment, "planer"), *by_label);
  EXPECT_EQ(*portByName(assessment, "t2"), *by_label);
  EXPECT_FALSE(portByName(assessment, "P1"));  // both have one
  EXPECT_FALSE(portByName(assessment, "lathe"));
}

}  // namespace
}  // namespace kerfdraft::cli
