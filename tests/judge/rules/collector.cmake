kerfdraft_test(judge_rules_collector
  SOURCES
    collector_rules_test.cpp
    weak_fan_test.cpp
  USES
    judge
)
