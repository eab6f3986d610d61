// Times of the solver: cold and warm solves of a 20-machine tree, all gate sets of a 12-machine shop, growth
// with size to 10,000 runs, and SUNDIALS KINSOL on the same residual and Jacobian with KLU.
#include <benchmark/benchmark.h>
#include <kinsol/kinsol.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include <algorithm>
#include <cmath>

#include "network/workspace.h"
#include "support/nets.h"

namespace kerfdraft {
namespace {

using network::Situation;
using network::Start;
using network::Workspace;

constexpr double kSealedLeak = 1e-6;  // m3/s at 1 Pa^0.65 a station: class 3 over about half a square metre

Situation everyThird(const pieces::Pieces& p) {
  Situation s = network::restingSituation(p);
  for (std::size_t g = 0; g < s.gate_travel.size(); g += 3) {
    s.gate_travel[g] = 1;
  }
  return s;
}

void coldTree(benchmark::State& state) {
  auto b = test::comb(static_cast<int>(state.range(0)), state.range(1) != 0 ? kSealedLeak : 0,
                      state.range(2) != 0);
  const auto net = b.compile();
  const Situation s = everyThird(b.pieces());
  Workspace w(*net);
  int iterations = 0;
  for (auto _ : state) {
    const network::Report report = network::solve(*net, s, w, Start::Cold);
    base::check(report.usable(), "not solved");
    iterations = report.iterations;
    benchmark::DoNotOptimize(w.runFlow().data());
  }
  state.counters["iterations"] = iterations;
  state.counters["runs"] = static_cast<double>(b.pieces().runs.size());
}
BENCHMARK(coldTree)
    ->ArgNames({"machines", "leaks", "local"})
    ->Args({20, 0, 0})
    ->Args({20, 0, 1})
    ->Args({20, 1, 1})
    ->Unit(benchmark::kMicrosecond);

/// One gate is moved a little each time, as a hand on a slider does.
void warmTree(benchmark::State& state) {
  auto b = test::comb(static_cast<int>(state.range(0)), state.range(1) != 0 ? kSealedLeak : 0,
                      state.range(2) != 0);
  const auto net = b.compile();
  Situation s = everyThird(b.pieces());
  Workspace w(*net);
  network::solve(*net, s, w, Start::Cold);
  int iterations = 0;
  int turn = 0;
  for (auto _ : state) {
    s.gate_travel[3] = 0.8 + 0.01 * (++turn % 20);
    iterations = network::solve(*net, s, w, Start::Warm).iterations;
    benchmark::DoNotOptimize(w.runFlow().data());
  }
  state.counters["iterations"] = iterations;
}
BENCHMARK(warmTree)
    ->ArgNames({"machines", "leaks", "local"})
    ->Args({20, 0, 0})
    ->Args({20, 0, 1})
    ->Args({20, 1, 1})
    ->Unit(benchmark::kMicrosecond);

void gateSets(benchmark::State& state) {
  auto b = test::comb(12, state.range(0) != 0 ? kSealedLeak : 0, state.range(1) != 0);
  const auto net = b.compile();
  const Situation s = network::restingSituation(b.pieces());
  network::GateSetOptions options;
  options.threads = static_cast<unsigned>(state.range(2));
  for (auto _ : state) {
    double sum = 0;
    const auto count = network::solveGateSets(
        *net, s, options, [&](const network::GateSetResult& r) { sum += r.fan_flow_kg_s[0]; });
    base::check(count.value() == 4096, "gate sets are missing");
    benchmark::DoNotOptimize(sum);
  }
}
BENCHMARK(gateSets)
    ->ArgNames({"leaks", "local", "threads"})
    ->Args({0, 0, 2})
    ->Args({0, 1, 2})
    ->Args({1, 1, 1})
    ->Args({1, 1, 2})
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

void growth(benchmark::State& state) {
  // A comb of this many machines has twice as many runs. One long main: the hardest shape for a tree solver.
  auto b = test::comb(static_cast<int>(state.range(0)), 0, true);
  const auto net = b.compile();
  Situation s = network::restingSituation(b.pieces());
  for (std::size_t g = 0; g < s.gate_travel.size(); g += std::max<std::size_t>(1, s.gate_travel.size() / 7)) {
    s.gate_travel[g] = 1;
  }
  Workspace w(*net);
  int iterations = 0;
  for (auto _ : state) {
    const network::Report report = network::solve(*net, s, w, Start::Cold);
    iterations = report.iterations;
    base::check(report.usable(), "not solved");
  }
  state.counters["runs"] = static_cast<double>(b.pieces().runs.size());
  state.counters["iterations"] = iterations;
}
BENCHMARK(growth)->Arg(10)->Arg(50)->Arg(500)->Arg(5000)->Unit(benchmark::kMicrosecond);

void compileTree(benchmark::State& state) {
  const auto b = test::comb(static_cast<int>(state.range(0)), kSealedLeak, true);
  const auto pieces = b.share();
  for (auto _ : state) {
    benchmark::DoNotOptimize(network::compileNetwork(pieces).value().get());
  }
}
BENCHMARK(compileTree)->Arg(20)->Arg(5000)->Unit(benchmark::kMicrosecond);

// ------------------------------------------------------------------------------------------------------
// KINSOL

struct Outside {
  const network::Network* net;
  network::WorkspaceData* w;
  std::vector<int> order;  // position in compressed columns of each stored value
};

int residual(N_Vector x, N_Vector f, void* data) {
  auto& o = *static_cast<Outside*>(data);
  std::copy_n(N_VGetArrayPointer(x), o.w->x.size(), o.w->x.begin());
  network::evaluate(*o.net, o.net->air, *o.w);
  double* out = N_VGetArrayPointer(f);
  for (std::size_t i = 0; i < o.w->rhs.size(); ++i) {
    out[i] = -o.w->rhs[i];
  }
  return 0;
}

int jacobian(N_Vector x, N_Vector, SUNMatrix j, void* data, N_Vector, N_Vector) {
  auto& o = *static_cast<Outside*>(data);
  std::copy_n(N_VGetArrayPointer(x), o.w->x.size(), o.w->x.begin());
  network::evaluate(*o.net, o.net->air, *o.w);
  const std::vector<int>& columns = o.net->elimination.columns();
  const std::vector<int>& rows = o.net->elimination.rows();
  sunindextype* start = SUNSparseMatrix_IndexPointers(j);
  sunindextype* index = SUNSparseMatrix_IndexValues(j);
  double* value = SUNSparseMatrix_Data(j);
  std::fill_n(start, o.w->x.size() + 1, 0);
  for (const int c : columns) {
    ++start[c + 1];
  }
  for (std::size_t c = 0; c < o.w->x.size(); ++c) {
    start[c + 1] += start[c];
  }
  for (std::size_t a = 0; a < columns.size(); ++a) {
    const auto at = start[columns[a]] + o.order[a];
    index[at] = rows[a];
    value[at] = o.w->values[a];
  }
  return 0;
}

void kinsolTree(benchmark::State& state) {
  auto b = test::comb(static_cast<int>(state.range(0)), 0, true);
  const auto net = b.compile();
  const Situation s = everyThird(b.pieces());
  Workspace workspace(*net);
  network::solve(*net, s, workspace, Start::Cold);
  const double reference = workspace.fanFlow()[0];
  network::WorkspaceData& w = workspace.data();
  Outside o{net.get(), &w, std::vector<int>(net->elimination.valueCount())};
  std::vector<int> seen(w.x.size(), 0);
  for (std::size_t a = 0; a < o.order.size(); ++a) {
    o.order[a] = seen[static_cast<std::size_t>(net->elimination.columns()[a])]++;
  }
  SUNContext context = nullptr;
  SUNContext_Create(nullptr, &context);
  const auto n = static_cast<sunindextype>(w.x.size());
  N_Vector x = N_VNew_Serial(n, context);
  N_Vector scale = N_VNew_Serial(n, context);
  N_VConst(1.0, scale);
  SUNMatrix matrix = SUNSparseMatrix(n, n, static_cast<sunindextype>(o.order.size()), CSC_MAT, context);
  SUNLinearSolver linear = SUNLinSol_KLU(x, matrix, context);
  void* kinsol = KINCreate(context);
  KINSetUserData(kinsol, &o);
  KINInit(kinsol, residual, x);
  KINSetLinearSolver(kinsol, linear, matrix);
  KINSetJacFn(kinsol, jacobian);
  KINSetFuncNormTol(kinsol, 1e-7);
  KINSetMaxSetupCalls(kinsol, 1);
  KINSetNumMaxIters(kinsol, 100);
  KINSetMaxNewtonStep(kinsol, 1e9);
  for (auto _ : state) {
    network::firstGuess(*net, w);
    std::copy(w.x.begin(), w.x.end(), N_VGetArrayPointer(x));
    const int flag = KINSol(kinsol, x, KIN_NONE, scale, scale);
    benchmark::DoNotOptimize(flag);
    base::check(flag >= 0, "KINSOL did not converge");
  }
  base::check(std::abs(w.x[net->fanUnknown(0)] - reference) < 1e-6, "KINSOL found another point");
  long iterations = 0;
  KINGetNumNonlinSolvIters(kinsol, &iterations);
  state.counters["iterations"] = static_cast<double>(iterations);
  KINFree(&kinsol);
  SUNLinSolFree(linear);
  SUNMatDestroy(matrix);
  N_VDestroy(x);
  N_VDestroy(scale);
  SUNContext_Free(&context);
}
BENCHMARK(kinsolTree)->Arg(20)->Arg(5000)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace kerfdraft

BENCHMARK_MAIN();
