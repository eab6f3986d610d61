// The charts of the shown state, live; the value under the pointer is read back.
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QWidget>
#include <optional>

#include "desk/bench.h"
#include "desk/models/charts.h"

namespace kerfdraft::desk {

/// Paints a chart at its own size; a cross follows the pointer or the arrow keys.
class ChartView : public QWidget {
  Q_OBJECT

 public:
  ChartView(Bench bench, QWidget* parent);

  void setKind(ChartKind kind);
  ChartKind kind() const { return kind_; }
  const ShownChart& chart();
  void invalidate();

 signals:
  void read(const QString& text);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void leaveEvent(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void readBack(std::optional<drawing::At> pointer);

  Bench bench_;
  ChartKind kind_ = ChartKind::Fan;
  std::optional<ShownChart> chart_;
  std::optional<drawing::At> pointer_;
  std::optional<ChartReading> reading_;
};

class ChartsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit ChartsPanel(Bench bench, QWidget* parent = nullptr);
  ChartView& view() { return *view_; }
  QString reading() const { return reading_->text(); }

 private:
  void save();

  Bench bench_;
  QComboBox* kind_ = nullptr;
  ChartView* view_ = nullptr;
  QLabel* reading_ = nullptr;
};

}  // namespace kerfdraft::desk
