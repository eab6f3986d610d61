// Pictures on a painter: the one way from a display list to pixels and to PDF.
#pragma once

#include <QImage>
#include <QPainter>
#include <QString>
#include <filesystem>
#include <span>
#include <vector>

#include "base/result.h"
#include "drawing/display_list.h"
#include "paint/tones.h"

namespace kerfdraft::paint {

/// Makes the shipped font known to the program, once. Call it after the application object is there; false
/// where the font system refuses it, and texts then fall back to another font.
bool loadFonts();

/// Draws a picture with its upper left corner at the painter's origin, so many pixels to the millimetre.
void draw(QPainter& painter, const drawing::Picture& picture, double px_per_mm, Tones tones = Tones::Light);
/// Some of its shapes, so that something else can lie between its layers.
void draw(QPainter& painter, std::span<const drawing::Shape> shapes, double px_per_mm, Tones tones);

/// The picture on its ground as an image.
QImage toImage(const drawing::Picture& picture, double px_per_mm, Tones tones = Tones::Light);

/// One page for each picture, as large as it is. Errors: a file that cannot be written.
base::Result<void> writePdf(const std::vector<drawing::Picture>& pictures, const std::filesystem::path& path);
/// Errors: a file that cannot be written, a picture too large for memory.
base::Result<void> writePng(const drawing::Picture& picture, const std::filesystem::path& path,
                            double dots_per_inch = 150);

/// What lies at a place of a picture [mm]: the groups that hold it, innermost first, the one on top before
/// what it covers. Lines count within `reach_mm`.
struct Found {
  std::string kind;
  std::string element;
  std::string title;
};
std::vector<Found> elementsAt(const drawing::Picture& picture, drawing::At at, double reach_mm);

}  // namespace kerfdraft::paint
