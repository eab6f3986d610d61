// A drawn end of a duct that is joined to nothing: a duct that leads nowhere brings no air to its machines,
// and one that begins at nothing is a closed stub.
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <variant>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

bool isOpenEnd(const shop::DuctEnd& end) {
  return std::holds_alternative<shop::OpenEnd>(end);
}

/// Another duct begins or ends at a corner of this one.
bool anythingJoins(const shop::Project& project, const shop::Duct& duct) {
  const auto joins = [&](const shop::DuctEnd& end) {
    const auto* on = std::get_if<shop::OnCorner>(&end);
    return on != nullptr && on->duct == duct.id;
  };
  return std::any_of(project.ducts.begin(), project.ducts.end(), [&](const shop::Duct& each) {
    return each.id != duct.id && (joins(each.from) || joins(each.to));
  });
}

/// Machines whose air is drawn into a duct, through branches of branches too.
std::set<base::Id> machinesInto(const shop::Project& project, base::Id duct) {
  std::set<base::Id> machines;
  std::set<base::Id> seen;
  std::vector<base::Id> todo{duct};
  while (!todo.empty()) {
    const base::Id now = todo.back();
    todo.pop_back();
    if (!seen.insert(now).second) {
      continue;
    }
    for (const shop::Duct& each : project.ducts) {
      if (each.id == now) {
        if (const auto* port = std::get_if<shop::PortRef>(&each.from)) {
          machines.insert(port->machine);
        } else if (const auto* moved = std::get_if<shop::MovedEnd>(&each.from)) {
          for (const shop::PortRef& place : moved->places) {
            machines.insert(place.machine);
          }
        }
      }
      const auto* on = std::get_if<shop::OnCorner>(&each.to);
      if (on != nullptr && on->duct == now) {
        todo.push_back(each.id);
      }
    }
  }
  return machines;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const shop::Project& project = evidence.project();
  const auto& runs = evidence.pieces().runs;
  for (const shop::Duct& duct : project.ducts) {
    const bool begin = isOpenEnd(duct.from);
    const bool end = isOpenEnd(duct.to);
    if ((!begin && !end) || duct.corners.empty()) {
      continue;
    }
    Finding finding;
    const base::Id corner = end ? duct.corners.back().id : duct.corners.front().id;
    finding.key = {pieces::Role::Run, duct.id, corner};
    finding.label = ductName(duct);
    for (std::size_t r = 0; r < runs.size(); ++r) {
      if ((begin && runs[r].key.a == duct.corners.front().id) ||
          (end && runs[r].key.b == duct.corners.back().id)) {
        finding.runs.push_back(r);
      }
    }
    const bool stub = begin && !end && anythingJoins(project, duct);
    finding.words = {begin && end ? "both" : (end ? "end" : (stub ? "stub" : "start"))};
    finding.severity = stub ? Severity::Note : Severity::Caution;
    finding.badness = 1;
    if (end) {
      const std::set<base::Id> machines = machinesInto(project, duct.id);
      for (const shop::Machine& machine : project.machines) {
        if (machines.contains(machine.id)) {
          finding.words.push_back(evidence.machineName(machine.id));
        }
      }
      finding.severity = machines.empty() ? Severity::Caution : Severity::Serious;
    }
    if (!stub) {
      finding.remedies.push_back({"join-end", {}, {finding.label}, {}, {}, {}});
    }
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string& which = finding.words[0];
  const std::string machines = listedFrom(finding, 1);
  std::string what = which == "both"  ? "is joined to nothing at either end"
                     : which == "end" ? "leads nowhere: its far end is joined to nothing"
                     : which == "stub"
                         ? "begins before its first branch with an end that is joined to nothing"
                         : "begins at nothing, and nothing enters it";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} {}.{}", finding.label, what,
                         machines.empty() ? (which == "stub" ? " It counts as capped." : "")
                                          : fmt::format(" {} gets no air through it.", machines));
    case Reader::Adviser:
      return fmt::format("{} {}; the end is taken as closed to the air.{}", finding.label, what,
                         machines.empty() ? "" : fmt::format(" It is the way of {}.", machines));
    case Reader::Inspector:
      return fmt::format(
          "{} {} and is taken as closed.{}", finding.label, what,
          machines.empty() ? "" : fmt::format(" Intended performance at {}: not met.", machines));
  }
  return {};
}

}  // namespace

const Rule kOpenEnd{"open-end", Topic::Air, "Duct end joined to nothing", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
