// Requests of `kerfdraft line`, for tests.
#pragma once

#include "pieces/line_project.h"
#include "support/shipped.h"

namespace kerfdraft::support {

inline pieces::LineRequest lineRequest(
    std::string_view pieces,
    std::string_view curve = "0 cfm 6.3 in w.g., 350 cfm 4.7 in w.g., 700 cfm 0 in w.g.") {
  pieces::LineRequest request;
  auto read = pieces::readLine(pieces, shipped());
  EXPECT_TRUE(read) << read.error().text();
  request.pieces = std::move(*read);
  auto points = pieces::readCurve(curve, "--fan");
  EXPECT_TRUE(points) << points.error().text();
  request.rating.points = std::move(*points);
  request.rating.fitted = shop::Fitted::Nothing;
  request.air.temperature = *base::Given<base::Temperature>::parse("70 °F");
  return request;
}

inline judge::Assessment solvedLine(const pieces::LineRequest& request) {
  const auto project = pieces::lineProject(request);
  EXPECT_TRUE(project) << project.error().text();
  auto assessment = judge::assess(*project, shipped());
  EXPECT_TRUE(assessment) << assessment.error().text();
  return *assessment;
}

inline double flowOf(const pieces::LineRequest& request) {
  return solvedLine(request).states[0].solution.ports[0].flow_m3_s;
}

}  // namespace kerfdraft::support
