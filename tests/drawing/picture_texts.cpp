// Walks the tree of groups.
#include "drawing/picture_texts.h"

namespace kerfdraft::drawing {
namespace {

void walk(const std::vector<Shape>& shapes, const std::function<void(const Shape&)>& each) {
  for (const Shape& shape : shapes) {
    each(shape);
    if (const auto* group = std::get_if<Group>(&shape.what)) {
      walk(group->shapes, each);
    }
  }
}

}  // namespace

std::vector<const Group*> groupsOf(const Picture& picture) {
  std::vector<const Group*> out;
  walk(picture.shapes, [&](const Shape& shape) {
    if (const auto* group = std::get_if<Group>(&shape.what)) {
      out.push_back(group);
    }
  });
  return out;
}

std::vector<const Text*> textsOf(const Picture& picture) {
  std::vector<const Text*> out;
  walk(picture.shapes, [&](const Shape& shape) {
    if (const auto* text = std::get_if<Text>(&shape.what)) {
      out.push_back(text);
    }
  });
  return out;
}

std::vector<LabelBox> labelsOf(const Picture& picture) {
  std::vector<LabelBox> out;
  for (const Group* group : groupsOf(picture)) {
    if (!group->kind.ends_with("-label")) {
      continue;
    }
    LabelBox label{group->kind, group->element, {}, {}};
    for (const Shape& shape : group->shapes) {
      const auto* text = std::get_if<Text>(&shape.what);
      const auto* path = std::get_if<Path>(&shape.what);
      if (text != nullptr) {
        label.words += (label.words.empty() ? "" : " | ") + text->text;
      }
      if (text != nullptr || (path != nullptr && path->closed)) {
        label.box.add(boundsOf(shape));
      }
    }
    out.push_back(std::move(label));
  }
  return out;
}

std::vector<std::string> overlaps(const Picture& picture) {
  std::vector<std::string> out;
  const std::vector<LabelBox> labels = labelsOf(picture);
  for (std::size_t a = 0; a < labels.size(); ++a) {
    for (std::size_t b = a + 1; b < labels.size(); ++b) {
      // Rounding of a millionth of a millimetre is no overlap.
      if (overlap(labels[a].box.grown(-1e-6), labels[b].box.grown(-1e-6))) {
        out.push_back("\"" + labels[a].words + "\" lies over \"" + labels[b].words + "\"");
      }
    }
  }
  return out;
}

}  // namespace kerfdraft::drawing
