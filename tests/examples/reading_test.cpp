// Every example is a project as the program itself would have saved it, and says that it is invented.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <set>

#include "example_shop.h"
#include "files/project_file.h"
#include "shop/invariants.h"

namespace kerfdraft::examples {
namespace {

TEST(ExampleFiles, TheNineShopsAreThere) {
  EXPECT_EQ(exampleNames(),
            (std::vector<std::string>{"basement-studio.json", "cabinet-shop.json", "hand-tool-vacuum.json",
                                      "moved-hose.json", "one-car-garage.json", "ring-main.json",
                                      "school-workshop.json", "small-joinery.json", "two-car-garage.json"}));
}

TEST(ExampleFiles, AreReadWithoutProblemsAndWrittenBackByteForByte) {
  for (const std::string& name : exampleNames()) {
    SCOPED_TRACE(name);
    const std::string text = exampleText(name);
    const auto read = files::readProject(text, name);
    ASSERT_TRUE(read.has_value()) << read.error().front().text();
    EXPECT_TRUE(shop::checkProject(*read).empty());
    EXPECT_EQ(files::writeProject(*read), text);
  }
}

TEST(ExampleFiles, SayThatTheyAreInvented) {
  for (const std::string& name : exampleNames()) {
    SCOPED_TRACE(name);
    const shop::Setting setting = exampleProject(name).setting;
    EXPECT_NE(setting.name.find("invented"), std::string::npos);
    EXPECT_NE(setting.note.find("invented"), std::string::npos);
  }
}

TEST(ExampleFiles, ShareNoId) {
  // Ids of 16 digits at random: two shops can be pasted into one without a clash.
  std::set<std::string> seen;
  const std::regex id("\"id\": \"([0-9a-f]+)\"");
  for (const std::string& name : exampleNames()) {
    const std::string text = exampleText(name);
    for (std::sregex_iterator it(text.begin(), text.end(), id), end; it != end; ++it) {
      EXPECT_EQ((*it)[1].length(), 16) << name;
      EXPECT_TRUE(seen.insert((*it)[1]).second) << name << ": " << (*it)[1];
    }
  }
  EXPECT_GT(seen.size(), 700U);
}

TEST(ExampleFiles, EveryGateIsOpenInSomeState) {
  // A gate that no state opens would teach nothing.
  for (const std::string& name : exampleNames()) {
    const shop::Project project = exampleProject(name);
    for (const shop::Duct& duct : project.ducts) {
      for (const shop::Gate& gate : duct.gates) {
        const bool opened = std::any_of(project.states.begin(), project.states.end(), [&](const auto& state) {
          return std::any_of(state.gates.begin(), state.gates.end(),
                             [&](const auto& setting) { return setting.gate == gate.id; });
        });
        EXPECT_TRUE(opened) << name << ": no state opens gate " << gate.label;
      }
    }
  }
}

}  // namespace
}  // namespace kerfdraft::examples
