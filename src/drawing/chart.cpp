// Lays out axes by the width of their figures, clips curves at the frame, and lets the label placer name
// things.
#include "drawing/chart.h"

#include <fmt/format.h>

#include <cmath>

#include "drawing/label_placer.h"
#include "drawing/shapes.h"
#include "drawing/text_measure.h"
#include "drawing/ticks.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kFigure_mm = 2.2;

bool finite(const ChartPoint& p) {
  return std::isfinite(p.x) && std::isfinite(p.y);
}

struct Range {
  double low = 1e300;
  double high = -1e300;
  bool empty() const { return high < low; }
  void add(double v) {
    low = std::min(low, v);
    high = std::max(high, v);
  }
};

class Plot {
 public:
  Plot(const Chart& chart, base::UnitSystem units, ChartSize size)
      : chart_(chart), units_(units), size_(size) {}

  Picture picture() {
    out_.width_mm = size_.width_mm;
    out_.height_mm = size_.height_mm;
    out_.title = chart_.title;
    out_.description = chart_.description;
    out_.shapes.push_back(rectangle({0, 0, size_.width_mm, size_.height_mm}, kWhite));
    const double top = drawHeading(chart_.title, chart_.subtitle, size_.width_mm, out_.shapes);
    Range x;
    Range y;
    gather(x, y);
    if (x.empty() || y.empty()) {
      out_.shapes.push_back(text({2, top + 6}, "Nothing to show.", {}));
      return std::move(out_);
    }
    layOut(top, x, y);
    keep_clear_.emplace(plot_);
    grid();
    ribbons();
    curves();
    marks();
    const LabelPlaces places =
        placeLabels(labels_, {plot_.left + 0.5, plot_.top + 0.3, size_.width_mm - 1, plot_.bottom - 0.3}, {},
                    *keep_clear_);
    for (const PlacedLabel& place : places.placed) {
      out_.shapes.push_back(drawLabel(labels_[place.label], place));
    }
    return std::move(out_);
  }

  ChartFrame frame() const {
    return y_ticks_.at.empty() ? ChartFrame{}
                               : ChartFrame{plot_, x_low_, x_high_, y_ticks_.at.front(), y_ticks_.at.back()};
  }

 private:
  double shownX(double si) const { return base::inUnit(chart_.x.kind, si, units_); }
  double shownY(double si) const { return base::inUnit(chart_.y.kind, si, units_); }

  void gather(Range& x, Range& y) const {
    const auto add = [&](const ChartPoint& p) {
      if (finite(p)) {
        x.add(shownX(p.x));
        y.add(shownY(p.y));
      }
    };
    for (const ChartCurve& curve : chart_.curves) {
      std::for_each(curve.points.begin(), curve.points.end(), add);
    }
    for (const ChartRibbon& ribbon : chart_.ribbons) {
      std::for_each(ribbon.low.begin(), ribbon.low.end(), add);
      std::for_each(ribbon.high.begin(), ribbon.high.end(), add);
    }
    for (const ChartMark& mark : chart_.marks) {
      add(mark.at);
    }
    const auto fix = [&](Range& range, const ChartAxis& axis) {
      if (range.empty()) {
        return;
      }
      // Zero belongs to what is measured from zero.
      if (range.low > 0 && range.low < 0.6 * range.high) {
        range.low = 0;
      }
      if (range.high < 0 && range.high > 0.6 * range.low) {
        range.high = 0;
      }
      if (axis.low) {
        range.low = base::inUnit(axis.kind, *axis.low, units_);
      }
      if (axis.high) {
        range.high = base::inUnit(axis.kind, *axis.high, units_);
      }
    };
    fix(x, chart_.x);
    fix(y, chart_.y);
  }

  std::string titled(const ChartAxis& axis) const {
    const std::string_view unit = base::unitName(axis.kind, units_);
    return unit.empty() ? axis.title : fmt::format("{}, {}", axis.title, unit);
  }

  void layOut(double top, const Range& x, const Range& y) {
    const double notes = 3 * static_cast<double>(chart_.notes.size());
    y_ticks_ = niceTicks(y.low, y.high, std::max(2, static_cast<int>(size_.height_mm / 16)));
    x_ticks_ = niceTicks(x.low, x.high, std::max(2, static_cast<int>(size_.width_mm / 22)));
    double figures = 0;
    for (const double tick : y_ticks_.at) {
      figures = std::max(figures, textWidth(y_ticks_.text(tick), kFigure_mm));
    }
    // Along x the frame ends with the data, not with a round number.
    x_low_ = x_ticks_.at.front();
    x_high_ = std::min(x_ticks_.at.back(), x.high + 0.02 * (x.high - x_low_));
    if (!(x_high_ > x_low_)) {
      x_high_ = x_ticks_.at.back();
    }
    plot_ = {figures + 3.5, top + 6.5, size_.width_mm - 5, size_.height_mm - 8.5 - notes};
    plot_.right = std::max(plot_.right, plot_.left + 5);
    plot_.bottom = std::max(plot_.bottom, plot_.top + 5);
    out_.shapes.push_back(
        text({plot_.left - 0.5, plot_.top - 2.2}, titled(chart_.y), {.size_mm = kFigure_mm, .bold = true}));
    double line_at = size_.height_mm - notes + 1.6;
    for (const std::string& note : chart_.notes) {
      out_.shapes.push_back(text({plot_.left, line_at},
                                 cutToWidth(note, size_.width_mm - plot_.left - 2, kSmall_mm),
                                 {.size_mm = kSmall_mm, .colour = kFaint}));
      line_at += 3;
    }
  }

  At at(const ChartPoint& p) const {
    const double x = (shownX(p.x) - x_low_) / (x_high_ - x_low_);
    const double y = (shownY(p.y) - y_ticks_.at.front()) / (y_ticks_.at.back() - y_ticks_.at.front());
    return {plot_.left + x * plot_.width(), plot_.bottom - y * plot_.height()};
  }

  void grid() {
    Group group{"grid", {}, {}, {}};
    for (const double tick : y_ticks_.at) {
      const double y = plot_.bottom - (tick - y_ticks_.at.front()) /
                                          (y_ticks_.at.back() - y_ticks_.at.front()) * plot_.height();
      const bool zero = tick == 0;
      group.shapes.push_back(
          line({plot_.left, y}, {plot_.right, y}, stroke(zero ? kThin_mm : kHair_mm, zero ? kInk : kGrid)));
      group.shapes.push_back(text({plot_.left - 1.4, y + capHeight(kFigure_mm) / 2}, y_ticks_.text(tick),
                                  {.size_mm = kFigure_mm, .anchor = Anchor::End}));
    }
    const std::string unit = titled(chart_.x);
    const double unit_width = textWidth(unit, kFigure_mm, true);
    for (const double tick : x_ticks_.at) {
      if (tick > x_high_ + 1e-9 * std::abs(x_high_)) {
        break;
      }
      const double x = plot_.left + (tick - x_low_) / (x_high_ - x_low_) * plot_.width();
      group.shapes.push_back(line({x, plot_.bottom}, {x, plot_.bottom + 1}, stroke(kThin_mm)));
      group.shapes.push_back(line({x, plot_.top}, {x, plot_.bottom}, stroke(kHair_mm, kGrid)));
      group.shapes.push_back(text({x, plot_.bottom + 4}, x_ticks_.text(tick),
                                  {.size_mm = kFigure_mm, .anchor = Anchor::Middle}));
    }
    group.shapes.push_back(line({plot_.left, plot_.bottom}, {plot_.right, plot_.bottom}, stroke(kThin_mm)));
    group.shapes.push_back(
        text({plot_.right - unit_width, plot_.bottom + 7.4}, unit, {.size_mm = kFigure_mm, .bold = true}));
    out_.shapes.push_back({std::move(group)});
  }

  void ribbons() {
    for (const ChartRibbon& ribbon : chart_.ribbons) {
      std::vector<At> outline;
      for (const ChartPoint& p : ribbon.low) {
        if (finite(p)) {
          outline.push_back(inFrame(at(p)));
        }
      }
      for (auto p = ribbon.high.rbegin(); p != ribbon.high.rend(); ++p) {
        if (finite(*p)) {
          outline.push_back(inFrame(at(*p)));
        }
      }
      if (outline.size() < 3) {
        continue;
      }
      Group group{"ribbon", {}, ribbon.label, {}};
      if (!ribbon.hatched) {
        group.shapes.push_back(polygon(outline, ribbon.fill));
      }
      for (const LinePart& part : ribbon.hatched ? hatch(outline, 1.3) : std::vector<LinePart>{}) {
        group.shapes.push_back(line(part.from, part.to, stroke(kHair_mm, ribbon.fill)));
      }
      out_.shapes.push_back({std::move(group)});
      if (!ribbon.label.empty()) {
        Label label{"ribbon-label", {}, {{ribbon.label, false, true}}, kSmall_mm, {}};
        for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) {
          const auto k = static_cast<std::size_t>(share * static_cast<double>(ribbon.low.size() - 1));
          if (k < ribbon.high.size()) {
            label.anchors.push_back(inFrame(between(at(ribbon.low[k]), at(ribbon.high[k]), 0.5)));
          }
        }
        label.clear_mm = 0.2;
        label.rank = 3;
        label.may_be_left_out = true;
        labels_.push_back(std::move(label));
      }
    }
  }

  At inFrame(At p) const {
    return {std::clamp(p.x, plot_.left, plot_.right), std::clamp(p.y, plot_.top, plot_.bottom)};
  }

  void curves() {
    for (const ChartCurve& curve : chart_.curves) {
      // Runs of points inside the frame; a curve that leaves it comes back as another run.
      std::vector<std::vector<At>> runs;
      for (std::size_t k = 0; k + 1 < curve.points.size(); ++k) {
        if (!finite(curve.points[k]) || !finite(curve.points[k + 1])) {
          continue;
        }
        const auto part = clipped(plot_.grown(0.01), at(curve.points[k]), at(curve.points[k + 1]));
        if (!part) {
          continue;
        }
        keep_clear_->addLine(part->from, part->to, curve.width_mm, curve.faint ? 1.0 : 2.0);
        if (runs.empty() || length(runs.back().back() - part->from) > 1e-6) {
          runs.push_back({part->from});
        }
        runs.back().push_back(part->to);
      }
      Group group{"curve", {}, curve.label, {}};
      Stroke with = roundStroke(curve.width_mm, curve.colour);
      if (curve.dash == Dash::Dashed) {
        with = stroke(curve.width_mm, curve.colour, {2.4, 1.2});
      } else if (curve.dash == Dash::Dotted) {
        with = roundStroke(curve.width_mm, curve.colour, {0.01, 1.1});
      }
      for (const std::vector<At>& run : runs) {
        group.shapes.push_back(polyline(run, with));
      }
      out_.shapes.push_back({std::move(group)});
      if (!curve.label.empty() && !runs.empty()) {
        Label label{"curve-label", {}, {{curve.label, !curve.faint, curve.faint}}, kFigure_mm, {}};
        const std::vector<At>& run = runs.back();
        for (const double share : {curve.label_share, 0.98, 0.9, 0.8, 0.65, 0.5, 0.35, 0.2}) {
          label.anchors.push_back(run[static_cast<std::size_t>(share * static_cast<double>(run.size() - 1))]);
        }
        label.clear_mm = 0.8;
        label.rank = curve.faint ? 2 : 1;
        labels_.push_back(std::move(label));
      }
    }
  }

  void marks() {
    for (const ChartMark& mark : chart_.marks) {
      if (!finite(mark.at)) {
        continue;
      }
      const At p = at(mark.at);
      Group group{"mark", {}, mark.lines.empty() ? "" : fmt::format("{}", mark.lines.front()), {}};
      if (mark.x_low && mark.x_high) {
        const At low = inFrame(at({*mark.x_low, mark.at.y}));
        const At high = inFrame(at({*mark.x_high, mark.at.y}));
        group.shapes.push_back(line(low, high, stroke(kMiddle_mm, mark.colour)));
        for (const At end : {low, high}) {
          group.shapes.push_back(line(end + At{0, -1}, end + At{0, 1}, stroke(kMiddle_mm, mark.colour)));
        }
        keep_clear_->addLine(low, high, 1, 2);
      }
      const double r = mark.size_mm;
      switch (mark.form) {
        case MarkForm::Disc:
          group.shapes.push_back(circle(p, r, mark.colour, stroke(kThin_mm, kWhite)));
          break;
        case MarkForm::Ring:
          group.shapes.push_back(circle(p, r, kWhite, stroke(kMiddle_mm, mark.colour)));
          break;
        case MarkForm::Square:
          group.shapes.push_back(
              rectangle({p.x - r, p.y - r, p.x + r, p.y + r}, mark.colour, stroke(kThin_mm, kWhite)));
          break;
        case MarkForm::Diamond:
          group.shapes.push_back(
              polygon({p + At{0, -r * 1.3}, p + At{r * 1.3, 0}, p + At{0, r * 1.3}, p + At{-r * 1.3, 0}},
                      mark.colour, stroke(kThin_mm, kWhite)));
          break;
      }
      keep_clear_->addBox(Box{p.x, p.y, p.x, p.y}.grown(r), 4);
      out_.shapes.push_back({std::move(group)});
      if (!mark.lines.empty()) {
        Label label{"mark-label", {}, {}, kFigure_mm, {p}};
        for (const std::string& words : mark.lines) {
          label.lines.push_back({words, label.lines.empty(), false});
        }
        label.clear_mm = r + 0.8;
        label.rank = 0;
        labels_.push_back(std::move(label));
      }
    }
  }

  const Chart& chart_;
  base::UnitSystem units_;
  ChartSize size_;
  Picture out_;
  Box plot_;
  Ticks x_ticks_;
  Ticks y_ticks_;
  double x_low_ = 0;
  double x_high_ = 1;
  std::optional<Obstructions> keep_clear_;
  std::vector<Label> labels_;
};

}  // namespace

double drawHeading(const std::string& title, const std::string& subtitle, double width_mm,
                   std::vector<Shape>& out) {
  double y = 1.5;
  if (!title.empty()) {
    y += kHeading_mm;
    out.push_back(text({1, y}, cutToWidth(title, width_mm - 2, kHeading_mm, true),
                       {.size_mm = kHeading_mm, .bold = true}));
  }
  for (const std::string& words : wrapped(subtitle, width_mm - 2, kText_mm)) {
    y += lineHeight(kText_mm) + 0.4;
    out.push_back(text({1, y}, words, {.size_mm = kText_mm, .colour = kFaint}));
  }
  return y;
}

Picture drawChart(const Chart& chart, base::UnitSystem units, ChartSize size, ChartFrame* frame) {
  Plot plot(chart, units, size);
  Picture picture = plot.picture();
  if (frame != nullptr) {
    *frame = plot.frame();
  }
  return picture;
}

}  // namespace kerfdraft::drawing
