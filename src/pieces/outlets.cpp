// Free outlets: caps and screens of the catalogue on top of the velocity pressure.
#include "pieces/outlets.h"

#include <fmt/format.h>

#include "catalogue/near_keys.h"
#include "physics/fittings.h"
#include "physics/opening.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

struct Cover {
  double cap_k = 0;
  double screen_k = 0;
  std::string name;
  Source source;
};

Result<Cover> coverOf(const catalogue::Catalogue& catalogue, const std::string& form,
                      const std::string& where) {
  std::vector<std::string> known;
  for (const char* table : {"outlet_cap_k", "screen_k"}) {
    const auto view = catalogue::RowView::find(catalogue, table, form);
    if (view) {
      Cover cover;
      cover.name = view->name();
      const bool cap = std::string_view(table) == "outlet_cap_k";
      (cap ? cover.cap_k : cover.screen_k) = view->number("k");
      cover.source = sourceOf(view->origin(), fmt::format("1.0 + K of {}", view->name()));
      return cover;
    }
    const auto rows = catalogue.table(table);
    if (!rows) {
      return Failure(rows.error());
    }
    for (const catalogue::Row& row : (*rows)->rows()) {
      known.push_back(row.key);
    }
  }
  return fail(ErrorCode::Reference,
              fmt::format("there is no outlet cap or screen \"{}\"{}", form,
                          catalogue::nearKeysSentence(form, known)),
              where);
}

}  // namespace

Result<DraftPiece> freeOutlet(const Draft& draft, const shop::FreeAir& end, Id duct, const std::string& label,
                              double bore_m) {
  Cover cover;
  cover.source = {std::string(physics::kOutlet.formula), std::string(physics::kOutlet.source),
                  physics::kOutlet.status};
  if (!end.form.empty()) {
    auto found = coverOf(draft.catalogue, end.form, label);
    if (!found) {
      return Failure(found.error());
    }
    cover = std::move(*found);
  }
  DraftPiece out;
  out.piece.key = {Role::Outlet, duct, {}};
  out.piece.label = cover.name.empty() ? fmt::format("{}: outlet", label)
                                       : fmt::format("{}: outlet, {}", label, cover.name);
  out.piece.group = Group::Outlet;
  out.piece.bore_m = bore_m;
  out.piece.k_forward = physics::outlet(cover.cap_k, cover.screen_k);
  // Sucking in: a plain duct end, and the cap is in the way of the air then too.
  out.piece.k_reverse = physics::kOutletSuckingIn + cover.cap_k + cover.screen_k;
  out.piece.source = std::move(cover.source);
  return out;
}

}  // namespace kerfdraft::pieces
