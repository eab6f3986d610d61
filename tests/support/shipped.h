// The shipped catalogue and a starter shop, for tests.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "judge/assessment.h"
#include "pieces/starter.h"

namespace kerfdraft::support {

inline const catalogue::Catalogue& shipped() {
  static const catalogue::Catalogue tables = *catalogue::Catalogue::shipped();
  return tables;
}

inline pieces::StarterRequest starterRequest(std::vector<std::string> machines) {
  pieces::StarterRequest request;
  request.name = "starter";
  request.width_m = 20;
  request.depth_m = 6;
  request.height_m = 2.8;
  request.machines = std::move(machines);
  request.fan = "t2";
  return request;
}

inline judge::Assessment starter(std::vector<std::string> machines) {
  base::SeededIds ids(3);
  const auto project = pieces::starterProject(starterRequest(std::move(machines)), shipped(), ids);
  EXPECT_TRUE(project) << project.error().text();
  auto assessment = judge::assess(*project, shipped());
  EXPECT_TRUE(assessment) << assessment.error().text();
  return *assessment;
}

}  // namespace kerfdraft::support
