// Elbows, hose bends and reducers from the drawing.
#include "pieces/corner_fittings.h"

#include <fmt/format.h>

#include <numbers>
#include <utility>

#include "physics/fittings.h"
#include "physics/hose.h"
#include "pieces/elbow.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

constexpr const char* kUsualElbow = "gored-5";
constexpr double kUsualHoseRadius = 1.5;

Result<DraftPiece> hoseBendPiece(const Draft& draft, const CornerBetween& corner) {
  double radius = kUsualHoseRadius;
  if (corner.corner->elbow && corner.corner->elbow->radius) {
    radius = corner.corner->elbow->radius->si();
    if (!(radius > 0)) {
      return fail(ErrorCode::Range,
                  fmt::format("the radius of a bend must be above zero, not {} times the bore",
                              corner.corner->elbow->radius->text()),
                  corner.place);
    }
  }
  DraftPiece out;
  Piece& piece = out.piece;
  piece.key = {Role::HoseBend, corner.id, {}};
  piece.label = fmt::format("{}: hose bend {}", corner.place, draft.say(Kind::Angle, corner.turn_rad));
  piece.group = Group::Hose;
  piece.bore_m = corner.before->bore_m;
  piece.angle_rad = corner.turn_rad;
  piece.k_forward = piece.k_reverse = physics::hoseBend(radius, corner.turn_rad);
  piece.source = {fmt::format("hose bend, R/D {:.3g}", radius), "", base::SourceStatus::CommonPractice};
  return out;
}

Result<DraftPiece> elbowPiece(Draft& draft, const CornerBetween& corner) {
  std::string form = corner.duct->elbow_form.empty() ? kUsualElbow : corner.duct->elbow_form;
  std::optional<double> radius;
  if (corner.corner->elbow) {
    if (!corner.corner->elbow->form.empty()) {
      form = corner.corner->elbow->form;
    }
    if (corner.corner->elbow->radius) {
      radius = corner.corner->elbow->radius->si();
    }
  }
  DraftPiece out;
  Piece& piece = out.piece;
  piece.key = {Role::Elbow, corner.id, {}};
  piece.bore_m = corner.before->bore_m;
  piece.angle_rad = corner.turn_rad;
  piece.label = fmt::format("{}: elbow {}", corner.place, draft.say(Kind::Angle, corner.turn_rad));
  auto loss = elbowLoss(draft.catalogue, form, radius, piece.bore_m, corner.turn_rad, corner.place);
  if (!loss) {
    return Failure(loss.error());
  }
  if (loss->clamped) {
    draft.note(
        piece.key,
        fmt::format("{}: {} of {} and R/D {:.3g} lies outside its table; the table's end is taken",
                    corner.place, loss->name, draft.say(Kind::Bore, piece.bore_m), loss->radius_ratio));
  }
  piece.k_forward = piece.k_reverse = loss->k;
  piece.source = std::move(loss->source);
  return out;
}

}  // namespace

std::optional<DraftPiece> reducerPiece(const Draft& draft, PieceKey key, const std::string& place,
                                       double from_bore_m, double to_bore_m,
                                       const std::optional<base::Given<base::Angle>>& taper) {
  if (from_bore_m == to_bore_m) {
    return std::nullopt;
  }
  const double angle_rad = taper ? taper->si() : std::numbers::pi;
  const auto area = [](double bore_m) { return physics::roundArea(bore_m); };
  const physics::SizeChange change = physics::sizeChange(area(from_bore_m), area(to_bore_m), angle_rad);
  DraftPiece out;
  Piece& piece = out.piece;
  piece.key = key;
  piece.label = fmt::format("{}: {} {} to {}", place, taper ? "reducer" : "stepped reducer",
                            draft.say(Kind::Bore, from_bore_m), draft.say(Kind::Bore, to_bore_m));
  piece.group = Group::Fitting;
  piece.bore_m = from_bore_m < to_bore_m ? from_bore_m : to_bore_m;
  piece.k_forward = change.k_forward;
  piece.k_reverse = change.k_backward;
  piece.angle_rad = taper ? angle_rad : 0.0;
  const base::Law& law = from_bore_m < to_bore_m ? physics::kExpansion
                         : taper                 ? physics::kContraction
                                                 : physics::kAbruptContraction;
  piece.source = {std::string(law.formula), std::string(law.source), law.status};
  return out;
}

Result<std::vector<DraftPiece>> cornerPieces(Draft& draft, const CornerBetween& corner) {
  std::vector<DraftPiece> out;
  const bool bends = corner.turn_rad > kLeastTurn_rad;
  const auto& loss = corner.corner->loss;
  if (bends) {
    const bool hose = corner.before->isHose() && corner.after->isHose();
    auto piece = hose ? hoseBendPiece(draft, corner) : elbowPiece(draft, corner);
    if (!piece) {
      return Failure(piece.error());
    }
    out.push_back(std::move(*piece));
  }
  if (auto reducer = reducerPiece(draft, {Role::Reducer, corner.id, {}}, corner.place, corner.before->bore_m,
                                  corner.after->bore_m, corner.after->leg->taper)) {
    out.push_back(std::move(*reducer));
  }
  if (loss) {
    if (!(loss->si() >= 0)) {
      return fail(ErrorCode::Range,
                  fmt::format("an entered loss coefficient must not be negative, not {}", loss->text()),
                  corner.place);
    }
    if (out.empty()) {
      DraftPiece fitting;
      fitting.piece.key = {Role::Elbow, corner.id, {}};
      fitting.piece.label = fmt::format("{}: fitting", corner.place);
      fitting.piece.bore_m = corner.before->bore_m;
      out.push_back(std::move(fitting));
    }
    // One figure for the whole corner: where it both bends and changes size, the bend carries it.
    for (std::size_t i = 0; i < out.size(); ++i) {
      Piece& piece = out[i].piece;
      piece.k_forward = piece.k_reverse = i == 0 ? loss->si() : 0.0;
      piece.source = enteredSource(loss->text(), loss->source());
    }
  }
  return out;
}

}  // namespace kerfdraft::pieces
