// What kerfdraft reading and kerfdraft traverse have in common on the command line: the instrument, the duct,
// the air and a claimed result, as typed; and their reading into the field room's values.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "cli/option_list.h"
#include "field/claim.h"
#include "field/measurement.h"

namespace kerfdraft::cli {

/// The instrument. Every field is text as typed; "" takes the default.
struct InstrumentOptions {
  std::string instrument;          ///< u-tube (default), inclined, reservoir, digital, vane, hot-wire
  std::string probe;               ///< pitot (default), type-s, hood: what the gauge is connected to
  std::string coefficient;         ///< of the tube (default 1.00, type-s 0.84) or Ce of the hood
  std::string coefficient_within;  ///< half width of it; default 0.01, type-s 0.03, hood 0.05
  std::string entry_loss;          ///< Fh of the hood on velocity pressure, in place of Ce
  std::string probe_diameter;      ///< of tube or head, "5/16 in"
  std::string graduation;          ///< one division of a liquid scale, "0.1 in", "1 mm", "0.02 in w.g."
  std::string slope;               ///< of an inclined leg: "1:10", "0.1" (rise per length) or "5.74 deg"
  std::string well_ratio;          ///< leg area / reservoir area where the scale does not allow for it
  std::string liquid;          ///< specific gravity of the liquid in the tube, default 0.9982 (water, 20 °C)
  std::string scale_liquid;    ///< specific gravity the pressure scale was made for; default: that liquid
  std::string resolution;      ///< last digit of a display, "1 Pa", "0.01 m/s"
  std::string accuracy;        ///< maker's limit of reading, "1.5 %"
  std::string range_accuracy;  ///< maker's limit of range, "0.25 %"
  std::string range;           ///< greatest reading, "2500 Pa", "30 m/s"
  std::string calibration;     ///< density a hot wire was calibrated for; default standard air, 0.075 lb/ft3
};

struct DuctOptions {
  std::string bore;   ///< of a round duct, "4 in"
  std::string width;  ///< of a rectangular duct: along its lines of points runs the height
  std::string height;
  std::string bore_within;  ///< standard uncertainty of bore or sides where measured, "0.5 mm"; default 3 %
};

struct AirOptions {
  std::string temperature;      ///< "70 °F", "21 C"
  std::string altitude;         ///< "1900 m"
  std::string barometer;        ///< station pressure, "805 hPa"
  std::string humidity;         ///< relative, "45 %"
  std::string density;          ///< of the room air, "0.075 lb/ft3"; stands above the others
  std::string static_pressure;  ///< in the duct at the plane, "-3 in w.g."
};

struct ReadInstrument {
  field::Instrument instrument;
  bool length_scale = false;  ///< readings are lengths
};

/// The instrument, with its scale as the first reading's unit makes it ("in" is a length, "in w.g." a
/// pressure). Options that the instrument does not have are refused by name.
base::Result<ReadInstrument> readInstrument(const InstrumentOptions& options, std::string_view first_reading);

/// Nothing where neither bore nor sides are given.
base::Result<std::optional<field::Section>> readSection(const DuctOptions& options);

base::Result<field::AirOfDay> readAir(const AirOptions& options);

/// A speed or a flow: "440 cfm", "5000 fpm". Nothing for "".
base::Result<field::Claim> readClaim(const std::string& text);

/// One reading in the instrument's kind.
base::Result<double> readRaw(const ReadInstrument& instrument, std::string_view text, std::string_view where);

/// The units asked for, or those in which the bore or the reading was typed.
base::UnitSystem unitsOf(std::optional<base::UnitSystem> asked, const std::string& bore,
                         std::string_view reading);

/// "", "both", "each", "one"; traverses and readings allow different ones.
base::Result<field::Legs> readLegs(const std::string& text, bool with_each);

void declareOptions(OptionList& list, InstrumentOptions& options);
void declareOptions(OptionList& list, DuctOptions& options);
void declareOptions(OptionList& list, AirOptions& options);

/// What reading and traverse share: the instrument, the duct, the air, and how the result is told.
template <class Options>
void declareMeasuring(OptionList& list, Options& options) {
  declareOptions(list, options.instrument);
  declareOptions(list, options.duct);
  declareOptions(list, options.air);
  list.flag("--steps", options.steps, "Every formula with its inputs");
  list.flag("--json", options.json, "As JSON, in SI units");
}

}  // namespace kerfdraft::cli
