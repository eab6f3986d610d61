// The one file that knows the parser: makes its options of what each command declares, and its answers of
// what it finds wrong.
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

CLI::Option* OptionList::add(const char* name, const char* type, Target target, const std::string& help) {
  CLI::Option* option = std::visit(
      [&](auto* value) { return command_.add_option(name, *value, help)->type_name(type); }, target);
  return heading_ != nullptr ? option->group(heading_) : option;
}

void OptionList::option(const char* name, const char* type, Target target, const std::string& help) {
  add(name, type, target, help);
}

void OptionList::required(const char* name, const char* type, Target target, const std::string& help) {
  add(name, type, target, help)->required();
}

void OptionList::flag(const char* name, bool& target, const std::string& help) {
  command_.add_flag(name, target, help);
}

void OptionList::flag(const char* name, std::function<void()> given, const std::string& help) {
  command_.add_flag_callback(name, std::move(given), help);
}

void OptionList::chosen(const char* name, const char* type, const std::vector<std::string>& allowed,
                        const std::function<void(const std::string&)>& take, const std::string& help) {
  const CLI::Validator one_of(
      [allowed](const std::string& given) {
        return std::find(allowed.begin(), allowed.end(), given) != allowed.end()
                   ? std::string()
                   : fmt::format("\"{}\" is none of: {}", given.substr(0, 40), fmt::join(allowed, ", "));
      },
      fmt::format("{{{}}}", fmt::join(allowed, ",")));
  command_.add_option_function<std::string>(name, take, help)->check(one_of)->type_name(type);
}

void OptionList::notTogether(const char* name, const char* other) {
  command_.get_option(name)->excludes(command_.get_option(other));
}

void OptionList::needs(const char* name, const char* other) {
  command_.get_option(name)->needs(command_.get_option(other));
}

void OptionList::units(Common& common) {
  word<std::optional<base::UnitSystem>, base::UnitSystem>(
      "--units", "SYSTEM", common.units, {{"us", base::UnitSystem::Us}, {"metric", base::UnitSystem::Metric}},
      "us or metric; the project's own where not given");
}

void OptionList::date(Common& common) {
  option("--date", "DAY", &common.date, "Day that stands on the result, 2026-01-15; today where not given");
}

void OptionList::output(Common& common) {
  option("-o,--output", "FILE", &common.output, "Write into this file, whole or not at all");
}

void OptionList::common(Common& common) {
  units(common);
  date(common);
  output(common);
}

void OptionList::footer(const std::string& text) {
  command_.footer(text);
}

namespace {

constexpr const char* kVersion =
    "kerfdraft " KERFDRAFT_VERSION "\nFree software under the GNU GPL, version 3 or later. No warranty.\n";

/// All options of one parse. Each sub-command fills its own struct.
struct Store {
  CheckOptions check;
  ReportOptions report;
  AcceptOptions accept;
  SolveOptions solve;
  SheetOptions sheet;
  ExplainOptions explain;
  DrawOptions draw;
  LineOptions line;
  ReadingOptions reading;
  TraverseOptions traverse;
  NewOptions fresh;
  CatalogueOptions catalogue;
  CompletionOptions completion;
};

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
  Parser(Store& store, std::string date)
      : app("Plans, judges and repairs dust and chip collection in woodworking shops.", "kerfdraft"),
        date_(std::move(date)) {
    app.set_version_flag("--version", kVersion);
    app.get_formatter()->column_width(34);
    app.require_subcommand(1);
    app.failure_message([](const CLI::App* where, const CLI::Error& problem) {
      return fmt::format("kerfdraft: {}\n", std::string(problem.what())) +
             fmt::format("See {} --help\n", where->get_parent() != nullptr
                                                ? where->get_parent()->get_name() + ' ' + where->get_name()
                                                : where->get_name());
    });
    add("check", "The verdict on a shop: what is wrong, what to do, what every machine gets", store.check);
    add("report", "A page for the owner, the adviser or the inspector, to look at and to print",
        store.report);
    add("accept", "Live with a finding, with a reason; or take that back", store.accept);
    add("solve", "What every machine of a shop gets, in every state of use", store.solve);
    add("sheet", "The calculation sheet along a path, piece by piece", store.sheet);
    add("explain", "How one number came about: laws, inputs, sources", store.explain);
    add("draw", "The plan to scale, a sketch to hang ducts by, or a chart, as SVG", store.draw);
    add("line", "The air of one machine from a typed list of pieces, without a drawing", store.line);
    add("reading", "What a reading of a gauge, pitot tube or anemometer says", store.reading);
    add("traverse", "Where to hold the tube in a duct, and what the readings make", store.traverse);
    add("new", "Write a starter project that solves at once; asks nothing", store.fresh);
    add("catalogue", "Show and search the tables of figures, with their sources", store.catalogue);
    add("completion", "Print the script that lets bash complete this program", store.completion);
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
  void add(const char* name, const char* about, Options& options) {
    CLI::App* sub = app.add_subcommand(name, about);
    options.common.date = date_;
    OptionList list(*sub);
    declareOptions(list, options);
    commands_.emplace_back(sub, [&options]() -> Command {
      if (const auto day = checkedDate(options.common.date, "--date"); !day) {
        return Answer{fmt::format("kerfdraft: {}\n", day.error().text()), kBadInput, true};
      }
      return options;
    });
  }

  std::string date_;  ///< where none is given
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
  store.solve.progress = surroundings.terminal;
  Parser parser(store, surroundings.date);
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
  return parser.command();
}

std::string bashCompletion() {
  Store store;
  const Parser parser(store, "");
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
