// Lays out the sheet, lets each part draw its layer, and places the labels last.
#include "drawing/plan.h"

#include <fmt/format.h>

#include "drawing/plan_parts.h"
#include "drawing/sheet_layout.h"
#include "drawing/text_measure.h"
#include "drawing/units_text.h"

namespace kerfdraft::drawing {

std::string PlanDraft::bore(double m) const {
  return boreText(m, options.units);
}

namespace {

struct Extent {
  double left_m = 0;
  double bottom_m = 0;
  double width_m = 1;
  double height_m = 1;
};

Extent extentOf(const shop::Project& project, const std::vector<DuctLeg>& legs) {
  Box box;  // in metres, y up
  const auto add = [&](std::int64_t x_um, std::int64_t y_um, double round_m) {
    const At p{static_cast<double>(x_um) * 1e-6, static_cast<double>(y_um) * 1e-6};
    box.add(p + At{round_m, round_m});
    box.add(p - At{round_m, round_m});
  };
  constexpr double kWall_m = 0.10;
  for (const shop::Room& room : project.rooms) {
    for (const shop::PlanPoint& p : room.outline) {
      add(p.x_um, p.y_um, kWall_m);
    }
  }
  for (const shop::Machine& machine : project.machines) {
    add(machine.at.x_um, machine.at.y_um, std::hypot(machine.width.si(), machine.depth.si()) / 2);
    for (const shop::Port& port : machine.ports) {
      add(port.at.x_um, port.at.y_um, port.bore.si());
    }
  }
  for (const DuctLeg& leg : legs) {
    add(leg.from.x_um, leg.from.y_um, leg.bore_m);
    add(leg.to.x_um, leg.to.y_um, leg.bore_m);
  }
  for (const shop::Collector& collector : project.collectors) {
    add(collector.at.x_um, collector.at.y_um, 0.5);
  }
  if (box.empty()) {
    return {};
  }
  return {box.left, box.top, std::max(box.width(), 0.5), std::max(box.height(), 0.5)};
}

/// Overall width and depth of what is walled in, outside the walls.
void dimension(PlanDraft& draft) {
  Box box;
  shop::PlanPoint low{};
  shop::PlanPoint high{};
  bool first = true;
  for (const shop::Room& room : draft.project.rooms) {
    for (const shop::PlanPoint& p : room.outline) {
      low = first ? p : shop::PlanPoint{std::min(low.x_um, p.x_um), std::min(low.y_um, p.y_um)};
      high = first ? p : shop::PlanPoint{std::max(high.x_um, p.x_um), std::max(high.y_um, p.y_um)};
      first = false;
      box.add(draft.frame.at(p));
    }
  }
  if (first) {
    return;
  }
  Group group{"dimension", {}, {}, {}};
  const double off = 0.10 * draft.frame.mm_per_m + 4.5;
  const auto draw = [&](At a, At b, At out, double m, double turned) {
    const At from = a + out * off;
    const At to = b + out * off;
    group.shapes.push_back(line(from, to, stroke(kHair_mm)));
    const At d = unit(to - from);
    const At slash = (d + leftOf(d)) * 0.75;
    for (const At end : {from, to}) {
      group.shapes.push_back(line(end - out * 1.6, end + out * 1.0, stroke(kHair_mm)));
      group.shapes.push_back(line(end - slash, end + slash, stroke(kMiddle_mm)));
    }
    const At middle = between(from, to, 0.5) + (turned == 0 ? At{0, -0.9} : At{-0.9, 0});
    const std::string words = lengthText(m, draft.options.units);
    TextLook look{.size_mm = kText_mm, .anchor = Anchor::Middle};
    look.turned_rad = turned;
    look.halo = true;
    group.shapes.push_back(text(middle, words, look));
    Box taken;
    taken.add(from);
    taken.add(to);
    draft.taken.push_back(taken.grown(1.0));
    const double half = textWidth(words, kText_mm) / 2 + 0.6;
    const At spread = turned == 0 ? At{half, kText_mm} : At{kText_mm, half};
    draft.taken.push_back(
        {middle.x - spread.x, middle.y - spread.y, middle.x + spread.x, middle.y + spread.y});
  };
  draw({box.left, box.bottom}, {box.right, box.bottom}, {0, 1},
       static_cast<double>(high.x_um - low.x_um) * 1e-6, 0);
  draw({box.left, box.bottom}, {box.left, box.top}, {-1, 0}, static_cast<double>(high.y_um - low.y_um) * 1e-6,
       std::numbers::pi / 2);
  draft.floor.push_back({std::move(group)});
  append(draft.floor, originMark(draft.frame.at(shop::PlanPoint{})));
}

std::string describe(const shop::Project& project, const PlanOptions& options) {
  return fmt::format("Plan of {}: {} machine{}, {} duct{}, {} collector{}. {}", project.setting.name,
                     project.machines.size(), project.machines.size() == 1 ? "" : "s", project.ducts.size(),
                     project.ducts.size() == 1 ? "" : "s", project.collectors.size(),
                     project.collectors.size() == 1 ? "" : "s",
                     options.title.state.empty() ? std::string() : options.title.state + ".");
}

/// A plan on one sheet, drawn but not yet written down.
class Sheet {
 public:
  Sheet(const shop::Project& project, const pieces::Pieces& pieces, const Overlay& overlay,
        const PlanOptions& options, const Paper& paper)
      : Sheet(project, pieces, overlay, options, paper, ductLegs(project, overlay)) {}

  /// True where nearly every label found a place near what it names.
  bool roomy() const {
    constexpr double kFar_mm = 9;
    constexpr double kCovers = 14;  // its own machine's ground costs up to ten
    constexpr std::size_t kOneIn = 14;
    std::size_t far = places_.left_out.size();
    for (const PlacedLabel& place : places_.placed) {
      const Label& label = draft_.labels[place.label];
      const bool away =
          place.leader_from && length(*place.leader_from - place.anchor) > label.clear_mm + kFar_mm;
      if (away || place.covers > kCovers) {
        ++far;
      }
    }
    return far * kOneIn <= draft_.labels.size();
  }

  bool usualScale() const { return layout_.scale.ratio <= kSmallestUsualScale; }

  Picture picture() {
    const PlanOptions& options = draft_.options;
    Picture picture;
    picture.width_mm = layout_.paper.width_mm;
    picture.height_mm = layout_.paper.height_mm;
    picture.title = draft_.project.setting.name + ", plan";
    picture.description = describe(draft_.project, options);
    if (!options.window) {
      picture.shapes.push_back(rectangle({0, 0, picture.width_mm, picture.height_mm}, kWhite));
    }
    const auto layer = [&](const char* kind, std::vector<Shape> shapes) {
      if (!shapes.empty()) {
        picture.shapes.push_back({Group{kind, {}, {}, std::move(shapes)}});
      }
    };
    layer("floor", std::move(draft_.floor));
    layer("machines", std::move(draft_.machines));
    layer("ducts", std::move(draft_.ducts));
    layer("fittings", std::move(draft_.fittings));
    layer("changes", std::move(draft_.changes));
    std::vector<Shape> labels;
    labels.reserve(places_.placed.size());
    for (const PlacedLabel& place : places_.placed) {
      labels.push_back(drawLabel(draft_.labels[place.label], place));
    }
    layer("labels", std::move(labels));
    std::vector<Shape> around;
    if (options.legend && !options.window) {
      drawLegend(
          draft_,
          {layout_.legend.left + 3, layout_.legend.top + 3, layout_.legend.right - 3, layout_.legend.bottom},
          places_.left_out.size(), around);
    }
    if (options.window) {
      append(around, changeKey(keyBox(), draft_.overlay));
    }
    if (options.furniture && !options.window) {
      furniture(around);
    }
    layer("sheet", std::move(around));
    return picture;
  }

 private:
  Sheet(const shop::Project& project, const pieces::Pieces& pieces, const Overlay& overlay,
        const PlanOptions& options, const Paper& paper, std::vector<DuctLeg> legs)
      : layout_(options.window
                    ? layOutWindow(*options.window)
                    : layOutSheet(paper, extentOf(project, legs).width_m, extentOf(project, legs).height_m,
                                  options.furniture, options.legend, options.units)),
        draft_{project,
               pieces,
               overlay,
               options,
               options.window ? PlanFrame{options.window->mm_per_m, options.window->origin}
                              : frameFor(extentOf(project, legs), layout_),
               std::move(legs),
               {},
               {},
               {},
               {},
               {},
               {},
               Obstructions(layout_.drawing),
               {},
               {}} {
    drawRooms(draft_);
    if (options.furniture && !options.window) {
      dimension(draft_);
    }
    drawMachines(draft_);
    drawCollectors(draft_);
    drawDucts(draft_);
    drawDevices(draft_);
    labelRuns(draft_);
    if (options.window) {
      keepInside(draft_.labels, layout_.drawing);
    }
    Box words = layout_.drawing.grown(-1);
    if (options.window) {
      words.left += options.window->rim_mm;
      words.top += options.window->rim_mm;
    }
    places_ = placeLabels(draft_.labels, words, draft_.taken, draft_.keep_clear,
                          options.window ? PlaceEffort::Quick : PlaceEffort::Full);
  }

  static PlanFrame frameFor(const Extent& extent, const SheetLayout& layout) {
    PlanFrame frame;
    frame.mm_per_m = 1000 / layout.scale.ratio;
    const At middle = layout.drawing.centre();
    frame.origin = {middle.x - (extent.left_m + extent.width_m / 2) * frame.mm_per_m,
                    middle.y + (extent.bottom_m + extent.height_m / 2) * frame.mm_per_m};
    return frame;
  }

  /// Within the rim of a window.
  Box keyBox() const {
    Box box = layout_.drawing.grown(-2);
    box.left += draft_.options.window->rim_mm;
    return box;
  }

  void furniture(std::vector<Shape>& out) const {
    drawFurniture(layout_, draft_.options.title, layout_.scale.text, out);
    append(out, scaleBar({barLeft(layout_), layout_.legend.bottom - 9}, 42, draft_.frame.mm_per_m,
                         draft_.options.units));
    append(out, northMark({layout_.legend.right - 7, layout_.legend.bottom - 5}));
  }

  SheetLayout layout_;
  PlanDraft draft_;
  LabelPlaces places_;
};

}  // namespace

Picture drawPlan(const shop::Project& project, const pieces::Pieces& pieces, const Overlay& overlay,
                 const PlanOptions& options) {
  if (options.window) {
    return Sheet(project, pieces, overlay, options, {}).picture();
  }
  if (options.paper) {
    return Sheet(project, pieces, overlay, options, *options.paper).picture();
  }
  const std::vector<Paper> sizes = papers(options.units);
  for (std::size_t k = 0; k < sizes.size(); ++k) {
    Sheet sheet(project, pieces, overlay, options, sizes[k]);
    if (k + 1 == sizes.size() || (sheet.usualScale() && (k > 0 || sheet.roomy()))) {
      return sheet.picture();
    }
  }
  throw base::InternalError("no paper");
}

}  // namespace kerfdraft::drawing
