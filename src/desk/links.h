// A link in a label or page, in the colour of the widget's own palette: the default one is of the program's
// first palette and cannot be read on a dark ground.
#pragma once

#include <QString>
#include <QWidget>

namespace kerfdraft::desk {

/// `text` is escaped here.
inline QString linkHtml(const QWidget& on, const QString& target, const QString& text) {
  return QStringLiteral("<a href=\"%1\" style=\"color:%2\">%3</a>")
      .arg(target, on.palette().color(QPalette::Link).name(), text.toHtmlEscaped());
}

}  // namespace kerfdraft::desk
