// Ducts true to width, the low ones first, so that what hangs higher covers what hangs below it.
#include <fmt/format.h>

#include "drawing/plan_parts.h"
#include "drawing/units_text.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kSameLevel_m = 0.03;
constexpr double kUpright_mm = 0.35;  // a leg that covers less of the paper stands upright
constexpr double kLeastWidth_mm = 0.9;

double metres(std::int64_t um) {
  return static_cast<double>(um) * 1e-6;
}

struct PlanLeg {
  const DuctLeg* leg = nullptr;
  At from;
  At to;
  double width = 0;
  double top_m = 0;
  bool upright = false;
  const PieceMark* mark = nullptr;

  Grade grade() const { return mark != nullptr ? mark->grade : Grade::NotJudged; }
  Colour rim() const { return grade() == Grade::Still ? kFaint : kInk; }
};

std::vector<PlanLeg> planLegs(const PlanDraft& draft) {
  std::vector<PlanLeg> out;
  for (const DuctLeg& leg : draft.legs) {
    PlanLeg p;
    p.leg = &leg;
    p.from = draft.frame.at(leg.from);
    p.to = draft.frame.at(leg.to);
    p.width = std::max(leg.bore_m * draft.frame.mm_per_m, kLeastWidth_mm);
    p.top_m = metres(std::max(leg.from.z_um, leg.to.z_um));
    p.upright = length(p.to - p.from) < kUpright_mm;
    const auto mark = draft.overlay.pieces.find(leg.key);
    p.mark = mark != draft.overlay.pieces.end() ? &mark->second : nullptr;
    out.push_back(p);
  }
  return out;
}

std::string titleOf(const PlanDraft& draft, const PlanLeg& p) {
  std::string title = fmt::format("{}{}: {} {}, {}", p.leg->duct->label,
                                  p.leg->duct->name.empty() ? "" : " " + p.leg->duct->name,
                                  p.leg->hose != nullptr ? "hose" : "duct", draft.bore(p.leg->bore_m),
                                  lengthText(p.leg->drawnLength(), draft.options.units));
  if (p.mark != nullptr && !p.mark->tooltip.empty()) {
    title += "; " + p.mark->tooltip;
  }
  return title;
}

/// The cone between two bores of one duct, at the end of the leg before.
std::optional<std::vector<At>> taperOf(const PlanLeg& before, const PlanLeg& leg, double grow) {
  if (before.leg->duct != leg.leg->duct || leg.leg->given == nullptr || !leg.leg->given->taper ||
      before.upright || leg.upright || before.width == leg.width) {
    return std::nullopt;
  }
  const At d = unit(before.to - before.from);
  if (dot(d, unit(leg.to - leg.from)) < 0.95) {
    return std::nullopt;
  }
  const double half_angle = std::clamp(leg.leg->given->taper->si() / 2, 0.03, 1.5);
  const double l = std::min(std::abs(leg.width - before.width) / 2 / std::tan(half_angle),
                            0.7 * length(before.to - before.from));
  const At n = leftOf(d);
  const double wide = leg.width / 2 + grow;
  const double narrow = before.width / 2 + grow;
  const At start = before.to - d * l;
  return std::vector<At>{start + n * narrow, before.to + n * wide, before.to - n * wide, start - n * narrow};
}

class LevelPainter {
 public:
  LevelPainter(PlanDraft& draft, const std::vector<PlanLeg>& all, std::vector<PlanLeg> legs)
      : draft_(draft), all_(all), legs_(std::move(legs)) {}

  void paint() {
    // Narrow ones first: the wider duct keeps its own fill where a branch enters.
    std::stable_sort(legs_.begin(), legs_.end(),
                     [](const PlanLeg& a, const PlanLeg& b) { return a.width < b.width; });
    for (const PlanLeg& p : legs_) {
      if (!p.upright) {
        rim(p);
      }
    }
    for (const PlanLeg& p : legs_) {
      fill(p);
    }
    for (const PlanLeg& p : legs_) {
      if (p.upright) {
        upright(p);
      }
    }
    for (const PlanLeg& p : legs_) {
      arrow(p);
    }
  }

 private:
  /// The part of the same duct that goes on from here, at whatever level, unless it stands upright.
  const PlanLeg* next(const PlanLeg& p) const {
    const auto index = static_cast<std::size_t>(p.leg - draft_.legs.data()) + 1;
    return index < all_.size() && all_[index].leg->duct == p.leg->duct && !all_[index].upright ? &all_[index]
                                                                                               : nullptr;
  }
  /// The part before, at another level: its end needs a round here too.
  const PlanLeg* lowerBefore(const PlanLeg& p) const {
    const auto index = static_cast<std::size_t>(p.leg - draft_.legs.data());
    return index > 0 && all_[index - 1].leg->duct == p.leg->duct && !all_[index - 1].upright &&
                   std::abs(all_[index - 1].top_m - p.top_m) >= kSameLevel_m
               ? &all_[index - 1]
               : nullptr;
  }

  void rim(const PlanLeg& p) {
    draft_.ducts.push_back(line(p.from, p.to, stroke(p.width + 2 * kThin_mm, p.rim())));
    if (const PlanLeg* before = lowerBefore(p)) {
      draft_.ducts.push_back(circle(p.from, std::min(p.width, before->width) / 2 + kThin_mm, p.rim()));
    }
    if (const PlanLeg* after = next(p)) {
      draft_.ducts.push_back(circle(p.to, std::min(p.width, after->width) / 2 + kThin_mm, p.rim()));
      if (const auto cone = taperOf(p, *after, kThin_mm)) {
        draft_.ducts.push_back(polygon(*cone, p.rim()));
      }
    }
  }

  void fill(const PlanLeg& p) {
    Group group{p.leg->hose != nullptr ? "hose" : "duct", p.leg->key.text(), titleOf(draft_, p), {}};
    if (!p.upright) {
      group.shapes.push_back(line(p.from, p.to, stroke(p.width, fillOf(p.grade()))));
      if (const PlanLeg* before = lowerBefore(p)) {
        group.shapes.push_back(circle(p.from, std::min(p.width, before->width) / 2, fillOf(p.grade())));
      }
      if (const PlanLeg* after = next(p)) {
        group.shapes.push_back(circle(p.to, std::min(p.width, after->width) / 2, fillOf(p.grade())));
        if (const auto cone = taperOf(p, *after, 0)) {
          group.shapes.push_back(polygon(*cone, fillOf(p.grade())));
        }
      }
      if (p.leg->hose != nullptr) {
        append(group.shapes, hoseRibs(p.from, p.to, p.width, p.grade()));
        draft_.signs.insert(Sign::Hose);
      } else {
        append(group.shapes, gradePattern(p.from, p.to, p.width, p.grade()));
      }
    }
    if (!group.shapes.empty()) {
      draft_.ducts.push_back({std::move(group)});
    }
    draft_.keep_clear.addLine(p.from, p.to, p.width, 2.2);
    if (p.upright) {
      draft_.keep_clear.addBox(Box{p.to.x, p.to.y, p.to.x, p.to.y}.grown(p.width / 2), 2.0);
    }
  }

  /// Another leg, of any duct, that reaches the upper end of this one from the side.
  bool reachedAt(std::int64_t z_um, const PlanLeg& p) const {
    for (const DuctLeg& other : draft_.legs) {
      if (&other == p.leg) {
        continue;
      }
      for (const shop::Point* end : {&other.from, &other.to}) {
        if (end->z_um == z_um && length(draft_.frame.at(*end) - p.to) < kUpright_mm &&
            length(draft_.frame.at(other.to) - draft_.frame.at(other.from)) >= kUpright_mm) {
          return true;
        }
      }
    }
    return false;
  }

  void upright(const PlanLeg& p) {
    const std::int64_t top = std::max(p.leg->from.z_um, p.leg->to.z_um);
    const std::int64_t bottom = std::min(p.leg->from.z_um, p.leg->to.z_um);
    // Seen from above it goes down, unless only its lower end is joined to something beside it.
    const bool down = reachedAt(top, p) || !reachedAt(bottom, p);
    Group group{p.leg->hose != nullptr ? "hose" : "duct",
                p.leg->key.text(),
                fmt::format("{}; from {} to {} above the floor", titleOf(draft_, p),
                            lengthText(metres(bottom), draft_.options.units),
                            lengthText(metres(top), draft_.options.units)),
                {}};
    append(group.shapes, verticalSign(p.to, p.width, down, p.grade()));
    draft_.ducts.push_back({std::move(group)});
    draft_.signs.insert(down ? Sign::Drop : Sign::Riser);
  }

  void arrow(const PlanLeg& p) {
    const double l = length(p.to - p.from);
    if (p.upright || p.mark == nullptr || p.mark->along == 0 || l < 4.5) {
      return;
    }
    const At d = (p.to - p.from) * (p.mark->along > 0 ? 1.0 : -1.0);
    const double share = clearShare(p, l);
    draft_.fittings.push_back({Group{
        "flow", p.leg->key.text(), {}, {flowArrow(between(p.from, p.to, share), d, p.width, p.grade())}}});
    draft_.signs.insert(Sign::Flow);
  }

  /// A place along a leg where no gate, tap or cleanout sits.
  double clearShare(const PlanLeg& p, double l) const {
    const shop::Duct& duct = *p.leg->duct;
    const double m_per_mm = p.leg->drawnLength() / l;
    const auto taken = [&](double share) {
      const auto near = [&](const Id& corner, double distance_m) {
        return corner == duct.corners[p.leg->corner].id &&
               std::abs((distance_m - p.leg->start_m) / m_per_mm - share * l) < 2.6;
      };
      for (const shop::Gate& gate : duct.gates) {
        if (near(gate.corner, gate.distance.si())) {
          return true;
        }
      }
      return false;
    };
    for (const double share : {0.5, 0.35, 0.65, 0.22, 0.78}) {
      if (!taken(share)) {
        return share;
      }
    }
    return 0.5;
  }

  using Id = base::Id;
  PlanDraft& draft_;
  const std::vector<PlanLeg>& all_;  ///< in the order of PlanDraft::legs
  std::vector<PlanLeg> legs_;
};

}  // namespace

void drawDucts(PlanDraft& draft) {
  const std::vector<PlanLeg> all = planLegs(draft);
  std::vector<PlanLeg> legs = all;
  std::stable_sort(legs.begin(), legs.end(),
                   [](const PlanLeg& a, const PlanLeg& b) { return a.top_m < b.top_m; });
  for (std::size_t k = 0; k < legs.size();) {
    std::size_t end = k + 1;
    while (end < legs.size() && legs[end].top_m - legs[k].top_m < kSameLevel_m) {
      ++end;
    }
    LevelPainter(
        draft, all,
        {legs.begin() + static_cast<std::ptrdiff_t>(k), legs.begin() + static_cast<std::ptrdiff_t>(end)})
        .paint();
    k = end;
  }
}

void labelRuns(PlanDraft& draft) {
  const std::map<pieces::PieceKey, std::size_t> by_key = legsByKey(draft.legs);
  for (const pieces::Run& run : draft.pieces.runs) {
    struct Part {
      At from;
      At to;
      double width;
      pieces::PieceKey key;
    };
    std::vector<Part> parts;
    for (const pieces::Piece& piece : run.pieces) {
      const auto found = by_key.find(piece.key);
      if (found != by_key.end()) {
        const DuctLeg& leg = draft.legs[found->second];
        parts.push_back(
            {draft.frame.at(leg.from), draft.frame.at(leg.to), leg.bore_m * draft.frame.mm_per_m, leg.key});
      }
    }
    if (parts.empty()) {
      continue;
    }
    const auto mark = draft.overlay.runs.find(run.key);
    const pieces::PieceKey slowest =
        mark != draft.overlay.runs.end() ? mark->second.slowest : pieces::PieceKey{};
    std::stable_sort(parts.begin(), parts.end(), [&](const Part& a, const Part& b) {
      const bool first = a.key == slowest;
      const bool second = b.key == slowest;
      return first != second ? first : length(a.to - a.from) > length(b.to - b.from);
    });
    Label label{"run-label", run.key.text(), {}, kText_mm, {}};
    const bool still = mark != draft.overlay.runs.end() && mark->second.grade == Grade::Still;
    if (mark != draft.overlay.runs.end() && !still) {
      for (const std::string& words : mark->second.lines) {
        label.lines.push_back({words, label.lines.empty(), false});
      }
      if (mark->second.grade != Grade::NotJudged) {
        label.bar = mark->second.grade;
      }
      if (const Change& change = mark->second.change; change.turn != Turn::Same) {
        label.lines.push_back({change.words, label.lines.empty(), false});
        // Not in the middle, where the arrow of the air is.
        const At at = between(parts.front().from, parts.front().to, 0.62);
        if (change.turn == Turn::Better || change.turn == Turn::Worse) {
          draft.changes.push_back(changeMark(at, change, parts.front().key.text()));
          draft.keep_clear.addBox(Box{at.x, at.y, at.x, at.y}.grown(kChangeSign_mm), 2.5);
          draft.signs.insert(change.turn == Turn::Better ? Sign::Better : Sign::Worse);
        }
      }
    }
    if (label.lines.empty()) {
      label.lines.push_back(
          {draft.bore(run.end_bore_m > 0 ? run.end_bore_m : parts.front().width / draft.frame.mm_per_m),
           false, still});
      label.size_mm = kSmall_mm;
      label.may_be_left_out = still;
      label.reach_mm = 8;
    }
    for (std::size_t k = 0; k < std::min<std::size_t>(parts.size(), 3); ++k) {
      const double l = length(parts[k].to - parts[k].from);
      label.anchors.push_back(between(parts[k].from, parts[k].to, 0.5));
      if (l > 16) {
        label.anchors.push_back(between(parts[k].from, parts[k].to, 0.3));
        label.anchors.push_back(between(parts[k].from, parts[k].to, 0.7));
      }
      if (l > 50) {
        label.anchors.push_back(between(parts[k].from, parts[k].to, 0.15));
        label.anchors.push_back(between(parts[k].from, parts[k].to, 0.85));
      }
    }
    label.clear_mm = parts.front().width / 2 + 0.7;
    label.rank = still ? kRankStillRun : kRankRun;
    draft.labels.push_back(std::move(label));
  }
}

}  // namespace kerfdraft::drawing
