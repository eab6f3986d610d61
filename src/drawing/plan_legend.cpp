// The legend: the scale with its patterns, and the signs that occur, drawn by the same functions as in the
// plan.
#include <fmt/format.h>

#include "drawing/plan_parts.h"

namespace kerfdraft::drawing {
namespace {

using Row = LegendRow;

constexpr double kSample_mm = kLegendSample_mm;
constexpr double kWidth_mm = 1.9;  // of a duct in a sample

At place(double share) {
  return {kSample_mm * share, 0};
}

Row scaleRow(Grade grade) {
  Row row;
  row.sample = ductPiece(place(0), place(1), kWidth_mm, grade);
  row.words = std::string(toText(grade));
  row.more = std::string(rangeText(grade));
  return row;
}

}  // namespace

LegendRow signRow(Sign sign) {
  Row row;
  const auto duct = [&] { row.sample = ductPiece(place(0.1), place(0.9), kWidth_mm, Grade::NotJudged); };
  switch (sign) {
    case Sign::Port:
      row.sample = portSign(place(0.5), kWidth_mm);
      row.words = "port of a machine";
      break;
    case Sign::Hose:
      duct();
      append(row.sample, hoseRibs(place(0.1), place(0.9), kWidth_mm, Grade::NotJudged));
      row.words = "hose";
      break;
    case Sign::Drop:
      row.sample = ductPiece(place(0.5), place(1), kWidth_mm, Grade::NotJudged);
      append(row.sample, verticalSign(place(0.5), kWidth_mm * 1.15, true, Grade::NotJudged));
      row.words = "goes down from here";
      break;
    case Sign::Riser:
      row.sample = ductPiece(place(0.5), place(1), kWidth_mm, Grade::NotJudged);
      append(row.sample, verticalSign(place(0.5), kWidth_mm * 1.15, false, Grade::NotJudged));
      row.words = "goes up from here";
      break;
    case Sign::GateOpen:
      duct();
      append(row.sample, gateSign(place(0.5), {-1, 0}, kWidth_mm, 1));
      row.words = "gate, open";
      break;
    case Sign::GateShut:
      duct();
      append(row.sample, gateSign(place(0.5), {1, 0}, kWidth_mm, 0));
      row.words = "gate, shut";
      break;
    case Sign::Tap:
      duct();
      append(row.sample, tapSign(place(0.5) + At{0, -kWidth_mm / 2}, {0, -1}));
      row.words = "tap, to measure at";
      break;
    case Sign::Cleanout:
      duct();
      append(row.sample, cleanoutSign(place(0.5) + At{0, -kWidth_mm / 2}, {0, -1}));
      row.words = "cleanout";
      break;
    case Sign::Collector:
      row.sample = collectorSign(place(0.5), 2.0, true);
      row.words = "collector, size not to scale";
      break;
    case Sign::Flow:
      duct();
      row.sample.push_back(flowArrow(place(0.5), {1, 0}, kWidth_mm, Grade::NotJudged));
      row.words = "way of the air";
      break;
    case Sign::Better:
      row.sample = changeSign(place(0.5), Turn::Better);
      row.words = "better than what was kept";
      break;
    case Sign::Worse:
      row.sample = changeSign(place(0.5), Turn::Worse);
      row.words = "worse than what was kept";
      break;
    case Sign::Obstacle: {
      const std::vector<At> box = cornersOf({1.5, -1.6, kSample_mm - 1.5, 1.6});
      for (const LinePart& part : hatch(box, 1.6)) {
        row.sample.push_back(line(part.from, part.to, stroke(kHair_mm, kPale)));
      }
      row.sample.push_back(polygon(box, std::nullopt, stroke(kThin_mm, kFaint)));
      row.words = "obstacle";
      break;
    }
  }
  return row;
}

double drawLegend(const PlanDraft& draft, const Box& where, std::size_t left_out, std::vector<Shape>& out) {
  std::vector<Row> rows;
  if (draft.overlay.judged) {
    rows.push_back(legendHeading("Air against the need"));
    for (const Grade grade : kScale) {
      rows.push_back(scaleRow(grade));
    }
    rows.push_back(scaleRow(Grade::NotJudged));
    rows.push_back(scaleRow(Grade::Still));
  }
  rows.push_back(legendHeading("Signs"));
  for (const Sign sign : draft.signs) {
    rows.push_back(signRow(sign));
  }
  std::vector<std::string> notes;
  if (draft.overlay.judged) {
    notes.emplace_back(
        "Ducts: speed of the air against what the chips in them need. Machines: air against what they ask.");
  }
  if (!draft.overlay.comparison.empty()) {
    notes.push_back("Against what was kept: " + draft.overlay.comparison + ".");
  }
  if (left_out > 0) {
    notes.push_back(fmt::format("{} small label{} left out for want of room.", left_out,
                                left_out == 1 ? " is" : "s are"));
  }
  return drawLegendRows(std::move(rows), notes, where, out);
}

}  // namespace kerfdraft::drawing
