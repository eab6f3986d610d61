// A question that was overtaken before its turn is not begun; one that is overtaken later tells nothing.
#include "desk/aside.h"

#include <QMetaObject>
#include <exception>
#include <utility>

namespace kerfdraft::desk {

Aside::Aside(QObject* parent) : QObject(parent) {
  pool_.setMaxThreadCount(1);
}

Aside::~Aside() {
  drop();
  pool_.waitForDone();
}

void Aside::ask(Work work, Tell tell) {
  const std::uint64_t serial = ++newest_;
  busy_ = true;
  pool_.start([this, serial, work = std::move(work), tell = std::move(tell)] {
    const auto wanted = [this, serial] { return newest_ == serial; };
    if (!wanted()) {
      return;
    }
    std::vector<std::string> lines;
    try {
      lines = work(wanted);
    } catch (const std::exception& bug) {
      lines = {std::string("The program failed here, which is its own mistake: ") + bug.what() + "."};
    }
    QMetaObject::invokeMethod(
        this,
        [this, serial, lines = std::move(lines), tell] {
          if (newest_ == serial) {
            busy_ = false;
            tell(lines);
          }
        },
        Qt::QueuedConnection);
  });
}

void Aside::drop() {
  ++newest_;
  busy_ = false;
  pool_.clear();
}

}  // namespace kerfdraft::desk
