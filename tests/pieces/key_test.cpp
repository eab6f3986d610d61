// Keys stay when corners move; moving the whole shop changes nothing; every key is unique.
#include <algorithm>
#include <random>
#include <set>

#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

std::vector<PieceKey> keys(const Pieces& pieces) {
  std::vector<PieceKey> out;
  for (const auto& run : pieces.runs) {
    out.push_back(run.key);
    for (const Piece& piece : run.pieces) {
      out.push_back(piece.key);
    }
  }
  for (const Fan& fan : pieces.fans) {
    out.push_back(fan.key);
  }
  for (const Opening& opening : pieces.openings) {
    out.push_back(opening.key);
  }
  return out;
}

std::vector<support::ProjectBuilder> shops() {
  return {support::oneMachine().builder, support::twoBranchTree().builder, support::ringMain().builder};
}

TEST(Keys, AreUnique) {
  for (const auto& builder : shops()) {
    const std::vector<PieceKey> all = keys(build(builder));
    EXPECT_EQ(std::set<PieceKey>(all.begin(), all.end()).size(), all.size());
  }
}

TEST(Keys, OfNodesAreUnique) {
  for (const auto& builder : shops()) {
    const Pieces pieces = build(builder);
    std::set<PieceKey> seen;
    for (const Node& node : pieces.nodes) {
      EXPECT_TRUE(seen.insert(node.key).second) << node.label;
    }
  }
}

TEST(Keys, StayWhenACornerMoves) {
  auto shop = support::twoBranchTree();
  const std::vector<PieceKey> before = keys(build(shop.builder));
  shop.builder.ductOf(shop.main).corners[1].at = support::at(1, 2, 2.8);
  shop.builder.ductOf(shop.main).corners[3].at = support::at(9, 2.5, 2.6);
  EXPECT_EQ(keys(build(shop.builder)), before);
}

TEST(Keys, HaveATextWithoutIndexOrPlace) {
  const PieceKey key{Role::Straight, base::Id(0x1a), base::Id(0xff)};
  EXPECT_EQ(key.text(), "straight:000000000000001a:00000000000000ff");
  EXPECT_EQ((PieceKey{Role::Elbow, base::Id(0x1a), {}}).text(), "elbow:000000000000001a");
}

void moveAll(shop::Project& project, std::int64_t x_um, std::int64_t y_um, std::int64_t z_um) {
  const auto shift = [&](shop::Point& p) { p = {p.x_um + x_um, p.y_um + y_um, p.z_um + z_um}; };
  for (shop::Duct& duct : project.ducts) {
    for (shop::Corner& corner : duct.corners) {
      shift(corner.at);
    }
  }
  for (shop::Room& room : project.rooms) {
    for (shop::PlanPoint& p : room.outline) {
      p = {p.x_um + x_um, p.y_um + y_um};
    }
  }
}

TEST(Keys, MovingTheWholeShopChangesNothing) {
  std::mt19937_64 random(7);
  std::uniform_int_distribution<std::int64_t> shift(-50'000'000, 50'000'000);
  for (auto builder : shops()) {
    const Pieces before = build(builder);
    for (int i = 0; i < 20; ++i) {
      moveAll(builder.project, shift(random), shift(random), shift(random));
      const Pieces after = build(builder);
      ASSERT_EQ(keys(after), keys(before));
      for (std::size_t r = 0; r < before.runs.size(); ++r) {
        EXPECT_EQ(after.runs[r].label, before.runs[r].label);
        EXPECT_EQ(after.runs[r].room, before.runs[r].room);
        for (std::size_t p = 0; p < before.runs[r].pieces.size(); ++p) {
          const Piece& a = before.runs[r].pieces[p];
          const Piece& b = after.runs[r].pieces[p];
          EXPECT_EQ(a.length_m, b.length_m);
          EXPECT_EQ(a.k_forward, b.k_forward);
          EXPECT_EQ(a.k_reverse, b.k_reverse);
        }
      }
      for (std::size_t j = 0; j < before.junctions.size(); ++j) {
        EXPECT_EQ(after.junctions[j].cosine, before.junctions[j].cosine);
      }
    }
  }
}

TEST(Keys, LengthsAddUpWhereverTheCornersAre) {
  std::mt19937_64 random(11);
  std::uniform_int_distribution<std::int64_t> place(0, 5'000'000);
  for (int i = 0; i < 200; ++i) {
    auto shop = support::twoBranchTree();
    double drawn_m = 0;
    for (shop::Duct& duct : shop.builder.project.ducts) {
      duct.gates.clear();
      for (shop::Corner& corner : duct.corners) {
        corner.at = {place(random), place(random), place(random)};
      }
      for (std::size_t k = 1; k < duct.corners.size(); ++k) {
        drawn_m += shop::distance(duct.corners[k - 1].at, duct.corners[k].at);
      }
    }
    const Pieces pieces = build(shop.builder);
    double built_m = 0;
    for (const Piece* piece : ofRole(pieces, Role::Straight)) {
      built_m += piece->length_m;
    }
    EXPECT_NEAR(built_m, drawn_m, 1e-9);
    for (const Junction& junction : pieces.junctions) {
      for (const double c : junction.cosine) {
        EXPECT_TRUE(c >= -1 - 1e-12 && c <= 1 + 1e-12) << c;
      }
    }
  }
}

TEST(Keys, SameProjectGivesTheSamePieces) {
  for (const auto& builder : shops()) {
    const Pieces a = build(builder);
    const Pieces b = build(builder);
    EXPECT_EQ(keys(a), keys(b));
  }
}

}  // namespace
}  // namespace kerfdraft::pieces
