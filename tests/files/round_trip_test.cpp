// Whatever a project holds, its text gives it back, and the text of that is the same text.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "files/project_file.h"
#include "files/random_project.h"
#include "files/source_files.h"
#include "shop/invariants.h"

namespace kerfdraft::files {

RC_GTEST_PROP(RoundTrip, WrittenAndReadProjectsAreEqual, ()) {
  const shop::Project project = randomProject();
  const std::vector<base::Error> problems = shop::checkProject(project);
  RC_LOG() << (problems.empty() ? std::string() : problems.front().text());
  RC_ASSERT(problems.empty());
  const std::string text = writeProject(project);
  const ReadProject back = readProject(text, "random");
  RC_LOG() << (back ? text : back.error().front().text() + "\n" + text);
  RC_ASSERT(back.has_value());
  RC_ASSERT(*back == project);
  RC_ASSERT(writeProject(*back) == text);
  RC_TAG(std::string(project.ducts.size() > 2 ? "more than two ducts" : "few ducts"));
}

TEST(RoundTrip, WhatTheFuzzersFoundAndTheirSeedsStayGood) {
  std::size_t files = 0;
  for (const char* folder : {"tests/fuzz/seeds/project", "tests/fuzz/crashers/project"}) {
    if (!std::filesystem::exists(sourcePath(folder))) {
      continue;
    }
    for (const auto& entry : std::filesystem::directory_iterator(sourcePath(folder))) {
      ++files;
      const ReadProject read = readProject(textOf(entry.path()), "seed");
      if (read) {
        const ReadProject back = readProject(writeProject(*read), "seed");
        ASSERT_TRUE(back) << entry.path() << ": " << back.error().front().text();
        EXPECT_EQ(*back, *read) << entry.path();
      }
    }
  }
  EXPECT_GT(files, 3U);
}

}  // namespace kerfdraft::files
