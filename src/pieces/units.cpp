// One collector: inlet, what stands before the fan, the fan, what stands behind it, and where the air goes.
#include "pieces/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "catalogue/collectors.h"
#include "physics/filter.h"
#include "physics/fittings.h"
#include "physics/opening.h"
#include "physics/velocity_pressure.h"
#include "pieces/corner_fittings.h"
#include "pieces/fans.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

std::string unitLabel(const shop::Collector& collector) {
  return named(collector.label, collector.name);
}

bool filterWasFitted(const shop::Collector& collector) {
  return collector.rating.fitted != shop::Fitted::Nothing && collector.rating.fitted != shop::Fitted::Cyclone;
}

bool cycloneWasFitted(const shop::Collector& collector) {
  return collector.rating.fitted == shop::Fitted::Unknown ||
         collector.rating.fitted == shop::Fitted::Cyclone ||
         collector.rating.fitted == shop::Fitted::CycloneAndFilter;
}

/// In the curve: it is inside, and the test does not say that it was left off.
bool inCurve(const shop::Collector& collector, const shop::Separator& separator) {
  return separator.inside && cycloneWasFitted(collector);
}

const shop::Separator* firstUpstream(const shop::Collector& collector) {
  for (const shop::Separator& separator : collector.separators) {
    if (separator.side == shop::FanSide::Upstream && !inCurve(collector, separator)) {
      return &separator;
    }
  }
  return nullptr;
}

bool anythingUpstream(const shop::Collector& collector) {
  const auto upstream = [](const auto& device) { return device.side == shop::FanSide::Upstream; };
  return std::any_of(collector.separators.begin(), collector.separators.end(), upstream) ||
         std::any_of(collector.filters.begin(), collector.filters.end(), upstream);
}

double bore(const std::optional<base::Given<base::Length>>& given, double otherwise_m) {
  return given ? given->si() : otherwise_m;
}

struct Unit {
  const shop::Collector& shop;
  const Fan& fan;
  std::string label;
};

Result<DraftPiece> separatorPiece(Draft& draft, const Unit& unit, const shop::Separator& separator,
                                  double usual_bore_m) {
  const std::string label = named(unit.label, separator.label.empty() ? separator.kind : separator.label);
  DraftPiece out;
  Piece& piece = out.piece;
  piece.key = {Role::Separator, separator.id, {}};
  piece.label = fmt::format("{}: {}", label, separator.kind.empty() ? "separator" : separator.kind);
  piece.group = Group::Separator;
  piece.bore_m = bore(separator.inlet_bore, usual_bore_m);
  if (!(piece.bore_m > 0)) {
    return fail(ErrorCode::Range, "the bore of a separator's inlet must be above zero", label);
  }
  const auto heads_at = [&](double loss_pa, double flow_m3_s) {
    return loss_pa / physics::velocityPressure(physics::kStandardDensity_kg_m3,
                                               flow_m3_s / physics::roundArea(piece.bore_m));
  };
  double heads = 0;
  if (separator.heads) {
    heads = separator.heads->si();
    piece.source = enteredSource(separator.heads->text(), separator.heads->source());
  } else if (separator.rated_flow && separator.rated_loss) {
    heads = heads_at(separator.rated_loss->si(), separator.rated_flow->si());
    piece.source =
        enteredSource(fmt::format("{} at {}", separator.rated_loss->text(), separator.rated_flow->text()),
                      separator.rated_loss->source());
  } else {
    auto row = catalogue::separator(draft.catalogue, separator.kind);
    if (!row) {
      row.error().where = label;
      return Failure(row.error());
    }
    if (row->heads) {
      heads = *row->heads;
      piece.source = sourceOf(row->origin, fmt::format("{} velocity pressures of the round inlet", heads));
    } else {
      base::check(row->loss_at_rated_flow_pa.has_value(), "a separator's row has neither heads nor a loss");
      const double flow_m3_s =
          separator.rated_flow ? separator.rated_flow->si() : flowAtHalfSuction(unit.fan);
      heads = heads_at(*row->loss_at_rated_flow_pa, flow_m3_s);
      piece.source = sourceOf(row->origin,
                              fmt::format("{} at {}", draft.say(Kind::Pressure, *row->loss_at_rated_flow_pa),
                                          draft.say(Kind::VolumeFlow, flow_m3_s)));
      if (!separator.rated_flow) {
        draft.note(piece.key,
                   fmt::format("{}: assumed rated flow {}, that of the unit at half its greatest suction",
                               label, draft.say(Kind::VolumeFlow, flow_m3_s)));
      }
    }
  }
  if (!(heads >= 0 && heads < 1e6)) {
    return fail(
        ErrorCode::Range,
        fmt::format("the loss of a separator must be from 0 to a million velocity pressures, not {:.4g}",
                    heads),
        label);
  }
  piece.k_forward = piece.k_reverse = heads;
  return out;
}

std::optional<physics::DropAtFlow> drop(const std::optional<shop::FilterPoint>& point) {
  if (!point) {
    return std::nullopt;
  }
  return physics::DropAtFlow{point->loss.si(), point->flow.si()};
}

Result<DraftPiece> filterPiece(Draft& draft, const Unit& unit, const shop::Filter& filter, double bore_m) {
  const std::string label = named(unit.label, filter.label.empty() ? "filter" : filter.label);
  physics::FilterData data;
  if (filter.area) {
    data.area_m2 = filter.area->si();
  }
  data.clean = drop(filter.clean);
  data.seasoned = drop(filter.seasoned);
  data.due = drop(filter.due);
  const auto resistances = physics::filterResistances(data, flowAtHalfSuction(unit.fan), label);
  if (!resistances) {
    return Failure(resistances.error());
  }
  const bool credited = filter.inside && filterWasFitted(unit.shop);
  const PieceKey key{Role::Filter, filter.id, {}};
  if (filter.inside && !credited) {
    draft.note(
        key, fmt::format("{}: said to be inside the rated unit, but nothing like it was fitted in the test; "
                         "it is charged in full",
                         label));
  }
  if (resistances->clean_assumed || resistances->seasoned_assumed || resistances->due_assumed) {
    std::string states;
    for (const auto& [assumed, name] :
         {std::pair{resistances->clean_assumed, "clean"},
          std::pair{resistances->seasoned_assumed, "seasoned"}, std::pair{resistances->due_assumed, "due"}}) {
      if (assumed) {
        states += states.empty() ? name : fmt::format(", {}", name);
      }
    }
    draft.note(key, fmt::format("{}: assumed pressure drop ({})", label, states));
  }
  FilterPlace place;
  place.id = filter.id;
  place.label = label;
  place.linear_pa_s_m3 = {resistances->clean, resistances->seasoned, resistances->due};
  if (credited) {
    place.in_curve_pa_s_m3 = resistances->clean;
    for (double& state : place.linear_pa_s_m3) {
      state = physics::filterCharged(state, resistances->clean);
    }
  }
  DraftPiece out;
  Piece& piece = out.piece;
  piece.key = key;
  piece.label = fmt::format("{}: filter", label);
  piece.group = Group::Filter;
  piece.bore_m = bore_m;
  piece.linear_pa_s_m3 = place.linear_pa_s_m3[0];
  piece.filter = static_cast<int>(draft.out.filters.size());
  piece.source = {std::string(credited ? physics::kFilterCharged.formula : physics::kFilterLoss.formula),
                  std::string(physics::kFilterLoss.source), physics::kFilterLoss.status};
  draft.out.filters.push_back(std::move(place));
  return out;
}

Result<std::vector<DraftPiece>> devices(Draft& draft, const Unit& unit, shop::FanSide side, double bore_m) {
  std::vector<DraftPiece> out;
  for (const shop::Separator& separator : unit.shop.separators) {
    if (separator.side != side || inCurve(unit.shop, separator)) {
      continue;
    }
    auto piece = separatorPiece(draft, unit, separator, bore_m);
    if (!piece) {
      return Failure(piece.error());
    }
    out.push_back(std::move(*piece));
  }
  for (const shop::Filter& filter : unit.shop.filters) {
    if (filter.side != side) {
      continue;
    }
    auto piece = filterPiece(draft, unit, filter, bore_m);
    if (!piece) {
      return Failure(piece.error());
    }
    out.push_back(std::move(*piece));
  }
  return out;
}

/// The velocity pressure at the outlet of a fan that was rated by fan static or fan total pressure is air
/// that the rating holds: into a bag, a plenum or free air it is lost; into a separator it passes a change of
/// bore.
void addOutletLoss(const Draft& draft, const Unit& unit, std::vector<DraftPiece>& behind, bool duct_follows) {
  if (unit.fan.rated_at_inlet || unit.fan.outlet_bore_m <= 0) {
    return;
  }
  if (!behind.empty() && behind.front().piece.key.role == Role::Separator) {
    if (auto reducer = reducerPiece(draft, {Role::Reducer, unit.shop.id, {}}, unit.label,
                                    unit.fan.outlet_bore_m, behind.front().piece.bore_m, std::nullopt)) {
      behind.insert(behind.begin(), std::move(*reducer));
    }
    return;
  }
  if (behind.empty() && duct_follows) {
    return;  // the duct begins with its own reducer
  }
  DraftPiece out;
  out.piece.key = {Role::Outlet, unit.shop.id, {}};
  out.piece.label = fmt::format("{}: fan outlet", unit.label);
  out.piece.group = Group::Outlet;
  out.piece.bore_m = unit.fan.outlet_bore_m;
  out.piece.k_forward = 1.0;
  out.piece.k_reverse = physics::kOutletSuckingIn;
  out.piece.source = {"the whole velocity pressure is lost", "Idelchik", base::SourceStatus::Published};
  behind.insert(behind.begin(), std::move(out));
}

Run insideRun(const Unit& unit, Id a, Id b, std::string_view part, std::size_t from, std::size_t to,
              double bore_m, std::size_t room) {
  Run run;
  run.key = {Role::Run, a, b};
  run.label = fmt::format("{}: {}", unit.label, part);
  run.from = from;
  run.to = to;
  run.room = room;
  run.start_bore_m = run.end_bore_m = bore_m;
  return run;
}

Result<void> addUnit(Draft& draft, std::size_t index) {
  const shop::Collector& collector = draft.project.collectors[index];
  const UnitNodes& nodes = draft.unit_nodes[index];
  std::optional<double> outlet_bore_m;
  if (collector.outlet_bore) {
    outlet_bore_m = collector.outlet_bore->si();
  }
  auto fan = makeFan(draft,
                     {.key = {Role::Fan, collector.id, {}},
                      .id = collector.id,
                      .label = unitLabel(collector),
                      .inlet_bore_m = collector.inlet_bore.si(),
                      .outlet_bore_m = outlet_bore_m,
                      .non_return = collector.non_return},
                     collector.rating, collector.motor);
  if (!fan) {
    return Failure(fan.error());
  }
  const Unit unit{collector, *fan, unitLabel(collector)};
  const double inlet_m = collector.inlet_bore.si();
  const double outlet_m = outlet_bore_m.value_or(inlet_m);
  const std::size_t room = draft.roomNode(collector.room);

  auto before = devices(draft, unit, shop::FanSide::Upstream, inlet_m);
  if (!before) {
    return Failure(before.error());
  }
  fan->from = nodes.inlet;
  if (!before->empty()) {
    fan->from = draft.addNode(NodeKind::Joint, {Role::Fan, collector.id, {}},
                              fmt::format("{} fan inlet", unit.label));
    Run run = insideRun(unit, before->front().piece.key.a, collector.id, "before the fan", nodes.inlet,
                        fan->from, inlet_m, room);
    draft.addRun(std::move(run), std::move(*before));
  }

  auto behind = devices(draft, unit, shop::FanSide::Downstream, outlet_m);
  if (!behind) {
    return Failure(behind.error());
  }
  addOutletLoss(draft, unit, *behind, nodes.has_outlet_duct);
  const std::size_t goes_to = nodes.has_outlet_duct ? nodes.outlet : draft.roomNode(collector.discharge.room);
  fan->to = goes_to;
  if (!behind->empty()) {
    fan->to = draft.addNode(NodeKind::Joint, {Role::Outlet, collector.id, {}},
                            fmt::format("{} fan outlet", unit.label));
    Run run = insideRun(unit, collector.id, behind->back().piece.key.a, "behind the fan", fan->to, goes_to,
                        outlet_m, room);
    draft.addRun(std::move(run), std::move(*behind));
  }
  draft.out.fans.push_back(std::move(*fan));
  return {};
}

/// Straight bores between a unit's inlet and the last elbow, bend or Y before it; nothing where there is
/// none.
std::optional<double> straightBefore(const Draft& draft, std::size_t run, double bore_m) {
  double straight_m = 0;
  for (std::size_t guard = 0; guard <= draft.out.runs.size(); ++guard) {
    const Run& now = draft.out.runs[run];
    for (auto piece = now.pieces.rbegin(); piece != now.pieces.rend(); ++piece) {
      if (piece->key.role == Role::Elbow || piece->key.role == Role::HoseBend) {
        return straight_m / bore_m;
      }
      straight_m += piece->length_m;
    }
    const NodeKind from = draft.out.nodes[now.from].kind;
    if (from == NodeKind::Junction) {
      return straight_m / bore_m;
    }
    std::size_t upstream = kNowhere;
    for (std::size_t r = 0; r < draft.out.runs.size() && from == NodeKind::Joint; ++r) {
      if (r != run && draft.out.runs[r].to == now.from && draft.out.runs[r].key.role == Role::Run) {
        upstream = upstream == kNowhere ? r : kNowhere - 1;
      }
    }
    if (upstream >= draft.out.runs.size() || straight_m > 5 * bore_m) {
      return std::nullopt;
    }
    run = upstream;
  }
  return std::nullopt;
}

}  // namespace

double inletBore(const shop::Collector& collector) {
  const shop::Separator* first = firstUpstream(collector);
  return first == nullptr ? collector.inlet_bore.si() : bore(first->inlet_bore, collector.inlet_bore.si());
}

void addUnitNodes(Draft& draft, const Drawing& drawing) {
  for (const shop::Collector& collector : draft.project.collectors) {
    UnitNodes nodes;
    nodes.inlet = draft.addNode(NodeKind::Joint, {Role::FanInlet, collector.id, {}},
                                fmt::format("{} inlet", unitLabel(collector)));
    draft.unit_nodes.push_back(nodes);
  }
  for (const Meeting& meeting : drawing.meetings) {
    if (meeting.outlet_of) {
      const shop::Collector& collector = draft.project.collectors[*meeting.outlet_of];
      UnitNodes& nodes = draft.unit_nodes[*meeting.outlet_of];
      nodes.has_outlet_duct = true;
      nodes.outlet = draft.addNode(NodeKind::Joint, {Role::Outlet, {}, collector.id},
                                   fmt::format("{} outlet", unitLabel(collector)));
    }
  }
}

std::vector<DraftPiece> unitInletPieces(const Draft& draft, std::size_t collector, const DrawnLeg& leg) {
  const shop::Collector& unit = draft.project.collectors[collector];
  std::vector<DraftPiece> out;
  if (auto reducer =
          reducerPiece(draft, {Role::Reducer, unit.id, {}}, fmt::format("{} inlet", unitLabel(unit)),
                       leg.bore_m, inletBore(unit), std::nullopt)) {
    out.push_back(std::move(*reducer));
  }
  return out;
}

std::vector<DraftPiece> unitOutletPieces(const Draft& draft, std::size_t collector, const DrawnLeg& leg) {
  const shop::Collector& unit = draft.project.collectors[collector];
  std::vector<DraftPiece> out;
  const bool behind_filter =
      std::any_of(unit.filters.begin(), unit.filters.end(),
                  [](const shop::Filter& filter) { return filter.side == shop::FanSide::Downstream; });
  const bool at_inlet = unit.rating.points.empty() || unit.rating.basis == shop::RatingBasis::StaticAtInlet ||
                        unit.rating.basis == shop::RatingBasis::TotalAtInlet;
  const std::string label = fmt::format("{} outlet", unitLabel(unit));
  if (behind_filter) {
    DraftPiece entry;
    entry.piece.key = {Role::Entry, unit.id, {}};
    entry.piece.label = fmt::format("{}: from the filter's housing into the duct", label);
    entry.piece.group = Group::Hood;
    entry.piece.bore_m = leg.bore_m;
    const auto row = catalogue::hoodForm(draft.catalogue, "flush-wall");
    base::check(row.has_value(), "the catalogue has no flush entrance");
    entry.piece.k_forward = row->entry_loss;
    entry.piece.k_reverse = physics::kHoodBlowingOut;
    entry.piece.source = sourceOf(row->origin, "F of a flush entrance");
    out.push_back(std::move(entry));
  } else if (!at_inlet && unit.outlet_bore) {
    if (auto reducer = reducerPiece(draft, {Role::Reducer, {}, unit.id}, label, unit.outlet_bore->si(),
                                    leg.bore_m, leg.leg->taper)) {
      out.push_back(std::move(*reducer));
    }
  }
  return out;
}

Result<void> addUnits(Draft& draft) {
  for (std::size_t i = 0; i < draft.project.collectors.size(); ++i) {
    if (auto added = addUnit(draft, i); !added) {
      return added;
    }
  }
  return {};
}

void addSystemEffects(Draft& draft) {
  for (std::size_t i = 0; i < draft.project.collectors.size(); ++i) {
    const shop::Collector& collector = draft.project.collectors[i];
    if (anythingUpstream(collector)) {
      continue;
    }
    for (std::size_t r = 0; r < draft.out.runs.size(); ++r) {
      if (draft.out.runs[r].to != draft.unit_nodes[i].inlet) {
        continue;
      }
      const double bore_m = collector.inlet_bore.si();
      const auto straight = straightBefore(draft, r, bore_m);
      const double k = straight ? physics::systemEffect(physics::kDefaultSystemEffect, *straight) : 0.0;
      if (k > 0) {
        Piece piece;
        piece.key = {Role::FanInlet, collector.id, {}};
        piece.label =
            fmt::format("{}: {:.1f} bores of straight duct on its inlet", unitLabel(collector), *straight);
        piece.group = Group::SystemEffect;
        piece.bore_m = bore_m;
        piece.k_forward = k;
        piece.source = {fmt::format("{}, L/D {:.3g}", physics::kSystemEffect.formula, *straight),
                        std::string(physics::kSystemEffect.source), physics::kSystemEffect.status};
        draft.out.runs[r].pieces.push_back(std::move(piece));
        draft.wall_leaks[r].push_back({});
      }
    }
  }
}

}  // namespace kerfdraft::pieces
