// "This thing": whatever is picked can be read and changed here, and its solved figures stand below. The same
// for the state of use that is shown: its gates, doors, hoses, and what runs.
#pragma once

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <QWidget>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "desk/bench.h"
#include "desk/models/properties.h"

namespace kerfdraft::desk {

class PropertiesPanel : public QWidget {
  Q_OBJECT

 public:
  enum class About { Picked, State };
  explicit PropertiesPanel(Bench bench, QWidget* parent = nullptr, About about = About::Picked);
  ~PropertiesPanel() override;

  /// The widget in which a row is changed; null where there is none. For tests and for leading there.
  QWidget* editor(const std::string& path) const;
  /// What stands beneath a row; empty where nothing was refused.
  QString refusal(const std::string& path) const;
  QString title() const { return title_->text(); }
  /// What was typed for something that is no longer picked, and why it was not taken; empty otherwise.
  QString leftBehind() const { return left_behind_->text(); }

 protected:
  /// Escape in a field gives up what was typed there.
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  struct Row {
    PropertyRow shown;
    QWidget* editor = nullptr;
    QComboBox* standing = nullptr;
    QLineEdit* source = nullptr;
    QLabel* refused = nullptr;
  };

  std::vector<Thing> things() const;
  base::Id state() const;  ///< the shown one; not valid where it is none of the project's
  std::optional<PropertyForm> form() const;
  void refresh();
  void build(const PropertyForm& form);
  void dropForm();
  void addRow(QFormLayout* layout, const PropertyRow& row);
  void showRow(Row& row, const PropertyRow& values);
  void change(const std::string& path, const QString& text);
  /// Applies what is still being typed, before other things are shown.
  void takeTyped();
  void refuse(Row& row, const QString& sentence) const;
  /// The path of the row whose field, standing or source has the keys, and which of the three.
  std::pair<std::string, int> focused() const;
  void showFigures();

  Bench bench_;
  std::vector<std::pair<std::string, RowEditor>> built_;  ///< which rows the widgets are for
  std::vector<Thing> built_for_;
  base::Id built_for_state_;
  About about_;
  std::map<std::string, Row> rows_;
  bool showing_ = false;
  bool taking_ = false;
  QLabel* title_ = nullptr;
  QLabel* doc_ = nullptr;
  QLabel* left_behind_ = nullptr;
  QPushButton* remove_ = nullptr;
  QScrollArea* scroll_ = nullptr;
  QWidget* form_ = nullptr;
  QLabel* figures_ = nullptr;
};

}  // namespace kerfdraft::desk
