// Everything that is found in the shipped examples can be said: to three readers, in both unit systems.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

#include "files/project_file.h"
#include "judge/rule_stage.h"
#include "judge/speech.h"
#include "judge/verdict.h"
#include "support/examples.h"

namespace kerfdraft {
namespace {

using judge::Finding;
using judge::Reader;
using judge::Verdict;
using judge::Voice;

shop::Project read(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  auto project = files::firstProblemOnly(files::readProject(text.str(), path.filename().string()));
  base::check(project.has_value(), "an example cannot be read");
  return std::move(*project);
}

void expectReadable(const std::string& text) {
  EXPECT_NO_THROW(tests::checkWords(text)) << text;
  static const std::regex kId("[0-9a-f]{16}");
  EXPECT_FALSE(std::regex_search(text, kId)) << text;
  for (const judge::Rule* rule : judge::allRules()) {
    if (rule->key.find('-') != std::string_view::npos) {
      EXPECT_EQ(text.find(rule->key), std::string::npos) << "the key " << rule->key << " in: " << text;
    }
  }
}

void expectSaid(const Finding& finding) {
  for (const Reader reader : {Reader::Owner, Reader::Adviser, Reader::Inspector}) {
    for (const base::UnitSystem units : {base::UnitSystem::Us, base::UnitSystem::Metric}) {
      SCOPED_TRACE(finding.rule + " at " + finding.label);
      judge::Said said;
      ASSERT_NO_THROW(said = judge::say(finding, Voice(reader, units)));
      expectReadable(said.title);
      expectReadable(said.what);
      EXPECT_TRUE(said.what.ends_with('.')) << said.what;
      EXPECT_EQ(said.remedies.size(), finding.remedies.size());
      for (const std::string& remedy : said.remedies) {
        expectReadable(remedy);
        EXPECT_TRUE(remedy.ends_with('.')) << remedy;
      }
      EXPECT_EQ(said.defer.empty(), !finding.defers);
      if (finding.limit && reader != Reader::Owner) {
        expectReadable(said.limit);
      }
    }
  }
}

TEST(Said, EveryFindingOfEveryExample) {
  const auto paths = support::exampleFiles();
  ASSERT_FALSE(paths.empty());
  std::size_t count = 0;
  for (const std::filesystem::path& path : paths) {
    SCOPED_TRACE(path.filename().string());
    const tests::RuleStage stage(read(path));
    const Verdict verdict = judge::judgeEvidence(stage.evidence());
    for (const Finding& finding : verdict.findings) {
      expectSaid(finding);
    }
    count += verdict.findings.size();
  }
  EXPECT_GT(count, 3 * paths.size());
}

TEST(Said, OrderOfMachinesAndDuctsInTheFileChangesNothingOnTop) {
  for (const std::filesystem::path& path : support::exampleFiles()) {
    SCOPED_TRACE(path.filename().string());
    const shop::Project project = read(path);
    shop::Project turned = project;
    std::reverse(turned.machines.begin(), turned.machines.end());
    std::reverse(turned.ducts.begin(), turned.ducts.end());
    const auto leads = [](const shop::Project& of) {
      const tests::RuleStage stage(of);
      const Verdict verdict = judge::judgeEvidence(stage.evidence());
      std::vector<std::string> out;
      for (std::size_t g = 0; g < verdict.on_top; ++g) {
        const Finding& lead = verdict.findings[verdict.groups[g].lead];
        out.push_back(lead.rule + " " + std::string(toText(lead.severity)));
      }
      return out;
    };
    EXPECT_EQ(leads(project), leads(turned));
  }
}

}  // namespace
}  // namespace kerfdraft
