// One worker for the air and one for the verdict; a request that was overtaken is dropped at the next step.
#include "desk/live.h"

#include <QCoreApplication>
#include <QMetaObject>
#include <exception>

namespace kerfdraft::desk {
namespace {

/// A bug in the work is said where a problem of the project would be; the window goes on.
Solved guarded(Solved value, const std::function<void(Solved&)>& work) {
  try {
    work(value);
    return value;
  } catch (const std::exception& bug) {
    Solved failed;
    failed.serial = value.serial;
    failed.project = value.project;
    failed.problem = base::Error{base::ErrorCode::Unsupported,
                                 std::string("The program failed while solving, which is its own mistake: ") +
                                     bug.what() + ". The drawing is as it was.",
                                 {}};
    return failed;
  }
}

}  // namespace

Live::Live(std::shared_ptr<const catalogue::Catalogue> catalogue, QObject* parent)
    : QObject(parent), catalogue_(std::move(catalogue)) {
  solving_.setMaxThreadCount(1);
  judging_.setMaxThreadCount(1);
}

Live::~Live() {
  newest_ = UINT64_MAX;  // whatever still waits is overtaken
  solving_.clear();
  solving_.waitForDone();  // before the other: it gives work to it
  judging_.clear();
  judging_.waitForDone();
}

void Live::request(std::shared_ptr<const shop::Project> project, std::optional<shop::State> trial,
                   std::size_t shown) {
  const std::uint64_t serial = ++asked_;
  newest_ = serial;
  solving_.start([this, serial, project = std::move(project), trial = std::move(trial), shown] {
    if (!isWanted(serial)) {
      return;
    }
    Solved start;
    start.serial = serial;
    start.project = project;
    Solved solved = guarded(start, [&](Solved& value) {
      value = solveShown(project, trial, shown, *catalogue_);
      value.serial = serial;
    });
    hand(solved, Step::Shown);
    bool wanted = true;
    solved = guarded(std::move(solved), [&](Solved& value) {
      wanted = solveOthers(value, *catalogue_, [this, serial] { return isWanted(serial); });
    });
    if (!wanted) {
      return;
    }
    hand(solved, Step::Solved);
    judging_.start([this, serial, solved = std::move(solved)] {
      if (isWanted(serial)) {
        hand(guarded(solved, [this](Solved& value) { judgeSolved(value, *catalogue_); }), Step::Judged);
      }
    });
  });
}

void Live::hand(Solved value, Step step) {
  QMetaObject::invokeMethod(
      this, [this, shared = std::make_shared<const Solved>(std::move(value)), step] { answer(shared, step); },
      Qt::QueuedConnection);
}

void Live::answer(std::shared_ptr<const Solved> solved, Step step) {
  if (solved->serial != asked_) {
    return;
  }
  first_ = std::move(solved);
  if (step == Step::Shown) {
    emit shown();
    return;
  }
  latest_ = first_;
  if (step == Step::Solved) {
    emit this->solved();
    return;
  }
  answered_ = latest_->serial;
  emit judged();
}

const std::shared_ptr<const Solved>& Live::of(std::size_t state) const {
  return first_ && (first_->has(state) || !first_->only) ? first_ : latest_;
}

void Live::waitUntilIdle() const {
  while (isBusy()) {
    QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 50);
  }
}

}  // namespace kerfdraft::desk
