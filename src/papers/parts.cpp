// Title block, boxes and tables that papers share.
#include "papers/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "judge/speech.h"
#include "papers/draw_charts.h"
#include "papers/references.h"
#include "papers/standings.h"
#include "pieces/choices.h"

namespace kerfdraft::papers {
namespace {

using base::Kind;

judge::Voice voice(const PaperInput& input) {
  return {input.reader, input.units};
}

bool anyMeasured(const PaperInput& input) {
  for (const StandingCount& count : countStandings(input.evidence.project())) {
    if (count.values[static_cast<std::size_t>(base::Standing::Measured)] > 0) {
      return true;
    }
  }
  return false;
}

/// "State A, state B and 3 more".
std::string someOf(const std::vector<std::string>& words, std::size_t most) {
  if (words.size() <= most) {
    return listed(words);
  }
  std::vector<std::string> some(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(most));
  some.push_back(fmt::format("{} more", words.size() - most));
  return listed(some);
}

}  // namespace

Document begun(const PaperInput& input, std::string kind) {
  Document document;
  document.shop = input.evidence.project().setting.name;
  document.note = input.evidence.project().setting.note;
  document.kind = std::move(kind);
  document.reader = input.reader;
  document.units = input.units;
  std::set<std::string> filters;
  for (const std::size_t s : movingStates(input)) {
    filters.insert(filterText(input, s));
  }
  document.first_line = {
      input.date,
      filters.size() == 1  ? *filters.begin()
      : filters.size() > 1 ? "filter as each state says"
                           : "",
      anyMeasured(input) ? "air predicted, parts of the shop measured" : "predicted, nothing measured"};
  return document;
}

std::string shown(const PaperInput& input, Kind kind, double si) {
  return voice(input).show(si, kind);
}

std::string filterText(const PaperInput& input, std::size_t state) {
  return input.evidence.pieces().filters.empty()
             ? std::string()
             : fmt::format("filter {}", toText(input.assessment.states[state].situation.filter));
}

FindingBox boxOf(const PaperInput& input, const judge::Group& group) {
  const judge::Finding& lead = input.verdict.findings[group.lead];
  const judge::Said said = judge::say(lead, voice(input));
  FindingBox box;
  box.severity = lead.severity;
  box.title = said.title;
  box.what = said.what;
  box.limit = said.limit;
  box.remedies = said.remedies;
  box.defer = said.defer;
  std::vector<std::string> states;
  states.reserve(group.same.size());
  for (const std::size_t f : group.same) {
    states.push_back(input.verdict.findings[f].state_name);
  }
  states.erase(std::remove(states.begin(), states.end(), std::string()), states.end());
  if (!states.empty()) {
    box.also.push_back("Also in: " + someOf(states, 5) + ".");
  }
  std::vector<std::string> symptoms;
  for (const std::size_t f : group.symptoms) {
    std::string title = judge::say(input.verdict.findings[f], voice(input)).title;
    if (std::find(symptoms.begin(), symptoms.end(), title) == symptoms.end()) {
      symptoms.push_back(std::move(title));
    }
  }
  if (!symptoms.empty()) {
    box.also.push_back("It explains: " + someOf(symptoms, 4) + ".");
  }
  if (input.verdict.accepted[group.lead] == judge::Accepted::Returned) {
    box.also.push_back(fmt::format("It was accepted (\"{}\") and has grown worse since.",
                                   input.verdict.reasons[group.lead]));
  } else if (input.verdict.accepted[group.lead] == judge::Accepted::Yes) {
    box.also.push_back(fmt::format("Accepted: \"{}\".", input.verdict.reasons[group.lead]));
  }
  return box;
}

std::string servedSentence(const PaperInput& input) {
  std::size_t served = 0;
  std::size_t all = 0;
  std::size_t unsolved = 0;
  for (std::size_t s = 0; s < input.assessment.states.size(); ++s) {
    const bool solved = input.assessment.states[s].solution.solved();
    unsolved += solved || !used(input.assessment, s) ? 0U : 1U;
  }
  for (const std::size_t s : movingStates(input)) {
    ++all;
    served += input.evidence.margins[s].served ? 1U : 0U;
  }
  std::string out;
  if (all == 0) {
    out = "No air moves in any state of this shop.";
  } else if (served == all) {
    out = all == 1
              ? "What is open gets the air it must have."
              : fmt::format("In each of {} states of use every open port gets the air it must have.", all);
  } else {
    out = fmt::format("In {} of {} states of use an open port gets less air than it must have.", all - served,
                      all);
  }
  if (unsolved > 0) {
    out += fmt::format(" {} {} no solution.", unsolved, unsolved == 1 ? "state has" : "states have");
  }
  return out;
}

Table standingTable(const PaperInput& input) {
  Table table;
  table.caption = "How the entered values are known";
  table.columns = {{"part of the shop"}};
  for (std::size_t s = 0; s < kStandings; ++s) {
    table.columns.push_back(
        {s == 2 ? std::string("by the maker") : std::string(base::toText(static_cast<base::Standing>(s))),
         Align::Right});
  }
  StandingCount sum;
  sum.part = "together";
  std::vector<StandingCount> counts = countStandings(input.evidence.project());
  for (const StandingCount& count : counts) {
    for (std::size_t s = 0; s < kStandings; ++s) {
      sum.values[s] += count.values[s];
    }
  }
  counts.push_back(sum);
  for (const StandingCount& count : counts) {
    const bool last = &count == &counts.back();
    std::vector<Cell> row{{count.part, {}, {}, last}};
    for (const std::size_t n : count.values) {
      row.push_back({n == 0 ? std::string("-") : fmt::format("{}", n), {}, {}, last});
    }
    table.rows.push_back(std::move(row));
  }
  table.starts = {counts.size() - 1};
  return table;
}

Table policyTable(const PaperInput& input) {
  Table table;
  table.caption = "Where published rules disagree";
  table.columns = {{"about", Align::Left, {}, 0.3},
                   {"taken here", Align::Left, {}, 0.35},
                   {"others say", Align::Left, {}, 0.35}};
  for (const catalogue::PolicySubject& subject : catalogue::policySubjects(input.catalogue)) {
    const auto taken = pieces::chosenPolicy(input.evidence.project(), input.catalogue, subject.key);
    const auto choices = catalogue::policyChoices(input.catalogue, subject.key);
    if (!choices) {
      continue;
    }
    std::vector<std::string> others;
    for (const catalogue::PolicyChoice& choice : *choices) {
      if (!taken || choice.choice != taken->choice) {
        others.push_back(choice.name);
      }
    }
    constexpr std::size_t kMostNamed = 4;
    std::string all;
    for (std::size_t o = 0; o < std::min(others.size(), kMostNamed); ++o) {
      all += (all.empty() ? "" : "; ") + others[o];
    }
    if (others.size() > kMostNamed) {
      all += fmt::format("; {} more", others.size() - kMostNamed);
    }
    const bool chosen = std::any_of(
        input.evidence.project().setting.policies.begin(), input.evidence.project().setting.policies.end(),
        [&](const shop::Policy& policy) { return policy.subject == subject.key; });
    table.rows.push_back(
        {{subject.name},
         {taken ? taken->name + (chosen ? " (chosen)" : " (usual)") : std::string("nothing chosen")},
         {all}});
  }
  return table;
}

Sources sourcesOf(const PaperInput& input, const std::vector<const judge::Sheet*>& sheets) {
  std::set<std::string> keys;
  const auto take = [&](const std::string& source) {
    // A text may name several: "A: place; B".
    for (std::size_t at = 0; at < source.size();) {
      const std::size_t end = std::min(source.find("; ", at), source.size());
      if (std::string key = referenceKey(source.substr(at, end - at)); !key.empty()) {
        keys.insert(std::move(key));
      }
      at = end + 2;
    }
  };
  for (const judge::Finding& finding : input.verdict.findings) {
    if (finding.limit) {
      take(finding.limit->source);
    }
  }
  for (const judge::Sheet* sheet : sheets) {
    for (const judge::SheetRow& row : sheet->rows) {
      take(row.source.key);
    }
  }
  for (const judge::StateMargins& state : input.evidence.margins) {
    for (const judge::RunMargin& run : state.runs) {
      take(run.source);
    }
  }
  for (const doubt::Matter& matter : input.matters) {
    take(std::string(matter.prior->source));
  }
  Sources sources;
  for (const std::string& key : keys) {
    sources.lines.push_back({key, referenceText(key).value_or("")});
  }
  return sources;
}

Table sheetTable(const judge::Sheet& sheet) {
  Table table;
  table.caption = fmt::format("Calculation sheet: {} to {}, {}", sheet.from, sheet.to, sheet.state_name);
  table.small = true;
  table.columns = {{"piece", Align::Left, {}, 0.3},
                   {"air", Align::Right, Kind::VolumeFlow},
                   {"bore", Align::Right, Kind::Bore},
                   {"length", Align::Right, Kind::Length},
                   {"speed", Align::Right, Kind::Speed},
                   {"velocity pressure", Align::Right, Kind::Pressure},
                   {"coefficient", Align::Right},
                   {"loss", Align::Right, Kind::Pressure},
                   {"sum of losses", Align::Right, Kind::Pressure},
                   {"static behind it", Align::Right, Kind::Pressure}};
  const auto number = [](double si, bool meant = true) { return meant ? Cell{{}, si} : Cell{}; };
  for (const judge::SheetRow& row : sheet.rows) {
    const bool local = row.bore_m > 0;
    table.rows.push_back({{row.label},
                          number(row.flow_m3_s, row.flow_m3_s != 0),
                          number(row.bore_m, local),
                          number(row.length_m, row.length_m > 0),
                          number(row.speed_m_s, local),
                          number(row.velocity_pressure_pa, local),
                          row.coefficient != 0 ? Cell{fmt::format("{:.3f}", row.coefficient)} : Cell{},
                          number(row.loss_pa),
                          number(row.running_loss_pa),
                          number(row.static_pa, local)});
  }
  table.note = "Pressures against the room where the path begins; suction is negative.";
  return table;
}

}  // namespace kerfdraft::papers
