// The ducts as drawn: every leg with its bore, kind and length, and every place where more than one thing is
// joined. Topology comes from what is stored, coordinates give only lengths and angles. Private to this room.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/ducts.h"
#include "pieces/draft.h"

namespace kerfdraft::pieces {

/// A corner of a duct as the leg into and out of it see it.
struct DrawnLeg {
  const shop::Leg* leg = nullptr;
  std::size_t given_at = 0;  ///< corner at which its Leg was given
  double bore_m = 0;
  double drawn_m = 0;   ///< distance of its two corners
  double length_m = 0;  ///< as built: a hose may be longer than drawn
  bool isHose() const { return leg->hose.has_value(); }
};

struct DrawnDuct {
  const shop::Duct* duct = nullptr;
  std::vector<DrawnLeg> legs;        ///< leg k goes from corner k to corner k + 1
  std::vector<double> along_m;       ///< length along the duct, as built, at each corner
  std::vector<std::size_t> meeting;  ///< by corner: index of the meeting there, or kNowhere
};

/// A leg that ends at a meeting.
struct MeetingLeg {
  std::size_t duct = 0;
  std::size_t leg = 0;
  bool arrives = true;  ///< drawn toward the meeting
};

/// A place where ducts meet, or where they meet a collector.
struct Meeting {
  std::vector<MeetingLeg> legs;
  std::size_t root_duct = 0;  ///< whose corner the others name
  std::size_t root_corner = 0;
  std::optional<std::size_t> inlet_of;   ///< collector
  std::optional<std::size_t> outlet_of;  ///< collector
  std::size_t node = kNowhere;
};

struct Drawing {
  std::vector<DrawnDuct> ducts;
  std::vector<Meeting> meetings;
};

/// Reads legs and meetings. Refused: a bore or length that cannot be, ends that contradict each other.
base::Result<Drawing> readDrawing(const Draft& draft);

/// "D2 at 3.2 m": a corner, for labels and errors.
std::string cornerPlace(const Draft& draft, const DrawnDuct& duct, std::size_t corner);

/// Unit vector of a leg's direction seen from one of its ends, pointing away from that end.
std::array<double, 3> outward(const DrawnDuct& duct, std::size_t leg, bool from_its_end);

}  // namespace kerfdraft::pieces
