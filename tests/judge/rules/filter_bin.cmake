kerfdraft_test(judge_rules_filter_bin
  SOURCES
    filter_bin_rules_test.cpp
  USES
    judge
)
