// The plan while it is drawn: its frame, its layers from the floor up, its labels. Private to this room.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "drawing/duct_legs.h"
#include "drawing/label_placer.h"
#include "drawing/legend.h"
#include "drawing/plan.h"
#include "drawing/shapes.h"

namespace kerfdraft::drawing {

/// From the shop's floor to the paper.
struct PlanFrame {
  double mm_per_m = 20;
  At origin;  ///< of the shop, on paper

  At at(std::int64_t x_um, std::int64_t y_um) const {
    const double mm_per_um = mm_per_m * 1e-6;
    return {origin.x + static_cast<double>(x_um) * mm_per_um,
            origin.y - static_cast<double>(y_um) * mm_per_um};
  }
  At at(const shop::PlanPoint& p) const { return at(p.x_um, p.y_um); }
  At at(const shop::Point& p) const { return at(p.x_um, p.y_um); }
};

/// Symbols that the legend explains, where they occur.
enum class Sign {
  Port,
  Hose,
  Drop,
  Riser,
  GateOpen,
  GateShut,
  Tap,
  Cleanout,
  Collector,
  Flow,
  Obstacle,
  Better,
  Worse
};

struct PlanDraft {
  const shop::Project& project;
  const pieces::Pieces& pieces;
  const Overlay& overlay;
  const PlanOptions& options;
  PlanFrame frame;
  std::vector<DuctLeg> legs;
  std::vector<Shape> floor;  ///< walls, openings, obstacles
  std::vector<Shape> machines;
  std::vector<Shape> ducts;
  std::vector<Shape> fittings;  ///< gates, taps, ports, collectors, arrows
  std::vector<Shape> changes;   ///< what got better or worse since a kept result
  std::vector<Label> labels;
  Obstructions keep_clear;
  std::set<Sign> signs;
  std::vector<Box> taken;  ///< where no label may go

  std::string bore(double m) const;
};

/// Ranks of labels: who chooses a place first.
inline constexpr int kRankMachine = 0;
inline constexpr int kRankCollector = 1;
inline constexpr int kRankGate = 2;
inline constexpr int kRankRun = 3;
inline constexpr int kRankPort = 4;
inline constexpr int kRankTap = 5;
inline constexpr int kRankOpening = 6;
inline constexpr int kRankStillRun = 7;

void drawRooms(PlanDraft& draft);
void drawMachines(PlanDraft& draft);
void drawDucts(PlanDraft& draft);
void drawDevices(PlanDraft& draft);  ///< gates, taps, cleanouts
void drawCollectors(PlanDraft& draft);
void labelRuns(PlanDraft& draft);

/// A short stretch of duct as plan and legend show it: rim, fill, pattern.
std::vector<Shape> ductPiece(At from, At to, double width_mm, Grade grade);
/// The pattern that goes with a grade, along a line.
std::vector<Shape> gradePattern(At from, At to, double width_mm, Grade grade);
/// Cross ribs along a hose.
std::vector<Shape> hoseRibs(At from, At to, double width_mm, Grade grade);
/// An arrow head in the middle of a duct.
Shape flowArrow(At at, At direction, double width_mm, Grade grade);
/// A gate across a duct; `travel` 0 shut … 1 open.
std::vector<Shape> gateSign(At at, At along, double width_mm, double travel);
std::vector<Shape> tapSign(At on_edge, At outward);
std::vector<Shape> cleanoutSign(At on_edge, At outward);
/// A duct that goes down or up from here.
std::vector<Shape> verticalSign(At at, double width_mm, bool down, Grade grade);
std::vector<Shape> collectorSign(At centre, double radius_mm, bool running);
std::vector<Shape> portSign(At at, double width_mm);
/// A triangle on a disc: its point up for better, down for worse. Nothing for any other turn.
std::vector<Shape> changeSign(At at, Turn turn);
/// The same as something to point at, beside the thing that it tells of.
Shape changeMark(At at, const Change& change, const std::string& element);
inline constexpr double kChangeSign_mm = 1.5;  ///< radius of the disc
/// One line that explains these signs where a picture has no legend, its foot at the lower left of a box.
std::vector<Shape> changeKey(const Box& area, const Overlay& overlay);

/// What a sign means, for legends.
LegendRow signRow(Sign sign);

/// The column or rows that explain colours and signs. Returns the height used.
double drawLegend(const PlanDraft& draft, const Box& where, std::size_t left_out, std::vector<Shape>& out);

}  // namespace kerfdraft::drawing
