// Widgets have no colour of their own: ink, paper, planed wood and one blue.
#include "desk/theme.h"

#include <QApplication>
#include <QFont>
#include <QToolTip>

#include "drawing/style.h"

namespace kerfdraft::desk {

QPalette paletteOf(paint::Tones tones) {
  const auto tone = [tones](drawing::Colour colour) { return paint::shown(colour, tones); };
  QPalette palette;
  palette.setColor(QPalette::Window, tone(drawing::kWhite).darker(tones == paint::Tones::Light ? 104 : 90));
  palette.setColor(QPalette::Base, tone(drawing::kWhite));
  palette.setColor(QPalette::AlternateBase, tone(drawing::kBody));
  palette.setColor(QPalette::Button, tone(drawing::kBody));
  for (const QPalette::ColorRole role :
       {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText}) {
    palette.setColor(role, tone(drawing::kInk));
  }
  palette.setColor(QPalette::PlaceholderText, tone(drawing::kFaint));
  palette.setColor(QPalette::ToolTipBase, tone(drawing::kBody));
  palette.setColor(QPalette::Highlight, tone(drawing::kBlue));
  palette.setColor(QPalette::Link, tone(drawing::kBlue));
  palette.setColor(QPalette::LinkVisited, tone(drawing::kBlue));
  palette.setColor(QPalette::HighlightedText, tone(drawing::kWhite));
  for (const QPalette::ColorRole role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
    palette.setColor(QPalette::Disabled, role, tone(drawing::kFaint));
  }
  return palette;
}

void applyTheme(paint::Tones tones, double text_factor) {
  const QPalette palette = paletteOf(tones);
  QApplication::setPalette(palette);
  QToolTip::setPalette(palette);
  static const double kUsual_pt = QApplication::font().pointSizeF();
  QFont font = QApplication::font();
  font.setPointSizeF(kUsual_pt * text_factor);
  QApplication::setFont(font);
}

}  // namespace kerfdraft::desk
