// What a terminal shows of a judgement: findings first, then the table.
#include <fmt/format.h>

#include "judge/speech.h"
#include "papers/papers.h"
#include "papers/parts.h"

namespace kerfdraft::papers {

Document checkPaper(const PaperInput& input) {
  Document document = begun(input, "What was found");
  document.note.clear();
  document.blocks.push_back(Text{plain(servedSentence(input)), true});
  for (std::size_t g = 0; g < input.verdict.on_top; ++g) {
    document.blocks.push_back(boxOf(input, input.verdict.groups[g]));
  }
  List more;
  const judge::Voice voice(input.reader, input.units);
  for (std::size_t g = input.verdict.on_top; g < input.verdict.groups.size(); ++g) {
    const judge::Finding& lead = input.verdict.findings[input.verdict.groups[g].lead];
    more.items.push_back(
        {plain(fmt::format("{} ({})", judge::say(lead, voice).title, judge::toText(lead.severity))), {}});
  }
  for (const judge::Group& group : input.verdict.lived_with) {
    more.items.push_back(
        {plain(fmt::format("{} (accepted: {})", judge::say(input.verdict.findings[group.lead], voice).title,
                           input.verdict.reasons[group.lead])),
         {}});
  }
  if (!more.items.empty()) {
    document.blocks.push_back(Heading{3, "Also found"});
    document.blocks.push_back(std::move(more));
  }
  Table table;
  table.columns = {{"state"},
                   {"machine"},
                   {"air", Align::Right, base::Kind::VolumeFlow},
                   {"from", Align::Right, base::Kind::VolumeFlow},
                   {"to", Align::Right, base::Kind::VolumeFlow},
                   {"chips taken"},
                   {"fine dust too"},
                   {"chips carried"}};
  for (std::size_t s = 0; s < input.assessment.states.size(); ++s) {
    const judge::StateResult& state = input.assessment.states[s];
    if (state.solution.outcome != network::Outcome::Solved) {
      table.rows.push_back({{state.name}, {state.solution.solved() ? "no air moves" : "no solution"}});
      continue;
    }
    bool first = true;
    for (const Got& got : gotIn(input, s)) {
      table.rows.push_back({{first ? state.name : std::string()},
                            {got.name},
                            {{}, got.margin->flow_m3_s},
                            {{}, got.low()},
                            {{}, got.high()},
                            {chipsTaken(got).text},
                            {dustTaken(got).text},
                            {chipsCarried(got).text}});
      first = false;
    }
  }
  document.blocks.push_back(Heading{3, "States and machines"});
  document.blocks.push_back(std::move(table));
  return document;
}

}  // namespace kerfdraft::papers
