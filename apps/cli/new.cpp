// Options to a starter, checked by reading it back, and saved.
#include "cli/new.h"

#include <fmt/format.h>

#include <filesystem>
#include <random>

#include "catalogue/catalogue.h"
#include "cli/exit_codes.h"
#include "cli/shown.h"
#include "files/save.h"
#include "pieces/line_cursor.h"
#include "pieces/starter.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Result;
using base::UnitSystem;
using pieces::partedBy;
using pieces::starterProject;
using pieces::StarterRequest;

/// "22 ft x 24 ft x 9 ft".
Result<void> readRoom(const std::string& text, StarterRequest& request) {
  const std::vector<std::string> parts = partedBy(text, 'x');
  if (parts.size() != 3) {
    return fail(
        ErrorCode::Parse,
        fmt::format("\"{}\" is no room; it is written like \"22 ft x 24 ft x 9 ft\": width, depth, height",
                    text),
        "--room");
  }
  double* const sides[3] = {&request.width_m, &request.depth_m, &request.height_m};
  for (std::size_t i = 0; i < 3; ++i) {
    const Result<double> side = base::parseQuantity(base::Kind::Length, parts[i], "--room");
    if (!side) {
      return Failure(side.error());
    }
    if (!(*side > 0) || *side > 200) {
      return fail(ErrorCode::Range, fmt::format("a side of {} is no room", parts[i]), "--room");
    }
    *sides[i] = *side;
  }
  return {};
}

Result<shop::Who> readWho(const std::string& text) {
  if (text.empty() || text == "home") {
    return shop::Who::Home;
  }
  if (text == "one-person") {
    return shop::Who::OnePerson;
  }
  if (text == "employer") {
    return shop::Who::Employer;
  }
  if (text == "school") {
    return shop::Who::School;
  }
  return fail(ErrorCode::Parse, fmt::format("\"{}\" is none of: home, one-person, employer, school", text),
              "--who");
}

Result<StarterRequest> readRequest(const NewOptions& options) {
  StarterRequest request;
  request.units = options.common.units.value_or(UnitSystem::Us);
  const bool us = request.units == UnitSystem::Us;
  request.name = options.name.empty() ? std::filesystem::path(options.path).stem().string() : options.name;
  request.country = options.country;
  request.machines = options.machines.empty() ? std::vector<std::string>{"table-saw", "planer", "band-saw"}
                                              : options.machines;
  request.fan = options.collector.empty() ? "t2" : options.collector;
  const Result<shop::Who> who = readWho(options.who);
  if (!who) {
    return Failure(who.error());
  }
  request.who = *who;
  const std::string usual = us ? "24 ft x 20 ft x 9 ft" : "8 m x 6 m x 2.8 m";
  if (const Result<void> fine = readRoom(options.room.empty() ? usual : options.room, request); !fine) {
    return Failure(fine.error());
  }
  if (!options.main.empty()) {
    Result<Given<base::Length>> main =
        Given<base::Length>::parse(options.main, base::Standing::Assumed, {}, "--main");
    if (!main) {
      return Failure(main.error());
    }
    request.main = std::move(*main);
  }
  return request;
}

}  // namespace

int runNew(const NewOptions& options, std::ostream& out, std::ostream& err) {
  const Result<catalogue::Catalogue> catalogue = catalogue::Catalogue::shipped();
  if (!catalogue) {
    return refuse(catalogue.error(), err);
  }
  const Result<StarterRequest> request = readRequest(options);
  if (!request) {
    return refuse(request.error(), err);
  }
  std::error_code problem;
  if (!options.force && std::filesystem::exists(options.path, problem)) {
    return refuse({ErrorCode::Conflict,
                   "is there already; with --force it is replaced, and kept once as .bak", options.path},
                  err);
  }
  std::random_device random;
  base::SeededIds ids(options.seed != 0 ? options.seed : (std::uint64_t{random()} << 32U) ^ random());
  const Result<shop::Project> project = starterProject(*request, *catalogue, ids);
  if (!project) {
    return refuse(project.error(), err);
  }
  if (const Result<void> saved = files::saveProject(*project, options.path); !saved) {
    return refuse(saved.error(), err);
  }
  const Shown shown(request->units);
  out << fmt::format("{}: {} machines, a main of {}, one collector with an invented curve, {} states.\n",
                     options.path, project->machines.size(),
                     shown.bore(project->collectors[0].inlet_bore.si()), project->states.size());
  out << fmt::format("Every figure in it is assumed: put in yours. Then: kerfdraft solve {}\n", options.path);
  return kAllServed;
}

void declareOptions(OptionList& list, NewOptions& o) {
  list.required("file", "FILE", &o.path, "Project file to write");
  list.option("--name", "TEXT", &o.name, "Name of the shop; that of the file where not given");
  list.option("--room", "TEXT", &o.room, "Width, depth and height, \"24 ft x 20 ft x 9 ft\"");
  list.option("--machine", "KIND", &o.machines,
              "A kind of machine (kerfdraft catalogue machine_kinds); may be given again");
  list.option("--collector", "KEY", &o.collector,
              "An invented fan to begin with (kerfdraft catalogue test_fans)");
  list.option("--main", "BORE", &o.main, "Bore of the main; found from the machines where not given");
  list.option("--who", "WORD", &o.who, "home, one-person, employer or school");
  list.option("--country", "CODE", &o.country, "Two letters, US");
  list.option("--ids-from", "N", &o.seed, "A number that makes the same ids again");
  list.flag("--force", o.force, "Over a file that is there; it is kept once as .bak");
  list.units(o.common);
  list.footer(
      "Examples:\n"
      "  kerfdraft new my-shop.json\n"
      "  kerfdraft new my-shop.json --room \"22 ft x 24 ft x 9 ft\" --machine table-saw --machine planer\n"
      "  kerfdraft new werkstatt.json --units metric --who employer --country DE --collector t5");
}

}  // namespace kerfdraft::cli
