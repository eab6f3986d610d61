// The drawing or picture under the plan as it was read: beside the event loop, once for each file, and anew
// when the file was written.
#pragma once

#include <QImage>
#include <QObject>
#include <QPainter>
#include <QPixmap>
#include <QThreadPool>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "desk/models/underlay.h"
#include "desk/plan_view.h"
#include "paint/tones.h"

namespace kerfdraft::desk {

/// What was read of a file, or why not. Never changed once it is there.
struct SheetContent {
  std::optional<files::DxfDrawing> drawing{};
  QImage picture{};
  std::string problem{};  ///< a sentence where it could not be read

  SheetSize size() const;
  bool ok() const { return problem.empty(); }
};

/// A DXF drawing or a picture, told apart by what is in it. May be called on any thread.
SheetContent readSheet(const std::filesystem::path& path);

class UnderlaySheet : public QObject {
  Q_OBJECT

 public:
  explicit UnderlaySheet(QObject* parent = nullptr);
  ~UnderlaySheet() override;

  /// Which file is meant; empty for none. Begins to read where it is another one, or was written since.
  void want(const std::filesystem::path& path);
  /// What was read of it; null while nothing was asked for or it is still being read.
  const std::shared_ptr<const SheetContent>& content() const { return content_; }
  bool isReading() const { return reading_; }
  /// For tests: lets the event loop run until it is read.
  void waitUntilRead() const;

  /// Under the plan, as the project says. Painted once for each view, then copied.
  void paint(QPainter& painter, const PlanView& view, QSize size, const shop::Underlay& underlay,
             paint::Tones tones);

 signals:
  void changed();  ///< content() or isReading()

 private:
  struct Painted {
    PlanView view;
    QSize size;
    qreal ratio = 1;
    shop::Underlay underlay;
    paint::Tones tones = paint::Tones::Light;
    std::shared_ptr<const SheetContent> content;
    QPixmap pixels;
  };
  QPixmap paintAnew(const PlanView& view, QSize size, qreal ratio, const shop::Underlay& underlay,
                    paint::Tones tones) const;

  std::filesystem::path path_;
  std::filesystem::file_time_type written_{};
  std::uint64_t asked_ = 0;
  bool reading_ = false;
  std::shared_ptr<const SheetContent> content_;
  std::optional<Painted> painted_;
  QThreadPool pool_;
};

}  // namespace kerfdraft::desk
