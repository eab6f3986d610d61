// What is offered when a key is mistyped.
#include "catalogue/near_keys.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kerfdraft::catalogue {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::vector<std::string> kKnown = {"snap-lock", "snap-lock-taped", "spiral-galvanized", "welded-steel"};

TEST(NearKeys, OffersTheKeyWithOneSlipFirst) {
  EXPECT_THAT(nearKeys("snaplock", kKnown), ElementsAre("snap-lock"));
  EXPECT_THAT(nearKeys("wedled-steel", kKnown), ElementsAre("welded-steel"));
}

TEST(NearKeys, OffersKeysThatHoldTheAskedText) {
  EXPECT_THAT(nearKeys("spiral", kKnown), ElementsAre("spiral-galvanized"));
  EXPECT_THAT(nearKeys("SNAP", kKnown), ElementsAre("snap-lock", "snap-lock-taped"));
}

TEST(NearKeys, OffersNothingForTextThatIsFarFromAll) {
  EXPECT_THAT(nearKeys("bamboo", kKnown), IsEmpty());
  EXPECT_THAT(nearKeys("", kKnown), IsEmpty());
  EXPECT_THAT(nearKeys(std::string(100000, 's'), kKnown), IsEmpty());
}

TEST(NearKeys, SentenceListsWhatThereIsWhereNothingIsNear) {
  EXPECT_THAT(nearKeysSentence("bamboo", kKnown), HasSubstr("there are: snap-lock, snap-lock-taped"));
  EXPECT_EQ(nearKeysSentence("spirol-galvanized", kKnown), "; did you mean \"spiral-galvanized\"?");
  EXPECT_EQ(nearKeysSentence("x", {}), "; there are none");
}

}  // namespace
}  // namespace kerfdraft::catalogue
