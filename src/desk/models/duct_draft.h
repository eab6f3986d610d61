// A duct while it is drawn, and what it becomes: clicks and typed lengths in, edits of the project out. The
// direction of the air, rises and drops, the branch entry, reducers, hose tail and gate are worked out here.
// Without Qt.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/given.h"
#include "base/id.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "desk/models/snap.h"
#include "shop/edit.h"

namespace kerfdraft::desk {

/// Hose at the port, with its two questions.
struct HoseTail {
  base::Given<base::Length> length;
  shop::HoseInside inside = shop::HoseInside::Ribbed;
  shop::HoseHung hung = shop::HoseHung::Hung;
};

/// How the next duct is made; kept from one duct to the next.
struct DuctHabits {
  base::Given<base::Length> bore;
  std::string construction = "spiral-galvanized";
  std::int64_t run_z_um = 0;       ///< height of runs
  std::optional<HoseTail> tail;    ///< where the duct starts at a port
  base::Given<base::Angle> entry;  ///< of a branch into its main: 45° or 30°
  bool gate = true;                ///< one at the end of a branch, or near the port of a main
};

/// Bores that differ by less are one bore [m] (ours: the wall of a pipe), and how a reducer between two
/// others tapers: 15 degrees, common practice, no source.
inline constexpr double kSameBore_m = 5e-4;
base::Given<base::Angle> usualReducer();

/// 4 in or 100 mm, the height of the runs that are there or a foot below the ceiling, 45°.
DuctHabits usualHabits(const shop::Project& project, base::UnitSystem units);

/// An end that no machine, collector or duct is at.
struct LooseEnd {
  bool mouth = true;  ///< air enters here; else it leaves here
  shop::FreeAir air;
};

struct SketchPoint {
  Snapped place;
  std::int64_t z_um = 0;           ///< height of the run that leads on from here
  base::Given<base::Length> bore;  ///< of the leg that is drawn from here
  std::optional<LooseEnd> loose{};
  bool outlet = false;  ///< the place is a collector, and its outlet is meant
};

struct DuctSketch {
  std::vector<SketchPoint> points;  ///< in the order of the clicks
  DuctHabits habits;
};

struct DuctPlan {
  std::vector<shop::Edit> edits;
  std::string words;  ///< "Draw duct D5"
  base::Id duct;
  std::vector<shop::Point> path;   ///< with the air
  std::vector<double> bores_m;     ///< of each leg of the path
  bool reversed = false;           ///< drawn against the air
  std::vector<std::string> notes;  ///< what was worked out and may surprise
};

/// The duct that a sketch means. Refused with a sentence: fewer than two places, two ends that both give or
/// both take air, a port or inlet that has its duct, a main without room for the entry, a tail longer than
/// the duct.
base::Result<DuctPlan> planDuct(const shop::Project& project, const DuctSketch& sketch, base::IdSource& ids);

/// Refused where a port or inlet has its duct already.
base::Result<void> isFree(const shop::Project& project, const Snapped& place);

/// Whether a place ends a duct that begins elsewhere: a port, an inlet, an open end, another duct.
bool endsThere(const Snapped& place);

/// What a person types while drawing.
struct Typed {
  enum class What {
    Length,
    Up,
    Down,
    Height,
    Bore,
    Tail,
    NoTail,
    Entry,
    Mouth,     ///< air enters at the last place
    Outdoors,  ///< air leaves there
    Indoors,
    Outlet  ///< the last place is a collector's outlet
  } what = What::Length;
  double si = 0;  ///< [m] or [rad]
  std::string
      text;  ///< the quantity as typed, with a unit; Mouth, Outdoors, Indoors: the form's key, or empty
  std::optional<shop::HoseInside> inside{};  ///< Tail
  std::optional<shop::HoseHung> hung{};
};

/// "3.2 m", "10 ft 6", "up 2 ft", "down 30 cm", "height 8 ft", "bore 5 in", "hose 3 ft",
/// "hose 3 ft smooth tight", "hose none",
/// "entry 30 deg", "free bellmouth", "outdoors cap-0.75", "indoors", "outlet". Refused with a sentence:
/// anything else, a length that is not above zero, an entry angle that is not between 15° and 90°.
base::Result<Typed> parseTyped(std::string_view text);

/// Refused where the catalogue has no such hood form (of a mouth) or outlet cap or screen.
base::Result<void> looseForm(const catalogue::Catalogue& catalogue, bool mouth, std::string_view key);

/// The length of "10 ft 6", "10' 6 1/2\"", "3.2 m" [m].
base::Result<double> parseLength(std::string_view text);

}  // namespace kerfdraft::desk
