// Words are found whole, and the longest; the table that is shown is the one of the documentation.
#include "desk/models/glossary.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <string>

namespace kerfdraft::desk {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::vector<std::string> firstWords(const std::vector<Term>& terms) {
  std::vector<std::string> out;
  out.reserve(terms.size());
  for (const Term& term : terms) {
    out.push_back(term.words.front());
  }
  return out;
}

TEST(Glossary, HoldsEveryRowOfThePage) {
  std::ifstream page(std::string(KERFDRAFT_SOURCE_DIR) + "/docs/glossary.md");
  std::size_t rows = 0;
  for (std::string line; std::getline(page, line);) {
    rows += line.starts_with("| ") && !line.starts_with("| word ") ? 1U : 0U;
  }
  const std::vector<Term> all = glossary();
  EXPECT_EQ(all.size(), rows);
  EXPECT_GT(rows, 40U);
  std::set<std::string> words;
  for (const Term& term : all) {
    EXPECT_FALSE(term.meaning.empty()) << term.words.front();
    EXPECT_FALSE(term.meaning.ends_with('.')) << term.meaning;
    for (const std::string& word : term.words) {
      EXPECT_TRUE(words.insert(word).second) << word << " stands twice";
      EXPECT_EQ(termText(word), term.sentence());
    }
  }
}

TEST(Glossary, FindsAWordWhateverItsCaseAndNumber) {
  EXPECT_EQ(termText("Blast Gates"), "Blast gate: a sliding plate that shuts a duct or throttles it.");
  EXPECT_EQ(termText("branches"), termText("branch"));
  EXPECT_EQ(termText("fan curve"), termText("curve"));
  EXPECT_FALSE(termText("portable"));
  EXPECT_FALSE(termText(""));
}

TEST(Glossary, TakesTheLongestWholeWordsOfAText) {
  EXPECT_THAT(firstWords(termsIn("Static pressure behind the blast gate at its port, and the port's bore")),
              ElementsAre("static pressure", "blast gate", "port", "bore"));
  EXPECT_TRUE(termsIn("a portable boreal domain").empty());
  EXPECT_TRUE(termsIn("").empty());
}

TEST(Glossary, ExplainsATextLineByLine) {
  const std::string text = explainTermsIn("hose and elbow");
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 1);
  EXPECT_THAT(text, HasSubstr("Elbow: a rigid bend."));
}

TEST(Glossary, SearchLooksIntoMeaningsToo) {
  EXPECT_THAT(firstWords(searchGlossary("spins dust")), ElementsAre("cyclone"));
  EXPECT_EQ(searchGlossary(" ").size(), glossary().size());
  EXPECT_TRUE(searchGlossary("zzz").empty());
}

}  // namespace
}  // namespace kerfdraft::desk
