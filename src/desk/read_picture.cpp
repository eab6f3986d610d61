// The size is asked for before the picture is read, so that a bomb is refused before it is unpacked.
#include "desk/read_picture.h"

#include <fmt/format.h>

#include <QImageReader>

namespace kerfdraft::desk {

base::Result<QImage> readPicture(const std::filesystem::path& path) {
  constexpr int kLargestSide_px = 12000;
  const std::string name = path.filename().string();
  std::error_code error;
  if (!std::filesystem::exists(path, error)) {
    return base::fail(base::ErrorCode::Io, "this file is not there", name);
  }
  QImageReader reader(QString::fromStdString(path.string()));
  reader.setDecideFormatFromContent(true);
  reader.setAutoTransform(true);
  const QSize size = reader.size();
  if (size.width() > kLargestSide_px || size.height() > kLargestSide_px) {
    return base::fail(
        base::ErrorCode::Range,
        fmt::format("it is {} by {} pixels; at most {} a side can be shown. Cut out the part that "
                    "is wanted",
                    size.width(), size.height(), kLargestSide_px),
        name);
  }
  QImage image = reader.read();
  if (image.isNull()) {
    return base::fail(base::ErrorCode::Parse,
                      fmt::format("this cannot be read as a picture: {}", reader.errorString().toStdString()),
                      name);
  }
  return image;
}

}  // namespace kerfdraft::desk
