// Invented shops for the tests of rules about rooms and people.
#pragma once

#include <string>
#include <vector>

#include "judge/rule_stage.h"
#include "judge/rules/people_rules.h"
#include "support/projects.h"

namespace kerfdraft::tests {

using judge::Finding;
using judge::Reader;
using judge::Severity;
using support::at;
using support::given;
using support::length;
using support::OneMachine;
using support::oneMachine;
using support::ratio;
using support::TwoBranchTree;
using support::twoBranchTree;

inline shop::Project& projectOf(OneMachine& shop) {
  return shop.builder.project;
}

/// Air of the collector goes outdoors.
inline void blowOutdoors(OneMachine& shop) {
  shop.builder.collectorOf(shop.collector).discharge.room = {};
}

/// A hole in the wall that is always open.
inline void addOpening(OneMachine& shop, const std::string& area, base::Id leads_to = {}) {
  shop::Opening opening;
  opening.id = shop.builder.id();
  opening.label = "grille";
  opening.kind = shop::OpeningKind::Grille;
  opening.from = {0, 0};
  opening.to = {1000000, 0};
  opening.area = given<base::Area>(area);
  opening.leads_to = leads_to;
  opening.usually_open = true;
  projectOf(shop).rooms[0].openings.push_back(opening);
}

/// A filter, of which nothing but its housing is told.
inline void addFilter(support::ProjectBuilder& builder, base::Id collector, shop::Housing housing) {
  shop::Filter filter;
  filter.id = builder.id();
  filter.label = "F1";
  filter.area = given<base::Area>("6 m2");
  filter.housing = housing;
  builder.collectorOf(collector).filters.push_back(filter);
}

/// A cyclone before the fan, with a bin.
inline void addCyclone(support::ProjectBuilder& builder, base::Id collector, const std::string& bin) {
  shop::Separator cyclone;
  cyclone.id = builder.id();
  cyclone.label = "Y1";
  cyclone.kind = "cyclone";
  cyclone.heads = ratio("3");
  cyclone.bin = given<base::Volume>(bin);
  builder.collectorOf(collector).separators.push_back(cyclone);
}

/// What one rule finds in a project.
inline std::vector<Finding> foundIn(const judge::Rule& rule, const shop::Project& project) {
  return found(rule, RuleStage(project));
}

/// The only thing that it finds.
inline Finding theOnly(const judge::Rule& rule, const shop::Project& project) {
  const std::vector<Finding> all = foundIn(rule, project);
  base::check(all.size() == 1, "not exactly one finding");
  return all.front();
}

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace kerfdraft::tests
