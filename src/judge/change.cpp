// Makes one change on a copy of the project, through the same edits that a person's hand would make, so that
// what hangs on a thing follows it and nothing contradicts itself afterwards.
#include "judge/change.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "judge/given_text.h"
#include "shop/edit.h"

namespace kerfdraft::judge {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Id;
using base::Result;
using base::UnitSystem;

constexpr const char* kPlace = "change";
constexpr const char* kSource = "a change that is tried";
/// No system effect from here on (physics/fan.h); the length is rounded up to whole millimetres.
constexpr double kStraightBores = 5;
/// Legs that turn by less than half a degree are one straight (as pieces/corner_fittings.h takes it).
constexpr double kStraightCosine = 0.99996;
constexpr const char* kWideElbow = "gored-5";
constexpr const char* kWideRadius = "2";

template <class T>
const T* find(const std::vector<T>& things, Id id) {
  const auto found =
      std::find_if(things.begin(), things.end(), [&](const T& thing) { return thing.id == id; });
  return found == things.end() || !id.valid() ? nullptr : &*found;
}

Failure missing(const char* what, Id id) {
  return fail(ErrorCode::Reference, fmt::format("There is no {} with the id {}.", what, id.text()), kPlace);
}

Failure refused(std::string sentence) {
  return fail(ErrorCode::Conflict, std::move(sentence), kPlace);
}

/// Makes one change. Every step says which edits it takes; applying them is the last step.
class Changing {
 public:
  Changing(const shop::Project& project, const Change& change) : project_(project), change_(change) {}

  Result<shop::Project> make() {
    if (auto ok = edit(); !ok) {
      return Failure(ok.error());
    }
    auto changed = shop::applyEdits(project_, edits_);
    if (changed && *changed == project_) {
      return refused("The change changes nothing: it is so already.");
    }
    return changed;
  }

 private:
  Result<void> edit() {
    switch (change_.kind) {
      case ChangeKind::Bore:
        return bore();
      case ChangeKind::LegBore:
        return legBore();
      case ChangeKind::PortBore:
        return portBore();
      case ChangeKind::HoseLength:
        return hoseLength();
      case ChangeKind::HoseTight:
        return hoseTight();
      case ChangeKind::GateOpen:
      case ChangeKind::GateShut:
        return gate();
      case ChangeKind::FilterClean:
        return filterClean();
      case ChangeKind::NonReturn:
        return nonReturn();
      case ChangeKind::StraightInlet:
        return straightInlet();
      case ChangeKind::WideElbows:
        return wideElbows();
      case ChangeKind::RoomOpening:
        return roomOpening();
      case ChangeKind::BodyOpening:
        return bodyOpening();
    }
    return refused("The change is of an unknown kind.");
  }

  Result<void> wantValue(const char* what) const {
    if (!(std::isfinite(change_.value) && change_.value > 0)) {
      return fail(ErrorCode::Range, fmt::format("The {} must be above zero, not {}.", what, change_.value),
                  kPlace);
    }
    return {};
  }

  UnitSystem units() const { return project_.setting.units; }
  base::Given<base::Length> boreGiven() const {
    return givenAs<base::Length>(change_.value, units(), kBoreUnits, kSource);
  }

  Result<shop::Duct> duct() const {
    const shop::Duct* found = find(project_.ducts, change_.a);
    if (found == nullptr) {
      return missing("duct", change_.a);
    }
    return *found;
  }
  Result<shop::Machine> machine(Id id) const {
    const shop::Machine* found = find(project_.machines, id);
    if (found == nullptr) {
      return missing("machine", id);
    }
    return *found;
  }

  /// A port with a new bore, in edits.
  Result<void> putPort(const shop::PortRef& ref) {
    auto changed = machine(ref.machine);
    if (!changed) {
      return Failure(changed.error());
    }
    // Several ports of one machine may change: go on from what is already in the list.
    for (const shop::Edit& made : edits_) {
      if (const auto* put = std::get_if<shop::PutMachine>(&made);
          put != nullptr && put->machine.id == ref.machine) {
        *changed = put->machine;
      }
    }
    const auto port = std::find_if(changed->ports.begin(), changed->ports.end(),
                                   [&](const shop::Port& each) { return each.id == ref.port; });
    if (port == changed->ports.end()) {
      return missing("port", ref.port);
    }
    port->bore = boreGiven();
    edits_.emplace_back(shop::PutMachine{*std::move(changed)});
    return {};
  }

  Result<void> bore() {
    auto changed = duct();
    if (!changed) {
      return Failure(changed.error());
    }
    if (auto ok = wantValue("bore"); !ok) {
      return ok;
    }
    for (shop::Corner& corner : changed->corners) {
      if (corner.leg) {
        corner.leg->bore = boreGiven();
      }
    }
    edits_.emplace_back(shop::PutDuct{*changed});
    if (!change_.with_port) {
      return {};
    }
    if (const auto* port = std::get_if<shop::PortRef>(&changed->from)) {
      return putPort(*port);
    }
    if (const auto* moved = std::get_if<shop::MovedEnd>(&changed->from)) {
      for (const shop::PortRef& place : moved->places) {
        if (auto ok = putPort(place); !ok) {
          return ok;
        }
      }
      return {};
    }
    return refused(fmt::format("Duct {} does not begin at a port.", changed->label));
  }

  /// Index of the corner whose leg holds where corner `b` begins one.
  Result<std::size_t> legAt(const shop::Duct& of) const {
    std::size_t given_at = 0;
    for (std::size_t i = 0; i + 1 < of.corners.size(); ++i) {
      if (of.corners[i].leg) {
        given_at = i;
      }
      if (of.corners[i].id == change_.b) {
        return given_at;
      }
    }
    return fail(ErrorCode::Reference,
                fmt::format("Duct {} has no leg that begins at the corner {}.", of.label, change_.b.text()),
                kPlace);
  }

  Result<void> legBore() {
    auto changed = duct();
    if (!changed) {
      return Failure(changed.error());
    }
    if (auto ok = wantValue("bore"); !ok) {
      return ok;
    }
    const auto at = legAt(*changed);
    if (!at) {
      return Failure(at.error());
    }
    const double old_m = changed->corners[*at].leg ? changed->corners[*at].leg->bore.si() : 0;
    for (shop::Corner& corner : changed->corners) {
      if (corner.leg && std::abs(corner.leg->bore.si() - old_m) < 1e-6) {
        corner.leg->bore = boreGiven();
      }
    }
    edits_.emplace_back(shop::PutDuct{*std::move(changed)});
    return {};
  }

  Result<void> portBore() {
    if (auto ok = wantValue("bore"); !ok) {
      return ok;
    }
    return putPort({change_.a, change_.b});
  }

  Result<void> hoseLength() {
    auto changed = duct();
    if (!changed) {
      return Failure(changed.error());
    }
    if (auto ok = wantValue("length"); !ok) {
      return ok;
    }
    const auto at = legAt(*changed);
    if (!at) {
      return Failure(at.error());
    }
    auto& leg = changed->corners[*at].leg;
    if (!leg || !leg->hose) {
      return refused(fmt::format("That leg of duct {} is not hose.", changed->label));
    }
    leg->hose->length = givenAs<base::Length>(change_.value, units(), kLengthUnits, kSource);
    leg->hose->hung = shop::HoseHung::Tight;
    leg->hose->compression.reset();
    edits_.emplace_back(shop::PutDuct{*std::move(changed)});
    return {};
  }

  Result<void> hoseTight() {
    auto changed = duct();
    if (!changed) {
      return Failure(changed.error());
    }
    bool any = false;
    for (shop::Corner& corner : changed->corners) {
      if (corner.leg && corner.leg->hose) {
        any = true;
        corner.leg->hose->inside = shop::HoseInside::Smooth;
        corner.leg->hose->hung = shop::HoseHung::Tight;
        corner.leg->hose->compression.reset();
      }
    }
    if (!any) {
      return refused(fmt::format("Duct {} has no hose.", changed->label));
    }
    edits_.emplace_back(shop::PutDuct{*std::move(changed)});
    return {};
  }

  Result<void> gate() {
    const bool there = std::any_of(project_.ducts.begin(), project_.ducts.end(), [&](const shop::Duct& each) {
      return find(each.gates, change_.a) != nullptr;
    });
    if (!there) {
      return missing("gate", change_.a);
    }
    const shop::State* found = find(project_.states, change_.b);
    if (found == nullptr) {
      return missing("state", change_.b);
    }
    shop::State state = *found;
    const auto setting = std::find_if(state.gates.begin(), state.gates.end(),
                                      [&](const shop::GateSetting& each) { return each.gate == change_.a; });
    if (change_.kind == ChangeKind::GateShut) {
      if (setting != state.gates.end()) {
        state.gates.erase(setting);
      }
    } else if (setting == state.gates.end()) {
      state.gates.push_back({change_.a, fullyOpen()});
    } else if (setting->travel.si() < 1) {
      setting->travel = fullyOpen();
    }
    edits_.emplace_back(shop::PutState{std::move(state)});
    return {};
  }

  static base::Given<base::Ratio> fullyOpen() {
    return base::Given<base::Ratio>::parse("100 %", base::Standing::Estimated, kSource).value();
  }

  Result<void> filterClean() {
    bool any = false;
    for (shop::State state : project_.states) {
      if (!change_.b.valid() || state.id == change_.b) {
        any = true;
        state.filter = shop::FilterState::Clean;
        edits_.emplace_back(shop::PutState{std::move(state)});
      }
    }
    if (!any) {
      return missing("state", change_.b);
    }
    return {};
  }

  Result<void> nonReturn() {
    const shop::Collector* found = find(project_.collectors, change_.a);
    if (found == nullptr) {
      return missing("collector", change_.a);
    }
    shop::Collector changed = *found;
    changed.non_return = true;
    edits_.emplace_back(shop::PutCollector{std::move(changed)});
    return {};
  }

  struct Arrow {
    double x = 0, y = 0, z = 0, length_m = 0;
  };
  static Arrow arrow(const shop::Point& from, const shop::Point& to) {
    Arrow out{static_cast<double>(to.x_um - from.x_um) * 1e-6,
              static_cast<double>(to.y_um - from.y_um) * 1e-6,
              static_cast<double>(to.z_um - from.z_um) * 1e-6, 0};
    out.length_m = std::sqrt(out.x * out.x + out.y * out.y + out.z * out.z);
    if (out.length_m > 0) {
      out.x /= out.length_m;
      out.y /= out.length_m;
      out.z /= out.length_m;
    }
    return out;
  }

  bool branchAt(Id corner) const {
    return std::any_of(project_.ducts.begin(), project_.ducts.end(), [&](const shop::Duct& each) {
      const auto joins = [&](const shop::DuctEnd& end) {
        const auto* on = std::get_if<shop::OnCorner>(&end);
        return on != nullptr && on->corner == corner;
      };
      return joins(each.from) || joins(each.to);
    });
  }

  /// The collector moves on along the last leg until five bores are straight before it. A trial of the air:
  /// whether there is room for it is another question.
  Result<void> straightInlet() {
    const shop::Collector* collector = find(project_.collectors, change_.a);
    if (collector == nullptr) {
      return missing("collector", change_.a);
    }
    const shop::Duct* last = nullptr;
    for (const shop::Duct& each : project_.ducts) {
      const auto* inlet = std::get_if<shop::CollectorInlet>(&each.to);
      if (inlet != nullptr && inlet->collector == change_.a) {
        if (last != nullptr) {
          return refused(fmt::format("More than one duct comes to collector {}.", collector->label));
        }
        last = &each;
      }
    }
    if (last == nullptr || last->corners.size() < 2) {
      return refused(fmt::format("No duct comes to collector {}.", collector->label));
    }
    const auto& corners = last->corners;
    const Arrow way = arrow(corners[corners.size() - 2].at, corners.back().at);
    double straight_m = way.length_m;
    for (std::size_t i = corners.size() - 2; i > 0 && !branchAt(corners[i].id); --i) {
      const Arrow before = arrow(corners[i - 1].at, corners[i].at);
      if (before.x * way.x + before.y * way.y + before.z * way.z < kStraightCosine) {
        break;
      }
      straight_m += before.length_m;
    }
    const double missing_m = kStraightBores * collector->inlet_bore.si() - straight_m;
    if (missing_m <= 0) {
      return refused(
          fmt::format("Collector {} has five bores of straight duct before it.", collector->label));
    }
    const double step_m = std::ceil(missing_m * 1e3 + 1) * 1e-3;
    const auto moved = [&](std::int64_t from_um, double along) {
      return from_um + static_cast<std::int64_t>(std::llround(along * step_m * 1e6));
    };
    edits_.emplace_back(
        shop::MoveCollector{change_.a,
                            {moved(collector->at.x_um, way.x), moved(collector->at.y_um, way.y),
                             moved(collector->at.z_um, way.z)}});
    return {};
  }

  Result<void> wideElbows() {
    auto changed = duct();
    if (!changed) {
      return Failure(changed.error());
    }
    bool any = false;
    bool hose = changed->corners.front().leg && changed->corners.front().leg->hose;
    for (std::size_t i = 1; i + 1 < changed->corners.size(); ++i) {
      shop::Corner& corner = changed->corners[i];
      const bool hose_before = hose;
      hose = corner.leg ? corner.leg->hose.has_value() : hose;
      const Arrow before = arrow(changed->corners[i - 1].at, corner.at);
      const Arrow after = arrow(corner.at, changed->corners[i + 1].at);
      const double cosine = before.x * after.x + before.y * after.y + before.z * after.z;
      // Where a branch enters, the corner is a fitting of another kind.
      if ((hose_before && hose) || cosine > kStraightCosine || branchAt(corner.id)) {
        continue;
      }
      any = true;
      corner.elbow = shop::ElbowForm{
          kWideElbow,
          base::Given<base::Ratio>::parse(kWideRadius, base::Standing::Estimated, kSource).value()};
      corner.loss.reset();
    }
    if (!any) {
      return refused(fmt::format("Duct {} has no elbow.", changed->label));
    }
    edits_.emplace_back(shop::PutDuct{*std::move(changed)});
    return {};
  }

  /// An id that nothing in the project's rooms has: the same for the same project.
  Id freeId(Id seed) const {
    std::set<Id> taken;
    for (const shop::Room& room : project_.rooms) {
      for (const shop::Opening& opening : room.openings) {
        taken.insert(opening.id);
      }
    }
    base::SeededIds ids(seed.bits());
    Id id = ids.next();
    while (!id.valid() || taken.contains(id)) {
      id = ids.next();
    }
    return id;
  }

  Result<void> roomOpening() {
    const shop::Room* found = find(project_.rooms, change_.a);
    if (found == nullptr) {
      return missing("room", change_.a);
    }
    if (auto ok = wantValue("free area"); !ok) {
      return ok;
    }
    if (found->outline.size() < 2) {
      return refused(fmt::format("Room {} has no wall.", found->label));
    }
    shop::Room changed = *found;
    shop::Opening opening;
    opening.id = freeId(found->id);
    opening.kind = shop::OpeningKind::Grille;
    opening.from = found->outline[0];
    opening.to = found->outline[1];
    opening.area = givenAs<base::Area>(change_.value, units(), kAreaUnits, kSource);
    opening.usually_open = true;
    changed.openings.push_back(std::move(opening));
    edits_.emplace_back(shop::PutRoom{std::move(changed)});
    return {};
  }

  Result<void> bodyOpening() {
    auto changed = machine(change_.a);
    if (!changed) {
      return Failure(changed.error());
    }
    if (auto ok = wantValue("free area"); !ok) {
      return ok;
    }
    changed->openings = givenAs<base::Area>(change_.value, units(), kAreaUnits, kSource);
    edits_.emplace_back(shop::PutMachine{*std::move(changed)});
    return {};
  }

  const shop::Project& project_;
  const Change& change_;
  std::vector<shop::Edit> edits_;
};

}  // namespace

base::Result<shop::Project> withChange(const shop::Project& project, const Change& change) {
  return Changing(project, change).make();
}

}  // namespace kerfdraft::judge
