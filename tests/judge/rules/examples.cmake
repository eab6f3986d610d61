# The shipped examples are read through files, and their bands come from doubt, rooms above judge.
if(EXISTS ${PROJECT_SOURCE_DIR}/examples)
  kerfdraft_test(judge_examples_findings
    SOURCES
      examples_findings_test.cpp
    USES
      judge
      doubt
      files
  )
endif()
