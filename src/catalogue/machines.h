// Typed views of the tables of machines, their requirements, motors and invented fans.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

/// What is assumed of a machine of which only the kind is known.
struct MachineKind {
  std::string key;
  std::string name;
  std::string ports;  ///< in words
  double port_bore_m = 0;
  int port_count = 1;
  double openings_m2 = 0;      ///< through which room air enters the body; assumed
  double internals_heads = 0;  ///< velocity pressures of the port lost inside; assumed
  std::string hood;            ///< key of hoods
  std::string chips;           ///< key of transport_rules
  std::string waste;           ///< key of bulking
  std::string suction_group;   ///< key of connection_suctions
  Origin origin;
};

/// What one authority asks for one kind of machine.
struct Requirement {
  std::string key;
  std::string name;
  std::string machine;                 ///< key of machine_kinds
  std::string authority;               ///< key of authorities
  std::string size;                    ///< in words
  std::optional<double> size_over_m;   ///< excluded
  std::optional<double> size_from_m;   ///< included
  std::optional<double> size_to_m;     ///< included
  std::optional<double> size_below_m;  ///< excluded
  std::string conditions;
  std::string port;  ///< "guard", "base", …; "" for the machine's only port or all of them
  std::string per;   ///< "machine", "port", "area" (then face_speed)
  std::optional<double> floor_flow_m3_s;      ///< least: chips carried, or what a rule accepts
  std::optional<double> floor_flow_to_m3_s;   ///< upper end where the least is a range
  std::optional<double> target_flow_m3_s;     ///< design figure
  std::optional<double> target_flow_to_m3_s;  ///< upper end where it is a range
  std::optional<double> face_speed_m_s;
  std::optional<double> face_speed_to_m_s;
  std::optional<double> velocity_m_s;  ///< in the connection or the branch
  std::optional<double> bore_m;        ///< of the connection
  std::string port_bores;              ///< in words
  std::optional<double> suction_pa;
  std::optional<double> suction_to_pa;
  Origin origin;
};

struct Authority {
  std::string key;
  std::string name;
  std::string country;
  std::string force;  ///< "law", "technical rule", "standard", "guidance", "practice", "superseded"
  Origin origin;
};

/// Suction to allow at a machine's connection where nothing is known.
struct ConnectionSuction {
  double low_pa = 0;
  double high_pa = 0;
  Origin origin;
};

struct MotorCurrent {
  std::string key;
  std::string name;
  double power_w = 0;
  int phases = 1;
  double volts = 0;
  double hertz = 60;
  double current_a = 0;
  std::optional<double> current_to_a;
  Origin origin;
};

/// An invented fan: static pressure = shutoff (1 - (flow/free_flow)^2).
struct TestFan {
  std::string key;
  std::string name;
  std::string like;
  double shutoff_pa = 0;
  double free_flow_m3_s = 0;
  std::optional<double> motor_w;
  std::optional<double> wheel_m;
  Origin origin;
};

base::Result<MachineKind> machineKind(const Catalogue& catalogue, std::string_view key);
base::Result<Authority> authority(const Catalogue& catalogue, std::string_view key);
base::Result<ConnectionSuction> connectionSuction(const Catalogue& catalogue, std::string_view group);
base::Result<TestFan> testFan(const Catalogue& catalogue, std::string_view key);

/// All rows for a machine kind, of one authority or of all where `authority` is empty, in the table's order.
/// None is no error; an unknown machine or authority is one.
base::Result<std::vector<Requirement>> requirements(const Catalogue& catalogue, std::string_view machine,
                                                    std::string_view authority = {});

/// Whether a machine of this size (blade, knife, belt, disc, wheel) falls under the row. A row without bounds
/// takes every size.
bool sizeFits(const Requirement& requirement, double size_m);

/// The rows of requirements() that a machine of this size falls under.
base::Result<std::vector<Requirement>> requirementsOfSize(const Catalogue& catalogue,
                                                          std::string_view machine,
                                                          std::string_view authority, double size_m);

/// The row of the next motor not smaller than `power_w` on this supply; nothing where the table ends.
std::optional<MotorCurrent> motorCurrent(const Catalogue& catalogue, double power_w, int phases, double volts,
                                         double hertz);

}  // namespace kerfdraft::catalogue
