// Things carried from shop to shop as text.
#include "desk/models/clip.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/models/places.h"
#include "files/project_file.h"
#include "shop/invariants.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;
using ::testing::HasSubstr;

class Ids final : public base::IdSource {
 public:
  base::Id next() override { return base::Id(++last_); }

 private:
  std::uint64_t last_ = 1'000'000;
};

class Clip : public ::testing::Test {
 protected:
  support::TwoBranchTree tree = support::twoBranchTree();
  shop::Project& project = tree.builder.project;
  Ids ids;

  std::string copied(const std::set<base::Id>& things) const {
    const auto text = textOfThings(project, things);
    EXPECT_TRUE(text.has_value()) << text.error().text();
    return text.value_or("");
  }
  static shop::Project with(const shop::Project& before, const base::Result<Change>& change) {
    EXPECT_TRUE(change.has_value()) << change.error().text();
    auto after = change ? shop::applyEdits(before, change->edits) : base::Result<shop::Project>(before);
    EXPECT_TRUE(after.has_value()) << after.error().text();
    return after.value_or(before);
  }
  std::string refusal(std::string_view text) {
    const auto change = putThings(project, text, {0, 0}, ids);
    EXPECT_FALSE(change.has_value());
    return change ? "" : change.error().text();
  }
};

TEST_F(Clip, ComesBackAtThePlaceWithNewIdsAndLabels) {
  std::set<base::Id> made;
  const std::string text = copied({tree.main_port.machine, tree.branch_port.machine, tree.main});
  const shop::Project after = with(project, putThings(project, text, {6'000'000, 5'000'000}, ids, &made));
  ASSERT_EQ(after.machines.size(), 4U);
  EXPECT_EQ(after.ducts, project.ducts) << "ducts are not copied";
  // They stood at x = 1 and 4: 3 m apart, their middle goes to 6.
  EXPECT_EQ(after.machines[2].at, at(4.5, 5, 0));
  EXPECT_EQ(after.machines[3].at, at(7.5, 5, 0));
  EXPECT_EQ(after.machines[2].ports[0].at, at(4.5, 5, 0.3));
  EXPECT_EQ(after.machines[2].label, "T3");
  EXPECT_EQ(after.machines[3].label, "T4");
  EXPECT_EQ(after.machines[2].room, tree.room);
  EXPECT_EQ(made, (std::set{after.machines[2].id, after.machines[3].id}));
  EXPECT_TRUE(shop::checkProject(after).empty());
}

TEST_F(Clip, TwiceAtOnePlaceStandsBeside) {
  const std::string text = copied({tree.main_port.machine});
  const shop::Project once = with(project, putThings(project, text, {3'000'000, 5'000'000}, ids));
  const shop::Project twice = with(once, putThings(once, text, {3'000'000, 5'000'000}, ids));
  ASSERT_EQ(twice.machines.size(), 4U);
  EXPECT_EQ(twice.machines[2].at, at(3, 5, 0));
  EXPECT_NE(twice.machines[3].at, at(3, 5, 0));
}

TEST_F(Clip, GoesIntoAnotherShop) {
  shop::Circuit circuit;
  circuit.id = tree.builder.id();
  circuit.label = "K1";
  circuit.voltage = support::given<base::Voltage>("230 V");
  project.circuits.push_back(circuit);
  project.machines[0].circuit = circuit.id;
  const std::string text = copied({tree.main_port.machine, tree.collector});
  support::ProjectBuilder other;
  const base::Id room = other.room(20, 20, 4);
  const shop::Project after =
      with(other.project, putThings(other.project, text, {10'000'000, 10'000'000}, ids));
  ASSERT_EQ(after.machines.size(), 1U);
  ASSERT_EQ(after.collectors.size(), 1U);
  EXPECT_EQ(after.machines[0].room, room);
  EXPECT_FALSE(after.machines[0].circuit.valid());
  EXPECT_EQ(after.collectors[0].discharge.room, room);
  EXPECT_EQ(after.collectors[0].at.z_um, project.collectors[0].at.z_um);
  EXPECT_EQ(after.collectors[0].rating, project.collectors[0].rating);
  EXPECT_TRUE(shop::checkProject(after).empty());
  EXPECT_TRUE(files::readProject(files::writeProject(after), "after").has_value());
}

TEST_F(Clip, AUnitThatBlewOutdoorsStillDoes) {
  project.collectors[0].discharge.room = {};
  const shop::Project after =
      with(project, putThings(project, copied({tree.collector}), {3'000'000, 3'000'000}, ids));
  ASSERT_EQ(after.collectors.size(), 2U);
  EXPECT_FALSE(after.collectors[1].discharge.room.valid());
}

TEST_F(Clip, TheTextIsAProjectOfItsOwnWithoutWhatWasNotPicked) {
  const auto read = files::readProject(copied({tree.main_port.machine}), "copied");
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->machines.size(), 1U);
  EXPECT_TRUE(read->ducts.empty());
  EXPECT_TRUE(read->states.empty());
  EXPECT_TRUE(read->collectors.empty());
}

TEST_F(Clip, OnlyMachinesAndCollectorsAreCopied) {
  const auto text = textOfThings(project, {tree.main, tree.main_gate});
  ASSERT_FALSE(text.has_value());
  EXPECT_THAT(text.error().text(), HasSubstr("only machines and collectors"));
  EXPECT_FALSE(textOfThings(project, {}).has_value());
}

TEST_F(Clip, GarbageIsRefusedWithASentence) {
  EXPECT_THAT(refusal(""), HasSubstr("nothing was copied"));
  EXPECT_THAT(refusal("a letter to the landlord"), HasSubstr("no part of a shop"));
  EXPECT_THAT(refusal("{\"format\": 1"), HasSubstr("no part of a shop"));
  EXPECT_THAT(refusal("{\"a\": [1, 2]}"), HasSubstr("no part of a shop"));
  EXPECT_THAT(refusal("{\xff\xfe}"), HasSubstr("no part of a shop"));
  EXPECT_THAT(refusal(std::string(9U << 20U, '{')), HasSubstr("too long"));
  EXPECT_THAT(refusal(files::writeProject(support::ProjectBuilder().project)), HasSubstr("no machine"));
}

TEST_F(Clip, ADamagedCopyIsRefusedAndNothingHalfIsPutIn) {
  const std::string whole = copied({tree.main_port.machine, tree.collector});
  for (std::size_t cut = 1; cut < whole.size(); cut += 97) {
    const auto change = putThings(project, std::string_view(whole).substr(0, cut), {0, 0}, ids);
    if (change) {
      EXPECT_TRUE(shop::checkProject(with(project, change)).empty()) << cut;
    }
  }
}

}  // namespace
}  // namespace kerfdraft::desk
