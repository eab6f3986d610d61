# One interface target carries the language level and the warnings; kerfdraft_room() makes a room's library.

add_library(kerfdraft_options INTERFACE)
target_compile_features(kerfdraft_options INTERFACE cxx_std_20)
target_include_directories(kerfdraft_options INTERFACE ${PROJECT_SOURCE_DIR}/src)
# -Wnull-dereference is left out: it raises false alarms inside GCC 12's own headers at -O2.
# -ffp-contract=off: the numbers must be the same on every compiler, and a replay must repeat them to the bit.
target_compile_options(kerfdraft_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wold-style-cast -Wnon-virtual-dtor
  -Woverloaded-virtual -Wcast-align -Wformat=2 -Wdouble-promotion -Wimplicit-fallthrough
  -ffp-contract=off)
if(KERFDRAFT_WERROR)
  target_compile_options(kerfdraft_options INTERFACE -Werror)
endif()
if(KERFDRAFT_SANITIZE)
  target_compile_options(kerfdraft_options INTERFACE -fsanitize=${KERFDRAFT_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(kerfdraft_options INTERFACE -fsanitize=${KERFDRAFT_SANITIZE})
  if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
    # Half of the compiling time goes into these, and the address sanitizer sees a null pointer without them.
    target_compile_options(kerfdraft_options INTERFACE
      -fno-sanitize=null,alignment,vptr,object-size,nonnull-attribute,returns-nonnull-attribute)
  endif()
endif()

# kerfdraft_room(NAME SOURCES file.cpp ... [USES room ...] [LINKS target ...])
#   USES: rooms this one stands on, as in the table of docs/architecture.md; LINKS: third-party targets.
function(kerfdraft_room name)
  cmake_parse_arguments(ROOM "" "" "SOURCES;USES;LINKS" ${ARGN})
  add_library(kerfdraft_${name} STATIC ${ROOM_SOURCES})
  add_library(kerfdraft::${name} ALIAS kerfdraft_${name})
  foreach(room ${ROOM_USES})
    target_link_libraries(kerfdraft_${name} PUBLIC kerfdraft::${room})
  endforeach()
  target_link_libraries(kerfdraft_${name} PUBLIC kerfdraft_options PRIVATE ${ROOM_LINKS})
endfunction()

# Compiles a test program's sources together where that is asked for, with little optimization: what is tested is in
# the rooms, which have all of it.
function(kerfdraft_together target)
  get_target_property(sources ${target} SOURCES)
  list(LENGTH sources number)
  if(KERFDRAFT_TESTS_TOGETHER AND number GREATER 1)
    set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 8)
    target_compile_options(${target} PRIVATE -O1)
  endif()
endfunction()

# kerfdraft_test(NAME SOURCES file.cpp ... USES room ... [LINKS target ...]): one GoogleTest program, one CTest label.
function(kerfdraft_test name)
  cmake_parse_arguments(TEST "" "" "SOURCES;USES;LINKS" ${ARGN})
  add_executable(${name}_test ${TEST_SOURCES})
  foreach(room ${TEST_USES})
    target_link_libraries(${name}_test PRIVATE kerfdraft::${room})
  endforeach()
  target_link_libraries(${name}_test PRIVATE kerfdraft_options GTest::gtest GTest::gmock GTest::gtest_main ${TEST_LINKS})
  target_include_directories(${name}_test PRIVATE ${PROJECT_SOURCE_DIR}/tests)
  target_compile_definitions(${name}_test PRIVATE KERFDRAFT_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
  if(KERFDRAFT_SANITIZE)
    # What is looked at is the program; the matchers' own arithmetic would take as long again to compile.
    target_compile_options(${name}_test PRIVATE -fno-sanitize=undefined)
  endif()
  kerfdraft_together(${name}_test)
  add_test(NAME ${name} COMMAND ${name}_test --gtest_brief=1)
  set_tests_properties(${name} PROPERTIES LABELS ${name} TIMEOUT 600)
endfunction()
