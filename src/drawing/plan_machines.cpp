// Machines as their footprints, their ports, and the collectors.
#include <fmt/format.h>

#include "drawing/plan_parts.h"
#include "drawing/text_measure.h"
#include "drawing/units_text.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kNameWidth_mm = 33;  // a longer name takes a second line

std::vector<At> footprint(const PlanDraft& draft, const shop::Machine& machine, double inset_mm = 0) {
  const double half_w = std::max(machine.width.si() / 2 * draft.frame.mm_per_m - inset_mm, 0.0);
  const double half_d = std::max(machine.depth.si() / 2 * draft.frame.mm_per_m - inset_mm, 0.0);
  const double c = std::cos(machine.turned.si());
  const double s = std::sin(machine.turned.si());
  const At middle = draft.frame.at(machine.at);
  std::vector<At> out;
  for (const auto& [x, y] :
       {std::pair{-half_w, -half_d}, {half_w, -half_d}, {half_w, half_d}, {-half_w, half_d}}) {
    out.push_back(middle + At{x * c - y * s, -(x * s + y * c)});
  }
  return out;
}

void addNameLines(std::vector<LabelLine>& lines, const std::string& label, const std::string& name) {
  const std::string whole = name.empty() ? label : label + ' ' + name;
  for (const std::string& words : balanced(whole, kNameWidth_mm, kText_mm, true)) {
    lines.push_back({words, true, false});
  }
}

/// The last line of a label, and the sign where the change is for better or worse.
void addChange(PlanDraft& draft, Label& label, const Change& change, At at, const std::string& element) {
  if (change.turn == Turn::Same) {
    return;
  }
  label.lines.push_back({change.words, false, false});
  if (change.turn == Turn::Better || change.turn == Turn::Worse) {
    draft.changes.push_back(changeMark(at, change, element));
    draft.keep_clear.addBox(Box{at.x, at.y, at.x, at.y}.grown(kChangeSign_mm), 2.5);
    draft.signs.insert(change.turn == Turn::Better ? Sign::Better : Sign::Worse);
  }
}

void drawPort(PlanDraft& draft, const shop::Machine& machine, const shop::Port& port) {
  const At at = draft.frame.at(port.at);
  const double width = port.bore.si() * draft.frame.mm_per_m;
  const auto mark = draft.overlay.ports.find(port.id);
  Group group{"port",
              port.id.text(),
              fmt::format("{} {} {}, {} at {} above the floor", machine.label, port.label, port.name,
                          draft.bore(port.bore.si()),
                          lengthText(static_cast<double>(port.at.z_um) * 1e-6, draft.options.units)),
              {}};
  if (mark != draft.overlay.ports.end() && !mark->second.tooltip.empty()) {
    group.title += ": " + mark->second.tooltip;
  }
  append(group.shapes, portSign(at, width));
  draft.keep_clear.addBox(Box{at.x, at.y, at.x, at.y}.grown(width / 2 + 0.4), 2.5);
  draft.fittings.push_back({std::move(group)});
  draft.signs.insert(Sign::Port);
  if (machine.ports.size() > 1) {
    Label label{"port-label", port.id.text(), {{port.label, true, false}}, kSmall_mm, {at}};
    if (mark != draft.overlay.ports.end()) {
      for (const std::string& words : mark->second.lines) {
        label.lines.push_back({words, false, false});
      }
      addChange(draft, label, mark->second.change, at + At{width / 2, -width / 2}, port.id.text());
    }
    label.clear_mm = width / 2 + 0.6;
    label.rank = kRankPort;
    label.reach_mm = 40;
    draft.labels.push_back(std::move(label));
  }
}

}  // namespace

void drawMachines(PlanDraft& draft) {
  for (const shop::Machine& machine : draft.project.machines) {
    const auto mark = draft.overlay.machines.find(machine.id);
    const bool judged = mark != draft.overlay.machines.end();
    Group group{"machine",
                machine.id.text(),
                fmt::format("{} {}, {} x {}, {} high", machine.label, machine.name,
                            lengthText(machine.width.si(), draft.options.units),
                            lengthText(machine.depth.si(), draft.options.units),
                            lengthText(machine.height.si(), draft.options.units)),
                {}};
    if (judged && !mark->second.tooltip.empty()) {
      group.title += ": " + mark->second.tooltip;
    }
    const std::vector<At> outline = footprint(draft, machine);
    const bool still =
        !judged || mark->second.grade == Grade::Still || mark->second.grade == Grade::NotJudged;
    group.shapes.push_back(polygon(outline, kBody, stroke(kMiddle_mm)));
    if (!still) {
      // A band inside the rim in the colour of the grade leaves the text on plain ground.
      const double band = 1.0;
      group.shapes.push_back(polygon(footprint(draft, machine, kMiddle_mm / 2 + band / 2), std::nullopt,
                                     stroke(band, fillOf(mark->second.grade))));
      group.shapes.push_back(
          polygon(footprint(draft, machine, kMiddle_mm / 2 + band), std::nullopt, stroke(kHair_mm)));
    }
    Box box;
    for (std::size_t k = 0; k < outline.size(); ++k) {
      draft.keep_clear.addLine(outline[k], outline[(k + 1) % outline.size()], 0.3, 0.9);
      box.add(outline[k]);
    }
    draft.keep_clear.addBox(box, 0.04);
    draft.machines.push_back({std::move(group)});

    Label label{"machine-label", machine.id.text(), {}, kText_mm, {}};
    addNameLines(label.lines, machine.label, machine.name);
    if (judged) {
      for (const std::string& words : mark->second.lines) {
        label.lines.push_back({words, false, still});
      }
      if (!still) {
        label.bar = mark->second.grade;
      }
      // On the rim at its upper right, where the name inside stays free.
      addChange(draft, label, mark->second.change, {box.right, box.top}, machine.id.text());
    }
    // The largest upright box in a turned footprint is not worth its search: its middle third is taken.
    const bool turned = std::abs(std::sin(2 * machine.turned.si())) > 1e-6;
    label.inside = turned ? box.grown(-std::min(box.width(), box.height()) * 0.3) : box.grown(-1.5);
    const At middle = box.centre();
    label.anchors = {middle};
    for (std::size_t k = 0; k < outline.size(); ++k) {
      label.anchors.push_back(
          between(between(outline[k], outline[(k + 1) % outline.size()], 0.5), middle, 0.12));
    }
    label.rank = kRankMachine;
    fitInside(label);
    draft.labels.push_back(std::move(label));
    for (const shop::Port& port : machine.ports) {
      drawPort(draft, machine, port);
    }
  }
}

void drawCollectors(PlanDraft& draft) {
  for (const shop::Collector& collector : draft.project.collectors) {
    const At inlet = draft.frame.at(collector.at);
    const double radius =
        std::max({0.24 * draft.frame.mm_per_m, collector.inlet_bore.si() * 1.4 * draft.frame.mm_per_m, 3.2});
    // The body lies behind the inlet, on the far side of the duct that arrives.
    At centre = inlet;
    for (const DuctLeg& leg : draft.legs) {
      const auto* end = std::get_if<shop::CollectorInlet>(&leg.duct->to);
      if (end != nullptr && end->collector == collector.id && leg.corner + 2 == leg.duct->corners.size() &&
          leg.last_part) {
        const At arrives = draft.frame.at(leg.to) - draft.frame.at(leg.from);
        if (length(arrives) > 0.5) {
          centre = inlet + unit(arrives) * radius;
        }
      }
    }
    const auto mark = draft.overlay.fans.find(collector.id);
    const bool running = mark == draft.overlay.fans.end() || mark->second.running;
    Group group{"collector", collector.id.text(), fmt::format("{} {}", collector.label, collector.name), {}};
    append(group.shapes, collectorSign(centre, radius, running));
    draft.machines.push_back({std::move(group)});
    draft.signs.insert(Sign::Collector);
    draft.keep_clear.addBox(Box{centre.x, centre.y, centre.x, centre.y}.grown(radius), 0.6);

    Label label{"collector-label", collector.id.text(), {}, kText_mm, {centre}};
    addNameLines(label.lines, collector.label, collector.name);
    if (!running) {
      label.lines.push_back({"standing", false, false});
    }
    if (mark != draft.overlay.fans.end()) {
      for (const std::string& words : mark->second.lines) {
        label.lines.push_back({words, false, false});
      }
      addChange(draft, label, mark->second.change, centre, collector.id.text());
    }
    label.clear_mm = radius + 0.8;
    label.rank = kRankCollector;
    draft.labels.push_back(std::move(label));
  }
}

}  // namespace kerfdraft::drawing
