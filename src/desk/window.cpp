// Puts the parts together; what each does is its own business.
#include "desk/window.h"

#include <QStatusBar>

#include "desk/tools/select_tool.h"

namespace kerfdraft::desk {

Window::Window(std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent)
    : QMainWindow(parent), catalogue_(std::move(catalogue)), live_(catalogue_) {
  canvas_ = new Canvas(bench(), this);
  setCentralWidget(canvas_);
  canvas_->take(new SelectTool(bench(), this));
  const auto solve = [this] { live_.request(document_.snapshot(), look_.trial()); };
  connect(&document_, &Document::projectChanged, this, solve);
  connect(&look_, &Look::trialChanged, this, solve);
  connect(canvas_, &Canvas::hintChanged, this,
          [this](const QString& hint) { statusBar()->showMessage(hint); });
  statusBar()->showMessage(canvas_->tool()->hint());
  resize(1280, 800);
}

Window::~Window() = default;

}  // namespace kerfdraft::desk
