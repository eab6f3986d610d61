// For the adviser: every number that one has to defend, and what it rests on.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/speech.h"
#include "papers/adviser_parts.h"
#include "papers/papers.h"
#include "papers/parts.h"

namespace kerfdraft::papers {
namespace {

using base::Kind;

void addVerdict(const PaperInput& input, Document& document) {
  document.blocks.push_back(Text{plain(servedSentence(input)), true});
  KeyFigures figures;
  std::size_t runs = 0;
  std::size_t slow = 0;
  for (const std::size_t s : movingStates(input)) {
    for (const judge::RunMargin& run : input.evidence.margins[s].runs) {
      ++runs;
      slow += run.ratio < 1 ? 1U : 0U;
    }
  }
  std::optional<Got> shortest;
  for (const std::size_t s : movingStates(input)) {
    for (const Got& got : gotIn(input, s)) {
      if (!shortest || shareOf(got) < shareOf(*shortest)) {
        shortest = got;
      }
    }
  }
  if (shortest && shortest->margin->served != judge::Served::NothingAsked) {
    const judge::FlowMargin& margin = *shortest->margin;
    figures.figures.push_back(
        {fmt::format("{:.0f} %", 100 * shareOf(*shortest)),
         fmt::format(
             "of {} at {}, the shortest of air ({})",
             shown(input, Kind::VolumeFlow, margin.target_m3_s ? *margin.target_m3_s : *margin.floor_m3_s),
             shortest->name, input.assessment.states[shortest->state].name)});
  }
  if (runs > 0) {
    figures.figures.push_back({fmt::format("{} of {}", slow, runs),
                               "runs with chips below the speed these need, in the states that are used"});
  }
  figures.figures.push_back({fmt::format("{}", input.verdict.groups.size()),
                             fmt::format("causes behind {} findings", input.verdict.findings.size())});
  document.blocks.push_back(std::move(figures));
}

void addFound(const PaperInput& input, Document& document) {
  if (input.verdict.groups.empty()) {
    return;
  }
  document.blocks.push_back(Heading{2, "What is wrong, the gravest first"});
  for (std::size_t g = 0; g < input.verdict.on_top; ++g) {
    document.blocks.push_back(boxOf(input, input.verdict.groups[g]));
  }
}

void addCollectors(const PaperInput& input, Document& document) {
  const pieces::Pieces& pieces = input.evidence.pieces();
  for (std::size_t f = 0; f < pieces.fans.size(); ++f) {
    if (pieces.fans[f].key.role != pieces::Role::Fan) {
      continue;
    }
    document.blocks.push_back(Heading{2, fmt::format("Where {} works", pieces.fans[f].label)});
    for (const judge::Finding& finding : input.verdict.findings) {
      if (finding.rule == "weak-fan" && finding.label == pieces.fans[f].label) {
        document.blocks.push_back(
            Text{plain(judge::say(finding, {judge::Reader::Adviser, input.units}).what)});
        break;
      }
    }
    document.blocks.push_back(fanFigure(input, f));
    document.blocks.push_back(operatingTable(input, f));
  }
}

void addWorstPath(const PaperInput& input, std::vector<const judge::Sheet*>& sheets, Document& document) {
  const std::size_t state = shownState(input);
  const auto port = shownPort(input);
  if (!port || !input.evidence.sheets[state][*port]) {
    return;
  }
  const judge::Sheet& sheet = *input.evidence.sheets[state][*port];
  document.blocks.push_back(
      Heading{2, fmt::format("The worst path: {}, {}", input.evidence.pieces().ports[*port].label,
                             input.assessment.states[state].name)});
  if (auto figure = pressureFigure(input, state, *port)) {
    document.blocks.push_back(std::move(*figure));
  }
  document.blocks.push_back(lossTable(sheet));
  document.blocks.push_back(sheetTable(sheet));
  sheets.push_back(&sheet);
}

void addDoubt(const PaperInput& input, Document& document) {
  document.blocks.push_back(Heading{2, "Measured and assumed"});
  document.blocks.push_back(standingTable(input));
  List list{true, {}};
  for (const doubt::Matter& matter : input.matters) {
    list.items.push_back({plain(doubt::sentence(matter)), {}});
  }
  if (!list.items.empty()) {
    document.blocks.push_back(Heading{3, "The assumptions on which the verdict hangs most"});
    document.blocks.push_back(std::move(list));
  }
}

void addRest(const PaperInput& input, Document& document) {
  if (input.verdict.groups.size() > input.verdict.on_top) {
    document.blocks.push_back(Heading{2, "What else was found"});
    for (std::size_t g = input.verdict.on_top; g < input.verdict.groups.size(); ++g) {
      document.blocks.push_back(boxOf(input, input.verdict.groups[g]));
    }
  }
  if (!input.verdict.lived_with.empty()) {
    document.blocks.push_back(Heading{2, "Found and accepted"});
    for (const judge::Group& group : input.verdict.lived_with) {
      document.blocks.push_back(boxOf(input, group));
    }
  }
}

void addNotCovered(Document& document) {
  document.blocks.push_back(Heading{2, "What this does not cover"});
  document.blocks.push_back(List{
      false,
      {{plain("How much dust anyone breathes: enough air at a port is not an exposure result."), {}},
       {plain(
            "Whether dust is held at the cutter: guards, openings and the throw of the chips are looked at, "
            "not computed."),
        {}},
       {plain("Whether a rule is kept: the local authority says what binds, licensed trades what is safe."),
        {}},
       {plain("Plugs, leaks and damage that nobody entered; days that differ from the air named above."), {}},
       {plain("The strength of hangers and the noise of the ducts themselves."), {}}}});
}

}  // namespace

Document adviserPaper(const PaperInput& input) {
  Document document = begun(input, "Report for the adviser");
  document.contents = true;
  const std::size_t state = shownState(input);
  std::vector<const judge::Sheet*> sheets;
  addVerdict(input, document);
  addFound(input, document);
  document.blocks.push_back(Heading{2, "Who, when and in what air"});
  document.blocks.push_back(circumstances(input));
  document.blocks.push_back(Heading{2, "The shop"});
  document.blocks.push_back(planFigure(input, state, true));
  document.blocks.push_back(Heading{2, "States and machines"});
  document.blocks.push_back(statesTable(input));
  addCollectors(input, document);
  addWorstPath(input, sheets, document);
  if (input.evidence.solved(state) && !input.evidence.margins[state].runs.empty()) {
    document.blocks.push_back(Heading{2, "Chips on their way"});
    document.blocks.push_back(speedFigure(input, state));
  }
  addDoubt(input, document);
  if (Table options = optionsTable(input); !options.rows.empty()) {
    document.blocks.push_back(Heading{2, "Options"});
    document.blocks.push_back(std::move(options));
  }
  document.blocks.push_back(Heading{2, "Policies"});
  document.blocks.push_back(policyTable(input));
  addRest(input, document);
  addNotCovered(document);
  document.blocks.push_back(Heading{2, "Sources"});
  document.blocks.push_back(sourcesOf(input, sheets));
  return document;
}

}  // namespace kerfdraft::papers
