// A window in which a fan's curve is traced from a picture of its maker's chart.
#pragma once

#include <QComboBox>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QWidget>
#include <array>
#include <optional>
#include <vector>

#include "desk/bench.h"
#include "desk/models/curve_tracing.h"

namespace kerfdraft::desk {

/// The picture, fitted into the room there is; places are in its own pixels.
class TracedPicture : public QWidget {
  Q_OBJECT

 public:
  explicit TracedPicture(QWidget* parent);

  void setImage(const QImage& image);
  bool hasImage() const { return !image_.isNull(); }
  /// The two places of the flow, the two of the pressure, then those along the curve.
  const std::vector<drawing::At>& places() const { return places_; }
  void setCurve(std::vector<drawing::At> curve);
  void removeLast();
  double reachInPicture() const;
  QPointF shownAt(drawing::At at) const;

 signals:
  void placesChanged();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  double share() const;
  QPointF origin() const;
  drawing::At pictureAt(QPointF at) const;
  void moveHeld(double x, double y);

  QImage image_;
  std::vector<drawing::At> places_;
  std::vector<drawing::At> curve_;
  std::optional<std::size_t> held_;    ///< dragged
  std::optional<QPointF> again_;       ///< where an axis place was pressed and not yet dragged
  std::optional<std::size_t> chosen_;  ///< moved by the arrow keys
};

class CurveTracing : public QWidget {
  Q_OBJECT

 public:
  explicit CurveTracing(Bench bench, QWidget* parent = nullptr);

  bool load(const QString& path);
  TracedPicture& picture() { return *picture_; }
  QString says() const { return says_->text(); }

 signals:
  void traced(const std::vector<kerfdraft::desk::TypedPoint>& points);

 private:
  void take(const QImage& image, const QString& name);
  base::Result<std::vector<TypedPoint>> points() const;
  base::Result<PictureScale> scale() const;
  void follow();

  Bench bench_;
  TracedPicture* picture_ = nullptr;
  QLabel* says_ = nullptr;
  std::array<QLineEdit*, 4> values_{};
  std::array<QComboBox*, 2> scales_{};
  QPushButton* take_ = nullptr;
};

}  // namespace kerfdraft::desk
