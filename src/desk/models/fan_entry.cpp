// The rating is read as a whole, so that every slip is told at once.
#include "desk/models/fan_entry.h"

#include <fmt/format.h>

#include <algorithm>

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

/// Reads fields and gathers what is wrong with them.
class Reading {
 public:
  explicit Reading(const TypedFan& typed) : typed_(typed) {}

  template <class Q>
  base::Given<Q> value(std::string_view text, const std::string& where, const base::Given<Q>* before) {
    const std::string_view entered = trimmed(text);
    if (before != nullptr && entered == before->text()) {
      return *before;
    }
    auto given = base::Given<Q>::parse(entered, typed_.standing, trimmed(typed_.source), where);
    if (!given) {
      problems_.push_back(given.error());
      return {};
    }
    if (given->si() < 0) {
      problems_.push_back({ErrorCode::Range,
                           fmt::format("{} is below zero; give a suction without its minus", given->text()),
                           where});
    }
    return *given;
  }

  template <class Q>
  std::optional<base::Given<Q>> optional(std::string_view text, const std::string& where,
                                         const std::optional<base::Given<Q>>& before, bool above_zero) {
    if (trimmed(text).empty()) {
      return std::nullopt;
    }
    base::Given<Q> given = value<Q>(text, where, before ? &*before : nullptr);
    if (above_zero && !given.text().empty() && !(given.si() > 0)) {
      problems_.push_back(
          {ErrorCode::Range, fmt::format("it must be above zero, not {}", given.text()), where});
    }
    return given;
  }

  void problem(ErrorCode code, std::string words, std::string where = {}) {
    problems_.push_back({code, std::move(words), std::move(where)});
  }
  bool failed() const { return !problems_.empty(); }
  std::vector<base::Error> problems() { return std::move(problems_); }

 private:
  const TypedFan& typed_;
  std::vector<base::Error> problems_;
};

bool isEmpty(const TypedPoint& point) {
  return std::all_of(point.begin(), point.end(),
                     [](const std::string& cell) { return trimmed(cell).empty(); });
}

/// The point of the old curve that this one was; those that were not touched keep where they come from.
const shop::CurvePoint* samePoint(const shop::FanRating& before, std::string_view flow) {
  const auto found = std::find_if(before.points.begin(), before.points.end(),
                                  [&](const shop::CurvePoint& p) { return p.flow.text() == trimmed(flow); });
  return found == before.points.end() ? nullptr : &*found;
}

void readPoints(const TypedFan& typed, const shop::FanRating& before, Reading& reading,
                shop::FanRating& out) {
  out.points.clear();
  for (std::size_t i = 0; i < typed.points.size(); ++i) {
    const TypedPoint& cells = typed.points[i];
    if (isEmpty(cells)) {
      continue;
    }
    const std::string where = fmt::format("point {}", i + 1);
    const shop::CurvePoint* old = samePoint(before, cells[0]);
    shop::CurvePoint point;
    if (trimmed(cells[0]).empty() || trimmed(cells[1]).empty()) {
      reading.problem(ErrorCode::Conflict, "a point needs a flow and a pressure", where);
      continue;
    }
    point.flow = reading.value<base::VolumeFlow>(cells[0], where + ", flow", old ? &old->flow : nullptr);
    point.pressure =
        reading.value<base::Pressure>(cells[1], where + ", pressure", old ? &old->pressure : nullptr);
    point.power = reading.optional<base::Power>(
        cells[2], where + ", power", old ? old->power : std::optional<base::Given<base::Power>>(), true);
    out.points.push_back(std::move(point));
  }
}

}  // namespace

base::Result<FanThing> fanThing(const shop::Project& project, const std::set<base::Id>& picked) {
  std::vector<FanThing> all;
  std::vector<std::size_t> chosen;
  for (const shop::Collector& unit : project.collectors) {
    if (picked.contains(unit.id)) {
      chosen.push_back(all.size());
    }
    FanThing thing{unit.id, {}, "collector " + unit.label, unit.rating, unit.motor, unit.inlet_bore.si(), {}};
    if (unit.outlet_bore) {
      thing.outlet_bore_m = unit.outlet_bore->si();
    }
    all.push_back(std::move(thing));
  }
  for (const shop::Machine& machine : project.machines) {
    if (!machine.blower) {
      continue;
    }
    if (picked.contains(machine.id) || picked.contains(machine.blower->id)) {
      chosen.push_back(all.size());
    }
    FanThing thing{machine.blower->id,
                   machine.id,
                   fmt::format("blower {} of machine {}", machine.blower->label, machine.label),
                   machine.blower->rating,
                   machine.blower->motor,
                   {},
                   {}};
    if (machine.ports.size() == 1) {
      thing.inlet_bore_m = machine.ports.front().bore.si();
    }
    all.push_back(std::move(thing));
  }
  if (chosen.size() == 1) {
    return all[chosen.front()];
  }
  if (chosen.empty() && all.size() == 1) {
    return all.front();
  }
  if (all.empty()) {
    return fail(ErrorCode::Reference, "No fan stands in the shop yet. Put a collector in it first.");
  }
  return fail(ErrorCode::Reference, chosen.empty()
                                        ? "Several fans stand in the shop. Pick one of them on the plan."
                                        : "Several fans are picked. Pick only one.");
}

TypedFan typedFan(const shop::FanRating& rating) {
  const auto text = [](const auto& given) { return given ? given->text() : std::string(); };
  TypedFan out;
  out.basis = rating.basis;
  out.fitted = rating.fitted;
  out.free_air_flow = text(rating.free_air_flow);
  out.greatest_suction = text(rating.greatest_suction);
  out.test_bore = text(rating.test_bore);
  out.density = text(rating.density);
  out.speed = text(rating.speed);
  out.points.reserve(rating.points.size());
  for (const shop::CurvePoint& point : rating.points) {
    out.points.push_back({point.flow.text(), point.pressure.text(), text(point.power)});
  }
  if (!rating.points.empty()) {
    out.standing = rating.points.front().pressure.standing();
    out.source = rating.points.front().pressure.source();
  } else if (rating.greatest_suction) {
    out.standing = rating.greatest_suction->standing();
    out.source = rating.greatest_suction->source();
  }
  return out;
}

tl::expected<shop::FanRating, std::vector<base::Error>> readFan(const TypedFan& typed,
                                                                const shop::FanRating& before) {
  Reading reading(typed);
  shop::FanRating out;
  out.basis = typed.basis;
  out.fitted = typed.fitted;
  readPoints(typed, before, reading, out);
  out.free_air_flow = reading.optional(typed.free_air_flow, "flow on the label", before.free_air_flow, true);
  out.greatest_suction =
      reading.optional(typed.greatest_suction, "suction on the label", before.greatest_suction, true);
  out.test_bore = reading.optional(typed.test_bore, "bore of the test pipe", before.test_bore, true);
  out.density = reading.optional(typed.density, "density of the test", before.density, true);
  out.speed = reading.optional(typed.speed, "speed of the test", before.speed, true);
  if (!reading.failed() && out.points.empty() && !(out.free_air_flow && out.greatest_suction)) {
    reading.problem(ErrorCode::Conflict,
                    "a fan needs at least two points of its curve, or both numbers of its label: flow and "
                    "suction");
  }
  if (!reading.failed() && !out.points.empty()) {
    std::vector<physics::FanPoint> points;
    points.reserve(out.points.size());
    for (const shop::CurvePoint& point : out.points) {
      points.push_back({point.flow.si(), point.pressure.si()});
    }
    if (const auto curve = physics::makeFanCurve(points); !curve) {
      reading.problem(curve.error().code, curve.error().message, curve.error().where);
    }
  }
  if (reading.failed()) {
    return tl::unexpected(reading.problems());
  }
  return out;
}

base::Result<Change> applyFan(const shop::Project& project, const FanThing& thing,
                              const shop::FanRating& rating) {
  Change out{"Rating of " + thing.name, {}};
  for (const shop::Collector& unit : project.collectors) {
    if (unit.id == thing.id) {
      shop::Collector changed = unit;
      changed.rating = rating;
      out.edits.emplace_back(shop::PutCollector{std::move(changed)});
    }
  }
  for (const shop::Machine& machine : project.machines) {
    if (machine.blower && machine.blower->id == thing.id) {
      shop::Machine changed = machine;
      changed.blower->rating = rating;
      out.edits.emplace_back(shop::PutMachine{std::move(changed)});
    }
  }
  if (out.edits.empty()) {
    return fail(ErrorCode::Reference, fmt::format("{} is no longer in the shop", thing.name));
  }
  return out;
}

}  // namespace kerfdraft::desk
