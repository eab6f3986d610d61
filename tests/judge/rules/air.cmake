kerfdraft_test(judge_rules_air
  SOURCES
    body_air_test.cpp
    port_short_test.cpp
    shared_air_test.cpp
  USES
    judge
)
