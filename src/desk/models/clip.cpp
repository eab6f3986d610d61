// The text is that of a project, so that any program that reads those reads it, and the same reader judges
// it.
#include "desk/models/clip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/models/placing.h"
#include "drawing/geometry.h"
#include "files/project_file.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Result;

template <class List>
bool has(const List& things, base::Id id) {
  return std::any_of(things.begin(), things.end(), [id](const auto& each) { return each.id == id; });
}

drawing::Box middlesOf(const shop::Project& project) {
  drawing::Box box;
  const auto add = [&box](const shop::Point& p) {
    box.add(drawing::At{static_cast<double>(p.x_um), static_cast<double>(p.y_um)});
  };
  for (const shop::Machine& machine : project.machines) {
    add(machine.at);
  }
  for (const shop::Collector& collector : project.collectors) {
    add(collector.at);
  }
  return box;
}

bool standsAt(const shop::Project& project, shop::PlanPoint place) {
  const auto stands = [place](const auto& each) {
    return each.at.x_um == place.x_um && each.at.y_um == place.y_um;
  };
  return std::any_of(project.machines.begin(), project.machines.end(), stands) ||
         std::any_of(project.collectors.begin(), project.collectors.end(), stands);
}

}  // namespace

Result<std::string> textOfThings(const shop::Project& project, const std::set<base::Id>& ids) {
  shop::Project out;
  out.setting = project.setting;
  out.air = project.air;
  std::set<base::Id> rooms;
  std::set<base::Id> circuits;
  for (const shop::Machine& machine : project.machines) {
    if (ids.contains(machine.id)) {
      out.machines.push_back(machine);
      rooms.insert(machine.room);
      circuits.insert(machine.circuit);
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    if (ids.contains(collector.id)) {
      out.collectors.push_back(collector);
      rooms.insert({collector.room, collector.discharge.room});
      circuits.insert(collector.circuit);
    }
  }
  if (out.machines.empty() && out.collectors.empty()) {
    return fail(ErrorCode::Unsupported, "only machines and collectors are copied; pick one first");
  }
  for (shop::Room room : project.rooms) {
    if (rooms.contains(room.id)) {
      room.openings.clear();  // doors may lead to rooms that stay behind
      room.obstacles.clear();
      out.rooms.push_back(std::move(room));
    }
  }
  std::copy_if(project.circuits.begin(), project.circuits.end(), std::back_inserter(out.circuits),
               [&](const shop::Circuit& circuit) { return circuits.contains(circuit.id); });
  return files::writeProject(out);
}

bool looksLikeThings(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && text[first] == '{';
}

Result<Change> putThings(const shop::Project& project, std::string_view text, shop::PlanPoint asked,
                         base::IdSource& ids, std::set<base::Id>* made) {
  shop::PlanPoint at = asked;
  constexpr std::size_t kMost = 8U << 20U;
  if (text.empty()) {
    return fail(ErrorCode::Reference, "nothing was copied yet; pick a machine and copy it first");
  }
  if (text.size() > kMost) {
    return fail(ErrorCode::Range, "what was copied is too long to be part of a shop (more than 8 MB)");
  }
  if (!looksLikeThings(text)) {
    return fail(ErrorCode::Parse, "what was copied is no part of a shop; pick a machine and copy it first");
  }
  const Result<shop::Project> clip = files::firstProblemOnly(files::readProject(text, "what was copied"));
  if (!clip) {
    return fail(ErrorCode::Parse, "what was copied is no part of a shop: " + clip.error().text());
  }
  if (clip->machines.empty() && clip->collectors.empty()) {
    return fail(ErrorCode::Unsupported, "no machine and no collector is in what was copied");
  }
  const drawing::Box box = middlesOf(*clip);
  const auto placed = [&](const shop::Point& p) {
    return shop::PlanPoint{p.x_um + at.x_um - std::llround(box.centre().x),
                           p.y_um + at.y_um - std::llround(box.centre().y)};
  };
  // Put in twice at one place they would hide each other.
  constexpr std::int64_t kBeside_um = 600'000;
  const shop::PlanPoint first =
      placed(clip->machines.empty() ? clip->collectors.front().at : clip->machines.front().at);
  while (standsAt(project, {first.x_um + at.x_um - asked.x_um, first.y_um + at.y_um - asked.y_um})) {
    at.x_um += kBeside_um;
    at.y_um -= kBeside_um;
  }
  Change change;
  shop::Project with = project;  // so that labels of several things differ
  std::string name;
  for (const shop::Machine& machine : clip->machines) {
    const auto one = placeMachine(with, machine, placed(machine.at), 0, ids);
    const shop::Machine& put = std::get<shop::PutMachine>(one->edits.front()).machine;
    with.machines.push_back(put);
    name = put.label;
    change.edits.push_back(one->edits.front());
  }
  for (const shop::Collector& collector : clip->collectors) {
    const auto one = placeCollector(with, collector, placed(collector.at),
                                    static_cast<double>(collector.at.z_um) * 1e-6, ids);
    shop::Collector put = std::get<shop::PutCollector>(one->edits.front()).collector;
    // Outdoors stays outdoors, another room of this shop stays that room.
    const base::Id blew = collector.discharge.room;
    if (!blew.valid() || (blew != collector.room && has(project.rooms, blew))) {
      put.discharge.room = blew;
    }
    with.collectors.push_back(put);
    name = put.label;
    change.edits.emplace_back(shop::PutCollector{put});
  }
  if (made != nullptr) {
    for (const shop::Edit& edit : change.edits) {
      const auto* machine = std::get_if<shop::PutMachine>(&edit);
      made->insert(machine != nullptr ? machine->machine.id
                                      : std::get<shop::PutCollector>(edit).collector.id);
    }
  }
  change.words = change.edits.size() == 1 ? "Put in copied " + name
                                          : fmt::format("Put in {} copied things", change.edits.size());
  return change;
}

}  // namespace kerfdraft::desk
