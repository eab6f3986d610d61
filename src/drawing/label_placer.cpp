// Greedy by rank over a fan of places round each anchor, then a few rounds in which every label may move to a
// better place. All costs are in millimetres of leader line.
#include "drawing/label_placer.h"

#include <numbers>
#include <numeric>
#include <tuple>

#include "drawing/shapes.h"
#include "drawing/text_measure.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kGap_mm = 0.35;         // between two labels
constexpr double kNoLeaderWithin = 1.6;  // a label so near needs no line
constexpr double kBarWidth_mm = 0.9;
constexpr double kBarGap_mm = 0.7;
constexpr double kLeaderOverLabel = 150;
constexpr double kLeadersCross = 12;
constexpr double kInsideBonus = 12;
constexpr int kRounds = 4;
constexpr int kQuickRounds = 1;
constexpr int kTurns = 16;
constexpr int kQuickTurns = 8;

struct Candidate {
  Box box;
  At anchor;
  double apart = 0;  // from anchor's clear rim to the box
  double cost = 0;   // before obstructions
};

Box boxAt(At corner, At size) {
  return {corner.x, corner.y, corner.x + size.x, corner.y + size.y};
}

/// Places round an anchor, the near ones first.
void addFan(std::vector<Candidate>& out, At anchor, At size, double clear, double reach, double base_cost,
            int turns) {
  constexpr double kSteps[] = {0, 1.2, 2.6, 4.5, 7, 10, 14, 19, 25, 32, 40, 50, 62, 76, 92, 110};
  for (const double step : kSteps) {
    if (step > reach) {
      break;
    }
    for (int turn = 0; turn < turns; ++turn) {
      const double angle = 2 * std::numbers::pi * turn / turns;
      const At direction{std::cos(angle), -std::sin(angle)};
      // The box slides out along the direction until it leaves the clear rim.
      const double r = clear + step;
      const At rim = anchor + direction * r;
      Candidate c;
      c.box = boxAt({rim.x - size.x * (1 - direction.x) / 2, rim.y - size.y * (1 - direction.y) / 2}, size);
      // A slanting direction leaves a corner or side of the box nearer than the rim.
      for (int k = 0; k < 3; ++k) {
        const double near = length(nearestIn(c.box, anchor) - anchor);
        if (near >= r - 1e-9) {
          break;
        }
        c.box = boxAt(At{c.box.left, c.box.top} + direction * (r - near + 0.05), size);
      }
      c.anchor = anchor;
      c.apart = step;
      // A reader looks to the right first, and above; level and upright leaders look tidy.
      const double taste = 0.25 * (1 - direction.x) + 0.15 * (1 + direction.y);
      c.cost = base_cost + step + taste;
      out.push_back(c);
    }
  }
}

class Placer {
 public:
  Placer(const std::vector<Label>& labels, const Box& paper, const std::vector<Box>& taken,
         const Obstructions& obstructions, PlaceEffort effort)
      : labels_(labels),
        paper_(paper),
        taken_(taken),
        obstructions_(obstructions),
        effort_(effort),
        at_(labels.size()),
        lies_(labels.size()) {}

  LabelPlaces run() {
    std::vector<std::size_t> order(labels_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return labels_[a].rank < labels_[b].rank; });
    for (const std::size_t k : order) {
      put(k, best(k));
    }
    for (int round = 0; round < (effort_ == PlaceEffort::Quick ? kQuickRounds : kRounds); ++round) {
      bool moved = false;
      for (const std::size_t k : order) {
        const std::optional<PlacedLabel> before = at_[k];
        put(k, std::nullopt);
        put(k, best(k));
        moved =
            moved || at_[k].has_value() != before.has_value() || (before && !(at_[k]->box == before->box));
      }
      if (!moved) {
        break;
      }
    }
    LabelPlaces out;
    for (std::size_t k = 0; k < labels_.size(); ++k) {
      if (at_[k]) {
        out.placed.push_back(*at_[k]);
      } else {
        out.left_out.push_back(k);
      }
    }
    return out;
  }

 private:
  /// Boxes lie beside each other in memory: they are looked at a million times.
  void put(std::size_t k, const std::optional<PlacedLabel>& place) {
    if (at_[k] && at_[k]->leader_from) {
      std::erase_if(leaders_, [k](const Line& line) { return line.label == k; });
    }
    lies_[k] = place ? place->box.grown(kGap_mm) : Box{};
    if (place && place->leader_from) {
      leaders_.push_back(
          {k, *place->leader_from, place->anchor, boundsOf(*place->leader_from, place->anchor)});
    }
    at_[k] = place;
  }

  struct Line {
    std::size_t label = 0;
    At from;
    At to;
    Box bounds;  ///< a hair larger, so that an upright line has one
  };

  static Box boundsOf(At a, At b) {
    Box box;
    box.add(a);
    box.add(b);
    constexpr double kHair = 1e-6;
    return box.grown(kHair);
  }

  bool isFree(const Box& box) const {
    if (!paper_.contains(box)) {
      return false;
    }
    for (const Box& taken : taken_) {
      if (overlap(taken, box)) {
        return false;
      }
    }
    return std::none_of(lies_.begin(), lies_.end(),
                        [&box](const Box& placed) { return overlap(placed, box); });
  }

  static std::optional<At> leaderOf(const Candidate& c, double clear) {
    const At from = nearestIn(c.box, c.anchor);
    return length(from - c.anchor) > clear + kNoLeaderWithin ? std::optional(from) : std::nullopt;
  }

  double disturbance(const Candidate& c, double clear) const {
    double cost = obstructions_.cost(c.box);
    const std::optional<At> leader = leaderOf(c, clear);
    if (leader) {
      cost += 1.5 + 0.25 * obstructions_.crossingCost(*leader, c.anchor);
    }
    if (leader) {
      const Box bounds = boundsOf(*leader, c.anchor);
      for (std::size_t k = 0; k < at_.size(); ++k) {
        if (overlap(lies_[k], bounds) && lengthInside(at_[k]->box, *leader, c.anchor) > 0) {
          cost += kLeaderOverLabel;
        }
      }
      for (const Line& other : leaders_) {
        if (overlap(other.bounds, bounds) && linesCross(*leader, c.anchor, other.from, other.to)) {
          cost += kLeadersCross;
        }
      }
    }
    for (const Line& other : leaders_) {
      if (overlap(other.bounds, c.box) && lengthInside(c.box, other.from, other.to) > 0) {
        cost += kLeaderOverLabel;
      }
    }
    return cost;
  }

  std::vector<Candidate> candidates(const Label& label, At size) const {
    std::vector<Candidate> out;
    if (label.inside && size.x <= label.inside->width() && size.y <= label.inside->height()) {
      // Over the box in steps, its middle being best.
      constexpr int kSteps = 6;
      const At room{label.inside->width() - size.x, label.inside->height() - size.y};
      for (int i = 0; i <= kSteps; ++i) {
        for (int j = 0; j <= kSteps; ++j) {
          Candidate c;
          c.box = boxAt({label.inside->left + room.x * i / kSteps, label.inside->top + room.y * j / kSteps},
                        size);
          c.anchor = c.box.centre();
          c.cost = 0.08 * length(c.anchor - label.inside->centre()) - kInsideBonus;
          out.push_back(c);
        }
      }
    }
    for (std::size_t a = 0; a < label.anchors.size(); ++a) {
      addFan(out, label.anchors[a], size, label.clear_mm, label.reach_mm, 0.15 * static_cast<double>(a),
             effort_ == PlaceEffort::Quick ? kQuickTurns : kTurns);
    }
    return out;
  }

  std::optional<PlacedLabel> cheapest(std::vector<Candidate> tried, double clear) const {
    // Equal costs go by place, so that the order is the same everywhere.
    std::sort(tried.begin(), tried.end(), [](const Candidate& a, const Candidate& b) {
      return std::tuple(a.cost, a.box.top, a.box.left, a.anchor.x, a.anchor.y) <
             std::tuple(b.cost, b.box.top, b.box.left, b.anchor.x, b.anchor.y);
    });
    std::optional<Candidate> found;
    double least = 0;
    for (const Candidate& c : tried) {
      if (found && c.cost >= least) {
        break;
      }
      if (!isFree(c.box)) {
        continue;
      }
      const double cost = c.cost + disturbance(c, clear);
      if (!found || cost < least) {
        found = c;
        least = cost;
      }
    }
    if (!found) {
      return std::nullopt;
    }
    return PlacedLabel{0, found->box, found->anchor, leaderOf(*found, clear), obstructions_.cost(found->box)};
  }

  std::optional<PlacedLabel> best(std::size_t k) const {
    const Label& label = labels_[k];
    const At size = sizeOf(label);
    std::optional<PlacedLabel> place = cheapest(candidates(label, size), label.clear_mm);
    if (!place && !label.may_be_left_out && !label.anchors.empty() && effort_ == PlaceEffort::Full) {
      place = cheapest(anywhere(label, size), label.clear_mm);
    }
    if (place) {
      place->label = k;
    }
    return place;
  }

  /// All over the paper, for a label that must be there.
  std::vector<Candidate> anywhere(const Label& label, At size) const {
    std::vector<Candidate> out;
    constexpr double kStep_mm = 2;
    for (double y = paper_.top; y + size.y <= paper_.bottom; y += kStep_mm) {
      for (double x = paper_.left; x + size.x <= paper_.right; x += kStep_mm) {
        Candidate c;
        c.box = boxAt({x, y}, size);
        c.anchor = label.anchors.front();
        c.cost = length(nearestIn(c.box, c.anchor) - c.anchor);
        out.push_back(c);
      }
    }
    return out;
  }

  const std::vector<Label>& labels_;
  Box paper_;
  const std::vector<Box>& taken_;
  const Obstructions& obstructions_;
  PlaceEffort effort_;
  std::vector<std::optional<PlacedLabel>> at_;
  std::vector<Line> leaders_;  ///< of at_
  std::vector<Box> lies_;      ///< of at_, with the gap around; empty where there is none
};

}  // namespace

At sizeOf(const Label& label) {
  double width = 0;
  for (const LabelLine& line : label.lines) {
    width = std::max(width, textWidth(line.text, label.size_mm, line.bold));
  }
  if (label.bar) {
    width += kBarWidth_mm + kBarGap_mm;
  }
  const auto lines = static_cast<double>(std::max<std::size_t>(label.lines.size(), 1));
  const double height =
      ascent(label.size_mm) + descent(label.size_mm) + (lines - 1) * lineHeight(label.size_mm);
  return {width + 2 * kLabelRim_mm, height + 2 * kLabelRim_mm};
}

void fitInside(Label& label) {
  if (!label.inside) {
    return;
  }
  const At size = sizeOf(label);
  const double room = label.inside->width() - 2 * kLabelRim_mm - (label.bar ? 1.6 : 0);
  constexpr double kLeast_mm = 9;
  if (size.x <= label.inside->width() || room < kLeast_mm) {
    return;
  }
  Label narrow = label;
  narrow.lines.clear();
  for (const LabelLine& whole : label.lines) {
    for (const std::string& words : balanced(whole.text, room, label.size_mm, whole.bold)) {
      narrow.lines.push_back({words, whole.bold, whole.faint});
    }
  }
  const At narrow_size = sizeOf(narrow);
  if (narrow_size.x <= label.inside->width() && narrow_size.y <= label.inside->height()) {
    label = std::move(narrow);
  }
}

LabelPlaces placeLabels(const std::vector<Label>& labels, const Box& paper, const std::vector<Box>& taken,
                        const Obstructions& obstructions, PlaceEffort effort) {
  return Placer(labels, paper, taken, obstructions, effort).run();
}

Shape drawLabel(const Label& label, const PlacedLabel& place) {
  Group group{label.kind, label.element, {}, {}};
  if (place.leader_from) {
    group.shapes.push_back(line(*place.leader_from, place.anchor, stroke(0.36, kWhite)));
    group.shapes.push_back(line(*place.leader_from, place.anchor, stroke(kHair_mm)));
    group.shapes.push_back(circle(place.anchor, 0.32, kInk));
  }
  const Box& box = place.box;
  if (label.on_plate) {
    group.shapes.push_back(rectangle(box, label.inverted ? kInk : kWhite, stroke(kHair_mm)));
  }
  double x = box.left + kLabelRim_mm;
  if (label.bar) {
    const Box bar{x, box.top + kLabelRim_mm, x + kBarWidth_mm, box.bottom - kLabelRim_mm};
    group.shapes.push_back(rectangle(bar, fillOf(*label.bar), stroke(kHair_mm)));
    x += kBarWidth_mm + kBarGap_mm;
  }
  double y = box.top + kLabelRim_mm + ascent(label.size_mm);
  for (const LabelLine& words : label.lines) {
    TextLook look{.size_mm = label.size_mm,
                  .bold = words.bold,
                  .colour = label.inverted ? kWhite
                            : words.faint  ? kFaint
                                           : kInk};
    look.anchor = label.on_plate ? Anchor::Middle : Anchor::Start;
    look.halo = !label.on_plate;
    group.shapes.push_back(text({label.on_plate ? box.centre().x : x, y}, words.text, look));
    y += lineHeight(label.size_mm);
  }
  return {std::move(group)};
}

}  // namespace kerfdraft::drawing
