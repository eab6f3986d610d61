// Light and dark: pictures are made for white paper, and a dark window shows the same with its neutral tones
// exchanged. The colours of the scale stay: they mean something.
#pragma once

#include <QColor>

#include "drawing/display_list.h"

namespace kerfdraft::paint {

enum class Tones { Light, Dark };

/// How a colour of a picture is shown.
QColor shown(drawing::Colour colour, Tones tones);

}  // namespace kerfdraft::paint
