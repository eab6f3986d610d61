// Typing at the pointer by other means than single keys, and telling what is going on to whoever does not see
// it.
#include <QAccessible>
#include <QFontMetrics>
#include <QInputMethodEvent>

#include "desk/canvas.h"
#include "desk/canvas_access.h"
#include "desk/models/spoken.h"

namespace kerfdraft::desk {
namespace {

/// Figures and letters as wide as ideographs, as some input methods give them, as the plain ones.
QChar plain(QChar c) {
  constexpr char16_t kWideFirst = 0xff01;
  constexpr char16_t kWideLast = 0xff5e;
  constexpr char16_t kWideSpace = 0x3000;
  constexpr char16_t kApart = 0xfee0;
  const char16_t code = c.unicode();
  return code == kWideSpace                        ? QChar(u' ')
         : code >= kWideFirst && code <= kWideLast ? QChar(static_cast<char16_t>(code - kApart))
                                                   : c;
}

bool press(Tool& tool, int key, const QString& text) {
  QKeyEvent event(QEvent::KeyPress, key, Qt::NoModifier, text);
  return tool.keyPress(&event);
}

}  // namespace

bool Canvas::takesTyping() const {
  return tool_ != nullptr &&
         tool_->wantsKey(QKeyEvent(QEvent::KeyPress, Qt::Key_1, Qt::NoModifier, QStringLiteral("1")));
}

void Canvas::typeText(const QString& text) {
  if (tool_ == nullptr) {
    return;
  }
  bool taken = false;
  for (qsizetype k = 0; k < text.size(); ++k) {
    const QChar c = plain(text[k]);
    if (c == u'\n' || c == u'\r') {
      taken = press(*tool_, Qt::Key_Return, {}) || taken;
    } else if (c.isHighSurrogate() && k + 1 < text.size()) {
      taken = press(*tool_, Qt::Key_unknown, text.mid(k++, 2)) || taken;
    } else if (c.isPrint()) {
      const int key = c.unicode() < 0x80 ? int{c.toUpper().unicode()} : int{Qt::Key_unknown};
      taken = press(*tool_, key, c) || taken;
    }
  }
  if (!taken && !text.trimmed().isEmpty()) {
    emit refused(tr("Nothing can be typed here now. %1").arg(tool_->hint()));
  }
}

void Canvas::inputMethodEvent(QInputMethodEvent* event) {
  preedit_ = event->preeditString();
  if (tool_ != nullptr) {
    for (int k = 0; k < event->replacementLength(); ++k) {
      press(*tool_, Qt::Key_Backspace, {});
    }
  }
  typeText(event->commitString());
  event->accept();
  update();
}

QVariant Canvas::inputMethodQuery(Qt::InputMethodQuery query) const {
  const QString typed = tool_ != nullptr ? tool_->typedText() : QString();
  switch (query) {
    case Qt::ImEnabled:
      // Only while something can be typed: else every single key would be composed instead of being a
      // command.
      return takesTyping();
    case Qt::ImHints:
      return static_cast<int>(Qt::ImhNoPredictiveText | Qt::ImhNoAutoUppercase);
    case Qt::ImCursorRectangle:
    case Qt::ImAnchorRectangle: {
      const QPointF at = pointer_px_.value_or(QPointF(width() / 2.0, height() / 2.0));
      return QRectF(at, QSizeF(1, fontMetrics().height()));
    }
    case Qt::ImSurroundingText:
    case Qt::ImTextBeforeCursor:
      return typed;
    case Qt::ImCursorPosition:
    case Qt::ImAnchorPosition:
      return static_cast<int>(typed.size());
    case Qt::ImCurrentSelection:
    case Qt::ImTextAfterCursor:
      return QString();
    default:
      return QWidget::inputMethodQuery(query);
  }
}

QString Canvas::spoken() const {
  QStringList parts;
  if (tool_ != nullptr) {
    if (const QString typed = tool_->typedText(); !typed.isEmpty()) {
      parts << tr("typed: %1").arg(typed);
    }
    parts << tool_->hint();
  }
  parts << QString::fromStdString(spokenPicked(bench_.document.project(), bench_.look.selection()));
  return parts.join(QStringLiteral("; "));
}

void Canvas::tellTyping() {
  if (hasFocus()) {
    updateMicroFocus();
  }
  if (!QAccessible::isActive()) {
    return;
  }
  if (const QString now = spoken(); now != told_) {
    told_ = now;
    QAccessibleEvent description(this, QAccessible::DescriptionChanged);
    QAccessible::updateAccessibility(&description);
    QAccessibleValueChangeEvent value(this, now);
    QAccessible::updateAccessibility(&value);
  }
}

void Canvas::tellPicked() {
  tellTyping();
  const auto& picked = bench_.look.selection();
  if (!QAccessible::isActive() || picked.size() != 1 || !hasFocus()) {
    return;
  }
  if (const int child = accessibleChildOf(*this, *picked.begin()); child >= 0) {
    QAccessibleEvent focus(this, QAccessible::Focus);
    focus.setChild(child);
    QAccessible::updateAccessibility(&focus);
  }
}

}  // namespace kerfdraft::desk
