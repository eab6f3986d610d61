// A screen or cap over an outlet from which chips blow: the screen clogs and shuts the system, the cap throws
// them down in a heap.
#include <fmt/format.h>

#include <cmath>
#include <variant>

#include "catalogue/row_view.h"
#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// The state in which the cover takes most, among those in which chips pass.
std::optional<std::size_t> worstState(const Evidence& evidence, std::size_t run, std::size_t piece) {
  std::optional<std::size_t> worst;
  double most_pa = -1;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s) || evidence.chips[s][run].empty()) {
      continue;
    }
    const double loss_pa = std::abs(evidence.state(s).solution.runs[run].pieces[piece].loss_pa);
    if (loss_pa > most_pa) {
      most_pa = loss_pa;
      worst = s;
    }
  }
  return worst;
}

void lookAt(const Evidence& evidence, std::size_t run, std::size_t piece, std::vector<Finding>& out) {
  const pieces::PieceKey& key = evidence.pieces().runs[run].pieces[piece].key;
  const shop::Duct* duct = evidence.duct(key.a);
  const auto* end = duct != nullptr ? std::get_if<shop::FreeAir>(&duct->to) : nullptr;
  if (key.role != pieces::Role::Outlet || end == nullptr || end->form.empty()) {
    return;
  }
  const auto screen = catalogue::RowView::find(evidence.catalogue, "screen_k", end->form);
  const auto cap = catalogue::RowView::find(evidence.catalogue, "outlet_cap_k", end->form);
  const auto state = worstState(evidence, run, piece);
  if (!state || (!screen && !cap)) {
    return;
  }
  const StateResult& at = evidence.state(*state);
  Finding finding;
  finding.key = key;
  finding.label = duct->label;
  finding.state = state;
  finding.severity = !at.declared ? Severity::Note : (screen ? Severity::Serious : Severity::Caution);
  finding.figures = {{"loss", std::abs(at.solution.runs[run].pieces[piece].loss_pa), base::Kind::Pressure}};
  finding.badness = 1;
  finding.runs = {run};
  finding.words = {screen ? "screen" : "cap", screen ? screen->name() : cap->name()};
  for (std::string& name : machinesOf(evidence, portsThrough(evidence, *state, run))) {
    finding.words.push_back(std::move(name));
  }
  finding.remedies = {{"uncover-outlet", {}, {finding.label}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t r = 0; r < evidence.pieces().runs.size(); ++r) {
    for (std::size_t i = 0; i < evidence.pieces().runs[r].pieces.size(); ++i) {
      lookAt(evidence, r, i, out);
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool screen = finding.words[0] == "screen";
  const std::string machines = finding.words.size() > 2 ? listedFrom(finding, 2) : "the machines";
  switch (voice.reader()) {
    case Reader::Owner:
      return screen ? fmt::format(
                          "Chips of {} blow against the screen at the end of {}: it clogs, and then no "
                          "machine has air.",
                          machines, finding.label)
                    : fmt::format(
                          "Chips of {} blow against the cap at the end of {}: they fall in a heap below "
                          "it and wear it through.",
                          machines, finding.label);
    case Reader::Adviser:
      return fmt::format(
          "{} ends in \"{}\", which takes {} while it is clean; no separator keeps the chips of {} from it.",
          finding.label, finding.words[1], voice.show(finding.figure("loss")), machines);
    case Reader::Inspector:
      return fmt::format("{}: outlet covered ({}) in a run that carries chips of {}. Free outlet not met.",
                         finding.label, finding.words[1], machines);
  }
  return {};
}

}  // namespace

const Rule kScreenedRun{"screened-run", Topic::Conveying, "Outlet with chips is covered", &look, &tell};

}  // namespace kerfdraft::judge
