// Options to a reading, and its result as text or JSON.
#include "cli/reading.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "cli/exit_codes.h"
#include "cli/measured_text.h"
#include "cli/shown.h"
#include "field/reading.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

Result<field::Place> readPlace(const std::string& text) {
  if (text.empty()) {
    return field::Place::Unstated;
  }
  if (text == "mean") {
    return field::Place::Mean;
  }
  if (text == "centre" || text == "center") {
    return field::Place::Centre;
  }
  return fail(ErrorCode::Parse, fmt::format("\"{}\" is neither mean nor centre.", text), "--place");
}

Result<std::vector<field::Sample>> readSamples(const ReadingOptions& o, const ReadInstrument& instrument,
                                               field::Legs legs) {
  if (legs == field::Legs::Each ? o.other_leg.size() != o.readings.size() : !o.other_leg.empty()) {
    return fail(ErrorCode::Conflict,
                fmt::format("There are {} readings and {} of the other leg; --legs each takes one for each.",
                            o.readings.size(), o.other_leg.size()),
                "--other-leg");
  }
  std::vector<field::Sample> samples;
  for (std::size_t i = 0; i < o.readings.size(); ++i) {
    const Result<double> raw = readRaw(instrument, o.readings[i], "reading");
    if (!raw) {
      return Failure(raw.error());
    }
    field::Sample sample{*raw, 0, 1};
    if (legs == field::Legs::Each) {
      const Result<double> other = readRaw(instrument, o.other_leg[i], "--other-leg");
      if (!other) {
        return Failure(other.error());
      }
      sample.other_leg = *other;
    }
    samples.push_back(sample);
  }
  return samples;
}

Result<field::Reading> readReading(const ReadingOptions& o) {
  if (o.readings.empty()) {
    return fail(ErrorCode::Parse, "There is no reading; write one like \"1.6 in\".", "reading");
  }
  const Result<ReadInstrument> instrument = readInstrument(o.instrument, o.readings.front());
  if (!instrument) {
    return Failure(instrument.error());
  }
  const Result<field::Legs> legs = readLegs(o.legs, true);
  if (!legs) {
    return Failure(legs.error());
  }
  if (!o.legs.empty() && !field::isUTube(instrument->instrument)) {
    return fail(ErrorCode::Conflict, "Only a U-tube has two legs to read; this instrument has one scale.",
                "--legs");
  }
  const Result<field::Place> place = readPlace(o.place);
  if (!place) {
    return Failure(place.error());
  }
  Result<std::vector<field::Sample>> samples = readSamples(o, *instrument, *legs);
  if (!samples) {
    return Failure(samples.error());
  }
  const auto section = readSection(o.duct);
  if (!section) {
    return Failure(section.error());
  }
  Result<field::AirOfDay> air = readAir(o.air);
  if (!air) {
    return Failure(air.error());
  }
  const Result<field::Claim> claim = readClaim(o.claimed);
  if (!claim) {
    return Failure(claim.error());
  }
  if (claim->flow_m3_s && !*section) {
    return fail(ErrorCode::Conflict, "A claimed flow can be compared only where the duct is given (--bore).",
                "--claimed");
  }
  return field::Reading{instrument->instrument, *legs,    std::move(*samples), *place,
                        o.mean_of_pressures,    *section, std::move(*air),     *claim};
}

}  // namespace

int runReading(const ReadingOptions& o, std::ostream& out, std::ostream& err) {
  const Result<field::Reading> reading = readReading(o);
  if (!reading) {
    return refuse(reading.error(), err);
  }
  const Result<field::Measured> measured = field::measureReading(*reading, "reading");
  if (!measured) {
    return refuse(measured.error(), err);
  }
  const base::UnitSystem units =
      unitsOf(o.common.units, o.duct.bore.empty() ? o.duct.width : o.duct.bore, o.readings.front());
  if (o.json) {
    nlohmann::json document = measuredJson(*measured, units);
    document["kind"] = "reading";
    document["format"] = 1;
    document["date"] = o.common.date;
    document["units"] = toText(units);
    return deliver(document.dump(2) + '\n', o.common, kAllServed, out, err);
  }
  return deliver(dayLine(o.common) + measuredText(*measured, reading->air, units, o.steps), o.common,
                 kAllServed, out, err);
}

void declareOptions(OptionList& list, ReadingOptions& o) {
  list.required("reading", "TEXT", &o.readings,
                "What was read, with its unit; more than one of the same thing");
  list.option("--legs", "WORD", &o.legs,
              "U-tube: both (difference of the levels), one (one leg's movement), each");
  list.option("--other-leg", "TEXT", &o.other_leg, "With --legs each: the other leg, one for each reading");
  list.option("--place", "WORD", &o.place, "mean or centre of the duct");
  list.flag("--mean-of-pressures", o.mean_of_pressures, "The reading is itself a mean of pressures");
  list.option("--claimed", "TEXT", &o.claimed, "A speed or flow that somebody made of it");
  declareMeasuring(list, o);
  list.common(o.common);
  list.footer(
      "Examples:\n"
      "  kerfdraft reading \"1.6 in\" --legs both --place mean --bore \"4 in\"\n"
      "  kerfdraft reading \"310 Pa\" --instrument digital --accuracy \"1 %\" --place centre --bore \"150 "
      "mm\"\n"
      "  kerfdraft reading \"2.4 in w.g.\" --probe hood --entry-loss 0.5 --bore \"4 in\"");
}

}  // namespace kerfdraft::cli
