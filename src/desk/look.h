// How the project is being looked at: never part of it, never undone.
#pragma once

#include <QObject>
#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <set>

#include "base/id.h"
#include "base/units.h"
#include "desk/solved.h"
#include "desk/underlay_sheet.h"
#include "judge/rule.h"
#include "paint/tones.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// What the place tool puts down with the next click; one of the two, or nothing.
struct InHand {
  std::optional<shop::Machine> machine{};
  std::optional<shop::Collector> collector{};
  double inlet_height_m = 1.2;  ///< of a collector; four feet, assumed
};

class Look : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;

  base::UnitSystem units() const { return units_; }
  judge::Reader reader() const { return reader_; }
  paint::Tones tones() const { return tones_; }
  bool isometric() const { return isometric_; }
  double turned() const { return turned_rad_; }
  /// Index of the state that is shown, among those of Solved; a trial is the last.
  std::size_t state() const { return state_; }
  const std::optional<shop::State>& trial() const { return trial_; }
  const std::set<base::Id>& selection() const { return selection_; }
  /// The result kept for comparison, or null.
  const std::shared_ptr<const Solved>& kept() const { return kept_; }

  const InHand& inHand() const { return in_hand_; }
  /// The drawing or picture under the plan, as it was read.
  UnderlaySheet& sheet() const { return sheet_; }

  void setUnits(base::UnitSystem units);
  void setReader(judge::Reader reader);
  void setTones(paint::Tones tones);
  void setIsometric(bool isometric);
  void setTurned(double rad);
  void setState(std::size_t state);
  void setTrial(std::optional<shop::State> trial);
  void select(std::set<base::Id> selection);
  void keep(std::shared_ptr<const Solved> kept);
  void setInHand(InHand hand);
  /// Asks for a side panel or a tool by its key, and for everything to be brought into sight.
  void askPanel(const QString& key) { emit panelAsked(key); }
  void askTool(const QString& key) { emit toolAsked(key); }
  void showAll() { emit allAsked(); }
  /// A file to be laid under the plan: one was dropped on the window.
  void offerUnderlay(const std::filesystem::path& file) { emit underlayOffered(file); }
  /// Asks the canvas to show and mark a thing: a finding leads to its place.
  void showPlace(base::Id id) { emit placeAsked(id); }
  /// Asks for the derivation of a number (judge::NumberKey text).
  void askWhy(const QString& key) { emit whyAsked(key); }

 signals:
  void unitsChanged();
  void readerChanged();
  void tonesChanged();
  void viewChanged();  ///< isometric or turned
  void stateChanged();
  void trialChanged();
  void selectionChanged();
  void keptChanged();
  void inHandChanged();
  void panelAsked(const QString& key);
  void toolAsked(const QString& key);
  void allAsked();
  void underlayOffered(const std::filesystem::path& file);
  void placeAsked(kerfdraft::base::Id id);
  void whyAsked(const QString& key);

 private:
  base::UnitSystem units_ = base::UnitSystem::Metric;
  judge::Reader reader_ = judge::Reader::Owner;
  paint::Tones tones_ = paint::Tones::Light;
  bool isometric_ = false;
  double turned_rad_ = 0;
  std::size_t state_ = 0;
  std::optional<shop::State> trial_;
  std::set<base::Id> selection_;
  std::shared_ptr<const Solved> kept_;
  InHand in_hand_;
  mutable UnderlaySheet sheet_;
};

}  // namespace kerfdraft::desk
