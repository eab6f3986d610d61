// What good project files mean, and how they are written.
#include <gtest/gtest.h>

#include "files/describe.h"
#include "files/json.h"
#include "files/project_fields.h"
#include "files/project_file.h"
#include "files/source_files.h"

namespace kerfdraft::files {
namespace {

shop::Project sample(const char* file) {
  const ReadProject read = readProject(textOf(sourcePath(file)), file);
  EXPECT_TRUE(read) << read.error().front().text();
  return read.value_or(shop::Project{});
}

}  // namespace

TEST(ProjectFile, TheSmallestProjectIsReadAsItIs) {
  const shop::Project project = sample("tests/files/data/minimal.json");
  ASSERT_EQ(project.ducts.size(), 1U);
  const shop::Duct& duct = project.ducts[0];
  EXPECT_EQ(duct.corners[0].at, (shop::Point{2'895'600, 1'828'800, 792'480}));
  EXPECT_EQ(std::get<shop::PortRef>(duct.from), (shop::PortRef{base::Id(0x10), base::Id(0x11)}));
  EXPECT_EQ(std::get<shop::CollectorInlet>(duct.to).collector, base::Id(0x30));
  const auto& bore = project.machines[0].ports[0].bore;
  EXPECT_EQ(bore.text(), "4 in");
  EXPECT_EQ(bore.standing(), base::Standing::Measured);
  EXPECT_EQ(bore.source(), "calliper");
  EXPECT_DOUBLE_EQ(bore.si(), 0.1016);
  EXPECT_EQ(project.machines[0].width.standing(), base::Standing::Assumed);
  EXPECT_TRUE(project.setting.leakage);
  ASSERT_EQ(project.states.size(), 2U);
  EXPECT_EQ(project.states[0].gates[0].travel.si(), 1);
}

TEST(ProjectFile, FilesOfTheTreeAreWrittenAsTheyStand) {
  for (const char* file : {"tests/files/data/minimal.json", "tests/formats/v1/sample.json"}) {
    EXPECT_EQ(writeProject(sample(file)), textOf(sourcePath(file))) << file;
  }
}

TEST(ProjectFile, ExtensionsComeBackLetterByLetter) {
  const shop::Project project = sample("tests/formats/v1/sample.json");
  EXPECT_EQ(
      project.extensions,
      R"({"example.invented-planner":{"colour":"#aa8844","zoom":1.50,"big":123456789012345678901234567890}})");
}

TEST(ProjectFile, TheSampleUsesEveryKey) {
  // So that a key that is renamed by mistake does not pass: the sample would no longer be read.
  const std::string text = textOf(sourcePath("tests/formats/v1/sample.json"));
  const auto schema = parseJson(projectSchema(), "schema");
  ASSERT_TRUE(schema);
  std::size_t keys = 0;
  const auto look = [&](const Json& properties) {
    for (const std::string& key : properties.keys) {
      ++keys;
      EXPECT_NE(text.find('"' + key + '"'), std::string::npos) << key;
    }
  };
  look(*schema->find("properties"));
  for (const Json& def : schema->find("$defs")->items) {
    if (const Json* properties = def.find("properties")) {
      look(*properties);
    }
    if (const Json* ends = def.find("oneOf"); ends != nullptr) {
      for (const Json& end : ends->items) {
        if (const Json* properties = end.find("properties")) {
          look(*properties);
        }
      }
    }
  }
  EXPECT_GT(keys, 150U);
}

TEST(ProjectFile, DefaultsAreLeftOut) {
  shop::Project project = sample("tests/files/data/minimal.json");
  project.setting.leakage = false;
  project.machines[0].turned = {};
  const std::string text = writeProject(project);
  EXPECT_NE(text.find("\"leakage\": false"), std::string::npos);
  EXPECT_EQ(text.find("\"turned\""), std::string::npos);
  EXPECT_EQ(text.find("\"density\""), std::string::npos);
}

TEST(ProjectFile, ExtensionsThatAreNoObjectAreABug) {
  shop::Project project = sample("tests/files/data/minimal.json");
  project.extensions = "[1]";
  EXPECT_THROW(writeProject(project), base::InternalError);
}

}  // namespace kerfdraft::files
