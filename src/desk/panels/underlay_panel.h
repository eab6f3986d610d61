// The drawing or picture under the plan: which file, how large, which layers, how strong.
#pragma once

#include <QCheckBox>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QSlider>
#include <QWidget>
#include <filesystem>

#include "desk/bench.h"

namespace kerfdraft::desk {

class UnderlayPanel : public QWidget {
  Q_OBJECT

 public:
  explicit UnderlayPanel(Bench bench, QWidget* parent = nullptr);

  /// Lays a file under the plan; a sentence in the panel where it cannot be read.
  void choose(const std::filesystem::path& file);
  QString said() const { return says_->text(); }

 private:
  void ask();
  void refresh();
  void lay(const std::filesystem::path& file);
  void put(const QString& words, const std::optional<shop::Underlay>& underlay, int gesture = 0);
  void fillLayers();

  Bench bench_;
  std::filesystem::path waiting_;  ///< chosen, and still being read
  QString refused_;                ///< of the last thing done here
  QPushButton* choose_ = nullptr;
  QLabel* file_ = nullptr;
  QLabel* says_ = nullptr;
  QCheckBox* shown_ = nullptr;
  QSlider* strength_ = nullptr;
  QPushButton* hand_ = nullptr;
  QListWidget* layers_ = nullptr;
  QLabel* layers_title_ = nullptr;
  QPushButton* remove_ = nullptr;
  int strength_gesture_ = 0;
  bool filling_ = false;
};

}  // namespace kerfdraft::desk
