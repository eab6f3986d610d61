// Tooltips that explain the trade's words, for any widget that has words on it.
#pragma once

#include <QString>
#include <QWidget>

namespace kerfdraft::desk {

/// Sentences for every term of a text, to stand under the pointer; empty where it uses none.
QString tooltipFor(const QString& text);

/// Gives every label, button, box, tab and table header inside a widget, and itself, a tooltip for the terms
/// on it, where it has none yet. To be called when the words stand.
void explainTerms(QWidget* inside);

}  // namespace kerfdraft::desk
