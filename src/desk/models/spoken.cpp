// One sentence each, in the order in which it matters: what it is, where it runs, what air it has.
#include "desk/models/spoken.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/models/figures.h"

namespace kerfdraft::desk {
namespace {

template <class T>
const T* byId(const std::vector<T>& things, base::Id id) {
  const auto at = std::find_if(things.begin(), things.end(), [id](const T& each) { return each.id == id; });
  return at == things.end() ? nullptr : &*at;
}

std::string named(const std::string& what, const std::string& name) {
  return name.empty() ? what : what + ", " + name;
}

const char* wordOf(shop::OpeningKind kind) {
  switch (kind) {
    case shop::OpeningKind::Door:
      return "door";
    case shop::OpeningKind::Window:
      return "window";
    case shop::OpeningKind::Grille:
      return "grille";
    case shop::OpeningKind::Crack:
      return "crack";
    case shop::OpeningKind::Exhaust:
      return "exhaust fan";
  }
  return "opening";
}

/// "port P1 of T1", "the inlet of C1", "duct D1", "an open end".
struct EndWords {
  const shop::Project& project;

  std::string operator()(const shop::OpenEnd& /*end*/) const { return "an open end"; }
  std::string operator()(const shop::PortRef& end) const {
    return nameOf(project, {ThingKind::Port, end.port, end.machine});
  }
  std::string operator()(const shop::MovedEnd& end) const {
    return fmt::format("a moved hose with {} {}", end.places.size(),
                       end.places.size() == 1 ? "place" : "places");
  }
  std::string operator()(const shop::CollectorInlet& end) const {
    const shop::Collector* collector = collectorOf(project, end.collector);
    return collector == nullptr ? "an inlet" : "the inlet of " + collector->label;
  }
  std::string operator()(const shop::CollectorOutlet& end) const {
    const shop::Collector* collector = collectorOf(project, end.collector);
    return collector == nullptr ? "an outlet" : "the outlet of " + collector->label;
  }
  std::string operator()(const shop::OnCorner& end) const {
    const shop::Duct* duct = ductOf(project, end.duct);
    return duct == nullptr ? "a duct" : "duct " + duct->label;
  }
  std::string operator()(const shop::FreeAir& /*end*/) const { return "the open air"; }
};

std::string gateWords(const shop::Project& project, const Solved* solved, std::size_t state, base::Id gate) {
  // A trial stands last among the states and is not in the project.
  const shop::Project& with = solved != nullptr && solved->project ? *solved->project : project;
  if (state >= with.states.size()) {
    return {};
  }
  const auto& gates = with.states[state].gates;
  const auto at = std::find_if(gates.begin(), gates.end(),
                               [gate](const shop::GateSetting& each) { return each.gate == gate; });
  const double open = at == gates.end() ? 0 : at->travel.si();
  return open <= 0 ? "shut" : open >= 1 ? "open" : fmt::format("{:.0f} % open", open * 100);
}

}  // namespace

std::string spokenName(const shop::Project& project, const Thing& thing) {
  std::string name = nameOf(project, thing);
  switch (thing.kind) {
    case ThingKind::Machine: {
      const shop::Machine* machine = machineOf(project, thing.id);
      return named(name, machine == nullptr ? "" : machine->name);
    }
    case ThingKind::Collector: {
      const shop::Collector* collector = collectorOf(project, thing.id);
      return named(name, collector == nullptr ? "" : collector->name);
    }
    case ThingKind::Duct: {
      const shop::Duct* duct = ductOf(project, thing.id);
      return named(name, duct == nullptr ? "" : duct->name);
    }
    case ThingKind::Opening: {
      const shop::Room* room = byId(project.rooms, thing.parent);
      const shop::Opening* opening = room == nullptr ? nullptr : byId(room->openings, thing.id);
      return opening == nullptr
                 ? name
                 : fmt::format("{} {} of room {}", wordOf(opening->kind), opening->label, room->label);
    }
    default:
      return name;
  }
}

std::string spokenState(const shop::Project& project, const Solved* solved, std::size_t state,
                        const Thing& thing, base::UnitSystem units) {
  std::vector<std::string> parts;
  if (const shop::Duct* duct = thing.kind == ThingKind::Duct ? ductOf(project, thing.id) : nullptr) {
    parts.push_back(fmt::format("from {} to {}", std::visit(EndWords{project}, duct->from),
                                std::visit(EndWords{project}, duct->to)));
  }
  if (thing.kind == ThingKind::Gate) {
    if (std::string words = gateWords(project, solved, state, thing.id); !words.empty()) {
      parts.push_back(std::move(words));
    }
  }
  if (solved != nullptr) {
    for (const Figure& figure : figuresOf(*solved, state, thing, units)) {
      parts.push_back(figure.name + ": " + figure.value);
    }
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::string spokenPicked(const shop::Project& project, const std::set<base::Id>& picked) {
  std::vector<std::string> names;
  for (const base::Id id : picked) {
    if (const auto thing = thingOf(project, id)) {
      names.push_back(spokenName(project, *thing));
    }
  }
  if (names.empty()) {
    return "nothing is picked";
  }
  return names.size() == 1 ? names.front() + " is picked"
                           : fmt::format("{} things are picked: {}", names.size(), fmt::join(names, "; "));
}

}  // namespace kerfdraft::desk
