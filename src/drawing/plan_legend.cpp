// The legend: the scale with its patterns, and the signs that occur, drawn by the same functions as in the
// plan.
#include <fmt/format.h>

#include "drawing/plan_parts.h"
#include "drawing/text_measure.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kRow_mm = 5.0;
constexpr double kSample_mm = 11;
constexpr double kWidth_mm = 1.9;  // of a duct in a sample

struct Row {
  std::vector<Shape> sample;  ///< drawn about (0, 0) … (kSample_mm, 0), its middle line at y = 0
  std::string words;
  std::string more;
  bool heading = false;
};

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

Row signRow(Sign sign) {
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

struct Mover {
  At by;
  void operator()(Path& path) const {
    for (At& p : path.points) {
      p = p + by;
    }
  }
  void operator()(Circle& c) const { c.centre = c.centre + by; }
  void operator()(Arc& a) const { a.centre = a.centre + by; }
  void operator()(Text& t) const { t.at = t.at + by; }
  void operator()(Group& g) const {
    for (Shape& s : g.shapes) {
      std::visit(*this, s.what);
    }
  }
};

Row heading(std::string words) {
  Row row;
  row.words = std::move(words);
  row.heading = true;
  return row;
}

}  // namespace

double drawLegend(const PlanDraft& draft, const Box& where, std::size_t left_out, std::vector<Shape>& out) {
  std::vector<Row> rows;
  if (draft.overlay.judged) {
    rows.push_back(heading("Air against the need"));
    for (const Grade grade : kScale) {
      rows.push_back(scaleRow(grade));
    }
    rows.push_back(scaleRow(Grade::NotJudged));
    rows.push_back(scaleRow(Grade::Still));
  }
  rows.push_back(heading("Signs"));
  for (const Sign sign : draft.signs) {
    rows.push_back(signRow(sign));
  }
  const double column = 56;
  const int columns = std::max(1, static_cast<int>(where.width() / column));
  const double width = where.width() / columns;
  const auto per_column = static_cast<std::size_t>((rows.size() + static_cast<std::size_t>(columns) - 1) /
                                                   static_cast<std::size_t>(columns));
  Group group{"legend", {}, {}, {}};
  double lowest = where.top;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const double x = where.left + width * static_cast<double>(k / per_column);
    const double y = where.top + kRow_mm * (static_cast<double>(k % per_column) + 0.5);
    Row& row = rows[k];
    for (Shape& shape : row.sample) {
      std::visit(Mover{{x, y}}, shape.what);
    }
    append(group.shapes, std::move(row.sample));
    const double base = y + capHeight(kSmall_mm + 0.2) / 2;
    if (row.heading) {
      group.shapes.push_back(text({x, base}, row.words, {.size_mm = kText_mm, .bold = true}));
    } else {
      group.shapes.push_back(text({x + kSample_mm + 2, base}, row.words, {.size_mm = kSmall_mm + 0.2}));
    }
    if (!row.more.empty()) {
      group.shapes.push_back(text({x + std::min(width - 2, 52.0), base}, row.more,
                                  {.size_mm = kSmall_mm + 0.2, .anchor = Anchor::End, .colour = kFaint}));
    }
    lowest = std::max(lowest, y + kRow_mm / 2);
  }
  const auto note = [&](const std::string& words) {
    for (const std::string& part : wrapped(words, where.width() - 2, kSmall_mm)) {
      lowest += 2.9;
      group.shapes.push_back(text({where.left, lowest}, part, {.size_mm = kSmall_mm, .colour = kFaint}));
    }
  };
  if (draft.overlay.judged) {
    note("Ducts: speed of the air against what the chips in them need. Machines: air against what they ask.");
  }
  if (left_out > 0) {
    note(fmt::format("{} small label{} left out for want of room.", left_out,
                     left_out == 1 ? " is" : "s are"));
  }
  out.push_back({std::move(group)});
  return lowest - where.top;
}

}  // namespace kerfdraft::drawing
