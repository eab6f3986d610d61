// Each setter tells only of what changed.
#include "desk/look.h"

namespace kerfdraft::desk {

void Look::setUnits(base::UnitSystem units) {
  if (units_ != units) {
    units_ = units;
    emit unitsChanged();
  }
}

void Look::setReader(judge::Reader reader) {
  if (reader_ != reader) {
    reader_ = reader;
    emit readerChanged();
  }
}

void Look::setTones(paint::Tones tones) {
  if (tones_ != tones) {
    tones_ = tones;
    emit tonesChanged();
  }
}

void Look::setIsometric(bool isometric) {
  if (isometric_ != isometric) {
    isometric_ = isometric;
    emit viewChanged();
  }
}

void Look::setTurned(double rad) {
  if (turned_rad_ != rad) {
    turned_rad_ = rad;
    emit viewChanged();
  }
}

void Look::setState(std::size_t state) {
  if (state_ != state) {
    state_ = state;
    emit stateChanged();
  }
}

void Look::setTrial(std::optional<shop::State> trial) {
  if (trial_ != trial) {
    trial_ = std::move(trial);
    emit trialChanged();
  }
}

void Look::select(std::set<base::Id> selection) {
  if (selection_ != selection) {
    selection_ = std::move(selection);
    emit selectionChanged();
  }
}

void Look::keep(std::shared_ptr<const Solved> kept) {
  if (kept_ != kept) {
    kept_ = std::move(kept);
    emit keptChanged();
  }
}

void Look::setInHand(InHand hand) {
  in_hand_ = std::move(hand);
  emit inHandChanged();
}

}  // namespace kerfdraft::desk
