// The same functions as the command line's, on what is looked at.
#include "desk/output.h"

#include <QPainter>
#include <algorithm>

#include "drawing/isometric.h"
#include "drawing/plan.h"
#include "drawing/style.h"
#include "drawing/svg.h"
#include "files/save.h"
#include "paint/painter.h"
#include "papers/draw_overlay.h"
#include "papers/html.h"
#include "papers/paper_input.h"
#include "papers/papers.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::Failure;
using base::Result;

/// The newest result, where it is one of what is drawn now.
Result<std::shared_ptr<const Solved>> present(const Bench& bench) {
  const std::shared_ptr<const Solved>& solved = bench.live.latest();
  if (!solved || bench.live.isBusy()) {
    return base::fail(ErrorCode::Conflict, "the last change is still being solved; try again in a moment");
  }
  if (solved->problem) {
    return Failure(*solved->problem);
  }
  return solved;
}

}  // namespace

Result<drawing::Picture> sheetOf(const Bench& bench) {
  const auto solved = present(bench);
  if (!solved) {
    return Failure(solved.error());
  }
  const Look& look = bench.look;
  const std::size_t state = look.state();
  if (state >= (*solved)->states()) {
    return base::fail(ErrorCode::Conflict, "no state of use is shown; choose one below the plan");
  }
  const judge::Assessment& assessment = *(*solved)->assessment;
  drawing::TitleBlock title;
  title.shop = (*solved)->project->setting.name;
  title.note = (*solved)->project->setting.note;
  title.drawing = look.isometric() ? "Isometric sketch" : "Plan";
  title.state = assessment.states[state].name;
  title.standing = "predicted";
  title.caution = std::string(drawing::kCaution);
  const judge::StateBands* bands = state < (*solved)->bands.size() ? &(*solved)->bands[state] : nullptr;
  const drawing::Overlay overlay =
      papers::overlayOf(assessment, state, (*solved)->margins[state], look.units(), bands);
  if (look.isometric()) {
    drawing::IsometricOptions options;
    options.units = look.units();
    options.title = std::move(title);
    options.turned_rad = look.turned();
    options.graded = true;
    return drawing::drawIsometric(*(*solved)->project, overlay, options);
  }
  drawing::PlanOptions options;
  options.units = look.units();
  options.title = std::move(title);
  return drawing::drawPlan(*(*solved)->project, *assessment.pieces, overlay, options);
}

Result<void> savePicture(const drawing::Picture& picture, const std::filesystem::path& path) {
  const std::string ending = path.extension().string();
  if (ending == ".svg") {
    return files::replaceFile(path, drawing::toSvg(picture), files::Backup::None);
  }
  if (ending == ".pdf") {
    return paint::writePdf({picture}, path);
  }
  if (ending == ".png") {
    return paint::writePng(picture, path);
  }
  return base::fail(ErrorCode::Unsupported, "a picture is saved as .svg, .pdf or .png",
                    path.filename().string());
}

Result<void> printPicture(const drawing::Picture& picture, QPrinter& printer) {
  printer.setPageOrientation(picture.width_mm > picture.height_mm ? QPageLayout::Landscape
                                                                  : QPageLayout::Portrait);
  QPainter painter;
  if (!painter.begin(&printer)) {
    return base::fail(ErrorCode::Io, "the printer does not take anything");
  }
  const QRectF page = printer.pageLayout().paintRectPixels(printer.resolution());
  const double px_per_mm = std::min(page.width() / picture.width_mm, page.height() / picture.height_mm);
  // Never larger than drawn: its scale would no longer be true.
  constexpr double kInch_mm = 25.4;
  paint::draw(painter, picture, std::min(px_per_mm, printer.resolution() / kInch_mm));
  return {};
}

Result<void> saveReport(const Bench& bench, const std::filesystem::path& path, const std::string& date) {
  const auto solved = present(bench);
  if (!solved) {
    return Failure(solved.error());
  }
  const auto judgement = papers::Judgement::of(*(*solved)->assessment, *bench.catalogue);
  if (!judgement) {
    return Failure(judgement.error());
  }
  const papers::PaperInput input = (*judgement)->input(date, bench.look.units(), bench.look.reader());
  return files::replaceFile(path, papers::toHtml(papers::paperOf(input)), files::Backup::None);
}

}  // namespace kerfdraft::desk
