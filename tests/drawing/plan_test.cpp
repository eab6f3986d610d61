// The plan: true to scale, nothing left unnamed, no label over another, on every example and on random shops.
#include "drawing/plan.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <set>

#include "catalogue/catalogue.h"
#include "drawing/plan_parts.h"
#include "drawing/svg.h"
#include "example_pictures.h"
#include "files/random_project.h"
#include "picture_texts.h"
#include "pieces/build.h"
#include "random_shop.h"

namespace kerfdraft::drawing {
namespace {

using base::UnitSystem;

pieces::Pieces piecesOf(const shop::Project& project) {
  static const auto catalogue = catalogue::Catalogue::shipped();
  auto built = pieces::buildPieces(project, *catalogue);
  EXPECT_TRUE(built.has_value()) << built.error().text();
  return built ? std::move(*built) : pieces::Pieces{};
}

void expectOnPaper(const Picture& picture, const std::string& what) {
  const Box paper{0, 0, picture.width_mm, picture.height_mm};
  for (const LabelBox& label : labelsOf(picture)) {
    EXPECT_TRUE(paper.contains(label.box)) << what << ": " << label.words;
  }
}

std::set<std::string> labelled(const Picture& picture, const std::string& kind) {
  std::set<std::string> out;
  for (const LabelBox& label : labelsOf(picture)) {
    if (label.kind == kind) {
      out.insert(label.element);
    }
  }
  return out;
}

TEST(Plan, NoLabelLiesOverAnotherInAnyStateOfAnyExample) {
  for (const Example& example : examples()) {
    for (std::size_t s = 0; s < example.assessment.states.size(); ++s) {
      for (const UnitSystem units : {UnitSystem::Us, UnitSystem::Metric}) {
        PlanOptions options;
        options.units = units;
        const Picture picture = drawPlan(*example.assessment.project, *example.assessment.pieces,
                                         example.overlay(s, units), options);
        const std::string what = example.name + ", " + example.assessment.states[s].name;
        EXPECT_EQ(overlaps(picture), std::vector<std::string>{}) << what;
        expectOnPaper(picture, what);
      }
    }
  }
}

TEST(Plan, EveryMachineGateAndCollectorIsNamed) {
  for (const Example& example : examples()) {
    const shop::Project& project = *example.assessment.project;
    PlanOptions options;
    options.units = project.setting.units;
    const Picture picture =
        drawPlan(project, *example.assessment.pieces, example.overlay(0, options.units), options);
    const std::set<std::string> machines = labelled(picture, "machine-label");
    const std::set<std::string> gates = labelled(picture, "gate-label");
    const std::set<std::string> collectors = labelled(picture, "collector-label");
    EXPECT_EQ(machines.size(), project.machines.size()) << example.name;
    EXPECT_EQ(collectors.size(), project.collectors.size()) << example.name;
    std::size_t count = 0;
    for (const shop::Duct& duct : project.ducts) {
      count += duct.gates.size();
    }
    EXPECT_EQ(gates.size(), count) << example.name;
  }
}

TEST(Plan, LabelsRarelyLieOverDucts) {
  // A share, not a ban: where everything meets, a label may cross a duct's rim.
  std::size_t labels = 0;
  std::size_t covering = 0;
  for (const Example& example : examples()) {
    const shop::Project& project = *example.assessment.project;
    PlanOptions options;
    options.units = project.setting.units;
    const Overlay overlay = example.overlay(0, options.units);
    const Picture picture = drawPlan(project, *example.assessment.pieces, overlay, options);
    std::vector<std::pair<LinePart, double>> ducts;
    for (const Group* group : groupsOf(picture)) {
      if (group->kind != "duct" && group->kind != "hose") {
        continue;
      }
      for (const Shape& shape : group->shapes) {
        const auto* path = std::get_if<Path>(&shape.what);
        if (path != nullptr && path->points.size() == 2 && path->stroke && path->stroke->width_mm > 0.5) {
          ducts.push_back({{path->points[0], path->points[1]}, path->stroke->width_mm});
        }
      }
    }
    EXPECT_GT(ducts.size(), 2U) << example.name;
    for (const LabelBox& label : labelsOf(picture)) {
      ++labels;
      double covered = 0;
      for (const auto& [part, width] : ducts) {
        covered += lengthInside(label.box.grown(width / 2 - 0.3), part.from, part.to);
      }
      covering += covered > 2.5 ? 1 : 0;
    }
  }
  EXPECT_GT(labels, 250U);
  EXPECT_LT(static_cast<double>(covering), 0.05 * static_cast<double>(labels))
      << covering << " of " << labels;
}

TEST(Plan, RandomShopsKeepTheirLabelsApart) {
  std::size_t labels = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const shop::Project project = randomShop(seed, static_cast<int>(1 + seed % 17));
    const pieces::Pieces pieces = piecesOf(project);
    EXPECT_FALSE(pieces.runs.empty()) << seed;
    PlanOptions options;
    options.units = project.setting.units;
    if (seed % 3 == 0) {
      options.paper = Paper{"", 120, 150};  // far too small
    }
    const Picture picture = drawPlan(project, pieces, randomOverlay(seed, project, pieces), options);
    EXPECT_EQ(overlaps(picture), std::vector<std::string>{}) << seed;
    expectOnPaper(picture, std::to_string(seed));
    labels += labelsOf(picture).size();
  }
  EXPECT_GT(labels, 1000U);
}

TEST(Plan, WildProjectsAreDrawnWithoutHarm) {
  rc::check("any project that can be saved can be drawn", [] {
    const shop::Project project = files::randomProject();
    const Picture picture = drawPlan(project, pieces::Pieces{}, Overlay{}, PlanOptions{});
    RC_ASSERT(overlaps(picture).empty());
    RC_ASSERT(!toSvg(picture, {.embed_font = false}).empty());
  });
}

TEST(Plan, IsTrueToScale) {
  for (const Example& example : examples()) {
    const shop::Project& project = *example.assessment.project;
    PlanOptions options;
    options.units = project.setting.units;
    const Picture picture = drawPlan(project, *example.assessment.pieces, Overlay{}, options);
    // The room's outline on paper against its size.
    double ratio = 0;
    for (const Text* text : textsOf(picture)) {
      if (const auto at = text->text.find("1 : "); at != std::string::npos) {
        ratio = std::stod(text->text.substr(at + 4));
      }
    }
    ASSERT_GT(ratio, 0) << example.name;
    const shop::Room& room = project.rooms.front();
    Box real;
    for (const shop::PlanPoint& p : room.outline) {
      real.add(At{static_cast<double>(p.x_um) * 1e-3, static_cast<double>(p.y_um) * 1e-3});
    }
    bool found = false;
    for (const Group* group : groupsOf(picture)) {
      if (group->kind == "room" && group->element == room.id.text()) {
        found = true;
        Box drawn;
        for (const At p : std::get<Path>(group->shapes.front().what).points) {
          drawn.add(p);
        }
        EXPECT_NEAR(drawn.width() * ratio, real.width(), 1e-6 * real.width());
        EXPECT_NEAR(drawn.height() * ratio, real.height(), 1e-6 * real.height());
      }
    }
    EXPECT_TRUE(found);
    // Ducts as wide as their bores.
    const std::vector<DuctLeg> legs = ductLegs(project, Overlay{});
    const std::map<pieces::PieceKey, std::size_t> by_key = legsByKey(legs);
    std::size_t widths = 0;
    for (const Group* group : groupsOf(picture)) {
      for (const auto& [key, index] : by_key) {
        if (group->element != key.text() || (group->kind != "duct" && group->kind != "hose")) {
          continue;
        }
        const auto* path = std::get_if<Path>(&group->shapes.front().what);
        if (path != nullptr && path->points.size() == 2) {
          ++widths;
          EXPECT_NEAR(path->stroke->width_mm, std::max(legs[index].bore_m * 1000 / ratio, 0.9), 1e-9);
        }
      }
    }
    EXPECT_GT(widths, 1U) << example.name;
  }
}

TEST(Plan, TheSameShopGivesTheSameBytes) {
  const std::vector<Example> all = examples();
  const Example& example = all.front();
  PlanOptions options;
  const auto draw = [&] {
    return toSvg(drawPlan(*example.assessment.project, *example.assessment.pieces,
                          example.overlay(0, options.units), options));
  };
  EXPECT_EQ(draw(), draw());
}

TEST(Plan, SaysWhatItIs) {
  const std::vector<Example> all = examples();
  const Example& example = all.front();
  PlanOptions options;
  options.title = {"Basement",        "An invented shop.", "Plan",       "lathe alone",
                   "filter seasoned", "predicted",         "2026-01-15", std::string(kCaution)};
  const Picture picture =
      drawPlan(*example.assessment.project, *example.assessment.pieces, Overlay{}, options);
  std::string all_text;
  for (const Text* text : textsOf(picture)) {
    all_text += text->text + '\n';
  }
  for (const char* words : {"Basement", "Plan: lathe alone", "predicted · filter seasoned", "2026-01-15",
                            "not for construction", "N\n"}) {
    EXPECT_NE(all_text.find(words), std::string::npos) << words;
  }
  // Without results there is no scale of grades to explain.
  EXPECT_EQ(all_text.find("far too little"), std::string::npos);
}

TEST(Plan, ShutAndOpenGatesDifferInFormAndPlate) {
  const std::vector<Shape> open = gateSign({0, 0}, {1, 0}, 4, 1);
  const std::vector<Shape> shut = gateSign({0, 0}, {1, 0}, 4, 0);
  const Box open_box = boundsOf(open.back());
  const Box shut_box = boundsOf(shut.back());
  // The blade of a shut gate lies in the duct, that of an open one beside it, a half-open one half way.
  EXPECT_LT(std::abs(shut_box.centre().y), 0.6);
  EXPECT_GT(std::abs(open_box.centre().y), 3.5);
  const Box half = boundsOf(gateSign({0, 0}, {1, 0}, 4, 0.5).back());
  EXPECT_NEAR(half.centre().y, (open_box.centre().y + shut_box.centre().y) / 2, 1e-9);
  EXPECT_EQ(std::get<Path>(shut.back().what).fill, kInk);
  EXPECT_EQ(std::get<Path>(open.back().what).fill, kWhite);
}

TEST(Plan, AnEmptyProjectIsASheetWithoutAShop) {
  shop::Project project;
  project.setting.name = "Nothing yet";
  const Picture picture = drawPlan(project, pieces::Pieces{}, Overlay{}, PlanOptions{});
  EXPECT_GT(picture.width_mm, 100);
  EXPECT_FALSE(toSvg(picture).empty());
}

TEST(Plan, AWindowIsTrueToItsScaleAndKeepsLabelsInside) {
  for (const Example& example : examples()) {
    for (const double mm_per_m : {4.0, 20.0, 70.0}) {
      PlanOptions options;
      options.window = Window{220, 160, mm_per_m, {30, 130}};
      const Picture picture = drawPlan(*example.assessment.project, *example.assessment.pieces,
                                       example.overlay(0, base::UnitSystem::Metric), options);
      EXPECT_EQ(picture.width_mm, 220);
      EXPECT_EQ(picture.height_mm, 160);
      EXPECT_EQ(overlaps(picture), std::vector<std::string>{}) << example.name << " " << mm_per_m;
    }
  }
}

TEST(Plan, WhatChangedHasASignWordsAndARowInTheLegend) {
  for (const Example& example : examples()) {
    const UnitSystem units = example.assessment.project->setting.units;
    Overlay overlay = example.overlay(0, units);
    std::size_t marked = 0;
    for (auto& [id, mark] : overlay.machines) {
      if (mark.grade != Grade::Still && marked < 2) {
        mark.change = {marked == 0 ? Turn::Better : Turn::Worse,
                       marked == 0 ? "more, earlier-540" : "less, earlier-910"};
        ++marked;
      }
    }
    if (marked < 2) {
      continue;
    }
    overlay.compared = true;
    PlanOptions options;
    options.units = units;
    const Picture picture =
        drawPlan(*example.assessment.project, *example.assessment.pieces, overlay, options);
    EXPECT_EQ(overlaps(picture), std::vector<std::string>{}) << example.name;
    std::set<std::string> titles;
    for (const Group* group : groupsOf(picture)) {
      if (group->kind == "change") {
        titles.insert(group->title);
        EXPECT_EQ(group->shapes.size(), 2U);
      }
    }
    EXPECT_EQ(titles, (std::set<std::string>{"more, earlier-540", "less, earlier-910"})) << example.name;
    std::string said;
    for (const Text* text : textsOf(picture)) {
      said += text->text + "\n";
    }
    for (const char* words :
         {"earlier-540", "earlier-910", "better than what was kept", "worse than what was kept"}) {
      EXPECT_NE(said.find(words), std::string::npos) << example.name << ": " << words;
    }
    // In a window there is no legend: one line says it.
    options.window = Window{300, 200, 20, {20, 180}, 0};
    said.clear();
    const Picture shown = drawPlan(*example.assessment.project, *example.assessment.pieces, overlay, options);
    for (const Text* text : textsOf(shown)) {
      said += text->text + "\n";
    }
    EXPECT_NE(said.find("worse than what was kept"), std::string::npos) << example.name;
  }
}

TEST(Plan, BetterAndWorseDifferByTheirForm) {
  const auto up = changeSign({0, 0}, Turn::Better);
  const auto down = changeSign({0, 0}, Turn::Worse);
  ASSERT_EQ(up.size(), down.size());
  const auto tip = [](const std::vector<Shape>& sign) {
    return std::get<Path>(sign[1].what).points.front().y;
  };
  EXPECT_LT(tip(up), 0);  // up on paper
  EXPECT_GT(tip(down), 0);
  for (const Turn turn : {Turn::Same, Turn::New, Turn::Other}) {
    EXPECT_TRUE(changeSign({0, 0}, turn).empty());
  }
}

}  // namespace
}  // namespace kerfdraft::drawing
