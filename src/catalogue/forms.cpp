// One constant array of columns for each table, and the list of them.
#include "catalogue/forms.h"

#include <array>

namespace kerfdraft::catalogue {
namespace {

using base::Kind;

constexpr double kNoLimit = std::numeric_limits<double>::infinity();
constexpr double kHalfTurn = 3.1416;  // a hair over 180 degrees, so that rounding does not refuse them

constexpr Column text(std::string_view name) {
  return {.name = name};
}
constexpr Column needText(std::string_view name, std::string_view refers_to = {}) {
  return {.name = name, .required = true, .refers_to = refers_to};
}
constexpr Column yesNo(std::string_view name) {
  return {.name = name, .type = CellType::YesNo, .required = true};
}
constexpr Column number(std::string_view name, Kind kind, double least = 0, double most = kNoLimit) {
  return {.name = name, .type = CellType::Number, .kind = kind, .least = least, .most = most};
}
constexpr Column need(std::string_view name, Kind kind, double least = 0, double most = kNoLimit) {
  return {
      .name = name, .type = CellType::Number, .kind = kind, .required = true, .least = least, .most = most};
}

// Bounds are those of this trade, wide enough for every odd shop and narrow enough to catch a slip of units.
constexpr double kLeastBore = 0.005;
constexpr double kMostBore = 3.0;
constexpr double kMostRoughness = 0.02;

// --- ducts, hose, fittings ---

constexpr std::array kConstructions = {need("roughness", Kind::Bore, 0, kMostRoughness),
                                       need("leakage_class", Kind::Ratio, 0, 1000), yesNo("plastic"),
                                       text("gauge_note")};
constexpr std::array kHoses = {needText("inside"), needText("lay"),
                               need("friction_factor", Kind::Ratio, 0.5, 50),
                               need("reference_roughness", Kind::Bore, 0, kMostRoughness),
                               need("cuff_leakage_class", Kind::Ratio, 0, 1000)};
constexpr std::array kHoseBend = {needText("column"), need("radius_ratio", Kind::Ratio, 0.1, 100),
                                  need("k", Kind::Ratio, 0, 100)};
constexpr std::array kBores = {need("nominal", Kind::Bore, kLeastBore, kMostBore), needText("system"),
                               number("outside", Kind::Bore, kLeastBore, kMostBore),
                               number("wall", Kind::Bore, 0, 0.2),
                               need("bore", Kind::Bore, kLeastBore, kMostBore)};
constexpr std::array kRoughness = {need("roughness", Kind::Bore, 0, kMostRoughness),
                                   number("roughness_to", Kind::Bore, 0, kMostRoughness)};
constexpr std::array kElbows = {text("bore_column"), text("ratio_column"), text("base_column"),
                                number("fixed_k", Kind::Ratio, 0, 100),
                                need("usual_radius_ratio", Kind::Ratio, 0.1, 100)};
constexpr std::array kElbowByBore = {needText("column"), need("bore", Kind::Bore, kLeastBore, kMostBore),
                                     need("k", Kind::Ratio, 0, 100)};
constexpr std::array kElbowByRatio = {needText("column"), need("radius_ratio", Kind::Ratio, 0.1, 100),
                                      need("k", Kind::Ratio, 0, 100)};
constexpr std::array kAngleFactor = {needText("column"), need("angle", Kind::Angle, 0, kHalfTurn),
                                     need("factor", Kind::Ratio, 0, 10)};
constexpr std::array kByAngle = {needText("column"), need("angle", Kind::Angle, 0, kHalfTurn),
                                 need("k", Kind::Ratio, 0, 100)};
constexpr std::array kMitreReynolds = {needText("column"), need("reynolds", Kind::Ratio, 1),
                                       need("factor", Kind::Ratio, 0, 10)};
constexpr std::array kFittings = {need("k", Kind::Ratio, 0, 1000), needText("reference")};
constexpr std::array kCap = {needText("column"), need("clearance_ratio", Kind::Ratio, 0.01, 10),
                             need("k", Kind::Ratio, 0, 100)};
constexpr std::array kScreen = {needText("column"), need("free_area", Kind::Ratio, 0.01, 1),
                                need("k", Kind::Ratio, 0, 1000)};
constexpr std::array kSystemEffect = {needText("column"), need("straight_ratio", Kind::Ratio, 0, 100),
                                      need("k", Kind::Ratio, 0, 100)};

// --- hoods, gates ---

constexpr std::array kHoods = {need("entry_loss", Kind::Ratio, 0, 100), text("valid")};
constexpr std::array kHoodTaper = {needText("column"), need("angle", Kind::Angle, 0, kHalfTurn),
                                   need("entry_loss", Kind::Ratio, 0, 100)};
constexpr std::array kHoodEdge = {needText("column"), need("ratio", Kind::Ratio, 0, 100),
                                  need("entry_loss", Kind::Ratio, 0, 100)};
constexpr std::array kGates = {need("leak_slot", Kind::Bore, 0, 0.02), needText("blade")};

// --- separators, filters, collectors ---

constexpr std::array kSeparators = {number("heads", Kind::Ratio, 0, 100),
                                    number("heads_band", Kind::Ratio, 0, 100),
                                    number("loss_at_rated_flow", Kind::Pressure, 0, 50e3), text("shapes")};
constexpr std::array kCycloneShapes = {
    need("inlet_height", Kind::Ratio, 0.01, 2), need("inlet_width", Kind::Ratio, 0.01, 1),
    need("dust_outlet", Kind::Ratio, 0.01, 1),  need("cylinder", Kind::Ratio, 0.1, 10),
    need("cone", Kind::Ratio, 0, 10),           need("gas_outlet", Kind::Ratio, 0.05, 1),
    need("outlet_depth", Kind::Ratio, 0, 10),   need("inlet_heads", Kind::Ratio, 0, 100),
    number("configuration", Kind::Ratio, 0)};
constexpr std::array kFilters = {
    number("clean", Kind::Pressure, 0, 50e3),    number("seasoned_over_clean", Kind::Ratio, 1, 100),
    number("due", Kind::Pressure, 0, 50e3),      number("due_over_seasoned", Kind::Ratio, 1, 100),
    number("face_speed", Kind::Speed, 1e-4, 10), number("clean_to", Kind::Pressure, 0, 50e3),
    number("seasoned", Kind::Pressure, 0, 50e3), number("seasoned_to", Kind::Pressure, 0, 50e3),
    number("due_to", Kind::Pressure, 0, 50e3)};
constexpr std::array kFilterLoading = {need("face_speed", Kind::Speed, 1e-4, 10),
                                       number("face_speed_to", Kind::Speed, 1e-4, 10)};
constexpr std::array kFilterDust = {need("k2_in_wg_ft2_per_fpm_lb", Kind::Ratio, 0, 1e4)};

constexpr auto kForms = std::to_array<TableForm>({
    {"constructions", "Duct constructions", kConstructions, {}, {}},
    {"hoses", "Hose, by inside and lay", kHoses, {}, {}},
    {"hose_bend_k", "Bends of hose by R/D", kHoseBend, "radius_ratio", "k"},
    {"bores", "Sizes sold and true bores", kBores, {}, {}},
    {"elbows", "Kinds of elbow", kElbows, {}, {}},
    {"elbow_k_by_bore", "Elbows: measured loss by bore", kElbowByBore, "bore", "k"},
    {"elbow_k_by_ratio", "Elbows: loss by R/D", kElbowByRatio, "radius_ratio", "k"},
    {"elbow_angle_factor", "Elbows: factor by angle", kAngleFactor, "angle", "factor"},
    {"mitre_k", "Single mitre by angle", kByAngle, "angle", "k"},
    {"mitre_reynolds_factor", "Mitre: factor by Reynolds number", kMitreReynolds, "reynolds", "factor"},
    {"fittings", "Fittings with one coefficient", kFittings, {}, {}},
    {"outlet_cap_k", "Weather caps by clearance", kCap, "clearance_ratio", "k"},
    {"screen_k", "Screens by free area", kScreen, "free_area", "k"},
    {"system_effect_k", "Elbow at the fan inlet", kSystemEffect, "straight_ratio", "k"},
    {"branch_entry_k", "Branch entries of the hand method", kByAngle, "angle", "k"},
    {"hoods", "Hood forms", kHoods, {}, {}},
    {"hood_taper", "Tapered hoods and conical bellmouths", kHoodTaper, "angle", "entry_loss"},
    {"hood_edge", "Rounded entries and pipes through a wall", kHoodEdge, "ratio", "entry_loss"},
    {"gates", "Blast gates", kGates, {}, {}},
    {"separators", "Separators", kSeparators, {}, {}},
    {"cyclone_shapes", "Cyclone proportions", kCycloneShapes, {}, {}},
    {"filters", "Filters without data", kFilters, {}, {}},
    {"filter_loading", "Filter face speeds", kFilterLoading, {}, {}},
    {"filter_dust", "Resistance of dust on a filter", kFilterDust, {}, {}},
    {"roughness", "Published roughness", kRoughness, {}, {}},
});

}  // namespace

std::span<const TableForm> forms() {
  return kForms;
}

const TableForm* findForm(std::string_view table) {
  for (const TableForm& form : kForms) {
    if (form.name == table) {
      return &form;
    }
  }
  return nullptr;
}

}  // namespace kerfdraft::catalogue
