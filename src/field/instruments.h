// Instruments as data: what is read, how fine, and how far it can be trusted. Defaults are common practice of
// the trade without a source unless a line says otherwise; every one can be set.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "base/quantity.h"
#include "base/result.h"
#include "physics/air.h"

namespace kerfdraft::field {

/// Specific gravity of water at 20 °C against conventional water (998.2 kg/m3; from memory of water tables).
inline constexpr double kWaterAt20C = 0.9982;

/// Glass and liquid: the pressure lifts a column.
struct ColumnGauge {
  enum class Form {
    UTube,     ///< two equal legs, upright
    Inclined,  ///< one leg at a slope, the other end a reservoir
    Reservoir  ///< one upright leg, the other end a reservoir (well)
  };
  enum class Scale {
    Length,   ///< read as a length along the leg
    Pressure  ///< marked in pressure by its maker
  };
  Form form = Form::UTube;
  Scale scale = Scale::Length;
  double graduation = 0.1 * 0.0254;   ///< one scale division [m], or [Pa] on a pressure scale
  double rise = 1;                    ///< height per length along the leg: 1 upright, 0.1 for 1:10
  double rise_half_width = 0;         ///< of the slope and of levelling
  double well_ratio = 0;              ///< area of the leg / area of the reservoir
  bool scale_allows_for_well = true;  ///< the scale was shortened by 1/(1 + a/Aw) when it was made
  double specific_gravity = kWaterAt20C;
  double specific_gravity_half_width = 0.002;  ///< water between 10 and 30 °C, and local gravity
  std::optional<double> scale_gravity;         ///< liquid the pressure scale was made for; none: that in use
};

/// A gauge with a display. The two accuracies are a maker's limits, taken as half widths.
struct DigitalGauge {
  double resolution_pa = 1;
  double accuracy_of_reading = 0.015;
  double accuracy_of_range = 0.0025;
  double range_pa = 2500;
};

using Gauge = std::variant<ColumnGauge, DigitalGauge>;

/// What the gauge is connected to.
struct Probe {
  enum class Form {
    PitotStatic,  ///< C 1.00 within 1 % [Iso3966, from memory]
    TypeS,        ///< C 0.84 unless calibrated [Epa40Cfr60M2, from memory]
    HoodTap       ///< static tap behind a hood; `coefficient` is the coefficient of entry Ce
  };
  Form form = Form::PitotStatic;
  double coefficient = 1.0;
  double coefficient_half_width = 0.01;
  double alignment_half_width = 0.01;  ///< of speed, for up to 10° of yaw; 0 for a hood tap
  double diameter_m = 0;               ///< of the stem; 0 unknown
};

/// The usual coefficient and spreads of a probe. A hood tap has no usual Ce: set it.
Probe usualProbe(Probe::Form form);

struct PressureInstrument {
  Gauge gauge;
  Probe probe;
};

/// Shows a speed itself.
struct SpeedMeter {
  enum class Form {
    Vane,    ///< turns with the speed itself
    HotWire  ///< feels mass flow and shows the speed of air of its calibration
  };
  Form form = Form::Vane;
  double resolution_m_s = 0.01;
  double accuracy_of_reading = 0.03;
  double accuracy_of_range = 0.005;
  double range_m_s = 30;
  double calibration_kg_m3 = physics::kStandardDensity_kg_m3;  ///< of a hot wire
  double alignment_half_width = 0.02;
  double diameter_m = 0;  ///< of the head; 0 unknown
};

SpeedMeter usualSpeedMeter(SpeedMeter::Form form);

using Instrument = std::variant<PressureInstrument, SpeedMeter>;

/// What a raw reading of this instrument measures: Bore (a length), Pressure or Speed.
base::Kind rawKind(const Instrument& instrument);

bool isUTube(const Instrument& instrument);
bool isHoodTap(const Instrument& instrument);

/// Refuses data that no instrument has (graduation 0, slope above 1, Ce above 1 …) with a sentence.
base::Result<void> checkInstrument(const Instrument& instrument, std::string_view where = {});

}  // namespace kerfdraft::field
