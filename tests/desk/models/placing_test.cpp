// Machines and collectors put down, copied, turned and put in line.
#include "desk/models/placing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <fstream>
#include <numbers>

#include "catalogue/catalogue.h"
#include "desk/models/machine_list.h"
#include "desk/models/shelf.h"
#include "shop/edit.h"
#include "shop/invariants.h"
#include "support/projects.h"
#include "support/shipped.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

constexpr std::int64_t kMetre = 1000000;

using support::shipped;

shop::Project made(const shop::Project& project, const Change& change) {
  auto after = shop::applyEdits(project, change.edits);
  EXPECT_TRUE(after) << after.error().text();
  return after ? *after : project;
}

Offer offerNamed(const shop::Project& project, std::string_view search) {
  const auto found = offers(project, shipped(), {}, search, base::UnitSystem::Us);
  EXPECT_TRUE(found);
  EXPECT_FALSE(found->empty()) << search;
  return found->empty() ? Offer{} : found->front();
}

TEST(MachineList, OffersEveryKindWithWhatItWantsAndTheSource) {
  support::ProjectBuilder builder;
  const auto all = offers(builder.project, shipped(), {}, "", base::UnitSystem::Us);
  ASSERT_TRUE(all);
  const auto kinds = shipped().table("machine_kinds");
  for (const catalogue::Row& row : (*kinds)->rows()) {
    EXPECT_TRUE(std::any_of(all->begin(), all->end(), [&](const Offer& offer) {
      return offer.key == row.key || offer.key.starts_with(row.key + "/");
    })) << row.key;
  }
  const Offer saw = offerNamed(builder.project, "cabinet table saw");
  EXPECT_THAT(saw.wants, HasSubstr("350"));
  EXPECT_THAT(saw.says, HasSubstr("common practice"));
  EXPECT_TRUE(offers(builder.project, shipped(), {}, "no such thing", base::UnitSystem::Us)->empty());
}

TEST(MachineList, EveryOfferBecomesAThingThatStandsInAShop) {
  support::ProjectBuilder builder;
  builder.room(30, 30, 3);
  const LabelTyped label{"1200 cfm", "10 in w.g.", "6 in"};
  const auto all = offers(builder.project, shipped(), {}, "", base::UnitSystem::Us);
  ASSERT_TRUE(all);
  base::SeededIds ids(1);
  for (const Offer& offer : *all) {
    const auto taken = takeOffer(offer, builder.project, shipped(), {}, label, base::UnitSystem::Us, ids);
    ASSERT_TRUE(taken) << offer.name << ": " << taken.error().text();
    const auto change =
        taken->machine
            ? placeMachine(builder.project, *taken->machine, {5 * kMetre, 5 * kMetre}, 0, ids)
            : placeCollector(builder.project, *taken->collector, {5 * kMetre, 5 * kMetre}, 1.2, ids);
    ASSERT_TRUE(change) << offer.name;
    EXPECT_TRUE(shop::checkProject(made(builder.project, *change)).empty()) << offer.name;
  }
}

TEST(MachineList, ALabelThatIsNoneIsRefused) {
  support::ProjectBuilder builder;
  base::SeededIds ids(1);
  const Offer offer = offerNamed(builder.project, "collector label");
  for (const LabelTyped& label : {LabelTyped{"", "10 in w.g.", "6 in"},
                                  {"1200", "10 in w.g.", "6 in"},
                                  {"1200 cfm", "ten", "6 in"},
                                  {"1200 cfm", "10 in w.g.", ""},
                                  {"0 cfm", "10 in w.g.", "6 in"},
                                  {"1200 cfm", "10 in w.g.", "6 m"}}) {
    const auto taken = takeOffer(offer, builder.project, shipped(), {}, label, base::UnitSystem::Us, ids);
    ASSERT_FALSE(taken);
    EXPECT_FALSE(taken.error().message.empty());
  }
}

TEST(Placing, AMachineStandsWithItsPortsInTheRoomUnderIt) {
  support::ProjectBuilder builder;
  const base::Id room = builder.room(6, 5, 2.4);
  base::SeededIds ids(1);
  const auto saw = takeOffer(offerNamed(builder.project, "cabinet table saw"), builder.project, shipped(), {},
                             {}, base::UnitSystem::Us, ids);
  ASSERT_TRUE(saw);
  const shop::Project after =
      made(builder.project, *placeMachine(builder.project, *saw->machine, {3 * kMetre, 2 * kMetre}, 0, ids));
  ASSERT_EQ(after.machines.size(), 1U);
  const shop::Machine& machine = after.machines[0];
  EXPECT_EQ(machine.label, "T1");
  EXPECT_EQ(machine.room, room);
  ASSERT_FALSE(machine.ports.empty());
  EXPECT_EQ(machine.ports[0].at.x_um, 3 * kMetre);
  EXPECT_LT(machine.ports[0].at.y_um, 2 * kMetre);
  EXPECT_EQ(machine.floor->standing(), base::Standing::Published);
}

TEST(Placing, TurningTakesThePortsAlong) {
  support::ProjectBuilder builder;
  base::SeededIds ids(1);
  const shop::PortRef ref = builder.machine("", support::at(1, 2, 0.5), "100 mm");
  shop::Machine machine = *machineOf(builder.project, ref.machine);
  machine.ports[0].at = support::at(1, 1, 0.5);
  const shop::Machine turned = machineAt(machine, machine.at, std::numbers::pi / 2);
  EXPECT_EQ(turned.ports[0].at, support::at(2, 2, 0.5));
  EXPECT_NEAR(turned.turned.si(), std::numbers::pi / 2, 1e-9);
}

TEST(Placing, CopiesHaveTheirOwnIdsAndLabelsAndNoDucts) {
  support::ProjectBuilder builder;
  const shop::PortRef saw = builder.machine("", support::at(1, 1, 0.5), "100 mm");
  const base::Id unit = builder.collector(support::at(4, 1, 2), "150 mm");
  base::SeededIds ids(77);
  std::set<base::Id> copies;
  const auto change = copyThings(builder.project, {saw.machine, unit}, kMetre, 0, ids, &copies);
  ASSERT_TRUE(change) << change.error().text();
  const shop::Project after = made(builder.project, *change);
  EXPECT_EQ(after.machines.size(), 2U);
  EXPECT_EQ(after.collectors.size(), 2U);
  EXPECT_EQ(copies.size(), 2U);
  EXPECT_NE(after.machines[0].ports[0].id, after.machines[1].ports[0].id);
  EXPECT_NE(after.machines[0].label, after.machines[1].label);
  EXPECT_EQ(after.machines[1].at.x_um, after.machines[0].at.x_um + kMetre);
  EXPECT_TRUE(shop::checkProject(after).empty());
  EXPECT_FALSE(copyThings(builder.project, {}, kMetre, 0, ids));
}

TEST(Placing, PutsMachinesInLineAndApartEvenly) {
  support::ProjectBuilder builder;
  std::set<base::Id> all;
  for (const double x : {0.0, 1.0, 5.0}) {
    all.insert(builder.machine("", support::at(x, x / 2, 0.5), "100 mm").machine);
  }
  const shop::Project south = made(builder.project, *alignThings(builder.project, all, Align::South));
  for (const shop::Machine& machine : south.machines) {
    EXPECT_EQ(machine.at.y_um, 0);
    EXPECT_EQ(machine.ports[0].at.y_um, 0);
  }
  const shop::Project evenly = made(south, *alignThings(south, all, Align::AcrossEvenly));
  EXPECT_EQ(evenly.machines[1].at.x_um, 2500000);
  EXPECT_FALSE(alignThings(evenly, all, Align::AcrossEvenly)) << "they stand so already";
  EXPECT_FALSE(alignThings(evenly, {*all.begin()}, Align::West));
}

TEST(Placing, WhatIsMovedIntoAnotherRoomBelongsThere) {
  support::ProjectBuilder builder;
  const base::Id room = builder.room(6, 5, 2.4);
  const shop::PortRef saw = builder.machine("", support::at(1, 1, 0.5), "100 mm", room);
  const base::Id unit = builder.collector(support::at(4, 1, 2), "150 mm", room);
  for (const base::Id id : {saw.machine, unit}) {
    const auto out = moveThing(builder.project, *thingOf(builder.project, id), 20 * kMetre, 0);
    ASSERT_TRUE(out);
    const shop::Project after = made(builder.project, *out);
    EXPECT_FALSE((id == unit ? after.collectors[0].room : after.machines[0].room).valid());
    const auto back = moveThing(after, *thingOf(after, id), -20 * kMetre, 0);
    ASSERT_TRUE(back);
    EXPECT_EQ(made(after, *back), builder.project);
  }
}

class Shelf : public ::testing::Test {
 protected:
  std::filesystem::path file = std::filesystem::temp_directory_path() /
                               ("kerfdraft-shelf-" + std::to_string(::getpid())) / "own-machines.json";
  void TearDown() override { std::filesystem::remove_all(file.parent_path()); }
};

TEST_F(Shelf, KeepsMachinesFromShopToShop) {
  support::ProjectBuilder builder;
  const shop::PortRef ref = builder.machine("", support::at(3, 2, 0.5), "100 mm");
  shop::Machine machine = *machineOf(builder.project, ref.machine);
  EXPECT_TRUE(readShelf(file)->empty());
  EXPECT_FALSE(keepOnShelf(file, machine)) << "it has no name yet";
  machine.name = "My saw";
  ASSERT_TRUE(keepOnShelf(file, machine));
  machine.name = "My planer";
  machine.id = builder.id();
  machine.ports[0].id = builder.id();
  ASSERT_TRUE(keepOnShelf(file, machine));
  ASSERT_TRUE(keepOnShelf(file, machine)) << "the same again replaces it";
  const auto own = readShelf(file);
  ASSERT_TRUE(own) << own.error().text();
  ASSERT_EQ(own->size(), 2U);
  const auto offered = offers(builder.project, shipped(), *own, "my saw", base::UnitSystem::Us);
  ASSERT_TRUE(offered);
  ASSERT_EQ(offered->size(), 1U);
  base::SeededIds ids(3);
  const auto taken =
      takeOffer(offered->front(), builder.project, shipped(), *own, {}, base::UnitSystem::Us, ids);
  ASSERT_TRUE(taken);
  const shop::Project after =
      made(builder.project, *placeMachine(builder.project, *taken->machine, {kMetre, kMetre}, 0, ids));
  EXPECT_EQ(after.machines.back().ports[0].at, support::at(1, 1, 0.5));
  ASSERT_TRUE(takeOffShelf(file, own->front().id));
  EXPECT_EQ(readShelf(file)->size(), 1U);
}

TEST_F(Shelf, ABrokenShelfIsSaidAndLeftAlone) {
  std::filesystem::create_directories(file.parent_path());
  { std::ofstream(file) << "no project"; }
  EXPECT_FALSE(readShelf(file));
  support::ProjectBuilder builder;
  const shop::PortRef ref = builder.machine("", support::at(3, 2, 0.5), "100 mm");
  shop::Machine machine = *machineOf(builder.project, ref.machine);
  machine.name = "My saw";
  EXPECT_FALSE(keepOnShelf(file, machine));
  std::ifstream in(file);
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(in), {}), "no project");
}

}  // namespace
}  // namespace kerfdraft::desk
