// Leak stations from walls and cuffs.
#include "pieces/leaks.h"

#include <algorithm>
#include <numbers>

#include "physics/leak.h"

namespace kerfdraft::pieces {

namespace {

bool isDevice(Role role) {
  switch (role) {
    case Role::Entry:
    case Role::Gate:
    case Role::FanInlet:
    case Role::Separator:
    case Role::Filter:
    case Role::Outlet:
      return true;
    default:
      return false;
  }
}

bool isStretch(Role role) {
  return role == Role::Straight || role == Role::Hose;
}

/// Leakage of one stretch between devices, gathered piece by piece.
struct Stretch {
  int first = -1;
  int last = -1;
  double coefficient = 0;
  bool in_hose = false;
};

void leaksOfRun(Run& run, const std::vector<WallLeak>& walls, bool vacuum) {
  Stretch now;
  const auto close = [&] {
    if (now.coefficient > 0) {
      const auto bore = [&](int piece) { return run.pieces[static_cast<std::size_t>(piece)].bore_m; };
      run.leaks.push_back({now.first - 1, bore(now.first), 0.5 * now.coefficient});
      run.leaks.push_back({now.last, bore(now.last), 0.5 * now.coefficient});
    }
    now = Stretch();
  };
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    const Piece& piece = run.pieces[i];
    const Role role = piece.key.role;
    if (isDevice(role)) {
      close();
      continue;
    }
    if (isStretch(role)) {
      const int index = static_cast<int>(i);
      now.first = now.first < 0 ? index : now.first;
      now.last = index;
      if (role == Role::Straight) {
        const bool tight = vacuum && !walls[i].entered && walls[i].leak_class <= physics::kLeakClassSealed;
        const double area_m2 = std::numbers::pi * piece.bore_m * piece.length_m;
        now.coefficient += tight ? 0.0 : physics::leakCoefficient(walls[i].leak_class, area_m2);
      } else if (!now.in_hose && !vacuum) {
        now.coefficient += physics::leakCoefficient(physics::kLeakClassCuff, 2 * physics::kCuffArea_m2);
      }
    }
    // A hose goes on through its bends; anything else between two hoses means two more cuffs.
    now.in_hose = role == Role::Hose || role == Role::HoseBend;
  }
  close();
}

}  // namespace

void addLeaks(Draft& draft) {
  if (!draft.project.setting.leakage) {
    return;
  }
  double greatest_pa = 0;
  for (const Fan& fan : draft.out.fans) {
    const double n = fan.rating->speed_ratio;
    const double rho = draft.out.air.density_kg_m3 / fan.rating->density_kg_m3;
    greatest_pa = std::max(greatest_pa, n * n * rho * fan.rating->curve.shutoff());
  }
  const bool vacuum = greatest_pa > kVacuumLine_pa;
  for (std::size_t r = 0; r < draft.out.runs.size(); ++r) {
    leaksOfRun(draft.out.runs[r], draft.wall_leaks[r], vacuum);
  }
  for (std::size_t g = 0; vacuum && g < draft.out.gates.size(); ++g) {
    if (draft.worn_gate[g] == 0) {
      draft.out.gates[g].leak_fraction = 0;
    }
  }
}

}  // namespace kerfdraft::pieces
