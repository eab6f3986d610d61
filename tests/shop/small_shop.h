// An invented shop in which every invariant has something to look at, and a short way to enter quantities.
#pragma once

#include <string_view>

#include "shop/project.h"

namespace kerfdraft::shop {

template <class Q>
Given<Q> entered(std::string_view text) {
  return Given<Q>::parse(text).value();
}

inline Given<base::Length> length(std::string_view text) {
  return entered<base::Length>(text);
}
inline Given<base::VolumeFlow> flow(std::string_view text) {
  return entered<base::VolumeFlow>(text);
}
inline Given<base::Pressure> pressure(std::string_view text) {
  return entered<base::Pressure>(text);
}

/// x, y, z in millimetres.
inline Point at(std::int64_t x, std::int64_t y, std::int64_t z) {
  return {x * 1000, y * 1000, z * 1000};
}
inline PlanPoint onPlan(std::int64_t x, std::int64_t y) {
  return {x * 1000, y * 1000};
}

/// Two rooms; machines T1 (ports P1, P2 and a blower) and T2 (P1); the main D1 from T1 P1 to the collector C1
/// with corners 0x41 … 0x44 and gate G1; the moved hose D2 (T1 P2, T2 P1) into D1's corner 0x43; the outlet
/// D3; one state. Ids: rooms 1…, machines 0x10…, ducts 0x40…, collector 0x80…, state 0x90.
inline Project smallShop() {
  Project p;
  p.setting.name = "Small shop, invented";
  p.setting.units = base::UnitSystem::Metric;
  p.air.temperature = entered<base::Temperature>("20 °C");

  Room shop_room;
  shop_room.id = Id(1);
  shop_room.label = "R1";
  shop_room.outline = {onPlan(0, 0), onPlan(6000, 0), onPlan(6000, 5000), onPlan(0, 5000)};
  shop_room.height = length("2.8 m");
  Opening door;
  door.id = Id(2);
  door.label = "DR1";
  door.from = onPlan(1000, 0);
  door.to = onPlan(1900, 0);
  door.leads_to = Id(3);
  shop_room.openings = {door};
  Obstacle post;
  post.id = Id(4);
  post.outline = {onPlan(100, 100), onPlan(300, 100), onPlan(200, 300)};
  post.bottom = length("0 m");
  post.top = length("2.8 m");
  shop_room.obstacles = {post};
  Room hall;
  hall.id = Id(3);
  hall.label = "R2";
  hall.outline = {onPlan(0, -3000), onPlan(6000, -3000), onPlan(6000, 0)};
  hall.height = length("2.8 m");
  p.rooms = {shop_room, hall};

  Machine saw;
  saw.id = Id(0x10);
  saw.label = "T1";
  saw.room = Id(1);
  Port below;
  below.id = Id(0x11);
  below.label = "P1";
  below.at = at(1000, 1000, 300);
  below.bore = length("100 mm");
  below.target = flow("560 m3/h");
  Port guard = below;
  guard.id = Id(0x12);
  guard.label = "P2";
  guard.at = at(1000, 1000, 1400);
  saw.ports = {below, guard};
  Blower blower;
  blower.id = Id(0x13);
  blower.rating.free_air_flow = flow("300 m3/h");
  blower.rating.greatest_suction = pressure("500 Pa");
  saw.blower = blower;
  Machine planer;
  planer.id = Id(0x20);
  planer.label = "T2";
  Port hood = below;
  hood.id = Id(0x21);
  planer.ports = {hood};
  p.machines = {saw, planer};

  Leg pipe;
  pipe.bore = length("100 mm");
  pipe.construction = "spiral-galvanized";
  Leg tail = pipe;
  tail.hose = Hose{};
  Duct main;
  main.id = Id(0x40);
  main.label = "D1";
  main.corners = {{Id(0x41), at(1000, 1000, 300), tail, {}, {}},
                  {Id(0x42), at(1000, 1000, 2400), pipe, {}, {}},
                  {Id(0x43), at(3000, 1000, 2400), {}, {}, {}},
                  {Id(0x44), at(5000, 1000, 2400), {}, {}, {}}};
  main.from = PortRef{Id(0x10), Id(0x11)};
  main.to = CollectorInlet{Id(0x80)};
  main.gates = {{Id(0x45), "G1", Id(0x42), length("500 mm"), GateSlot::New}};
  main.taps = {{Id(0x46), "M1", Id(0x43), length("1 m")}};
  main.cleanouts = {{Id(0x47), "O1", Id(0x43), length("2 m")}};
  Duct moved;
  moved.id = Id(0x50);
  moved.label = "D2";
  moved.corners = {{Id(0x51), at(3000, 2000, 1000), tail, {}, {}},
                   {Id(0x52), at(3000, 1000, 2400), {}, {}, {}}};
  moved.from = MovedEnd{{{Id(0x10), Id(0x12)}, {Id(0x20), Id(0x21)}}};
  moved.to = OnCorner{Id(0x40), Id(0x43), false};
  Duct outlet;
  outlet.id = Id(0x60);
  outlet.label = "D3";
  outlet.corners = {{Id(0x61), at(5000, 1000, 3000), pipe, {}, {}},
                    {Id(0x62), at(5000, 1000, 4000), {}, {}, {}}};
  outlet.from = CollectorOutlet{Id(0x80)};
  outlet.to = FreeAir{};
  p.ducts = {main, moved, outlet};

  Collector collector;
  collector.id = Id(0x80);
  collector.label = "C1";
  collector.room = Id(1);
  collector.at = at(5000, 1000, 2400);
  collector.inlet_bore = length("100 mm");
  collector.rating.points = {{flow("0 m3/h"), pressure("2 kPa"), {}},
                             {flow("500 m3/h"), pressure("2.1 kPa"), {}},
                             {flow("1000 m3/h"), pressure("1 kPa"), {}}};
  Filter filter;
  filter.id = Id(0x81);
  filter.area = entered<base::Area>("10 m2");
  collector.filters = {filter};
  Separator lid;
  lid.id = Id(0x82);
  collector.separators = {lid};
  p.collectors = {collector};

  State state;
  state.id = Id(0x90);
  state.name = "saw";
  state.gates = {{Id(0x45), entered<base::Ratio>("1")}};
  state.hoses = {{Id(0x50), {Id(0x10), Id(0x12)}}};
  state.off = {Id(0x13)};
  state.swung = {Id(2)};
  p.states = {state};
  return p;
}

}  // namespace kerfdraft::shop
