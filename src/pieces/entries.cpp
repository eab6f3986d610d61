// Machines as bodies, their blowers, and what air loses as it enters a port or a free end.
#include "pieces/entries.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "catalogue/collectors.h"
#include "catalogue/machines.h"
#include "physics/air.h"
#include "physics/hood.h"
#include "physics/opening.h"
#include "pieces/fans.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

constexpr const char* kUnknownHood = "unknown";
constexpr const char* kPlainEnd = "plain-end";

struct EntryLoss {
  double k = 0;
  Source source;
};

Result<EntryLoss> hoodLoss(const Draft& draft, std::string_view form, const std::string& where) {
  auto row = catalogue::hoodForm(draft.catalogue, form);
  if (!row) {
    row.error().where = where;
    return Failure(row.error());
  }
  return EntryLoss{row->entry_loss, sourceOf(row->origin, fmt::format("F of {}", row->name))};
}

/// Nothing is known of the port: the usual hood of its kind of machine and the passages inside.
Result<EntryLoss> assumedLoss(Draft& draft, const shop::Machine& machine, const shop::Port& port,
                              const std::string& where) {
  if (machine.kind.empty()) {
    auto loss = hoodLoss(draft, kUnknownHood, where);
    if (loss) {
      draft.note({Role::Entry, port.id, {}},
                 fmt::format("{}: assumed entry loss of {:.3g} velocity pressures, since "
                             "neither its hood nor its kind of machine is known",
                             where, loss->k));
    }
    return loss;
  }
  auto kind = catalogue::machineKind(draft.catalogue, machine.kind);
  if (!kind) {
    kind.error().where = where;
    return Failure(kind.error());
  }
  auto loss = hoodLoss(draft, kind->hood.empty() ? kUnknownHood : kind->hood, where);
  if (!loss) {
    return Failure(loss.error());
  }
  const double hood_k = loss->k;
  loss->k += kind->internals_heads;
  loss->source = sourceOf(
      kind->origin,
      fmt::format("F = {:.3g} of its usual hood + {:.3g} inside the machine", hood_k, kind->internals_heads));
  draft.note({Role::Entry, port.id, {}},
             fmt::format("{}: assumed entry loss of {:.3g} velocity pressures by its kind of machine, {}",
                         where, loss->k, kind->name));
  return loss;
}

/// The maker measured body and port together, and with all his ports in use.
Result<EntryLoss> makersLoss(const shop::Machine& machine, const shop::Port& port, const std::string& where) {
  std::vector<physics::MakerPair> pairs;
  std::size_t mine = 0;
  for (const shop::Port& other : machine.ports) {
    if (other.maker) {
      mine = other.id == port.id ? pairs.size() : mine;
      pairs.push_back(
          {other.maker->flow.si(), other.maker->suction.si(), other.bore.si(), portLabel(machine, other)});
    }
  }
  const double openings_m2 = machine.openings ? machine.openings->si() : 0.0;
  auto entries = physics::entriesFromPairs(pairs, openings_m2, physics::kStandardDensity_kg_m3);
  if (!entries) {
    if (entries.error().where.empty()) {
      entries.error().where = where;
    }
    return Failure(entries.error());
  }
  const base::Law& law = physics::kEntryFromPair;
  return EntryLoss{(*entries)[mine].entry,
                   {fmt::format("{}: {} at {}{}", law.formula, port.maker->suction.text(),
                                port.maker->flow.text(), openings_m2 > 0 ? ", openings taken out" : ""),
                    port.maker->suction.source(), law.status}};
}

Result<EntryLoss> entryLoss(Draft& draft, const shop::Machine& machine, const shop::Port& port, bool blown,
                            const std::string& where) {
  if (port.entry) {
    if (!(port.entry->si() >= 0)) {
      return fail(ErrorCode::Range,
                  fmt::format("an entry coefficient must not be negative, not {}", port.entry->text()),
                  where);
    }
    return EntryLoss{port.entry->si(), enteredSource(port.entry->text(), port.entry->source())};
  }
  if (blown && machine.ports.size() == 1) {
    return EntryLoss{0, {"the outlet of the machine's own blower", "", base::SourceStatus::Ours}};
  }
  if (port.maker) {
    return makersLoss(machine, port, where);
  }
  if (!port.hood.empty()) {
    return hoodLoss(draft, port.hood, where);
  }
  return assumedLoss(draft, machine, port, where);
}

Result<void> addMachine(Draft& draft, const shop::Machine& machine) {
  const std::string label = named(machine.label, machine.name);
  MachineNodes nodes;
  nodes.body = draft.roomNode(machine.room);
  if (machine.openings) {
    if (!(machine.openings->si() > 0) || !std::isfinite(machine.openings->si())) {
      return fail(ErrorCode::Range,
                  fmt::format("the openings of a machine's body must be above zero, not {}",
                              machine.openings->text()),
                  label);
    }
    Opening opening;
    opening.key = {Role::Opening, machine.id, {}};
    opening.label = fmt::format("{}: openings of the body", label);
    opening.from = nodes.body;
    nodes.body = draft.addNode(NodeKind::Body, {Role::Body, machine.id, {}}, label);
    opening.to = nodes.body;
    opening.area_m2 = machine.openings->si();
    opening.discharge = physics::kDischarge;
    draft.out.openings.push_back(std::move(opening));
  }
  nodes.ports = nodes.body;
  if (machine.blower) {
    const shop::Blower& blower = *machine.blower;
    const double port_bore_m = machine.ports.empty() ? 0.0 : machine.ports.front().bore.si();
    auto fan = makeFan(draft,
                       {.key = {Role::Blower, blower.id, {}},
                        .id = blower.id,
                        .label = blower.label.empty() ? fmt::format("{} blower", label) : blower.label,
                        .inlet_bore_m = port_bore_m,
                        .outlet_bore_m = std::nullopt,
                        .non_return = false},
                       blower.rating, blower.motor);
    if (!fan) {
      return Failure(fan.error());
    }
    nodes.blown = true;
    nodes.ports = draft.addNode(NodeKind::Joint, {Role::Blower, blower.id, {}},
                                fmt::format("{}: behind its blower", label));
    fan->from = nodes.body;
    fan->to = nodes.ports;
    draft.out.fans.push_back(std::move(*fan));
  }
  draft.machine_nodes.push_back(nodes);
  return {};
}

}  // namespace

Result<void> addMachines(Draft& draft) {
  for (const shop::Machine& machine : draft.project.machines) {
    if (auto added = addMachine(draft, machine); !added) {
      return added;
    }
  }
  return {};
}

Result<DraftPiece> portEntry(Draft& draft, const shop::PortRef& ref, Id moved) {
  const std::size_t index = draft.machine(ref.machine);
  const shop::Machine& machine = draft.project.machines[index];
  const shop::Port& port = draft.port(ref);
  const std::string label = portLabel(machine, port);
  if (!(port.bore.si() > 0) || !std::isfinite(port.bore.si())) {
    return fail(ErrorCode::Range,
                fmt::format("the bore of a port must be above zero, not {}", port.bore.text()), label);
  }
  auto loss = entryLoss(draft, machine, port, draft.machine_nodes[index].blown, label);
  if (!loss) {
    return Failure(loss.error());
  }
  DraftPiece out;
  out.piece.key = {Role::Entry, port.id, moved};
  out.piece.label = fmt::format("{}: entry", label);
  out.piece.group = Group::Hood;
  out.piece.bore_m = port.bore.si();
  out.piece.k_forward = loss->k;
  out.piece.k_reverse = physics::kHoodBlowingOut;
  out.piece.source = std::move(loss->source);
  return out;
}

Result<DraftPiece> freeEntry(const Draft& draft, const shop::FreeAir& end, Id duct, const std::string& label,
                             double bore_m) {
  auto loss = hoodLoss(draft, end.form.empty() ? kPlainEnd : end.form, label);
  if (!loss) {
    return Failure(loss.error());
  }
  DraftPiece out;
  out.piece.key = {Role::Entry, duct, {}};
  out.piece.label = fmt::format("{}: open start", label);
  out.piece.group = Group::Hood;
  out.piece.bore_m = bore_m;
  out.piece.k_forward = loss->k;
  out.piece.k_reverse = physics::kHoodBlowingOut;
  out.piece.source = std::move(loss->source);
  return out;
}

}  // namespace kerfdraft::pieces
