// The parser's one file: every sub-command with its options, help and examples.
#include "cli/options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <functional>
#include <sstream>
#include <vector>

#include "catalogue/near_keys.h"
#include "cli/exit_codes.h"

namespace kerfdraft::cli {
namespace {

constexpr const char* kVersion =
    "kerfdraft " KERFDRAFT_VERSION "\nFree software under the GNU GPL, version 3 or later. No warranty.\n";

/// All options of one parse. Each sub-command fills its own struct.
struct Store {
  Common common;
  std::string units;
  bool csv = false;
  bool json = false;
  SolveOptions solve;
  SheetOptions sheet;
  ExplainOptions explain;
  LineOptions line;
  ReadingOptions reading;
  TraverseOptions traverse;
  NewOptions fresh;
  CatalogueOptions catalogue;
  CompletionOptions completion;
};

void addOutput(CLI::App* sub, Store& store) {
  sub->add_option("-o,--output", store.common.output, "Write into this file, whole or not at all")
      ->type_name("FILE");
}

void addUnits(CLI::App* sub, Store& store) {
  sub->add_option("--units", store.units, "us or metric; the project's own where not given")
      ->check(CLI::IsMember({"us", "metric"}))
      ->type_name("SYSTEM");
}

void addDate(CLI::App* sub, Store& store) {
  sub->add_option("--date", store.common.date,
                  "Day that stands on the result, 2026-01-15; today where not given")
      ->type_name("DAY");
}

CLI::App* addSolve(CLI::App& app, Store& store) {
  CLI::App* sub = app.add_subcommand("solve", "What every machine of a shop gets, in every state of use");
  SolveOptions& o = store.solve;
  sub->add_option("project", o.project, "Project file of the shop")->required()->type_name("FILE");
  sub->add_option("--state", o.states, "Only this state, by its name; may be given again")->type_name("NAME");
  CLI::Option* each =
      sub->add_flag("--each-gate", o.each_gate, "Each gate alone in place of the project's states");
  sub->add_flag("--gate-sets", o.gate_sets,
                "Every set of gates, summed up; Ctrl-C stops and sums up what was seen")
      ->excludes(each);
  sub->add_flag("--summary", o.summary, "Only the first table: each state with what is open");
  sub->add_flag("--full", o.full, "Shut ports and still runs too");
  CLI::Option* csv = sub->add_flag("--csv", store.csv, "As comma-separated values, in the units shown");
  sub->add_flag("--json", store.json, "As JSON, in SI units (docs/schema/solve-1.schema.json)")
      ->excludes(csv);
  sub->add_option("--threads", o.threads, "Threads for --gate-sets; all cores where not given")
      ->type_name("N");
  addUnits(sub, store);
  addDate(sub, store);
  addOutput(sub, store);
  sub->footer(
      "Exit code: 0 every open port and machine reaches its floor, 1 one does not, 2 bad input,\n"
      "3 a state has no solution.\n\n"
      "Examples:\n"
      "  kerfdraft solve examples/two-car-garage.json\n"
      "  kerfdraft solve my-shop.json --state planer --units metric\n"
      "  kerfdraft solve my-shop.json --each-gate\n"
      "  kerfdraft solve my-shop.json --gate-sets\n"
      "  kerfdraft solve my-shop.json --json -o solved.json");
  return sub;
}

CLI::App* addSheet(CLI::App& app, Store& store) {
  CLI::App* sub = app.add_subcommand("sheet", "The calculation sheet along a path, piece by piece");
  SheetOptions& o = store.sheet;
  sub->add_option("project", o.project, "Project file of the shop")->required()->type_name("FILE");
  sub->add_option("--state", o.state,
                  "State, by its name; the one where a port is shortest of air where not given")
      ->type_name("NAME");
  sub->add_option("--port", o.port, "Port, by label or machine name; the worst of the state where not given")
      ->type_name("NAME");
  CLI::Option* hand =
      sub->add_flag("--hand", o.hand, "By the trade's hand method, from the flows that are asked for");
  sub->add_flag("--power-law", o.power_law, "By hand: friction by the trade's power law")->needs(hand);
  sub->add_flag("--by-gates", o.by_gates, "By hand: branches are balanced by gates, not by design")
      ->needs(hand);
  sub->add_flag("--sources", o.sources, "Where every coefficient comes from, too");
  sub->add_flag("--csv", store.csv, "As comma-separated values, with sources");
  addUnits(sub, store);
  addDate(sub, store);
  addOutput(sub, store);
  sub->footer(
      "Examples:\n"
      "  kerfdraft sheet examples/two-car-garage.json\n"
      "  kerfdraft sheet my-shop.json --state planer --port T2 --sources\n"
      "  kerfdraft sheet my-shop.json --state planer --hand\n"
      "  kerfdraft sheet my-shop.json --csv -o sheet.csv");
  return sub;
}

CLI::App* addExplain(CLI::App& app, Store& store) {
  CLI::App* sub = app.add_subcommand("explain", "How one number came about: laws, inputs, sources");
  ExplainOptions& o = store.explain;
  sub->add_option("project", o.project, "Project file of the shop")->required()->type_name("FILE");
  sub->add_option("key", o.key, "Key of the number; without it the numbers of a state are listed")
      ->type_name("KEY");
  sub->add_option("--state", o.state, "State of the list, by its name")->type_name("NAME");
  sub->add_option("--search", o.search, "Only numbers whose name holds these words")->type_name("WORDS");
  sub->add_option("--deeper", o.deeper, "Explain its inputs too, so many levels down")->type_name("N");
  addUnits(sub, store);
  addDate(sub, store);
  addOutput(sub, store);
  sub->footer(
      "Examples:\n"
      "  kerfdraft explain my-shop.json --search \"hood static\"\n"
      "  kerfdraft explain my-shop.json state/0/port/0/hood-static --deeper 2");
  return sub;
}

CLI::App* addLine(CLI::App& app, Store& store) {
  CLI::App* sub =
      app.add_subcommand("line", "The air of one machine from a typed list of pieces, without a drawing");
  LineOptions& o = store.line;
  sub->add_option("pieces", o.pieces, "The pieces from the machine to the fan, parted by semicolons")
      ->required()
      ->type_name("TEXT");
  sub->add_option("--fan", o.fan,
                  "Points of the fan's curve, parted by commas, or an invented fan of the catalogue")
      ->type_name("POINTS");
  sub->add_option("--label", o.label, "Only the label is known: free-air flow and greatest suction")
      ->type_name("TEXT");
  sub->add_option("--basis", o.basis,
                  "What was measured: static-at-inlet (taken where not given), total-at-inlet, "
                  "fan-static, fan-total")
      ->type_name("WORD");
  sub->add_option("--test-bore", o.test_bore, "Inlet pipe in which it was measured")->type_name("BORE");
  sub->add_option("--fitted", o.fitted,
                  "What stood on it then: unknown, nothing, bag, filter, cyclone, "
                  "cyclone-and-filter")
      ->type_name("WORD");
  sub->add_option("--inlet", o.inlet, "Bore of the collector's inlet; the last bore where not given")
      ->type_name("BORE");
  sub->add_option("--motor", o.motor, "Power on its plate, to check a label")->type_name("POWER");
  sub->add_option("--wheel", o.wheel, "Diameter of its wheel, to check a label")->type_name("LENGTH");
  sub->add_option("--speed", o.speed, "Speed of its motor")->type_name("RPM");
  sub->add_option("--filter", o.filter, "clean, seasoned (taken where not given), due")->type_name("WORD");
  sub->add_option("--temperature", o.temperature, "Of the shop; 70 °F where not given")->type_name("T");
  sub->add_option("--altitude", o.altitude, "Above the sea; none where not given")->type_name("LENGTH");
  sub->add_option("--need", o.need, "Air that the machine should get")->type_name("FLOW");
  sub->add_flag("--sheet", o.sheet, "The calculation sheet too");
  sub->add_option("--save", o.save, "Write the line as a project file, to go on with")->type_name("FILE");
  addUnits(sub, store);
  addDate(sub, store);
  addOutput(sub, store);
  sub->footer(
      "Pieces, in the order of the air:\n"
      "  hood 0.5                      entry coefficient; or \"hood bellmouth\" (kerfdraft catalogue "
      "hoods);\n"
      "                                or the maker's \"hood 400 cfm at 3 in w.g.\"; or \"machine planer\"\n"
      "  port 2.5 in                   bore of the machine's port, where it is not that of the first piece\n"
      "  hose 4 in 10 ft ribbed slack  smooth or ribbed; tight, hung or slack; \"3 bends\" where it turns\n"
      "  duct 6 in 12 ft spiral        bore, length, construction (kerfdraft catalogue constructions)\n"
      "  elbow 4 in 45°                or \"2 elbows 4 in\"; form (kerfdraft catalogue elbows), \"radius "
      "1.5\"\n"
      "  taper 30°                     the next change of bore is a cone; without it a stepped adaptor\n"
      "  loss 0.3                      any other fitting by its coefficient\n"
      "  gate 4 in 50 %                a blast gate and how far it is open\n"
      "  separator lid                 or cyclone, drop-box; \"heads 4\", \"2 in w.g. at 600 cfm\"\n"
      "  filter 35 ft2                 or \"filter 1 in w.g. at 350 cfm\" when seasoned; or nothing known\n\n"
      "Exit code: 0, 1 where the needed air is not reached, 2 bad input, 3 no solution.\n\n"
      "Examples:\n"
      "  kerfdraft line \"hood 0.5; hose 4 in 10 ft ribbed slack; elbow 4 in; duct 6 in 12 ft spiral; "
      "filter\" \\\n"
      "    --fan \"0 cfm 6.3 in w.g., 350 cfm 4.7 in w.g., 700 cfm 0 in w.g.\" --need \"350 cfm\"\n"
      "  kerfdraft line \"machine planer; port 4 in; hose 4 in 6 ft\" --label \"1100 cfm 8 in w.g.\"\n"
      "  kerfdraft line \"hood 0.65; duct 120 mm 6 m; filter 4 m2\" --fan t2 --filter due --sheet");
  return sub;
}

void addInstrument(CLI::App* sub, InstrumentOptions& o) {
  const auto text = [&](const char* name, std::string& value, const char* help) {
    sub->add_option(name, value, help)->type_name("TEXT")->group("Instrument");
  };
  text("--instrument", o.instrument,
       "u-tube (taken where not given), inclined, reservoir, digital, vane, hot-wire");
  text("--probe", o.probe, "What the gauge is connected to: pitot (taken where not given), type-s, hood");
  text("--coefficient", o.coefficient, "Of the tube, or Ce of the hood");
  text("--coefficient-within", o.coefficient_within, "Half width of it");
  text("--entry-loss", o.entry_loss, "Of the hood, on velocity pressure, in place of Ce");
  text("--probe-diameter", o.probe_diameter, "Of tube or head, \"5/16 in\"");
  text("--graduation", o.graduation, "One division of the scale, \"0.1 in\"");
  text("--slope", o.slope, "Of an inclined leg: \"1:10\", or an angle");
  text("--well-ratio", o.well_ratio, "Leg area over reservoir area, where the scale does not allow for it");
  text("--liquid", o.liquid, "Specific gravity of the liquid in the tube");
  text("--scale-liquid", o.scale_liquid, "Specific gravity that the scale was made for");
  text("--resolution", o.resolution, "Last digit of a display, \"1 Pa\"");
  text("--accuracy", o.accuracy, "Maker's limit, of the reading");
  text("--range-accuracy", o.range_accuracy, "Maker's limit, of the range");
  text("--range", o.range, "Greatest reading");
  text("--calibration", o.calibration, "Density that a hot wire was calibrated for");
}

void addDuct(CLI::App* sub, DuctOptions& o) {
  const auto text = [&](const char* name, std::string& value, const char* help) {
    sub->add_option(name, value, help)->type_name("LENGTH")->group("Duct");
  };
  text("--bore", o.bore, "Of a round duct, \"4 in\"");
  text("--width", o.width, "Of a rectangular duct");
  text("--height", o.height, "Of a rectangular duct");
  text("--bore-within", o.bore_within, "Standard uncertainty of bore or sides, where measured");
}

void addAir(CLI::App* sub, AirOptions& o) {
  const auto text = [&](const char* name, std::string& value, const char* help) {
    sub->add_option(name, value, help)->type_name("TEXT")->group("Air");
  };
  text("--temperature", o.temperature, "Of the air, \"70 °F\"");
  text("--altitude", o.altitude, "Above the sea");
  text("--barometer", o.barometer, "Pressure read at the place");
  text("--humidity", o.humidity, "Relative");
  text("--density", o.density, "Of the room's air; stands above the others");
  text("--static-pressure", o.static_pressure, "In the duct at the plane, \"-3 in w.g.\"");
}

CLI::App* addReading(CLI::App& app, Store& store) {
  CLI::App* sub = app.add_subcommand("reading", "What a reading of a gauge, pitot tube or anemometer says");
  ReadingOptions& o = store.reading;
  sub->add_option("reading", o.readings, "What was read, with its unit; more than one of the same thing")
      ->required()
      ->type_name("TEXT");
  sub->add_option("--legs", o.legs, "U-tube: both (difference of the levels), one (one leg's movement), each")
      ->type_name("WORD");
  sub->add_option("--other-leg", o.other_leg, "With --legs each: the other leg, one for each reading")
      ->type_name("TEXT");
  sub->add_option("--place", o.place, "mean or centre of the duct")->type_name("WORD");
  sub->add_flag("--mean-of-pressures", o.mean_of_pressures, "The reading is itself a mean of pressures");
  sub->add_option("--claimed", o.claimed, "A speed or flow that somebody made of it")->type_name("TEXT");
  addInstrument(sub, o.instrument);
  addDuct(sub, o.duct);
  addAir(sub, o.air);
  sub->add_flag("--steps", o.steps, "Every formula with its inputs");
  sub->add_flag("--json", store.json, "As JSON, in SI units");
  addUnits(sub, store);
  addDate(sub, store);
  addOutput(sub, store);
  sub->footer(
      "Examples:\n"
      "  kerfdraft reading \"1.6 in\" --legs both --place mean --bore \"4 in\"\n"
      "  kerfdraft reading \"310 Pa\" --instrument digital --accuracy \"1 %\" --place centre --bore \"150 "
      "mm\"\n"
      "  kerfdraft reading \"2.4 in w.g.\" --probe hood --entry-loss 0.5 --bore \"4 in\"");
  return sub;
}

CLI::App* addTraverse(CLI::App& app, Store& store) {
  CLI::App* sub =
      app.add_subcommand("traverse", "Where to hold the tube in a duct, and what the readings make");
  TraverseOptions& o = store.traverse;
  sub->add_option("readings", o.readings, "One text for each line of points, unit last; none: only the marks")
      ->type_name("TEXT");
  sub->add_option("--readings-file", o.readings_file, "The readings as rows of a CSV file")
      ->type_name("FILE");
  sub->add_option("--reading-unit", o.reading_unit, "Of readings without one")->type_name("UNIT");
  sub->add_option("--rule", o.rule, "log-linear, log-tchebycheff or equal-area")->type_name("WORD");
  sub->add_option("--points", o.points, "On a diameter, or on each line of a rectangle")->type_name("N");
  sub->add_option("--lines", o.lines, "Diameters, or lines across the width")->type_name("N");
  sub->add_option("--upstream", o.upstream, "Straight duct before the plane")->type_name("LENGTH");
  sub->add_option("--downstream", o.downstream, "Straight duct after it")->type_name("LENGTH");
  sub->add_option("--stub", o.stub, "From where the marks are seen to the inner wall")->type_name("LENGTH");
  sub->add_option("--fraction", o.fraction, "Marks to this part of an inch: 16 for 1/16")->type_name("N");
  sub->add_option("--legs", o.legs, "U-tube: both or one")->type_name("WORD");
  sub->add_option("--claimed", o.claimed, "A speed or flow that somebody made of it")->type_name("TEXT");
  addInstrument(sub, o.instrument);
  addDuct(sub, o.duct);
  addAir(sub, o.air);
  sub->add_flag("--steps", o.steps, "Every formula with its inputs");
  sub->add_flag("--json", store.json, "As JSON, in SI units");
  addUnits(sub, store);
  addDate(sub, store);
  addOutput(sub, store);
  sub->footer(
      "Examples:\n"
      "  kerfdraft traverse --bore \"6 in\"\n"
      "  kerfdraft traverse --width \"300 mm\" --height \"200 mm\" --upstream \"2 m\"\n"
      "  kerfdraft traverse --bore \"6 in\" --legs both \\\n"
      "    \"0.62 0.80 0.97 0.96 0.83 0.60 in w.g.\" \"0.60 0.82 0.95 0.98 0.80 0.64 in w.g.\"");
  return sub;
}

CLI::App* addNew(CLI::App& app, Store& store) {
  CLI::App* sub = app.add_subcommand("new", "Write a starter project that solves at once; asks nothing");
  NewOptions& o = store.fresh;
  sub->add_option("file", o.path, "Project file to write")->required()->type_name("FILE");
  sub->add_option("--name", o.name, "Name of the shop; that of the file where not given")->type_name("TEXT");
  sub->add_option("--room", o.room, "Width, depth and height, \"24 ft x 20 ft x 9 ft\"")->type_name("TEXT");
  sub->add_option("--machine", o.machines,
                  "A kind of machine (kerfdraft catalogue machine_kinds); may be given again")
      ->type_name("KIND");
  sub->add_option("--collector", o.collector, "An invented fan to begin with (kerfdraft catalogue test_fans)")
      ->type_name("KEY");
  sub->add_option("--main", o.main, "Bore of the main; found from the machines where not given")
      ->type_name("BORE");
  sub->add_option("--who", o.who, "home, one-person, employer or school")->type_name("WORD");
  sub->add_option("--country", o.country, "Two letters, US")->type_name("CODE");
  sub->add_option("--ids-from", o.seed, "A number that makes the same ids again")->type_name("N");
  sub->add_flag("--force", o.force, "Over a file that is there; it is kept once as .bak");
  addUnits(sub, store);
  sub->footer(
      "Examples:\n"
      "  kerfdraft new my-shop.json\n"
      "  kerfdraft new my-shop.json --room \"22 ft x 24 ft x 9 ft\" --machine table-saw --machine planer\n"
      "  kerfdraft new werkstatt.json --units metric --who employer --country DE --collector t5");
  return sub;
}

CLI::App* addCatalogue(CLI::App& app, Store& store) {
  CLI::App* sub =
      app.add_subcommand("catalogue", "Show and search the tables of figures, with their sources");
  CatalogueOptions& o = store.catalogue;
  sub->add_option("table", o.table, "Table to show; all are listed where not given")->type_name("TABLE");
  sub->add_option("key", o.key, "One row of the table, with its note")->type_name("ROW");
  sub->add_option("--search", o.search, "Rows of any table that hold these words")->type_name("WORDS");
  sub->add_flag("--csv", store.csv, "As comma-separated values");
  addOutput(sub, store);
  sub->footer(
      "Examples:\n"
      "  kerfdraft catalogue\n"
      "  kerfdraft catalogue hoods\n"
      "  kerfdraft catalogue constructions snap-lock\n"
      "  kerfdraft catalogue --search \"ribbed slack\"");
  return sub;
}

CLI::App* addCompletion(CLI::App& app, Store& store) {
  CLI::App* sub = app.add_subcommand("completion", "Print the script that lets bash complete this program");
  addOutput(sub, store);
  sub->footer(
      "Examples:\n"
      "  kerfdraft completion -o ~/.local/share/bash-completion/completions/kerfdraft");
  return sub;
}

/// "--state", "--csv" …
std::vector<std::string> optionNames(const CLI::App* app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app->get_options()) {
    for (const std::string& name : option->get_lnames()) {
      names.push_back("--" + name);
    }
  }
  return names;
}

struct Parser {
  explicit Parser(Store& store)
      : app("Plans, judges and repairs dust and chip collection in woodworking shops.", "kerfdraft") {
    app.set_version_flag("--version", kVersion);
    app.get_formatter()->column_width(34);
    app.require_subcommand(1);
    app.failure_message([](const CLI::App* where, const CLI::Error& problem) {
      return fmt::format("kerfdraft: {}\n", std::string(problem.what())) +
             fmt::format("See {} --help\n", where->get_parent() != nullptr
                                                ? where->get_parent()->get_name() + ' ' + where->get_name()
                                                : where->get_name());
    });
    add(addSolve(app, store), store, store.solve);
    add(addSheet(app, store), store, store.sheet);
    add(addExplain(app, store), store, store.explain);
    add(addLine(app, store), store, store.line);
    add(addReading(app, store), store, store.reading);
    add(addTraverse(app, store), store, store.traverse);
    add(addNew(app, store), store, store.fresh);
    add(addCatalogue(app, store), store, store.catalogue);
    add(addCompletion(app, store), store, store.completion);
    app.footer(
        "Exit codes: 0 everything is served, 1 something is not served, 2 bad input, 3 no solution.\n"
        "Help of one command, with examples: kerfdraft solve --help");
  }

  /// The command that was given, with its options.
  Command command() const {
    for (const auto& [sub, make] : commands_) {
      if (sub->parsed()) {
        return make();
      }
    }
    throw base::InternalError("the parser let a line without a command pass");
  }

  /// What was typed behind a command and belongs to none of its options.
  Answer unknownArguments() const {
    std::string name = "kerfdraft";
    std::vector<std::string> options;
    for (const auto& [sub, make] : commands_) {
      if (sub->parsed()) {
        name += ' ' + sub->get_name();
        options = optionNames(sub);
      }
    }
    // The parser hands them back the last first; the option is what was meant wrong, its value follows from
    // it.
    const std::vector<std::string> extras = app.remaining(true);
    const auto option =
        std::find_if(extras.begin(), extras.end(), [](const std::string& e) { return e.starts_with('-'); });
    const std::string wrong = option != extras.end() ? *option
                              : extras.empty()       ? std::string()
                                                     : extras.front();
    return {fmt::format("kerfdraft: \"{}\" does not belong to {}{}\nSee {} --help\n", wrong.substr(0, 60),
                        name, catalogue::nearKeysSentence(wrong, options), name),
            kBadInput, true};
  }

  CLI::App app;

 private:
  template <class Options>
  void add(CLI::App* sub, const Store& store, Options& options) {
    commands_.emplace_back(sub, [&store, &options]() -> Command {
      options.common = store.common;
      return options;
    });
  }

  std::vector<std::pair<CLI::App*, std::function<Command()>>> commands_;
};

/// The help or the mistake, as text.
Answer answerTo(const CLI::App& app, const CLI::ParseError& problem) {
  std::ostringstream out;
  std::ostringstream err;
  const bool fine = app.exit(problem, out, err) == 0;
  return {fine ? out.str() : err.str(), fine ? kAllServed : kBadInput, !fine};
}

}  // namespace

Command parseArguments(int argc, const char* const* argv, const Surroundings& surroundings) {
  Store store;
  store.common.date = surroundings.date;
  store.solve.progress = surroundings.terminal;
  Parser parser(store);
  if (argc < 2) {
    return Answer{parser.app.help(), kBadInput, true};
  }
  if (const std::string first = argv[1]; !first.starts_with('-')) {
    std::vector<std::string> known;
    for (const CLI::App* sub : parser.app.get_subcommands(nullptr)) {
      known.push_back(sub->get_name());
    }
    if (std::find(known.begin(), known.end(), first) == known.end()) {
      return Answer{fmt::format("kerfdraft: there is no command \"{}\"{}\nSee kerfdraft --help\n",
                                first.substr(0, 40), catalogue::nearKeysSentence(first, known)),
                    kBadInput, true};
    }
  }
  try {
    parser.app.parse(argc, argv);
  } catch (const CLI::ExtrasError&) {
    return parser.unknownArguments();
  } catch (const CLI::ParseError& problem) {
    return answerTo(parser.app, problem);
  }
  if (const auto day = checkedDate(store.common.date, "--date"); !day) {
    return Answer{fmt::format("kerfdraft: {}\n", day.error().text()), kBadInput, true};
  }
  if (!store.units.empty()) {
    store.common.units = store.units == "us" ? base::UnitSystem::Us : base::UnitSystem::Metric;
  }
  store.sheet.csv = store.catalogue.csv = store.csv;
  store.reading.json = store.traverse.json = store.json;
  store.solve.format = store.csv ? Format::Csv : store.json ? Format::Json : Format::Text;
  return parser.command();
}

std::string bashCompletion() {
  Store store;
  const Parser parser(store);
  std::string commands;
  std::string cases;
  for (const CLI::App* sub : parser.app.get_subcommands(nullptr)) {
    commands += (commands.empty() ? "" : " ") + sub->get_name();
    cases += fmt::format("    {}) words=\"{}\" ;;\n", sub->get_name(), fmt::join(optionNames(sub), " "));
  }
  return fmt::format(
      "# Completion of kerfdraft for bash; printed by \"kerfdraft completion\".\n"
      "_kerfdraft() {{\n"
      "  local word=${{COMP_WORDS[COMP_CWORD]}} words=\"\"\n"
      "  if ((COMP_CWORD == 1)); then\n"
      "    mapfile -t COMPREPLY < <(compgen -W \"{} {}\" -- \"$word\")\n"
      "    return\n"
      "  fi\n"
      "  case ${{COMP_WORDS[1]}} in\n"
      "{}"
      "  esac\n"
      "  if [[ $word == -* ]]; then\n"
      "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
      "  else\n"
      "    mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n"
      "  fi\n"
      "}}\n"
      "complete -o filenames -F _kerfdraft kerfdraft\n",
      commands, fmt::join(optionNames(&parser.app), " "), cases);
}

}  // namespace kerfdraft::cli
