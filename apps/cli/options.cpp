// The parser's one file: every sub-command with its options, help and examples.
#include "cli/options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
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
  CatalogueOptions catalogue;
  CompletionOptions completion;
};

void addOutput(CLI::App* sub, Store& store) {
  sub->add_option("-o,--output", store.common.output, "Write into this file, whole or not at all")
      ->type_name("FILE");
}

[[maybe_unused]] void addUnits(CLI::App* sub, Store& store) {
  sub->add_option("--units", store.units, "us or metric; the project's own where not given")
      ->check(CLI::IsMember({"us", "metric"}))
      ->type_name("SYSTEM");
}

[[maybe_unused]] void addDate(CLI::App* sub, Store& store) {
  sub->add_option("--date", store.common.date,
                  "Day that stands on the result, 2026-01-15; today where not given")
      ->type_name("DAY");
}

CLI::App* addCatalogue(CLI::App& app, Store& store) {
  CLI::App* sub =
      app.add_subcommand("catalogue", "Show and search the tables of figures, with their sources");
  CatalogueOptions& o = store.catalogue;
  sub->add_option("table", o.table, "Table to show; all are listed where not given")->type_name("TABLE");
  sub->add_option("key", o.key, "One row of the table, with its note")->type_name("ROW");
  sub->add_option("--search", o.search, "Rows of any table that hold these words")->type_name("WORDS");
  sub->add_flag("--csv", o.csv, "As comma-separated values");
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
    catalogue = addCatalogue(app, store);
    completion = addCompletion(app, store);
    app.footer(
        "Exit codes: 0 everything is served, 1 something is not served, 2 bad input, 3 no solution.\n"
        "Help of one command, with examples: kerfdraft solve --help");
  }

  CLI::App app;
  CLI::App* catalogue = nullptr;
  CLI::App* completion = nullptr;
};

/// The help or the mistake, as text.
Answer answerTo(const CLI::App& app, const CLI::ParseError& problem) {
  std::ostringstream out;
  std::ostringstream err;
  const bool fine = app.exit(problem, out, err) == 0;
  return {fine ? out.str() : err.str(), fine ? kAllServed : kBadInput, !fine};
}

}  // namespace

Command parseArguments(int argc, const char* const* argv, const std::string& date) {
  Store store;
  store.common.date = date;
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
  } catch (const CLI::ParseError& problem) {
    return answerTo(parser.app, problem);
  }
  if (const auto day = checkedDate(store.common.date, "--date"); !day) {
    return Answer{fmt::format("kerfdraft: {}\n", day.error().text()), kBadInput, true};
  }
  if (!store.units.empty()) {
    store.common.units = store.units == "us" ? base::UnitSystem::Us : base::UnitSystem::Metric;
  }
  const auto with = [&](auto& options) -> Command {
    options.common = store.common;
    return options;
  };
  return parser.catalogue->parsed() ? with(store.catalogue) : with(store.completion);
}

std::string bashCompletion() {
  Store store;
  const Parser parser(store);
  const auto optionNames = [](const CLI::App* app) {
    std::string names;
    for (const CLI::Option* option : app->get_options()) {
      for (const std::string& name : option->get_lnames()) {
        names += (names.empty() ? "--" : " --") + name;
      }
    }
    return names;
  };
  std::string commands;
  std::string cases;
  for (const CLI::App* sub : parser.app.get_subcommands(nullptr)) {
    commands += (commands.empty() ? "" : " ") + sub->get_name();
    cases += fmt::format("    {}) words=\"{}\" ;;\n", sub->get_name(), optionNames(sub));
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
      commands, optionNames(&parser.app), cases);
}

}  // namespace kerfdraft::cli
