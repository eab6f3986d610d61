// Level bars in the scale's colours and patterns, with the need as a post across each.
#include "drawing/speed_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "drawing/chart.h"
#include "drawing/plan_parts.h"
#include "drawing/shapes.h"
#include "drawing/text_measure.h"
#include "drawing/ticks.h"
#include "drawing/units_text.h"

namespace kerfdraft::drawing {

Picture speedChart(const SpeedChartInput& input, base::UnitSystem units, double width_mm) {
  using base::Kind;
  std::vector<SpeedBar> bars;
  std::copy_if(input.bars.begin(), input.bars.end(), std::back_inserter(bars), [](const SpeedBar& b) {
    return std::isfinite(b.speed_m_s) && std::isfinite(b.need_m_s) && b.need_m_s > 0;
  });
  std::stable_sort(bars.begin(), bars.end(), [](const SpeedBar& a, const SpeedBar& b) {
    return a.speed_m_s / a.need_m_s < b.speed_m_s / b.need_m_s;
  });
  constexpr double kRow_mm = 6.2;
  constexpr double kBar_mm = 3.2;
  Picture out;
  std::vector<Shape> shapes;
  const double top = drawHeading(input.title, input.standing, width_mm, shapes) + 3;
  const double bottom = top + kRow_mm * static_cast<double>(bars.size());
  out.width_mm = width_mm;
  out.height_mm = bottom + (bars.empty() ? 8 : 10);
  out.title = input.title;
  out.description = fmt::format("{} runs with chips; the worst first.", bars.size());
  out.shapes.push_back(rectangle({0, 0, out.width_mm, out.height_mm}, kWhite));
  append(out.shapes, std::move(shapes));
  if (bars.empty()) {
    out.shapes.push_back(text({1, top + 3}, "No chips travel in this state.", {}));
    return out;
  }

  double names = 0;
  double numbers = 0;
  double fastest = 0;
  const auto number_text = [&](const SpeedBar& bar) {
    return fmt::format("{:.0f} %", 100 * bar.speed_m_s / bar.need_m_s);
  };
  for (const SpeedBar& bar : bars) {
    names = std::max(names, textWidth(bar.run, kText_mm));
    numbers = std::max(numbers, textWidth(number_text(bar), kText_mm, true));
    fastest = std::max({fastest, bar.speed_m_s, bar.need_m_s, bar.high_m_s.value_or(0)});
  }
  names = std::min(names, width_mm * 0.34);
  const double verdicts = textWidth("more than needed", kText_mm);
  const Ticks ticks =
      niceTicks(0, base::inUnit(Kind::Speed, fastest, units), std::max(2, static_cast<int>(width_mm / 36)));
  const Box plot{1 + names + 2, top, width_mm - numbers - verdicts - 6, bottom};
  const auto x = [&](double m_s) {
    return plot.left + base::inUnit(Kind::Speed, m_s, units) / ticks.at.back() * plot.width();
  };
  for (const double tick : ticks.at) {
    const double at = plot.left + tick / ticks.at.back() * plot.width();
    out.shapes.push_back(line({at, plot.top - 0.5}, {at, plot.bottom}, stroke(kHair_mm, kPale)));
    out.shapes.push_back(
        text({at, plot.bottom + 3.2}, ticks.text(tick), {.size_mm = 2.2, .anchor = Anchor::Middle}));
  }
  out.shapes.push_back(text({plot.left, plot.bottom + 6.6},
                            fmt::format("slowest air in the run, {}; the post is what its chips need",
                                        base::unitName(Kind::Speed, units)),
                            {.size_mm = 2.2, .bold = true}));
  for (std::size_t k = 0; k < bars.size(); ++k) {
    const SpeedBar& bar = bars[k];
    const double y = plot.top + kRow_mm * (static_cast<double>(k) + 0.5);
    const double base_line = y + capHeight(kText_mm) / 2;
    const Grade grade = gradeOf(bar.speed_m_s / bar.need_m_s);
    const double end = x(std::max(bar.speed_m_s, 0.0));
    const std::string speeds = fmt::format("{}, needs {}", shortText(Kind::Speed, bar.speed_m_s, units),
                                           shortText(Kind::Speed, bar.need_m_s, units));
    Group group{"speed", {}, bar.run + ": " + speeds + (bar.chips.empty() ? "" : " for " + bar.chips), {}};
    group.shapes.push_back(text({1, base_line}, cutToWidth(bar.run, names, kText_mm), {}));
    group.shapes.push_back(rectangle({plot.left, y - kBar_mm / 2, end, y + kBar_mm / 2}, fillOf(grade)));
    append(group.shapes, gradePattern({plot.left, y}, {end, y}, kBar_mm, grade));
    group.shapes.push_back(
        rectangle({plot.left, y - kBar_mm / 2, end, y + kBar_mm / 2}, std::nullopt, stroke(kThin_mm)));
    if (bar.low_m_s && bar.high_m_s) {
      group.shapes.push_back(line({x(*bar.low_m_s), y}, {x(*bar.high_m_s), y}, stroke(kMiddle_mm)));
      for (const double edge : {x(*bar.low_m_s), x(*bar.high_m_s)}) {
        group.shapes.push_back(line({edge, y - 0.9}, {edge, y + 0.9}, stroke(kMiddle_mm)));
      }
    }
    const double need = x(bar.need_m_s);
    group.shapes.push_back(line({need, y - kRow_mm * 0.42}, {need, y + kRow_mm * 0.42}, stroke(1.3, kWhite)));
    group.shapes.push_back(line({need, y - kRow_mm * 0.42}, {need, y + kRow_mm * 0.42}, stroke(0.6)));
    group.shapes.push_back(
        text({plot.right + 2 + numbers, base_line}, number_text(bar), {.anchor = Anchor::End, .bold = true}));
    group.shapes.push_back(text({plot.right + 4 + numbers, base_line}, std::string(toText(grade)), {}));
    out.shapes.push_back({std::move(group)});
  }
  return out;
}

}  // namespace kerfdraft::drawing
