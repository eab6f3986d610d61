// A fan's rating as a person types it: points or a label, what the pressure was, and what becomes of it.
// Without Qt.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "desk/models/change.h"
#include "drawing/chart.h"
#include "physics/fan.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// The fan of a collector or the blower in a machine.
struct FanThing {
  base::Id id;       ///< of the collector or blower
  base::Id machine;  ///< that the blower is in; not valid for a collector
  std::string name;  ///< "collector C1", "blower B1 of machine T2"
  shop::FanRating rating;
  shop::Motor motor;
  std::optional<double> inlet_bore_m;  ///< of a collector, or of the only port of a machine
  std::optional<double> outlet_bore_m;
};

/// The fan that is picked, else the only one. Refused: none, or several and none picked.
base::Result<FanThing> fanThing(const shop::Project& project, const std::set<base::Id>& picked);

/// Flow, pressure, power; the power may be empty.
using TypedPoint = std::array<std::string, 3>;

struct TypedFan {
  shop::RatingBasis basis = shop::RatingBasis::StaticAtInlet;
  shop::Fitted fitted = shop::Fitted::Unknown;
  std::vector<TypedPoint> points{};  ///< wholly empty ones do not count
  std::string free_air_flow{};
  std::string greatest_suction{};
  std::string test_bore{};
  std::string density{};
  std::string speed{};
  base::Standing standing = base::Standing::Maker;  ///< of what is new here
  std::string source{};
  bool operator==(const TypedFan&) const = default;
};

TypedFan typedFan(const shop::FanRating& rating);

/// The rating that was typed; what was not changed keeps its standing and source. Errors: all of them, each
/// with its place ("point 3, flow").
tl::expected<shop::FanRating, std::vector<base::Error>> readFan(const TypedFan& typed,
                                                                const shop::FanRating& before);

/// A table of points: commas, semicolons or tabs; units in the cells, or in the head as "flow (cfm)". Columns
/// in the order flow, pressure, power, unless the head names them otherwise. Errors name the line.
base::Result<std::vector<TypedPoint>> pointsFromTable(std::string_view text, std::string_view name);

/// How a basis and what was fitted are asked for, and why it matters.
struct AskedChoice {
  std::string name;
  std::string help;
};
AskedChoice askedBasis(shop::RatingBasis basis);
AskedChoice askedFitted(shop::Fitted fitted);
inline constexpr std::array kBases{shop::RatingBasis::StaticAtInlet, shop::RatingBasis::TotalAtInlet,
                                   shop::RatingBasis::FanStatic, shop::RatingBasis::FanTotal};
inline constexpr std::array kFittings{shop::Fitted::Unknown, shop::Fitted::Nothing,
                                      shop::Fitted::Bag,     shop::Fitted::Filter,
                                      shop::Fitted::Cyclone, shop::Fitted::CycloneAndFilter};

/// The rating ready for the physics: the same numbers as the solver's. Errors: a curve that cannot be.
base::Result<physics::FanRating> physicsRating(const FanThing& thing, const shop::FanRating& rating);

/// What must be known before the numbers are believed: a rising part, a bore that was assumed, a label.
std::vector<std::string> fanRemarks(const FanThing& thing, const shop::FanRating& rating,
                                    base::UnitSystem units);

/// As typed, and the rise of total pressure that the ducts get. Of a label with its band.
base::Result<drawing::Chart> fanEntryChart(const FanThing& thing, const shop::FanRating& rating);

base::Result<Change> applyFan(const shop::Project& project, const FanThing& thing,
                              const shop::FanRating& rating);

/// The fan's flow in a state if the pressures were of this basis.
struct BasisTrial {
  shop::RatingBasis basis = shop::RatingBasis::StaticAtInlet;
  std::optional<double> flow_m3_s;
  std::string problem;  ///< why there is no flow
};
/// Solves the shop in one state with the rating read in each basis. A label has only one. Asks before each
/// whether it is still wanted; where it is not, the others are left out.
std::vector<BasisTrial> tryBases(
    const shop::Project& project, const catalogue::Catalogue& catalogue, const FanThing& thing,
    const shop::FanRating& rating, std::size_t state,
    const std::function<bool()>& wanted = [] { return true; });
/// "If this were fan total pressure instead, the collector would move 40 cfm less …", one for each other
/// basis.
std::vector<std::string> basisSentences(const std::vector<BasisTrial>& trials, shop::RatingBasis basis,
                                        base::UnitSystem units);

/// The test with the inlet shut, step by step; the caution stands first.
std::vector<std::string> shutInletSteps();
/// The rating with the reading of that test in it: as the label's suction, or as the point of no flow, with
/// the standing "measured". Refused: no suction, a speed that is not that of the rating.
base::Result<shop::FanRating> withShutInlet(const FanThing& thing, shop::FanRating rating,
                                            std::string_view reading, base::UnitSystem units);

}  // namespace kerfdraft::desk
