// Edits: what hangs on a thing follows it, nothing points at what is gone, and a refused edit changes
// nothing.
#include "shop/edit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "shop/invariants.h"
#include "support/projects.h"

namespace kerfdraft::shop {
namespace {

using support::at;
using support::given;
using support::length;
using support::ratio;

Project done(const Project& project, const Edit& edit) {
  const auto edited = applyEdit(project, edit);
  base::check(edited.has_value(), edited ? "" : edited.error().text().c_str());
  return *edited;
}

const Duct& ductOf(const Project& project, Id id) {
  return *std::find_if(project.ducts.begin(), project.ducts.end(), [&](const Duct& d) { return d.id == id; });
}

class Edits : public ::testing::Test {
 protected:
  support::TwoBranchTree tree = support::twoBranchTree();
  const Project& project = tree.builder.project;
  const Machine& machine(const PortRef& ref) { return tree.builder.machineOf(ref); }
};

TEST_F(Edits, DuctEndsFollowAMachineThatMoves) {
  const Machine& moved = machine(tree.branch_port);
  const Point to{moved.at.x_um + 100'000, moved.at.y_um - 50'000, moved.at.z_um};
  const Project after = done(project, MoveMachine{moved.id, to, moved.turned});
  const Duct& before_duct = ductOf(project, tree.branch);
  const Duct& after_duct = ductOf(after, tree.branch);
  EXPECT_EQ(after_duct.corners.front().at.x_um, before_duct.corners.front().at.x_um + 100'000);
  EXPECT_EQ(after_duct.corners.front().at.y_um, before_duct.corners.front().at.y_um - 50'000);
  EXPECT_EQ(after_duct.corners.back().at, before_duct.corners.back().at);
}

TEST_F(Edits, PortsTurnWithTheirMachine) {
  Machine there = machine(tree.branch_port);
  there.ports[0].at = {there.at.x_um + 200'000, there.at.y_um, there.ports[0].at.z_um};
  const Project apart = done(project, PutMachine{there});
  const Project after = done(apart, MoveMachine{there.id, there.at, given<base::Angle>("90 deg")});
  const auto turned = std::find_if(after.machines.begin(), after.machines.end(),
                                   [&](const Machine& m) { return m.id == there.id; });
  EXPECT_EQ(turned->ports[0].at, (Point{there.at.x_um, there.at.y_um + 200'000, there.ports[0].at.z_um}));
}

TEST_F(Edits, BranchesFollowTheCornerTheyEnterAt) {
  const auto joint = std::get<OnCorner>(ductOf(project, tree.branch).to);
  const Duct& main = ductOf(project, joint.duct);
  const auto corner = std::find_if(main.corners.begin(), main.corners.end(),
                                   [&](const Corner& c) { return c.id == joint.corner; });
  const Point to{corner->at.x_um, corner->at.y_um + 30'000, corner->at.z_um};
  const Project after = done(project, MoveCorner{joint.duct, joint.corner, to});
  EXPECT_EQ(ductOf(after, tree.branch).corners.back().at, to);
}

TEST_F(Edits, RemovingAMainLeavesItsBranchesOpen) {
  const auto joint = std::get<OnCorner>(ductOf(project, tree.branch).to);
  const Project after = done(project, RemoveDuct{joint.duct});
  EXPECT_TRUE(std::holds_alternative<OpenEnd>(ductOf(after, tree.branch).to));
  EXPECT_THAT(checkProject(after), ::testing::IsEmpty());
}

TEST_F(Edits, StatesForgetWhatIsGone) {
  const Duct& branch = ductOf(project, tree.branch);
  ASSERT_FALSE(branch.gates.empty());
  const Id gate = branch.gates.front().id;
  const Project after = done(project, RemoveFromDuct{gate});
  for (const State& state : after.states) {
    for (const GateSetting& setting : state.gates) {
      EXPECT_NE(setting.gate, gate);
    }
  }
}

TEST_F(Edits, ACornerPutInAndTakenOutAgainLeavesGatesWhereTheyWere) {
  const Duct& branch = ductOf(project, tree.branch);
  const Corner& first = branch.corners[0];
  const Corner& second = branch.corners[1];
  const Point middle{(first.at.x_um + second.at.x_um) / 2, (first.at.y_um + second.at.y_um) / 2,
                     (first.at.z_um + second.at.z_um) / 2};
  const Id corner = tree.builder.id();
  const Project parted = done(project, InsertCorner{branch.id, first.id, corner, middle});
  ASSERT_EQ(ductOf(parted, branch.id).corners.size(), branch.corners.size() + 1);
  const Project healed = done(parted, RemoveCorner{branch.id, corner});
  ASSERT_EQ(ductOf(healed, branch.id).corners.size(), branch.corners.size());
  for (std::size_t g = 0; g < branch.gates.size(); ++g) {
    EXPECT_EQ(ductOf(healed, branch.id).gates[g].corner, branch.gates[g].corner);
    EXPECT_NEAR(ductOf(healed, branch.id).gates[g].distance.si(), branch.gates[g].distance.si(), 2e-6);
  }
}

TEST_F(Edits, ACornerWithABranchDoesNotGo) {
  const auto joint = std::get<OnCorner>(ductOf(project, tree.branch).to);
  const auto refused = applyEdit(project, RemoveCorner{joint.duct, joint.corner});
  ASSERT_FALSE(refused.has_value());
  EXPECT_THAT(refused.error().message, ::testing::HasSubstr("part them first"));
}

TEST_F(Edits, WhatContradictsItselfIsRefused) {
  State twice = project.states.front();
  twice.id = tree.builder.id();
  const auto refused = applyEdit(project, PutState{twice});
  ASSERT_FALSE(refused.has_value());  // two states of one name
  EXPECT_FALSE(applyEdit(project, RemoveDuct{Id(42)}).has_value());
  EXPECT_FALSE(applyEdit(project, Withdraw{"port-short", "", {}}).has_value());
}

TEST_F(Edits, AChainIsOneGesture) {
  const Id duct = ductOf(project, tree.branch).id;
  const std::vector<Edit> chain{RemoveDuct{duct}, RemoveDuct{duct}};
  EXPECT_FALSE(applyEdits(project, chain).has_value());
  const auto joint = std::get<OnCorner>(ductOf(project, tree.branch).to);
  const std::vector<Edit> back{JoinEnd{duct, false, OpenEnd{}}, JoinEnd{duct, false, joint}};
  const auto rejoined = applyEdits(project, back);
  ASSERT_TRUE(rejoined.has_value());
  EXPECT_EQ(*rejoined, project);
}

TEST_F(Edits, AnAcceptanceIsReplacedAndWithdrawn) {
  const Acceptance first{"chips-settle", "", {}, ratio("0.5"), "only on Sundays", "2026-01-15"};
  Acceptance second = first;
  second.badness = ratio("0.7");
  const Project once = done(project, Accept{first});
  const Project again = done(once, Accept{second});
  ASSERT_EQ(again.accepted.size(), 1U);
  EXPECT_EQ(again.accepted[0], second);
  EXPECT_EQ(done(again, Withdraw{first.rule, first.about, first.state}), project);
}

// Whatever is done to a sound project, it stays sound, or the edit is refused.
RC_GTEST_PROP(EditProperties, ASoundProjectStaysSound, ()) {
  support::TwoBranchTree tree = support::twoBranchTree();
  Project project = tree.builder.project;
  base::SeededIds ids(*rc::gen::arbitrary<std::uint32_t>());
  const int steps = *rc::gen::inRange(1, 25);
  int refused = 0;
  for (int k = 0; k < steps; ++k) {
    const auto one = [&](std::size_t size) {
      return *rc::gen::inRange<std::size_t>(0, std::max<std::size_t>(size, 1));
    };
    const auto shift = [&] { return *rc::gen::inRange<std::int64_t>(-400'000, 400'000); };
    const auto point = [&](const Point& from) {
      return Point{from.x_um + shift(), from.y_um + shift(), from.z_um + shift()};
    };
    std::optional<Edit> edit;
    switch (one(10)) {
      case 0:
        if (!project.machines.empty()) {
          const Machine& m = project.machines[one(project.machines.size())];
          edit = MoveMachine{m.id, point(m.at),
                             given<base::Angle>(std::to_string(*rc::gen::inRange(0, 359)) + " deg")};
        }
        break;
      case 1:
        if (!project.machines.empty()) {
          edit = RemoveMachine{project.machines[one(project.machines.size())].id};
        }
        break;
      case 2:
        if (!project.ducts.empty()) {
          edit = RemoveDuct{project.ducts[one(project.ducts.size())].id};
        }
        break;
      case 3:
      case 4:
      case 5:
        if (!project.ducts.empty()) {
          const Duct& d = project.ducts[one(project.ducts.size())];
          const std::size_t c = one(d.corners.size());
          switch (one(3)) {
            case 0:
              edit = MoveCorner{d.id, d.corners[c].id, point(d.corners[c].at)};
              break;
            case 1:
              edit = InsertCorner{d.id, d.corners[c].id, ids.next(), point(d.corners[c].at)};
              break;
            default:
              edit = RemoveCorner{d.id, d.corners[c].id};
          }
        }
        break;
      case 6:
        if (!project.collectors.empty()) {
          const Collector& c = project.collectors[one(project.collectors.size())];
          edit = one(4) == 0 ? Edit(RemoveCollector{c.id}) : Edit(MoveCollector{c.id, point(c.at)});
        }
        break;
      case 7:
        if (!project.states.empty()) {
          const State& s = project.states[one(project.states.size())];
          edit = one(3) == 0 ? Edit(RemoveState{s.id}) : Edit(OrderState{s.id, one(4)});
        }
        break;
      case 8:
        if (!project.ducts.empty()) {
          edit = JoinEnd{project.ducts[one(project.ducts.size())].id, one(2) == 0, OpenEnd{}};
        }
        break;
      default:
        if (!project.ducts.empty()) {
          const Duct& d = project.ducts[one(project.ducts.size())];
          edit = PutTap{
              d.id,
              {ids.next(), "S" + std::to_string(k), d.corners[one(d.corners.size())].id, length("1 mm")}};
        }
    }
    if (!edit) {
      continue;
    }
    const auto edited = applyEdit(project, *edit);
    if (!edited) {
      RC_ASSERT(!edited.error().message.empty());
      ++refused;
      continue;
    }
    project = *edited;
    RC_ASSERT(checkProject(project).empty());
  }
  RC_CLASSIFY(refused > steps / 2, "mostly refused");
}

}  // namespace
}  // namespace kerfdraft::shop
