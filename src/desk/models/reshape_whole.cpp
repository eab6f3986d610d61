// Bores and joints: what a duct is made of, changed over a whole stretch.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "desk/models/duct_draft.h"
#include "desk/models/places.h"
#include "desk/models/reshape.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::Id;
using base::Result;
using shop::Corner;
using shop::Duct;
using shop::Point;
using shop::Project;

constexpr double kSamePlace_m = 1e-6;

Result<Change> gone() {
  return base::fail(ErrorCode::Reference, "this duct is gone");
}

}  // namespace

Result<Change> boreOf(const Project& project, Id id, Id corner, const base::Given<base::Length>& bore) {
  const Duct* there = ductOf(project, id);
  if (there == nullptr || there->corners.size() < 2) {
    return gone();
  }
  const std::size_t legs = there->corners.size() - 1;
  std::size_t first = 0;
  std::size_t end = legs;  // the leg behind the last one
  const auto in_force = [&](std::size_t k) { return *legInForce(*there, k); };
  const bool picked = corner.valid();
  if (picked) {
    const auto leg = cornerIndex(*there, corner);
    if (!leg || *leg >= legs) {
      return gone();
    }
    const auto same = [&](std::size_t a, std::size_t b) {
      return in_force(a).hose.has_value() == in_force(b).hose.has_value() &&
             std::abs(in_force(a).bore.si() - in_force(b).bore.si()) < kSameBore_m;
    };
    first = *leg;
    while (first > 0 && same(first - 1, *leg)) {
      --first;
    }
    end = *leg + 1;
    while (end < legs && same(end, *leg)) {
      ++end;
    }
  }
  Duct duct = *there;
  for (std::size_t k = 0; k < legs; ++k) {
    shop::Leg leg = in_force(k);
    const bool begins = k == 0 || duct.corners[k].leg.has_value() || k == first || k == end;
    const bool wider = k >= first && k < end && (picked || !leg.hose);
    if (wider) {
      leg.bore = bore;
    }
    if (!begins) {
      continue;
    }
    if (k > 0) {
      const auto steps_between = [](const shop::Leg& a, const shop::Leg& b) {
        return std::abs(a.bore.si() - b.bore.si()) > kSameBore_m;
      };
      const bool stepped = steps_between(in_force(k - 1), in_force(k));
      const bool steps = steps_between(*legInForce(duct, k - 1), leg);
      // A taper belongs to the corner where it begins, not to the leg that is inherited from there.
      leg.taper = there->corners[k].leg ? there->corners[k].leg->taper : std::nullopt;
      if (steps != stepped) {
        leg.taper = steps ? std::optional(usualReducer()) : std::nullopt;
      }
    }
    duct.corners[k].leg = leg;
  }
  // What says nothing new is inherited.
  for (std::size_t k = 1; k < legs; ++k) {
    if (duct.corners[k].leg && *duct.corners[k].leg == *legInForce(duct, k - 1) && !there->corners[k].leg) {
      duct.corners[k].leg.reset();
    }
  }
  return Change{fmt::format("Bore of duct {}", there->label), {shop::PutDuct{duct}}};
}

Result<Change> joinDucts(const Project& project, const Duct& first, const std::vector<Corner>& between,
                         const Duct& second) {
  if (first.id == second.id) {
    return base::fail(ErrorCode::Conflict,
                      fmt::format("both open ends are those of {}; a duct is no ring", first.label));
  }
  Duct whole = first;
  Duct handed = second;
  std::vector<Corner> path = between;
  const Point& there = second.corners.front().at;
  if (!path.empty() && shop::distance(path.back().at, there) < kSamePlace_m) {
    path.pop_back();
  } else if (path.empty() && shop::distance(first.corners.back().at, there) < kSamePlace_m) {
    // One joint is enough: that of the first. What hung on the leg behind it hangs there now.
    whole.corners.back().leg = second.corners.front().leg;
    const Id gone_id = second.corners.front().id;
    const Id kept = whole.corners.back().id;
    for (shop::Gate& gate : handed.gates) {
      gate.corner = gate.corner == gone_id ? kept : gate.corner;
    }
    for (auto* list : {&handed.taps, &handed.cleanouts}) {
      for (shop::Access& access : *list) {
        access.corner = access.corner == gone_id ? kept : access.corner;
      }
    }
    handed.corners.erase(handed.corners.begin());
  }
  whole.corners.insert(whole.corners.end(), path.begin(), path.end());
  whole.corners.insert(whole.corners.end(), handed.corners.begin(), handed.corners.end());
  whole.gates.insert(whole.gates.end(), handed.gates.begin(), handed.gates.end());
  whole.taps.insert(whole.taps.end(), handed.taps.begin(), handed.taps.end());
  whole.cleanouts.insert(whole.cleanouts.end(), handed.cleanouts.begin(), handed.cleanouts.end());
  whole.to = second.to;
  // A reducer where bores meet.
  for (std::size_t k = first.corners.size() - 1; k + 1 < whole.corners.size(); ++k) {
    Corner& corner = whole.corners[k];
    if (corner.leg && k > 0) {
      const bool steps = std::abs(legInForce(whole, k - 1)->bore.si() - corner.leg->bore.si()) > kSameBore_m;
      if (!steps) {
        corner.leg->taper.reset();
      } else if (!corner.leg->taper) {
        corner.leg->taper = usualReducer();
      }
    }
  }
  Change change;
  change.words = fmt::format("Join {} and {}", first.label, second.label);
  change.edits.emplace_back(shop::RemoveDuct{second.id});
  change.edits.emplace_back(shop::PutDuct{whole});
  for (const Duct& branch : project.ducts) {
    for (const bool start : {true, false}) {
      const auto* on = std::get_if<shop::OnCorner>(start ? &branch.from : &branch.to);
      if (on != nullptr && on->duct == second.id && branch.id != first.id) {
        shop::OnCorner now = *on;
        now.duct = whole.id;
        change.edits.emplace_back(shop::JoinEnd{branch.id, start, now});
      }
    }
  }
  // States forgot the gates of the duct that went.
  for (const shop::State& state : project.states) {
    change.edits.emplace_back(shop::PutState{state});
  }
  return change;
}

Result<PickedTyped> parsePickedTyped(std::string_view raw) {
  std::string text(raw);
  while (!text.empty() && text.back() == ' ') {
    text.pop_back();
  }
  PickedTyped out;
  for (const std::string_view word : {" high", " up"}) {
    if (text.ends_with(word)) {
      out.what = PickedTyped::What::Height;
      text.resize(text.size() - word.size());
    }
  }
  const Result<double> length = parseLength(text);
  if (!length) {
    return base::fail(
        length.error().code,
        fmt::format("{}. Type a bore (5 in, 125 mm) or a height (8 ft high)", length.error().message));
  }
  constexpr double kWidest_m = 2;
  constexpr double kHighest_m = 50;
  const double most_m = out.what == PickedTyped::What::Bore ? kWidest_m : kHighest_m;
  const bool ok = out.what == PickedTyped::What::Bore ? *length > 0 && *length <= most_m
                                                      : *length >= 0 && *length <= most_m;
  if (!ok) {
    return base::fail(ErrorCode::Range,
                      fmt::format("{} is no {}; it is between 0 and {} m", text,
                                  out.what == PickedTyped::What::Bore ? "bore" : "height", most_m));
  }
  out.si = *length;
  out.text =
      base::parseQuantity(base::Kind::Length, text) ? text : fmt::format("{:.4g} in", *length / 0.0254);
  return out;
}

}  // namespace kerfdraft::desk
