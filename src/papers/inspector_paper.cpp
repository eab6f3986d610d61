// For the inspector: a form for an examination, filled with what is intended and what is predicted.
#include <fmt/format.h>

#include <algorithm>

#include "catalogue/countries.h"
#include "catalogue/materials.h"
#include "judge/speech.h"
#include "papers/inspector_parts.h"
#include "papers/papers.h"
#include "papers/parts.h"

namespace kerfdraft::papers {
namespace {

using base::Kind;

/// Great Britain: at least every 14 months (COSHH regulation 9; as HSG258 says).
constexpr int kBritishInterval_months = 14;

Table particulars(const PaperInput& input) {
  const shop::Project& project = input.evidence.project();
  Table table;
  table.columns = {{"what", Align::Left, {}, 0.3}, {"entered", Align::Left, {}, 0.7}};
  const auto row = [&](const char* what, std::string text) {
    table.rows.push_back({{what}, {std::move(text)}});
  };
  const bool employer =
      project.setting.who == shop::Who::Employer || project.setting.who == shop::Who::School;
  row("employer", employer ? project.setting.name : project.setting.name + " (no employees)");
  row("site and address", "");
  const auto country = catalogue::country(input.catalogue, project.setting.country);
  row("country", country ? country->name : project.setting.country);
  std::vector<std::string> machines;
  machines.reserve(project.machines.size());
  for (const shop::Machine& machine : project.machines) {
    machines.push_back(input.evidence.machineName(machine.id));
  }
  row("process", machines.empty() ? std::string("woodworking") : "Woodworking: " + listed(machines));
  std::vector<std::string> woods;
  woods.reserve(project.setting.woods.size());
  for (const std::string& key : project.setting.woods) {
    const auto found = input.catalogue.row("woods", key);
    woods.push_back(found ? (*found)->name : key);
  }
  row("substance",
      woods.empty() ? std::string("wood dust; species not entered") : "dust of " + listed(woods));
  std::vector<std::string> units;
  units.reserve(project.collectors.size());
  for (const shop::Collector& collector : project.collectors) {
    units.push_back(collector.name.empty() ? collector.label : collector.label + " " + collector.name);
  }
  row("plant", units.empty() ? std::string("no collector entered") : listed(units));
  return table;
}

Table conditions(const PaperInput& input) {
  const shop::Project& project = input.evidence.project();
  const physics::AirState& air = input.evidence.pieces().air;
  Table table;
  table.columns = {{"what", Align::Left, {}, 0.3},
                   {"taken here", Align::Left, {}, 0.35},
                   {"today", Align::Left, {}, 0.35}};
  table.to_fill_in = true;
  const auto row = [&](const char* what, std::string text) {
    table.rows.push_back({{what}, {std::move(text)}, {}});
  };
  row("temperature of the room", project.air.temperature.text());
  row("station pressure", shown(input, Kind::AbsolutePressure, air.pressure_pa));
  row("humidity", project.air.humidity ? project.air.humidity->text() : "50 %, since none is given");
  row("density of the air", shown(input, Kind::Density, air.density_kg_m3));
  row("filter",
      input.evidence.pieces().filters.empty() ? "none" : "as each state says; seasoned where none does");
  row("machines at work", "idle air; chips as each state says");
  return table;
}

Table containment(const PaperInput& input) {
  Table table;
  table.to_fill_in = true;
  table.columns = {{"machine", Align::Left, {}, 0.24},
                   {"guard", Align::Left, {}, 0.16},
                   {"openings of the body", Align::Left, {}, 0.2},
                   {"dust lamp or smoke, today", Align::Left, {}, 0.4}};
  for (const shop::Machine& machine : input.evidence.project().machines) {
    const char* guard = machine.guard == shop::Guard::Fitted    ? "fitted"
                        : machine.guard == shop::Guard::Missing ? "missing"
                                                                : "not entered";
    table.rows.push_back({{input.evidence.machineName(machine.id)},
                          {guard},
                          {machine.openings ? machine.openings->text() : std::string("not entered")},
                          {}});
  }
  table.note = "Air arriving at a hood is not dust held at the source: this part is observed, not computed.";
  return table;
}

std::string nextDue(const PaperInput& input) {
  const std::string& country = input.evidence.project().setting.country;
  if (country == "GB" || country == "UK") {
    const std::string date = monthsLater(input.date, kBritishInterval_months);
    return fmt::format("Next thorough examination no later than {} months after this one{}.",
                       kBritishInterval_months, date.empty() ? "" : ": " + date);
  }
  return "Next examination: by the rule that holds here; ask the local authority for its interval.";
}

}  // namespace

Document inspectorPaper(const PaperInput& input) {
  Document document = begun(input, "Record for an examination of the dust collection");
  document.contents = true;
  const std::size_t state = shownState(input);
  document.blocks.push_back(
      Text{plain(servedSentence(input) + " Figures below are intended and predicted ones; today's "
                                         "readings are to be filled in. An airflow result is not an exposure "
                                         "result, and nothing here states that a rule is kept.")});
  document.blocks.push_back(Heading{2, "Employer, site and process"});
  document.blocks.push_back(particulars(input));
  Table limits = limitsTable(input);
  document.blocks.push_back(Heading{2, "Limits for the substance"});
  if (limits.rows.empty()) {
    document.blocks.push_back(
        Text{plain("No limit is known to this program for the country that was entered: ask "
                   "the local authority.")});
  } else {
    document.blocks.push_back(std::move(limits));
  }
  document.blocks.push_back(Heading{2, "Conditions of the test"});
  document.blocks.push_back(conditions(input));
  document.blocks.push_back(Heading{2, "Scheme of the plant"});
  document.blocks.push_back(planFigure(input, state, false));
  document.blocks.push_back(isometricFigure(input, state));
  document.blocks.push_back(Heading{2, "Hoods"});
  document.blocks.push_back(hoodsTable(input));
  if (Table shared = sharedAirTable(input); !shared.rows.empty()) {
    document.blocks.push_back(std::move(shared));
  }
  Table taps = tapsTable(input);
  document.blocks.push_back(Heading{2, "Points of measurement"});
  if (taps.rows.empty()) {
    document.blocks.push_back(
        Text{plain("The drawing has no taps: nothing can be compared with a later reading "
                   "until there are some.")});
  } else {
    document.blocks.push_back(std::move(taps));
  }
  document.blocks.push_back(Heading{2, "Containment, apart from the air"});
  document.blocks.push_back(containment(input));
  document.blocks.push_back(Heading{2, "Defects by urgency"});
  if (Table defects = defectsTable(input); !defects.rows.empty()) {
    document.blocks.push_back(std::move(defects));
  } else {
    document.blocks.push_back(Text{plain("None was found in what was entered.")});
  }
  document.blocks.push_back(Heading{2, "What was not examined"});
  document.blocks.push_back(
      List{false,
           {{plain("Exposure: no dust was sampled."), {}},
            {plain("The inside of ducts, the fan's wheel and the filter medium."), {}},
            {plain("Electrical safety, earthing and the strength of hangers."), {}},
            {plain("Explosion protection beyond what stands among the defects."), {}},
            {plain("Whatever nobody entered: openings, wear and leaks beside the usual ones."), {}}}});
  document.blocks.push_back(Heading{2, "Competence, signature, next examination"});
  document.blocks.push_back(Text{plain(nextDue(input))});
  document.blocks.push_back(
      SignatureBlock{{"Examined by (name)", "Competence (training, experience)", "Date of the examination",
                      "Signature", "Employer informed on", "Next examination due"}});
  document.blocks.push_back(Heading{2, "Sources"});
  document.blocks.push_back(sourcesOf(input, {}));
  return document;
}

Document paperOf(const PaperInput& input) {
  switch (input.reader) {
    case judge::Reader::Owner:
      return ownerPaper(input);
    case judge::Reader::Adviser:
      return adviserPaper(input);
    case judge::Reader::Inspector:
      return inspectorPaper(input);
  }
  throw base::InternalError("a reader without a paper");
}

}  // namespace kerfdraft::papers
