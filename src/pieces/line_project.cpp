// A path of segments and joints first, then the coordinates: the path turns left and right in one plane, and
// may cross itself, since what is joined is stored and never found by nearness.
#include "pieces/line_project.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace kerfdraft::pieces {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Result;

constexpr double kMicrometre_m = 1e-6;
constexpr const char* kConnectorConstruction = "spiral-galvanized";

/// Where a segment begins: the fitting there.
struct Joint {
  double turn_rad = 0;
  std::optional<shop::ElbowForm> elbow;
  std::optional<Given<base::Ratio>> loss;
  bool any() const { return turn_rad > 0 || loss.has_value(); }
};

struct Segment {
  Joint joint;
  shop::Leg leg;
  double length_m = 0;
  std::optional<GateWord> gate;
  std::string where;
};

template <class Q>
Given<Q> computed(double si, std::string_view unit, base::Standing standing = base::Standing::Assumed) {
  Result<Given<Q>> given = Given<Q>::parse(fmt::format("{} {}", si, unit), standing);
  base::check(given.has_value(), "a computed quantity does not parse");
  return std::move(*given);
}

/// Collects the pieces in their order.
class Path {
 public:
  Result<void> add(const LinePiece& piece) {
    where_ = piece.where;
    return std::visit([this](const auto& what) { return put(what); }, piece.what);
  }

  Result<void> finish() {
    if (segments.empty()) {
      return fail(ErrorCode::Parse, "there is no duct or hose in this line", "pieces");
    }
    if (taper_) {
      return fail(ErrorCode::Parse, "behind this taper no other bore follows", taper_where_);
    }
    if (joint_.any()) {
      connector(lastBore(), {});
    }
    return {};
  }

  std::vector<Segment> segments;
  std::optional<HoodWord> hood;
  std::string machine_kind;
  std::optional<Given<base::Length>> port_bore;
  std::vector<shop::Separator> separators;
  std::vector<shop::Filter> filters;

 private:
  Result<void> first(std::string_view what) const {
    if (hood || !machine_kind.empty()) {
      return fail(ErrorCode::Conflict, "this line already begins at a hood or machine; a line has one path",
                  where_);
    }
    if (!segments.empty()) {
      return fail(ErrorCode::Conflict, fmt::format("the {} comes first; the pieces follow the air", what),
                  where_);
    }
    return {};
  }

  Result<void> put(const HoodWord& word) {
    if (Result<void> fine = first("hood"); !fine) {
      return fine;
    }
    hood = word;
    return {};
  }

  Result<void> put(const MachineWord& word) {
    if (Result<void> fine = first("machine"); !fine) {
      return fine;
    }
    machine_kind = word.kind;
    return {};
  }

  Result<void> put(const PortWord& word) {
    if (port_bore || !segments.empty()) {
      return fail(ErrorCode::Conflict, "the port is said once, before the first duct or hose", where_);
    }
    port_bore = word.bore;
    return {};
  }

  Result<void> put(const BoreWord& word) {
    shop::Leg leg;
    leg.bore = word.bore;
    leg.construction = word.hose ? std::string() : word.construction;
    leg.hose = word.hose;
    const double each_m = word.length.si() / (word.bends + 1);
    for (int i = 0; i <= word.bends; ++i) {
      if (i > 0) {
        joint_.turn_rad = std::numbers::pi / 2;
      }
      if (Result<void> fine = push(leg, each_m); !fine) {
        return fine;
      }
    }
    return {};
  }

  Result<void> put(const ElbowWord& word) {
    const std::optional<Given<base::Length>> bore = word.bore ? word.bore : knownBore();
    if (!bore) {
      return fail(ErrorCode::Parse, "the bore of this elbow is not known yet; write it like \"elbow 4 in\"",
                  where_);
    }
    for (int i = 0; i < word.count; ++i) {
      // An elbow stands on duct of its own bore; hose before it would make it a bend of hose.
      if (joint_.any() || segments.empty() || segments.back().leg.hose ||
          segments.back().leg.bore.si() != bore->si()) {
        if (Result<void> fine = connector(*bore, {}); !fine) {
          return fine;
        }
      }
      joint_.turn_rad = word.angle.si();
      if (!word.form.empty() || word.radius) {
        joint_.elbow = shop::ElbowForm{word.form, word.radius};
      }
    }
    return {};
  }

  Result<void> put(const TaperWord& word) {
    taper_ = word.angle;
    taper_where_ = where_;
    return {};
  }

  Result<void> put(const LossWord& word) {
    const std::optional<Given<base::Length>> bore = knownBore();
    if (!bore) {
      return fail(ErrorCode::Parse, "the bore at this loss is not known yet; put it behind a duct or hose",
                  where_);
    }
    if (joint_.any() || segments.empty()) {
      if (Result<void> fine = connector(*bore, {}); !fine) {
        return fine;
      }
    }
    joint_.loss = word.coefficient;
    return connector(*bore, {});
  }

  Result<void> put(const GateWord& word) {
    const std::optional<Given<base::Length>> bore = word.bore ? word.bore : knownBore();
    if (!bore) {
      return fail(ErrorCode::Parse,
                  "the bore of this gate is not known yet; write it like \"gate 4 in 50 %\"", where_);
    }
    return connector(*bore, word);
  }

  Result<void> put(const shop::Separator& separator) {
    separators.push_back(separator);
    return {};
  }

  Result<void> put(const shop::Filter& filter) {
    filters.push_back(filter);
    return {};
  }

  std::optional<Given<base::Length>> knownBore() const {
    return segments.empty() ? port_bore : std::optional(segments.back().leg.bore);
  }
  Given<base::Length> lastBore() const { return segments.back().leg.bore; }

  Result<void> connector(const Given<base::Length>& bore, std::optional<GateWord> gate) {
    shop::Leg leg;
    leg.bore = bore;
    leg.construction = kConnectorConstruction;
    return push(std::move(leg), kConnector_m, std::move(gate));
  }

  Result<void> push(shop::Leg leg, double length_m, std::optional<GateWord> gate = {}) {
    if (taper_) {
      const std::optional<Given<base::Length>> before = knownBore();
      if (!before || before->si() == leg.bore.si()) {
        return fail(ErrorCode::Conflict, "at this taper the bore does not change", taper_where_);
      }
      leg.taper = taper_;
      taper_.reset();
    }
    segments.push_back(Segment{std::move(joint_), std::move(leg), length_m, std::move(gate), where_});
    joint_ = {};
    return {};
  }

  Joint joint_;
  std::optional<Given<base::Angle>> taper_;
  std::string taper_where_;
  std::string where_;
};

std::int64_t micrometres(double metres) {
  return std::llround(metres / kMicrometre_m);
}

/// The corners and gates of the duct.
shop::Duct drawn(const Path& path, base::IdSource& ids, shop::State& state) {
  shop::Duct duct;
  duct.id = ids.next();
  duct.label = "D1";
  double x_m = 0;
  double y_m = 0;
  double heading_rad = 0;
  double side = 1;
  const auto corner = [&] {
    shop::Corner c;
    c.id = ids.next();
    c.at = {micrometres(x_m), micrometres(y_m), micrometres(1.0)};
    return c;
  };
  for (const Segment& segment : path.segments) {
    heading_rad += side * segment.joint.turn_rad;
    side = segment.joint.turn_rad > 0 ? -side : side;
    shop::Corner c = corner();
    c.leg = segment.leg;
    c.elbow = segment.joint.elbow;
    c.loss = segment.joint.loss;
    if (segment.gate) {
      shop::Gate gate;
      gate.id = ids.next();
      gate.label = fmt::format("G{}", duct.gates.size() + 1);
      gate.corner = c.id;
      gate.distance = computed<base::Length>(segment.length_m / 2, "m");
      gate.slot = segment.gate->worn ? shop::GateSlot::Worn : shop::GateSlot::New;
      state.gates.push_back({gate.id, segment.gate->travel});
      duct.gates.push_back(std::move(gate));
    }
    duct.corners.push_back(std::move(c));
    x_m += segment.length_m * std::cos(heading_rad);
    y_m += segment.length_m * std::sin(heading_rad);
  }
  duct.corners.push_back(corner());
  return duct;
}

shop::Collector unit(const Path& path, const LineRequest& request, base::IdSource& ids) {
  shop::Collector collector;
  collector.id = ids.next();
  collector.label = "C1";
  collector.name = "collector";
  collector.inlet_bore = request.fan_inlet ? *request.fan_inlet : path.segments.back().leg.bore;
  collector.rating = request.rating;
  collector.motor = request.motor;
  collector.separators = path.separators;
  collector.filters = path.filters;
  for (std::size_t i = 0; i < collector.separators.size(); ++i) {
    collector.separators[i].id = ids.next();
    collector.separators[i].label = fmt::format("S{}", i + 1);
  }
  for (std::size_t i = 0; i < collector.filters.size(); ++i) {
    collector.filters[i].id = ids.next();
    collector.filters[i].label = fmt::format("F{}", i + 1);
  }
  return collector;
}

}  // namespace

Result<shop::Project> lineProject(const LineRequest& request) {
  Path path;
  for (const LinePiece& piece : request.pieces) {
    if (const Result<void> fine = path.add(piece); !fine) {
      return Failure(fine.error());
    }
  }
  if (const Result<void> fine = path.finish(); !fine) {
    return Failure(fine.error());
  }

  base::SeededIds ids(1);
  shop::Project project;
  project.setting.name = "one line";
  project.setting.units = request.units;
  project.air = request.air;

  shop::State state;
  state.id = ids.next();
  state.name = "open";
  state.filter = request.filter;

  shop::Machine machine;
  machine.id = ids.next();
  machine.label = "T1";
  machine.name = "machine";
  machine.kind = path.machine_kind;
  machine.width = machine.depth = machine.height = computed<base::Length>(1, "m");
  machine.turned = computed<base::Angle>(0, "rad");
  shop::Port port;
  port.id = ids.next();
  port.label = "P1";
  port.bore = path.port_bore ? *path.port_bore : path.segments.front().leg.bore;
  if (path.hood) {
    port.hood = path.hood->form;
    port.entry = path.hood->entry;
    port.maker = path.hood->maker;
  }
  port.target = request.need;

  shop::Duct duct = drawn(path, ids, state);
  port.at = duct.corners.front().at;
  duct.from = shop::PortRef{machine.id, port.id};
  machine.ports.push_back(std::move(port));

  shop::Collector collector = unit(path, request, ids);
  collector.at = duct.corners.back().at;
  duct.to = shop::CollectorInlet{collector.id};

  project.machines.push_back(std::move(machine));
  project.ducts.push_back(std::move(duct));
  project.collectors.push_back(std::move(collector));
  project.states.push_back(std::move(state));
  return project;
}

}  // namespace kerfdraft::pieces
