// Copying things from place to place and from window to window, as the text of a small project.
#include <QApplication>
#include <QClipboard>
#include <QMimeData>
#include <cmath>

#include "desk/models/clip.h"
#include "desk/models/snap.h"
#include "desk/tools/sketching.h"
#include "desk/window.h"

namespace kerfdraft::desk {
namespace {

constexpr auto kJson = "application/json";

}  // namespace

void Window::copyPicked() {
  const base::Result<std::string> text = textOfThings(document_.project(), look_.selection());
  if (!text) {
    showRefused(QString::fromStdString(text.error().text()));
    return;
  }
  auto* held = new QMimeData;
  held->setData(QLatin1String(kJson), QByteArray::fromStdString(*text));
  held->setText(QString::fromStdString(*text));
  QApplication::clipboard()->setMimeData(held);
  hint_->setText(tr("Copied; point where it goes and press %1.")
                     .arg(QKeySequence(QKeySequence::Paste).toString(QKeySequence::NativeText)));
}

void Window::putCopied() {
  if (look_.isometric()) {
    showRefused(tr("Copied things are put in on the plan; go back to the plan first."));
    return;
  }
  const QMimeData* held = QApplication::clipboard()->mimeData();
  std::string text;
  if (held != nullptr && held->hasFormat(QLatin1String(kJson))) {
    text = held->data(QLatin1String(kJson)).toStdString();
  } else if (held != nullptr && held->hasText()) {
    text = held->text().toStdString();
  }
  const double step_um = gridStep(canvas_->view().metres(kSnapReach_px), look_.units()) * 1e6;
  const auto stepped = [step_um](std::int64_t um) {
    return std::llround(std::round(static_cast<double>(um) / step_um) * step_um);
  };
  const shop::PlanPoint hand = canvas_->handPlace();
  DocumentIds ids(document_);
  std::set<base::Id> made;
  const auto put = putThings(document_.project(), text, {stepped(hand.x_um), stepped(hand.y_um)}, ids, &made);
  change(put, std::move(made));
}

}  // namespace kerfdraft::desk
