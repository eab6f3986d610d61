kerfdraft_test(judge_rules_pressure
  SOURCES
    dear_paths_test.cpp
    fittings_in_the_way_test.cpp
    hose_in_the_way_test.cpp
  USES
    judge
)
