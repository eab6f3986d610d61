// For the owner: what to do, in the order in which to do it. No coefficients.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "judge/speech.h"
#include "papers/papers.h"
#include "papers/parts.h"

namespace kerfdraft::papers {
namespace {

using base::Kind;

/// So many things can be done in one go.
constexpr std::size_t kThingsToDo = 3;
constexpr std::size_t kMostCautions = 4;

judge::Voice voice(const PaperInput& input) {
  return {judge::Reader::Owner, input.units};
}

bool aboutPeople(const judge::Finding& finding) {
  const judge::Rule* rule = judge::findRule(finding.rule);
  return rule != nullptr && rule->topic == judge::Topic::People;
}

bool hurts(const judge::Finding& finding) {
  return aboutPeople(finding) && (finding.defers || finding.severity <= judge::Severity::Serious);
}

/// A remedy that changes a flow or speed by less than this share is not worth the way (ours).
constexpr double kWorthIt = 0.03;

/// False where trying it showed that it hardly helps.
bool worthIt(const judge::Remedy& remedy) {
  if (!remedy.gain || remedy.gain->cures) {
    return true;
  }
  const double grown = remedy.gain->after - remedy.gain->before;
  return std::abs(grown) >= kWorthIt * std::abs(remedy.gain->before);
}

/// Groups on which a thing to do hangs: those about the air; of those about people the severe ones.
struct Todo {
  List list{true, {}};
  std::set<std::size_t> groups;
};

Todo thingsToDo(const PaperInput& input) {
  Todo todo;
  std::set<std::string> said_already;
  const auto take = [&](std::size_t g) {
    const judge::Finding& lead = input.verdict.findings[input.verdict.groups[g].lead];
    if (todo.list.items.size() >= kThingsToDo || lead.severity > judge::Severity::Caution ||
        todo.groups.contains(g)) {
      return;
    }
    const auto remedy = std::find_if(lead.remedies.begin(), lead.remedies.end(), worthIt);
    if (remedy == lead.remedies.end()) {
      return;
    }
    const judge::Said said = judge::say(lead, voice(input));
    const std::string sentence = judge::sayRemedy(*remedy, voice(input));
    if (!said_already.insert(sentence).second) {
      return;
    }
    Item item;
    item.line = strong(sentence);
    item.below.push_back(plain(said.what));
    todo.list.items.push_back(std::move(item));
    todo.groups.insert(g);
  };
  for (std::size_t g = 0; g < input.verdict.groups.size(); ++g) {
    take(g);
  }
  return todo;
}

/// Which gates may be open together, and what it does to each machine.
void addTogether(const PaperInput& input, Document& document) {
  Table table;
  table.columns = {{"when you use", Align::Left, {}, 0.26},
                   {"open", Align::Left, {}, 0.12},
                   {"machine", Align::Left, {}, 0.29},
                   {"takes the chips", Align::Left, {}, 0.11},
                   {"takes fine dust too", Align::Left, {}, 0.11},
                   {"chips stay on their way", Align::Left, {}, 0.11}};
  for (const std::size_t s : usualStates(input)) {
    // Machines of a state that fare alike share a row.
    struct Alike {
      std::vector<std::string> names;
      InWords chips, dust, way;
    };
    std::vector<Alike> rows;
    for (const Got& got : gotIn(input, s)) {
      if (got.margin->served == judge::Served::NothingAsked && got.slowest == nullptr) {
        continue;
      }
      Alike one{{got.name}, chipsTaken(got), dustTaken(got), chipsCarried(got)};
      const auto same = std::find_if(rows.begin(), rows.end(), [&](const Alike& row) {
        return row.chips.text == one.chips.text && row.dust.text == one.dust.text &&
               row.way.text == one.way.text;
      });
      if (same == rows.end()) {
        rows.push_back(std::move(one));
      } else {
        same->names.push_back(got.name);
      }
    }
    const std::string gates = openGates(input, s);
    for (std::size_t r = 0; r < rows.size(); ++r) {
      if (r == 0) {
        table.starts.push_back(table.rows.size());
      }
      table.rows.push_back({{r == 0 ? input.assessment.states[s].name : std::string()},
                            {r == 0 ? (gates.empty() ? std::string("-") : gates) : std::string()},
                            {listed(rows[r].names)},
                            {rows[r].chips.text, {}, rows[r].chips.grade},
                            {rows[r].dust.text, {}, rows[r].dust.grade},
                            {rows[r].way.text, {}, rows[r].way.grade}});
    }
  }
  if (table.rows.empty()) {
    return;
  }
  table.note = "Yes, likely, unlikely and no are chances of a prediction. A dash: nothing is asked there.";
  document.blocks.push_back(Heading{2, "Which gates together"});
  document.blocks.push_back(std::move(table));
}

/// Filter and bin, by what a gauge shows.
void addUpkeep(const PaperInput& input, Document& document) {
  List list;
  Table gauge;
  gauge.columns = {{"gauge across the filter"},
                   {"just cleaned", Align::Right, Kind::Pressure},
                   {"as reckoned here", Align::Right, Kind::Pressure},
                   {"clean it at", Align::Right, Kind::Pressure}};
  // Of several states the one in which it must be cleaned first.
  std::vector<const judge::Finding*> earliest;
  bool no_gauge = false;
  for (const judge::Finding& finding : input.verdict.findings) {
    no_gauge = no_gauge || finding.rule == "no-gauge";
    if (finding.rule == "bin-fills" || finding.rule == "bin-unknown") {
      list.items.push_back({plain(judge::say(finding, voice(input)).what), {}});
    }
    if (finding.rule != "filter-due") {
      continue;
    }
    const auto known = std::find_if(earliest.begin(), earliest.end(),
                                    [&](const judge::Finding* f) { return f->label == finding.label; });
    if (known == earliest.end()) {
      earliest.push_back(&finding);
    } else if (finding.figure("clean-at").value < (*known)->figure("clean-at").value) {
      *known = &finding;
    }
  }
  for (const judge::Finding* finding : earliest) {
    gauge.rows.push_back({{finding->label},
                          {{}, finding->figure("pressure-clean").value},
                          {{}, finding->figure("pressure-now").value},
                          {{}, finding->figure("clean-at").value, {}, true}});
    const std::string in = finding->state_name.empty() ? "" : " (" + finding->state_name + ")";
    list.items.push_back({plain(judge::say(*finding, voice(input)).what + in), {}});
  }
  if (list.items.empty() && gauge.rows.empty()) {
    return;
  }
  document.blocks.push_back(Heading{2, "When to empty and when to clean"});
  if (!gauge.rows.empty()) {
    document.blocks.push_back(std::move(gauge));
  }
  if (no_gauge && !earliest.empty()) {
    document.blocks.push_back(
        Text{plain("There is no gauge across the filter yet: two hoses and a U-tube with water will do.")});
  }
  document.blocks.push_back(std::move(list));
}

/// What a person with a U-tube can do where only the label of a collector is known.
void addTwoMinutes(const PaperInput& input, std::size_t state, Document& document) {
  const pieces::Pieces& pieces = input.evidence.pieces();
  const network::Solution& solution = input.assessment.states[state].solution;
  List list{true, {}};
  for (std::size_t f = 0; f < pieces.fans.size() && solution.solved(); ++f) {
    const pieces::Fan& fan = pieces.fans[f];
    if (!fan.label_only || fan.key.role != pieces::Role::Fan || !solution.fans[f].running) {
      continue;
    }
    const double suction_pa = -inletStatic(input, state, f);
    const judge::Band band = input.evidence.fanBand(state, f);
    const double flow_m3_s = solution.fans[f].inlet_flow_m3_s;
    const std::string gates = openGates(input, state);
    Item item;
    item.line = strong(fmt::format("Hold a U-tube to a small hole in the duct just before {}, with {} open.",
                                   fan.label, gates.empty() ? "everything as you use it" : gates));
    item.below.push_back(plain(fmt::format(
        "{} is the suction this page reckons with. Much less means a weaker collector or a leak, much more a "
        "clogged duct. The label alone leaves the air between {} and {}.",
        shown(input, Kind::Pressure, suction_pa),
        shown(input, Kind::VolumeFlow, std::max(0.0, band.low) * flow_m3_s),
        shown(input, Kind::VolumeFlow, band.high * flow_m3_s))));
    list.items.push_back(std::move(item));
    list.items.push_back(
        {strong("Shut every gate and read it again."),
         {plain(
             "This is the most your collector can pull. Write both readings down: with them the next report "
             "is surer.")}});
  }
  if (list.items.empty()) {
    return;
  }
  document.blocks.push_back(Heading{2, "Measure this in two minutes"});
  document.blocks.push_back(
      Text{plain("Only the label of the collector is known. Labels promise too much.")});
  document.blocks.push_back(std::move(list));
}

/// Who can be hurt, unless the list of things to do says it already.
void addCautions(const PaperInput& input, const std::set<std::size_t>& told, Document& document) {
  std::size_t count = 0;
  bool ask = false;
  std::vector<Block> boxes;
  std::vector<std::string> more;
  for (std::size_t g = 0; g < input.verdict.groups.size(); ++g) {
    const judge::Finding& lead = input.verdict.findings[input.verdict.groups[g].lead];
    if (!hurts(lead) || told.contains(g)) {
      ask = ask || lead.defers;
      continue;
    }
    ask = ask || lead.defers;
    const judge::Said said = judge::say(lead, voice(input));
    if (count >= kMostCautions) {
      more.push_back(said.title);
      continue;
    }
    ++count;
    Caution caution;
    caution.title = said.title;
    caution.lines.push_back(plain(said.what));
    if (!said.remedies.empty()) {
      caution.lines.push_back(strong(said.remedies.front()));
    }
    boxes.push_back(std::move(caution));
  }
  if (boxes.empty() && !ask) {
    return;
  }
  document.blocks.push_back(Heading{2, "What can hurt"});
  document.blocks.insert(document.blocks.end(), boxes.begin(), boxes.end());
  if (!more.empty()) {
    document.blocks.push_back(Text{headed("Also", listed(more) + ".")});
  }
  if (ask) {
    document.blocks.push_back(
        Text{plain("What binds you is for the local authority to say, and gas, flues and wiring are for a "
                   "licensed trade: ask them before you rely on this.")});
  }
}

}  // namespace

Document ownerPaper(const PaperInput& input) {
  Document document = begun(input, "What to do about the dust collection");
  const std::size_t state = shownState(input);
  const Todo todo = thingsToDo(input);
  const bool any = !input.verdict.groups.empty();
  const judge::Finding* worst = any ? &input.verdict.findings[input.verdict.groups.front().lead] : nullptr;
  if (worst != nullptr && worst->severity <= judge::Severity::Caution) {
    document.blocks.push_back(
        Text{plain(servedSentence(input) + " " + judge::say(*worst, voice(input)).what), true});
  } else {
    document.blocks.push_back(
        Text{plain(servedSentence(input) + " Nothing in it needs to be mended."), true});
  }
  document.blocks.push_back(planFigure(input, state, false));
  if (!todo.list.items.empty()) {
    List list = todo.list;
    // The page has just said why the first one comes first.
    if (todo.groups.contains(0)) {
      list.items.front().below.clear();
    }
    document.blocks.push_back(Heading{2, list.items.size() == 1 ? "Do this" : "Do these, in this order"});
    document.blocks.push_back(std::move(list));
  }
  addCautions(input, todo.groups, document);
  addTogether(input, document);
  addUpkeep(input, document);
  addTwoMinutes(input, state, document);
  document.blocks.push_back(Text{
      plain("Enough air at a machine is not yet dust held: guards, openings and where the dust is thrown "
            "decide that. Nothing here says how much dust you breathe, or that a rule is kept."),
      false, true});
  // Who owns the shop knows what is noted of it; the sides are for what is to be done.
  if (!document.note.empty()) {
    document.blocks.push_back(Text{headed("Noted of the shop", document.note), false, true});
    document.note.clear();
  }
  return document;
}

}  // namespace kerfdraft::papers
