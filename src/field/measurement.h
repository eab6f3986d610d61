// One evaluation for single readings and traverses alike: samples to pressures, pressures to speeds, the mean
// of the speeds, factors, area, flow. Written once; instantiated for value, explanation, budget and sampling.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "base/law.h"
#include "base/result.h"
#include "field/air_of_day.h"
#include "field/budget.h"
#include "field/instruments.h"
#include "field/notice.h"

namespace kerfdraft::field {

/// What the numbers of a U-tube are.
enum class Legs {
  Unstated,   ///< taken as the difference of the two levels, and said
  Summed,     ///< the difference of the two levels: rise in one leg plus fall in the other
  Each,       ///< both movements given, each from its zero
  OneDoubled  ///< one leg's movement: doubled
};

/// One reading of the instrument: [m], [Pa] or [m/s], as rawKind() says.
struct Sample {
  double raw = 0;
  double other_leg = 0;  ///< of a U-tube with Legs::Each
  double weight = 1;     ///< in the mean; above 1 where it stands for a missing neighbour too
};

struct RoundSection {
  double bore_m = 0;
};
struct RectangularSection {
  double width_m = 0;
  double height_m = 0;
};

/// The duct where it was measured, and how well its size is known.
struct Section {
  std::variant<RoundSection, RectangularSection> shape;
  double relative_standard = 0.03;  ///< of each side; 3 % where typed from nominal (model of record, 9)
  double absolute_standard_m = 0;   ///< instead, where it is above 0
  std::string source = "entered as nominal; 3 % common practice";
};

/// Refuses bores and sides outside 10 mm to 3 m.
base::Result<void> checkSection(const Section& section, std::string_view where = {});

double sectionArea(const Section& section);

/// Everything a measurement depends on.
struct MeasurementModel {
  Instrument instrument;
  Legs legs = Legs::Summed;
  std::vector<Sample> samples;
  std::vector<Uncertain> factors;  ///< of speed: place, integration, repeatability …
  std::optional<Section> section;  ///< none: speed only
  AirOfDay air;
};

/// The result of a measurement: values at the plane, and referred to standard air by mass.
struct Measured {
  double density_kg_m3 = 0;   ///< at the plane
  double pressure_pa = 0;     ///< mean of the pressures read; 0 for a speed meter
  double speed_m_s = 0;       ///< mean of the section
  double flow_m3_s = 0;       ///< actual; 0 without a section
  double room_flow_m3_s = 0;  ///< at the density of the room
  double mass_flow_kg_s = 0;
  std::vector<double> sample_pressures_pa;
  std::vector<double> sample_speeds_m_s;  ///< before factors
  double rms_speed_m_s = 0;               ///< what averaging the pressures would give, with the same factors
  Budget speed;
  Budget flow;                    ///< empty without a section
  double smallest_useful_pa = 0;  ///< pressure at which the gauge alone leaves ±20 % of speed (k = 2)
  double smallest_useful_m_s = 0;
  std::vector<base::Step> steps;
  std::vector<Notice> notices;
};

/// Evaluates the model. Refused: no sample, a negative or absurd pressure or speed (with what to do), a
/// section or instrument out of range. A sample of 0 is a speed too low to see: it enters as 0 with the
/// speed of the gauge's own uncertainty.
base::Result<Measured> measure(const MeasurementModel& model, std::string_view where = {});

/// The inputs of the model in the order of evaluation.
std::vector<Uncertain> inputsOf(const MeasurementModel& model);

/// Speed and flow for other values of those inputs: sampling, differences.
struct SpeedAndFlow {
  double speed_m_s = 0;
  double flow_m3_s = 0;
};
SpeedAndFlow evaluateAt(const MeasurementModel& model, std::span<const double> inputs);

}  // namespace kerfdraft::field
