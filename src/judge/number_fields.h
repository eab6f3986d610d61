// Which numbers each part of a solution has: name in keys, words, kind, member. Inside the room only.
#pragma once

#include <array>
#include <string_view>

#include "base/quantity.h"
#include "network/solution.h"

namespace kerfdraft::judge {

template <class Owner>
struct NumberField {
  std::string_view name;
  std::string_view words;
  base::Kind kind;
  double Owner::*member;
};

using base::Kind;

inline constexpr std::array<NumberField<network::PieceResult>, 12> kPieceFields{{
    {"flow", "mass flow through", Kind::MassFlow, &network::PieceResult::flow_kg_s},
    {"speed", "mean speed in", Kind::Speed, &network::PieceResult::speed_m_s},
    {"density", "mean density of the air in", Kind::Density, &network::PieceResult::density_kg_m3},
    {"velocity-pressure", "velocity pressure in", Kind::Pressure,
     &network::PieceResult::velocity_pressure_pa},
    {"reynolds", "Reynolds number in", Kind::Ratio, &network::PieceResult::reynolds},
    {"friction-factor", "friction factor of", Kind::Ratio, &network::PieceResult::friction_factor},
    {"coefficient", "velocity pressures lost in", Kind::Ratio, &network::PieceResult::coefficient},
    {"loss", "loss of total pressure in", Kind::Pressure, &network::PieceResult::loss_pa},
    {"total-in", "total pressure before", Kind::Pressure, &network::PieceResult::total_in_pa},
    {"total-out", "total pressure behind", Kind::Pressure, &network::PieceResult::total_out_pa},
    {"static-in", "static pressure before", Kind::Pressure, &network::PieceResult::static_in_pa},
    {"static-out", "static pressure behind", Kind::Pressure, &network::PieceResult::static_out_pa},
}};

inline constexpr std::array<NumberField<network::RunResult>, 8> kRunFields{{
    {"flow-start", "mass flow at the start of", Kind::MassFlow, &network::RunResult::flow_start_kg_s},
    {"flow-end", "mass flow at the end of", Kind::MassFlow, &network::RunResult::flow_end_kg_s},
    {"total-start", "total pressure at the start of", Kind::Pressure, &network::RunResult::total_start_pa},
    {"total-end", "total pressure at the end of", Kind::Pressure, &network::RunResult::total_end_pa},
    {"static-start", "static pressure at the start of", Kind::Pressure, &network::RunResult::static_start_pa},
    {"static-end", "static pressure at the end of", Kind::Pressure, &network::RunResult::static_end_pa},
    {"slowest", "slowest air in", Kind::Speed, &network::RunResult::slowest_m_s},
    {"solids", "solids per air in", Kind::Ratio, &network::RunResult::solids_ratio},
}};

inline constexpr std::array<NumberField<network::PortResult>, 3> kPortFields{{
    {"flow", "flow at room density into", Kind::VolumeFlow, &network::PortResult::flow_m3_s},
    {"speed", "speed in the bore of", Kind::Speed, &network::PortResult::speed_m_s},
    {"hood-static", "static pressure behind the hood of", Kind::Pressure,
     &network::PortResult::hood_static_pa},
}};

inline constexpr std::array<NumberField<network::FanResult>, 5> kFanFields{{
    {"flow", "mass flow through", Kind::MassFlow, &network::FanResult::flow_kg_s},
    {"inlet-flow", "actual flow at the inlet of", Kind::VolumeFlow, &network::FanResult::inlet_flow_m3_s},
    {"rise", "rise of total pressure in", Kind::Pressure, &network::FanResult::rise_pa},
    {"inlet-total", "total pressure before", Kind::Pressure, &network::FanResult::inlet_total_pa},
    {"outlet-total", "total pressure behind", Kind::Pressure, &network::FanResult::outlet_total_pa},
}};

inline constexpr std::array<NumberField<network::OpeningResult>, 3> kOpeningFields{{
    {"flow", "mass flow through", Kind::MassFlow, &network::OpeningResult::flow_kg_s},
    {"speed", "speed through", Kind::Speed, &network::OpeningResult::speed_m_s},
    {"drop", "pressure drop of", Kind::Pressure, &network::OpeningResult::drop_pa},
}};

}  // namespace kerfdraft::judge
