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
constexpr Column mayName(std::string_view name, std::string_view refers_to) {
  return {.name = name, .refers_to = refers_to};
}
constexpr Column needWord(std::string_view name, std::string_view one_of) {
  return {.name = name, .required = true, .one_of = one_of};
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
constexpr std::array kHoses = {needWord("inside", "smooth|ribbed"), needWord("lay", "tight|hung|slack"),
                               need("friction_factor", Kind::Ratio, 0.5, 50),
                               need("reference_roughness", Kind::Bore, 0, kMostRoughness),
                               need("cuff_leakage_class", Kind::Ratio, 0, 1000)};
constexpr std::array kHoseBend = {needText("column"), need("radius_ratio", Kind::Ratio, 0.1, 100),
                                  need("k", Kind::Ratio, 0, 100)};
constexpr std::array kBores = {
    need("nominal", Kind::Bore, kLeastBore, kMostBore), needWord("system", "inch|metric|plastic"),
    number("outside", Kind::Bore, kLeastBore, kMostBore), number("wall", Kind::Bore, 0, 0.2),
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
constexpr std::array kGates = {need("leak_slot", Kind::Bore, 0, 0.02), needWord("blade", "straight|round")};

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

// --- machines and what they need ---

constexpr double kMostFlow = 50;    // m3/s
constexpr double kMostSpeed = 100;  // m/s
constexpr double kMostSuction = 101e3;

constexpr std::array kAuthorities = {
    text("country"), needWord("force", "law|technical rule|standard|guidance|practice|superseded")};
constexpr std::array kMachineKinds = {text("ports"),
                                      need("port_bore", Kind::Bore, kLeastBore, kMostBore),
                                      need("port_count", Kind::Ratio, 1, 40),
                                      need("openings", Kind::Area, 0, 20),
                                      need("internals", Kind::Ratio, 0, 100),
                                      needText("hood", "hoods"),
                                      needText("chips", "transport_rules"),
                                      needText("waste", "bulking"),
                                      needText("suction_group", "connection_suctions")};
constexpr std::array kRequirements = {needText("machine", "machine_kinds"),
                                      needText("authority", "authorities"),
                                      text("size"),
                                      number("size_over", Kind::Bore, 0, 10),
                                      number("size_from", Kind::Bore, 0, 10),
                                      number("size_to", Kind::Bore, 0, 10),
                                      number("size_below", Kind::Bore, 0, 10),
                                      text("conditions"),
                                      text("port"),
                                      needWord("per", "machine|port|area"),
                                      number("floor_flow", Kind::VolumeFlow, 0, kMostFlow),
                                      number("floor_flow_to", Kind::VolumeFlow, 0, kMostFlow),
                                      number("target_flow", Kind::VolumeFlow, 0, kMostFlow),
                                      number("target_flow_to", Kind::VolumeFlow, 0, kMostFlow),
                                      number("face_speed", Kind::Speed, 0, kMostSpeed),
                                      number("face_speed_to", Kind::Speed, 0, kMostSpeed),
                                      number("velocity", Kind::Speed, 0, kMostSpeed),
                                      number("bore", Kind::Bore, kLeastBore, kMostBore),
                                      text("port_bores"),
                                      number("suction", Kind::Pressure, 0, kMostSuction),
                                      number("suction_to", Kind::Pressure, 0, kMostSuction)};
constexpr std::array kSuctions = {need("suction", Kind::Pressure, 0, kMostSuction),
                                  number("suction_to", Kind::Pressure, 0, kMostSuction)};
constexpr std::array kEmissionLists = {needWord("list", "low emission|short use|limit not presumed kept"),
                                       number("time", Kind::Time, 0, 86400)};

// --- materials, conveying, exposure ---

constexpr std::array kTransportVelocities = {
    needText("material", "transport_rules"), needText("authority", "authorities"),
    needWord("place", "any|connection|branch|main"), need("speed", Kind::Speed, 0.1, kMostSpeed),
    number("speed_to", Kind::Speed, 0.1, kMostSpeed)};
constexpr std::array kTransportRules = {need("advised_branch", Kind::Speed, 0.1, kMostSpeed),
                                        need("advised_main", Kind::Speed, 0.1, kMostSpeed),
                                        need("note_below", Kind::Speed, 0.1, kMostSpeed),
                                        need("caution_below", Kind::Speed, 0.1, kMostSpeed),
                                        need("not_carried_below", Kind::Speed, 0.1, kMostSpeed),
                                        need("high_above", Kind::Speed, 0.1, kMostSpeed),
                                        yesNo("damp")};
constexpr std::array kWoods = {needWord("group", "hardwood|softwood|board"),
                               number("specific_gravity", Kind::Ratio, 0.05, 1.5),
                               number("density", Kind::Density, 50, 1500),
                               number("density_to", Kind::Density, 50, 1500), yesNo("sensitizer")};
constexpr std::array kBulking = {need("factor", Kind::Ratio, 1, 50), number("factor_to", Kind::Ratio, 1, 50),
                                 number("bulk_density", Kind::Density, 10, 1000),
                                 number("bulk_density_to", Kind::Density, 10, 1000)};
constexpr std::array kCapture = {need("speed", Kind::Speed, 0, kMostSpeed),
                                 number("speed_to", Kind::Speed, 0, kMostSpeed)};
constexpr std::array kLimits = {needText("body"),
                                needText("country"),
                                needText("wood"),
                                need("limit_mg_m3", Kind::Ratio, 0, 1000),
                                number("short_term_mg_m3", Kind::Ratio, 0, 1000),
                                needWord("fraction", "total|inhalable|respirable"),
                                text("date"),
                                needWord("force", "law|recommendation|none")};

// --- motors, fans, prices ---

constexpr double kMostPower = 1e6;
constexpr std::array kMotorCurrents = {
    need("power", Kind::Power, 1, kMostPower), need("phases", Kind::Ratio, 1, 3),
    need("volts", Kind::Ratio, 12, 15000),     need("hertz", Kind::Ratio, 50, 60),
    need("current", Kind::Current, 0.01, 1e4), number("current_to", Kind::Current, 0.01, 1e4)};
constexpr std::array kTestFans = {text("like"), need("shutoff", Kind::Pressure, 1, kMostSuction),
                                  need("free_flow", Kind::VolumeFlow, 1e-4, kMostFlow),
                                  number("motor", Kind::Power, 1, kMostPower),
                                  number("wheel", Kind::Bore, 0.01, 5)};
constexpr std::array kCollectorSizes = {need("motor", Kind::Power, 1, kMostPower),
                                        number("motor_to", Kind::Power, 1, kMostPower),
                                        need("wheel", Kind::Bore, 0.01, 5),
                                        need("wheel_to", Kind::Bore, 0.01, 5),
                                        need("shutoff", Kind::Pressure, 1, kMostSuction),
                                        need("shutoff_to", Kind::Pressure, 1, kMostSuction),
                                        need("free_air", Kind::VolumeFlow, 0, kMostFlow),
                                        need("free_air_to", Kind::VolumeFlow, 0, kMostFlow),
                                        number("real_4in", Kind::VolumeFlow, 0, kMostFlow),
                                        number("real_4in_to", Kind::VolumeFlow, 0, kMostFlow),
                                        number("real_wide", Kind::VolumeFlow, 0, kMostFlow),
                                        number("real_wide_to", Kind::VolumeFlow, 0, kMostFlow),
                                        text("wide_bore")};
constexpr std::array kPrices = {
    needWord("thing", "duct|hose|gate|automatic gate|elbow|branch|collector|whole plant"),
    text("constructions"),
    number("bore", Kind::Bore, kLeastBore, kMostBore),
    number("power", Kind::Power, 1, kMostPower),
    needWord("per", "piece|ft|m|cfm"),
    need("usd", Kind::Ratio, 0, 1e7),
    number("usd_to", Kind::Ratio, 0, 1e7)};

// --- what gives way under suction, ears, policies, countries ---

constexpr std::array kStrength = {needWord("thing", "duct|hose|container"),
                                  mayName("construction", "constructions"),
                                  mayName("container", "containers"),
                                  number("bore_from", Kind::Bore, 0, kMostBore),
                                  number("bore_to", Kind::Bore, 0, kMostBore),
                                  need("suction", Kind::Pressure, 0, kMostSuction),
                                  need("suction_to", Kind::Pressure, 0, kMostSuction)};
constexpr std::array kContainers = {number("usual_volume", Kind::Volume, 1e-4, 1000)};
constexpr std::array kNoise = {mayName("machine", "machine_kinds"),
                               number("level_from", Kind::Ratio, 30, 140),
                               need("level_to", Kind::Ratio, 30, 140)};
constexpr std::array kNoiseLimits = {needText("body"),
                                     needText("country"),
                                     needWord("level", "lower action|action|limit"),
                                     need("level_db", Kind::Ratio, 30, 140),
                                     need("exchange_db", Kind::Ratio, 1, 10),
                                     needWord("force", "law|recommendation")};
constexpr std::array kPolicySubjects = {text("choices_of")};
constexpr std::array kPolicies = {needText("subject", "policy_subjects"),
                                  needText("choice"),
                                  yesNo("usual"),
                                  number("size", Kind::Bore, 0, 0.1),
                                  number("moisture", Kind::Ratio, 0, 3),
                                  number("pressure", Kind::Pressure, 0, kMostSuction),
                                  number("pressure_to", Kind::Pressure, 0, kMostSuction),
                                  number("dust_mg_m3", Kind::Ratio, 0, 1000),
                                  number("speed", Kind::Speed, 0, kMostSpeed),
                                  number("flow", Kind::VolumeFlow, 0, kMostFlow)};
constexpr std::array kCountries = {yesNo("in_eu")};

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
    {"containers", "Kinds of bin", kContainers, {}, {}},
    {"suction_strength", "Suction that duct, hose and bins bear", kStrength, {}, {}},
    {"roughness", "Published roughness", kRoughness, {}, {}},
    {"authorities", "Who states a figure", kAuthorities, {}, {}},
    {"machine_kinds", "Kinds of machine", kMachineKinds, {}, {}},
    {"requirements", "Air by machine and authority", kRequirements, {}, {}},
    {"connection_suctions", "Suction at the connection", kSuctions, {}, {}},
    {"emission_lists", "Machines without exhaust, or not enough with it", kEmissionLists, {}, {}},
    {"transport_rules", "Working rule of duct velocity", kTransportRules, {}, {}},
    {"transport_velocities", "Published duct velocities", kTransportVelocities, {}, {}},
    {"capture_velocities", "Capture velocities", kCapture, {}, {}},
    {"woods", "Woods and boards", kWoods, {}, {}},
    {"bulking", "Loose volume of waste", kBulking, {}, {}},
    {"limits", "Exposure limits", kLimits, {}, {}},
    {"countries", "Countries and the European Union", kCountries, {}, {}},
    {"noise", "Sound levels of machines", kNoise, {}, {}},
    {"noise_limits", "Limits of noise", kNoiseLimits, {}, {}},
    {"policy_subjects", "Where published rules disagree", kPolicySubjects, {}, {}},
    {"policies", "The sides one can take", kPolicies, {}, {}},
    {"motor_currents", "Motor currents", kMotorCurrents, {}, {}},
    {"collector_sizes", "Collectors by motor", kCollectorSizes, {}, {}},
    {"test_fans", "Invented test fans", kTestFans, {}, {}},
    {"prices", "Rough prices", kPrices, {}, {}},
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
