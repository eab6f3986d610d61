// The build, step by step: nodes first, then runs, then what needs both.
#include "pieces/build.h"

#include <utility>

#include "pieces/choices.h"
#include "pieces/draft.h"
#include "pieces/drawing.h"
#include "pieces/entries.h"
#include "pieces/junctions.h"
#include "pieces/leaks.h"
#include "pieces/legs.h"
#include "pieces/looks.h"
#include "pieces/rooms.h"
#include "pieces/runs.h"
#include "pieces/units.h"

namespace kerfdraft::pieces {

namespace {

using base::Failure;
using base::Result;

constexpr double kUsualHumidity = 0.5;

Result<physics::AirState> airOfDay(const shop::Air& air) {
  const double humidity = air.humidity ? air.humidity->si() : kUsualHumidity;
  if (air.barometer) {
    return physics::airState(air.temperature.value(), air.barometer->value(), humidity, "air of the day");
  }
  const base::Length altitude = air.altitude ? air.altitude->value() : base::Length(0);
  return physics::airAtAltitude(air.temperature.value(), altitude, humidity, "air of the day");
}

}  // namespace

Result<Pieces> buildPieces(const shop::Project& project, const catalogue::Catalogue& catalogue) {
  if (auto sound = checkChoices(project, catalogue); !sound) {
    return Failure(sound.error());
  }
  Draft draft(project, catalogue);
  auto air = airOfDay(project.air);
  if (!air) {
    return Failure(air.error());
  }
  draft.out.air = *air;
  draft.out.local_density = project.setting.density == shop::DensityMode::Local;
  if (auto done = addRooms(draft); !done) {
    return Failure(done.error());
  }
  if (auto done = addMachines(draft); !done) {
    return Failure(done.error());
  }
  auto drawing = readDrawing(draft);
  if (!drawing) {
    return Failure(drawing.error());
  }
  addUnitNodes(draft, *drawing);
  addMeetingNodes(draft, *drawing);
  const auto runs = addDuctRuns(draft, *drawing);
  if (!runs) {
    return Failure(runs.error());
  }
  if (auto done = addJunctions(draft, *drawing, *runs); !done) {
    return Failure(done.error());
  }
  for (std::size_t d = 0; d < drawing->ducts.size(); ++d) {
    addTaps(draft, drawing->ducts[d], runs->run[d]);
  }
  if (auto done = addUnits(draft); !done) {
    return Failure(done.error());
  }
  addSystemEffects(draft);
  addLeaks(draft);
  markChips(draft);
  settleRooms(draft);
  if (auto done = addNotes(draft, *drawing); !done) {
    return Failure(done.error());
  }
  return std::move(draft.out);
}

}  // namespace kerfdraft::pieces
