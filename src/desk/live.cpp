// One worker; a request that was overtaken while it waited is dropped before it is begun.
#include "desk/live.h"

#include <QCoreApplication>
#include <QMetaObject>

namespace kerfdraft::desk {

Live::Live(std::shared_ptr<const catalogue::Catalogue> catalogue, QObject* parent)
    : QObject(parent), catalogue_(std::move(catalogue)) {
  pool_.setMaxThreadCount(1);
}

Live::~Live() {
  newest_ = UINT64_MAX;  // whatever still waits is overtaken
  pool_.clear();
  pool_.waitForDone();
}

void Live::request(std::shared_ptr<const shop::Project> project, std::optional<shop::State> trial) {
  const std::uint64_t serial = ++asked_;
  newest_ = serial;
  pool_.start([this, serial, project = std::move(project), trial = std::move(trial)] {
    if (newest_ != serial) {
      return;
    }
    Solved solved = solveShop(project, trial, *catalogue_);
    solved.serial = serial;
    const auto hand = [this](const Solved& value, bool last) {
      QMetaObject::invokeMethod(
          this, [this, shared = std::make_shared<const Solved>(value), last] { answer(shared, last); },
          Qt::QueuedConnection);
    };
    hand(solved, false);
    if (newest_ != serial) {
      return;
    }
    judgeSolved(solved, *catalogue_);
    hand(solved, true);
  });
}

void Live::answer(std::shared_ptr<const Solved> solved, bool last) {
  if (solved->serial != asked_) {
    return;
  }
  latest_ = std::move(solved);
  if (last) {
    answered_ = latest_->serial;
    emit judged();
  } else {
    emit this->solved();
  }
}

void Live::waitUntilIdle() const {
  while (isBusy()) {
    QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 50);
  }
}

}  // namespace kerfdraft::desk
