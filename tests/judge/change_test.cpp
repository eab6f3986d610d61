// Every change does what it says, leaves the project without contradictions, and touches nothing else.
#include "judge/change.h"

#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "judge/shops.h"
#include "shop/invariants.h"

namespace kerfdraft::judge {
namespace {

using base::Id;
using base::UnitSystem;

/// The changed project, which must hold together.
shop::Project made(const shop::Project& project, const Change& change) {
  const auto changed = withChange(project, change);
  EXPECT_TRUE(changed) << (changed ? "" : changed.error().text());
  if (!changed) {
    return project;
  }
  EXPECT_EQ(shop::checkProject(*changed).size(), shop::checkProject(project).size());
  return *changed;
}

/// The change must be what `by_hand` does to a copy, and nothing more.
void expectOnly(const shop::Project& project, const Change& change,
                const std::function<void(shop::Project&)>& by_hand) {
  shop::Project wanted = project;
  by_hand(wanted);
  EXPECT_NE(wanted, project);
  EXPECT_EQ(made(project, change), wanted);
}

std::string refusal(const shop::Project& project, const Change& change) {
  const auto changed = withChange(project, change);
  EXPECT_FALSE(changed);
  return changed ? "" : changed.error().text();
}

template <class Q>
base::Given<Q> estimate(const std::string& text) {
  return base::Given<Q>::parse(text, base::Standing::Estimated, "a change that is tried").value();
}

TEST(Change, BoreOfADuct) {
  const auto shop = support::twoBranchTree();
  expectOnly(shop.builder.project, {ChangeKind::Bore, shop.main, {}, 0.2, false}, [&](shop::Project& p) {
    p.ducts[0].corners[0].leg->bore = estimate<base::Length>("200 mm");
    p.ducts[0].corners[2].leg->bore = estimate<base::Length>("200 mm");
  });
}

TEST(Change, BoreWithThePort) {
  const auto shop = support::oneMachine();
  expectOnly(shop.builder.project, {ChangeKind::Bore, shop.duct, {}, 0.125, true}, [&](shop::Project& p) {
    p.ducts[0].corners[0].leg->bore = estimate<base::Length>("125 mm");
    p.machines[0].ports[0].bore = estimate<base::Length>("125 mm");
  });
}

TEST(Change, AUsShopReadsInches) {
  auto shop = support::oneMachine();
  shop.builder.project.setting.units = UnitSystem::Us;
  const shop::Project changed = made(shop.builder.project, {ChangeKind::Bore, shop.duct, {}, 0.1524, false});
  EXPECT_EQ(changed.ducts[0].corners[0].leg->bore.text(), "6 in");
  const shop::Project odd = made(shop.builder.project, {ChangeKind::Bore, shop.duct, {}, 0.16, false});
  EXPECT_EQ(odd.ducts[0].corners[0].leg->bore.text(), "160 mm");
}

TEST(Change, LegBoreTakesEveryLegOfThatBoreAndNoOther) {
  const auto shop = support::twoBranchTree();
  const Id inherited = shop.builder.project.ducts[0].corners[1].id;
  expectOnly(shop.builder.project, {ChangeKind::LegBore, shop.main, inherited, 0.15, false},
             [&](shop::Project& p) { p.ducts[0].corners[0].leg->bore = estimate<base::Length>("150 mm"); });
}

TEST(Change, PortBore) {
  const auto shop = support::oneMachine();
  expectOnly(shop.builder.project, {ChangeKind::PortBore, shop.port.machine, shop.port.port, 0.12, false},
             [&](shop::Project& p) { p.machines[0].ports[0].bore = estimate<base::Length>("120 mm"); });
}

TEST(Change, HoseLengthIsHungTight) {
  auto shop = support::twoBranchTree();
  shop.builder.ductOf(shop.branch).corners[0].leg =
      support::ProjectBuilder::hose("100 mm", shop::HoseInside::Ribbed, shop::HoseHung::Slack);
  const Id second = shop.builder.project.ducts[1].corners[1].id;  // the hose goes on from here
  expectOnly(shop.builder.project, {ChangeKind::HoseLength, shop.branch, second, 1.2, false},
             [&](shop::Project& p) {
               p.ducts[1].corners[0].leg->hose->length = estimate<base::Length>("1.2 m");
               p.ducts[1].corners[0].leg->hose->hung = shop::HoseHung::Tight;
             });
}

TEST(Change, HoseTightIsSmoothToo) {
  auto shop = support::twoBranchTree();
  shop.builder.ductOf(shop.branch).corners[0].leg = support::ProjectBuilder::hose("100 mm");
  shop.builder.ductOf(shop.branch).corners[0].leg->hose->compression = support::ratio("20 %");
  expectOnly(shop.builder.project, {ChangeKind::HoseTight, shop.branch, {}, 0, false}, [&](shop::Project& p) {
    p.ducts[1].corners[0].leg->hose = shop::Hose{shop::HoseInside::Smooth, shop::HoseHung::Tight, {}, {}};
  });
}

TEST(Change, GatesOfOneState) {
  const auto shop = support::twoBranchTree();
  expectOnly(shop.builder.project, {ChangeKind::GateShut, shop.main_gate, shop.both, 0, false},
             [&](shop::Project& p) { p.states[0].gates.erase(p.states[0].gates.begin()); });
  expectOnly(shop.builder.project, {ChangeKind::GateOpen, shop.branch_gate, shop.main_alone, 0, false},
             [&](shop::Project& p) {
               p.states[1].gates.push_back({shop.branch_gate, estimate<base::Ratio>("100 %")});
             });
}

TEST(Change, APartOpenGateOpensFully) {
  auto shop = support::oneMachine();
  shop.builder.project.states[0].gates[0].travel = support::ratio("40 %");
  expectOnly(shop.builder.project, {ChangeKind::GateOpen, shop.gate, shop.state, 0, false},
             [&](shop::Project& p) { p.states[0].gates[0].travel = estimate<base::Ratio>("100 %"); });
}

TEST(Change, CleanFilterInOneStateOrInAll) {
  const auto shop = support::twoBranchTree();
  expectOnly(shop.builder.project, {ChangeKind::FilterClean, {}, shop.both, 0, false},
             [&](shop::Project& p) { p.states[0].filter = shop::FilterState::Clean; });
  expectOnly(shop.builder.project, {ChangeKind::FilterClean, {}, {}, 0, false}, [&](shop::Project& p) {
    for (shop::State& state : p.states) {
      state.filter = shop::FilterState::Clean;
    }
  });
}

TEST(Change, NonReturn) {
  const auto shop = support::oneMachine();
  expectOnly(shop.builder.project, {ChangeKind::NonReturn, shop.collector, {}, 0, false},
             [&](shop::Project& p) { p.collectors[0].non_return = true; });
}

/// Sum of the coefficients of pieces of one role.
double coefficients(const shop::Project& project, pieces::Role role) {
  const Assessment assessment = tests::solved(project);
  double sum = 0;
  for (const pieces::Run& run : assessment.pieces->runs) {
    for (const pieces::Piece& piece : run.pieces) {
      sum += piece.key.role == role ? piece.k_forward : 0;
    }
  }
  return sum;
}

TEST(Change, StraightInletMovesTheCollectorUntilTheSystemEffectIsGone) {
  auto shop = support::oneMachine();
  shop::Duct& duct = shop.builder.ductOf(shop.duct);
  duct.corners[2].at = support::at(1.2, 1, 3.2);  // 0.2 m of 100 mm duct behind the elbow
  shop.builder.collectorOf(shop.collector).at = duct.corners[2].at;
  const shop::Project& project = shop.builder.project;
  ASSERT_GT(coefficients(project, pieces::Role::FanInlet), 0.1);
  const shop::Project changed = made(project, {ChangeKind::StraightInlet, shop.collector, {}, 0, false});
  EXPECT_EQ(coefficients(changed, pieces::Role::FanInlet), 0);
  const double moved_m = static_cast<double>(changed.collectors[0].at.x_um) * 1e-6;
  EXPECT_GE(moved_m, 1.5);  // five bores behind the elbow at 1 m
  EXPECT_LE(moved_m, 1.503);
  expectOnly(project, {ChangeKind::StraightInlet, shop.collector, {}, 0, false}, [&](shop::Project& p) {
    p.collectors[0].at = p.ducts[0].corners[2].at = support::at(moved_m, 1, 3.2);
  });
  EXPECT_NE(refusal(changed, {ChangeKind::StraightInlet, shop.collector, {}, 0, false}).find("five bores"),
            std::string::npos);
}

TEST(Change, WideElbowsLeaveBranchesAlone) {
  const auto shop = support::twoBranchTree();
  expectOnly(shop.builder.project, {ChangeKind::WideElbows, shop.main, {}, 0, false}, [&](shop::Project& p) {
    p.ducts[0].corners[1].elbow = shop::ElbowForm{"gored-5", estimate<base::Ratio>("2")};
  });
  const shop::Project changed = made(shop.builder.project, {ChangeKind::WideElbows, shop.main, {}, 0, false});
  EXPECT_LT(coefficients(changed, pieces::Role::Elbow),
            coefficients(shop.builder.project, pieces::Role::Elbow));
}

TEST(Change, RoomOpeningIsAlwaysOpenAndGetsAnIdOfItsOwn) {
  const auto shop = support::oneMachine();
  const Change change{ChangeKind::RoomOpening, shop.room, {}, 0.05, false};
  const shop::Project changed = made(shop.builder.project, change);
  ASSERT_EQ(changed.rooms[0].openings.size(), 1U);
  const shop::Opening& opening = changed.rooms[0].openings[0];
  EXPECT_TRUE(opening.id.valid());
  EXPECT_EQ(opening.area->text(), "500 cm2");
  EXPECT_EQ(opening.area->standing(), base::Standing::Estimated);
  EXPECT_EQ(changed, made(shop.builder.project, change));
  const shop::Project twice = made(changed, change);
  EXPECT_NE(twice.rooms[0].openings[0].id, twice.rooms[0].openings[1].id);
  shop::Project back = changed;
  back.rooms[0].openings.clear();
  EXPECT_EQ(back, shop.builder.project);
}

TEST(Change, BodyOpening) {
  const auto shop = support::oneMachine();
  expectOnly(shop.builder.project, {ChangeKind::BodyOpening, shop.port.machine, {}, 0.02, false},
             [&](shop::Project& p) { p.machines[0].openings = estimate<base::Area>("200 cm2"); });
}

TEST(Change, EveryKindRefusesIdsThatAreNotThere) {
  const auto shop = support::twoBranchTree();
  const Id strange(0xbadULL);
  for (const ChangeKind kind :
       {ChangeKind::Bore, ChangeKind::LegBore, ChangeKind::PortBore, ChangeKind::HoseLength,
        ChangeKind::HoseTight, ChangeKind::GateOpen, ChangeKind::GateShut, ChangeKind::FilterClean,
        ChangeKind::NonReturn, ChangeKind::StraightInlet, ChangeKind::WideElbows, ChangeKind::RoomOpening,
        ChangeKind::BodyOpening}) {
    for (const Id id : {strange, Id{}}) {
      if (kind == ChangeKind::FilterClean && !id.valid()) {
        continue;  // means every state
      }
      const std::string text = refusal(shop.builder.project, {kind, id, id, 0.1, false});
      EXPECT_NE(text.find("There is no"), std::string::npos) << text;
    }
  }
}

TEST(Change, ValuesThatCannotBeAreRefused) {
  const auto shop = support::oneMachine();
  for (const double value :
       {0.0, -0.1, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    const std::string text = refusal(shop.builder.project, {ChangeKind::Bore, shop.duct, {}, value, false});
    EXPECT_NE(text.find("must be above zero"), std::string::npos) << text;
  }
}

TEST(Change, WhatIsSoAlreadyIsRefused) {
  auto shop = support::twoBranchTree();
  EXPECT_NE(refusal(shop.builder.project, {ChangeKind::GateOpen, shop.main_gate, shop.both, 0, false})
                .find("so already"),
            std::string::npos);
  EXPECT_NE(refusal(shop.builder.project, {ChangeKind::HoseTight, shop.main, {}, 0, false}).find("no hose"),
            std::string::npos);
  const Change wide{ChangeKind::WideElbows, shop.main, {}, 0, false};
  EXPECT_NE(refusal(made(shop.builder.project, wide), wide).find("so already"), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::judge
