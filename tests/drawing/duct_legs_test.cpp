// Legs carry the keys of the network's pieces: what a solution says of a piece finds its place on paper.
#include "drawing/duct_legs.h"

#include <gtest/gtest.h>

#include "example_pictures.h"

namespace kerfdraft::drawing {
namespace {

TEST(DuctLegs, HaveTheKeysAndBoresOfThePieces) {
  for (const Example& example : examples()) {
    const std::vector<DuctLeg> legs = ductLegs(*example.assessment.project, Overlay{});
    const std::map<pieces::PieceKey, std::size_t> by_key = legsByKey(legs);
    EXPECT_EQ(by_key.size(), legs.size()) << example.name;
    std::size_t pieces = 0;
    for (const pieces::Run& run : example.assessment.pieces->runs) {
      for (const pieces::Piece& piece : run.pieces) {
        if (piece.key.role != pieces::Role::Straight && piece.key.role != pieces::Role::Hose) {
          continue;
        }
        ++pieces;
        const auto found = by_key.find(piece.key);
        ASSERT_NE(found, by_key.end()) << example.name << ": " << piece.label;
        const DuctLeg& leg = legs[found->second];
        EXPECT_DOUBLE_EQ(leg.bore_m, piece.bore_m) << piece.label;
        if (leg.hose == nullptr) {
          EXPECT_NEAR(leg.drawnLength(), piece.length_m, 2e-6) << piece.label;
        }
      }
    }
    EXPECT_EQ(pieces, legs.size()) << example.name;
  }
}

TEST(DuctLegs, PartsOfALegFollowEachOther) {
  for (const Example& example : examples()) {
    const std::vector<DuctLeg> legs = ductLegs(*example.assessment.project, Overlay{});
    for (std::size_t k = 0; k + 1 < legs.size(); ++k) {
      if (legs[k].duct == legs[k + 1].duct) {
        EXPECT_EQ(legs[k].to, legs[k + 1].from);
        EXPECT_EQ(legs[k].key.b, legs[k + 1].key.a);
        EXPECT_EQ(legs[k].last_part, legs[k + 1].first_part);
      } else {
        EXPECT_TRUE(legs[k].last_part);
        EXPECT_TRUE(legs[k + 1].first_part);
      }
    }
  }
}

TEST(DuctLegs, AMovedHoseBeginsWhereTheStatePutsIt) {
  for (const Example& example : examples()) {
    if (example.name != "moved-hose") {
      continue;
    }
    const shop::Duct& duct = example.assessment.project->ducts.front();
    const auto& places = std::get<shop::MovedEnd>(duct.from).places;
    ASSERT_GT(places.size(), 1U);
    for (std::size_t place = 0; place < places.size(); ++place) {
      Overlay overlay;
      overlay.hose_place[duct.id] = place;
      const std::vector<DuctLeg> legs = ductLegs(*example.assessment.project, overlay);
      bool found = false;
      for (const shop::Machine& machine : example.assessment.project->machines) {
        for (const shop::Port& port : machine.ports) {
          if (port.id == places[place].port) {
            found = true;
            EXPECT_EQ(legs.front().from, port.at);
          }
        }
      }
      EXPECT_TRUE(found);
    }
  }
}

}  // namespace
}  // namespace kerfdraft::drawing
