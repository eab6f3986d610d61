// Legs with their lengths, and the meetings by joining the ends that name each other.
#include "pieces/drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>
#include <variant>

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

/// Sets of corners that are one place.
class Joined {
 public:
  explicit Joined(std::size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), std::size_t{0}); }
  std::size_t root(std::size_t i) {
    while (parent_[i] != i) {
      parent_[i] = parent_[parent_[i]];
      i = parent_[i];
    }
    return i;
  }
  void join(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::size_t> parent_;
};

std::size_t cornerIndex(const shop::Duct& duct, Id corner) {
  for (std::size_t i = 0; i < duct.corners.size(); ++i) {
    if (duct.corners[i].id == corner) {
      return i;
    }
  }
  throw base::InternalError("a corner that is not on its duct was asked for");
}

Result<DrawnDuct> readDuct(const shop::Duct& duct) {
  DrawnDuct out;
  out.duct = &duct;
  base::check(duct.corners.size() >= 2 && duct.corners.front().leg.has_value(),
              "a duct without two corners or without its first leg came through the checks");
  const shop::Leg* leg = &*duct.corners.front().leg;
  std::size_t given_at = 0;
  for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
    if (duct.corners[k].leg) {
      leg = &*duct.corners[k].leg;
      given_at = k;
    }
    DrawnLeg drawn;
    drawn.leg = leg;
    drawn.given_at = given_at;
    drawn.bore_m = leg->bore.si();
    drawn.drawn_m = shop::distance(duct.corners[k].at, duct.corners[k + 1].at);
    drawn.length_m = drawn.drawn_m;
    if (!(drawn.bore_m > 0) || !std::isfinite(drawn.bore_m)) {
      return fail(ErrorCode::Range, fmt::format("a bore must be above zero, not {}", leg->bore.text()),
                  duct.label);
    }
    if (!(drawn.drawn_m > 0)) {
      return fail(
          ErrorCode::Range,
          fmt::format("corners {} and {} are at the same place, so the leg between them has no length", k + 1,
                      k + 2),
          duct.label);
    }
    out.legs.push_back(drawn);
  }
  // An entered hose length is that of the whole hose; its legs share it as they are drawn.
  for (std::size_t k = 0; k < out.legs.size();) {
    std::size_t end = k;
    double drawn_m = 0;
    while (end < out.legs.size() && out.legs[end].given_at == out.legs[k].given_at) {
      drawn_m += out.legs[end].drawn_m;
      ++end;
    }
    const auto& hose = out.legs[k].leg->hose;
    if (hose && hose->length) {
      if (!(hose->length->si() > 0)) {
        return fail(ErrorCode::Range,
                    fmt::format("a hose's length must be above zero, not {}", hose->length->text()),
                    duct.label);
      }
      for (std::size_t i = k; i < end; ++i) {
        out.legs[i].length_m *= hose->length->si() / drawn_m;
      }
    }
    k = end;
  }
  out.along_m.assign(duct.corners.size(), 0.0);
  for (std::size_t k = 0; k < out.legs.size(); ++k) {
    out.along_m[k + 1] = out.along_m[k] + out.legs[k].length_m;
  }
  out.meeting.assign(duct.corners.size(), kNowhere);
  return out;
}

/// Which end of the duct this is.
const shop::DuctEnd& endOf(const shop::Duct& duct, bool start) {
  return start ? duct.from : duct.to;
}

}  // namespace

std::string cornerPlace(const Draft& draft, const DrawnDuct& duct, std::size_t corner) {
  return fmt::format("{} at {}", duct.duct->label, draft.say(base::Kind::Length, duct.along_m[corner]));
}

std::array<double, 3> outward(const DrawnDuct& duct, std::size_t leg, bool from_its_end) {
  const shop::Point& a = duct.duct->corners[from_its_end ? leg + 1 : leg].at;
  const shop::Point& b = duct.duct->corners[from_its_end ? leg : leg + 1].at;
  const double length_m = duct.legs[leg].drawn_m;
  return {static_cast<double>(b.x_um - a.x_um) * 1e-6 / length_m,
          static_cast<double>(b.y_um - a.y_um) * 1e-6 / length_m,
          static_cast<double>(b.z_um - a.z_um) * 1e-6 / length_m};
}

base::Result<Drawing> readDrawing(const Draft& draft) {
  const shop::Project& project = draft.project;
  Drawing out;
  std::vector<std::size_t> first;  // number of each duct's first corner, counting all corners
  std::size_t corners = 0;
  for (const shop::Duct& duct : project.ducts) {
    auto drawn = readDuct(duct);
    if (!drawn) {
      return Failure(drawn.error());
    }
    out.ducts.push_back(std::move(*drawn));
    first.push_back(corners);
    corners += duct.corners.size();
  }
  const std::size_t units = project.collectors.size();
  Joined joined(corners + 2 * units);  // then every collector's inlet, then every outlet
  std::vector<char> named_place(corners + 2 * units, 0);
  std::vector<char> names_another(corners, 0);
  for (std::size_t d = 0; d < out.ducts.size(); ++d) {
    const shop::Duct& duct = *out.ducts[d].duct;
    for (const bool start : {true, false}) {
      const std::size_t mine = first[d] + (start ? 0 : duct.corners.size() - 1);
      const shop::DuctEnd& end = endOf(duct, start);
      std::size_t other = kNowhere;
      if (const auto* on = std::get_if<shop::OnCorner>(&end)) {
        const std::size_t target = draft.duct(on->duct);
        other = first[target] + cornerIndex(*out.ducts[target].duct, on->corner);
        names_another[mine] = 1;
      } else if (const auto* in = std::get_if<shop::CollectorInlet>(&end)) {
        other = corners + draft.collector(in->collector);
      } else if (const auto* from = std::get_if<shop::CollectorOutlet>(&end)) {
        other = corners + units + draft.collector(from->collector);
      }
      if (other != kNowhere) {
        joined.join(mine, other);
        named_place[mine] = 1;
        named_place[other] = 1;
      }
    }
  }

  std::map<std::size_t, std::size_t> meeting_of;  // root of the set → meeting
  const auto meeting_at = [&](std::size_t place) -> Meeting& {
    const auto [it, fresh] = meeting_of.emplace(joined.root(place), out.meetings.size());
    if (fresh) {
      out.meetings.emplace_back();
      out.meetings.back().root_duct = kNowhere;
    }
    return out.meetings[it->second];
  };
  for (std::size_t d = 0; d < out.ducts.size(); ++d) {
    DrawnDuct& drawn = out.ducts[d];
    for (std::size_t c = 0; c < drawn.duct->corners.size(); ++c) {
      const std::size_t place = first[d] + c;
      if (named_place[place] == 0) {
        continue;
      }
      Meeting& meeting = meeting_at(place);
      drawn.meeting[c] = meeting_of.at(joined.root(place));
      if (c > 0) {
        meeting.legs.push_back({d, c - 1, true});
      }
      if (c < drawn.legs.size()) {
        meeting.legs.push_back({d, c, false});
      }
      const bool root_names_another =
          meeting.root_duct != kNowhere && names_another[first[meeting.root_duct] + meeting.root_corner] != 0;
      if (meeting.root_duct == kNowhere || (root_names_another && names_another[place] == 0)) {
        meeting.root_duct = d;
        meeting.root_corner = c;
      }
      const bool is_end = c == 0 || c == drawn.legs.size();
      if (is_end) {
        const shop::DuctEnd& end = endOf(*drawn.duct, c == 0);
        if (std::holds_alternative<shop::PortRef>(end) || std::holds_alternative<shop::MovedEnd>(end) ||
            std::holds_alternative<shop::FreeAir>(end)) {
          return fail(ErrorCode::Conflict,
                      "another duct joins here at the end that already stands at a port or in free air; it "
                      "must join at a corner further along",
                      cornerPlace(draft, drawn, c));
        }
      }
    }
  }
  for (std::size_t u = 0; u < units; ++u) {
    for (const bool inlet : {true, false}) {
      const std::size_t place = corners + (inlet ? u : units + u);
      if (named_place[place] != 0) {
        Meeting& meeting = meeting_at(place);
        (inlet ? meeting.inlet_of : meeting.outlet_of) = u;
      }
    }
  }
  return out;
}

}  // namespace kerfdraft::pieces
