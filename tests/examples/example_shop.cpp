// Reading, building and solving the examples.
#include "example_shop.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "files/project_file.h"
#include "pieces/build.h"

namespace kerfdraft::examples {
namespace {

const catalogue::Catalogue& shipped() {
  static const catalogue::Catalogue catalogue = catalogue::Catalogue::shipped().value();
  return catalogue;
}

std::filesystem::path folder() {
  return std::filesystem::path(KERFDRAFT_SOURCE_DIR) / "examples";
}

const shop::Duct& ductOf(const shop::Project& project, std::string_view label) {
  for (const shop::Duct& duct : project.ducts) {
    if (duct.label == label) {
      return duct;
    }
  }
  throw base::InternalError("no duct " + std::string(label));
}

template <class Q>
base::Given<Q> given(const std::string& text) {
  return base::Given<Q>::parse(text).value();
}

/// 12 kPa at no flow, 6 m3/s at none: above every path of the examples.
shop::Project strongAndTight(shop::Project project) {
  project.setting.leakage = false;
  shop::FanRating& rating = project.collectors.front().rating;
  rating.basis = shop::RatingBasis::TotalAtInlet;
  rating.points = {
      {given<base::VolumeFlow>("0 m3/s"), given<base::Pressure>("12 kPa"), {}},
      {given<base::VolumeFlow>("6 m3/s"), given<base::Pressure>("0 kPa"), {}},
  };
  return project;
}

}  // namespace

std::vector<std::string> exampleNames() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder())) {
    if (entry.path().extension() == ".json") {
      names.push_back(entry.path().filename().string());
    }
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string exampleText(const std::string& name) {
  const std::ifstream in(folder() / name, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

shop::Project exampleProject(const std::string& name) {
  auto read = files::readProject(exampleText(name), name);
  if (!read) {
    for (const base::Error& error : read.error()) {
      ADD_FAILURE() << error.text();
    }
    return {};
  }
  return std::move(*read);
}

Shop::Shop(shop::Project project) : project_(std::move(project)) {
  auto built = pieces::buildPieces(project_, shipped());
  if (!built) {
    throw base::InternalError(project_.setting.name + ": " + built.error().text());
  }
  pieces_ = std::make_shared<const pieces::Pieces>(std::move(*built));
  auto compiled = network::compileNetwork(pieces_);
  if (!compiled) {
    throw base::InternalError(project_.setting.name + ": " + compiled.error().text());
  }
  network_ = *compiled;
}

const shop::State& Shop::state(std::string_view name) const {
  for (const shop::State& state : project_.states) {
    if (state.name == name) {
      return state;
    }
  }
  throw base::InternalError("no state " + std::string(name));
}

network::Situation Shop::situation(std::string_view state) const {
  return network::situationOf(*pieces_, project_, this->state(state)).value();
}

network::Solution Shop::solve(std::string_view state) const {
  return network::solveFully(*network_, situation(state));
}

double Shop::machineFlow(const network::Solution& solution, std::string_view machine) const {
  double sum_m3_s = 0;
  for (const shop::Machine& each : project_.machines) {
    for (std::size_t p = 0; each.label == machine && p < pieces_->ports.size(); ++p) {
      if (pieces_->ports[p].ref.machine == each.id) {
        sum_m3_s += solution.ports[p].flow_m3_s;
      }
    }
  }
  return sum_m3_s;
}

std::vector<std::size_t> Shop::runsOf(std::string_view duct) const {
  const shop::Duct& drawn = ductOf(project_, duct);
  std::vector<std::size_t> runs;
  for (const shop::Corner& corner : drawn.corners) {
    for (std::size_t r = 0; r < pieces_->runs.size(); ++r) {
      if (pieces_->runs[r].key.a == corner.id) {
        runs.push_back(r);
      }
    }
  }
  if (runs.empty()) {
    throw base::InternalError("no run of duct " + std::string(duct));
  }
  return runs;
}

std::size_t Shop::lastRun(std::string_view duct) const {
  return runsOf(duct).back();
}

std::size_t Shop::firstRun(std::string_view duct) const {
  return runsOf(duct).front();
}

std::size_t Shop::fan(std::string_view label) const {
  for (std::size_t f = 0; f < pieces_->fans.size(); ++f) {
    if (pieces_->fans[f].label.substr(0, label.size()) == label) {
      return f;
    }
  }
  throw base::InternalError("no fan " + std::string(label));
}

double Shop::flow(const network::Solution& solution, std::size_t run) const {
  return solution.runs[run].flow_end_kg_s / pieces_->air.density_kg_m3;
}

PathAtFlow::PathAtFlow(const std::string& example, std::string state)
    : shop_(strongAndTight(exampleProject(example))), state_(std::move(state)) {}

network::Solution PathAtFlow::at(double flow_m3_s) const {
  network::Situation situation = shop_.situation(state_);
  double& filter = situation.group_factor[static_cast<std::size_t>(pieces::Group::Filter)];
  double low = std::log(1e-6);
  double high = std::log(1e4);
  network::Solution solution;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    filter = std::exp(middle);
    solution = network::solveFully(shop_.network(), situation);
    const double now = solution.fans.front().flow_kg_s / shop_.pieces().air.density_kg_m3;
    (now > flow_m3_s ? low : high) = middle;
  }
  EXPECT_NEAR(solution.fans.front().flow_kg_s / shop_.pieces().air.density_kg_m3, flow_m3_s,
              1e-6 * flow_m3_s);
  return solution;
}

double PathAtFlow::filterLoss(const network::Solution& solution) const {
  double loss_pa = 0;
  const double flow_m3_s = solution.fans.front().flow_kg_s / shop_.pieces().air.density_kg_m3;
  for (const pieces::FilterPlace& filter : shop_.pieces().filters) {
    loss_pa += filter.linear_pa_s_m3[1] * flow_m3_s;
  }
  return loss_pa;
}

}  // namespace kerfdraft::examples
