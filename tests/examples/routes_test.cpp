// The routes of the examples are frozen: later work is measured against the same lengths, bores and angles.
// And they can be hung: inside the room, through no machine and no obstacle.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <numbers>
#include <sstream>

#include "example_shop.h"

namespace kerfdraft::examples {
namespace {

constexpr double kDegrees = 180 / std::numbers::pi;

std::string routePath(const std::string& example) {
  return std::string(KERFDRAFT_SOURCE_DIR) + "/tests/examples/routes/" +
         example.substr(0, example.find('.')) + ".txt";
}

/// One line a run, piece or junction: key, then numbers. Runs: bores at both ends [mm]. Pieces: bore [mm],
/// length [m], angle [deg]. Junctions: angle of each leg to the outlet [deg].
std::string routes(const pieces::Pieces& pieces) {
  std::string out;
  for (const pieces::Run& run : pieces.runs) {
    out += fmt::format("{} {:.3f} {:.3f}\n", run.key.text(), 1e3 * run.start_bore_m, 1e3 * run.end_bore_m);
    for (const pieces::Piece& piece : run.pieces) {
      out += fmt::format("  {} {:.3f} {:.6f} {:.4f}\n", piece.key.text(), 1e3 * piece.bore_m, piece.length_m,
                         kDegrees * piece.angle_rad);
    }
  }
  for (const pieces::Junction& junction : pieces.junctions) {
    out += pieces.nodes[junction.node].key.text();
    for (const double angle_rad : junction.angle_rad) {
      out += fmt::format(" {:.4f}", kDegrees * angle_rad);
    }
    out += '\n';
  }
  return out;
}

struct Line {
  std::string key;
  std::vector<double> numbers;
};

std::vector<Line> lines(const std::string& text) {
  std::vector<Line> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    out.emplace_back();
    words >> out.back().key;
    for (double number = 0; words >> number;) {
      out.back().numbers.push_back(number);
    }
  }
  return out;
}

/// The last printed digit may round either way.
double slack(const std::string& key, std::size_t column) {
  if (key.rfind("run:", 0) == 0) {
    return 1.5e-3;
  }
  if (key.rfind("junction:", 0) == 0) {
    return 1.5e-4;
  }
  return std::array{1.5e-3, 1.5e-6, 1.5e-4}.at(column);
}

/// With KERFDRAFT_UPDATE=1 in the environment the file is written anew: a change of the routes is a decision.
TEST(ExampleRoutes, AreFrozen) {
  for (const std::string& name : exampleNames()) {
    SCOPED_TRACE(name);
    const Shop shop(exampleProject(name));
    const std::string now = routes(shop.pieces());
    if (const char* const wish = std::getenv("KERFDRAFT_UPDATE"); wish != nullptr && *wish == '1') {
      std::ofstream(routePath(name), std::ios::binary) << now;
    }
    std::ifstream in(routePath(name), std::ios::binary);
    ASSERT_TRUE(in) << routePath(name);
    std::ostringstream text;
    text << in.rdbuf();
    const std::vector<Line> frozen = lines(text.str());
    const std::vector<Line> here = lines(now);
    ASSERT_EQ(here.size(), frozen.size());
    for (std::size_t i = 0; i < here.size(); ++i) {
      ASSERT_EQ(here[i].key, frozen[i].key) << "line " << i + 1;
      ASSERT_EQ(here[i].numbers.size(), frozen[i].numbers.size()) << "line " << i + 1;
      for (std::size_t k = 0; k < here[i].numbers.size(); ++k) {
        EXPECT_NEAR(here[i].numbers[k], frozen[i].numbers[k], slack(here[i].key, k)) << "line " << i + 1;
      }
    }
  }
}

TEST(ExampleRoutes, BranchesEnterTheirMainAt45DegreesInTheDirectionOfItsAir) {
  // What a branch entry is sold with. The ring's two forks and the T of its bag unit turn farther.
  int right_angles = 0;
  for (const std::string& name : exampleNames()) {
    SCOPED_TRACE(name);
    const Shop shop(exampleProject(name));
    for (const pieces::Junction& junction : shop.pieces().junctions) {
      for (std::size_t i = 0; i < junction.legs.size(); ++i) {
        const double degrees = kDegrees * junction.angle_rad[i];
        const bool right = std::abs(degrees - 90) < 0.01;
        right_angles += right ? 1 : 0;
        EXPECT_TRUE(degrees < 0.01 || std::abs(degrees - 45) < 0.01 || (right && name == "ring-main.json"))
            << shop.pieces().nodes[junction.node].label << ": " << degrees;
      }
    }
  }
  EXPECT_EQ(right_angles, 3);
}

struct Box {
  std::string label;
  std::array<double, 3> low{};
  std::array<double, 3> high{};
};

std::vector<Box> bodies(const shop::Project& project) {
  std::vector<Box> out;
  for (const shop::Machine& m : project.machines) {
    const double x = static_cast<double>(m.at.x_um) * 1e-6;
    const double y = static_cast<double>(m.at.y_um) * 1e-6;
    const double w = m.width.si() / 2;
    const double d = m.depth.si() / 2;
    out.push_back({m.label, {x - w, y - d, 0}, {x + w, y + d, m.height.si()}});
  }
  for (const shop::Room& room : project.rooms) {
    for (const shop::Obstacle& o : room.obstacles) {
      Box box{o.label, {1e9, 1e9, o.bottom.si()}, {-1e9, -1e9, o.top.si()}};
      for (const shop::PlanPoint& p : o.outline) {
        const std::array<double, 2> at{static_cast<double>(p.x_um) * 1e-6,
                                       static_cast<double>(p.y_um) * 1e-6};
        for (std::size_t i = 0; i < 2; ++i) {
          box.low[i] = std::min(box.low[i], at[i]);
          box.high[i] = std::max(box.high[i], at[i]);
        }
      }
      out.push_back(box);
    }
  }
  return out;
}

/// The room's outline as a box; the examples' rooms are rectangles.
std::vector<Box> rooms(const shop::Project& project) {
  std::vector<Box> out;
  for (const shop::Room& room : project.rooms) {
    Box box{room.label, {1e9, 1e9, 0}, {-1e9, -1e9, room.height.si()}};
    EXPECT_EQ(room.outline.size(), 4U);
    for (const shop::PlanPoint& p : room.outline) {
      const std::array<double, 2> at{static_cast<double>(p.x_um) * 1e-6, static_cast<double>(p.y_um) * 1e-6};
      for (std::size_t i = 0; i < 2; ++i) {
        box.low[i] = std::min(box.low[i], at[i]);
        box.high[i] = std::max(box.high[i], at[i]);
      }
    }
    out.push_back(box);
  }
  return out;
}

bool within(const std::array<double, 3>& p, const Box& box, double margin_m) {
  for (std::size_t i = 0; i < 3; ++i) {
    if (p[i] <= box.low[i] - margin_m || p[i] >= box.high[i] + margin_m) {
      return false;
    }
  }
  return true;
}

TEST(ExampleRoutes, RigidDuctPassesNoMachineAndNoObstacleAndStaysBelowTheCeiling) {
  for (const std::string& name : exampleNames()) {
    const shop::Project project = exampleProject(name);
    const std::vector<Box> things = bodies(project);
    const std::vector<Box> inside = rooms(project);
    for (const shop::Duct& duct : project.ducts) {
      const shop::Leg* leg = nullptr;
      for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
        leg = duct.corners[k].leg ? &*duct.corners[k].leg : leg;
        if (leg->hose) {
          continue;
        }
        SCOPED_TRACE(name + ": " + duct.label + ", leg " + std::to_string(k + 1));
        const shop::Point& a = duct.corners[k].at;
        const shop::Point& b = duct.corners[k + 1].at;
        const double radius_m = leg->bore.si() / 2;
        for (int step = 0; step <= 100; ++step) {
          const double t = 0.01 * step;
          const auto between = [t](std::int64_t from, std::int64_t to) {
            return (static_cast<double>(from) + t * static_cast<double>(to - from)) * 1e-6;
          };
          const std::array<double, 3> p{between(a.x_um, b.x_um), between(a.y_um, b.y_um),
                                        between(a.z_um, b.z_um)};
          for (const Box& thing : things) {
            const bool sweep = thing.label == "T10" && duct.label == "D13";  // its pipe stands in its box
            EXPECT_TRUE(sweep || !within(p, thing, radius_m - 1e-6)) << thing.label;
          }
          EXPECT_TRUE(std::any_of(inside.begin(), inside.end(),
                                  [&](const Box& room) { return within(p, room, 1e-6); }));
          EXPECT_TRUE(std::any_of(inside.begin(), inside.end(),
                                  [&](const Box& room) { return p[2] + radius_m <= room.high[2] + 1e-6; }));
        }
      }
    }
  }
}

}  // namespace
}  // namespace kerfdraft::examples
