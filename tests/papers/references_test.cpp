// Sources that papers name come from docs/references.bib.
#include "papers/references.h"

#include <gtest/gtest.h>

namespace kerfdraft::papers {
namespace {

TEST(References, AnEntryBecomesALine) {
  const auto line = referenceText("Abushakra2004");
  ASSERT_TRUE(line);
  EXPECT_EQ(
      *line,
      "Abushakra, B.; Walker, I. S.; Sherman, M. H.: Compression effects on pressure loss in flexible HVAC "
      "ducts, 2004. Read: abstract and introduction read.");
}

TEST(References, BracesThatKeepLettersAreNoText) {
  EXPECT_TRUE(referenceText("AcgihIv")->starts_with("ACGIH: Industrial Ventilation"));
}

TEST(References, AKeyIsFoundAtTheBeginningOfASource) {
  EXPECT_EQ(referenceKey("AcgihIv: Fig. 5-13"), "AcgihIv");
  EXPECT_EQ(referenceKey("Acgih: Fig. 5-13"), "");
  EXPECT_EQ(referenceKey("common practice"), "");
  EXPECT_EQ(referenceKey(""), "");
  EXPECT_FALSE(referenceText("NoSuchKey"));
}

}  // namespace
}  // namespace kerfdraft::papers
