// Signs of what changed since a kept result. They differ by their form, never by colour alone.
#include "drawing/plan_parts.h"
#include "drawing/text_measure.h"

namespace kerfdraft::drawing {

std::vector<Shape> changeSign(At at, Turn turn) {
  if (turn != Turn::Better && turn != Turn::Worse) {
    return {};
  }
  const bool up = turn == Turn::Better;
  const double r = kChangeSign_mm;
  const double y = up ? -1 : 1;
  std::vector<Shape> out;
  // Better is outlined, worse is filled: trouble is dark, as everywhere in these drawings.
  out.push_back(circle(at, r, kWhite, stroke(kThin_mm)));
  out.push_back(
      polygon({at + At{0, 0.72 * r * y}, at + At{0.66 * r, -0.42 * r * y}, at + At{-0.66 * r, -0.42 * r * y}},
              up ? kWhite : kInk, stroke(kMiddle_mm)));
  return out;
}

Shape changeMark(At at, const Change& change, const std::string& element) {
  return {Group{"change", element, change.words, changeSign(at, change.turn)}};
}

std::vector<Shape> changeKey(const Box& area, const Overlay& overlay) {
  if (!overlay.compared) {
    return {};
  }
  Group group{"change-key", {}, {}, {}};
  double x = area.left;
  const double y = area.bottom - kChangeSign_mm;
  const auto say = [&](const std::string& words) {
    group.shapes.push_back(
        text({x, y + capHeight(kText_mm) / 2}, words, {.size_mm = kText_mm, .halo = true}));
    x += textWidth(words, kText_mm);
  };
  if (!overlay.comparison.empty()) {
    say("Against what was kept: " + overlay.comparison);
  } else {
    const auto sign = [&](Turn turn) {
      x += kChangeSign_mm;
      append(group.shapes, changeSign({x, y}, turn));
      x += kChangeSign_mm + 0.8;
    };
    sign(Turn::Better);
    say("better,  ");
    sign(Turn::Worse);
    say("worse than what was kept");
  }
  return {{std::move(group)}};
}

}  // namespace kerfdraft::drawing
