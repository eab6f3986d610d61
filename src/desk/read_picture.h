// Pictures that a person brings: a maker's chart, a sketch of the shop.
#pragma once

#include <QImage>
#include <filesystem>

#include "base/result.h"

namespace kerfdraft::desk {

/// Upright, as its camera says. Refused with a sentence: no picture that is known here, damage, more than
/// 12 000 pixels a side.
base::Result<QImage> readPicture(const std::filesystem::path& path);

}  // namespace kerfdraft::desk
