// The window: canvas in the middle, tools beside it, panels round it, one line that says what is expected
// next.
#pragma once

#include <QMainWindow>
#include <memory>

#include "desk/bench.h"
#include "desk/canvas.h"

namespace kerfdraft::desk {

class Window : public QMainWindow {
  Q_OBJECT

 public:
  explicit Window(std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent = nullptr);
  ~Window() override;

  Bench bench() { return {document_, look_, live_, catalogue_}; }
  Canvas& canvas() { return *canvas_; }
  Document& document() { return document_; }
  Look& look() { return look_; }
  Live& live() { return live_; }

 private:
  std::shared_ptr<const catalogue::Catalogue> catalogue_;
  Document document_;
  Look look_;
  Live live_;
  Canvas* canvas_ = nullptr;
};

}  // namespace kerfdraft::desk
