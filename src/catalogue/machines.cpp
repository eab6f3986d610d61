// Rows of the machine tables as plain structs.
#include "catalogue/machines.h"

#include <cmath>

namespace kerfdraft::catalogue {
namespace {

using base::Failure;
using base::Result;

Requirement requirementOf(const RowView& row) {
  return {.key = row.key(),
          .name = row.name(),
          .machine = row.text("machine"),
          .authority = row.text("authority"),
          .size = row.text("size"),
          .size_over_m = row.maybe("size_over"),
          .size_from_m = row.maybe("size_from"),
          .size_to_m = row.maybe("size_to"),
          .size_below_m = row.maybe("size_below"),
          .conditions = row.text("conditions"),
          .port = row.text("port"),
          .per = row.text("per"),
          .floor_flow_m3_s = row.maybe("floor_flow"),
          .floor_flow_to_m3_s = row.maybe("floor_flow_to"),
          .target_flow_m3_s = row.maybe("target_flow"),
          .target_flow_to_m3_s = row.maybe("target_flow_to"),
          .face_speed_m_s = row.maybe("face_speed"),
          .face_speed_to_m_s = row.maybe("face_speed_to"),
          .velocity_m_s = row.maybe("velocity"),
          .bore_m = row.maybe("bore"),
          .port_bores = row.text("port_bores"),
          .suction_pa = row.maybe("suction"),
          .suction_to_pa = row.maybe("suction_to"),
          .origin = row.origin()};
}

MotorCurrent motorCurrentOf(const RowView& row) {
  return {.key = row.key(),
          .name = row.name(),
          .power_w = row.number("power"),
          .phases = static_cast<int>(std::lround(row.number("phases"))),
          .volts = row.number("volts"),
          .hertz = row.number("hertz"),
          .current_a = row.number("current"),
          .current_to_a = row.maybe("current_to"),
          .origin = row.origin()};
}

}  // namespace

Result<MachineKind> machineKind(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "machine_kinds", key).map([](const RowView& row) {
    return MachineKind{.key = row.key(),
                       .name = row.name(),
                       .ports = row.text("ports"),
                       .port_bore_m = row.number("port_bore"),
                       .port_count = static_cast<int>(std::lround(row.number("port_count"))),
                       .openings_m2 = row.number("openings"),
                       .internals_heads = row.number("internals"),
                       .hood = row.text("hood"),
                       .chips = row.text("chips"),
                       .waste = row.text("waste"),
                       .suction_group = row.text("suction_group"),
                       .origin = row.origin()};
  });
}

Result<Authority> authority(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "authorities", key).map([](const RowView& row) {
    return Authority{row.key(), row.name(), row.text("country"), row.text("force"), row.origin()};
  });
}

Result<ConnectionSuction> connectionSuction(const Catalogue& catalogue, std::string_view group) {
  return RowView::find(catalogue, "connection_suctions", group).map([](const RowView& row) {
    const double low_pa = row.number("suction");
    return ConnectionSuction{low_pa, row.maybe("suction_to").value_or(low_pa), row.origin()};
  });
}

Result<TestFan> testFan(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "test_fans", key).map([](const RowView& row) {
    return TestFan{row.key(),
                   row.name(),
                   row.text("like"),
                   row.number("shutoff"),
                   row.number("free_flow"),
                   row.maybe("motor"),
                   row.maybe("wheel"),
                   row.origin()};
  });
}

Result<std::vector<Requirement>> requirements(const Catalogue& catalogue, std::string_view machine,
                                              std::string_view authority_key) {
  if (const auto kind = catalogue.row("machine_kinds", machine); !kind) {
    return Failure(kind.error());
  }
  if (!authority_key.empty()) {
    if (const auto known = catalogue.row("authorities", authority_key); !known) {
      return Failure(known.error());
    }
  }
  return catalogue.table("requirements").map([&](const Table* table) {
    std::vector<Requirement> list;
    for (const Row& row : table->rows()) {
      const RowView view(*table, row);
      if (view.text("machine") == machine &&
          (authority_key.empty() || view.text("authority") == authority_key)) {
        list.push_back(requirementOf(view));
      }
    }
    return list;
  });
}

bool sizeFits(const Requirement& r, double size_m) {
  // Bounds are typed in inches or millimetres: a hair of rounding must not move a size across one.
  constexpr double kHair = 1e-9;
  return !(r.size_over_m && size_m <= *r.size_over_m + kHair) &&
         !(r.size_from_m && size_m < *r.size_from_m - kHair) &&
         !(r.size_to_m && size_m > *r.size_to_m + kHair) &&
         !(r.size_below_m && size_m >= *r.size_below_m - kHair);
}

Result<std::vector<Requirement>> requirementsOfSize(const Catalogue& catalogue, std::string_view machine,
                                                    std::string_view authority_key, double size_m) {
  return requirements(catalogue, machine, authority_key).map([&](std::vector<Requirement> list) {
    std::erase_if(list, [&](const Requirement& r) { return !sizeFits(r, size_m); });
    return list;
  });
}

std::optional<MotorCurrent> motorCurrent(const Catalogue& catalogue, double power_w, int phases, double volts,
                                         double hertz) {
  // A motor typed in kilowatts is the same as one in horsepower to within this share.
  constexpr double kSamePower = 0.01;
  std::optional<MotorCurrent> best;
  const Result<const Table*> table = catalogue.table("motor_currents");
  base::check(table.has_value(), "the table of motor currents is missing");
  for (const Row& row : (*table)->rows()) {
    MotorCurrent m = motorCurrentOf(RowView(**table, row));
    if (m.phases == phases && m.volts == volts && m.hertz == hertz &&
        m.power_w >= power_w * (1 - kSamePower) && (!best || m.power_w < best->power_w)) {
      best = std::move(m);
    }
  }
  return best;
}

}  // namespace kerfdraft::catalogue
