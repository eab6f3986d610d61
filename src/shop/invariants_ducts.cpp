// Ducts: corners, legs and what hangs on them, and ends that are where they say.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "shop/invariants.h"
#include "shop/survey.h"

namespace kerfdraft::shop {
namespace {

using base::ErrorCode;

/// Coordinates typed in two systems may differ by a rounding; a branch and its corner are one point [m].
constexpr double kSamePoint_m = 1e-3;
/// A gate may be entered at the very end of its leg; the rounding of the two is not held against it [m].
constexpr double kLegSlack_m = 1e-3;
/// The longest hose between two corners that is believed [m] (ours).
constexpr double kLongestHose_m = 100;

/// Which port each duct takes, to find those taken twice.
struct Taken {
  std::string label;
  bool moved = false;
};
using TakenPorts = std::map<Id, Taken>;

void checkCorners(Survey& survey, const Duct& duct) {
  if (duct.corners.size() < 2) {
    Survey::Place place(survey, "corners");
    survey.problem(ErrorCode::Range, fmt::format("the duct has {} corners; it needs at least 2, its ends",
                                                 duct.corners.size()));
    return;
  }
  if (!duct.corners.front().leg) {
    Survey::Place place(survey, "corners", 0);
    survey.problem(ErrorCode::Conflict,
                   "the first corner has no \"leg\": nothing says what the duct is made of");
  }
  if (duct.corners.back().leg) {
    Survey::Place place(survey, "corners", duct.corners.size() - 1);
    survey.problem(ErrorCode::Conflict, "the last corner has a \"leg\", but no duct follows it");
  }
  bool hose = false;
  for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
    Survey::Place place(survey, "corners", k + 1);
    const Corner& a = duct.corners[k];
    const Corner& b = duct.corners[k + 1];
    if (a.at == b.at) {
      survey.problem(ErrorCode::Conflict, "the corner lies on the one before it");
    }
    hose = a.leg ? a.leg->hose.has_value() : hose;
    if (const double length_m = distance(a.at, b.at); hose && length_m > kLongestHose_m) {
      survey.problem(ErrorCode::Range,
                     fmt::format("{} of hose up to this corner is above {}, the most that is "
                                 "believed",
                                 survey.lengthText(length_m), survey.lengthText(kLongestHose_m)));
    }
  }
}

/// A gate, tap or cleanout on the leg that begins at `corner`.
void checkOnLeg(Survey& survey, const Duct& duct, Id corner, const Given<base::Length>& along) {
  const auto at = std::find_if(duct.corners.begin(), duct.corners.end(),
                               [corner](const Corner& each) { return each.id == corner; });
  if (at == duct.corners.end()) {
    Survey::Place place(survey, "corner");
    survey.problem(ErrorCode::Reference, fmt::format("no corner of this duct has the id {}", corner.text()));
    return;
  }
  if (at + 1 == duct.corners.end()) {
    Survey::Place place(survey, "corner");
    survey.problem(ErrorCode::Conflict, "this is the last corner: no leg begins there");
    return;
  }
  const double length_m = distance(at->at, (at + 1)->at);
  if (along.si() > length_m + kLegSlack_m || along.si() < 0) {
    Survey::Place place(survey, "distance");
    survey.problem(ErrorCode::Conflict, fmt::format("{} along the leg is not on it: the leg is {} long",
                                                    along.text(), survey.lengthText(length_m)));
  }
}

void checkHanging(Survey& survey, const Duct& duct) {
  for (std::size_t k = 0; k < duct.gates.size(); ++k) {
    Survey::Place inner(survey, "gates", k, named("gate", duct.gates[k].label));
    checkOnLeg(survey, duct, duct.gates[k].corner, duct.gates[k].distance);
  }
  for (std::size_t k = 0; k < duct.taps.size(); ++k) {
    Survey::Place inner(survey, "taps", k, named("tap", duct.taps[k].label));
    checkOnLeg(survey, duct, duct.taps[k].corner, duct.taps[k].distance);
  }
  for (std::size_t k = 0; k < duct.cleanouts.size(); ++k) {
    Survey::Place inner(survey, "cleanouts", k, named("cleanout", duct.cleanouts[k].label));
    checkOnLeg(survey, duct, duct.cleanouts[k].corner, duct.cleanouts[k].distance);
  }
}

/// Looks at one end of a duct. `start` says which.
class EndCheck {
 public:
  EndCheck(Survey& survey, const Duct& duct, bool start, TakenPorts& taken)
      : survey_(survey), duct_(duct), start_(start), taken_(taken) {}

  void operator()(const OpenEnd& /*end*/) const {}

  void operator()(const PortRef& end) const {
    if (!onlyAtStart("port", "a port") || !survey_.expect(end, "port")) {
      return;
    }
    near(survey_.find<Port>(end.port, Thing::Port)->at, "port", "the port");
    take(end, false);
  }

  void operator()(const MovedEnd& end) const {
    if (!onlyAtStart("moved", "a moved hose's places")) {
      return;
    }
    if (end.places.empty()) {
      Survey::Place place(survey_, "moved");
      survey_.problem(ErrorCode::Range, "a moved hose needs at least one place");
    }
    for (std::size_t i = 0; i < end.places.size(); ++i) {
      Survey::Place place(survey_, "moved");
      if (!survey_.expect(end.places[i], fmt::format("{}", i))) {
        continue;
      }
      if (std::find(end.places.begin(), end.places.begin() + static_cast<std::ptrdiff_t>(i), end.places[i]) !=
          end.places.begin() + static_cast<std::ptrdiff_t>(i)) {
        survey_.problem(ErrorCode::Conflict, fmt::format("place {} stands twice", i + 1));
        continue;
      }
      take(end.places[i], true);
    }
  }

  void operator()(const CollectorInlet& end) const {
    if (start_) {
      Survey::Place place(survey_, "collector-inlet");
      survey_.problem(ErrorCode::Conflict,
                      "a duct ends at a collector's inlet; draw it the other way, with the air");
    } else if (survey_.expect(end.collector, Thing::Collector, "collector-inlet", false)) {
      near(survey_.find<Collector>(end.collector, Thing::Collector)->at, "collector-inlet",
           "the collector's inlet");
    }
  }

  void operator()(const CollectorOutlet& end) const {
    if (onlyAtStart("collector-outlet", "a collector's outlet")) {
      survey_.expect(end.collector, Thing::Collector, "collector-outlet", false);
    }
  }

  void operator()(const OnCorner& end) const {
    Survey::Place place(survey_, "corner");
    if (!survey_.expect(end.duct, Thing::Duct, "duct", false) ||
        !survey_.expect(end.corner, Thing::Corner, "corner", false)) {
      return;
    }
    const Duct& other = *survey_.find<Duct>(end.duct, Thing::Duct);
    if (end.duct == duct_.id) {
      survey_.problem(ErrorCode::Conflict, "the duct is joined to a corner of its own");
      return;
    }
    if (survey_.find(end.corner)->parent != end.duct) {
      survey_.problem(ErrorCode::Reference,
                      fmt::format("the corner {} is not one of duct {}", end.corner.text(), other.label));
      return;
    }
    if (end.corner == other.corners.front().id || end.corner == other.corners.back().id) {
      survey_.problem(
          ErrorCode::Conflict,
          fmt::format("the corner is an end of duct {}; a branch enters at an inner corner, so join that "
                      "end itself, or give duct {} a corner before its end",
                      other.label, other.label));
      return;
    }
    const Corner& corner = *survey_.find<Corner>(end.corner, Thing::Corner);
    if (const double far_m = distance(here(), corner.at); far_m > kSamePoint_m) {
      survey_.problem(ErrorCode::Conflict,
                      fmt::format("the duct's end lies {} away from the corner of duct {} that it "
                                  "is joined to; the two are one point",
                                  survey_.lengthText(far_m), other.label));
    }
  }

  void operator()(const FreeAir& end) const {
    Survey::Place place(survey_, "free-air");
    survey_.expect(end.room, Thing::Room, "room", true);
  }

 private:
  const Point& here() const { return start_ ? duct_.corners.front().at : duct_.corners.back().at; }

  bool onlyAtStart(std::string_view key, std::string_view what) const {
    if (start_) {
      return true;
    }
    Survey::Place place(survey_, key);
    survey_.problem(ErrorCode::Conflict,
                    fmt::format("a duct starts at {}; draw it the other way, with the air", what));
    return false;
  }

  void near(const Point& there, std::string_view key, std::string_view what) const {
    const double far_m = distance(here(), there);
    if (far_m > kJoinReach_m) {
      Survey::Place place(survey_, key);
      survey_.problem(ErrorCode::Conflict,
                      fmt::format("the duct's end lies {} away from {} that it is joined to; the most is {}",
                                  survey_.lengthText(far_m), what, survey_.lengthText(kJoinReach_m)));
    }
  }

  /// Two moved hoses may share a place; a duct that is there for good may not share its port.
  void take(const PortRef& ref, bool moved) const {
    const auto [at, fresh] = taken_.emplace(ref.port, Taken{duct_.label, moved});
    if (!fresh && !(moved && at->second.moved)) {
      survey_.problem(
          ErrorCode::Conflict,
          fmt::format("port {} of machine {} is joined twice: duct {} is there already",
                      survey_.find<Port>(ref.port, Thing::Port)->label,
                      survey_.find<Machine>(ref.machine, Thing::Machine)->label, at->second.label));
    }
  }

  Survey& survey_;
  const Duct& duct_;
  bool start_;
  TakenPorts& taken_;
};

}  // namespace

void checkDucts(Survey& survey) {
  const std::vector<Duct>& ducts = survey.project().ducts;
  TakenPorts taken;
  for (std::size_t i = 0; i < ducts.size(); ++i) {
    const Duct& duct = ducts[i];
    Survey::Place place(survey, "ducts", i, named("duct", duct.label));
    checkCorners(survey, duct);
    checkHanging(survey, duct);
    if (duct.corners.empty()) {
      continue;  // said already; its ends are nowhere
    }
    {
      Survey::Place from(survey, "from");
      std::visit(EndCheck(survey, duct, true, taken), duct.from);
    }
    Survey::Place to(survey, "to");
    std::visit(EndCheck(survey, duct, false, taken), duct.to);
  }
}

}  // namespace kerfdraft::shop
