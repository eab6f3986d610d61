// Invented shops with one fault each, for the tests of the verdict.
#pragma once

#include "support/projects.h"

namespace kerfdraft::tests {

struct OneSmallDrop {
  support::ProjectBuilder builder;
  base::Id room, main, drop, main_gate, drop_gate, collector;
  shop::PortRef saw, planer;
  base::Id sawing, planing;  ///< states
};

/// Good 6 in duct throughout, but the planer's drop of 3 in: 1.6 m of hose and 1.7 m of duct. Everything else
/// is as it should be.
inline OneSmallDrop oneSmallDrop(const std::string& drop_bore = "3 in") {
  using support::at;
  using support::given;
  OneSmallDrop shop;
  support::ProjectBuilder& b = shop.builder;
  shop.room = b.room(9, 6, 3.2);
  shop::Opening grille;
  grille.id = b.id();
  grille.kind = shop::OpeningKind::Grille;
  grille.from = {0, 0};
  grille.to = {1000000, 0};
  grille.area = given<base::Area>("0.5 m2");
  grille.usually_open = true;
  b.project.rooms[0].openings.push_back(grille);
  shop.saw = b.machine("", at(1, 2, 0.4), "6 in", shop.room);
  shop.planer = b.machine("", at(4, 1, 0.7), "6 in", shop.room);
  b.machineOf(shop.saw).name = "saw";
  b.machineOf(shop.planer).name = "planer";
  for (const shop::PortRef& ref : {shop.saw, shop.planer}) {
    shop::Machine& machine = b.machineOf(ref);
    machine.guard = shop::Guard::Fitted;
    machine.openings = given<base::Area>("4000 cm2");
    b.port(ref).entry = support::ratio("0.5");
    b.port(ref).floor = given<base::VolumeFlow>("700 cfm");
  }
  b.machineOf(shop.saw).openings = given<base::Area>("1500 cm2");
  shop.collector = b.collector(at(8, 2, 2.6), "6 in", {});
  shop::Collector& unit = b.collectorOf(shop.collector);
  unit.non_return = true;
  unit.isolation = true;
  shop.main = b.duct(shop.saw, shop::CollectorInlet{shop.collector},
                     {at(1, 2, 0.4), at(1, 2, 2.6), at(5, 2, 2.6), at(8, 2, 2.6)}, "6 in");
  const base::Id corner = b.ductOf(shop.main).corners[2].id;
  shop.drop = b.duct(shop.planer, shop::OnCorner{shop.main, corner, false},
                     {at(4, 1, 0.7), at(4, 1, 2.3), at(4, 1, 2.6), at(5, 2, 2.6)}, drop_bore);
  b.ductOf(shop.drop).corners[0].leg = support::ProjectBuilder::hose(drop_bore);
  shop::Leg metal;
  metal.bore = support::length(drop_bore);
  metal.construction = "spiral-galvanized";
  b.ductOf(shop.drop).corners[1].leg = metal;
  shop.main_gate = b.gate(shop.main, 1, "3.5 m");
  shop.drop_gate = b.gate(shop.drop, 2, "1.0 m");
  shop.sawing = b.state("sawing", {shop.main_gate});
  shop.planing = b.state("planing", {shop.drop_gate});
  return shop;
}

}  // namespace kerfdraft::tests
