// Edits of rooms, machines and collectors.
#include <cmath>

#include "shop/edit_parts.h"

namespace kerfdraft::shop {
namespace {

using base::Result;

/// A point turned about a vertical axis, to the micrometre.
Point turnedAbout(const Point& axis, const Point& point, double angle_rad) {
  const auto x = static_cast<double>(point.x_um - axis.x_um);
  const auto y = static_cast<double>(point.y_um - axis.y_um);
  const double c = std::cos(angle_rad);
  const double s = std::sin(angle_rad);
  return {axis.x_um + std::llround(c * x - s * y), axis.y_um + std::llround(s * x + c * y), point.z_um};
}

}  // namespace

Result<void> make(Project& project, const SetSetting& edit) {
  project.setting = edit.setting;
  return {};
}

Result<void> make(Project& project, const SetAir& edit) {
  project.air = edit.air;
  return {};
}

Result<void> make(Project& project, const SetUnderlay& edit) {
  project.underlay = edit.underlay;
  return {};
}

Result<void> make(Project& project, const PutRoom& edit) {
  const Project before = project;
  put(project.rooms, edit.room);
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const RemoveRoom& edit) {
  const Project before = project;
  const auto at = whereIs(project.rooms, edit.room);
  if (at == project.rooms.end()) {
    return notThere("room", edit.room);
  }
  project.rooms.erase(at);
  for (Room& room : project.rooms) {
    for (Opening& opening : room.openings) {
      opening.leads_to = opening.leads_to == edit.room ? Id{} : opening.leads_to;
    }
  }
  for (Machine& machine : project.machines) {
    machine.room = machine.room == edit.room ? Id{} : machine.room;
  }
  for (Collector& collector : project.collectors) {
    collector.room = collector.room == edit.room ? Id{} : collector.room;
    collector.discharge.room = collector.discharge.room == edit.room ? Id{} : collector.discharge.room;
  }
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const PutMachine& edit) {
  const Project before = project;
  put(project.machines, edit.machine);
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const MoveMachine& edit) {
  const Project before = project;
  Machine* machine = find(project.machines, edit.machine);
  if (machine == nullptr) {
    return notThere("machine", edit.machine);
  }
  const double turn_rad = edit.turned.si() - machine->turned.si();
  for (Port& port : machine->ports) {
    const Point at = turn_rad == 0 ? port.at : turnedAbout(machine->at, port.at, turn_rad);
    port.at = {at.x_um + edit.to.x_um - machine->at.x_um, at.y_um + edit.to.y_um - machine->at.y_um,
               at.z_um + edit.to.z_um - machine->at.z_um};
  }
  machine->at = edit.to;
  machine->turned = edit.turned;
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const RemoveMachine& edit) {
  const Project before = project;
  const auto at = whereIs(project.machines, edit.machine);
  if (at == project.machines.end()) {
    return notThere("machine", edit.machine);
  }
  project.machines.erase(at);
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const PutCollector& edit) {
  const Project before = project;
  put(project.collectors, edit.collector);
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const MoveCollector& edit) {
  const Project before = project;
  Collector* collector = find(project.collectors, edit.collector);
  if (collector == nullptr) {
    return notThere("collector", edit.collector);
  }
  collector->at = edit.to;
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const RemoveCollector& edit) {
  const Project before = project;
  const auto at = whereIs(project.collectors, edit.collector);
  if (at == project.collectors.end()) {
    return notThere("collector", edit.collector);
  }
  project.collectors.erase(at);
  mendJoints(project, before);
  return {};
}

}  // namespace kerfdraft::shop
