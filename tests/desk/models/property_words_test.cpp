// Every field of the project format that the side panels show, and every value of it, has words that a shop
// owner reads; no word is left over.
#include "desk/models/property_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include "desk/models/glossary.h"
#include "desk/models/properties.h"
#include "desk/models/property_walk.h"
#include "files/save.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// Walks types, not values: nothing depends on what an example happens to hold.
class Fields {
 public:
  std::set<std::pair<std::string, std::string>> keys;     ///< noun of the struct, key
  std::set<std::pair<std::string, std::string>> choices;  ///< noun of the enum, key
  std::set<std::string> parts;                            ///< structs inside others, and in lists

  template <files::Tabled S>
  void of() {
    using Form = files::Table<S>;
    if (!seen_.insert(std::string(Form::kNoun)).second) {
      return;
    }
    files::forEachField<S>([&]<class M>(const files::Field<S, M>& field) {
      if (field.info.key != "id" && !isElsewhere(Form::kNoun, field.info.key)) {
        keys.emplace(Form::kNoun, field.info.key);
        inside<M>();
      }
    });
  }

 private:
  template <class M>
  void inside() {
    if constexpr (files::Tabled<M>) {
      parts.insert(std::string(files::Table<M>::kNoun));
      of<M>();
    } else if constexpr (files::IsOptional<M>) {
      inside<typename files::OptionalTraits<M>::Value>();
    } else if constexpr (files::IsList<M>) {
      inside<typename files::ListTraits<M>::Item>();
    } else if constexpr (files::Worded<M>) {
      for (const auto& word : files::Words<M>::kWords) {
        choices.emplace(files::Words<M>::kNoun, word.text);
      }
    }
  }
  std::set<std::string> seen_;
};

/// Everything that a panel can be about, and the ends of a duct, which no field table holds.
Fields everything() {
  Fields all;
  all.of<shop::Setting>();
  all.of<shop::Air>();
  all.of<shop::Circuit>();
  all.of<shop::Room>();
  all.of<shop::Opening>();
  all.of<shop::Obstacle>();
  all.of<shop::Machine>();
  all.of<shop::Port>();
  all.of<shop::Duct>();
  all.of<shop::FreeAir>();
  all.of<shop::OnCorner>();
  all.of<shop::Corner>();
  all.of<shop::Gate>();
  all.of<shop::Access>();
  all.of<shop::Collector>();
  all.of<shop::State>();
  all.keys.emplace("duct", "from");
  all.keys.emplace("duct", "to");
  for (const auto& word : files::Words<base::Standing>::kWords) {
    all.choices.emplace(files::Words<base::Standing>::kNoun, word.text);
  }
  return all;
}

TEST(PropertyWords, EveryFieldHasWordsAndASentence) {
  const Fields all = everything();
  EXPECT_GT(all.keys.size(), 110U);
  for (const auto& [noun, key] : all.keys) {
    const FieldWords* words = fieldWords(noun, key);
    ASSERT_NE(words, nullptr) << "no words for " << noun << "/" << key;
    EXPECT_GT(words->name.size(), 2U) << noun << "/" << key;
    EXPECT_NE(std::isupper(static_cast<unsigned char>(words->name.front())), 0) << words->name;
    EXPECT_THAT(std::string(words->name), Not(HasSubstr("_")));
    EXPECT_GT(words->help.size(), 8U) << noun << "/" << key;
    EXPECT_EQ(words->help.back(), '.') << noun << "/" << key;
    EXPECT_THAT(std::string(words->help), Not(HasSubstr("`"))) << noun << "/" << key;
  }
}

TEST(PropertyWords, NoTwoFieldsOfOneStructShareTheirWords) {
  std::map<std::string, std::set<std::string_view>> names;
  for (const FieldWords& words : allFieldWords()) {
    EXPECT_TRUE(names[std::string(words.noun)].insert(words.name).second)
        << words.noun << " has two fields called " << words.name;
  }
  std::map<std::string, std::set<std::string_view>> values;
  for (const ChoiceWords& words : allChoiceWords()) {
    EXPECT_TRUE(values[std::string(words.noun)].insert(words.words).second)
        << words.noun << " has two values called " << words.words;
  }
}

TEST(PropertyWords, EveryValueToChooseHasWords) {
  const Fields all = everything();
  EXPECT_GT(all.choices.size(), 45U);
  std::set<std::pair<std::string, std::string>> known;
  for (const ChoiceWords& each : allChoiceWords()) {
    EXPECT_TRUE(known.emplace(each.noun, each.key).second) << each.noun << "/" << each.key << " stands twice";
    EXPECT_FALSE(each.words.empty());
  }
  EXPECT_EQ(known, all.choices);
}

TEST(PropertyWords, NoWordsAreLeftOver) {
  const Fields all = everything();
  std::set<std::pair<std::string, std::string>> known;
  for (const FieldWords& each : allFieldWords()) {
    EXPECT_TRUE(known.emplace(each.noun, each.key).second) << each.noun << "/" << each.key << " stands twice";
  }
  EXPECT_EQ(known, all.keys);
}

TEST(PropertyWords, EveryTermIsOneOfTheGlossary) {
  int terms = 0;
  for (const FieldWords& each : allFieldWords()) {
    if (!each.term.empty()) {
      EXPECT_TRUE(termText(each.term)) << each.noun << "/" << each.key << ": " << each.term;
      ++terms;
    }
  }
  EXPECT_GT(terms, 40);
}

TEST(PropertyWords, APartWithRowsHasAHeading) {
  const Fields all = everything();
  for (const char* noun : {"port", "separator", "filter", "fan-rating", "motor", "discharge", "blower"}) {
    EXPECT_TRUE(all.parts.contains(noun)) << noun;
    EXPECT_NE(partWords(noun), nullptr) << noun;
  }
  for (const PartWords& each : allPartWords()) {
    EXPECT_TRUE(all.parts.contains(std::string(each.noun)) || each.noun == "circuit") << each.noun;
    EXPECT_FALSE(each.one.empty() || each.heading.empty());
  }
}

TEST(PropertyWords, TheTooltipExplainsAndNamesTheKey) {
  const FieldWords* bore = fieldWords("port", "bore");
  ASSERT_NE(bore, nullptr);
  const std::string text = explained(bore->help, bore->term, bore->key);
  EXPECT_THAT(text, HasSubstr("Bore: the true inside diameter"));
  EXPECT_THAT(text, HasSubstr("In the file: bore"));
  EXPECT_EQ(explained("Only this.", {}, {}), "Only this.");
}

/// What is shown in the end: of every thing of every example, under each heading.
TEST(PropertyWords, NoTwoRowsUnderOneHeadingReadTheSame) {
  const catalogue::Catalogue tables = *catalogue::Catalogue::shipped();
  int rows = 0;
  for (const auto& entry : std::filesystem::directory_iterator(KERFDRAFT_EXAMPLES)) {
    if (entry.path().extension() != ".json") {
      continue;
    }
    const shop::Project project = *files::loadProject(entry.path());
    std::vector<std::optional<PropertyForm>> forms{formOf(project, tables, std::optional<Thing>())};
    const auto add = [&](base::Id id) { forms.push_back(formOf(project, tables, thingOf(project, id))); };
    for (const auto& each : project.rooms) {
      add(each.id);
      for (const auto& opening : each.openings) {
        add(opening.id);
      }
    }
    for (const auto& each : project.machines) {
      add(each.id);
    }
    for (const auto& each : project.collectors) {
      add(each.id);
    }
    for (const auto& each : project.ducts) {
      add(each.id);
      for (const auto& corner : each.corners) {
        add(corner.id);
      }
    }
    for (const auto& each : project.states) {
      forms.push_back(formOfState(project, each.id));
    }
    for (const auto& form : forms) {
      ASSERT_TRUE(form);
      std::set<std::pair<std::string, std::string>> seen;
      bool grouped = false;
      for (const PropertyRow& row : form->rows) {
        EXPECT_TRUE(seen.emplace(row.group, row.name).second)
            << form->title << ": two rows \"" << row.name << "\" under \"" << row.group << "\"";
        // Behind a heading a row of the thing itself would read as that part's.
        EXPECT_FALSE(grouped && row.group.empty()) << form->title << ": " << row.name;
        grouped = grouped || !row.group.empty();
        const bool acts = row.editor == RowEditor::Add || row.editor == RowEditor::Remove;
        EXPECT_TRUE(acts || !row.key.empty()) << form->title << ": " << row.path;
        ++rows;
      }
    }
  }
  EXPECT_GT(rows, 5000);
}

}  // namespace
}  // namespace kerfdraft::desk
