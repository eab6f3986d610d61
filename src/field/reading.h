// A single reading (or a few repeats of it): raw numbers to pressure, speed and flow with density of the day,
// uncertainty budget, and the classic mistakes said.
#pragma once

#include <string_view>
#include <vector>

#include "field/claim.h"
#include "field/measurement.h"

namespace kerfdraft::field {

/// Where in the duct it was read, and so what it says of the mean.
enum class Place {
  Unstated,  ///< taken as the mean, with a wide spread, and said
  Mean,      ///< stands for the mean of the section (a mean already, or the hood tap)
  Centre     ///< the axis of the duct: × 0.9 (common practice)
};

struct Reading {
  Instrument instrument;
  Legs legs = Legs::Unstated;
  std::vector<Sample> repeats;  ///< one or more readings of the same thing
  Place place = Place::Unstated;
  bool mean_of_pressures = false;  ///< the person averaged pressures before writing them down
  std::optional<Section> section;  ///< none: speed only
  AirOfDay air;
  Claim claim;
};

/// Centre reading to mean, common practice; fully developed profiles have 0.79 to 0.87, short runs up to
/// 0.99.
inline constexpr double kCentreFactor = 0.9;
inline constexpr double kCentreHalfWidth = 0.09;

/// The evaluation model of a reading.
MeasurementModel readingModel(const Reading& reading);

/// Refuses what measure() refuses, legs of anything but a U-tube, and repeats without a second leg.
base::Result<Measured> measureReading(const Reading& reading, std::string_view where = {});

}  // namespace kerfdraft::field
