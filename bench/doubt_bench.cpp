// Times of bands: every shipped example, all its states, on one core and on all, beside solving them.
#include <benchmark/benchmark.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include "catalogue/catalogue.h"
#include "doubt/propagate.h"
#include "files/project_file.h"
#include "judge/assessment.h"

namespace kerfdraft {
namespace {

constexpr const char* kExamples[] = {"one-car-garage",  "two-car-garage",   "cabinet-shop", "school-workshop",
                                     "basement-studio", "hand-tool-vacuum", "moved-hose",   "ring-main"};

const catalogue::Catalogue& shipped() {
  static const catalogue::Catalogue catalogue = catalogue::Catalogue::shipped().value();
  return catalogue;
}

shop::Project example(std::size_t index) {
  const std::string name = std::string(kExamples[index]) + ".json";
  const std::ifstream in(std::filesystem::path(KERFDRAFT_SOURCE_DIR) / "examples" / name, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return files::readProject(text.str(), name).value();
}

void solveStates(benchmark::State& state) {
  const shop::Project project = example(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) {
    benchmark::DoNotOptimize(judge::assess(project, shipped()).value().states.size());
  }
  state.SetLabel(kExamples[state.range(0)]);
}
BENCHMARK(solveStates)->DenseRange(0, 7)->Unit(benchmark::kMillisecond);

void bands(benchmark::State& state) {
  const judge::Assessment a =
      judge::assess(example(static_cast<std::size_t>(state.range(0))), shipped()).value();
  for (auto _ : state) {
    benchmark::DoNotOptimize(doubt::assessDoubt(a, static_cast<unsigned>(state.range(1))).size());
  }
  state.counters["states"] = static_cast<double>(a.states.size());
  state.SetLabel(kExamples[state.range(0)]);
}
BENCHMARK(bands)
    ->ArgNames({"example", "threads"})
    ->ArgsProduct({{0, 1, 2, 3, 4, 5, 6, 7}, {1, 0}})
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace kerfdraft

BENCHMARK_MAIN();
