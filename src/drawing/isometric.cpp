// Everything is cut into short parts and drawn from the back to the front, so that what hangs in front covers
// what hangs behind it.
#include "drawing/isometric.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numbers>

#include "drawing/isometric_view.h"
#include "drawing/label_placer.h"
#include "drawing/legend.h"
#include "drawing/plan_parts.h"
#include "drawing/shapes.h"
#include "drawing/sheet_layout.h"
#include "drawing/units_text.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kPart_m = 0.35;  // ducts are cut so for sorting
constexpr double kLeastWidth_mm = 0.9;
constexpr double kBehind = 1e6;
constexpr Colour kShade{0xe6, 0xe2, 0xd9};

struct Item {
  double near = 0;
  Shape shape;
};

class Sketch {
 public:
  Sketch(const shop::Project& project, const Overlay& overlay, const IsometricOptions& options,
         const Paper& paper)
      : project_(project), overlay_(overlay), options_(options), legs_(ductLegs(project, overlay)) {
    const Box flat = flatBounds(project, legs_, options.turned_rad);
    layout_ = options.window ? layOutWindow(*options.window)
                             : layOutSheet(paper, std::max(flat.width(), 0.5), std::max(flat.height(), 0.5),
                                           options.furniture, options.legend, options.units);
    view_.turned_rad = options.turned_rad;
    view_.mm_per_m = options.window ? options.window->mm_per_m : 1000 / layout_.scale.ratio;
    view_.origin =
        options.window ? options.window->origin : layout_.drawing.centre() - flat.centre() * view_.mm_per_m;
    keep_clear_.emplace(layout_.drawing);
    floors();
    machines();
    ducts();
    collectors();
    devices();
    if (options.graded) {
      runChanges();
    }
    if (options.lengths) {
      lengths();
      heights();
    }
    if (options.window) {
      keepInside(labels_, layout_.drawing);
    }
    std::stable_sort(items_.begin(), items_.end(),
                     [](const Item& a, const Item& b) { return a.near < b.near; });
    places_ = placeLabels(labels_, layout_.drawing.grown(-1), {}, *keep_clear_,
                          options_.window ? PlaceEffort::Quick : PlaceEffort::Full);
  }

  bool usualScale() const { return layout_.scale.ratio <= kSmallestUsualScale; }

  bool roomy() const {
    constexpr double kFar_mm = 9;
    constexpr std::size_t kOneIn = 10;
    std::size_t far = places_.left_out.size();
    for (const PlacedLabel& place : places_.placed) {
      if (place.leader_from &&
          length(*place.leader_from - place.anchor) > labels_[place.label].clear_mm + kFar_mm) {
        ++far;
      }
    }
    return far * kOneIn <= labels_.size();
  }

  Picture picture() {
    Picture out;
    out.width_mm = layout_.paper.width_mm;
    out.height_mm = layout_.paper.height_mm;
    out.title = project_.setting.name + ", isometric sketch";
    out.description =
        "The ducts in space, seen from the south-east and above, with lengths between corners, heights "
        "above the floor, gates and taps with their distances.";
    if (!options_.window) {
      out.shapes.push_back(rectangle({0, 0, out.width_mm, out.height_mm}, kWhite));
    }
    out.shapes.push_back({Group{"floor", {}, {}, std::move(floor_)}});
    std::vector<Shape> bodies;
    bodies.reserve(items_.size());
    for (Item& item : items_) {
      bodies.push_back(std::move(item.shape));
    }
    out.shapes.push_back({Group{"ducts", {}, {}, std::move(bodies)}});
    out.shapes.push_back({Group{"fittings", {}, {}, std::move(devices_)}});
    if (!changes_.empty()) {
      out.shapes.push_back({Group{"changes", {}, {}, std::move(changes_)}});
    }
    std::vector<Shape> labels;
    labels.reserve(places_.placed.size());
    for (const PlacedLabel& place : places_.placed) {
      labels.push_back(drawLabel(labels_[place.label], place));
    }
    out.shapes.push_back({Group{"labels", {}, {}, std::move(labels)}});
    std::vector<Shape> around;
    if (options_.window && options_.graded) {
      append(around, changeKey(layout_.drawing.grown(-2), overlay_));
    }
    if (options_.legend && !options_.window) {
      legend(around);
    }
    if (options_.furniture && !options_.window) {
      drawFurniture(layout_, options_.title, layout_.scale.text + ", along the three axes", around);
      append(around,
             scaleBar({barLeft(layout_), layout_.legend.bottom - 9}, 42, view_.mm_per_m, options_.units));
    }
    out.shapes.push_back({Group{"sheet", {}, {}, std::move(around)}});
    return out;
  }

 private:
  std::string metres(double m) const { return lengthText(m, options_.units); }

  void floors() {
    for (const shop::Room& room : project_.rooms) {
      std::vector<At> outline;
      outline.reserve(room.outline.size());
      for (const shop::PlanPoint& p : room.outline) {
        outline.push_back(view_.at(spotOf({p.x_um, p.y_um, 0})));
      }
      floor_.push_back(polygon(outline, Colour{0xfa, 0xfa, 0xf8}, stroke(kMiddle_mm, kFaint)));
      // The corners of the ceiling, as far as they say how high the room is.
      for (const shop::PlanPoint& p : room.outline) {
        const Spot low = spotOf({p.x_um, p.y_um, 0});
        Spot high = low;
        high.z = room.height.si();
        floor_.push_back(line(view_.at(low), view_.at(high), stroke(kHair_mm, kPale, {0.8, 0.8})));
      }
      for (const shop::Obstacle& obstacle : room.obstacles) {
        block(obstacle.outline, obstacle.bottom.si(), obstacle.top.si(), obstacle.id, obstacle.label, kWhite,
              kWhite);
      }
    }
    // Where north lies on the floor.
    axes();
  }

  void axes() {
    const Box flat = flatBounds(project_, legs_, options_.turned_rad);
    const At foot{view_.origin.x + (flat.left + 0.1) * view_.mm_per_m,
                  std::min(view_.origin.y + flat.bottom * view_.mm_per_m, layout_.drawing.bottom - 6)};
    const double l = 9;
    struct Axis {
      Spot to;
      const char* name;
    };
    const View turned{1, {0, 0}, options_.turned_rad};
    for (const Axis& axis : {Axis{{0, l, 0}, "N"}, Axis{{l, 0, 0}, "E"}, Axis{{0, 0, l}, "up"}}) {
      const At to = turned.at(axis.to);
      floor_.push_back(line(foot, foot + to, stroke(kThin_mm)));
      floor_.push_back(
          text(foot + to * 1.14 + At{0, 0.8}, axis.name, {.size_mm = kSmall_mm, .anchor = Anchor::Middle}));
    }
    keep_clear_->addBox({foot.x - 1, foot.y - l - 3, foot.x + l + 2, foot.y + l / 2 + 2}, 2);
  }

  void block(const std::vector<shop::PlanPoint>& outline, double bottom, double top, base::Id id,
             const std::string& title, Colour lid, Colour side) {
    Group group{"machine", id.text(), title, blockFaces(view_, outline, bottom, top, lid, side)};
    Spot middle = middleOf(outline);
    middle.z = (bottom + top) / 2;
    // Bodies stand behind all ducts, whatever is true: what is to be hung must be seen.
    items_.push_back({view_.nearness(middle) - kBehind, {std::move(group)}});
  }

  void machines() {
    for (const shop::Machine& machine : project_.machines) {
      const double c = std::cos(machine.turned.si());
      const double s = std::sin(machine.turned.si());
      std::vector<shop::PlanPoint> outline;
      for (const auto& [sx, sy] : {std::pair{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}}) {
        const double x = sx * machine.width.si();
        const double y = sy * machine.depth.si();
        outline.push_back({machine.at.x_um + std::llround((x * c - y * s) * 1e6),
                           machine.at.y_um + std::llround((x * s + y * c) * 1e6)});
      }
      const Spot foot = spotOf(machine.at);
      block(outline, foot.z, foot.z + machine.height.si(), machine.id, machine.label + " " + machine.name,
            kBody, kShade);
      Label label{"machine-label", machine.id.text(), {{machine.label, true, false}}, kText_mm, {}};
      Spot top = foot;
      top.z += machine.height.si();
      Spot front = foot;
      front.z += machine.height.si() / 2;
      label.anchors = {view_.at(top), view_.at(front)};
      label.clear_mm = 0;
      label.rank = 0;
      if (const auto mark = overlay_.machines.find(machine.id);
          options_.graded && mark != overlay_.machines.end()) {
        addChange(label, mark->second.change, view_.at(top), machine.id.text());
      }
      labels_.push_back(std::move(label));
    }
  }

  /// Only where colours show the air: a sketch to build by has no results in it.
  void addChange(Label& label, const Change& change, At at, const std::string& element) {
    if (change.turn != Turn::Same) {
      label.lines.push_back({change.words, false, false});
      if (change.turn == Turn::Better || change.turn == Turn::Worse) {
        changes_.push_back(changeMark(at, change, element));
      }
    }
  }

  /// Beside the slowest piece of each run.
  void runChanges() {
    for (const auto& [key, mark] : overlay_.runs) {
      const auto leg =
          std::find_if(legs_.begin(), legs_.end(),
                       [&slowest = mark.slowest](const DuctLeg& each) { return each.key == slowest; });
      if (leg == legs_.end() || mark.change.turn == Turn::Same) {
        continue;
      }
      const At at = view_.at(mix(spotOf(leg->from), spotOf(leg->to), 0.5));
      Label label{"run-label", key.text(), {}, kSmall_mm, {at}};
      addChange(label, mark.change, at, leg->key.text());
      label.clear_mm = widthOf(*leg) / 2 + kChangeSign_mm;
      label.rank = 3;
      label.may_be_left_out = true;
      labels_.push_back(std::move(label));
    }
  }

  Grade gradeOfLeg(const DuctLeg& leg) const {
    const auto mark = overlay_.pieces.find(leg.key);
    return !options_.graded                ? Grade::NotJudged
           : mark == overlay_.pieces.end() ? Grade::Still
                                           : mark->second.grade;
  }

  double widthOf(const DuctLeg& leg) const { return std::max(leg.bore_m * view_.mm_per_m, kLeastWidth_mm); }

  void ducts() {
    for (std::size_t k = 0; k < legs_.size(); ++k) {
      const DuctLeg& leg = legs_[k];
      const Spot a = spotOf(leg.from);
      const Spot b = spotOf(leg.to);
      const double width = widthOf(leg);
      const Grade grade = gradeOfLeg(leg);
      const Colour fill = options_.graded ? fillOf(grade) : leg.hose != nullptr ? kWhite : kMetal;
      keep_clear_->addLine(view_.at(a), view_.at(b), width, 2.0);
      const double l = apart(a, b);
      const int count = std::max(1, static_cast<int>(std::ceil(l / kPart_m)));
      // Knees: a ball a little behind the tubes that meet in it.
      for (const Spot& knee : {a, b}) {
        Group ball{"duct", {}, {}, {}};
        ball.shapes.push_back(circle(view_.at(knee), width / 2, fill, stroke(2 * kThin_mm)));
        items_.push_back({view_.nearness(knee) - 0.02, {std::move(ball)}});
      }
      for (int part = 0; part < count; ++part) {
        const Spot from = mix(a, b, static_cast<double>(part) / count);
        const Spot to = mix(a, b, static_cast<double>(part + 1) / count);
        tube(leg, from, to, width, fill, grade, part > 0 && part + 1 < count);
      }
    }
  }

  void tube(const DuctLeg& leg, const Spot& from, const Spot& to, double width, Colour fill, Grade grade,
            bool inner) {
    const At a = view_.at(from);
    const At b = view_.at(to);
    const At d = unit(b - a);
    const At n = leftOf(d) * (width / 2);
    Group group{leg.hose != nullptr ? "hose" : "duct",
                leg.key.text(),
                fmt::format("{}: {}, {}, {}", leg.duct->label, leg.hose != nullptr ? "hose" : "duct",
                            boreText(leg.bore_m, options_.units), metres(leg.drawnLength())),
                {}};
    if (inner) {
      // A gap in what lies behind shows which duct is in front.
      group.shapes.push_back(line(a, b, stroke(width + 1.3, kWhite)));
    }
    const At over = d * 0.06;
    group.shapes.push_back(line(a - over, b + over, stroke(width, fill)));
    if (options_.graded) {
      append(group.shapes, gradePattern(a, b, width, grade));
    }
    group.shapes.push_back(line(a - over + n, b + over + n, stroke(kThin_mm)));
    group.shapes.push_back(line(a - over - n, b + over - n, stroke(kThin_mm)));
    if (leg.hose != nullptr) {
      append(group.shapes, hoseRibs(a, b, width, grade));
    }
    items_.push_back({view_.nearness(mix(from, to, 0.5)), {std::move(group)}});
  }

  void collectors() {
    for (const shop::Collector& collector : project_.collectors) {
      const Spot inlet = spotOf(collector.at);
      Spot foot = inlet;
      foot.z = 0;
      const double radius =
          std::max({0.24 * view_.mm_per_m, collector.inlet_bore.si() * 1.4 * view_.mm_per_m, 3.2});
      Group group{"collector", collector.id.text(), collector.label + " " + collector.name, {}};
      group.shapes.push_back(line(view_.at(foot), view_.at(inlet), stroke(kThin_mm, kFaint, {1.2, 0.9})));
      append(group.shapes, collectorSign(view_.at(inlet), radius, true));
      items_.push_back({view_.nearness(inlet) + 0.3, {std::move(group)}});
      keep_clear_->addBox(
          Box{view_.at(inlet).x, view_.at(inlet).y, view_.at(inlet).x, view_.at(inlet).y}.grown(radius), 1);
      Label label{"collector-label",
                  collector.id.text(),
                  {{collector.label, true, false}},
                  kText_mm,
                  {view_.at(inlet)}};
      if (!collector.name.empty()) {
        label.lines.push_back({collector.name, false, false});
      }
      if (const auto mark = overlay_.fans.find(collector.id);
          options_.graded && mark != overlay_.fans.end()) {
        addChange(label, mark->second.change, view_.at(inlet), collector.id.text());
      }
      label.clear_mm = radius + 0.8;
      label.rank = 0;
      labels_.push_back(std::move(label));
    }
  }

  struct OnLeg {
    At at;
    At along;
    double width = 0;
  };

  std::optional<OnLeg> place(const shop::Duct& duct, base::Id corner, double distance_m) const {
    for (const DuctLeg& leg : legs_) {
      if (leg.duct != &duct || duct.corners[leg.corner].id != corner ||
          (distance_m > leg.start_m + leg.drawnLength() && !leg.last_part)) {
        continue;
      }
      const double m = leg.drawnLength();
      const Spot a = spotOf(leg.from);
      const Spot b = spotOf(leg.to);
      const double share = m > 0 ? std::clamp((distance_m - leg.start_m) / m, 0.0, 1.0) : 0;
      const At along = view_.at(b) - view_.at(a);
      return OnLeg{view_.at(mix(a, b, share)), length(along) > 0 ? unit(along) : At{1, 0}, widthOf(leg)};
    }
    return std::nullopt;
  }

  void devices() {
    for (const shop::Duct& duct : project_.ducts) {
      for (const shop::Gate& gate : duct.gates) {
        if (const auto on = place(duct, gate.corner, gate.distance.si())) {
          Group group{"gate", gate.id.text(), "gate " + gate.label, {}};
          append(group.shapes, gateSign(on->at, on->along, on->width, 1));
          device(std::move(group), gate.id, gate.label, gate.distance.si(), *on, "gate-label", 1);
          signs_.insert(Sign::GateOpen);
        }
      }
      const auto access = [&](const shop::Access& where, bool tap) {
        if (const auto on = place(duct, where.corner, where.distance.si())) {
          // On the upper side on paper, where it is seen.
          const At up = leftOf(on->along).y <= 0 ? leftOf(on->along) : leftOf(on->along) * -1;
          const At edge = on->at + up * (on->width / 2);
          Group group{tap ? "tap" : "cleanout", where.id.text(), where.label, {}};
          append(group.shapes, tap ? tapSign(edge, up) : cleanoutSign(edge, up));
          device(std::move(group), where.id, where.label, where.distance.si(), *on,
                 tap ? "tap-label" : "cleanout-label", 2);
          signs_.insert(tap ? Sign::Tap : Sign::Cleanout);
        }
      };
      for (const shop::Access& tap : duct.taps) {
        access(tap, true);
      }
      for (const shop::Access& cleanout : duct.cleanouts) {
        access(cleanout, false);
      }
    }
  }

  void device(Group group, base::Id id, const std::string& label_text, double distance_m, const OnLeg& on,
              const char* kind, int rank) {
    for (const Shape& shape : group.shapes) {
      keep_clear_->addBox(boundsOf(shape), 1.2);
    }
    devices_.push_back({std::move(group)});
    Label label{
        kind, id.text(), {{label_text, true, false}, {metres(distance_m), false, false}}, kSmall_mm, {on.at}};
    label.clear_mm = on.width / 2 + 1.5;
    label.rank = rank;
    labels_.push_back(std::move(label));
  }

  void lengths() {
    for (const shop::Duct& duct : project_.ducts) {
      double run_bore = 0;
      for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
        // Parts between gates are one length to cut.
        const DuctLeg* first = nullptr;
        const DuctLeg* last = nullptr;
        for (const DuctLeg& leg : legs_) {
          if (leg.duct == &duct && leg.corner == k) {
            first = first == nullptr ? &leg : first;
            last = &leg;
          }
        }
        if (first == nullptr) {
          continue;
        }
        const Spot a = spotOf(first->from);
        const Spot b = spotOf(last->to);
        const double drawn = apart(a, b);
        constexpr double kWorthSaying_m = 0.05;
        if (drawn < kWorthSaying_m) {
          continue;
        }
        double said = drawn;
        if (first->hose != nullptr && first->hose->length) {
          said = -1;  // the hose's own length is said once, below
        }
        Label label{"length-label", first->key.text(), {}, kSmall_mm, {}};
        if (said >= 0) {
          label.lines.push_back({(first->hose != nullptr ? "hose " : "") + metres(said), false, false});
        } else if (first->given != nullptr) {
          label.lines.push_back({"hose " + metres(first->hose->length->si()), false, false});
        }
        if (label.lines.empty()) {
          continue;
        }
        if (first->bore_m != run_bore) {
          label.lines.push_back({boreText(first->bore_m, options_.units), true, false});
          run_bore = first->bore_m;
        }
        label.anchors = {view_.at(mix(a, b, 0.5)), view_.at(mix(a, b, 0.3)), view_.at(mix(a, b, 0.7))};
        label.clear_mm = widthOf(*first) / 2 + 0.5;
        label.rank = 3;
        label.may_be_left_out = drawn < 0.25;
        labels_.push_back(std::move(label));
      }
    }
  }

  /// Heights of ports, and of each duct at its ends and where it begins to run level, each once.
  void heights() {
    std::map<std::pair<long, long>, bool> said;
    const auto say = [&](const Spot& p, double width) {
      const At at = view_.at(p);
      if (!said.emplace(std::pair{std::lround(at.x * 2), std::lround(at.y * 2)}, true).second) {
        return;
      }
      Label label{"height-label", {}, {{"+" + metres(p.z), false, true}}, kSmall_mm, {at}};
      label.clear_mm = width / 2 + 0.7;
      label.rank = 4;
      label.may_be_left_out = true;
      label.reach_mm = 14;
      labels_.push_back(std::move(label));
    };
    for (const shop::Duct& duct : project_.ducts) {
      double level = -1e9;
      for (const DuctLeg& leg : legs_) {
        if (leg.duct != &duct) {
          continue;
        }
        if (leg.corner == 0 && leg.first_part) {
          say(spotOf(leg.from), widthOf(leg));
        }
        const bool level_leg = leg.from.z_um == leg.to.z_um;
        const double z = spotOf(leg.from).z;
        if (level_leg && std::abs(z - level) > 0.01 && !(leg.corner == 0)) {
          say(spotOf(leg.from), widthOf(leg));
          level = z;
        }
        if (leg.corner + 2 == duct.corners.size() && leg.last_part &&
            std::holds_alternative<shop::CollectorInlet>(duct.to)) {
          say(spotOf(leg.to), widthOf(leg));
        }
      }
    }
  }

  void legend(std::vector<Shape>& out) {
    std::vector<LegendRow> rows;
    rows.push_back(legendHeading("Lengths and heights"));
    LegendRow pipe;
    pipe.sample = {line({0, 0}, {kLegendSample_mm, 0}, stroke(1.9 + 2 * kThin_mm)),
                   line({0, 0}, {kLegendSample_mm, 0}, stroke(1.9, kMetal))};
    pipe.words = "duct, with its bore where it changes";
    rows.push_back(std::move(pipe));
    rows.push_back(signRow(Sign::Hose));
    LegendRow height;
    height.sample = {text({1, 0.8}, "+" + metres(options_.units == base::UnitSystem::Us ? 2.4384 : 2.4),
                          {.size_mm = kSmall_mm, .colour = kFaint})};
    height.words = "middle above the floor";
    rows.push_back(std::move(height));
    for (const Sign sign : signs_) {
      rows.push_back(signRow(sign));
      if (sign == Sign::GateOpen) {
        rows.back().words = "gate";
      }
    }
    std::vector<std::string> notes{
        "Lengths are from corner to corner along the middle of the duct, without allowance for fittings. A "
        "gate, tap "
        "or cleanout stands so far from the corner before it, in the way of the air."};
    if (!places_.left_out.empty()) {
      notes.push_back(fmt::format("{} small label{} left out for want of room.", places_.left_out.size(),
                                  places_.left_out.size() == 1 ? " is" : "s are"));
    }
    drawLegendRows(
        std::move(rows), notes,
        {layout_.legend.left + 3, layout_.legend.top + 3, layout_.legend.right - 3, layout_.legend.bottom},
        out);
  }

  const shop::Project& project_;
  const Overlay& overlay_;
  const IsometricOptions& options_;
  std::vector<DuctLeg> legs_;
  SheetLayout layout_;
  View view_;
  std::optional<Obstructions> keep_clear_;
  std::vector<Shape> floor_;
  std::vector<Item> items_;
  std::vector<Shape> devices_;
  std::vector<Shape> changes_;
  std::vector<Label> labels_;
  std::set<Sign> signs_;
  LabelPlaces places_;
};

}  // namespace

Picture drawIsometric(const shop::Project& project, const Overlay& overlay, const IsometricOptions& options) {
  if (options.window) {
    return Sketch(project, overlay, options, {}).picture();
  }
  if (options.paper) {
    return Sketch(project, overlay, options, *options.paper).picture();
  }
  const std::vector<Paper> sizes = papers(options.units);
  for (std::size_t k = 0; k < sizes.size(); ++k) {
    Sketch sketch(project, overlay, options, sizes[k]);
    if (k + 1 == sizes.size() || (sketch.usualScale() && (k > 0 || sketch.roomy()))) {
      return sketch.picture();
    }
  }
  throw base::InternalError("no paper");
}

}  // namespace kerfdraft::drawing
