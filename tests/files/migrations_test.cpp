// The walk from old formats, with invented steps, and the kept samples of every format.
#include "files/migrations.h"

#include <gtest/gtest.h>

#include "files/project_fields.h"
#include "files/project_file.h"
#include "files/source_files.h"

namespace kerfdraft::files {
namespace {

std::vector<MigrationStep> inventedSteps() {
  return {{1,
           [](Json& root) -> base::Result<void> {
             root.keys[1] = "renamed";
             return {};
           }},
          {2, [](Json& root) -> base::Result<void> {
             if (root.find("renamed") == nullptr) {
               return base::fail(base::ErrorCode::Parse, "step 1 was left out");
             }
             root.add("added", Json::ofBool(true));
             return {};
           }}};
}

std::string migrated(std::string_view text, const std::vector<MigrationStep>& steps, int newest) {
  auto root = parseJson(text, "t");
  if (!root) {
    return root.error().text();
  }
  const auto done = migrate(*root, steps, newest, "t");
  return done ? compactJson(*root) : done.error().text();
}

}  // namespace

TEST(Migrations, StepsAreTakenInOrderFromWhereTheFileIs) {
  EXPECT_EQ(migrated(R"({"format": 1, "old": 5})", inventedSteps(), 3),
            R"({"format":3,"renamed":5,"added":true})");
  EXPECT_EQ(migrated(R"({"format": 2, "renamed": 5})", inventedSteps(), 3),
            R"({"format":3,"renamed":5,"added":true})");
  EXPECT_EQ(migrated(R"({"format": 3, "renamed": 5})", inventedSteps(), 3), R"({"format":3,"renamed":5})");
}

TEST(Migrations, ANewerFormatIsRefusedWithBothNumbers) {
  EXPECT_EQ(migrated(R"({"format": 7})", {}, 1),
            "t: /format: the file has format 7, written by a newer version; this one reads up to format 1");
  EXPECT_NE(migrated(R"({"format": 99999999999999})", {}, 1).find("newer version"), std::string::npos);
}

TEST(Migrations, AFormatMustBeAWholeNumberFromOne) {
  for (const char* text :
       {R"({"format": 0})", R"({"format": -1})", R"({"format": 1.5})", R"({"format": "1"})",
        R"({"format": null})", R"({"format": -99999999999999})", R"({"format": 1e0})"}) {
    EXPECT_NE(migrated(text, {}, 1).find("is not a whole number from 1"), std::string::npos)
        << migrated(text, {}, 1);
  }
  EXPECT_NE(migrated(R"({"name": "x"})", {}, 1).find("no \"format\""), std::string::npos);
  EXPECT_NE(migrated(R"([1])", {}, 1).find("the file holds a list"), std::string::npos);
}

TEST(Migrations, AFormatWithoutAStepIsRefused) {
  EXPECT_NE(migrated(R"({"format": 1})", {}, 2).find("format 1 is no longer read"), std::string::npos);
}

TEST(Migrations, ASampleOfEveryFormatIsKeptAndRead) {
  for (int format = 1; format <= kFormat; ++format) {
    const auto path = sourcePath("tests/formats/v" + std::to_string(format) + "/sample.json");
    ASSERT_TRUE(std::filesystem::exists(path)) << path;
    const auto project = readProject(textOf(path), path.string());
    ASSERT_TRUE(project) << project.error().front().text();
    EXPECT_EQ(project->machines.size(), 2U);
  }
}

}  // namespace kerfdraft::files
