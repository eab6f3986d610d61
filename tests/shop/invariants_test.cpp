// Every invariant: a project that keeps all of them, and for each a change that breaks just that one.
#include "shop/invariants.h"

#include <gtest/gtest.h>

#include <functional>

#include "shop/small_shop.h"

namespace kerfdraft::shop {
namespace {

using Change = std::function<void(Project&)>;

/// All problems of the small shop after a change, one a line.
std::string problemsAfter(const Change& change) {
  Project project = smallShop();
  change(project);
  std::string all;
  for (const base::Error& error : checkProject(project)) {
    all += error.text() + "\n";
  }
  return all;
}

void expectProblem(const Change& change, const std::string& says) {
  EXPECT_EQ(problemsAfter(change), says + "\n");
}

}  // namespace

TEST(Invariants, ASoundProjectHasNoProblem) {
  EXPECT_EQ(problemsAfter([](Project&) {}), "");
  EXPECT_TRUE(checkProject(Project{}).empty());
}

TEST(Invariants, IdsAreThereAndNotTwice) {
  expectProblem([](Project& p) { p.rooms[0].obstacles[0].id = Id(); },
                "/rooms/0/obstacles/0 (room R1, obstacle): the obstacle has no id");
  expectProblem([](Project& p) { p.collectors[0].filters[0].id = Id(0x45); },
                "/collectors/0/filters/0/id (collector C1, filter): the id 0000000000000045 stands twice: a "
                "gate has it "
                "already");
}

TEST(Invariants, DanglingIdsAreNamed) {
  expectProblem([](Project& p) { p.machines[0].room = Id(99); },
                "/machines/0/room (machine T1): no room has the id 0000000000000063");
  expectProblem(
      [](Project& p) { p.machines[0].room = Id(0x80); },
      "/machines/0/room (machine T1): the id 0000000000000080 belongs to a collector, not to a room");
  expectProblem([](Project& p) { p.collectors[0].discharge.room = Id(99); },
                "/collectors/0/discharge/room (collector C1): no room has the id 0000000000000063");
  expectProblem([](Project& p) { p.rooms[0].openings[0].leads_to = Id(99); },
                "/rooms/0/openings/0/leads-to (room R1, opening DR1): no room has the id 0000000000000063");
  expectProblem([](Project& p) { p.ducts[2].from = CollectorOutlet{Id(99)}; },
                "/ducts/2/from/collector-outlet (duct D3): no collector has the id 0000000000000063");
  expectProblem(
      [](Project& p) {
        p.ducts[2].to = FreeAir{Id(99), ""};
      },
      "/ducts/2/to/free-air/room (duct D3): no room has the id 0000000000000063");
  expectProblem(
      [](Project& p) {
        p.ducts[0].from = PortRef{Id(0x20), Id(0x11)};
      },
      "/ducts/0/from/port/port (duct D1): the port 0000000000000011 is on another machine than "
      "0000000000000020");
  expectProblem(
      [](Project& p) {
        p.ducts[1].to = OnCorner{Id(0x60), Id(0x43), false};
      },
      "/ducts/1/to/corner (duct D2): the corner 0000000000000043 is not one of duct D3");
  expectProblem(
      [](Project& p) { p.ducts[0].taps[0].corner = Id(0x61); },
      "/ducts/0/taps/0/corner (duct D1, tap M1): no corner of this duct has the id 0000000000000061");
}

TEST(Invariants, LabelsStandOnce) {
  expectProblem([](Project& p) { p.machines[1].label = "G1"; },
                "/ducts/0/gates/0/label (duct D1, gate G1): the label \"G1\" stands twice; on paper the two "
                "could not be "
                "told apart");
  expectProblem(
      [](Project& p) { p.machines[0].ports[1].label = "P1"; },
      "/machines/0/ports/1/label (machine T1, port P1): the label \"P1\" stands twice on this machine");
  expectProblem(
      [](Project& p) {
        p.states.push_back(p.states[0]);
        p.states[1].id = Id(0x91);
      },
      "/states/1/name (state saw): the state's name \"saw\" stands twice");
}

TEST(Invariants, OutlinesHaveThreePointsAndDoNotCross) {
  const std::string place = "/rooms/0/outline (room R1): ";
  expectProblem([](Project& p) { p.rooms[0].outline.resize(2); },
                place + "the outline has 2 points; it needs at least 3");
  expectProblem([](Project& p) { std::swap(p.rooms[0].outline[1], p.rooms[0].outline[2]); },
                place + "the outline crosses itself: the edge after point 1 meets the edge after point 3");
  expectProblem([](Project& p) { p.rooms[0].outline[1] = p.rooms[0].outline[0]; },
                place + "points 1 and 2 of the outline are the same");
  expectProblem([](Project& p) { p.rooms[0].outline[3] = onPlan(6000, 2000); },
                place + "the outline runs back on itself at point 3");
  expectProblem([](Project& p) { p.rooms[0].outline.resize(501, onPlan(1, 1)); },
                place + "the outline has 501 points; the most is 500");
  // A point in the middle of a wall is no fault, nor is the far corner of one kilometre.
  EXPECT_EQ(problemsAfter([](Project& p) {
              p.rooms[0].outline.insert(p.rooms[0].outline.begin() + 1, onPlan(3000, 0));
              p.rooms[0].outline[3] = onPlan(1'000'000, 1'000'000);
            }),
            "");
  // Two corners that touch make two rooms of one.
  expectProblem(
      [](Project& p) {
        p.rooms[0].outline = {onPlan(0, 0),       onPlan(2000, 2000), onPlan(4000, 0),
                              onPlan(4000, 4000), onPlan(2000, 2000), onPlan(0, 4000)};
      },
      place + "the outline crosses itself: the edge after point 1 meets the edge after point 4");
  expectProblem(
      [](Project& p) { p.rooms[0].obstacles[0].top = length("0 m"); },
      "/rooms/0/obstacles/0/top (room R1, obstacle): the top \"0 m\" is not above the bottom \"0 m\"");
}

TEST(Invariants, OpeningsSayWhatTheyMust) {
  const std::string place = "/rooms/0/openings/0";
  const std::string who = " (room R1, opening DR1): ";
  expectProblem([](Project& p) { p.rooms[0].openings[0].leads_to = Id(1); },
                place + "/leads-to" + who + "the opening leads into its own room");
  expectProblem(
      [](Project& p) {
        p.rooms[0].openings[0].kind = OpeningKind::Exhaust;
        p.states.clear();
      },
      place + who + "an exhaust needs its \"flow\": what it takes out of the room");
  expectProblem(
      [](Project& p) { p.rooms[0].openings[0].flow = flow("100 cfm"); },
      place + "/flow" + who + "only an exhaust has a flow (\"100 cfm\"); other openings have an area");
}

TEST(Invariants, DuctsHaveTwoCornersAndALeg) {
  expectProblem([](Project& p) { p.ducts[2].corners.resize(1); },
                "/ducts/2/corners (duct D3): the duct has 1 corners; it needs at least 2, its ends");
  expectProblem([](Project& p) { p.ducts[2].corners.clear(); },
                "/ducts/2/corners (duct D3): the duct has 0 corners; it needs at least 2, its ends");
  expectProblem(
      [](Project& p) { p.ducts[2].corners[0].leg.reset(); },
      "/ducts/2/corners/0 (duct D3): the first corner has no \"leg\": nothing says what the duct is made of");
  expectProblem([](Project& p) { p.ducts[2].corners[1].leg = p.ducts[2].corners[0].leg; },
                "/ducts/2/corners/1 (duct D3): the last corner has a \"leg\", but no duct follows it");
  expectProblem([](Project& p) { p.ducts[2].corners[1].at = p.ducts[2].corners[0].at; },
                "/ducts/2/corners/1 (duct D3): the corner lies on the one before it");
  expectProblem(
      [](Project& p) {
        p.ducts[2].corners[0].leg->hose = Hose{};
        p.ducts[2].corners[1].at.z_um += 200'000'000;
      },
      "/ducts/2/corners/1 (duct D3): 201.000 m of hose up to this corner is above 100.000 m, the most that "
      "is "
      "believed");
}

TEST(Invariants, GatesAndTapsLieOnTheirLeg) {
  expectProblem(
      [](Project& p) { p.ducts[0].gates[0].distance = length("2.1 m"); },
      "/ducts/0/gates/0/distance (duct D1, gate G1): 2.1 m along the leg is not on it: the leg is 2.000 m "
      "long");
  expectProblem(
      [](Project& p) { p.ducts[0].taps[0].distance = length("-1 in"); },
      "/ducts/0/taps/0/distance (duct D1, tap M1): -1 in along the leg is not on it: the leg is 2.000 m "
      "long");
  expectProblem(
      [](Project& p) { p.ducts[0].cleanouts[0].corner = Id(0x44); },
      "/ducts/0/cleanouts/0/corner (duct D1, cleanout O1): this is the last corner: no leg begins there");
}

TEST(Invariants, EndsAreOfTheRightKind) {
  expectProblem(
      [](Project& p) { p.ducts[0].from = CollectorInlet{Id(0x80)}; },
      "/ducts/0/from/collector-inlet (duct D1): a duct ends at a collector's inlet; draw it the other way, "
      "with the air");
  expectProblem(
      [](Project& p) {
        p.ducts[2].to = PortRef{Id(0x20), Id(0x21)};
      },
      "/ducts/2/to/port (duct D3): a duct starts at a port; draw it the other way, with the air");
  expectProblem(
      [](Project& p) { p.ducts[2].to = CollectorOutlet{Id(0x80)}; },
      "/ducts/2/to/collector-outlet (duct D3): a duct starts at a collector's outlet; draw it the other way, "
      "with the air");
  expectProblem(
      [](Project& p) {
        p.ducts[0].to = OnCorner{Id(0x40), Id(0x43), false};
      },
      "/ducts/0/to/corner (duct D1): the duct is joined to a corner of its own");
  expectProblem(
      [](Project& p) {
        p.ducts[1].to = OnCorner{Id(0x40), Id(0x44), false};
      },
      "/ducts/1/to/corner (duct D2): the corner is an end of duct D1; a branch enters at an inner corner, so "
      "join that end itself, or give duct D1 a corner before its end");
}

TEST(Invariants, EndsLieWhereTheyAreJoined) {
  expectProblem(
      [](Project& p) { p.ducts[1].corners[1].at.x_um += 2'000; },
      "/ducts/1/to/corner (duct D2): the duct's end lies 0.002 m away from the corner of duct D1 that it is "
      "joined to; the two are one point");
  EXPECT_EQ(problemsAfter([](Project& p) { p.ducts[1].corners[1].at.x_um += 900; }), "");
  expectProblem(
      [](Project& p) { p.machines[0].ports[0].at.x_um += 600'000; },
      "/ducts/0/from/port (duct D1): the duct's end lies 0.600 m away from the port that it is joined to; "
      "the most is 0.500 m");
  expectProblem(
      [](Project& p) { p.collectors[0].at.x_um += 600'000; },
      "/ducts/0/to/collector-inlet (duct D1): the duct's end lies 0.600 m away from the collector's inlet "
      "that it is joined to; the most is 0.500 m");
}

TEST(Invariants, APortHasOneDuct) {
  expectProblem(
      [](Project& p) {
        Duct again = p.ducts[0];
        again.id = Id(0x70);
        again.label = "D4";
        again.corners = {{Id(0x71), at(1000, 1000, 300), again.corners[0].leg, {}, {}},
                         {Id(0x72), at(5000, 1000, 2400), {}, {}, {}}};
        again.gates.clear();
        again.taps.clear();
        again.cleanouts.clear();
        p.ducts.push_back(again);
      },
      "/ducts/3/from (duct D4): port P1 of machine T1 is joined twice: duct D1 is there already");
  expectProblem(
      [](Project& p) {
        std::get<MovedEnd>(p.ducts[1].from).places.push_back({Id(0x10), Id(0x11)});
      },
      "/ducts/1/from/moved (duct D2): port P1 of machine T1 is joined twice: duct D1 is there already");
  expectProblem(
      [](Project& p) {
        std::get<MovedEnd>(p.ducts[1].from).places.push_back({Id(0x20), Id(0x21)});
      },
      "/ducts/1/from/moved (duct D2): place 3 stands twice");
}

TEST(Invariants, SeveralDuctsMayEndAtOneInlet) {
  EXPECT_EQ(problemsAfter([](Project& p) {
              p.ducts[1].to = CollectorInlet{Id(0x80)};
              p.ducts[1].corners[1].at = at(5000, 1000, 2400);
            }),
            "");
}

TEST(Invariants, TwoMovedHosesMayShareAPlaceButNotAtOnce) {
  const Change second_hose = [](Project& p) {
    Duct again = p.ducts[1];
    again.id = Id(0x70);
    again.label = "D4";
    again.corners[0].id = Id(0x71);
    again.corners[1].id = Id(0x72);
    p.ducts.push_back(again);
  };
  EXPECT_EQ(problemsAfter(second_hose), "");
  expectProblem(
      [&](Project& p) {
        second_hose(p);
        p.states[0].hoses.push_back({Id(0x70), {Id(0x10), Id(0x12)}});
      },
      "/states/0/hoses/1 (state saw): hoses D2 and D4 are both at port P2 of machine T1");
}

TEST(Invariants, CurvesHaveTwoPointsInOrderAndFall) {
  const std::string place = "/collectors/0/rating";
  const std::string who = " (collector C1): ";
  expectProblem([](Project& p) { p.collectors[0].rating.points.resize(1); },
                place + who + "a curve needs at least two points, but this one has one (2 kPa at 0 m3/h)");
  expectProblem(
      [](Project& p) { p.collectors[0].rating.points[2].flow = flow("500 m3/h"); },
      place + "/points/2" + who +
          "the flow 500 m3/h does not come after 500 m3/h; points stand in the order of rising flow");
  expectProblem(
      [](Project& p) { p.collectors[0].rating.points[2].pressure = pressure("2.2 kPa"); },
      place + who +
          "the curve never falls: it ends with 2.2 kPa at 1000 m3/h, its greatest pressure; a fan's pressure "
          "falls toward free air");
  expectProblem(
      [](Project& p) { p.collectors[0].rating.points[2].pressure = pressure("2.1 kPa"); },
      place + who +
          "the curve never falls: it ends with 2.1 kPa at 1000 m3/h, its greatest pressure; a fan's pressure "
          "falls toward free air");
}

TEST(Invariants, ALabelHasFlowAndSuction) {
  const std::string place = "/machines/0/blower/rating (machine T1): ";
  expectProblem([](Project& p) { p.machines[0].blower->rating.greatest_suction.reset(); },
                place + "the label's free-air flow of 300 m3/h needs the \"greatest-suction\" beside it");
  expectProblem([](Project& p) { p.machines[0].blower->rating.free_air_flow.reset(); },
                place + "the label's greatest suction of 500 Pa needs the \"free-air-flow\" beside it");
  expectProblem(
      [](Project& p) { p.machines[0].blower->rating = {}; },
      place +
          "nothing is known of the fan: it needs the points of a curve, or the label's \"free-air-flow\" and "
          "\"greatest-suction\"");
}

TEST(Invariants, SeparatorsAndFiltersAreEnteredInFull) {
  expectProblem([](Project& p) { p.collectors[0].separators[0].rated_flow = flow("800 cfm"); },
                "/collectors/0/separators/0 (collector C1, separator): the rated flow of 800 cfm needs the "
                "\"rated-loss\" beside it");
  expectProblem([](Project& p) { p.collectors[0].separators[0].rated_loss = pressure("2 in w.g."); },
                "/collectors/0/separators/0 (collector C1, separator): the rated loss of 2 in w.g. needs the "
                "\"rated-flow\" beside it");
  expectProblem(
      [](Project& p) { p.collectors[0].filters[0].area = entered<base::Area>("0 ft2"); },
      "/collectors/0/filters/0/area (collector C1, filter): a filter area of 0 ft2 lets no air through; "
      "leave it out where it is unknown");
}

TEST(Invariants, AMakersSuctionIsNotBelowTheVelocityPressure) {
  // 20 m/s through 100 mm is 565.5 m3/h, and 0.5 × 1.2014 × 20² is 240.3 Pa.
  const auto pair = [](std::string_view suction) {
    return [suction](Project& p) {
      p.machines[0].ports[0].maker = RatedPoint{flow("565.487 m3/h"), pressure(suction)};
    };
  };
  EXPECT_EQ(problemsAfter(pair("241 Pa")), "");
  expectProblem(
      pair("240 Pa"),
      "/machines/0/ports/0/maker (machine T1, port P1): the maker's static suction of 240 Pa is below the "
      "velocity pressure of 240.3 Pa that 565.487 m3/h has in a bore of 100 mm; no port can do that (is the "
      "suction a total pressure, or the bore another?)");
}

TEST(Invariants, NoFigureNeedsAnAbsurdSpeed) {
  expectProblem(
      [](Project& p) {
        p.machines[0].ports[0].bore = length("2.5 in");
        p.machines[0].ports[0].target = flow("800 cfm");
      },
      "/machines/0/ports/0/target (machine T1, port P1): 800 cfm through a bore of 2.5 in would need 119.22 "
      "m/s; above "
      "100.00 m/s a figure is taken for a slip");
  expectProblem([](Project& p) { p.machines[0].floor = flow("3 m3/s"); },
                "/machines/0/floor (machine T1): 3 m3/s through all its ports would need 190.99 m/s; above "
                "100.00 m/s a "
                "figure is taken for a slip");
}

TEST(Invariants, StatesNameOnlyWhatIsThere) {
  expectProblem(
      [](Project& p) { p.states[0].gates[0].gate = Id(0x41); },
      "/states/0/gates/0/gate (state saw): the id 0000000000000041 belongs to a corner, not to a gate");
  expectProblem([](Project& p) { p.states[0].gates.push_back(p.states[0].gates[0]); },
                "/states/0/gates/1 (state saw): gate G1 stands twice in this state");
  expectProblem(
      [](Project& p) { p.states[0].gates[0].travel = entered<base::Ratio>("1.01"); },
      "/states/0/gates/0/travel (state saw): the travel \"1.01\" of gate G1 is outside 0 (shut) to 1 (open)");
  expectProblem([](Project& p) { p.states[0].hoses[0].duct = Id(0x40); },
                "/states/0/hoses/0 (state saw): duct D1 is not a moved hose");
  expectProblem(
      [](Project& p) {
        p.states[0].hoses[0].place = {Id(0x10), Id(0x11)};
      },
      "/states/0/hoses/0 (state saw): port P1 of machine T1 is not one of the places of hose D2");
  expectProblem([](Project& p) { p.states[0].off = {Id(0x45)}; },
                "/states/0/off/0 (state saw): no collector or blower has the id 0000000000000045");
  expectProblem(
      [](Project& p) {
        p.states[0].off = {Id(0x80), Id(0x80)};
      },
      "/states/0/off/1 (state saw): 0000000000000080 stands twice in this list");
  expectProblem([](Project& p) { p.rooms[0].openings[0].kind = OpeningKind::Grille; },
                "/states/0/swung/0 (state saw): no door or window has the id 0000000000000002");
}

namespace {

Circuit circuit(std::uint64_t id, const std::string& label) {
  Circuit circuit;
  circuit.id = Id(id);
  circuit.label = label;
  circuit.voltage = entered<base::Voltage>("120 V");
  return circuit;
}

Acceptance acceptance(const std::string& about) {
  Acceptance accepted;
  accepted.rule = "hose-greedy";
  accepted.about = about;
  accepted.badness = entered<base::Ratio>("0.4");
  accepted.reason = "It hangs there only in winter.";
  return accepted;
}

}  // namespace

TEST(Invariants, CircuitsAreThereAndToldApart) {
  EXPECT_EQ(problemsAfter([](Project& p) {
              p.circuits = {circuit(0xA0, "K1"), circuit(0xA1, "K2")};
              p.machines[0].circuit = Id(0xA0);
              p.collectors[0].circuit = Id(0xA0);
            }),
            "");
  expectProblem([](Project& p) { p.circuits = {circuit(0, "K1")}; },
                "/circuits/0 (circuit K1): the circuit has no id");
  expectProblem([](Project& p) { p.circuits = {circuit(0x90, "K1")}; },
                "/circuits/0/id (circuit K1): the id 0000000000000090 stands twice: a state has it already");
  expectProblem(
      [](Project& p) {
        p.circuits = {circuit(0xA0, "K1"), circuit(0xA1, "K1")};
      },
      "/circuits/1/label (circuit K1): the label \"K1\" stands twice; on paper the two could not be "
      "told apart");
  expectProblem([](Project& p) { p.machines[1].circuit = Id(0xA0); },
                "/machines/1/circuit (machine T2): no circuit has the id 00000000000000a0");
  expectProblem([](Project& p) { p.collectors[0].circuit = Id(0x90); },
                "/collectors/0/circuit (collector C1): the id 0000000000000090 belongs to a state, not to a "
                "circuit");
}

TEST(Invariants, AcceptedFindingsSayWhatTheyAreAbout) {
  for (const char* about : {"", "straight", "run:0000000000000040", "fan-inlet:0000000000000080",
                            "run:0000000000000040:00000000000000ff"}) {
    EXPECT_EQ(problemsAfter([&](Project& p) { p.accepted = {acceptance(about)}; }), "") << about;
  }
  for (const char* about : {"run:", ":", "Run:0000000000000040", "run:40", "run:000000000000004G",
                            "run:0000000000000000", "run:0000000000000040:", "run:0000000000000040:12",
                            "run:0000000000000040:00000000000000ff:00000000000000ff"}) {
    EXPECT_EQ(problemsAfter([&](Project& p) { p.accepted = {acceptance(about)}; }),
              "/accepted/0/about (accepted finding hose-greedy): \"" + std::string(about) +
                  "\" is not what a finding is about: a role and at most two ids of 16 hex digits, like "
                  "\"elbow:00000000000000a1\"\n");
  }
}

TEST(Invariants, AcceptedFindingsAreOfARuleAndAStateEachOnce) {
  EXPECT_EQ(problemsAfter([](Project& p) {
              p.accepted = {acceptance("run:0000000000000040"), acceptance("run:0000000000000040")};
              p.accepted[1].state = Id(0x90);
            }),
            "");
  expectProblem(
      [](Project& p) {
        p.accepted = {acceptance("")};
        p.accepted[0].rule.clear();
      },
      "/accepted/0/rule (accepted finding): the accepted finding does not say of which rule it is");
  expectProblem(
      [](Project& p) {
        p.accepted = {acceptance("")};
        p.accepted[0].state = Id(0x40);
      },
      "/accepted/0/state (accepted finding hose-greedy): the id 0000000000000040 belongs to a duct, not to a "
      "state");
  expectProblem(
      [](Project& p) {
        p.accepted = {acceptance(""), acceptance("")};
        p.accepted[1].reason = "Another.";
      },
      "/accepted/1 (accepted finding hose-greedy): the same finding is accepted twice; keep the one that "
      "holds");
}

}  // namespace kerfdraft::shop
