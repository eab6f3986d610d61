// Dates of the next examination.
#include "papers/inspector_parts.h"

#include <gtest/gtest.h>

namespace kerfdraft::papers {
namespace {

TEST(NextExamination, FourteenMonthsLater) {
  EXPECT_EQ(monthsLater("2026-01-15", 14), "2027-03-15");
  EXPECT_EQ(monthsLater("2026-11-30", 14), "2028-01-30");
}

TEST(NextExamination, TheLastDayOfAShorterMonth) {
  EXPECT_EQ(monthsLater("2026-12-31", 14), "2028-02-29");
  EXPECT_EQ(monthsLater("2025-12-31", 14), "2027-02-28");
}

TEST(NextExamination, NothingFromWhatIsNoDate) {
  for (const char* text : {"", "today", "2026-1-15", "2026-13-01", "2026-02-30", "2026-01-1x"}) {
    EXPECT_EQ(monthsLater(text, 14), "") << text;
  }
}

}  // namespace
}  // namespace kerfdraft::papers
